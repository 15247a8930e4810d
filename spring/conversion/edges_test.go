package conversion_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// first is the plan of one coil with a change, and that coil.
func first(t *testing.T, change func(*conversion.Job)) (conversion.Job, *conversion.Report, conversion.Candidate) {
	t.Helper()
	j := motocross(t)
	j.Shelf = j.Shelf[:1]
	change(&j)
	r := plan(t, j)
	return j, r, r.Candidates[0]
}

// told is the reason of a finding; "" where there is none.
func told(list []conversion.Finding, code conversion.Code) string {
	for _, f := range list {
		if f.Code == code {
			return f.Reason
		}
	}
	return ""
}

func count(list []conversion.Finding, code conversion.Code) (n int) {
	for _, f := range list {
		if f.Code == code {
			n++
		}
	}
	return n
}

// says holds a reason to what it has to say.
func says(t *testing.T, list []conversion.Finding, code conversion.Code, words ...string) {
	t.Helper()
	reason := told(list, code)
	for _, w := range words {
		if !strings.Contains(reason, w) {
			t.Errorf("%s: %q does not say %q", code, reason, w)
		}
	}
}

func filledTo(j *conversion.Job, fill units.Pressure) {
	air := *j.Present.Left.Air
	air.Fill.Gauge = units.Gauge(fill)
	j.Present.Left.Air = &air
}

// A fill is doubted a quarter outside the usual ones, and not a hair before.
func TestFillsAtTheirEdges(t *testing.T) {
	for marked, stop := range map[units.Pressure]bool{9.1 * units.Bar: false, 8.9 * units.Bar: true} {
		_, r, _ := first(t, func(j *conversion.Job) { j.MaxGauge = units.Gauge(marked) })
		if got := count(r.Findings, conversion.PressureLimit) > 0; got != stop {
			t.Errorf("9 bar where %v are marked: refused %v", marked, got)
		}
	}

	for fill, c := range map[units.Pressure]struct {
		usual [2]units.GaugePressure
		found bool
	}{
		9.0 * units.Bar:  {fills(11.3, 14), true}, // 11.25 · 0.8 = 9
		9.01 * units.Bar: {fills(11.2, 14), false},
		9.02 * units.Bar: {fills(5, 7.2), true}, // 7.2 · 1.25 = 9
		8.99 * units.Bar: {fills(5, 7.2), false},
	} {
		_, r, _ := first(t, func(j *conversion.Job) {
			filledTo(j, fill)
			j.Usual.Fills = c.usual
		})
		if got := count(r.Findings, conversion.FillImplausible) > 0; got != c.found {
			t.Errorf("%v for %v: %v", fill, c.usual, got)
		}
		if limit := count(r.Findings, conversion.PressureLimit); limit > 0 {
			t.Errorf("no limit is known: %d", limit)
		}
	}
	// The number is taken for psi only where that would be a usual fill: 0.62 bar are 9 psi.
	for fill, meant := range map[units.Pressure]bool{0.62 * units.Bar: true, 0.30 * units.Bar: false,
		1.2 * units.Bar:  false,
		0.41 * units.Bar: true, 0.97 * units.Bar: true, 1.0 * units.Bar: true, 1.04 * units.Bar: false} { // 7/1.25 to 12·1.25
		j := motocross(t)
		filledTo(&j, fill)
		j.Usual.Fills = fills(7, 12)
		j.Rider, j.Chassis.FrontShareRidden, j.TargetSag = 15*units.Kilogram, 0.25, 60*mm
		r, err := conversion.Plan(j)
		if err != nil {
			if strings.Contains(err.Error(), "is its fill of") { // which the fork does not carry
				continue
			}
			t.Fatal(err)
		}
		if got := strings.Contains(told(r.Findings, conversion.FillImplausible), "psi bar?"); got != meant {
			t.Errorf("%v: %q", fill, told(r.Findings, conversion.FillImplausible))
		}
	}
	// A fork that does not carry its rider is asked for its fill only where that is no usual one.
	for lo, asked := range map[units.Pressure]bool{0: false, 1.2: false, 1.3: true} { // 1.25 for 1 bar
		j := motocross(t)
		filledTo(&j, 1*units.Bar)
		j.Usual.Fills = fills(lo, 14)
		j.Rider, j.Present.Left.Gap, j.Present.Right.Gap = 200, nil, nil
		air := *j.Present.Left.Air
		air.Volume = 2500 * mL
		j.Present.Left.Air = &air
		_, err := conversion.Plan(j)
		if err == nil || strings.Contains(err.Error(), "is its fill of 1 bar right?") != asked {
			t.Errorf("usual from %v bar: %v", lo, err)
		}
	}
	coils := motocross(t) // of a fork on coils no fill is told
	coils.Present.Left = setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 1 * nmm, Preload: 1 * mm}}}
	coils.Present.Right, coils.Usual.Fills = setup.Leg{}, fills(7, 12)
	if _, err := conversion.Plan(coils); err == nil || strings.Contains(err.Error(), "fill") {
		t.Errorf("a weak coil: %v", err)
	}
}

