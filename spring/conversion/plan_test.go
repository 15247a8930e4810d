package conversion_test

import (
	"encoding/json"
	"errors"
	"example.org/forkcurve/spring"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	mL  = units.Milliliter
	nmm = units.NewtonPerMillimeter
)

func ambient(t testing.TB, altitude units.Length, celsius float64) gas.Ambient {
	t.Helper()
	a, err := gas.StandardAt(altitude, units.Celsius(celsius))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func forkOil(t testing.TB) oil.Fluid {
	t.Helper()
	f, err := oil.NewFluid(oil.FluidSpec{Density: 860 * units.KilogramPerCubicMeter, Reference: units.Celsius(15),
		Expansion: 7.5e-4 * units.PerKelvin})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// steel is a wire of the reference dataset.
func steel(id string) helical.Material {
	m, err := data.Reference().Wire(id)
	if err != nil {
		panic(err)
	}
	return m
}

// coil is a spring for one leg of a full-size motocross fork; invented.
func coil(rate units.Stiffness) conversion.ShelfCoil {
	return conversion.ShelfCoil{Name: fmt.Sprintf("%.1f", rate), Rate: rate,
		Wire: helical.Spec{Wire: 6.3 * mm, OuterDiameter: 42 * mm, Rate: rate, FreeLength: 605 * mm,
			Material: steel("sicrv")}}
}

// motocross is a full-size motocross fork with one air leg and a rider of 70 kg,
// 79 kg in kit, at 9.0 bar: generic geometry, typical values from memory.
func motocross(t testing.TB) conversion.Job {
	home := ambient(t, 200*units.Meter, 20)
	gap := &setup.Gap{Area: geometry.Circle(48 * mm), Residual: 304 * mL}
	return conversion.Job{
		Rider: 79 * units.Kilogram,
		Chassis: geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * mm, WheelRadius: 345 * mm,
			Wheelbase: 1485 * mm,
			Mass:      111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram, FrontShare: 0.485,
			FrontShareRidden: 0.47, CenterOfGravity: 910 * mm},
		Fork: geometry.Fork{Layout: geometry.Inverted, Travel: 305 * mm,
			Stanchion: geometry.Tube{Outer: 48 * mm, Bore: 44 * mm}, OuterBore: 54 * mm},
		Present: setup.Spec{Travel: 305 * mm, Closed: home, Friction: 84,
			Left: setup.Leg{Gap: gap, Air: &setup.Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * mL,
				NegativeVolume: 70 * mL,
				Fill:           gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: home}}},
			Right: setup.Leg{Gap: gap}},
		ConvertedFriction: 63 * units.Newton,
		Legs: []conversion.ConvertedLeg{{Side: setup.Left, Room: geometry.Room{Length: 620 * mm, Bore: 44 * mm},
			Bath: conversion.Bath{Interior: 900 * mL, Area: geometry.Circle(48 * mm), Metal: 30 * mL,
				SpringInOil: true}}},
		Shelf:     []conversion.ShelfCoil{coil(8.2 * nmm), coil(8.6 * nmm), coil(9 * nmm), coil(9.4 * nmm)},
		Preload:   conversion.Setting[units.Length]{Min: 3 * mm, Aim: 4 * mm, Max: 5 * mm},
		OilVolume: conversion.Setting[units.Volume]{Min: 500 * mL, Aim: 540 * mL, Max: 575 * mL},
		Oil:       forkOil(t),
		Criterion: conversion.Energy, RideExponent: 1.3, SagWindow: [2]units.Share{0.17, 0.27},
		Workshop: home, Event: ambient(t, 2500*units.Meter, 4),
	}
}

func plan(t testing.TB, j conversion.Job) *conversion.Report {
	t.Helper()
	r, err := conversion.Plan(j)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Each criterion is put to the test by a fork built without the planner, with the
// target rate, the aimed preload and the aimed oil.
func TestTargetsMeetTheirCriterion(t *testing.T) {
	j := motocross(t)
	metal := helicalVolume(t, j)
	r := plan(t, j)
	now, err := setup.New(j.Present)
	if err != nil {
		t.Fatal(err)
	}
	residual := j.Legs[0].Bath.Interior - j.OilVolume.Aim - j.Legs[0].Bath.Metal - metal
	for _, target := range r.Targets {
		t.Run(target.Criterion.String(), func(t *testing.T) {
			fork, err := setup.New(setup.Spec{Travel: j.Fork.Travel, Closed: j.Workshop, Friction: j.ConvertedFriction,
				Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: target.Rate, Preload: j.Preload.Aim}},
					Gap: &setup.Gap{Area: j.Legs[0].Bath.Area, Residual: residual}},
				Right: setup.Leg{Gap: j.Present.Right.Gap}})
			if err != nil {
				t.Fatal(err)
			}
			switch target.Criterion {
			case conversion.SagForce:
				s, err := fork.Sag(r.Rider.Axial)
				if err != nil || !(math.Abs(float64(s.Middle-r.Present.Sag.Middle)) <= 1e-6) {
					t.Errorf("sag %v, %v; want the present %v", s.Middle, err, r.Present.Sag.Middle)
				}
			case conversion.Energy:
				x := j.Fork.Travel * 9 / 10
				got, want := fork.Curve(1.3).Energy(x), now.Curve(1.3).Energy(x)
				if !(math.Abs(float64(got-want)) <= 1e-6) {
					t.Errorf("energy %v, want the present %v", got, want)
				}
			case conversion.LeastSquares:
				// The best rate is the one no small change improves.
				misfit := func(extra units.Stiffness) (sum float64) {
					for i := range 76 {
						x := j.Fork.Travel * units.Length(0.10+0.75*float64(i)/75)
						d := float64(fork.Curve(1.3).Force(x)) + float64(extra)*float64(x+j.Preload.Aim) - float64(
							now.Curve(1.3).Force(x))
						sum += d * d
					}
					return sum
				}
				if misfit(0) > misfit(10) || misfit(0) > misfit(-10) {
					t.Errorf("misfit %v, but %v and %v with 0.01 N/mm more and less", misfit(0), misfit(10),
						misfit(-10))
				}
			}
		})
	}
}

