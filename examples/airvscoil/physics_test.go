package main

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/units"
)

// force is that of an air fork written down once more from its record alone, in SI units, for gas that was at rest
// at x0 and moved to x with exponent n: nothing of the library but the record. Source: ideal gas law and statics,
// as in the text.
func force(f data.Fork, x0, x, n float64) float64 {
	const pa = 101325.0
	total := 0.0
	for side, l := range []data.Leg{f.Left, f.Right} {
		if l.Role == data.NoLeg {
			continue
		}
		if l.Role.HasAir() {
			a := l.Air
			bore, rod := float64(a.Bore.Value), float64(a.Rod.Value)
			piston, ring := math.Pi/4*bore*bore, math.Pi/4*(bore*bore-rod*rod)
			p0, v0 := a.Pressure.Value.In(units.Pascal)+pa, float64(a.Volume.Value-a.Reducers.Value)
			linked := float64(a.Linked.Value)
			ratio := 1.0
			if a.NegativeRatio.Given() {
				ratio = a.NegativeRatio.Value
			}
			// The gas of both positive chambers at rest, then moved.
			rest := p0 * (v0 + linked) / (v0 + linked - piston*x0)
			p := rest * math.Pow((v0-piston*x0)/(v0-piston*x), n)
			if linked > 0 && n == 1 { // slow enough to share the pressure
				p = p0 * (v0 + linked) / (v0 + linked - piston*x)
			}
			if second := float64(a.SecondVolume.Value); second > 0 {
				p2 := a.Pressure.Value.In(units.Pascal)*a.SecondRatio.Value + pa
				v1, v2 := v0-piston*x0, second
				if rest > p2 {
					shared := (p0*v0 + p2*v2) / (v1 + v2)
					p = shared * math.Pow((v1+v2)/(v1+v2-piston*(x-x0)), n)
				} else if p > p2 {
					p = math.Pow((v1*math.Pow(rest, 1/n)+v2*math.Pow(p2, 1/n))/(v0-piston*x+v2), n)
				}
			}
			total += piston * (p - pa)
			if vn := float64(a.NegativeVolume.Value); vn > 0 {
				pn := a.Pressure.Value.In(units.Pascal)*ratio + pa
				if xe := float64(a.Port.Value); xe > 0 { // equal there, and back at full extension
					filled := v0 + linked
					pn *= filled / (filled - piston*xe) * (vn + ring*xe) / vn
				}
				rest := pn * vn / (vn + ring*x0)
				total -= ring * (rest*math.Pow((vn+ring*x0)/(vn+ring*x), n) - pa)
			}
			total -= float64(a.BalanceRate.Value) * max(0, float64(a.BalanceLength.Value)-x)
		}
		if r := l.Reservoir; r.Rod.Given() {
			area, v0 := math.Pi/4*float64(r.Rod.Value)*float64(r.Rod.Value), float64(r.Volume.Value)
			rest := (r.Pressure.Value.In(units.Pascal) + pa) * v0 / (v0 - area*x0)
			total += area * (rest*math.Pow((v0-area*x0)/(v0-area*x), n) - pa)
		}
		if f.Gap.Residual.Given() {
			tube, rod := float64(f.Stanchion.Value), float64(f.Gap.Rod.Value)
			area := math.Pi / 4 * (tube*tube - rod*rod)
			full := float64(f.Gap.Residual.Value) + area*float64(f.Travel.Value)
			p0 := pa
			if leg := []string{"left", "right"}[side]; f.Gap.Charged == "" || f.Gap.Charged == leg {
				p0 += f.Gap.Precharge.Value.In(units.Pascal)
			}
			rest := p0 * full / (full - area*x0)
			total += area * (rest*math.Pow((full-area*x0)/(full-area*x), n) - pa)
		}
	}
	return total
}