// Water is in the air of either leg, and in none of a fork on coils, below the freezing point alone.
func TestMoistureIsInAir(t *testing.T) {
	coil := func(j *conversion.Job) {
		j.Present.Left = setup.Leg{Gap: j.Present.Right.Gap, Springs: []spring.Spec{spring.CoilSpec{Rate: 8.4 * nmm,
			Preload: 4 * mm}}}
	}
	right := func(j *conversion.Job) {
		j.Present.Left, j.Present.Right = setup.Leg{Gap: j.Present.Right.Gap}, j.Present.Left
	}
	for what, c := range map[string]struct {
		change  func(*conversion.Job)
		celsius float64
		found   bool
	}{
		"air, frost": {func(*conversion.Job) {}, -1, true}, "air, thaw": {func(*conversion.Job) {}, 1, false},
		"air in the right leg": {right, -1, true}, "coils": {coil, -10, false},
	} {
		_, r, _ := first(t, func(j *conversion.Job) {
			c.change(j)
			j.Event.Temperature = units.Celsius(c.celsius)
		})
		if got := count(r.Findings, conversion.Moisture) > 0; got != c.found {
			t.Errorf("%s: %v", what, got)
		}
	}
	for celsius, code := range map[float64]conversion.Code{-25.5: conversion.SealCold, 55.5: conversion.SealHot} {
		_, r, _ := first(t, func(j *conversion.Job) { j.Event.Temperature = units.Celsius(celsius) })
		if count(r.Findings, code) != 1 {
			t.Errorf("%v °C: no %s", celsius, code)
		}
		_, r, _ = first(t, func(j *conversion.Job) {
			j.Event.Temperature = units.Celsius(celsius - math.Copysign(1, celsius))
		})
		if count(r.Findings, conversion.SealCold)+count(r.Findings, conversion.SealHot) != 0 {
			t.Errorf("seals nearer than %v °C: %+v", celsius, r.Findings)
		}
	}
}

// What is given up is told by whether the shelf has anything nearer.
func TestRateStepSaysWhy(t *testing.T) {
	_, r, _ := first(t, func(j *conversion.Job) { j.Shelf = []conversion.ShelfCoil{coil(9.6 * nmm), coil(10 * nmm)} })
	says(t, r.Findings, conversion.RateStep, "holds nothing nearer")
	_, r, _ = first(t, func(j *conversion.Job) {
		j.Shelf = []conversion.ShelfCoil{coil(9.4 * nmm), coil(8.6 * nmm)}
		j.Shelf[1].Wire.FreeLength = 640 * mm
	})
	says(t, r.Findings, conversion.RateStep, "nearer to the rate asked for is refused")
	if j := motocross(t); j.From != conversion.PresentFork {
		t.Error("the job is of the present fork")
	}
}

// What a reason tells of the numbers: by how much a label is off, from where on a spring bows, which way the front
// stands, what warms.
func TestReasonsTellTheirNumbers(t *testing.T) {
	j, _, c := first(t, func(j *conversion.Job) { j.Shelf[0].Rate = 9.2 * nmm })
	w, _ := shelved(j, c)
	says(t, c.Findings, conversion.Mislabeled, fmt.Sprintf("disagree by %.0f %%", 100*(float64(c.Each/w.Rate())-1)))
	j, _, c = first(t, func(j *conversion.Job) { j.Legs[0].Room.Bore = 48 * mm })
	w, _ = shelved(j, c)
	y, _ := w.BucklingDeflection()
	says(t, c.Findings, conversion.Buckling, fmt.Sprintf("from %.0f on", max(0, y-c.Preload)))
	_, _, c = first(t, func(j *conversion.Job) { j.Shelf[0] = bySize("dual", dualRate()) })
	for _, f := range c.Findings {
		if f.Code == conversion.StressUnknown &&
			(!(math.Abs(scalar(f.Value)-float64(c.Preload+305*mm)) <= 1e-12) || scalar(f.Limit) != 0.605) {
			t.Errorf("compressed by %v of %v", f.Value, f.Limit)
		}
	}
	for rate, way := range map[units.Stiffness]string{7 * nmm: "lower than before", 11 * nmm: "higher than before"} {
		_, _, c := first(t, func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate, j.Shelf[0].Wire.Wire = rate, rate, 6.6*mm
		})
		says(t, c.Findings, conversion.RideHeight, way)
	}
	for friction, what := range map[units.Force]string{120: "more friction than before", 40: "less friction than before"} {
		_, r, _ := first(t, func(j *conversion.Job) { j.ConvertedFriction = friction })
		says(t, r.Findings, conversion.FrictionChange, what)
	}
	// Pressure at the edge of refusal, cold and warm.
	_, _, c = first(t, func(j *conversion.Job) { j.Legs[0].Bath.Interior = 790 * mL })
	says(t, c.Findings, conversion.GapPressureWarm, "once it is 40 K warmer")
	if strings.Contains(told(c.Findings, conversion.GapPressure), "warmer") {
		t.Errorf("cold: %s", told(c.Findings, conversion.GapPressure))
	}
	var share float64
	m := c.MassChange
	if _, err := fmt.Sscanf(told(c.Findings, conversion.AddedMass),
		"more in the fork, springs and oil, before what comes out, %f kg of it",
		&share); err != nil || !(math.Abs(share-float64(m.Unsprung)) <= 0.006) {
		t.Errorf("%q, %v; unsprung %v", told(c.Findings, conversion.AddedMass), err, m.Unsprung)
	}
}

