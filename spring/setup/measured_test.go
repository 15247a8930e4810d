package setup_test

import (
	"fmt"
	"log"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// sweep is what a slow bench would show of a fork, with a force off the model and friction.
func sweep(t testing.TB, s setup.Spec, to, friction float64) spring.MeasuredSpec {
	t.Helper()
	fork, err := setup.New(s)
	if err != nil {
		t.Fatal(err)
	}
	c := fork.Curve(gas.Isothermal)
	var m spring.MeasuredSpec
	for i := range 61 {
		x := c.Stroke() * units.Length(to*float64(i)/60)
		m.Loading = append(m.Loading, spring.Reading{Travel: x, Force: c.Force(x)*1.1 + units.Force(20+friction)})
		if friction > 0 {
			m.Unloading = append(m.Unloading, spring.Reading{Travel: x, Force: c.Force(x)*1.1 + units.Force(20-friction)})
		}
	}
	return m
}

// The fork as measured does at rest what the sweep showed, ridden what its gas adds to that, and
// is carried to other air as its gas is.
func TestAsMeasured(t *testing.T) {
	home, away := altitude(t, 0), altitude(t, 2500*units.Meter)
	for _, id := range []string{"M07", "B04", "M06", "B12"} {
		record, err := data.Reference().Fork(id)
		if err != nil {
			t.Fatal(err)
		}
		for _, to := range []float64{1, 0.93} {
			spec := record.Spec(home)
			shown := sweep(t, spec, to, 30)
			measured, err := spec.AsMeasured(shown)
			if err != nil {
				t.Fatalf("%s: %v", id, err)
			}
			if !(math.Abs(float64(measured.Friction)-30) <= 0.5) {
				t.Errorf("%s: friction %.1f, the loop has 30 N", id, measured.Friction)
			}
			before, _ := setup.New(spec)
			after, err := setup.New(measured)
			if err != nil {
				t.Fatal(err)
			}
			there, err1 := before.At(away)
			moved, err2 := after.At(away)
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			if !(math.Abs(float64(after.Curve(1.3).Stroke()-before.Curve(1.3).Stroke())) <= 1e-9) {
				t.Errorf("%s: stroke %v, before %v", id, after.Curve(1.3).Stroke(), before.Curve(1.3).Stroke())
			}
			for i, r := range shown.Loading {
				model := before.Curve(gas.Isothermal).Force(r.Travel)
				lacks := r.Force - 30 - model
				for name, pair := range map[string][2]units.Force{
					"at rest": {after.Curve(gas.Isothermal).Force(r.Travel), model + lacks},
					"ridden":  {after.Curve(1.3).Force(r.Travel), before.Curve(1.3).Force(r.Travel) + lacks},
					"away":    {moved.Curve(1).Force(r.Travel), there.Curve(1).Force(r.Travel) + lacks},
				} {
					// The interpolation of 61 readings of a port's kink may be off by some newton.
					if !(math.Abs(float64(pair[0]-pair[1])) <= 1+0.002*math.Abs(float64(pair[1]))) {
						t.Errorf("%s, reading %d %s: %.1f, want %.1f", id, i, name, pair[0], pair[1])
					}
				}
			}
		}
	}
}

func TestAsMeasuredRefuses(t *testing.T) {
	record, err := data.Reference().Fork("M07")
	if err != nil {
		t.Fatal(err)
	}
	spec := record.Spec(altitude(t, 0))
	for want, s := range map[string]spring.MeasuredSpec{
		"Sweep.Stroke":          sweep(t, spec, 0.7, 0),
		"Sweep.Friction":        sweep(t, spec, 1, 1500),
		"MeasuredSpec.Loading":  {},
		"MeasuredSpec.Loading[": {Loading: []spring.Reading{{Travel: 5 * mm, Force: 1}, {Travel: 300 * mm, Force: 9}}},
	} {
		if _, err := spec.AsMeasured(s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want a fault of %s", err, want)
		}
	}
	if _, err := (setup.Spec{}).AsMeasured(sweep(t, spec, 1, 0)); err == nil {
		t.Error("no fork at all is measured")
	}
}

// A fork that the bench found stiffer than its class.
func ExampleSpec_AsMeasured() {
	record, err := data.Reference().Fork("B04")
	if err != nil {
		log.Fatal(err)
	}
	home, err := gas.StandardAt(0, units.Celsius(20))
	if err != nil {
		log.Fatal(err)
	}
	sweep := spring.MeasuredSpec{Loading: []spring.Reading{{Travel: 0, Force: 40}, {Travel: 40 * mm, Force: 350},
		{Travel: 80 * mm, Force: 690}, {Travel: 120 * mm, Force: 1180}, {Travel: 160 * mm, Force: 2250}}}
	class := record.Spec(home)
	this, err := class.AsMeasured(sweep)
	if err != nil {
		log.Fatal(err)
	}
	for _, spec := range []setup.Spec{class, this} {
		fork, err := setup.New(spec)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("at 80 mm %.0f at rest, %.0f ridden\n", fork.Curve(1).Force(80*mm), fork.Curve(1.3).Force(80*mm))
	}
	// Output:
	// at 80 mm 593 N at rest, 749 N ridden
	// at 80 mm 690 N at rest, 846 N ridden
}
