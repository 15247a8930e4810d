package spring_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// What the doc comments state, by hand.
func TestTopOutPulls(t *testing.T) {
	c := must[spring.TopOut](t)(spring.NewTopOut(topOut)) // 5 N/mm over 45 mm
	within(t, "at full extension", float64(c.Force(0)), -225, 1e-9)
	within(t, "half way", float64(c.Force(22.5*mm)), -112.5, 1e-9)
	within(t, "beyond", float64(c.Force(46*mm)), 0, 0)
	within(t, "given out", float64(c.Energy(100*mm)), -0.5*5e3*0.045*0.045, 1e-9)
}

func TestChamberEndsWithItsStroke(t *testing.T) {
	c := must[spring.Chamber](t)(spring.NewChamber(gap))
	within(t, "volume at full travel", float64(c.Volume(305*mm)), 800e-6-18e-4*0.305, 1e-15)
	for _, x := range []units.Length{-1 * mm, 306 * mm} {
		if !math.IsNaN(float64(c.Volume(x))) || !math.IsNaN(c.Pressure(x).In(units.Pascal)) {
			t.Errorf("at %v: %v, %v", x, c.Volume(x), c.Pressure(x))
		}
	}
}

// A negative chamber with a valve of its own keeps the pressure it is given.
func TestNegativeChamberOfItsOwn(t *testing.T) {
	s := air
	s.NegativePressure = units.Absolute(14 * units.Bar)
	piston, rod := float64(geometry.Circle(s.Bore)), float64(geometry.Circle(s.Rod))
	want := 1e5*(10.6-1.01325)*piston - 1e5*(14-1.01325)*(piston-rod)
	within(t, "at full extension", float64(must[spring.Air](t)(spring.NewAir(s)).Force(0)), want, 1e-9)
}

// One length without the other is half of a coil's ends.
func TestCoilWantsBothLengths(t *testing.T) {
	for _, s := range []spring.CoilSpec{
		{Rate: coil.Rate, Travel: coil.Travel, FreeLength: 450 * mm},
		{Rate: coil.Rate, Travel: coil.Travel, SolidLength: 150 * mm},
	} {
		if _, err := spring.NewCoil(s); len(units.Faults(err)) != 1 {
			t.Errorf("free %v, solid %v: %v", s.FreeLength, s.SolidLength, err)
		}
	}
}

func TestNestedEndsWithTheFirstThatIsSolid(t *testing.T) {
	s := nested // installed at 290 mm
	s.Travel = 300 * mm
	within(t, "outer solid first", float64(must[spring.Nested](t)(spring.NewNested(s)).Stroke()), 0.150, 1e-12)
	s.Inner.SolidLength = 160 * mm
	within(t, "inner solid first", float64(must[spring.Nested](t)(spring.NewNested(s)).Stroke()), 0.130, 1e-12)
	s.Outer.FreeLength, s.Inner.FreeLength = s.Inner.FreeLength, s.Outer.FreeLength
	n := must[spring.Nested](t)(spring.NewNested(s))
	within(t, "outer touched", float64(n.Join()), 0.050, 1e-12)
	within(t, "before", float64(n.Force(40*mm)), 4*50, 1e-9)
	within(t, "after", float64(n.Force(60*mm)), 4*70+6*10, 1e-9)
}

// The joint chamber must hold more than is swept, though the main one need not.
func TestFloatingPistonIsNotOverfilled(t *testing.T) {
	s := second
	swept := units.Volume(float64(geometry.Circle(s.Air.Bore)) * float64(s.Air.Travel))
	s.Air.Volume, s.SecondVolume = swept-30*units.Milliliter, 40*units.Milliliter
	if _, err := spring.NewFloatingPiston(s); err != nil {
		t.Errorf("10 mL left: %v", err)
	}
	s.SecondVolume = 30 * units.Milliliter
	if _, err := spring.NewFloatingPiston(s); len(units.Faults(err)) != 1 {
		t.Errorf("nothing left: %v", err)
	}
}

// A port inside the part of the stroke where the floating piston is still on its stop fills the negative
// chamber with the main one alone.
func TestFloatingPistonPortBeforeIt(t *testing.T) {
	s := second
	s.Air.Exponent, s.Air.Port = 1, 20*mm
	c := must[spring.FloatingPiston](t)(spring.NewFloatingPiston(s))
	if c.Engage() < s.Air.Port {
		t.Fatalf("engages at %v", c.Engage())
	}
	swept := float64(geometry.Circle(s.Air.Bore)) * float64(s.Air.Port)
	p := s.Air.Pressure.In(units.Pascal) * float64(s.Air.Volume) / (float64(s.Air.Volume) - swept)
	want := (p - s.Air.Ambient.In(units.Pascal)) * float64(geometry.Circle(s.Air.Rod))
	within(t, "at the port", float64(c.Force(s.Air.Port)), want, 1e-9*want)
}