// A fill that one in forty forks does not bear is told by what is not known of it.
func TestUnsureFillsSayWhy(t *testing.T) {
	var fired [2]bool
	for i, inOil := range []bool{true, false} {
		for interior := 740 * mL; interior < 960*mL && !fired[i]; interior += 1 * mL {
			j := motocross(t)
			j.Shelf = j.Shelf[:1]
			j.OilVolume = conversion.Setting[units.Volume]{Min: 575 * mL, Aim: 575 * mL, Max: 575 * mL}
			j.Legs[0].Bath.Interior, j.Legs[0].Bath.SpringInOil, j.Legs[0].Bath.Spread = interior, inOil, 12*mL
			r, err := conversion.Plan(j)
			if err != nil {
				continue // locks
			}
			c := r.Candidates[0]
			if reason := told(c.Findings, conversion.GapUnsure); reason != "" {
				fired[i] = true
				if strings.Contains(reason, "a level is read to 5 mm") != inOil ||
					strings.Contains(reason, "is not measured") == inOil {
					t.Errorf("level read %v: %s", inOil, reason)
				}
				b := c.Builds[0]
				if b.Cold.Ratio > 6.006 || b.Warm.Ratio > 6.006 || b.Warm.Peak.In(units.Bar) > 12.012 {
					t.Errorf("unsure, and %+v, %+v", b.Cold, b.Warm)
				}
			}
		}
	}
	if fired != [2]bool{true, true} {
		t.Errorf("found %v", fired)
	}
}

// Each leg is looked at by itself: its own clearance, the tube a spring leans on, its own gas, the shorter room.
func TestLegsAreJudgedApart(t *testing.T) {
	base := func(change func(*conversion.Job)) (conversion.Job, conversion.Candidate) {
		j := bothLegs(t)
		j.Legs[1].Room.Guide = 0
		j.Shelf = j.Shelf[:1]
		change(&j)
		return j, plan(t, j).Candidates[0]
	}
	_, alike := base(func(*conversion.Job) {})
	if n := count(alike.Findings, conversion.Buckling); n != 1 {
		t.Errorf("legs alike are told %d times to lean", n)
	}
	_, c := base(func(j *conversion.Job) { j.Legs[1].Room.Bore = 47 * mm })
	if n := count(c.Findings, conversion.Buckling); n != 2 {
		t.Errorf("two tubes: %d", n)
	}
	_, c = base(func(j *conversion.Job) { j.Legs[1].Room.Guide = 24 * mm })
	if n := count(c.Findings, conversion.Buckling); n != 1 {
		t.Errorf("a guide in one leg: %d", n)
	}
	_, c = base(func(j *conversion.Job) { j.Legs[0].Room.Guide, j.Legs[1].Room.Guide = 24*mm, 24*mm })
	if n := count(c.Findings, conversion.Buckling); n != 0 {
		t.Errorf("guides in both: %d", n)
	}
	if n := count(alike.Findings, conversion.Clearance); n != 0 {
		t.Errorf("clear by %d findings", n)
	}
	_, c = base(func(j *conversion.Job) { j.Legs[1].Clearance = 5 * mm })
	says(t, c.Findings, conversion.Clearance, "right leg")
	_, c = base(func(j *conversion.Job) { j.Legs[0].Clearance, j.Legs[1].Clearance = 5*mm, 5*mm })
	if n := count(c.Findings, conversion.Clearance); n != 1 {
		t.Errorf("alike and tight: %d", n)
	}
	for side, change := range map[string]func(*conversion.Job){
		"left leg":  func(j *conversion.Job) { j.Legs[0].Room.Length = 500 * mm },
		"right leg": func(j *conversion.Job) { j.Legs[1].Room.Length = 500 * mm },
	} {
		_, c := base(change)
		says(t, c.Findings, conversion.TooLong, side)
		for _, f := range c.Findings {
			if f.Code == conversion.TooLong && scalar(f.Limit) != 0.5 {
				t.Errorf("%s: limit %v", side, f.Limit)
			}
		}
	}
	// A spring as long as its room goes in, and is not told.
	_, c = base(func(j *conversion.Job) { j.Legs[0].Room.Length, j.Legs[1].Room.Length = 520*mm, 520*mm })
	if n := count(c.Findings, conversion.TooLong); n != 0 {
		t.Errorf("as long as its room: %s", told(c.Findings, conversion.TooLong))
	}
	// The gas of the second leg, where it is another: less oil there is told by its leg.
	gasOf := func(volume units.Volume, change func(*conversion.Job)) []conversion.Finding {
		_, c := base(func(j *conversion.Job) {
			j.OilVolume = conversion.Setting[units.Volume]{Min: volume, Aim: volume, Max: volume}
			j.Legs[1] = j.Legs[0] // without a damper
			j.Legs[1].Side = setup.Right
			change(j)
		})
		return c.Findings
	}
	if n := count(gasOf(662*mL, func(*conversion.Job) {}), conversion.GapRatio); n != 1 {
		t.Errorf("both legs alike: %d", n)
	}
	other := gasOf(662*mL, func(j *conversion.Job) { j.Legs[1].Bath.Area *= 0.99 })
	if n := count(other, conversion.GapRatio); n != 2 || !strings.Contains(fmt.Sprint(other), "(right leg)") {
		t.Errorf("legs that differ: %d, %+v", n, other)
	}
	unsure := gasOf(650*mL, func(j *conversion.Job) { j.Legs[1].Bath.Column = 60 * units.SquareCentimeter })
	if n := count(unsure, conversion.GapUnsure); n != 1 || !strings.Contains(told(unsure, conversion.GapUnsure),
		"(right leg)") {
		t.Errorf("a wide column, of which a level tells less: %+v", unsure)
	}
}

