package damping

import (
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// What the doc comments state, each by a way of its own.

func TestReynoldsNumbers(t *testing.T) {
	o := Oil{Density: 850, Viscosity: 0.015}
	const q = units.Flow(20e-6)
	for name, c := range map[string]struct {
		got           float64
		speed, length float64 // of the stream, and its hydraulic diameter
	}{
		"annulus": {must(NewAnnulus(AnnulusSpec{Bore: 25 * mm, Clearance: 0.2 * mm, Length: 10 * mm})).Reynolds(q, o),
			20e-6 / (math.Pi * 24.8e-3 * 0.2e-3), 0.4e-3},
		"film, where it enters": {must(NewRadialGap(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: 0.1 * mm})).
			Reynolds(q, o), 20e-6 / (math.Pi * 10e-3 * 0.1e-3), 0.2e-3},
		"pipe, backwards": {must(NewPipe(PipeSpec{Diameter: 2 * mm, Length: 10 * mm})).Reynolds(-q, o),
			20e-6 / (math.Pi / 4 * 4e-6), 2e-3},
	} {
		want := 850 * c.speed * c.length / 0.015
		near(t, name, c.got, want, 1e-9*want)
	}
}

// The loss at the ends of a gap is so many dynamic heads of the mean stream.
func TestAnnulusEntrance(t *testing.T) {
	o := Oil{Density: 850, Viscosity: 0.015}
	s := AnnulusSpec{Bore: 25 * mm, Clearance: 0.2 * mm, Length: 10 * mm}
	const q = units.Flow(20e-6)
	long := must(NewAnnulus(s)).Drop(q, o)
	s.Entrance = 1.5
	v := 20e-6 / (math.Pi * 24.8e-3 * 0.2e-3)
	want := 1.5 * 850 / 2 * v * v
	near(t, "loss at the ends", float64(must(NewAnnulus(s)).Drop(q, o)-long), want, 1e-9*want)
}

// A ring pressed over a part of it deflects as the whole less the rest.
func TestPressedRings(t *testing.T) {
	p := must(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 0.2 * mm, Young: 206e9, Poisson: 0.3,
		InnerEdge: Clamped}))
	at := func(from, to units.Length) float64 {
		return float64(p.Deflection(Load{Pressure: 1e5, From: from, To: to}, 30*mm))
	}
	whole := at(0, 0)
	near(t, "inner part", at(0, 20*mm), whole-at(20*mm, 30*mm), 1e-12*whole)
	near(t, "to the edge", at(10*mm, 30*mm), whole, 1e-12*whole)
	near(t, "past the edge", at(0, 50*mm), whole, 1e-12*whole)
}

func TestReachingInvertsDrops(t *testing.T) {
	for name, base := range map[string]Valve{"with a base valve": must(NewOrifice(OrificeSpec{Area: 3e-6,
		Discharge: 0.7})), "without": nil} {
		s := mid(warm)
		s.Base = base
		c := must(NewCartridge(s))
		o := c.Reaching(3e5, 5e5)
		piston, _ := c.Drops(-o.Rebound)
		near(t, name+": over the piston in rebound", float64(piston), -5e5, 1)
		if base == nil {
			if !math.IsInf(float64(o.Compression), 1) {
				t.Errorf("%s: reached at %v", name, o.Compression)
			}
			continue
		}
		_, over := c.Drops(o.Compression)
		near(t, name+": over the base in compression", float64(over), 3e5, 1)
	}
}

// One valve has the whole of what it does, and no valve nothing.
func TestSharesOfOneValve(t *testing.T) {
	s := mid(warm)
	s.Base = must(NewOrifice(OrificeSpec{Area: 3e-6, Discharge: 0.7}))
	c := must(NewCartridge(s))
	piston, base := c.Shares(0.3)
	var sum units.Force
	for _, f := range append(piston, base...) {
		sum += f
	}
	near(t, "all of it", float64(sum), float64(c.Force(0.3)), 1e-6*float64(c.Force(0.3)))
	_, over := c.Drops(0.3)
	near(t, "the base", float64(base[0]), float64(over)*float64(c.RodArea()), 1e-6*float64(base[0]))
	s.Base = nil
	if _, base := must(NewCartridge(s)).Shares(0.3); len(base) != 0 {
		t.Errorf("without a base valve %v", base)
	}
}

