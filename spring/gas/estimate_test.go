package gas_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func column(bore, length units.Length) units.Volume {
	return units.Volume(math.Pi / 4 * float64(bore) * float64(bore) * float64(length))
}

// Time constants by another correlation, the turbulent Nu = 0.13·Ra^(1/3) of textbooks, which does
// not know the length, at 40 K and on the tube's wall alone: τ = ρ·cv·D/(4h). Both claim no better
// than ±50 %.
func TestEstimateExchangeTable(t *testing.T) {
	const mm = units.Millimeter
	for _, tt := range []struct {
		name         string
		bar          units.Pressure
		bore, length units.Length
		seconds      float64
	}{
		{"main chamber of a motocross fork", 10, 34 * mm, 470 * mm, 2.9},
		{"the same near the bottom", 30, 34 * mm, 160 * mm, 4},
		{"bicycle fork", 7, 33 * mm, 300 * mm, 2.5},
		{"bicycle fork, compressed", 16, 33 * mm, 120 * mm, 3.2},
		{"low pressure in the whole leg", 3, 43 * mm, 400 * mm, 2.5},
		{"oil gap", 1, 44 * mm, 200 * mm, 1.7},
		{"gap over a damper rod", 1, 30 * mm, 200 * mm, 1.2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := state(tt.bar*units.Bar, column(tt.bore, tt.length), units.Celsius(20))
			e := must(gas.EstimateExchange(s, tt.bore, 40))
			relative(t, "time constant, s", float64(e.TimeConstant), tt.seconds, 0.5)
			if err := e.Validate(); err != nil {
				t.Error(err)
			}
		})
	}
}

// Without a temperature difference the gas rests and only conducts: τ = (D/2)²/(2.4048²·k/(ρ·cv)),
// k = 0.0257 W/(m·K), ρ·cv = 11.88·718 J/(m³·K).
func TestEstimateExchangeStillGas(t *testing.T) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	still := float64(must(gas.EstimateExchange(s, 34*units.Millimeter, 0)).TimeConstant)
	relative(t, "still gas, s", still, 0.017*0.017/(2.4048*2.4048*0.0257/(11.88*718)), 0.01)
	last := still
	for dt := units.TemperatureDifference(0.001); dt <= 300; dt *= 2 {
		now := float64(must(gas.EstimateExchange(s, 34*units.Millimeter, dt)).TimeConstant)
		if !(now <= last && now > 0.5) {
			t.Errorf("%v K: %v s after %v s", float64(dt), now, last)
		}
		last = now
	}
}

func FuzzEstimateExchange(f *testing.F) {
	f.Add(10e5, 430e-6, 293.15, 0.034, 40.0)
	f.Add(65e5, 1e-2, 200.0, 0.08, 300.0)
	f.Add(math.NaN(), math.Inf(1), 0.0, -1.0, math.NaN())
	f.Fuzz(func(t *testing.T, p, v, kelvin, bore, excess float64) {
		e, err := gas.EstimateExchange(state(units.Pressure(p), units.Volume(v), units.Kelvin(kelvin)),
			units.Length(bore), units.TemperatureDifference(excess))
		if err != nil {
			_ = err.Error()
			return
		}
		if err := e.Validate(); err != nil || !(e.TimeConstant > 0) {
			t.Errorf("time constant %v: %v", e.TimeConstant, err)
		}
	})
}