// A dry leg is one that runs in oil and has some, below what it is made to run in.
func TestDryLegs(t *testing.T) {
	filled := func(volume units.Volume, least units.Volume, greased bool) []conversion.Finding {
		_, _, c := first(t, func(j *conversion.Job) {
			j.OilVolume = conversion.Setting[units.Volume]{Min: volume, Aim: volume, Max: volume}
			j.Usual.LeastOil, j.Legs[0].Bath.Greased = least, greased
		})
		return c.Findings
	}
	for what, c := range map[string]struct {
		list      []conversion.Finding
		dry, none int
	}{
		"as much as it is made for": {filled(400*mL, 400*mL, false), 0, 0},
		"a milliliter less":         {filled(399*mL, 400*mL, false), 1, 0},
		"greased":                   {filled(399*mL, 400*mL, true), 0, 0},
		"none":                      {filled(0, 400*mL, false), 0, 1},
		"none, greased":             {filled(0, 400*mL, true), 0, 0},
		"half a milliliter":         {filled(0.5*mL, 400*mL, false), 0, 1},
	} {
		if d, n := count(c.list, conversion.DryLeg), count(c.list, conversion.NoOil); d != c.dry || n != c.none {
			t.Errorf("%s: dry %d, none %d", what, d, n)
		}
	}
	// It is told of the first leg, whose oil the record means.
	j := bothLegs(t)
	j.Usual.LeastOil, j.OilVolume = 560*mL, conversion.Setting[units.Volume]{Min: 540 * mL, Aim: 540 * mL, Max: 540 * mL}
	if n := count(plan(t, j).Candidates[0].Findings, conversion.DryLeg); n != 1 {
		t.Errorf("both legs: %d", n)
	}
}

// Warm gas is told where the cold one is not refused already, and each at its limit.
func TestGasAtItsLimits(t *testing.T) {
	for interior := 690 * mL; interior < 1000*mL; interior += 3 * mL {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		j.OilVolume = conversion.Setting[units.Volume]{Min: 560 * mL, Aim: 560 * mL, Max: 560 * mL}
		j.Legs[0].Bath.Interior = interior
		r, err := conversion.Plan(j)
		if err != nil {
			continue // locks too soon for any
		}
		c := r.Candidates[0]
		cold, warm := c.Builds[0].Cold, c.Builds[0].Warm
		locks := func(g conversion.Gas) bool { return g.Ratio == 0 || g.Ratio > oil.LockRatio }
		want := map[conversion.Code]int{}
		add := func(code conversion.Code, found bool) {
			if found {
				want[code]++
			}
		}
		add(conversion.HydraulicLock, locks(cold))
		add(conversion.GapRatio, !locks(cold) && cold.Ratio > 5.005)
		add(conversion.HydraulicLock, !locks(cold) && cold.Ratio <= 6 && locks(warm))
		add(conversion.GapRatioWarm, !locks(cold) && cold.Ratio <= 6 && !locks(warm) && warm.Ratio > 6.006)
		add(conversion.GapPressure, cold.Peak.In(units.Bar) > 8)
		add(conversion.GapPressureWarm, warm.Peak.In(units.Bar) > 8)
		refused := func(g conversion.Gas) bool {
			return locks(g) || g.Ratio > 6.006 || g.Peak.In(units.Bar) > 12.012
		}
		add(conversion.GapUnsure, !refused(cold) && !refused(warm) && refused(c.Builds[0].Worst))
		for _, code := range []conversion.Code{conversion.HydraulicLock, conversion.GapRatio, conversion.GapRatioWarm,
			conversion.GapPressure, conversion.GapPressureWarm, conversion.GapUnsure} {
			if got := count(c.Findings, code); got != want[code] {
				t.Errorf("inside %v, cold %+v, warm %+v: %s %d times, want %d", interior, cold, warm, code, got, want[code])
			}
		}
		for _, f := range c.Findings {
			stop := f.Severity == conversion.Stop
			switch f.Code {
			case conversion.GapRatio:
				if stop != (cold.Ratio > 6) {
					t.Errorf("ratio %v: %v", cold.Ratio, f.Severity)
				}
			case conversion.GapPressure:
				if stop != (cold.Peak.In(units.Bar) > 12.012) {
					t.Errorf("%v: %v", cold.Peak, f.Severity)
				}
			case conversion.GapPressureWarm:
				if stop != (warm.Peak.In(units.Bar) > 12.012) {
					t.Errorf("%v: %v", warm.Peak, f.Severity)
				}
			}
		}
	}
}

