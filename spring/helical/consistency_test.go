package helical_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// anySpring draws a valid spring.
func anySpring(t *testing.T, r *rand.Rand) helical.Spring {
	t.Helper()
	materials := every()
	for {
		m := materials[r.IntN(len(materials))]
		lo, hi := m.WireRange()
		spec := helical.Spec{
			Wire: lo + (hi-lo)*units.Length(r.Float64()), ActiveCoils: 1 + 40*r.Float64(),
			Ends: helical.Ends(r.IntN(4)), Material: m,
		}
		spec.MeanDiameter = spec.Wire * units.Length(3+17*r.Float64())
		spec.FreeLength = spec.Wire * units.Length(spec.ActiveCoils+3) * units.Length(1+4*r.Float64())
		if s, err := helical.New(spec); err == nil {
			return s
		}
	}
}

// Laws that hold for every spring, whatever its size.
func TestLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for range 300 {
		s := anySpring(t, r)
		d, D := float64(s.Wire()), float64(s.MeanDiameter())
		y := s.SolidDeflection() * units.Length(r.Float64())
		f := s.Force(y)

		// Stress by way of the twist: τ = G·θ·d/2, with θ the twist per length, y = θ·(D/2)·π·D·Na.
		twist := float64(y) / (D / 2 * math.Pi * D * s.ActiveCoils())
		near(t, "stress from twist", float64(s.ShearStress(f)), float64(s.Material().ShearModulus(s.Wire()))*twist*d/2, 1e-12)
		// Energy by way of the stress: U = τ²·V/(4·G) of the active wire.
		active := float64(s.ActiveMass()) / float64(s.Material().Density())
		near(t, "energy from stress", float64(s.Energy(y)), math.Pow(float64(s.ShearStress(f)),
			2)*active/(4*float64(s.Material().ShearModulus(s.Wire()))), 1e-12)
		near(t, "energy from force", float64(s.Energy(y)), float64(f)*float64(y)/2, 1e-12)
		near(t, "mass", float64(s.Mass()), float64(s.Volume())*float64(s.Material().Density()), 1e-15)
		if s.Ends() != helical.PlainGround { // its ground half coils take part in the pitch
			near(t, "gap of the free coils", float64(s.BindMargin(0))/s.ActiveCoils(), float64(s.Pitch()-s.Wire()), 1e-6)
		}
		near(t, "factors", s.StaticFactor(f)*float64(s.ShearStress(f)), 0.56*float64(s.TensileStrength()), 1e-12)
		if s.WireLength() < units.Length(math.Pi*D*s.TotalCoils()) {
			t.Error("wire shorter than its coils laid flat")
		}
		if s.ActiveMass() > s.Mass() {
			t.Error("the active coils outweigh the spring")
		}
		if s.OuterDiameterAtSolid() < s.OuterDiameter() {
			t.Errorf("shrinks: %v → %v", s.OuterDiameter(), s.OuterDiameterAtSolid())
		}
	}
}

func TestRateScalesAsTheFormula(t *testing.T) {
	base := helical.Spec{Wire: 4 * mm, MeanDiameter: 30 * mm, ActiveCoils: 10, FreeLength: 120 * mm, Material: of("sicr")}
	k := build(t, base).Rate()
	wide := base
	wide.MeanDiameter *= 2
	near(t, "twice D", float64(build(t, wide).Rate()), float64(k)/8, 1e-12)
	thick := base
	thick.Wire, thick.FreeLength = 8*mm, 200*mm
	near(t, "twice d", float64(build(t, thick).Rate()), 16*float64(k), 1e-12)
	more := base
	more.ActiveCoils = 20
	near(t, "twice Na", float64(build(t, more).Rate()), float64(k)/2, 1e-12)
}

func TestOutsideTheStroke(t *testing.T) {
	s := fork(t)
	for _, y := range []units.Length{-1 * mm, s.SolidDeflection() + 1*mm, units.Length(math.NaN()),
		units.Length(math.Inf(1))} {
		if !math.IsNaN(float64(s.Force(y))) || !math.IsNaN(float64(s.Energy(y))) || !math.IsNaN(float64(s.GuideForce(y,
			1*mm))) {
			t.Errorf("force, energy or guide force at %v is not NaN", y)
		}
	}
	if !math.IsNaN(float64(s.GuideForce(100*mm, -1*mm))) {
		t.Error("guide force at a negative clearance is not NaN")
	}
	if f := s.Force(s.SolidDeflection()); math.IsNaN(float64(f)) || f != s.SolidForce() {
		t.Errorf("force at solid %v", f)
	}
}

// The closed forms of Goodman and Gerber against the criteria as Shigley states
// them: the strength amplitude on the load line r, over the amplitude.
func TestFatigueByLoadLine(t *testing.T) {
	s := fork(t)
	const ssa, ssm = 57.5 * kpsi, 77.5 * kpsi
	ssu := 0.67 * float64(s.TensileStrength())
	for _, least := range []units.Force{0, 50, 400, 900} {
		f := s.Fatigue(least, 1000, helical.Peened)
		r := float64(f.Amplitude / f.Mean)
		se := float64(ssa) / (1 - math.Pow(float64(ssm)/ssu, 2))
		strength := r * r * ssu * ssu / (2 * se) * (math.Sqrt(1+math.Pow(2*se/(r*ssu), 2)) - 1)
		near(t, "Gerber", f.Gerber, strength/float64(f.Amplitude), 1e-9)
		se = float64(ssa) / (1 - float64(ssm)/ssu)
		near(t, "Goodman", f.Goodman, r*se*ssu/(r*ssu+se)/float64(f.Amplitude), 1e-12)
	}
	// No cycle: Goodman and Gerber both leave the ultimate strength over the mean.
	still := s.Fatigue(1000, 1000, helical.Peened)
	near(t, "still, Goodman", still.Goodman, ssu/float64(still.Mean), 1e-12)
	near(t, "still, Gerber", still.Gerber, ssu/float64(still.Mean), 1e-12)
	if idle := s.Fatigue(0, 0, helical.Peened); !math.IsInf(idle.Goodman, 1) || !math.IsInf(idle.Gerber, 1) {
		t.Errorf("idle: %+v", idle)
	}
	peened, raw := s.Fatigue(50, 1000, helical.Peened), s.Fatigue(50, 1000, helical.Unpeened)
	if !(peened.Gerber > raw.Gerber && peened.Goodman > raw.Goodman) {
		t.Errorf("peened %+v is no better than %+v", peened, raw)
	}
}

