package fit

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/diff/fd"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// The terms are the curve of the public elements, and their derivatives are
// those of finite differences.
func TestTerms(t *testing.T) {
	sea := units.Absolute(1.01325 * units.Bar)
	const mm = units.Millimeter
	m := Model{
		Coil: spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: -4 * mm, Travel: 300 * mm},
		Gap: spring.ChamberSpec{Area: 18 * units.SquareCentimeter, Volume: 700 * units.Milliliter,
			Pressure: sea, Ambient: sea, Exponent: 1.3, Travel: 300 * mm},
		Air: spring.AirSpec{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * units.Milliliter, Pressure: units.Absolute(10.6 * units.Bar),
			NegativeVolume: 70 * units.Milliliter, Port: 6 * mm, Ambient: sea, Exponent: 1.3, Travel: 300 * mm},
		Friction: 20,
	}
	curve, err := m.Curve()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{0, 0.002, 0.05, 0.15, 0.3} {
		terms := m.terms()
		var d, unused [parameters]float64
		got := terms.force(x, -1, &d)
		if want := float64(curve.Force(units.Length(x))) - 20; math.Abs(got-want) > 1e-8*(1+math.Abs(want)) {
			t.Errorf("force at %v m is %v, the curve says %v", x, got, want)
		}
		for p := range parameters {
			v := m.get(p)
			want := fd.Derivative(func(v float64) float64 {
				moved := m
				moved.set(p, v)
				terms := moved.terms()
				return terms.force(x, -1, &unused)
			}, v, &fd.Settings{Formula: fd.Central, Step: 1e-5 * math.Abs(v)})
			if math.Abs(d[p]-want) > 1e-6*(math.Abs(want)+1e-3*math.Abs(got/v)) {
				t.Errorf("at %v m the force changes with %v by %v, finite differences say %v", x, p, d[p], want)
			}
		}
	}
}