// A push to one side counts where it is more than before and enough to be felt, to either side.
func TestSideMomentsEitherWay(t *testing.T) {
	for _, side := range []setup.Side{setup.Left, setup.Right} {
		for spacing, found := range map[units.Length]bool{210 * mm: true, 0.5 * mm: false} {
			_, r, c := first(t, func(j *conversion.Job) {
				j.Usual.LegSpacing = spacing
				j.Legs[0].Side = side
				air := *j.Present.Left.Air
				air.Fill.Gauge = units.Gauge(4.2 * units.Bar)
				j.Present.Left.Air, j.Present.Right.Air = &air, &air
			})
			then := c.Behavior.SideMoment
			if (then > 0) != (side == setup.Left) || (count(c.Findings, conversion.SideMoment) > 0) != found {
				t.Errorf("%v, %v apart: %v, before %v, %+v", side, spacing, then, r.Present.SideMoment, c.Findings)
			}
		}
	}
	// One sprung leg against another as strong is nothing new, whichever it was.
	_, _, c := first(t, func(j *conversion.Job) {
		j.Usual.LegSpacing = 210 * mm
		j.Legs[0].Side = setup.Right
	})
	if n := count(c.Findings, conversion.SideMoment); n != 0 {
		t.Errorf("as much as before, to the other side: %d", n)
	}
}

// Preload that holds the machine up is told of machines, not of bicycles.
func TestTopOutOfMachines(t *testing.T) {
	for mass, found := range map[units.Mass]bool{111: true, 31: true, 30: false, 16: false} {
		_, r, c := first(t, func(j *conversion.Job) {
			j.Chassis.Mass, j.Chassis.UnsprungMass = mass, mass/10
			j.Preload = conversion.Setting[units.Length]{Min: 40 * mm, Aim: 40 * mm, Max: 40 * mm}
		})
		if c.Behavior.TopOut <= 0.6*r.Machine.Axial {
			t.Fatalf("%v: %v of %v", mass, c.Behavior.TopOut, r.Machine.Axial)
		}
		if got := count(c.Findings, conversion.TopOutForce) > 0; got != found {
			t.Errorf("%v: %v", mass, got)
		}
	}
}

// A fork held in by its negative chamber is told where its port is shut for it, which a valve of its own has not.
func TestShutPorts(t *testing.T) {
	for what, c := range map[string]struct {
		own  units.Pressure
		port units.Length
		shut bool
	}{"port at the end": {0, 0, true}, "port farther in": {0, 30 * mm, false}, "valve": {9 * units.Bar, 0, false}} {
		_, r, _ := first(t, func(j *conversion.Job) {
			air := *j.Present.Left.Air
			air.Fill.Gauge, air.Port, air.NegativeGauge = units.Gauge(1*units.Bar), c.port, units.Gauge(c.own)
			if c.own != 0 {
				air.Fill.Gauge = units.Gauge(8 * units.Bar)
				air.NegativeGauge = units.Gauge(9.6 * units.Bar)
			}
			j.Present.Left.Air, j.Present.Friction = &air, 165
			if c.own != 0 {
				j.Present.Friction = 300
			}
		})
		if count(r.Findings, conversion.StaysDown) == 0 {
			t.Errorf("%s: it comes all the way out", what)
		}
		if got := count(r.Findings, conversion.PortShut) > 0; got != c.shut {
			t.Errorf("%s: %v, %+v", what, got, r.Findings)
		}
	}
}