// A coil fork that gets its own coil again is asked for its own rate by every criterion:
// what stays in the legs, the gas of a damper and a top-out spring, is counted on both sides.
func TestWhatStaysIsCounted(t *testing.T) {
	j := motocross(t)
	j.Shelf = j.Shelf[:1]
	residual := j.Legs[0].Bath.Interior - j.OilVolume.Aim - j.Legs[0].Bath.Metal - helicalVolume(t, j)
	damper := &setup.Damper{Rod: 12 * mm, Volume: 70 * mL, Fill: gas.Fill{Gauge: units.Gauge(4 * units.Bar),
		Ambient: j.Workshop}}
	j.Present = setup.Spec{Travel: j.Fork.Travel, Closed: j.Workshop, Friction: j.ConvertedFriction,
		Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 8.2 * nmm, Preload: j.Preload.Aim},
			spring.TopOutSpec{Rate: 3 * nmm, Length: 40 * mm}},
			Damper: damper, Gap: &setup.Gap{Area: j.Legs[0].Bath.Area, Residual: residual}},
		Right: setup.Leg{Damper: damper, Gap: &setup.Gap{Area: geometry.Circle(48 * mm), Residual: 304 * mL,
			Gauge: units.Gauge(0.3 * units.Bar)}}}
	r := plan(t, j)
	for _, target := range r.Targets {
		if off := float64(target.Rate/(8.2*nmm)) - 1; !(math.Abs(off) <= 1e-9) {
			t.Errorf("%v asks for %v, want the present 8.2 N/mm", target.Criterion, target.Rate)
		}
	}
	if c := r.Candidates[0]; math.Abs(float64(c.Preload-j.Preload.Aim)) > 1e-5 ||
		math.Abs(float64(c.OilVolume-j.OilVolume.Aim)) > float64(0.1*mL) {
		t.Errorf("the same coil gets %v of preload and %v of oil, want %v and %v", c.Preload, c.OilVolume,
			j.Preload.Aim, j.OilVolume.Aim)
	}
	// The balance spring of an air spring goes out with it: the coil alone holds the fork up.
	j = motocross(t)
	j.Present.Left.Springs = []spring.Spec{spring.TopOutSpec{Rate: 4 * nmm, Length: 10 * mm}}
	for _, c := range plan(t, j).Candidates {
		if want := float64(c.Rate) * float64(c.Preload); !(math.Abs(float64(c.Behavior.TopOut)-want) <= 1e-9) {
			t.Errorf("%s holds the fork up with %v, want %.2f N", c.Coil, c.Behavior.TopOut, want)
		}
	}
}

// helicalVolume is the average metal of the shelf's springs.
func helicalVolume(t testing.TB, j conversion.Job) units.Volume {
	t.Helper()
	var sum units.Volume
	for _, c := range j.Shelf {
		s, err := helical.New(c.Wire)
		if err != nil {
			t.Fatal(err)
		}
		sum += s.Volume() / units.Volume(len(j.Shelf))
	}
	return sum
}

func TestTwoLegs(t *testing.T) {
	j := motocross(t)
	right := j.Legs[0]
	right.Side = setup.Right
	j.Legs = append(j.Legs, right)
	j.Shelf = nil
	for _, k := range []units.Stiffness{4.1, 4.3, 4.5} {
		j.Shelf = append(j.Shelf, conversion.ShelfCoil{Name: fmt.Sprint(float64(k)), Rate: k * nmm,
			Wire: helical.Spec{Wire: 5 * mm, OuterDiameter: 42 * mm, Rate: k * nmm, FreeLength: 520 * mm,
				Material: steel("sicrv")}})
	}
	r := plan(t, j)
	for _, target := range r.Targets {
		if target.Each*2 != target.Rate {
			t.Errorf("%v: %v each, %v together", target.Criterion, target.Each, target.Rate)
		}
	}
	c, ok := r.Chosen()
	if !ok || len(c.Legs) != 2 || c.Rate != 2*c.Each {
		t.Errorf("chosen %v in %v, %v each, %v together", ok, c.Legs, c.Each, c.Rate)
	}
	for _, f := range r.Findings {
		if f.Code == conversion.OneLeg {
			t.Error("two sprung legs are called one")
		}
	}
}

func TestSolvesWithinRanges(t *testing.T) {
	j := motocross(t)
	for _, c := range plan(t, j).Candidates {
		if c.Preload < j.Preload.Min || c.Preload > j.Preload.Max || c.OilVolume < j.OilVolume.Min ||
			c.OilVolume > j.OilVolume.Max {
			t.Errorf("%s: preload %v, oil %v leave their ranges", c.Coil, c.Preload, c.OilVolume)
		}
		if c.GapRatio > conversion.GoodGapRatio*1.001 {
			t.Errorf("%s: the oil solved for makes a gap ratio of %.2f", c.Coil, c.GapRatio)
		}
	}
	// With ranges wide open both aims are met.
	j.Preload = conversion.Setting[units.Length]{Min: 1 * mm, Aim: 4 * mm, Max: 25 * mm}
	j.OilVolume = conversion.Setting[units.Volume]{Min: 350 * mL, Aim: 540 * mL, Max: 640 * mL}
	r := plan(t, j)
	for _, c := range r.Candidates {
		if c.Coil != "8.6" {
			continue
		}
		if miss := c.Behavior.Sag.Middle - r.TargetSag; !(math.Abs(float64(miss)) <= 1e-5) {
			t.Errorf("sag misses the target by %v", miss)
		}
		if miss := c.Behavior.EnergyFull - r.Present.EnergyFull; !(math.Abs(float64(miss)) <= 0.05) {
			t.Errorf("energy to full travel misses the present fork's by %v", miss)
		}
	}
}

