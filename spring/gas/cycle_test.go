package gas_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func cycle(bar, ml, kelvin, swing, hertz, tau float64) (*gas.Cycle, error) {
	return gas.NewCycle(gas.CycleSpec{
		Rest:      state(units.Pressure(bar)*units.Bar, units.Volume(ml)*cm3, units.Kelvin(kelvin)),
		Amplitude: units.Volume(ml*swing) * cm3,
		Frequency: units.Frequency(hertz),
		Exchange:  gas.Exchange{TimeConstant: units.Time(tau)},
	})
}

func TestCycleAgainstSolveIVP(t *testing.T) {
	register.Cite(t, "H-51")
	const header = "bar,mL,wall_K,swing,Hz,tau_s,loss_J,exponent,loss_factor,T0_K,T1_K,T2_K,T3_K"
	for _, row := range record.Rows(t, "cycle.csv", header, 10) {
		var x [13]float64
		for i := range x {
			x[i] = record.Number(t, row[i])
		}
		where := fmt.Sprint(row[:6])
		c := must(cycle(x[0], x[1], x[2], x[3], x[4], x[5]))
		relative(t, where+" loss, J", c.Loss().In(units.Joule), x[6], 1e-6)
		relative(t, where+" exponent", c.Exponent(), x[7], 1e-6)
		relative(t, where+" loss factor", c.LossFactor(), x[8], 1e-6)
		loop := slices.Collect(c.Loop())
		for i, kelvin := range x[9:] {
			relative(t, where+" K", loop[i*len(loop)/4].Temperature.Kelvin(), kelvin, 1e-6)
		}
	}
}

// The loop, integrated step by step once around from where it starts.
func TestCycleKeepsEnergyEquation(t *testing.T) {
	for _, swing := range []float64{1e-4, 0.3, 0.9} {
		for _, lag := range []float64{0.03, 0.85, 6, 1e3} {
			c := must(cycle(10, 300, 300, swing, lag/(2*math.Pi), 1))
			loop := slices.Collect(c.Loop())
			slope := func(phi float64, y, dydt []float64) {
				dydt[0] = (300-y[0])/lag - 0.4*y[0]*swing*math.Cos(phi)/(1+swing*math.Sin(phi))
			}
			start := []float64{loop[0].Temperature.Kelvin()}
			s := must(ode.New(slope, 0, start, ode.Settings{Relative: 1e-12, Absolute: []float64{1e-10}}))
			var loss float64
			for i, at := range loop {
				phi := 2 * math.Pi * float64(i) / float64(len(loop))
				if err := s.To(phi); err != nil {
					t.Fatal(err)
				}
				where := fmt.Sprintf("swing %v, lag %v, phase %.2f: K", swing, lag, phi)
				near(t, where, at.Temperature.Kelvin(), s.State()[0], 1e-7)
				loss -= at.Pressure.In(units.Pascal) * 300e-6 * swing * math.Cos(phi) * 2 * math.Pi / float64(len(loop))
			}
			// First law: the loss is the area of the loop.
			near(t, "loss, J", c.Loss().In(units.Joule), loss, 1e-10)
		}
	}
}

// Small swings meet the complex stiffness of Exchange, which the second harmonic disturbs by the
// square of the swing.
func TestCycleSmallAmplitude(t *testing.T) {
	for _, hertz := range []float64{1e-3, 0.02, 0.0549, 0.1, 0.5, 2, 15} {
		e := gas.Exchange{TimeConstant: 2.9}
		c := must(cycle(10, 300, 293.15, 1e-4, hertz, 2.9))
		near(t, "exponent", c.Exponent(), e.Exponent(units.Frequency(hertz)), 1e-7)
		near(t, "loss factor", c.LossFactor(), e.LossFactor(units.Frequency(hertz)), 1e-7)
		// Loss = π·n·tan δ·p₀·V₀·(V̂/V₀)².
		f := units.Frequency(hertz)
		want := math.Pi * e.Exponent(f) * e.LossFactor(f) * 10e5 * 300e-6 * 1e-8
		relative(t, "loss, J", c.Loss().In(units.Joule), want, 1e-6)
	}
}

func TestCycleLimits(t *testing.T) {
	for _, swing := range []float64{1e-6, 0.1, 0.9} {
		slow, fast := must(cycle(10, 300, 293.15, swing, 1, 0)), must(cycle(10, 300, 293.15, swing, 1e4, 3600))
		near(t, "isothermal exponent", slow.Exponent(), 1, 1e-9)
		near(t, "isothermal loss, J", slow.Loss().In(units.Joule), 0, 1e-10)
		near(t, "adiabatic exponent", fast.Exponent(), 1.4, 1e-6)
		near(t, "adiabatic loss factor", fast.LossFactor(), 0, 1e-7)
	}
}

// What the piston leaves in a cycle goes into the wall: N·cv·∮(T − T_wall)dt/τ, and the second law
// lets it go there only.
func TestCycleEnergyBalance(t *testing.T) {
	for _, swing := range []float64{0.01, 0.5, 0.85} {
		for _, hertz := range []float64{0.005, 0.05, 1, 20} {
			c := must(cycle(10, 300, 293.15, swing, hertz, 2.9))
			var warmer, amountMin, amountMax float64
			amountMin = math.Inf(1)
			loop := slices.Collect(c.Loop())
			for _, s := range loop {
				warmer += (s.Temperature.Kelvin() - 293.15) / float64(len(loop))
				amountMin, amountMax = min(amountMin, amount(s)), max(amountMax, amount(s))
			}
			const r = 8.31446261815324
			heat := amountMax * 2.5 * r * warmer / hertz / 2.9
			relative(t, fmt.Sprintf("swing %v, %v Hz: heat to the wall", swing, hertz), heat, c.Loss().In(units.Joule),
				1e-5)
			if !(c.Loss() > 0) {
				t.Errorf("swing %v, %v Hz: loss %v", swing, hertz, c.Loss())
			}
			relative(t, "amount through the cycle", amountMax, amountMin, 1e-12)
		}
	}
}

func FuzzCycle(f *testing.F) {
	f.Add(10.6, 300.0, 293.15, 0.3, 0.05, 2.9)
	f.Add(1.0, 1.0, 300.0, 0.9, 1e4, 3600.0)
	f.Add(900.0, 300.0, 2000.0, 0.9, 1e-6, 0.0)
	f.Add(math.NaN(), 0.0, math.Inf(1), -1.0, 0.0, math.NaN())
	f.Fuzz(func(t *testing.T, bar, ml, kelvin, swing, hertz, tau float64) {
		c, err := cycle(bar, ml, kelvin, swing, hertz, tau)
		if err != nil {
			_ = err.Error()
			return
		}
		finite(t, "Cycle", c.Exponent(), c.LossFactor(), float64(c.Loss()))
		if n := c.Exponent(); !(n > 1-1e-6 && n < 1.4+1e-6) || !(c.LossFactor() > -1e-6) {
			t.Errorf("exponent %v, loss factor %v", n, c.LossFactor())
		}
		for s := range c.Loop() {
			if err := s.Validate(); err != nil {
				t.Fatal(err)
			}
		}
	})
}

func BenchmarkNewCycle(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		must(cycle(10.6, 300, 293.15, 0.3, 0.05, 2.9))
	}
}
