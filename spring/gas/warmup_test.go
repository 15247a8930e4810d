package gas_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// motocrossLeg weighs 3.3 kg and turns 60 W to heat in air of 20 °C.
func motocrossLeg(wind units.Speed) gas.WarmUpSpec {
	return gas.WarmUpSpec{
		Oil: 0.5 * units.Kilogram, Aluminum: 1.6 * units.Kilogram, Steel: 1.2 * units.Kilogram,
		Gas: 0.19, Diameter: 55 * units.Millimeter, Surface: 0.126, AirSpeed: wind,
		Ambient: gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Atmosphere)},
		Power:   60 * units.Watt,
	}
}

// Round film coefficients of the trade, 25, 55 and 85 W/(m²·K) (from memory): the correlation, which has its own worked
// examples, is within a tenth of them.
func TestWarmUpFilm(t *testing.T) {
	for _, tt := range []struct {
		wind units.Speed
		film float64
	}{{1.5, 25}, {10, 55}, {20, 85}} {
		w := must(gas.NewWarmUp(motocrossLeg(tt.wind)))
		rise := float64(w.Steady().Sub(units.Celsius(20)))
		relative(t, "film at "+tt.wind.String()+", W/(m²·K)", 60/(0.126*rise), tt.film, 0.1)
	}
}

// The closed form against the heat balance in steps of time.
func TestWarmUpAgainstHeatBalance(t *testing.T) {
	spec := motocrossLeg(10)
	spec.Start = units.Celsius(35)
	w := must(gas.NewWarmUp(spec))
	capacity := 1909*0.5 + 896*1.6 + 434*1.2 + 2.5*8.314462618*0.19
	conductance := capacity / float64(w.TimeConstant())
	relative(t, "steady state, W", conductance*float64(w.Steady().Sub(units.Celsius(20))), 60, 1e-9)
	balance := func(_ float64, y, dydt []float64) {
		dydt[0] = (60 - conductance*(y[0]-293.15)) / capacity
	}
	s, err := ode.New(balance, 0, []float64{308.15}, ode.Settings{Relative: 1e-10, Absolute: []float64{1e-8}})
	if err != nil {
		t.Fatal(err)
	}
	for _, minutes := range []float64{0, 1, 5, 20, 60} {
		if err := s.To(60 * minutes); err != nil {
			t.Fatal(err)
		}
		near(t, "temperature, K", w.At(units.Time(minutes)*units.Minute).Kelvin(), s.State()[0], 1e-6)
	}
	if w.At(units.Time(math.Inf(1))) != w.Steady() || w.At(0) != units.Celsius(35) {
		t.Errorf("ends at %v, starts at %v", w.At(units.Time(math.Inf(1))), w.At(0))
	}
	if k := w.At(-1).Kelvin(); k == k {
		t.Errorf("before the start %v", k)
	}
}

// A run in two halves is the run.
func TestWarmUpChain(t *testing.T) {
	spec := motocrossLeg(5)
	whole := must(gas.NewWarmUp(spec))
	spec.Start = whole.At(200)
	rest := must(gas.NewWarmUp(spec))
	near(t, "temperature, K", rest.At(400).Kelvin(), whole.At(600).Kelvin(), 1e-9)

	// More wind, more power: cooler, hotter.
	if must(gas.NewWarmUp(motocrossLeg(20))).Steady().Compare(whole.Steady()) >= 0 {
		t.Error("more wind does not cool")
	}
	spec.Power *= 2
	if must(gas.NewWarmUp(spec)).Steady().Compare(whole.Steady()) <= 0 {
		t.Error("more power does not heat")
	}
}

func FuzzWarmUp(f *testing.F) {
	f.Add(0.5, 1.6, 1.2, 0.19, 0.055, 0.126, 10.0, 293.15, 101325.0, 0.0, 60.0, 600.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, -1.0, math.NaN(), -1.0)
	f.Fuzz(func(t *testing.T, oil, aluminum, steel, amount, diameter, surface, wind, kelvin, p, start, power,
		after float64) {
		w, err := gas.NewWarmUp(gas.WarmUpSpec{
			Oil: units.Mass(oil), Aluminum: units.Mass(aluminum), Steel: units.Mass(steel), Gas: units.Amount(amount),
			Diameter: units.Length(diameter), Surface: units.Area(surface), AirSpeed: units.Speed(wind),
			Ambient: gas.Ambient{Temperature: units.Kelvin(kelvin), Pressure: units.Absolute(units.Pressure(p))},
			Start:   units.Kelvin(start), Power: units.Power(power),
		})
		if err != nil {
			_ = err.Error()
			return
		}
		finite(t, "WarmUp", float64(w.TimeConstant()), w.Steady().Kelvin())
		if !(w.TimeConstant() > 0) {
			t.Errorf("time constant %v", w.TimeConstant())
		}
		if after >= 0 {
			finite(t, "At", w.At(units.Time(after)).Kelvin())
		}
	})
}
