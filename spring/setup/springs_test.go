package setup_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Every kind of spring reaches the curve, the sag and the uncertainty of a fork:
// what a fork of that spring alone does is what the spring does.
func TestAnySpring(t *testing.T) {
	const travel, nmm = 200 * mm, units.NewtonPerMillimeter
	part := func(rate units.Stiffness, free, solid units.Length) spring.CoilPart {
		return spring.CoilPart{Rate: rate * nmm, FreeLength: free * mm, SolidLength: solid * mm}
	}
	linear := spring.MeasuredSpec{Loading: []spring.Reading{{Force: 20}, {Travel: 100 * mm, Force: 900}, {Travel: 210 * mm, Force: 2500}}}
	curve, err := spring.CoilSpec{Rate: 7 * nmm, Preload: 3 * mm}.Curve(travel)
	if err != nil {
		t.Fatal(err)
	}
	for name, spec := range map[string]spring.Spec{
		"coil":      spring.CoilSpec{Rate: 8 * nmm, Preload: 4 * mm},
		"dual rate": spring.StackSpec{Soft: part(14, 300, 150), Hard: part(20, 300, 180), Preload: 5 * mm},
		"nested":    spring.NestedSpec{Outer: part(6, 450, 180), Inner: part(4, 380, 170), Preload: 5 * mm},
		"progressive": spring.ProgressiveSpec{Coils: []spring.CoilGroup{{Count: 20, Gap: 6 * mm, Rate: 180 * nmm},
			{Count: 20, Gap: 12 * mm, Rate: 180 * nmm}}, Preload: 4 * mm},
		"rate table": spring.RateTableSpec{Rates: []spring.RatePoint{{Rate: 6 * nmm}, {Compression: 250 * mm, Rate: 11 * nmm}}, Preload: 4 * mm},
		"measured":   linear,
		"given":      spring.Given{Of: curve},
	} {
		t.Run(name, func(t *testing.T) {
			alone, err := spec.Curve(travel)
			if err != nil {
				t.Fatal(err)
			}
			fork := setup.Spec{Travel: travel, Closed: room, Left: setup.Leg{Springs: []spring.Spec{spec}}}
			f := must(t, fork)
			x, err := spring.Equilibrium(alone, 700)
			sag, err2 := f.Sag(700)
			if err != nil || err2 != nil || math.Abs(float64(sag.Middle-x)) > 1e-9 {
				t.Errorf("sag %v, %v; the spring alone carries 700 N at %v, %v", sag.Middle, err2, x, err)
			}
			if got, want := f.Curve(1.3).Energy(150*mm), alone.Energy(150*mm); math.Abs(float64(got-want)) > 1e-9 {
				t.Errorf("energy %v, want %v", got, want)
			}
			if f.Curve(1).Stroke() > travel {
				t.Errorf("stroke %v beyond the travel", f.Curve(1).Stroke())
			}
			main, ok := spec.(spring.Adjustable)
			if !ok {
				return
			}
			// Twice as stiff is twice the force; more preload carries a load higher up.
			stiff, err := main.Adjusted(2, 0).Curve(travel)
			if err != nil || math.Abs(float64(stiff.Force(90*mm)/alone.Force(90*mm))-2) > 1e-12 {
				t.Errorf("twice the rate: %v after %v, %v", stiff.Force(90*mm), alone.Force(90*mm), err)
			}
			tight, err := main.Adjusted(1, 2*mm).Curve(travel)
			if err != nil || math.Abs(float64(tight.Force(50*mm)-alone.Force(52*mm))) > 1e-9 {
				t.Errorf("2 mm more preload: %v, want %v, %v", tight.Force(50*mm), alone.Force(52*mm), err)
			}
			u, err := fork.Spread(question(t, 700), setup.Tolerance{Rate: 0.02, Preload: 0.5 * mm})
			if err != nil || !(u.Sag > 0 && u.Energy > 0) {
				t.Errorf("spread %+v, %v", u, err)
			}
		})
	}
}

// A spring that is not there is a fault of its own field.
func TestSpringFaults(t *testing.T) {
	_, err := setup.New(setup.Spec{Travel: 100 * mm, Closed: room, Right: setup.Leg{Springs: []spring.Spec{nil,
		spring.Given{}, spring.StackSpec{}}}})
	for _, want := range []string{"Spec.Right.Springs[0]", "Spec.Right.Springs[1].Of", "Spec.Right.Springs[2].Soft.Rate"} {
		if err == nil || !strings.Contains(err.Error(), want) || !errors.As(err, new(*units.RangeError)) {
			t.Errorf("error %v, want one of %s", err, want)
		}
	}
}