// Air that the seals pump in counts over every leg that holds gas: a converted one by its own bath.
func TestPumpedAirCountsItsLegs(t *testing.T) {
	lift := func(change func(*conversion.Job)) (float64, conversion.Candidate) {
		_, _, c := first(t, func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 5*nmm, 5*nmm
			change(j)
		})
		for _, f := range c.Findings {
			if f.Code == conversion.PumpedAir {
				return scalar(f.Value) * float64(c.Behavior.Rate), c
			}
		}
		return 0, c
	}
	both := float64(geometry.Circle(48*mm)) * 2 * 0.2e5
	if got, _ := lift(func(*conversion.Job) {}); !(math.Abs(got-both) <= 1e-6*both) {
		t.Errorf("%v N, want %v N", got, both)
	}
	narrow := float64(geometry.Circle(48*mm)+10*units.SquareCentimeter) * 0.2e5
	if got, _ := lift(func(j *conversion.Job) { // the leg that stays
		gap := *j.Present.Right.Gap
		gap.Area = 10e-4
		j.Present.Right.Gap = &gap
	}); !(math.Abs(got-narrow) <= 1e-6*narrow) {
		t.Errorf("a narrow leg that stays: %v N, want %v N", got, narrow)
	}
	wide := float64(geometry.Circle(48*mm)+30*units.SquareCentimeter) * 0.2e5
	if got, _ := lift(func(j *conversion.Job) {
		j.Legs[0].Bath.Area, j.Legs[0].Bath.Interior = 30e-4,
			1200*mL
	}); !(math.Abs(got-wide) <= 1e-6*wide) {
		t.Errorf("a wide leg: %v N, want %v N", got, wide)
	}
}

// The preload stays at its aim where that costs the sag no more than is known of it, and goes to where it is met where
// the
// job names one.
func TestPreloadAimOrSag(t *testing.T) {
	plan1 := func(change func(*conversion.Job)) conversion.Candidate {
		_, _, c := first(t, func(j *conversion.Job) {
			j.Preload = conversion.Setting[units.Length]{Min: 2 * mm, Aim: 4 * mm, Max: 9 * mm}
			change(j)
		})
		return c
	}
	if c := plan1(func(*conversion.Job) {}); c.Preload != 4*mm {
		t.Errorf("aimed at 4 mm: %v", c.Preload)
	}
	sharp := setup.Tolerance{}
	if c := plan1(func(j *conversion.Job) { j.Known = &sharp }); c.Preload == 4*mm {
		t.Errorf("all is known, and the aim is kept though the sag is %v", c.Behavior.Sag.Middle)
	}
	c := plan1(func(j *conversion.Job) { j.TargetSag = 67 * mm })
	if !(math.Abs(float64(c.Behavior.Sag.Middle-67*mm)) <= 1e-4) {
		t.Errorf("a sag of 67 mm asked for: %v at %v", c.Behavior.Sag.Middle, c.Preload)
	}
	if c := plan1(func(j *conversion.Job) { j.Preload.Min, j.Preload.Aim = 0, 0 }); c.Preload < 1*mm {
		t.Errorf("aimed at none: %v", c.Preload)
	}
	if c := plan1(func(j *conversion.Job) {
		j.Preload = conversion.Setting[units.Length]{Aim: 0.5 * mm, Max: 1.2 * mm}
	}); c.Preload < 1*mm {
		t.Errorf("aimed at 0.5 mm: %v", c.Preload)
	}
	// Half of what is known either way: a fork known half as well leaves the aim at half the miss.
	misses := func(known units.Stiffness) bool {
		return plan1(func(j *conversion.Job) {
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = known, known
		}).Preload == 4*mm
	}
	var stays []units.Stiffness
	for k := 7.2 * nmm; k < 10*nmm; k += 0.02 * nmm {
		if misses(k) {
			stays = append(stays, k)
		}
	}
	if len(stays) == 0 || !slices.IsSorted(stays) {
		t.Fatal(stays)
	}
	// At the edges of the coils that keep the aim the sag misses its goal by about half of what is known of it.
	for _, k := range []units.Stiffness{stays[0], stays[len(stays)-1]} {
		_, r, c := first(t, func(j *conversion.Job) {
			j.Preload = conversion.Setting[units.Length]{Min: 2 * mm, Aim: 4 * mm, Max: 9 * mm}
			j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = k, k
		})
		miss := math.Abs(float64(c.Behavior.Sag.Middle - r.TargetSag))
		high, low := float64(sagAt(t, r, c, 9*mm)-r.TargetSag), float64(sagAt(t, r, c, 2*mm)-r.TargetSag)
		best := min(math.Abs(high), math.Abs(low))
		if high < 0 && low > 0 {
			best = 0
		}
		known := float64(r.Present.Uncertainty.Sag)
		if gain := miss - best; !(gain > 0.4*known && gain < 1.1*known) {
			t.Errorf("at %v the aim gives up %v of sag; known to %v", k, units.Length(gain), units.Length(known))
		}
	}
}