func TestFatigueOutsideItsData(t *testing.T) {
	titanium := build(t, helical.Spec{Wire: 6 * mm, MeanDiameter: 38 * mm, ActiveCoils: 12, FreeLength: 300 * mm,
		Material: of("ti-beta")})
	thick := build(t, helical.Spec{Wire: 9.6 * mm, MeanDiameter: 60 * mm, ActiveCoils: 5, FreeLength: 120 * mm,
		Material: of("sicrv")})
	weak := build(t, helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 12, FreeLength: 200 * mm,
		Material: wire(t, 80*gpa, power(790*mpa, 0, 1*mm, 10*mm), 0.45)})
	for _, row := range []struct {
		why         string
		s           helical.Spring
		least, most units.Force
		surface     helical.Surface
	}{
		{"titanium", titanium, 0, 100, helical.Peened},
		{"over 3/8 in", thick, 0, 100, helical.Peened},
		{"Ssu below Ssm", weak, 0, 100, helical.Peened},
		{"reversed", fork(t), 100, 50, helical.Peened},
		{"negative", fork(t), -1, 50, helical.Peened},
		{"NaN", fork(t), 0, units.Force(math.NaN()), helical.Peened},
		{"no such surface", fork(t), 0, 50, 5},
	} {
		if f := row.s.Fatigue(row.least, row.most, row.surface); !math.IsNaN(f.Goodman) || !math.IsNaN(f.Gerber) {
			t.Errorf("%s: %+v, want NaN", row.why, f)
		}
	}
}

func TestBuckling(t *testing.T) {
	s := fork(t)
	y, ok := s.BucklingDeflection()
	if f := s.GuideForce(y-1*mm, 1*mm); !ok || f != 0 {
		t.Errorf("leans with %v before it buckles", f)
	}
	one, two := s.GuideForce(300*mm, 1*mm), s.GuideForce(300*mm, 2*mm)
	near(t, "guide force at twice the clearance", float64(two), 2*float64(one), 1e-12)
	near(t, "guide force at half the force", float64(s.GuideForce(150*mm, 1*mm)), float64(one)/4, 1e-12)

	short := build(t, helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 5, FreeLength: 100 * mm,
		Material: of("sicr")})
	if y, ok := short.BucklingDeflection(); ok || y != short.SolidDeflection() {
		t.Errorf("a short spring buckles at %v", y)
	}
	if f := short.GuideForce(short.SolidDeflection(), 1*mm); f != 0 {
		t.Errorf("a short spring leans with %v", f)
	}
}

// Friction of a guided fork spring is put at 5 N to 40 N near full stroke (an
// estimate of the trade, no published value): check the order of magnitude with
// 1 mm to 2 mm of clearance and a coefficient of friction of 0.1.
func TestGuideFrictionIsPlausible(t *testing.T) {
	s := fork(t)
	for _, clearance := range []units.Length{1 * mm, 1.5 * mm, 2 * mm} {
		if f := 0.1 * float64(s.GuideForce(305*mm, clearance)); !(f >= 5 && f <= 40) {
			t.Errorf("friction with %v of clearance = %.1f N", clearance, f)
		}
	}
}

// The zero Spring is no spring, but it must not panic or look like one.
func TestZeroSpring(t *testing.T) {
	var s helical.Spring
	_, _ = s.BucklingDeflection()
	_ = s.Fatigue(0, 1, helical.Peened)
	_ = s.DiameterTolerance(helical.Grade2)
	_ = s.GuideForce(0, 0)
	if k := s.RateAt(units.Celsius(20)); k != 0 {
		t.Errorf("rate of no spring at 20 °C = %v", k)
	}
}

func TestMethodsAllocateNothing(t *testing.T) {
	s := fork(t)
	var sum float64
	n := testing.AllocsPerRun(100, func() {
		f := s.Force(100 * mm)
		y, _ := s.BucklingDeflection()
		fatigue := s.Fatigue(10, f, helical.Peened)
		sum += float64(f) + float64(y) + fatigue.Gerber + float64(s.Rate()) + float64(s.RateAt(units.Celsius(40))) +
			float64(s.CorrectedStress(f)) + float64(s.Mass()) + float64(s.MinimumGap()) + float64(s.GuideForce(100*mm, 1*mm)) +
			float64(s.DiameterTolerance(helical.Grade1)) + float64(s.SurgeFrequency()) +
			float64(s.TensileStrength()) + float64(s.OuterDiameterAtSolid()) + s.SolidFactor()
	})
	if n != 0 || math.IsNaN(sum) {
		t.Errorf("%v allocations, sum %v", n, sum)
	}
}
