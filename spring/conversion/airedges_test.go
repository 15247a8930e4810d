package conversion_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func at(t *testing.T, name string, altitude units.Length, celsius float64) conversion.AirPlace {
	return conversion.AirPlace{Place: conversion.Place{Name: name}, Ambient: ambient(t, altitude, celsius)}
}

// What is set somewhere is at most what is marked, where anything is marked, and brings the sag back or is not told.
func TestWhatIsSetSomewhere(t *testing.T) {
	base, _ := filling(t, "M07")
	base.Places = []conversion.AirPlace{at(t, "pass", 2500*units.Meter, 4), at(t, "coast", 0, 30)}
	free := base
	free.MaxGauge = units.GaugePressure{}
	r := planAir(t, free)
	for _, p := range r.Places {
		if len(p.Set) != 1 || p.Set[0].Valve {
			t.Fatalf("nothing is marked, and at %s %+v is set", p.Place.Name, p.Set)
		}
		spec, err := base.Air.Filled(gas.Fill{Gauge: p.Set[0].Positive, Ambient: p.Ambient})
		if err != nil {
			t.Fatal(err)
		}
		spec.Closed = base.Workshop
		there, err := setupOf(t, spec).At(p.Ambient)
		if err != nil {
			t.Fatal(err)
		}
		sag, err := there.Sag(r.Rider.Axial)
		if err != nil || !(math.Abs(float64(sag.Middle-r.Behavior.Sag.Middle)) <= 1e-4) {
			t.Errorf("at %s set to %v: %v, %v; here %v", p.Place.Name, p.Set[0].Positive, sag.Middle, err, r.Behavior.Sag.Middle)
		}
	}
	// Marked just above and just below what the pass asks for, the first after the event.
	asked := r.Places[1].Set[0].Positive
	for by, set := range map[units.Pressure]bool{0.01 * units.Bar: true, -0.01 * units.Bar: false} {
		j := base
		j.MaxGauge = asked.Add(by)
		got := planAir(t, j)
		if (len(got.Places[1].Set) > 0) != set {
			t.Errorf("marked %v, asked for %v: %+v", j.MaxGauge, asked, got.Places[1].Set)
		}
	}
	// No fill at all reaches this sag, and none is told.
	heavy := free
	heavy.Rider, heavy.TargetSag = 190, 16*mm
	r = planAir(t, heavy)
	for _, p := range r.Places {
		if len(p.Set) != 0 {
			t.Errorf("at %s %+v is set for a sag that nothing reaches", p.Place.Name, p.Set)
		}
	}
	says(t, r.Findings, conversion.SagMissed, "no fill within what is marked")
	// Nor does one where gas over the oil alone is too stiff.
	stiff := free
	stiff.Rider, stiff.TargetSag = 40, 140*mm
	for _, l := range []*setup.Leg{&stiff.Air.Left, &stiff.Air.Right} {
		gap := *l.Gap
		gap.Gauge, l.Gap = units.Gauge(3*units.Bar), &gap
	}
	r = planAir(t, stiff)
	for _, p := range r.Places {
		if len(p.Set) != 0 || p.Sag == nil || p.Sag.Middle > 139*mm {
			t.Errorf("at %s %+v is set for a sag of %v, asked for 140 mm", p.Place.Name, p.Set, p.Sag)
		}
	}
	// Nor is a place judged by a sag that is not there.
	weak := free
	weak.Rider, weak.MaxGauge = 190, units.Gauge(0.5*units.Bar)
	r = planAir(t, weak)
	for _, p := range r.Places {
		if p.Sag != nil || len(p.Set) != 0 {
			t.Errorf("at %s a fork of half a bar carries 190 kg: %+v", p.Place.Name, p)
		}
	}
	want(t, r.Findings, conversion.NoSupport, conversion.Stop)
	valved := base
	a := *base.Air.Left.Air
	a.NegativeGauge = a.Fill.Gauge
	valved.Air.Left.Air = &a
	if r := planAir(t, valved); !r.Places[0].Shows[0].Valve || r.Places[0].Shows[0].Negative == nil {
		t.Errorf("a valve is not told: %+v", r.Places[0].Shows)
	}
}