// What the coil asks of rebound follows from rates and forces read off the two forks.
func TestReboundAdvice(t *testing.T) {
	r := plan(t, motocross(t))
	for _, c := range r.Candidates {
		// 84 N of friction become 63 N: a damper takes over what 21 N took out of everyday strokes.
		// It is a part of the critical damping of what the fork carries, seen along its axis.
		lean := math.Cos(float64(r.Job.Chassis.Rake))
		mass := float64(r.Rider.Sprung) / float64(units.StandardGravity) * lean * lean
		damper := 2 * 0.6 * math.Sqrt(float64(r.Present.Rate)*mass)
		ratio := math.Sqrt(float64(c.Behavior.Rate/r.Present.Rate)) + 4*21/(math.Pi*0.5*damper)
		deep := func(s *setup.Setup) units.Force { return s.Curve(1.3).Force(305 * mm * 3 / 4) }
		back := float64((deep(c.Behavior.Setup) - 63) / (deep(r.Present.Setup) - 84))
		clicks := (ratio - math.Sqrt(float64(c.Behavior.Rate/r.Present.Rate))) / damping.CommonClick
		if clicks < 1.4 || clicks > 3.5 {
			t.Errorf("the friction that goes is worth %.1f clicks", clicks)
		}
		if !(math.Abs(c.Rebound.Ratio-ratio) <= 1e-9) || !(math.Abs(c.Rebound.Return-back) <= 1e-9) {
			t.Errorf("%s: factors %v and %v, want %v and %v", c.Coil, c.Rebound.Ratio, c.Rebound.Return, ratio, back)
		}
		if c.Rebound.FewClicks > c.Rebound.MostClicks || c.Rebound.Advice == "" {
			t.Errorf("%s: %+v", c.Coil, c.Rebound)
		}
	}
}

// The steps of the fill are those of two forks built with 5 mL and 5 mm more.
func TestOilSteps(t *testing.T) {
	j := motocross(t)
	c := plan(t, j).Candidates[0]
	s, err := helical.New(j.Shelf[1].Wire)
	if err != nil || c.Coil != j.Shelf[1].Name {
		t.Fatal(c.Coil, err)
	}
	end := func(more units.Volume) units.Force {
		f, err := setup.New(setup.Spec{Travel: j.Fork.Travel, Closed: j.Workshop,
			Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: c.Each, Preload: c.Preload}},
				Gap: &setup.Gap{Area: j.Legs[0].Bath.Area,
					Residual: j.Legs[0].Bath.Interior - 30*mL - s.Volume() - c.OilVolume - more}}})
		if err != nil {
			t.Fatal(err)
		}
		return f.Curve(1.3).Force(j.Fork.Travel)
	}
	if got, want := c.OilSteps.Volume, end(5*mL)-end(0); !(math.Abs(float64(got-want)) <= 1e-6*float64(want)) {
		t.Errorf("5 mL more: %v, want %v", got, want)
	}
	if got, want := c.OilSteps.Level, end(units.Volume(0.005*float64(j.Fork.OilColumn())))-end(0); math.Abs(float64(
		got-want)) > 1e-6*float64(want) {
		t.Errorf("5 mm higher: %v, want %v", got, want)
	}
}

// Steps that lock a leg are none: 5 mL of oil, and 5 mm of level, which in this leg is more.
func TestOilStepsAtTheLock(t *testing.T) {
	_, _, c := first(t, func(*conversion.Job) {})
	j := motocross(t)
	swept := float64(j.Legs[0].Bath.Area) * float64(j.Fork.Travel)
	left := units.Volume(swept / (c.GapRatio - 1)) // over the oil of that plan, at full travel
	level := units.Volume(0.005 * float64(j.Fork.OilColumn()))
	if !(level > 6*mL) {
		t.Fatalf("5 mm are %v", level)
	}
	for over, want := range map[units.Volume]bool{4 * mL: false, (5*mL + level) / 2: false, level + 1*mL: true} {
		_, _, c := first(t, func(j *conversion.Job) {
			j.Legs[0].Bath.Interior -= left - over
			j.OilVolume = conversion.Setting[units.Volume]{Min: c.OilVolume, Aim: c.OilVolume, Max: c.OilVolume}
			j.From, j.TargetSag = conversion.RiderAlone, 60*mm
		})
		if got := c.OilSteps != (conversion.OilSteps{}); got != want || math.IsInf(float64(c.OilSteps.Level), 0) {
			t.Errorf("%.1f left: steps %+v", over, c.OilSteps)
		}
	}
	// In a narrow leg 5 mL are more.
	_, _, c = first(t, func(j *conversion.Job) {
		j.Legs[0].Bath.Interior -= left - 4*mL
		j.Legs[0].Bath.Column = 6 * units.SquareCentimeter
		j.OilVolume = conversion.Setting[units.Volume]{Min: c.OilVolume, Aim: c.OilVolume, Max: c.OilVolume}
		j.From, j.TargetSag = conversion.RiderAlone, 60*mm
	})
	if c.OilSteps != (conversion.OilSteps{}) {
		t.Errorf("4 mL left: 5 mL of steps %+v", c.OilSteps)
	}
}

func TestGreasedLeg(t *testing.T) {
	j := motocross(t)
	j.OilVolume, j.Legs[0].Bath.Greased = conversion.Setting[units.Volume]{}, true
	c := plan(t, j).Candidates[0]
	swept := float64(geometry.Circle(48*mm)) * 0.305
	s, err := helical.New(j.Shelf[0].Wire)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Safe() || c.OilVolume != 0 || c.OilLevel != nil ||
		math.Abs(c.GapRatio-(1+swept/float64(870*mL-s.Volume()))) > 0.02 {
		t.Errorf("oil %v, level %v, gap ratio %v", c.OilVolume, c.OilLevel, c.GapRatio)
	}
}

