package setup_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What is inside makes the force of the fork, at rest and ridden, and its amount does not
// follow travel.
func TestSpacesMakeTheForce(t *testing.T) {
	forks := layouts()
	forks["main chamber smaller than the sweep"] = setup.Spec{Travel: 200 * mm, Closed: room,
		Left: setup.Leg{Air: &setup.Air{
			Bore: 34 * mm, Volume: 150 * mL, Fill: fill(5), SecondVolume: 150 * mL, SecondGauge: units.Gauge(10 * units.Bar)}}}
	for name, s := range forks {
		t.Run(name, func(t *testing.T) {
			f := must(t, s)
			amount := func(spaces []setup.Space) (sum float64) {
				for _, c := range spaces {
					sum += float64(c.Gas.Amount())
				}
				return sum
			}
			extended, err := f.Spaces(0, 1)
			if err != nil {
				t.Fatal(err)
			}
			for _, settled := range []units.Length{0, s.Travel / 3} {
				for _, n := range []float64{1, 1.3} {
					curve := f.CurveAbout(settled, n)
					for _, x := range []units.Length{0, s.Travel / 4, s.Travel * 3 / 4, f.Curve(n).Stroke()} {
						spaces, err := f.SpacesAbout(settled, x, n)
						if err != nil {
							t.Fatal(err)
						}
						var force float64
						if c, ok := f.Springs(); ok {
							force = float64(c.Force(x))
						}
						for _, c := range spaces {
							force += float64(c.Area) * float64(c.Gas.Pressure.Sub(f.Ambient().Pressure))
						}
						if want := float64(curve.Force(x)); !(math.Abs(force-want) <= 1e-9*(100+math.Abs(want))) {
							t.Errorf("n = %v from %v to %v: %v N, the fork has %v N", n, settled, x, force, want)
						}
						if got, want := amount(spaces), amount(extended); !(math.Abs(got-want) <= 1e-12*want) {
							t.Errorf("from %v to %v: %v mol, %v when extended", settled, x, got, want)
						}
					}
				}
			}
			if _, err := f.Spaces(s.Travel*2, 1); err == nil {
				t.Error("spaces beyond the stroke")
			}
		})
	}
	if _, ok := must(t, setup.Spec{Travel: 100 * mm, Closed: room}).Springs(); ok {
		t.Error("springs in an empty fork")
	}
	if _, ok := must(t, motocrossCoil).Springs(); !ok || spring.Err(must(t, motocrossCoil).Curve(1)) != nil {
		t.Error("no springs in a coil fork")
	}
}