// A pressure asked for is refused above what is marked, and doubted a quarter outside what is usual.
func TestFillsAskedFor(t *testing.T) {
	base, _ := filling(t, "M07")
	base.MaxGauge = units.GaugePressure{}
	base.Usual.Fills = [2]units.GaugePressure{}
	asked := planAir(t, base).Asked
	bars := asked.In(units.Bar)
	for what, c := range map[string]struct {
		marked  float64
		usual   [2]float64
		stop    bool
		doubted bool
	}{
		"nothing known":     {0, [2]float64{}, false, false},
		"marked above":      {bars + 0.01, [2]float64{}, false, false},
		"marked below":      {bars - 0.01, [2]float64{}, true, false},
		"usual":             {0, [2]float64{bars - 1, bars + 1}, false, false},
		"a quarter below":   {0, [2]float64{1.251 * bars, 2 * bars}, false, true},
		"not quite":         {0, [2]float64{1.249 * bars, 2 * bars}, false, false},
		"a quarter above":   {0, [2]float64{1, bars / 1.251}, false, true},
		"not quite so much": {0, [2]float64{1, bars / 1.249}, false, false},
	} {
		j := base
		j.MaxGauge = units.Gauge(units.Pressure(c.marked) * units.Bar)
		j.Usual.Fills = fills(units.Pressure(c.usual[0]), units.Pressure(c.usual[1]))
		r := planAir(t, j)
		if got := count(r.Findings, conversion.PressureLimit) > 0; got != c.stop {
			t.Errorf("%s: refused %v", what, got)
		}
		if got := count(r.Findings, conversion.FillImplausible) > 0; got != c.doubted {
			t.Errorf("%s: doubted %v", what, got)
		}
	}
	// A tenth of a bar more, by two forks.
	r := planAir(t, base)
	sag := func(by units.Pressure) float64 {
		spec, err := base.Air.Filled(gas.Fill{Gauge: asked.Add(by), Ambient: base.Workshop})
		if err != nil {
			t.Fatal(err)
		}
		spec.Closed = base.Workshop
		s, err := setupOf(t, spec).Sag(r.Rider.Axial)
		if err != nil {
			t.Fatal(err)
		}
		return float64(s.Middle)
	}
	near(t, "a tenth of a bar", float64(r.SagStep), sag(0.05*units.Bar)-sag(-0.05*units.Bar), 1e-7)
}

// The worst place is told by its name, or by its air, with how many are as bad; what is marked is the limit.
func TestWorstPlaces(t *testing.T) {
	base, _ := filling(t, "M07")
	base.MaxGauge = units.GaugePressure{}
	base.Places = []conversion.AirPlace{at(t, "town", 200*units.Meter, 20), at(t, "the plain", 0, 35),
		at(t, "desert", 0, 45),
		at(t, "pass", 2500*units.Meter, 4)}
	all := planAir(t, base)
	shown := map[string]units.GaugePressure{}
	for _, p := range all.Places {
		shown[p.Place.Name] = p.Shows[0].Positive
	}
	if count(all.Findings, conversion.PressureThere) != 0 {
		t.Errorf("nothing is marked: %+v", all.Findings)
	}
	for marked, words := range map[units.GaugePressure][]string{
		shown["desert"]:                            nil,
		shown["desert"].Add(-0.01 * units.Bar):     {"at desert, above"},
		shown["the plain"].Add(-0.001 * units.Bar): {"at desert and 1 other places"},
		shown["pass"].Add(-0.001 * units.Bar):      {"at desert and "},
	} {
		j := base
		j.MaxGauge = marked
		r := planAir(t, j)
		if (count(r.Findings, conversion.PressureThere) > 0) != (words != nil) {
			t.Errorf("marked %v: %+v", marked, r.Findings)
		}
		says(t, r.Findings, conversion.PressureThere, words...)
		for _, f := range r.Findings {
			desert := r.Places[3].Shows[0].Positive // after the event
			if f.Code == conversion.PressureThere && (f.Value != desert || f.Limit != marked) {
				t.Errorf("%v against %v", f.Value, f.Limit)
			}
		}
	}
	// Where no fill brings the sag back: the place that misses it by most, by its air where it has no name.
	j := base
	j.Places = []conversion.AirPlace{at(t, "hill", 900*units.Meter, 15), at(t, "", 4500*units.Meter, -8)}
	free := planAir(t, j)
	j.MaxGauge = free.Places[0].Set[0].Positive.Add(-0.02 * units.Bar)
	if free.Places[1].Set[0].Positive.In(units.Bar) < j.MaxGauge.In(units.Bar) {
		t.Fatal("the mountain asks for less")
	}
	r := planAir(t, j)
	i := -1
	for n, f := range r.Findings {
		if f.Code == conversion.SagMissed && strings.Contains(f.Reason, "brings the sag back") {
			i = n
		}
	}
	if i < 0 {
		t.Fatalf("%+v", r.Findings)
	}
	goal := r.Findings[i].Limit.(units.Length)
	worst := r.Places[0]
	far := func(p conversion.PlaceFill) float64 { return math.Abs(float64(p.Sag.Middle - goal)) }
	if far(r.Places[1]) > far(worst) {
		worst = r.Places[1]
	}
	name := worst.Place.Name
	if name == "" {
		name = fmt.Sprintf("%.0f and %.3f", worst.Ambient.Temperature, worst.Ambient.Pressure)
	}
	if f := r.Findings[i]; !strings.Contains(f.Reason, "at "+name+" and 1 other places") || f.Value != worst.Sag.Middle {
		t.Errorf("%v: %s; want %s at %v", f.Value, f.Reason, name, worst.Sag.Middle)
	}
	// Where the fork as filled here does not carry the rider.
	cold := base
	cold.Places = []conversion.AirPlace{at(t, "night", 0, -58)}
	cold.Rider = 190
	if r := planAir(t, cold); r.Places[0].Sag == nil != (count(r.Findings, conversion.NoSupport) > 0 &&
		r.Behavior.Sag.Load != 0) {
		t.Errorf("%+v, %+v", r.Places[0], r.Findings)
	}
}