func TestRanking(t *testing.T) {
	r := plan(t, motocross(t))
	target := r.Targets[conversion.Energy].Rate
	for i, c := range r.Candidates[1:] {
		before := r.Candidates[i]
		if before.Safe() == c.Safe() &&
			math.Abs(math.Log(float64(before.Rate/target))) > math.Abs(math.Log(float64(c.Rate/target))) {
			t.Errorf("%s before %s, which is nearer to %v", before.Coil, c.Coil, target)
		}
		if !before.Safe() && c.Safe() {
			t.Errorf("unsafe %s before safe %s", before.Coil, c.Coil)
		}
	}
}

func TestFindings(t *testing.T) {
	found := map[conversion.Code][2]bool{} // whether it was, and whether it was not
	for _, c := range []struct {
		name     string
		change   func(*conversion.Job)
		code     conversion.Code
		severity conversion.Severity
	}{
		{"short spring binds", func(j *conversion.Job) { j.Shelf[0].Wire.FreeLength = 560 * mm }, conversion.CoilBind,
			conversion.Stop},
		{"margin below the standard's", func(j *conversion.Job) {}, conversion.BindMargin, conversion.Caution},
		{"thin wire is over-stressed", func(j *conversion.Job) { j.Shelf[0].Wire.Wire = 5.7 * mm },
			conversion.Overstress, conversion.Stop},
		{"long spring", func(j *conversion.Job) { j.Shelf[0].Wire.FreeLength = 640 * mm }, conversion.TooLong,
			conversion.Stop},
		{"spring longer than the leg, set by a collar", func(j *conversion.Job) {
			j.Shelf[0].Wire.FreeLength, j.Caliper = 621*mm, &geometry.Caliper{Loose: 12 * mm}
		}, conversion.TooLong, conversion.Stop},
		{"spring longer than the leg, set by the spacer",
			func(j *conversion.Job) { j.Shelf[0].Wire.FreeLength = 621 * mm }, conversion.TooLong, conversion.Note},
		{"tight tube", func(j *conversion.Job) { j.Legs[0].Room.Bore = 42.6 * mm }, conversion.Clearance,
			conversion.Caution},
		{"spring wider than the tube", func(j *conversion.Job) { j.Legs[0].Room.Bore = 41 * mm },
			conversion.Clearance, conversion.Stop},
		{"guide fills the spring", func(j *conversion.Job) { j.Legs[0].Room.Guide = 30 * mm }, conversion.Clearance,
			conversion.Stop},
		{"label in the wrong unit's rounding", func(j *conversion.Job) { j.Shelf[0].Rate = 9.2 * nmm },
			conversion.Mislabeled, conversion.Caution},
		{"no oil", func(j *conversion.Job) { j.OilVolume = conversion.Setting[units.Volume]{} }, conversion.NoOil,
			conversion.Stop},
		{"small leg locks", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 690 * mL }, conversion.HydraulicLock,
			conversion.Stop},
		{"gas compressed too far", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 780 * mL },
			conversion.GapRatio, conversion.Stop},
		{"gas compressed far", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 810 * mL }, conversion.GapRatio,
			conversion.Caution},
		{"peak pressure", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 790 * mL }, conversion.GapPressure,
			conversion.Caution},
		{"peak pressure beyond seals", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 750 * mL },
			conversion.GapPressure, conversion.Stop},
		{"preload of nothing", func(j *conversion.Job) { j.Preload = conversion.Setting[units.Length]{} },
			conversion.LooseSpring, conversion.Stop},
		{"preload of a road fork", func(j *conversion.Job) {
			j.Preload = conversion.Setting[units.Length]{Min: 30 * mm, Aim: 30 * mm, Max: 30 * mm}
		}, conversion.TopOutForce, conversion.Caution},
		{"sag far from the discipline's", func(j *conversion.Job) { j.SagWindow = [2]units.Share{0.30, 0.38} },
			conversion.SagWindow, conversion.Caution},
		{"target sag out of reach", func(j *conversion.Job) { j.TargetSag = 90 * mm }, conversion.SagMissed,
			conversion.Note},
		{"weak spring bottoms more easily", func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 6.5*nmm,
				6.5*nmm
		}, conversion.BottomingAim, conversion.Caution},
		{"front stands lower", func(j *conversion.Job) { j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 7*nmm, 7*nmm },
			conversion.RideHeight, conversion.Caution},
		{"spring the damper was not made for", func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate, j.Shelf[0].Wire.Wire = 16*nmm, 16*nmm, 7.6*mm
		}, conversion.DamperRange, conversion.Caution},
		{"rate of the fork in each of two legs", func(j *conversion.Job) {
			right := j.Legs[0]
			right.Side = setup.Right
			j.Legs = append(j.Legs, right)
			j.Shelf = []conversion.ShelfCoil{coil(8.6 * nmm)}
		}, conversion.RateFar, conversion.Stop},
		{"rate of one of two springs in one leg", func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate, j.Shelf[0].Wire.Wire, j.Shelf[0].Wire.FreeLength = 4.4*nmm, 4.4*nmm, 5.1*mm,
				500*mm
		}, conversion.RateFar, conversion.Stop},
		{"slender spring without a guide", func(j *conversion.Job) { j.Legs[0].Room.Bore = 48 * mm },
			conversion.Buckling, conversion.Caution},
		{"wire that tires", func(j *conversion.Job) {
			j.Shelf[0].Wire.Wire, j.Shelf[0].Wire.OuterDiameter = 5.4*mm, 36*mm
		}, conversion.Fatigue, conversion.Caution},
		{"less oil than the leg runs in", func(j *conversion.Job) {
			j.Usual.LeastOil, j.OilVolume = 500*mL, conversion.Setting[units.Volume]{Min: 300 * mL, Aim: 320 * mL, Max: 340 * mL}
		}, conversion.DryLeg, conversion.Caution},
		{"machine alone sags too far", func(j *conversion.Job) { j.Usual.MachineSag = [2]units.Share{0.02, 0.05} },
			conversion.MachineSag, conversion.Note},
		{"machine alone hardly sags", func(j *conversion.Job) { j.Usual.MachineSag = [2]units.Share{0.2, 0.25} },
			conversion.MachineSag, conversion.Note},
		{"spring for a brake on the road", func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate, j.Chassis.CenterOfGravity = 5*nmm, 5*nmm, 1400*mm
			j.Shelf[0].Wire.Wire = 5.5 * mm
			j.OilVolume = conversion.Setting[units.Volume]{Min: 200 * mL, Aim: 200 * mL, Max: 200 * mL}
		}, conversion.BrakeDive, conversion.Caution},
		{"one leg of a fork that had two", func(j *conversion.Job) {
			j.Usual.LegSpacing = 210 * mm
			air := *j.Present.Left.Air
			air.Fill.Gauge = units.Gauge(4.2 * units.Bar)
			j.Present.Left.Air, j.Present.Right.Air = &air, &air
		}, conversion.SideMoment, conversion.Note},
		{"fill near a limit once warm", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 790 * mL },
			conversion.GapPressureWarm, conversion.Stop},
		{"adjuster at its end", func(j *conversion.Job) { j.Clicks = &conversion.Clicks{Rebound: 3, Compression: 9} },
			conversion.DamperRange, conversion.Caution},
		{"seals that pump", func(j *conversion.Job) { j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 5.5*nmm, 5.5*nmm },
			conversion.PumpedAir, conversion.Note},
		{"steel for air", func(j *conversion.Job) {}, conversion.AddedMass, conversion.Note},
		{"a light spring", func(j *conversion.Job) { j.Shelf[0] = bySize("light", dualRate()); j.Shelf[0].Size.Mass /= 3 },
			conversion.StressUnknown, conversion.Note},
		{"altitude pumps the gap up", func(j *conversion.Job) {}, conversion.ConvertedDrift, conversion.Note},
		{"heavy rider on a weak spring", func(j *conversion.Job) {
			j.Shelf[0].Wire.FreeLength, j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 200*mm, 1.2*nmm, 1.2*nmm
			j.Shelf[0].Wire.Wire = 4 * mm
		}, conversion.NoSupport, conversion.Stop},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := motocross(t)
			j.Shelf = j.Shelf[:1]
			c.change(&j)
			r := plan(t, j)
			want(t, r.Candidates[0].Findings, c.code, c.severity)
			holdToNumbers(t, r, found)
			if _, ok := r.Chosen(); ok && c.severity == conversion.Stop {
				t.Error("chosen all the same")
			}
			marshal(t, r)
		})
	}
	for _, c := range []struct {
		name     string
		change   func(*conversion.Job)
		code     conversion.Code
		severity conversion.Severity
	}{
		{"one leg", func(j *conversion.Job) {}, conversion.OneLeg, conversion.Note},
		{"as much friction as before", func(j *conversion.Job) { j.ConvertedFriction = 80 }, conversion.OneLeg,
			conversion.Note},
		{"friction gone", func(j *conversion.Job) {}, conversion.FrictionChange, conversion.Note},
		{"air leg left in", func(j *conversion.Job) { j.Present.Right.Air = j.Present.Left.Air }, conversion.VacatedLeg,
			conversion.Note},
		{"adjuster near its end", func(j *conversion.Job) { j.Clicks = &conversion.Clicks{Rebound: 30, Compression: 9} },
			conversion.OneLeg, conversion.Note},
		{"fill above the limit", func(j *conversion.Job) { j.MaxGauge = units.Gauge(8.5 * units.Bar) },
			conversion.PressureLimit, conversion.Stop},
		{"child on a grown-up's fork", func(j *conversion.Job) {
			j.Usual.Riders = [2]units.Mass{80 * units.Kilogram, 105 * units.Kilogram}
		}, conversion.RiderRange, conversion.Caution},
		{"nearly empty", func(j *conversion.Job) { j.Usual.Fills = fills(12, 14) }, conversion.FillImplausible,
			conversion.Caution},
		{"far too full", func(j *conversion.Job) { j.Usual.Fills = fills(3, 5) }, conversion.FillImplausible,
			conversion.Caution},
		{"criteria that differ", func(j *conversion.Job) { j.RideExponent = 1.4 }, conversion.CriteriaDiffer,
			conversion.Note},
		{"arctic event", func(j *conversion.Job) { j.Event.Temperature = units.Celsius(-32) }, conversion.SealCold,
			conversion.Caution},
		{"desert event", func(j *conversion.Job) { j.Event.Temperature = units.Celsius(58) }, conversion.SealHot,
			conversion.Caution},
		{"frost", func(j *conversion.Job) { j.Event.Temperature = units.Celsius(-4) }, conversion.Moisture,
			conversion.Note},
		{"present sag outside", func(j *conversion.Job) { j.SagWindow = [2]units.Share{0.1, 0.2} },
			conversion.PresentSag, conversion.Caution},
		{"event moves the present fork", func(j *conversion.Job) {}, conversion.PresentDrift, conversion.Note},
		{"nearer coils refused", func(j *conversion.Job) {
			for i := range j.Shelf[:3] {
				j.Shelf[i].Wire.FreeLength = 640 * mm
			}
		}, conversion.RateStep, conversion.Caution},
		{"empty rack", func(j *conversion.Job) { j.Shelf = j.Shelf[3:] }, conversion.RateStep, conversion.Caution},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := motocross(t)
			c.change(&j)
			r := plan(t, j)
			want(t, r.Findings, c.code, c.severity)
			holdToNumbers(t, r, found)
		})
	}
	for code, both := range found {
		if both != [2]bool{true, true} {
			t.Errorf("%s: found %v, not found %v", code, both[0], both[1])
		}
	}
}

