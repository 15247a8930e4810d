package gas_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func relative(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	near(t, what, got, want, tol*math.Abs(want))
}

func amount(s gas.State) float64 { return float64(s.Amount()) }

// forkStates spans the chambers of a fork, from a vented gap to a full stroke.
func forkStates() []gas.State {
	var list []gas.State
	for _, bar := range []units.Pressure{0.7, 1.013, 10.6, 40} {
		for _, cc := range []units.Volume{20, 258, 430} {
			for _, c := range []float64{-20, 20, 60} {
				list = append(list, state(bar*units.Bar, cc*cm3, units.Celsius(c)))
			}
		}
	}
	return list
}

func TestAmountIsConserved(t *testing.T) {
	for _, s := range forkStates() {
		for _, n := range []float64{1, 1.0000001, 1.3, 1.4, 5.0 / 3} {
			for _, ratio := range []units.Volume{0.2, 0.999, 1, 3} {
				c := must(s.Compress(s.Volume*ratio, n))
				relative(t, "amount after Compress", amount(c), amount(s), 1e-12)
				back := must(c.Compress(s.Volume, n))
				relative(t, "pressure there and back", back.Pressure.In(1), s.Pressure.In(1), 1e-12)
				relative(t, "temperature there and back", back.Temperature.Kelvin(), s.Temperature.Kelvin(), 1e-12)
				p := must(s.CompressToPressure(c.Pressure, n))
				relative(t, "volume by pressure", float64(p.Volume), float64(c.Volume), 1e-12)
				relative(t, "amount after CompressToPressure", amount(p), amount(s), 1e-12)
				if w, b := must(s.Work(c.Volume, n)), must(c.Work(s.Volume,
					n)); math.Abs(float64(w+b)) > 1e-12*math.Abs(float64(w)) {
					t.Errorf("work there %g and back %g", float64(w), float64(b))
				}
			}
		}
		relative(t, "amount after Heat", amount(must(s.Heat(units.Celsius(47)))), amount(s), 1e-12)
		relative(t, "amount after Bleed", amount(must(s.Bleed(0.05))), 0.95*amount(s), 1e-12)
	}
}

func TestJoin(t *testing.T) {
	states := forkStates()
	for _, a := range states {
		for _, b := range states {
			j := must(gas.Join(a, b))
			relative(t, "amount", amount(j), amount(a)+amount(b), 1e-12)
			pv := func(s gas.State) float64 { return s.Pressure.In(1) * float64(s.Volume) }
			relative(t, "energy", pv(j), pv(a)+pv(b), 1e-12)
			if j.Volume != a.Volume+b.Volume {
				t.Errorf("volume %v of %v and %v", j.Volume, a.Volume, b.Volume)
			}
			if a.Temperature == b.Temperature && j.Temperature != a.Temperature {
				t.Errorf("equal temperatures %v became %v", a.Temperature, j.Temperature)
			}
			if a.Pressure == b.Pressure && j.Pressure != a.Pressure {
				t.Errorf("equal pressures %v became %v", a.Pressure, j.Pressure)
			}
		}
	}
}

// At n = 1 the work is p·V·ln(V₁/V₂); the general form must run into it smoothly.
func TestWorkNearIsothermal(t *testing.T) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	for _, to := range []units.Volume{100 * cm3, 429.999999 * cm3, 430 * cm3, 900 * cm3} {
		at1 := float64(must(s.Work(to, 1)))
		for _, m := range []float64{1e-15, 1e-12, 1e-9, 1e-6, 1e-3} {
			// W(1+m)/W(1) = 1 + m·l/2 + O(m²·l²), l = ln(V₁/V₂).
			l := math.Log(float64(s.Volume / to))
			want := at1 * (1 + m*l/2 + m*m*l*l/6)
			near(t, "work at n = 1+m", float64(must(s.Work(to, 1+m))), want, (1e-14+m*m*m)*math.Abs(at1))
		}
	}
	// A small change costs p·ΔV to first order, without cancellation.
	tiny := units.Volume(1e-12)
	relative(t, "work of a tiny change", float64(must(s.Work(s.Volume-tiny, 1.4))), 1e6*1e-12, 1e-7)
}