// Reducers go up to where the gas is compressed ten times, and what is then missing is told in percent.
func TestReducersHaveAnEnd(t *testing.T) {
	base, _ := filling(t, "M07")
	match := base.Air
	hard := *base.Air.Left.Air
	hard.Reducers = 0
	match.Left.Air = &hard
	match.Left.Springs = []spring.Spec{spring.BumpStopSpec{Outer: 40 * mm, Bore: 10 * mm, Height: 90 * mm,
		Modulus: 6 * units.Megapascal, Restraint: 1, Contact: 210 * mm, MaxStrain: 0.8}}
	base.Match, base.Criterion, base.Reducers = &match, conversion.Energy, [2]units.Volume{0, 2 * units.Liter}
	r := planAir(t, base)
	swept := float64(geometry.Circle(hard.Bore)) * float64(base.Fork.Travel)
	near(t, "most reducers", float64(r.Reducers), float64(hard.Volume)-swept*10/9, 1e-9)
	var percent float64
	reason := told(r.Findings, conversion.ReducerRange)
	if _, err := fmt.Sscanf(reason[strings.Index(reason, "takes ")+6:], "%f", &percent); err != nil {
		t.Fatal(reason, err)
	}
	then := setupOf(t, match).Curve(base.RideExponent).Energy(base.Fork.Travel * 9 / 10)
	near(t, "percent less", percent, 100*(1-float64(r.Behavior.Energy90/then)), 0.5)
	soft := match
	soft.Left.Springs = nil
	big := hard
	big.Volume += 300 * mL
	soft.Left.Air = &big
	base.Match, base.Reducers = &soft, [2]units.Volume{20 * mL, 40 * mL}
	r = planAir(t, base)
	if r.Reducers != 20*mL {
		t.Fatalf("%v of reducers for a softer fork", r.Reducers)
	}
	reason = told(r.Findings, conversion.ReducerRange)
	if _, err := fmt.Sscanf(reason[strings.Index(reason, "takes ")+6:], "%f", &percent); err != nil ||
		!strings.Contains(reason, "more energy") {
		t.Fatal(reason, err)
	}
	then = setupOf(t, soft).Curve(base.RideExponent).Energy(base.Fork.Travel * 9 / 10)
	near(t, "percent more", percent, 100*(float64(r.Behavior.Energy90/then)-1), 0.5)
	// By the force alone nothing is put in, and none is told.
	base.Criterion = conversion.SagForce
	if r := planAir(t, base); r.Reducers != 0 || count(r.Findings, conversion.ReducerRange) != 0 {
		t.Errorf("by the sag: %v of reducers, %+v", r.Reducers, r.Findings)
	}
	// Least squares: no other volume of them is nearer.
	base.Criterion, base.Reducers = conversion.LeastSquares, [2]units.Volume{0, 100 * mL}
	base.Match = new(filledWith(t, base, 33*mL))
	r = planAir(t, base)
	if !(math.Abs(float64(r.Reducers-33*mL)) <= 0.5e-6) {
		t.Errorf("%v of reducers, made with 33 mL", r.Reducers)
	}
}