func fills(lo, hi units.Pressure) [2]units.GaugePressure {
	return [2]units.GaugePressure{units.Gauge(lo * units.Bar), units.Gauge(hi * units.Bar)}
}

// A job within what everything is made for has none of these findings.
func TestNothingFound(t *testing.T) {
	j := motocross(t)
	j.Usual = conversion.Usual{Riders: [2]units.Mass{70 * units.Kilogram, 105 * units.Kilogram}, Fills: fills(7, 12),
		MachineSag: [2]units.Share{0.05, 0.13}, LegSpacing: 210 * mm, LeastOil: 500 * mL}
	j.Legs[0].Room.Guide = 24 * mm // within the spring
	j.Legs[0].Bath.Spread = 54 * mL
	r := plan(t, j)
	best, ok := r.Chosen()
	if !ok {
		t.Fatal(r.Candidates[0].Findings)
	}
	for _, f := range append(r.Findings, best.Findings...) {
		switch f.Code {
		case conversion.RiderRange, conversion.FillImplausible, conversion.MachineSag, conversion.SideMoment,
			conversion.Buckling, conversion.Fatigue, conversion.DryLeg, conversion.BrakeDive, conversion.GapUnsure,
			conversion.GapPressureWarm, conversion.GapRatioWarm, conversion.NoOil, conversion.TooLong:
			t.Errorf("%s: %v against %v: %s", f.Code, f.Value, f.Limit, f.Reason)
		}
	}
}

