package setup_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
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
	linear := spring.MeasuredSpec{Loading: []spring.Reading{{Force: 20}, {Travel: 100 * mm, Force: 900},
		{Travel: 210 * mm, Force: 2500}}}
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
		"rate table": spring.RateTableSpec{Rates: []spring.RatePoint{{Rate: 6 * nmm},
			{Compression: 250 * mm, Rate: 11 * nmm}}, Preload: 4 * mm},
		"measured": linear,
		"given":    spring.Given{Of: curve},
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
			if err != nil || err2 != nil || !(math.Abs(float64(sag.Middle-x)) <= 1e-9) {
				t.Errorf("sag %v, %v; the spring alone carries 700 N at %v, %v", sag.Middle, err2, x, err)
			}
			if got, want := f.Curve(1.3).Energy(150*mm), alone.Energy(150*mm); !(math.Abs(float64(got-want)) <= 1e-9) {
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
			if err != nil || !(math.Abs(float64(stiff.Force(90*mm)/alone.Force(90*mm))-2) <= 1e-12) {
				t.Errorf("twice the rate: %v after %v, %v", stiff.Force(90*mm), alone.Force(90*mm), err)
			}
			tight, err := main.Adjusted(1, 2*mm).Curve(travel)
			if err != nil || !(math.Abs(float64(tight.Force(50*mm)-alone.Force(52*mm))) <= 1e-9) {
				t.Errorf("2 mm more preload: %v, want %v, %v", tight.Force(50*mm), alone.Force(52*mm), err)
			}
			u, err := fork.Uncertainty(question(t, 700), setup.Tolerance{Rate: 0.02, Preload: 0.5 * mm})
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

// A fork may be without a main spring, as what stands beside a coil still to be chosen.
func TestNoSpring(t *testing.T) {
	f := must(t, setup.Spec{Travel: 100 * mm, Closed: room})
	if got := f.Curve(1.3).Force(50 * mm); got != 0 || f.Curve(1).Stroke() != 100*mm {
		t.Errorf("an empty fork resists with %v over %v", got, f.Curve(1).Stroke())
	}
	if _, err := f.Gap(setup.Left, 1); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("a gap of nothing: %v", err)
	}
	if _, err := must(t, motocrossAir).Air(setup.Side(2), 1); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("a third leg: %v", err)
	}
}

// All faults at once, each once, under the caller's own fields, with no follow-on faults.
func TestAllFaultsAtOnce(t *testing.T) {
	air := *motocrossAir.Left.Air
	air.Bore, air.Fill.Ambient.Temperature, air.SecondGauge = 3*mm, units.Kelvin(20), units.Gauge(5*units.Bar)
	_, err := setup.New(setup.Spec{Travel: 3000 * mm, Closed: room, Friction: -5,
		Left:  setup.Leg{Air: &air, Gap: &setup.Gap{Residual: 300 * mL, Gauge: units.Gauge(9 * units.Bar)}},
		Right: setup.Leg{Damper: &setup.Damper{Rod: 12 * mm, Volume: 1 * mL, Fill: air.Fill}}})
	var fields []string
	for _, line := range strings.Split(err.Error(), "\n") {
		field, _, _ := strings.Cut(line, " = ")
		fields = append(fields, field)
	}
	want := []string{"Spec.Travel", "Spec.Friction", "Spec.Left.Air.Fill.Ambient.Temperature", "Spec.Left.Air.SecondGauge",
		"Spec.Left.Air.Bore",
		"Spec.Left.Gap.Gauge", "Spec.Left.Gap.Area", "Spec.Right.Damper.Volume", "Spec.Right.Damper.Fill.Ambient.Temperature"}
	if !slices.Equal(fields, want) {
		t.Errorf("faults of\n%s\nwant\n%s", strings.Join(fields, "\n"), strings.Join(want, "\n"))
	}
}

// A small negative chamber charged high grows manyfold: carried back to full extension
// from deep in the stroke its pressure is beyond any chamber's, and the curve still whole.
func TestCurveAboutStaysFinite(t *testing.T) {
	s := motocrossAir
	air := *s.Left.Air
	air.NegativeVolume, air.NegativeGauge = 3*mL, units.Gauge(38*units.Bar)
	s.Left.Air = &air
	f := must(t, s)
	for x := units.Length(0); x <= s.Travel; x += s.Travel / 10 {
		c := f.CurveAbout(x, 5.0/3)
		if err := spring.Err(c); err != nil || c.Stroke() != s.Travel {
			t.Fatalf("about %v: stroke %v, %v", x, c.Stroke(), err)
		}
		for _, p := range spring.Sample(c, 30) {
			if math.IsNaN(float64(p.Force)) || math.IsInf(float64(p.Energy), 0) {
				t.Fatalf("about %v: %+v", x, p)
			}
		}
		if a, b := c.Force(x), f.Curve(1).Force(x); !(math.Abs(float64(a-b)) <= 1e-9*math.Abs(float64(b))) {
			t.Errorf("about %v the ridden fork starts from %v, at rest it has %v", x, a, b)
		}
	}
}

// A fork tells what it is, knows its like, and is not moved by what its caller does to
// the specification later.
func TestSetupIsAValue(t *testing.T) {
	s := motocrossAir
	air := *s.Left.Air
	s.Left.Air = &air
	f := must(t, s)
	air.Bore = 20 * mm
	if !f.Equal(must(t, motocrossAir)) || !must(t, f.Spec()).Equal(f) || f.Equal(nil) {
		t.Error("the fork has changed with its specification")
	}
	leaked, err := f.Leaked(0.9)
	if err != nil || leaked.Equal(f) || f.Equal(must(t, motocrossCoil)) {
		t.Errorf("other gas or other springs are taken for the same: %v", err)
	}
	for _, want := range []string{"305 mm", "left: air 9.6 bar, gas over the oil", "right: gas over the oil"} {
		if !strings.Contains(f.String(), want) {
			t.Errorf("%q lacks %q", f, want)
		}
	}
}

// Stiffer springs: a coil's force alone rises by the factor, preload included, and an air spring by what its gauge
// pressures do; gas over the oil and the caller's own specification stay as they are.
func TestStiffer(t *testing.T) {
	coil := spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 5 * mm}
	gap := &setup.Gap{Area: 15 * units.SquareCentimeter, Residual: 150 * units.Milliliter}
	air := &setup.Air{Bore: 40 * mm, Volume: 600 * units.Milliliter,
		Fill: gas.Fill{Gauge: units.Gauge(8 * units.Bar), Ambient: room}}
	s := setup.Spec{Travel: 300 * mm, Closed: room, Left: setup.Leg{Springs: []spring.Spec{coil}, Gap: gap},
		Right: setup.Leg{Air: air}}
	before, after := must(t, s).Curve(1.3), must(t, s.Stiffer(1.1)).Curve(1.3)
	const x = 0.2
	a := math.Pi * 0.04 * 0.04 / 4
	wanted := 0.1*9000*(x+0.005) + 0.1*8e5*a*math.Pow(600e-6/(600e-6-a*x), 1.3)
	if got := float64(after.Force(x) - before.Force(x)); !(math.Abs(got-wanted) <= 1e-9*wanted) {
		t.Errorf("force rises by %.6f N, want %.6f N", got, wanted)
	}
	if s.Left.Springs[0] != spring.Spec(coil) || air.Fill.Gauge != units.Gauge(8*units.Bar) {
		t.Errorf("the caller's fork has changed: %+v", s)
	}
	if _, err := setup.New(s.Stiffer(-1)); err == nil {
		t.Error("a spring below none is taken")
	}
}
