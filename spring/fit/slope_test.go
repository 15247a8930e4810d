package fit

import (
	"testing"

	"gonum.org/v1/gonum/floats"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// The derivatives that are known are those of differences, also where legs differ, a
// coil is loose at first and a gap is charged.
func TestSlopes(t *testing.T) {
	const mm, nmm = units.Millimeter, units.NewtonPerMillimeter
	leg := func(k units.Stiffness, preload units.Length, area units.Area, gauge units.Pressure) setup.Leg {
		return setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: k, Preload: preload}},
			Gap: &setup.Gap{Area: area, Residual: 150 * units.Milliliter, Gauge: units.Gauge(gauge)}}
	}
	m := Model{Exponent: 1.3, Fork: setup.Spec{Travel: 300 * mm, Friction: 30,
		Left:   leg(4*nmm, 6*mm, 15*units.SquareCentimeter, 0),
		Right:  leg(6*nmm, -21*mm, 18*units.SquareCentimeter, 0.6*units.Bar),
		Closed: gas.Ambient{Temperature: units.Celsius(4), Pressure: units.Absolute(0.8 * units.Bar)}}}
	var s spring.MeasuredSpec
	for i := range 30 {
		r := spring.Reading{Travel: 10 * mm * units.Length(i), Force: 40 * units.Force(i)}
		s.Loading, s.Unloading = append(s.Loading, r), append(s.Unloading, r)
	}
	free := []Free{Rate().Between(5*nmm, 15*nmm), Preload().Between(2*mm, 9*mm), Friction().Between(0, 100),
		GapVolume().Between(1.25*units.Liter, 3*units.Liter),
		GapVolume(setup.Right).Between(600*units.Milliliter, 2*units.Liter)}
	for i, q := range free {
		p, err := newProblem(s, m, free[i:i+1])
		if err != nil {
			t.Fatal(err)
		}
		for _, z := range []float64{0.2, 0.5, 0.8} {
			x, r, got, want := []float64{z}, make([]float64, 60), make([]float64, 60), make([]float64, 60)
			if !p.evaluate(x, r) || !p.differentiate(x, r, [][]float64{got}) || !p.box.Forward(0, x, r, want) {
				t.Fatalf("%v at %v: the model does not hold", q, z)
			}
			if off := floats.Distance(got, want, 2); off > 1e-5*floats.Norm(want, 2) {
				t.Errorf("%v at %v: derivatives %v, by differences %v", q, z, got[:5], want[:5])
			}
		}
	}
}