// Nine read in psi and meant in bar is asked for.
func TestFillInAnotherUnit(t *testing.T) {
	j := motocross(t)
	air := *j.Present.Left.Air
	air.Fill.Gauge = units.Gauge(9 * units.PSI)
	j.Present.Left.Air, j.Usual.Fills = &air, fills(7, 12)
	j.Rider, j.Chassis.FrontShareRidden, j.TargetSag = 15*units.Kilogram, 0.25, 60*mm
	r, err := conversion.Plan(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Findings {
		if f.Code == conversion.FillImplausible && strings.Contains(f.Reason, "9.0 psi bar?") {
			return
		}
	}
	t.Errorf("%+v", r.Findings)
}

func want(t *testing.T, findings []conversion.Finding, code conversion.Code, severity conversion.Severity) {
	t.Helper()
	for _, f := range findings {
		if f.Code == code && f.Severity == severity {
			if f.Value == nil || f.Limit == nil || f.Reason == "" {
				t.Errorf("%s lacks a number, a limit or a reason: %+v", code, f)
			}
			return
		}
	}
	t.Errorf("no %v %v among %+v", severity, code, findings)
}

// marshal fails on NaN and infinity anywhere in the report.
func marshal(t testing.TB, r *conversion.Report) []byte {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Error(err)
	}
	return text
}