// The library, from which every table and plot comes, has the force of that formula at rest and ridden, its slope,
// and the area under it.
func TestCurvesOfEveryAirFork(t *testing.T) {
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		t.Run(f.ID, func(t *testing.T) {
			s, err := newStudy(f.ID, "B06", 0)
			if err != nil {
				t.Fatal(err)
			}
			for _, n := range []float64{1, s.ride, 1.4} {
				curve := s.air.set.CurveAbout(s.air.settled, n)
				area, steps := 0.0, 2000
				h := float64(f.Travel.Value) / float64(steps)
				at := func(x float64) float64 { return force(f, float64(s.air.settled), x, n) }
				for i := range steps {
					x := h * float64(i)
					area += h / 6 * (at(x) + 4*at(x+h/2) + at(x+h))
					if i%250 != 0 || i == 0 {
						continue
					}
					if got, want := float64(curve.Force(units.Length(x))), at(x); !(math.Abs(got-want) <= 1e-6) {
						t.Errorf("n = %g, x = %.1f mm: force %.6f N, by the formula %.6f N", n, x*1000, got, want)
					}
					const d = 1e-6
					if got, want := float64(curve.Rate(units.Length(x))),
						(at(x+d)-at(x-d))/(2*d); math.Abs(got/want-1) > 1e-5 {
						t.Errorf("n = %g, x = %.1f mm: rate %.4f N/m, by the formula %.4f N/m", n, x*1000, got, want)
					}
				}
				if got := float64(curve.Energy(f.Travel.Value)); !(math.Abs(got/area-1) <= 1e-5) {
					t.Errorf("n = %g: energy %.6f J, area %.6f J", n, got, area)
				}
			}
			if got := force(f, 0, float64(s.air.sag.Middle), 1); !(math.Abs(got-float64(s.air.load)) <= 1e-3) {
				t.Errorf("at the sag %.4f N, load %.4f N", got, float64(s.air.load))
			}
		})
	}
}

// The gas spaces that the frequency tables go by have the stiffness of the fork, with the coils; moved fast they
// have γ times it.
func TestDynamicStiffness(t *testing.T) {
	everyPair(t, func(t *testing.T, air, coil string) {
		s, err := newStudy(air, coil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range []*fork{&s.air, &s.coil} {
			for _, c := range []struct{ frequency, n float64 }{{1e-9, 1}, {1e9, 1.4}} {
				if f.Left.Air.Linked.Given() && c.n == 1 {
					continue // the linked volume is taken as cut off at any frequency
				}
				want := f.set.CurveAbout(f.settled, c.n).Rate(f.settled).In(npm)
				k, ahead := f.dynamic(units.Frequency(c.frequency))
				if !(math.Abs(k/want-1) <= 1e-6) || !(math.Abs(ahead) <= 1e-6) {
					t.Errorf("%s at %g Hz: %.6f N/mm and %.6f ahead, want %.6f and 0", f.ID, c.frequency, k, ahead,
						want)
				}
			}
		}
	})
}

// A loop integrated over a full stroke loses what the formula for a small stroke says when the stroke is small.
func TestLoopAgainstFormula(t *testing.T) {
	s, err := newStudy("B04", "B06", 0)
	if err != nil {
		t.Fatal(err)
	}
	l, m := s.loop, s.loop.main
	if len(l.cycles) != 3 || m.State.Pressure.In(units.Bar) < 8 || m.State.Pressure.In(units.Bar) > 8.2 {
		t.Fatalf("%d cycles at %v", len(l.cycles), m.State.Pressure)
	}
	for _, c := range l.cycles {
		x := l.amplitude.In(mm)
		k, e := m.rate(m.State.Volume), m.exchange
		want := math.Pi * k * e.Exponent(c.frequency) * e.LossFactor(c.frequency) * x * x / 1000
		if got := c.Loss().In(units.Joule); !(math.Abs(got/want-1) <= 0.03) {
			t.Errorf("%g Hz: %.4f J, as for a small stroke %.4f J", float64(c.frequency), got, want)
		}
	}
}