// Energy and least squares ask for reducers of their own where no fill makes one fork the other, and each is met.
func TestReducersByTheirCriterion(t *testing.T) {
	base, _ := filling(t, "M07")
	match := base.Air
	soft := *base.Air.Left.Air
	soft.Reducers, soft.NegativeVolume = 60*mL, soft.NegativeVolume*3/2
	match.Left.Air = &soft
	base.Match, base.Reducers = &match, [2]units.Volume{0, 100 * mL}
	then := setupOf(t, match).Curve(base.RideExponent)
	travel := base.Fork.Travel
	squares := func(r *conversion.AirReport) (sum float64) {
		c := r.Behavior.Setup.Curve(base.RideExponent)
		for x := travel / 10; x <= travel*85/100; x += travel / 1000 {
			sum += math.Pow(float64(c.Force(x)-then.Force(x)), 2)
		}
		return sum
	}
	base.Criterion = conversion.Energy
	energy := planAir(t, base)
	want := float64(then.Energy(travel * 9 / 10))
	near(t, "energy", float64(energy.Behavior.Energy90), want, 1e-3*want)
	base.Criterion = conversion.LeastSquares
	least := planAir(t, base)
	if math.Abs(float64(least.Reducers-energy.Reducers)) < 1e-6 {
		t.Fatalf("both ask for %v", least.Reducers)
	}
	if a, b := squares(least), squares(energy); !(a < b) {
		t.Errorf("least squares %v, by energy %v", a, b)
	}
	// In steps of the range no other volume is nearer.
	for _, fixed := range []units.Volume{-4 * mL, 4 * mL} {
		j := base
		j.Reducers = [2]units.Volume{least.Reducers + fixed, least.Reducers + fixed}
		if other := planAir(t, j); !(squares(other) > squares(least)) {
			t.Errorf("%v of reducers are nearer than %v", other.Reducers, least.Reducers)
		}
	}
}

// Reducers stay where nothing is matched or none may be put in, and are judged only against what is matched.
func TestReducersStay(t *testing.T) {
	base, _ := filling(t, "M07")
	air := *base.Air.Left.Air
	air.Reducers = 20 * mL
	base.Air.Left.Air = &air
	match := base.Air
	for name, change := range map[string]func(*conversion.AirJob){
		"none may be put in": func(j *conversion.AirJob) { j.Match, j.Reducers = &match, [2]units.Volume{} },
		"nothing is matched": func(j *conversion.AirJob) { j.Reducers = [2]units.Volume{0, 100 * mL} },
	} {
		j := base
		j.Criterion = conversion.Energy
		change(&j)
		if r := planAir(t, j); r.Reducers != 20*mL {
			t.Errorf("%s: %v", name, r.Reducers)
		}
	}
	base.Reducers = [2]units.Volume{5 * units.Liter, 1 * units.Liter}
	if _, err := conversion.PlanAir(base); len(units.Faults(err)) != 1 {
		t.Errorf("%v", err)
	}
}

// A fill is held against the fork it takes after, and against itself where there is none.
func TestFillAgainstAnotherFork(t *testing.T) {
	base, _ := filling(t, "M07")
	alone := planAir(t, base)
	for _, code := range []conversion.Code{conversion.RideHeight, conversion.BottomingAim} {
		if count(alone.Findings, code) != 0 {
			t.Errorf("%s of a fork by itself: %+v", code, alone.Findings)
		}
	}
	match := base.Air
	hard := *base.Air.Left.Air
	hard.Fill.Gauge = hard.Fill.Gauge.Add(1.5 * units.Bar)
	match.Left.Air = &hard
	base.Match, base.TargetSag = &match, alone.Behavior.Sag.Middle
	r := planAir(t, base)
	if count(r.Findings, conversion.RideHeight) == 0 {
		t.Errorf("lower than a fork of 1.5 bar more, and not told: %+v", r.Findings)
	}
	says(t, r.Findings, conversion.BottomingAim, "it bottoms more easily")
	soft := hard
	soft.Fill.Gauge = soft.Fill.Gauge.Add(-3 * units.Bar)
	match.Left.Air = &soft
	r = planAir(t, base)
	if reason := told(r.Findings, conversion.BottomingAim); reason == "" || strings.Contains(reason, "bottoms more") {
		t.Errorf("stiffer than a fork of 1.5 bar less: %q", reason)
	}
}

// A strong negative spring that keeps the fork down is told of a fill too.
func TestFillThatStaysDown(t *testing.T) {
	base, _ := filling(t, "M07")
	for times, want := range map[float64]bool{1: false, 1.25: true} {
		j := base
		air := *base.Air.Left.Air
		air.NegativeGauge, air.Port = air.Fill.Gauge.Times(times), 0
		j.Air.Left.Air = &air
		if r := planAir(t, j); (count(r.Findings, conversion.StaysDown) > 0) != want {
			t.Errorf("negative at %v of the fill: %+v", times, r.Findings)
		}
	}
}