func TestBadJobs(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name   string
		change func(*conversion.Job)
		want   string
	}{
		{"altitude", func(j *conversion.Job) { z := 12 * units.Kilometer; j.Heading.Event.Altitude = &z },
			"Job.Heading.Event.Altitude = 12000 m: want -500 m to 11000 m"},
		{"torque", func(j *conversion.Job) { j.Torques = []conversion.Torque{{Name: "axle", Value: -1}} },
			"Job.Torques[0].Value = -1 N·m: want 0.5 N·m to 300 N·m"},
		{"oil to come out", func(j *conversion.Job) { j.Legs[0].Drained = [2]units.Volume{2e-4, 1e-4} },
			"Job.Legs[0].Drained = 200 mL to 100 mL: want two rising volumes"},
		{"rider missing", func(j *conversion.Job) { j.Rider = 0 }, "Job.Rider = 0 kg: want 15 kg to 200 kg"},
		{"rider NaN", func(j *conversion.Job) { j.Rider = units.Mass(nan) }, "Job.Rider = NaN kg"},
		{"rider in pounds", func(j *conversion.Job) { j.Rider = 790 }, "Job.Rider = 790 kg"},
		{"no leg", func(j *conversion.Job) { j.Legs = nil }, "Job.Legs = 0: want one leg, or the left and the right " +
			"one"},
		{"the same leg twice", func(j *conversion.Job) { j.Legs = append(j.Legs, j.Legs[0]) }, "Job.Legs = 2"},
		{"room missing", func(j *conversion.Job) { j.Legs[0].Room = geometry.Room{} },
			"Job.Legs[0].Room.Length = 0 mm"},
		{"empty shelf", func(j *conversion.Job) { j.Shelf = nil }, "Job.Shelf = 0: want 1 to 200 coil springs"},
		{"wire missing", func(j *conversion.Job) { j.Shelf[2].Wire.Wire = 0 }, "Job.Shelf[2].Wire.Wire = 0 mm"},
		{"label without its unit", func(j *conversion.Job) { j.Shelf[0].Rate = 9 }, "Job.Shelf[0].Rate = 0.009 N/mm"},
		{"preload upside down", func(j *conversion.Job) { j.Preload.Min = 6 * mm },
			"Job.Preload.Min = 6 mm: want at most Max, 5 mm"},
		{"aim outside its range", func(j *conversion.Job) { j.Preload.Aim = 9 * mm },
			"Job.Preload.Aim = 9 mm: want 3 mm to 5 mm"},
		{"oil negative", func(j *conversion.Job) { j.OilVolume.Min = -8 * mL },
			"Job.OilVolume.Min = -8 mL: want 0 mL to 2000 mL"},
		{"exponent of rest", func(j *conversion.Job) { j.RideExponent = 1 }, "Job.RideExponent = 1: want 1.05 to 1.4"},
		{"sag window in percent", func(j *conversion.Job) { j.SagWindow = [2]units.Share{17, 27} },
			"Job.SagWindow = 1700 % to 2700 %"},
		{"no workshop", func(j *conversion.Job) { j.Workshop = gas.Ambient{} }, "Job.Workshop.Pressure"},
		{"event in orbit", func(j *conversion.Job) { j.Event.Pressure = units.Absolute(1 * units.Pascal) },
			"Job.Event.Pressure"},
		{"travel of another fork", func(j *conversion.Job) { j.Present.Travel = 300 * mm },
			"Job.Present.Travel = 300 mm: want the fork's 305 mm"},
		{"no oil", func(j *conversion.Job) { j.Oil = oil.Fluid{} },
			"Job.Oil = no oil: want a fluid made by oil.NewFluid"},
		{"flat fork", func(j *conversion.Job) {
			air := *j.Present.Left.Air
			air.Fill.Gauge = units.Gauge(0.1 * units.Bar)
			j.Present.Left, j.Present.Right = setup.Leg{Air: &air}, setup.Leg{}
		}, "the present fork does not carry this rider"},
		{"oil that fills the leg", func(j *conversion.Job) {
			j.OilVolume = conversion.Setting[units.Volume]{Min: 850 * mL, Aim: 855 * mL, Max: 860 * mL}
			j.Legs[0].Bath.Interior = 900 * mL
		}, "Job.OilVolume.Aim = 855 mL: want oil that leaves the leg its travel (the leg locks on its oil at"},
		{"oil above the leg", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 400 * mL },
			"Job.OilVolume.Aim = 540 mL: want below 370 mL, what the leg holds (oil above the leg)"},
		{"no interior", func(j *conversion.Job) { j.Legs[0].Bath.Interior = 0 },
			"Job.Legs[0].Bath.Interior = 0 mL: want 5 mL to 3000 mL"},
		{"damper leg with an unknown inside", func(j *conversion.Job) {
			j.Legs[0].Damper,
				j.Legs[0].Bath.Interior = true, 0
		},
			"Job.Legs[0].Bath.Interior = 0 mL: want the inside of the leg measured with its damper in"},
		{"damper leg filled as the empty one", func(j *conversion.Job) {
			right := j.Legs[0]
			right.Side, right.Damper = setup.Right, true
			j.Legs = append(j.Legs, right)
		}, "Job.Legs[1].Bath.Interior = 900 mL: want below the 900 mL of the leg without a damper (measure it with the " +
			"damper in"},
		{"leg too small for any oil", func(j *conversion.Job) {
			right := j.Legs[0]
			right.Side, right.Bath.Interior = setup.Right, 320*mL
			j.Legs = append(j.Legs, right)
		}, "Job.Legs[1].Bath.Interior = 320 mL: want above 325 mL"},
		{"running colder than the workshop", func(j *conversion.Job) {
			cold := units.Celsius(5)
			j.Running = &cold
		}, "Job.Running = 5 °C: want 20 °C to 100 °C"},
		{"inside known worse than a guess", func(j *conversion.Job) { j.Legs[0].Bath.Spread = 400 * mL },
			"Job.Legs[0].Bath.Spread = 400 mL: want 0 mL to 300 mL"},
		{"two coils of one name", func(j *conversion.Job) { j.Shelf[2].Name = j.Shelf[0].Name },
			"Job.Shelf[2].Name = 8.2 N/mm: want a name of its own (Shelf[0] has it)"},
		{"endless shelf", func(j *conversion.Job) { j.Shelf = make([]conversion.ShelfCoil, 10_000) },
			"Job.Shelf = 10000: want 1 to 200 coil springs"},
		{"name that forges a line", func(j *conversion.Job) { j.Shelf[0].Name = "a\nSTOP" },
			`Job.Shelf[0].Name = "a\nSTOP": want a name in one line (holds the control character U+000A`},
		{"third leg", func(j *conversion.Job) { j.Legs[0].Side = 2 },
			"Job.Legs[0].Side = 2: want setup.Left or setup.Right"},
		{"criterion of nothing", func(j *conversion.Job) { j.Criterion = 9 }, "Job.Criterion = Criterion(9)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := motocross(t)
			c.change(&j)
			r, err := conversion.Plan(j)
			if r != nil || err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
			if !errors.As(err, new(*units.RangeError)) {
				t.Errorf("%T holds no *units.RangeError", err)
			}
		})
	}
	_, err := conversion.Plan(conversion.Job{})
	for _, field := range []string{"Rider", "Chassis.Rake", "Fork.Travel", "Legs", "Shelf", "RideExponent",
		"Workshop", "Oil "} {
		if !strings.Contains(err.Error(), "Job."+field) {
			t.Errorf("the error of an empty job does not name %s", field)
		}
	}
}