// sagAt is that of the candidate's fork at another preload.
func sagAt(t *testing.T, r *conversion.Report, c conversion.Candidate, preload units.Length) units.Length {
	s := c.Behavior.Setup.Spec()
	for _, leg := range []*setup.Leg{&s.Left, &s.Right} {
		leg.Springs = slices.Clone(leg.Springs)
		for i, on := range leg.Springs {
			if k, ok := on.(spring.CoilSpec); ok {
				k.Preload = preload
				leg.Springs[i] = k
			}
		}
	}
	sag, err := setupOf(t, s).Sag(r.Rider.Axial)
	if err != nil {
		t.Fatal(err)
	}
	return sag.Middle
}

// The friction of a plan that has less of it is known as much better.
func TestFrictionKnownByItsShare(t *testing.T) {
	spread := func(present units.Force) units.Length {
		_, _, c := first(t, func(j *conversion.Job) {
			j.Present.Friction = present
			j.Known = &setup.Tolerance{Friction: 30}
			j.Caliper = &geometry.Caliper{Loose: 12 * mm}
		})
		for _, p := range c.Behavior.Parts {
			if p.Input == "friction" {
				return p.Sag
			}
		}
		t.Fatalf("no friction among %+v", c.Behavior.Parts)
		return 0
	}
	same, half, less := spread(63), spread(126), spread(40)
	if !(math.Abs(float64(half/same)-0.5) <= 1e-4) || !(math.Abs(float64(less/same)-1) <= 1e-6) {
		t.Errorf("from 63 N ±%v, from 126 N ±%v, from 40 N ±%v", same, half, less)
	}
}