// The closed form against the sum of p·dV along the path.
func TestWorkIsIntegral(t *testing.T) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	for _, n := range []float64{1, 1.1, 1.4, 5.0 / 3} {
		const steps = 2000 // Simpson's rule, error ∝ steps⁻⁴
		to := 120 * cm3
		h := (s.Volume - to) / steps
		var sum float64
		for i := range steps + 1 {
			weight := 4.0
			switch {
			case i == 0 || i == steps:
				weight = 1
			case i%2 == 0:
				weight = 2
			}
			sum += weight * must(s.Compress(to+units.Volume(i)*h, n)).Pressure.In(units.Pascal)
		}
		relative(t, "work", float64(must(s.Work(to, n))), sum*float64(h)/3, 1e-9)
		// First law: ΔU = N·R/(γ−1)·ΔT = Δ(pV)/(γ−1), whatever the path.
		c, b := must(s.Compress(to, n)), must(s.EnergyBalance(to, n))
		du := (c.Pressure.In(1)*float64(c.Volume) - s.Pressure.In(1)*float64(s.Volume)) / 0.4
		near(t, "internal energy, J", float64(b.Internal), du, 1e-12*float64(b.Work))
		near(t, "heat, J", float64(b.Heat), du-float64(b.Work), 1e-12*float64(b.Work))
	}
}

func TestMonotone(t *testing.T) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	for cc := 420.0; cc > 50; cc -= 10 {
		smaller, larger := units.Volume(cc)*cm3, units.Volume(cc+10)*cm3
		if must(s.Compress(smaller, 1.3)).Pressure.Sub(must(s.Compress(larger, 1.3)).Pressure) <= 0 {
			t.Errorf("pressure does not rise to %v cc", cc)
		}
		if must(s.Compress(smaller, 1.4)).Pressure.Sub(must(s.Compress(smaller, 1.3)).Pressure) <= 0 {
			t.Errorf("pressure does not rise with n at %v cc", cc)
		}
		if must(s.Work(smaller, 1.4)) <= must(s.Work(smaller, 1.3)) {
			t.Errorf("work does not rise with n at %v cc", cc)
		}
	}
	sea := must(gas.Standard(0))
	var last units.Energy
	for bar := units.Pressure(1.1); bar < 40; bar += 0.1 {
		e := must(state(bar*units.Bar, 430*cm3, units.Celsius(20)).StoredEnergy(sea))
		if e <= last {
			t.Fatalf("stored energy does not rise at %v bar", float64(bar))
		}
		last = e
	}
}

// Scaling the gauge reading itself with temperature is a common slip. Over 40 K it errs by 1/7 of
// an ambient pressure.
func TestGaugeIsNotAbsolute(t *testing.T) {
	sea := must(gas.Standard(0))
	fill := gas.Fill{Gauge: units.Gauge(2 * units.Bar), Ambient: gas.Ambient{Temperature: units.Celsius(20),
		Pressure: sea.Pressure}}
	cold := gas.Ambient{Temperature: units.Celsius(-20), Pressure: sea.Pressure}
	right := must(fill.Reading(cold)).In(units.Bar)
	slip := 2.0 * 253.15 / 293.15
	near(t, "slip, bar", slip-right, 1.01325*40/293.15, 1e-12)

	// Nor does degrees Celsius scale anything: 20 °C to 40 °C does not double the pressure.
	s := must(fill.State(430 * cm3))
	relative(t, "pressure at 40 °C", must(s.Heat(units.Celsius(40))).Pressure.In(units.Bar), 3.01325*313.15/293.15,
		1e-12)
}

// A sealed chamber carried up the hill gains exactly what the ambient lost.
func TestReadingAtAltitude(t *testing.T) {
	sea, pass := must(gas.Standard(0)), must(gas.Standard(2000))
	pass.Temperature = sea.Temperature
	fill := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: sea}
	gain := must(fill.Reading(pass)).In(units.Pascal) - 9.6e5
	near(t, "gain, Pa", gain, float64(sea.Pressure.Sub(pass.Pressure)), 1e-6)
	near(t, "reading at home, bar", must(fill.Reading(sea)).In(units.Bar), 9.6, 1e-12)
	// Warmed by 20 K from 20 °C, 10.6 bar absolute gain 20/293 of themselves.
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: sea.Pressure}
	warm := gas.Ambient{Temperature: units.Celsius(40), Pressure: sea.Pressure}
	near(t, "warm, bar", must(gas.Fill{Gauge: fill.Gauge, Ambient: room}.Reading(warm)).In(units.Bar)-9.6,
		10.61325*20/293.15, 1e-12)
}