// All faults of a job are told at once, none hides another or brings others with it: two
// faulty fields give the faults of each.
func TestJobFaultsAddUp(t *testing.T) {
	nan := math.NaN()
	fields := func(change ...func(*conversion.Job)) []string {
		j := motocross(t)
		for _, c := range change {
			c(&j)
		}
		_, err := conversion.Plan(j)
		var list []string
		for _, err := range check.Split(err) {
			if e, ok := err.(*units.RangeError); ok {
				list = append(list, e.Field)
			} else {
				list = append(list, err.Error())
			}
		}
		slices.Sort(list)
		return list
	}
	changes := map[string]func(*conversion.Job){
		"Rider":             func(j *conversion.Job) { j.Rider = 0 },
		"Chassis.Rake":      func(j *conversion.Job) { j.Chassis.Rake = units.Angle(nan) },
		"Fork.OuterBore":    func(j *conversion.Job) { j.Fork.OuterBore = 1 * mm },
		"Present.Friction":  func(j *conversion.Job) { j.Present.Friction = -5 },
		"ConvertedFriction": func(j *conversion.Job) { j.ConvertedFriction = -5 },
		"Present.Left.Air.Bore": func(j *conversion.Job) {
			air := *j.Present.Left.Air
			air.Bore = 3 * mm
			j.Present.Left.Air = &air
		},
		"Legs[0].Room.Bore":     func(j *conversion.Job) { j.Legs[0].Room.Bore = 3 * mm },
		"Legs[0].Bath.Interior": func(j *conversion.Job) { j.Legs[0].Bath.Interior = units.Volume(nan) },
		"Legs[0].Bath.Area":     func(j *conversion.Job) { j.Legs[0].Bath.Area = 0 },
		"Legs[0].Side":          func(j *conversion.Job) { j.Legs[0].Side = 7 },
		"Shelf[1].Rate":         func(j *conversion.Job) { j.Shelf[1].Rate = 9 },
		"Shelf[2].Wire.Wire":    func(j *conversion.Job) { j.Shelf[2].Wire.Wire = 0 },
		"Shelf[3].Name":         func(j *conversion.Job) { j.Shelf[3].Name = j.Shelf[0].Name },
		"Preload.Aim":           func(j *conversion.Job) { j.Preload.Aim = 9 * mm },
		"OilVolume.Min":         func(j *conversion.Job) { j.OilVolume.Min = -1 },
		"Criterion":             func(j *conversion.Job) { j.Criterion = 9 },
		"RideExponent":          func(j *conversion.Job) { j.RideExponent = 1 },
		"TargetSag":             func(j *conversion.Job) { j.TargetSag = 9 },
		"SagWindow":             func(j *conversion.Job) { j.SagWindow = [2]units.Share{17, 27} },
		"Workshop.Temperature":  func(j *conversion.Job) { j.Workshop.Temperature = units.Celsius(99) },
		"Event.Pressure":        func(j *conversion.Job) { j.Event.Pressure = units.Absolute(1) },
		"Oil":                   func(j *conversion.Job) { j.Oil = oil.Fluid{} },
	}
	for a, one := range changes {
		if got, want := fields(one), []string{"Job." + a}; !slices.Equal(got, want) {
			t.Errorf("%s alone: %v", a, got)
		}
		for b, other := range changes {
			want := []string{"Job." + a, "Job." + b}
			slices.Sort(want)
			if got := fields(one, other); a < b && !slices.Equal(got, want) {
				t.Errorf("%s and %s: %v", a, b, got)
			}
		}
	}
}

// More legs than a fork has are one fault, and two of one side do not hide what else is wrong with them.
func TestLegsOfNoFork(t *testing.T) {
	for n, want := range map[int]int{3: 1, 2: 3} {
		j := motocross(t)
		for len(j.Legs) < n {
			j.Legs = append(j.Legs, j.Legs[0])
		}
		for i := range j.Legs {
			j.Legs[i].Room.Bore = 3 * mm
		}
		if err := planned(j); len(check.Split(err)) != want {
			t.Errorf("%d legs: %v", n, err)
		}
	}
}

// What the fork cannot do is told at once, too: a cold event that the present air does not
// carry, and an aim of oil that locks the leg.
func TestImpossibleJob(t *testing.T) {
	j := motocross(t)
	air, gap := *j.Present.Left.Air, *j.Present.Left.Gap
	gap.Residual = 600 * mL
	j.Present.Left, j.Present.Right = setup.Leg{Air: &air, Gap: &gap}, setup.Leg{}
	for gauge := 0.5; gauge < 9; gauge += 0.1 { // the least fill that carries the rider at home
		air.Fill.Gauge = units.Gauge(units.Pressure(gauge) * units.Bar)
		if f, err := setup.New(j.Present); err == nil {
			if _, err := f.Sag(j.Chassis.RiddenLoad(j.Rider).Axial); err == nil {
				break
			}
		}
	}
	j.Event = gas.Ambient{Temperature: units.Celsius(-60), Pressure: j.Workshop.Pressure}
	j.OilVolume = conversion.Setting[units.Volume]{Min: 780 * mL, Aim: 790 * mL, Max: 795 * mL}
	_, err := conversion.Plan(j)
	if !check.At(err, "Job.Event") || !check.At(err, "Job.OilVolume.Aim") {
		t.Errorf("error %v, want faults of Event and OilVolume.Aim", err)
	}
}

func FuzzPlan(f *testing.F) {
	f.Add(79.0, 9e5, 0.305, 304e-6, 900e-6, 30e-6, 0.62, 0.044, 0.0063, 0.042, 9000.0, 0.605, 0.003, 0.004, 0.005,
		500e-6, 540e-6, 575e-6, 1.3, 277.15, 0.75e5)
	f.Fuzz(func(t *testing.T, rider, gauge, travel, residual, interior, metal, room, bore, wire, outer, rate, free,
		p0, p1, p2, o0, o1, o2, n, kelvin, pressure float64) {
		j := motocross(t)
		j.Rider = units.Mass(rider)
		j.Fork.Travel, j.Present.Travel = units.Length(travel), units.Length(travel)
		air, g := *j.Present.Left.Air, *j.Present.Left.Gap
		air.Fill.Gauge = units.Gauge(units.Pressure(gauge))
		g.Residual = units.Volume(residual)
		j.Present.Left = setup.Leg{Air: &air, Gap: &g}
		j.Legs[0].Bath.Interior, j.Legs[0].Bath.Metal = units.Volume(interior), units.Volume(metal)
		j.Legs[0].Room = geometry.Room{Length: units.Length(room), Bore: units.Length(bore)}
		j.Shelf = []conversion.ShelfCoil{{Name: "x", Rate: units.Stiffness(rate),
			Wire: helical.Spec{Wire: units.Length(wire),
				OuterDiameter: units.Length(outer), Rate: units.Stiffness(rate), FreeLength: units.Length(
					free), Material: steel("sicr")}}}
		j.Preload = conversion.Setting[units.Length]{Min: units.Length(p0), Aim: units.Length(p1),
			Max: units.Length(p2)}
		j.OilVolume = conversion.Setting[units.Volume]{Min: units.Volume(o0), Aim: units.Volume(o1),
			Max: units.Volume(o2)}
		j.RideExponent = n
		j.Event = gas.Ambient{Temperature: units.Kelvin(kelvin), Pressure: units.Absolute(units.Pressure(pressure))}
		r, err := conversion.Plan(j)
		if err == nil {
			marshal(t, r)
		}
	})
}

func BenchmarkPlan(b *testing.B) {
	j := motocross(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := conversion.Plan(j); err != nil {
			b.Fatal(err)
		}
	}
}
