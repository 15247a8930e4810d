package spring_test

import (
	"math"
	"reflect"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// An adjusted spring is the same one compressed further and multiplied, and the
// specification it came from is as it was.
func TestAdjusted(t *testing.T) {
	const travel, factor, more = 100 * mm, 1.25, 3 * mm
	for name, spec := range map[string]spring.Adjustable{"coil": coil, "pitch table": progressive, "rate table": rates,
		"stack": stack, "nested": nested, "measured": loop} {
		t.Run(name, func(t *testing.T) {
			before := must[spring.Curve](t)(spec.Curve(travel + more))
			adjusted := spec.Adjusted(factor, more)
			if reflect.TypeOf(adjusted) != reflect.TypeOf(spec) {
				t.Errorf("a %T", adjusted)
			}
			after := must[spring.Curve](t)(adjusted.Curve(travel))
			if d := after.Stroke() - min(travel, before.Stroke()-more); !(math.Abs(float64(d)) <= 1e-12) {
				t.Errorf("ends at %v, %v before", after.Stroke(), before.Stroke())
			}
			for x := units.Length(0); x <= after.Stroke(); x += 5 * mm {
				within(t, "force at "+x.String(), float64(after.Force(x)), factor*float64(before.Force(x+more)), 1e-9)
				within(t, "energy at "+x.String(), float64(after.Energy(x)),
					factor*float64(before.Energy(x+more)-before.Energy(more)), 1e-11)
			}
			again := must[spring.Curve](t)(spec.Curve(travel + more))
			within(t, "the first one", float64(again.Force(travel/2)), float64(before.Force(travel/2)), 0)
		})
	}
}

// Every specification takes the travel of the fork in place of its own and tells its faults.
func TestSpecCurve(t *testing.T) {
	bad := func(s spring.Spec) spring.Spec { return s }
	for name, c := range map[string]struct{ good, bad spring.Spec }{
		"coil":        {coil, bad(spring.CoilSpec{})},
		"pitch table": {progressive, bad(spring.ProgressiveSpec{})},
		"rate table":  {rates, bad(spring.RateTableSpec{})},
		"stack":       {stack, bad(spring.StackSpec{})},
		"nested":      {nested, bad(spring.NestedSpec{})},
		"top-out":     {topOut, bad(spring.TopOutSpec{})},
		"bump stop":   {bumpStop, bad(spring.BumpStopSpec{})},
		"measured":    {loop, bad(spring.MeasuredSpec{})},
		"given":       {spring.Given{Of: must[spring.Coil](t)(spring.NewCoil(coil))}, bad(spring.Given{})},
		"given, failed": {spring.Given{Of: must[spring.Coil](t)(spring.NewCoil(coil))},
			bad(spring.Given{Of: spring.Scale(nil, 2)})},
		"given, no stroke": {spring.Given{Of: must[spring.Coil](t)(spring.NewCoil(coil))},
			bad(spring.Given{Of: window{Curve: must[spring.Coil](t)(spring.NewCoil(coil))}})},
	} {
		t.Run(name, func(t *testing.T) {
			got := must[spring.Curve](t)(c.good.Curve(140 * mm))
			if !(got.Stroke() > 80*mm && got.Stroke() <= 140*mm) {
				t.Errorf("ends at %v", got.Stroke())
			}
			if got, err := c.bad.Curve(140 * mm); got != nil || err == nil {
				t.Errorf("%v, %v", got, err)
			}
		})
	}
}

// Springs in series carry one force and add their travels, whatever they are: each
// travel is found here by the spring alone.
func TestSeriesAddsTravels(t *testing.T) {
	springs := map[string]spring.Curve{
		"coil":        must[spring.Coil](t)(spring.NewCoil(coil)),
		"pitch table": must[spring.Progressive](t)(spring.NewProgressive(progressive)),
		"rate table":  must[spring.Progressive](t)(spring.NewRateTable(rates)),
		"stack":       must[spring.Stack](t)(spring.NewStack(stack)),
		"measured":    must[spring.Measured](t)(spring.NewMeasured(loop)),
		"air":         must[spring.Air](t)(spring.NewAir(air)),
	}
	// travel at a force between that of the first touch and the last
	travel := func(c spring.Curve, f units.Force) units.Length {
		if f >= c.Force(c.Stroke()) {
			return c.Stroke()
		}
		x, err := spring.Equilibrium(c, f)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for an, a := range springs {
		for bn, b := range springs {
			both := spring.Series(a, b)
			within(t, an+", "+bn+": stroke", float64(both.Stroke()), float64(a.Stroke()+b.Stroke()), 1e-12)
			most := max(a.Force(a.Stroke()), b.Force(b.Stroke()))
			for f := units.Force(3); f < most; f += most / 17 {
				ya, yb := travel(a, f), travel(b, f)
				if ya+yb == 0 { // neither has moved
					continue
				}
				what := an + ", " + bn + " at " + f.String()
				within(t, what+": force", float64(both.Force(ya+yb)), float64(f), 1e-6*float64(f))
				within(t, what+": energy", float64(both.Energy(ya+yb)), float64(a.Energy(ya)+b.Energy(yb)), 1e-6)
				ka, kb := a.Rate(ya), b.Rate(yb)
				inside := func(c spring.Curve, y units.Length) bool { return y > 1*mm && y < c.Stroke()-1*mm }
				switch k := float64(both.Rate(ya + yb)); {
				case inside(a, ya) && inside(b, yb):
					within(t, what+": rate", k, 1/(1/float64(ka)+1/float64(kb)), 0.01*k)
				case inside(a, ya) && (yb == 0 || yb == b.Stroke()):
					within(t, what+": rate", k, float64(ka), 1e-6*k)
				case inside(b, yb) && (ya == 0 || ya == a.Stroke()):
					within(t, what+": rate", k, float64(kb), 1e-6*k)
				}
			}
		}
	}
}