// MeanRatio is an average over speed, here of a damper that is progressive.
func TestMeanRatioIsOverSpeeds(t *testing.T) {
	d := must(NewTable(TableSpec{Points: []TablePoint{{0.1, 50}, {0.5, 400}, {1, 1200}, {2, 4000}}}))
	o := must(NewOscillator(OscillatorSpec{Stiffness: 9000, Mass: 70}))
	for _, span := range [][2]units.Speed{{0.2, 1.8}, {-0.1, -0.7}} {
		const n = 20000
		sum := 0.0
		for i := range n {
			v := span[0] + (span[1]-span[0])*units.Speed(i)/n + (span[1]-span[0])/(2*n)
			sum += float64(d.Force(v)) / float64(v) / (2 * math.Sqrt(9000*70))
		}
		near(t, "mean ratio", o.MeanRatio(d, span[0], span[1]), sum/n, 1e-4*sum/n)
	}
}

type twoRates struct{ in, out units.DampingRate }

func (d twoRates) Coefficient(v units.Speed) units.DampingRate {
	if v < 0 {
		return d.out
	}
	return d.in
}

func (d twoRates) Force(v units.Speed) units.Force {
	return units.Force(float64(d.Coefficient(v)) * float64(v))
}

// A damper that is not the same both ways heats by the mean of them: a sine on c₁·v in and
// c₂·v out turns (c₁ + c₂)/2·(2πfa)²/2 into heat.
func TestMeanPowerOfBothWays(t *testing.T) {
	d := twoRates{in: 300, out: 900}
	peak := 2 * math.Pi * 2 * 0.05
	near(t, "mean power", float64(must(MeanPower(d, 0.05, 2))), (900+300)/2.0*peak*peak/2, 1e-6*600*peak*peak/2)
	for _, f := range []units.Frequency{units.Frequency(math.NaN()), -1, 101} {
		if _, err := MeanPower(d, 0, f); len(units.Faults(err)) != 1 {
			t.Errorf("%v Hz: %v", float64(f), err)
		}
	}
	if _, err := MeanPower(d, -1, 200); len(units.Faults(err)) != 2 {
		t.Errorf("two faults: %v", err)
	}
}

// Both ways the speed found is the one that makes the force.
func TestSpeedAtInverts(t *testing.T) {
	c := must(NewCartridge(mid(warm)))
	for _, v := range []units.Speed{-0.5, -0.05, 0.05, 0.5} {
		near(t, "speed", float64(must(SpeedAt(c, c.Force(v)))), float64(v), 1e-6)
	}
	for _, v := range []units.Speed{-20, 20} {
		near(t, "the fastest", float64(must(SpeedAt(Linear(1), units.Force(v)))), float64(v), 1e-6)
		if _, err := SpeedAt(Linear(1), units.Force(1.05*v)); err == nil {
			t.Errorf("no fault at %v", 1.05*v)
		}
	}
}