// Readings may begin before full extension, up to 10 mm.
func TestMeasuredStartsBeforeTravel(t *testing.T) {
	s := spring.MeasuredSpec{Loading: []spring.Reading{{-10 * mm, 0}, {0, 50}, {50 * mm, 300}, {100 * mm, 550}}}
	c := must[spring.Measured](t)(spring.NewMeasured(s)) // 5 N/mm
	within(t, "stroke", float64(c.Stroke()), 0.1, 1e-12)
	within(t, "first force", float64(c.Force(0)), 50, 1e-9)
	within(t, "between readings", float64(c.Force(20*mm)), 150, 1e-9)
	s.Preload = 90 * mm
	within(t, "what a preload leaves", float64(must[spring.Measured](t)(spring.NewMeasured(s)).Stroke()), 0.01, 1e-12)
	s.Preload = 100 * mm
	if _, err := spring.NewMeasured(s); err == nil || !strings.Contains(err.Error(), "100 mm") {
		t.Errorf("a preload of all there is: %v", err)
	}
	s = spring.MeasuredSpec{Loading: make([]spring.Reading, 100_001)}
	for i := range s.Loading {
		s.Loading[i] = spring.Reading{Travel: units.Length(i) * 2 * units.Micrometer, Force: units.Force(i)}
	}
	if _, err := spring.NewMeasured(s); len(units.Faults(err)) != 1 {
		t.Errorf("more readings than are read: %d faults", len(units.Faults(err)))
	}
}

// A loop may close to the wrong side by the noise of its readings, a thousandth of the energy, and no
// more; so may that of a spring that pulls.
func TestMeasuredLoopMayBeNoisy(t *testing.T) {
	for _, force := range []units.Force{1000, -1000} {
		s := spring.MeasuredSpec{Loading: []spring.Reading{{0, force}, {100 * mm, force}}}
		for share, ok := range map[units.Force]bool{0.0009: true, 0.0011: false} {
			more := 1000 * share
			s.Unloading = []spring.Reading{{0, force + more}, {100 * mm, force + more}}
			if _, err := spring.NewMeasured(s); (err == nil) != ok {
				t.Errorf("%v out, %v in: %v", force+more, force, err)
			}
		}
	}
}

// How many rows a table may have, at both ends.
func TestTablesHaveLimits(t *testing.T) {
	rows := func(n int) error {
		s := spring.RateTableSpec{Travel: 0.9 * mm * units.Length(n)}
		for i := range n {
			s.Rates = append(s.Rates, spring.RatePoint{Compression: units.Length(i) * mm, Rate: coil.Rate})
		}
		s.Travel = min(400*mm, max(1*mm, s.Travel))
		_, err := spring.NewRateTable(s)
		return err
	}
	groups := func(n int) error {
		s := progressive
		s.Coils = slices.Repeat(s.Coils[:1], n)
		_, err := spring.NewProgressive(s)
		return err
	}
	for _, c := range []struct {
		what string
		err  error
		ok   bool
	}{
		{"1 row", rows(1), false}, {"2 rows", rows(2), true}, {"1000 rows", rows(1000), true},
		{"1001 rows", rows(1001), false},
		{"no group", groups(0), false}, {"1 group", groups(1), true}, {"100 groups", groups(100), true},
		{"101 groups", groups(101), false},
	} {
		if (c.err == nil) != c.ok || len(units.Faults(c.err)) > 1 {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
}

// A crossover is not judged by a block that is wrong itself.
func TestStackTellsTheFirstFault(t *testing.T) {
	s := stack
	s.Crossover, s.Soft.SolidLength = 20*mm, 115*mm // 5 mm to the block
	if _, err := spring.NewStack(s); len(units.Faults(err)) != 1 || !strings.Contains(err.Error(), "Crossover") {
		t.Errorf("past the block: %v", err)
	}
	s.Soft.Rate = -1
	if _, err := spring.NewStack(s); len(units.Faults(err)) != 1 || !strings.Contains(err.Error(), "Rate") {
		t.Errorf("no rate: %v", err)
	}
}