func filledWith(t *testing.T, j conversion.AirJob, reducers units.Volume) setup.Spec {
	a := *j.Air.Left.Air
	a.Reducers = reducers
	s := j.Air
	s.Left.Air = &a
	setupOf(t, s)
	return s
}

// The margin of a spring by its curve is what is left of its stroke, and one that ends nowhere has room enough.
func TestMarginsOfCurves(t *testing.T) {
	_, _, c := first(t, func(j *conversion.Job) { j.Shelf[0] = bySize("dual", dualRate()) })
	s := dualRate()
	s.Preload = c.Preload
	curve, err := s.Curve(400 * mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "margin", float64(c.BindMargin), float64(curve.Stroke())-0.305, 1e-12)
	near(t, "advised", float64(c.BindMarginAdvised), 0.005+0.02*0.305, 1e-12)
	_, _, c = first(t, func(j *conversion.Job) { j.Shelf[0] = bySize("endless", spring.CoilSpec{Rate: 8.4 * nmm}) })
	near(t, "of one that ends nowhere", float64(c.BindMargin), 0.400-0.305, 1e-12)
}

// Oil stops where the gas is compressed five times, cold, and in small legs the fill is known by a fiftieth of their
// inside.
func TestOilStopsAtItsRatio(t *testing.T) {
	_, _, c := first(t, func(j *conversion.Job) {
		j.Running = new(units.Celsius(20.1))
		j.OilVolume = conversion.Setting[units.Volume]{Min: 400 * mL, Aim: 540 * mL, Max: 760 * mL}
		j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 7*nmm, 7*nmm
	})
	near(t, "ratio", c.Builds[0].Cold.Ratio, 5, 1e-6)
	j, _, c := first(t, func(j *conversion.Job) {
		j.Legs[0].Bath = conversion.Bath{Interior: 72 * mL, Area: 2 * units.SquareCentimeter, Metal: 2 * mL}
		j.OilVolume = conversion.Setting[units.Volume]{Min: 55 * mL, Aim: 55 * mL, Max: 55 * mL}
	})
	spread := units.Volume(math.Hypot(72e-6/50, 72e-6/50))
	warm := j.Workshop.Temperature.Add(conversion.OilWarming)
	safe := func(oil units.Volume) bool {
		ratio, peak, ok := gasOver(j, j.Legs[0], 0, oil, 1.959964*spread, warm)
		return ok && ratio <= conversion.StopGapRatio && peak <= float64(conversion.StopGapPressure)
	}
	if most := c.Builds[0].OilMost; !safe(most-0.005*mL) || most < 55*mL-1e-12 && safe(most+0.01*mL) {
		t.Errorf("at most %v", most)
	}
}

// What comes in is springs and oil, less the oil that comes out.
func TestAddedMassCountsOil(t *testing.T) {
	_, _, c := first(t, func(j *conversion.Job) { j.Legs[0].Drained = [2]units.Volume{100 * mL, 140 * mL} })
	for _, f := range c.Findings {
		if f.Code == conversion.AddedMass {
			if m := c.MassChange; m.Oil < 0.2 || f.Value != m.Springs+m.Oil {
				t.Errorf("%v of %+v", f.Value, m)
			}
			return
		}
	}
	t.Errorf("%+v", c.Findings)
}

// Gas over so much oil that it alone takes more energy than the present fork leaves no coil to ask for.
func TestGasThatLeavesNothingToACoil(t *testing.T) {
	j := motocross(t)
	filledTo(&j, 2*units.Bar)
	j.Legs[0].Bath.Interior = 700 * mL
	if err := planned(j); err == nil || !strings.Contains(err.Error(), "a coil of positive rate") ||
		!strings.Contains(err.Error(), "gas over the oil alone") {
		t.Errorf("%v", err)
	}
}

// A present fork that locks before the end is nothing to match.
func TestPresentForkThatLocks(t *testing.T) {
	j := motocross(t)
	gap := *j.Present.Right.Gap
	gap.Residual = -60 * mL
	j.Present.Right.Gap = &gap
	if err := planned(j); err == nil || !strings.Contains(err.Error(), "Job.Present = ") ||
		!strings.Contains(err.Error(), "nothing to match") {
		t.Errorf("%v", err)
	}
}