func TestCountsHaveLimits(t *testing.T) {
	linear := func(int) (Damper, error) { return Linear(1), nil }
	points := func(n int) TableSpec {
		var s TableSpec
		for i := range n {
			s.Points = append(s.Points, TablePoint{units.Speed(i) * 0.01, units.Force(i)})
		}
		return s
	}
	shims := func(n int) ShimStackSpec {
		s := recordedStacks["taper of five"]
		s.Shims = nil
		for range n {
			s.Shims = append(s.Shims, Shim{Diameter: 30 * mm, Thickness: 0.15 * mm})
		}
		return s
	}
	of := func(_ any, err error) error { return err }
	adjuster := func(clicks int) AdjusterSpec {
		return AdjusterSpec{Clicks: clicks, PerClick: 1e-7, Discharge: 0.7}
	}
	settings := must(NewSettings(9, linear))
	rebound := func(change func(*ReboundSpec)) error {
		s := ReboundSpec{OldRate: 8000, NewRate: 9000, OldForce: 700, NewForce: 720, PerClick: 0.04}
		change(&s)
		return of(NewRebound(s))
	}
	for _, c := range []struct {
		what string
		err  error
		ok   bool
	}{
		{"friction that drives", rebound(func(s *ReboundSpec) { s.OldFriction = -1 }), false},
		{"friction as strong as the spring", rebound(func(s *ReboundSpec) { s.OldFriction = 700 }), false},
		{"friction as strong as the new spring", rebound(func(s *ReboundSpec) { s.NewFriction = 720 }), false},
		{"more friction than damping", rebound(func(s *ReboundSpec) {
			s.NewFriction, s.OldDamping, s.Speed = 500, 100, 0.1
		}), false},
		{"no click", of(NewSettings(0, linear)), false}, {"1 click", of(NewSettings(1, linear)), true},
		{"100 clicks", of(NewSettings(100, linear)), true}, {"101 clicks", of(NewSettings(101, linear)), false},
		{"setting 9 of 9", of(settings.PerClick(9, 1)), true}, {"setting 10 of 9", of(settings.PerClick(10, 1)), false},
		{"setting −1", of(settings.PerClick(-1, 1)), false}, {"fastest", of(settings.PerClick(5, -20)), true},
		{"faster", of(settings.PerClick(5, -20.1)), false}, {"at rest", of(settings.PerClick(5, 0)), false},
		{"1 point", of(NewTable(points(1))), false}, {"2 points", of(NewTable(points(2))), true},
		{"1000 points", of(NewTable(points(1000))), true}, {"1001 points", of(NewTable(points(1001))), false},
		{"no shim", of(NewShimStack(shims(0))), false}, {"1 shim", of(NewShimStack(shims(1))), true},
		{"24 shims", of(NewShimStack(shims(24))), true}, {"25 shims", of(NewShimStack(shims(25))), false},
		{"adjuster of none", of(NewAdjuster(adjuster(0))), false}, {"of 1", of(NewAdjuster(adjuster(1))), true},
		{"of 100", of(NewAdjuster(adjuster(100))), true}, {"of 101", of(NewAdjuster(adjuster(101))), false},
		{"a million cycles", of(DampingRatio(2*mm, 1*mm, 1e6)), true},
		{"more", of(DampingRatio(2*mm, 1*mm, 1e6+1)), false}, {"none", of(DampingRatio(2*mm, 1*mm, 0)), false},
		{"no first peak", of(DampingRatio(units.Length(math.NaN()), 1*mm, 1)), false},
		{"peak of 11 m", of(DampingRatio(11, 1*mm, 1)), false},
		{"creep of a tenth", of(NewFriction(FrictionSpec{Stribeck: 0.005, Creep: 0.0005})), true},
		{"creep of a fifth", of(NewFriction(FrictionSpec{Stribeck: 0.005, Creep: 0.001})), false},
		{"lip of a radius", of(NewSeal(SealSpec{Diameter: 10 * mm, Width: 5 * mm, Friction: 0.1})), true},
		{"lip of more", of(NewSeal(SealSpec{Diameter: 10 * mm, Width: 5.1 * mm, Friction: 0.1})), false},
		{"film of a tenth", of(NewRadialGap(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: 1 * mm})), true},
		{"film of more", of(NewRadialGap(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: 1.1 * mm})), false},
		{"gap of a tenth", of(NewAnnulus(AnnulusSpec{Bore: 20 * mm, Clearance: 2 * mm, Length: 10 * mm})), true},
		{"gap of more", of(NewAnnulus(AnnulusSpec{Bore: 20 * mm, Clearance: 2.1 * mm, Length: 10 * mm})), false},
		{"thick ring", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 28 * mm, Thickness: 1.1 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Clamped})), false},
		{"thick disk", of(NewPlate(PlateSpec{Outer: 10 * mm, Inner: 0.1 * mm, Thickness: 5 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Clamped})), false},
		{"thin ring", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 28 * mm, Thickness: 0.9 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Clamped})), true},
		{"narrow ring", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 29.8 * mm, Thickness: 0.05 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Clamped})), false},
		{"inner edge of no kind", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 0.2 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Guided + 1, OuterEdge: Clamped})), false},
	} {
		if (c.err == nil) != c.ok || len(units.Faults(c.err)) > 1 {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
}

// The nearest setting above or below a factor, whichever is nearer.
func TestNearestSetting(t *testing.T) {
	s := must(NewSettings(4, func(clicks int) (Damper, error) { return Linear(500 - 100*clicks), nil }))
	for _, c := range []struct {
		factor float64
		want   int
	}{{1, 2}, {1.1, 2}, {1.2, 1}, {0.8, 3}, {0.9, 2}, {5, 0}, {0.01, 4}} {
		got, reached, err := s.Nearest(2, 0.3, c.factor)
		if err != nil || got != c.want || !(math.Abs(reached-float64(5-got)/3) <= 1e-12) {
			t.Errorf("factor %g: %d clicks out, %g, %v", c.factor, got, reached, err)
		}
	}
}

// The force need not fall from click to click, as where an adjuster is counted the other way.
func TestNearestOfRisingSettings(t *testing.T) {
	s := must(NewSettings(4, func(clicks int) (Damper, error) { return Linear(100 + 100*clicks), nil }))
	for want, factor := range []float64{0.3, 0.7, 1, 1.4, 2} {
		if got, _, err := s.Nearest(2, 0.3, factor); err != nil || got != want {
			t.Errorf("factor %g: %d clicks, %v; want %d", factor, got, err, want)
		}
	}
}