// The odds follow from the margins: bind by how well preload and free length are known, lock and pressure by the gas.
func TestChancesRebuilt(t *testing.T) {
	normal := func(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
	for interior := 880 * mL; interior < 960*mL; interior += 10 * mL {
		for _, free := range []units.Length{565 * mm, 568 * mm, 605 * mm} {
			j, _, c := first(t, func(j *conversion.Job) {
				j.OilVolume = conversion.Setting[units.Volume]{Min: 640 * mL, Aim: 640 * mL, Max: 640 * mL}
				j.Legs[0].Bath.Interior, j.Legs[0].Bath.SpringInOil, j.Legs[0].Bath.Spread = interior, false, 30*mL
				j.Shelf[0].Wire.FreeLength = free
			})
			bind := normal(-float64(c.BindMargin) / math.Hypot(0.5e-3, conversion.LengthSpread*float64(free)))
			near(t, "odds of bind", float64(c.Chances.Bind), bind, 1e-9)
			l := j.Legs[0]
			u := math.Hypot(30e-6, 2.5e-6)
			warm := j.Workshop.Temperature.Add(conversion.OilWarming)
			atLimit := func(what string, far func(ratio, peak float64, ok bool) bool) float64 {
				lo, hi := -0.5e-3, 0.7e-3 // of gas less than planned
				for range 60 {
					mid := (lo + hi) / 2
					if far(gasOver(j, l, 0, c.OilVolume, units.Volume(mid), warm)) {
						hi = mid
					} else {
						lo = mid
					}
				}
				return normal(-lo / u)
			}
			lock := atLimit("lock", func(_, _ float64, ok bool) bool { return !ok })
			near(t, "odds of lock", float64(c.Chances.Lock), lock, 1e-6)
			over := atLimit("pressure", func(_, peak float64, ok bool) bool { return !ok || peak > 12e5 })
			near(t, "odds of pressure", float64(c.Chances.OverPressure), over, 1e-4)
		}
	}
}

// A build as planned has none of what a plan gives up, and the words of one that stands are its own.
func TestChecksSpeakOfTheBuild(t *testing.T) {
	j := motocross(t)
	j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 7*nmm, 7*nmm
	r, err := conversion.Check(j, conversion.Build{Coil: j.Shelf[0].Name, Preload: 4 * mm, OilVolume: 520 * mL})
	if err != nil {
		t.Fatal(err)
	}
	list := append(slices.Clone(r.Findings), r.Candidates[0].Findings...)
	for _, f := range list {
		if strings.Contains(f.Reason, "given up") {
			t.Errorf("%s: %s", f.Code, f.Reason)
		}
	}
	says(t, list, conversion.BottomingAim, "this build", "bottoms more easily")
	j.Shelf[0].Rate, j.Shelf[0].Wire.Rate, j.Shelf[0].Wire.Wire = 11*nmm, 11*nmm, 6.7*mm
	if r, err = conversion.Check(j, conversion.Build{Coil: j.Shelf[0].Name, Preload: 4 * mm,
		OilVolume: 560 * mL}); err != nil {
		t.Fatal(err)
	}
	if reason := told(r.Candidates[0].Findings, conversion.BottomingAim); !strings.Contains(reason, "this build") ||
		strings.Contains(reason, "more easily") {
		t.Errorf("%q", reason)
	}
	// At the ends of its ranges nothing is outside.
	for _, at := range []struct {
		preload units.Length
		oil     units.Volume
		found   int
	}{{3 * mm, 500 * mL, 0}, {5 * mm, 575 * mL, 0}, {2.9 * mm, 500 * mL, 1}, {5.1 * mm, 576 * mL, 2},
		{3 * mm, 499 * mL, 1}} {
		r, err := conversion.Check(j, conversion.Build{Coil: j.Shelf[0].Name, Preload: at.preload, OilVolume: at.oil})
		if err != nil {
			t.Fatal(err)
		}
		list := r.Candidates[0].Findings
		if n := count(list, conversion.PreloadRange) + count(list, conversion.OilRange); n != at.found {
			t.Errorf("%+v: %d outside", at, n)
		}
	}
	// Poured by volume or to a level, an unsure fill says which.
	for interior := 840 * mL; interior < 960*mL; interior += 2 * mL {
		j := motocross(t)
		j.Legs[0].Bath.Interior, j.Legs[0].Bath.Spread = interior, 20*mL
		b := conversion.Build{Coil: j.Shelf[0].Name, Preload: 4 * mm, OilVolume: 575 * mL}
		r, err := conversion.Check(j, b)
		if err != nil {
			t.Fatal(err)
		}
		if reason := told(r.Candidates[0].Findings, conversion.GapUnsure); reason != "" &&
			!strings.Contains(reason, "poured by volume") {
			t.Errorf("by volume: %q", reason)
		}
		level := *r.Candidates[0].OilLevel
		b.OilVolume, b.OilLevel = 0, &level
		if r, err = conversion.Check(j, b); err != nil {
			t.Fatal(err)
		}
		if reason := told(r.Candidates[0].Findings, conversion.GapUnsure); strings.Contains(reason, "poured by volume") {
			t.Errorf("to a level: %q", reason)
		}
	}
}

// Oil of a build is what was poured, or what its level leaves, and not both.
func TestPouredOrRead(t *testing.T) {
	j := motocross(t)
	w, err := helical.New(j.Shelf[0].Wire)
	if err != nil {
		t.Fatal(err)
	}
	level := 120 * mm
	inside := 900*mL - 30*mL - w.Volume()
	check := func(j conversion.Job, change func(*conversion.Build)) error {
		b := conversion.Build{Coil: j.Shelf[0].Name, Preload: 4 * mm, OilVolume: 540 * mL}
		change(&b)
		_, err := conversion.Check(j, b)
		return err
	}
	both := bothLegs(t)
	for what, c := range map[string]struct {
		err  error
		want string
	}{
		"as poured":   {check(j, func(*conversion.Build) {}), ""},
		"level":       {check(j, func(b *conversion.Build) { b.OilVolume, b.OilLevel = 0, &level }), ""},
		"both":        {check(j, func(b *conversion.Build) { b.OilLevel = &level }), "Build.OilLevel"},
		"nearly full": {check(j, func(b *conversion.Build) { b.OilVolume = inside - 1*mL }), ""},
		"full":        {check(j, func(b *conversion.Build) { b.OilVolume = inside + 0.1*mL }), "Build.OilVolume"},
		"below none":  {check(j, func(b *conversion.Build) { b.OilVolume = -1 * mL }), "Build.OilVolume"},
		"no number": {check(j, func(b *conversion.Build) { b.OilVolume = units.Volume(math.NaN()) }),
			"Build.OilVolume"},
		"a level above": {check(j, func(b *conversion.Build) { b.OilVolume, b.OilLevel = 0, new(-1*mm) }),
			"Build.OilLevel"},
		"second of one leg": {check(j, func(b *conversion.Build) { b.SecondVolume = new(300 * mL) }), "Build.SecondVolume"},
		"level of one leg":  {check(j, func(b *conversion.Build) { b.SecondLevel = &level }), "Build.SecondVolume"},
		"second":            {check(both, func(b *conversion.Build) { b.SecondVolume = new(290 * mL) }), ""},
		"second level":      {check(both, func(b *conversion.Build) { b.SecondLevel = &level }), ""},
		"second below none": {check(both, func(b *conversion.Build) { b.SecondVolume = new(-1 * mL) }),
			"Build.SecondVolume"},
		"second more than 2": {check(both, func(b *conversion.Build) { b.SecondVolume = new(2.1 * units.Liter) }),
			"Build.SecondVolume"},
	} {
		faults := units.Faults(c.err)
		if c.want == "" && c.err != nil || c.want != "" && (len(faults) != 1 || !strings.HasPrefix(c.err.Error(), c.want)) {
			t.Errorf("%s: %v", what, c.err)
		}
	}
	// By its level: the inside less the column above the oil.
	r, err := conversion.Check(j, conversion.Build{Coil: j.Shelf[0].Name, Preload: 4 * mm, OilLevel: &level})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "oil of the level", float64(r.Candidates[0].OilVolume), 900e-6-float64(j.Fork.OilColumn())*0.12, 1e-12)
}
