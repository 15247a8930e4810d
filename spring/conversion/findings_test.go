package conversion_test

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// pair is what a finding should say: its number and its limit, in SI; NaN: not told here.
type pair struct{ value, limit float64 }

// if1 is one pair where a condition holds.
func if1(fires bool, value, limit float64) []pair {
	if fires {
		return []pair{{value, limit}}
	}
	return nil
}

// shelved is the spring of a candidate by its wire; false for one known by its curve.
func shelved(j conversion.Job, c conversion.Candidate) (helical.Spring, bool) {
	for _, s := range j.Shelf {
		if s.Name == c.Coil && s.Spring == nil {
			w, err := helical.New(s.Wire)
			return w, err == nil
		}
	}
	return helical.Spring{}, false
}

// ofCoil says of a candidate which findings it has by the numbers of the report: a second telling
// of the register, with the limits as they are documented.
var ofCoil = map[conversion.Code]func(j conversion.Job, r *conversion.Report, c conversion.Candidate) []pair{
	conversion.CoilBind: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.BindMargin < 5*mm, float64(c.BindMargin), 0.005)
	},
	conversion.BindMargin: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.BindMargin >= 5*mm && c.BindMargin < c.BindMarginAdvised, float64(c.BindMargin),
			float64(c.BindMarginAdvised))
	},
	conversion.Overstress: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.Stress > c.StressLimit, float64(c.Stress), float64(c.StressLimit))
	},
	conversion.Fatigue: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		w, ok := shelved(j, c)
		everyday := c.Preload + j.Fork.Travel*6/10
		if !ok || everyday >= w.SolidDeflection() {
			return nil
		}
		life := w.Fatigue(w.Force(c.Preload), w.Force(everyday), helical.Peened)
		return if1(min(life.Goodman, life.Gerber) < 1, min(life.Goodman, life.Gerber), 1)
	},
	conversion.Mislabeled: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		w, ok := shelved(j, c)
		return if1(ok && math.Abs(float64(c.Each/w.Rate())-1) > 0.06, float64(c.Each), float64(w.Rate()))
	},
	conversion.LooseSpring: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.Preload < 1*mm, float64(c.Preload), 0.001)
	},
	conversion.NoOil: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.OilVolume < 1*mL && !j.Legs[0].Bath.Greased, float64(c.OilVolume), 1e-6)
	},
	conversion.DryLeg: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.OilVolume >= 1*mL && c.OilVolume < j.Usual.LeastOil*(1-1e-9) && !j.Legs[0].Bath.Greased,
			float64(c.OilVolume), float64(j.Usual.LeastOil))
	},
	conversion.GapRatio: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		if c.GapRatio > 6 {
			return if1(c.GapRatio <= oil.LockRatio, c.GapRatio, 6)
		}
		return if1(c.GapRatio > 5.005, c.GapRatio, 5)
	},
	conversion.GapPressure: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		peak := c.Builds[0].Cold.Peak.In(units.Pascal)
		if peak > 12.012e5 {
			return []pair{{peak, 12e5}}
		}
		return if1(peak > 8e5, peak, 8e5)
	},
	conversion.GapPressureWarm: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		peak := c.Builds[0].Warm.Peak.In(units.Pascal)
		if peak > 12.012e5 {
			return []pair{{peak, 12e5}}
		}
		return if1(peak > 8e5, peak, 8e5)
	},
	conversion.TopOutForce: func(j conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		return if1(c.Behavior.TopOut > 0.6*r.Machine.Axial && ridden(c), float64(c.Behavior.TopOut),
			0.6*float64(r.Machine.Axial))
	},
	conversion.RateFar: func(_ conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		asked := float64(r.Targets[r.Job.Criterion].Rate)
		ratio := float64(c.Rate) / asked
		return if1(ridden(c) && (ratio > 1.6 || ratio < 1/1.6), float64(c.Rate), asked)
	},
	conversion.SagWindow: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		return window(c.Behavior.Sag.Middle, j.SagWindow, j.Fork.Travel, ridden(c))
	},
	conversion.MachineSag: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		told := ridden(c) && j.Usual.MachineSag[1] > 0
		return window(c.Behavior.MachineSag.Middle, j.Usual.MachineSag, j.Fork.Travel, told)
	},
	conversion.SagMissed: func(_ conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		sure := 1 * mm
		if u := c.Behavior.Uncertainty; u != nil {
			sure = max(sure, u.Sag)
		}
		miss := c.Behavior.Sag.Middle - r.TargetSag
		return if1(ridden(c) && max(miss, -miss) > sure, float64(c.Behavior.Sag.Middle), float64(r.TargetSag))
	},
	conversion.BottomingAim: func(_ conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		off := float64(c.Behavior.EnergyFull/r.Present.EnergyFull) - 1
		return if1(ridden(c) && math.Abs(off) > 0.05, float64(c.Behavior.EnergyFull), float64(r.Present.EnergyFull))
	},
	conversion.BrakeDive: func(j conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		// Moments about the contact of the rear wheel; 0.6 g, or 0.9 of what lifts it.
		ch, weight := j.Chassis, float64(r.Rider.Mass)*float64(units.StandardGravity)
		shift := float64(ch.CenterOfGravity / ch.Wheelbase)
		brake := min(0.6, 0.9*float64(1-ch.FrontShareRidden)/shift) * weight
		sin, cos := math.Sincos(float64(ch.Rake))
		axial := (float64(r.Rider.Wheel)+brake*shift-float64(r.Rider.Unsprung))*cos + brake*sin
		dive := float64(c.Behavior.Stroke)
		if s, err := c.Behavior.Setup.Sag(units.Force(axial)); err == nil {
			dive = float64(s.Middle)
		}
		return if1(ridden(c) && dive > 0.9*float64(j.Fork.Travel), dive, 0.9*float64(j.Fork.Travel))
	},
	conversion.SideMoment: func(j conversion.Job, r *conversion.Report, c conversion.Candidate) []pair {
		now, then := math.Abs(float64(r.Present.SideMoment)), math.Abs(float64(c.Behavior.SideMoment))
		return if1(ridden(c) && then > 1.1*now && then > 10, then, now)
	},
	conversion.RideHeight: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		d := float64(c.SagChange)
		return if1(ridden(c) && math.Abs(d) >= 0.005, d, math.Copysign(0.005, d))
	},
	conversion.ConvertedDrift: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		if !ridden(c) {
			return nil
		}
		d := float64(c.Event.There.Middle - c.Event.Here.Middle)
		return if1(math.Abs(d) >= 0.005, d, math.Copysign(0.005, d))
	},
	conversion.DamperRange: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		middle := (c.Rebound.FewClicks + c.Rebound.MostClicks) / 2
		if j.Clicks != nil {
			return if1(ridden(c) && float64(j.Clicks.Rebound)-middle < 2, float64(j.Clicks.Rebound)-middle, 2)
		}
		return if1(ridden(c) && math.Abs(middle) > 6, middle, math.Copysign(6, middle))
	},
	conversion.AddedMass: func(j conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		more := float64(c.Mass) * float64(len(j.Legs))
		for i, l := range j.Legs {
			if out := (l.Drained[0] + l.Drained[1]) / 2; out > 0 {
				more += float64(c.Builds[i].OilVolume-out) * float64(j.Oil.Density(j.Workshop.Temperature))
			}
		}
		return if1(more > 0.5, more, 0.5)
	},
	conversion.PumpedAir: func(_ conversion.Job, _ *conversion.Report, c conversion.Candidate) []pair {
		// 0.2 bar more in every leg, over the rate about the sag.
		if !ridden(c) {
			return nil
		}
		force, s := 0.0, c.Behavior.Setup.Spec()
		for _, l := range []setup.Leg{s.Left, s.Right} {
			if l.Gap != nil {
				force += 0.2e5 * float64(l.Gap.Area)
			}
		}
		lift := force / float64(c.Behavior.Rate)
		return if1(lift > 0.005, lift, 0.005)
	},
}

func ridden(c conversion.Candidate) bool { return c.Behavior.Sag.Load != 0 }

func window(sag units.Length, w [2]units.Share, travel units.Length, told bool) []pair {
	lo, hi := float64(travel)*float64(w[0]), float64(travel)*float64(w[1])
	if s := float64(sag); told && s < lo {
		return []pair{{s, lo}}
	} else if told && s > hi {
		return []pair{{s, hi}}
	}
	return nil
}

// ofJob says the same of a job.
var ofJob = map[conversion.Code]func(j conversion.Job, r *conversion.Report) []pair{
	conversion.RiderRange: func(j conversion.Job, _ *conversion.Report) []pair {
		lo, hi := j.Usual.Riders[0], j.Usual.Riders[1]
		if j.Rider < lo {
			return []pair{{float64(j.Rider), float64(lo)}}
		}
		return if1(hi > lo && j.Rider > hi, float64(j.Rider), float64(hi))
	},
	conversion.PressureLimit: func(j conversion.Job, _ *conversion.Report) []pair {
		fill := j.Present.Left.Air.Fill.Gauge.In(units.Pascal)
		most := j.MaxGauge.In(units.Pascal)
		return if1(most > 0 && fill > most, fill, most)
	},
	conversion.FillImplausible: func(j conversion.Job, _ *conversion.Report) []pair {
		fill := j.Present.Left.Air.Fill.Gauge.In(units.Pascal)
		lo, hi := j.Usual.Fills[0].In(units.Pascal), j.Usual.Fills[1].In(units.Pascal)
		var list []pair
		for _, l := range []setup.Leg{j.Present.Left, j.Present.Right} {
			if l.Air != nil && hi > lo && fill < lo/1.25 {
				list = append(list, pair{fill, lo})
			} else if l.Air != nil && hi > lo && fill > hi*1.25 {
				list = append(list, pair{fill, hi})
			}
		}
		return list
	},
	conversion.SealCold: func(j conversion.Job, _ *conversion.Report) []pair {
		return if1(j.Event.Temperature.Celsius() < -25, j.Event.Temperature.Kelvin(), 248.15)
	},
	conversion.SealHot: func(j conversion.Job, _ *conversion.Report) []pair {
		return if1(j.Event.Temperature.Celsius() > 55, j.Event.Temperature.Kelvin(), 328.15)
	},
	conversion.Moisture: func(j conversion.Job, _ *conversion.Report) []pair {
		return if1(j.Event.Temperature.Celsius() < 0, j.Event.Temperature.Kelvin(), 273.15)
	},
	conversion.PresentSag: func(j conversion.Job, r *conversion.Report) []pair {
		return window(r.Present.Sag.Middle, j.SagWindow, j.Fork.Travel, true)
	},
	conversion.PresentDrift: func(_ conversion.Job, r *conversion.Report) []pair {
		d := float64(r.Event.There.Middle - r.Event.Here.Middle)
		return if1(math.Abs(d) >= 0.005, d, math.Copysign(0.005, d))
	},
	conversion.CriteriaDiffer: func(_ conversion.Job, r *conversion.Report) []pair {
		least, most := math.Inf(1), 0.0
		for _, t := range r.Targets {
			least, most = min(least, float64(t.Rate)), max(most, float64(t.Rate))
		}
		return if1(most/least > 1.04, most, least)
	},
	conversion.OneLeg: func(j conversion.Job, r *conversion.Report) []pair {
		asked := float64(r.Targets[j.Criterion].Rate)
		return if1(len(j.Legs) == 1, asked, asked/2)
	},
	conversion.RateStep: func(j conversion.Job, r *conversion.Report) []pair {
		asked, best := float64(r.Targets[j.Criterion].Rate), float64(r.Candidates[0].Rate)
		return if1(max(best/asked, asked/best) > math.Exp(0.04), best, asked)
	},
	conversion.FrictionChange: func(j conversion.Job, _ *conversion.Report) []pair {
		d := float64(j.ConvertedFriction - j.Present.Friction)
		return if1(math.Abs(d) > 10, d, math.Copysign(10, d))
	},
	conversion.VacatedLeg: func(j conversion.Job, _ *conversion.Report) []pair {
		a := j.Present.Right.Air
		if a == nil || len(j.Legs) == 2 {
			return nil
		}
		// One volume, shut at the ambient: p·((V/(V − A·L))ⁿ − 1)·A, less what the negative one pulls.
		area := math.Pi / 4 * float64(a.Bore) * float64(a.Bore)
		annulus := area - math.Pi/4*float64(a.Rod)*float64(a.Rod)
		p, l := j.Workshop.Pressure.In(units.Pascal), float64(j.Fork.Travel)
		v, vn := float64(a.Volume), float64(a.NegativeVolume)
		push := math.Pow(v/(v-area*l), j.RideExponent) - 1
		pull := math.Pow(vn/(vn+annulus*l), j.RideExponent) - 1
		return []pair{{p * (area*push - annulus*pull), 0}}
	},
}

// elsewhere are codes that a test of their own looks at, with number and limit.
var elsewhere = []conversion.Code{conversion.StressUnknown, conversion.TooLong, conversion.Clearance,
	conversion.HydraulicLock, conversion.GapRatioWarm, conversion.GapUnsure, conversion.NoSupport, conversion.Buckling,
	conversion.StaysDown, conversion.PortShut, conversion.BushBind, conversion.LeakDrift}

// holdToNumbers holds all findings of a report to what its numbers say, and notes which were found.
func holdToNumbers(t *testing.T, r *conversion.Report, found map[conversion.Code][2]bool) {
	t.Helper()
	hold := func(about string, list []conversion.Finding, code conversion.Code, want []pair) {
		var got []pair
		for _, f := range list {
			if f.Code == code {
				got = append(got, pair{scalar(f.Value), scalar(f.Limit)})
			}
		}
		near := func(a, b pair) bool {
			return math.Abs(a.value-b.value) <= 1e-9*math.Abs(b.value)+1e-12 &&
				math.Abs(a.limit-b.limit) <= 1e-9*math.Abs(b.limit)
		}
		if !slices.EqualFunc(got, want, near) {
			t.Errorf("%s: %s found as %v, the numbers say %v", about, code, got, want)
		}
		was := found[code]
		found[code] = [2]bool{was[0] || len(got) > 0, was[1] || len(got) == 0}
	}
	for code, of := range ofJob {
		hold("job", r.Findings, code, of(r.Job, r))
	}
	known := func(f conversion.Finding) bool {
		return ofJob[f.Code] != nil || ofCoil[f.Code] != nil || slices.Contains(elsewhere, f.Code)
	}
	for _, c := range r.Candidates {
		for code, of := range ofCoil {
			hold(c.Coil, c.Findings, code, of(r.Job, r, c))
		}
		for _, f := range append(r.Findings, c.Findings...) {
			if !known(f) {
				t.Errorf("no test tells when %s is found", f.Code)
			}
		}
	}
}

func scalar(a conversion.Amount) float64 {
	switch a := a.(type) {
	case units.GaugePressure:
		return a.In(units.Pascal)
	case units.Temperature:
		return a.Kelvin()
	}
	return reflect.ValueOf(a).Float()
}

// The findings with more than one cause, each with its number and limit.
func TestFindingsByCause(t *testing.T) {
	first := func(change func(*conversion.Job)) (conversion.Job, *conversion.Report, conversion.Candidate) {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		change(&j)
		r := plan(t, j)
		return j, r, r.Candidates[0]
	}
	is := func(list []conversion.Finding, code conversion.Code, value, limit float64) {
		t.Helper()
		for _, f := range list {
			if f.Code == code && math.Abs(scalar(f.Value)-value) <= 1e-6*math.Abs(value)+1e-9 &&
				math.Abs(scalar(f.Limit)-limit) <= 1e-6*math.Abs(limit)+1e-9 {
				return
			}
		}
		t.Errorf("no %s of %v against %v among %+v", code, value, limit, list)
	}
	isNot := func(list []conversion.Finding, code conversion.Code) {
		t.Helper()
		if i := slices.IndexFunc(list, func(f conversion.Finding) bool { return f.Code == code }); i >= 0 {
			t.Errorf("%s found: %+v", code, list[i])
		}
	}
	_, _, sound := first(func(*conversion.Job) {})
	w, _ := shelved(motocross(t), sound)

	_, _, c := first(func(j *conversion.Job) { j.Shelf[0].Wire.FreeLength = 640 * mm })
	is(c.Findings, conversion.TooLong, 0.640-float64(c.Preload), 0.620)
	isNot(sound.Findings, conversion.TooLong)

	j, _, c := first(func(j *conversion.Job) { j.Legs[0].Room.Bore = 42.6 * mm })
	is(c.Findings, conversion.Clearance, float64(j.Legs[0].Room.Bore-w.OuterDiameterAtSolid()), 0.001)
	_, _, c = first(func(j *conversion.Job) { j.Legs[0].Clearance = 3 * mm })
	is(c.Findings, conversion.Clearance, float64(44*mm-w.OuterDiameterAtSolid()), 0.003)
	j, _, c = first(func(j *conversion.Job) { j.Legs[0].Room.Guide = 29 * mm })
	is(c.Findings, conversion.Clearance, float64(w.InnerDiameter()-29*mm), 0.001)
	isNot(sound.Findings, conversion.Clearance)

	_, _, c = first(func(j *conversion.Job) { j.Legs[0].Bath.Interior = 690 * mL })
	is(c.Findings, conversion.HydraulicLock, float64(c.OilVolume), float64(c.Builds[0].OilMost))
	isNot(sound.Findings, conversion.HydraulicLock)
	isNot(sound.Findings, conversion.GapUnsure)
	isNot(sound.Findings, conversion.GapRatioWarm)

	_, _, c = first(func(j *conversion.Job) { // a ratio below the limit that the swollen oil takes past it
		j.OilVolume = conversion.Setting[units.Volume]{Min: 600 * mL, Aim: 600 * mL, Max: 600 * mL}
		j.Legs[0].Bath.Interior = 897 * mL
	})
	if c.GapRatio > 6 {
		t.Fatalf("%v cold", c.GapRatio)
	}
	is(c.Findings, conversion.GapRatioWarm, c.GapRatioWarm, 6)
	hot := units.Celsius(100)
	_, _, c = first(func(j *conversion.Job) { // and one that locks once warm
		j.OilVolume = conversion.Setting[units.Volume]{Min: 780 * mL, Aim: 780 * mL, Max: 780 * mL}
		j.Legs[0].Bath.Area, j.Running = 3*units.SquareCentimeter, &hot
		j.Legs[0].Bath.Interior = 830.3*mL + w.Volume()
	})
	if !(c.GapRatio > 5 && c.GapRatio < 6) {
		t.Fatalf("%v cold", c.GapRatio)
	}
	is(c.Findings, conversion.HydraulicLock, float64(c.OilVolume), float64(c.Builds[0].OilMost))

	_, r, c := first(func(j *conversion.Job) {
		j.Shelf[0].Wire.FreeLength, j.Shelf[0].Rate, j.Shelf[0].Wire.Rate = 200*mm, 1.2*nmm, 1.2*nmm
		j.Shelf[0].Wire.Wire = 4 * mm
	})
	end := c.Behavior.Setup.Curve(gas.Isothermal)
	is(c.Findings, conversion.NoSupport, float64(r.Rider.Axial), float64(end.Force(end.Stroke())))
	isNot(sound.Findings, conversion.NoSupport)

	// Buckling: 0.1 of the force with which the spring leans on its tube, where nothing is within it.
	y, bows := w.BucklingDeflection()
	deflection := sound.Preload + 305*mm
	if !bows || y > deflection {
		t.Fatal("a sound spring does not bow")
	}
	is(sound.Findings, conversion.Buckling, 0.1*float64(w.GuideForce(deflection, 44*mm-w.OuterDiameterAtSolid())), 20)
	_, _, c = first(func(j *conversion.Job) { j.Legs[0].Room.Guide = 24 * mm })
	isNot(c.Findings, conversion.Buckling)

	// Negative pressure above the positive one draws the fork in against the weight of its wheel.
	_, r, _ = first(func(j *conversion.Job) {
		air := *j.Present.Left.Air
		air.NegativeGauge, air.NegativeVolume = units.Gauge(14*units.Bar), 140*mL
		j.Present.Left.Air = &air
	})
	curve := r.Present.Setup.Curve(gas.Isothermal)
	pull := 15.3 * float64(units.StandardGravity) * math.Cos(27.2*math.Pi/180)
	for _, f := range r.Findings {
		if f.Code == conversion.StaysDown {
			if got := float64(curve.Force(units.Length(scalar(f.Value)))) + pull; !(math.Abs(got-84) <= 0.1) {
				t.Errorf("at %v the fork pushes with %v N and its wheel, friction 84 N", f.Value, got)
			}
		}
	}
	want(t, r.Findings, conversion.StaysDown, conversion.Note)
	_, r, _ = first(func(*conversion.Job) {})
	isNot(r.Findings, conversion.StaysDown)
	isNot(r.Findings, conversion.PortShut)

	// At 1 bar both chambers push with 1 bar on the rod at the port, and the wheel pulls: less than 300 N of friction.
	sticky := func(friction units.Force) []conversion.Finding {
		_, r, _ := first(func(j *conversion.Job) {
			air := *j.Present.Left.Air
			air.Fill.Gauge = units.Gauge(1 * units.Bar)
			j.Present.Left.Air, j.Present.Friction = &air, friction
		})
		return r.Findings
	}
	rod := math.Pi / 4 * float64(j.Present.Left.Air.Rod) * float64(j.Present.Left.Air.Rod)
	isNot(sticky(units.Force(1e5*rod+pull-5)), conversion.PortShut)
	want(t, sticky(units.Force(1e5*rod+pull+60)), conversion.PortShut, conversion.Caution)

	// Bushes under 0.6 g: each reaction from the moments about the other one, 0.06 of both, against a quarter of what
	// compresses the fork.
	ch, weight := j.Chassis, float64(r.Rider.Mass)*float64(units.StandardGravity)
	shift := float64(ch.CenterOfGravity / ch.Wheelbase)
	brake := min(0.6, 0.9*float64(1-ch.FrontShareRidden)/shift) * weight
	wheel := float64(r.Rider.Wheel) + brake*shift
	sin, cos := math.Sincos(float64(ch.Rake))
	side, moment := brake*cos-wheel*sin, brake*float64(ch.WheelRadius)
	bushed := func(spacing, atFull, overhang units.Length) (found []conversion.Finding, hold float64) {
		_, r, _ := first(func(j *conversion.Job) {
			j.Usual.Bushes = conversion.Bushes{Spacing: spacing, SpacingAtFull: atFull, Overhang: overhang}
		})
		x := float64(r.Present.Dive/(305*mm)) * float64(atFull-spacing)
		a, b := float64(spacing)+x, float64(overhang)-x
		upper := (side*b + moment) / a
		lower := (side*(a+b) + moment) / a
		return r.Findings, 0.06 * (math.Abs(upper) + math.Abs(lower))
	}
	limit := 0.25 * ((wheel-float64(r.Rider.Unsprung))*cos + brake*sin)
	found, hold := bushed(40*mm, 60*mm, 620*mm)
	is(found, conversion.BushBind, hold, limit)
	found, hold = bushed(150*mm, 455*mm, 360*mm)
	if isNot(found, conversion.BushBind); !(hold < limit) {
		t.Errorf("bushes far apart hold with %.0f N, limit %.0f N", hold, limit)
	}
}

// The air that draws the fork down at the event has to be let in, and that which pushes it up, out.
func TestDriftSaysWhichWay(t *testing.T) {
	for _, c := range []struct {
		name     string
		altitude units.Length
		celsius  float64
		advice   string
		sign     float64
	}{{"summit", 2500 * units.Meter, 4, "let it out", -1}, {"cold valley", -200 * units.Meter, -22, "let air in", 1}} {
		j := motocross(t)
		j.Workshop = ambient(t, 1800*units.Meter, 25)
		if c.sign < 0 {
			j.Workshop = ambient(t, 200*units.Meter, 20)
		}
		j.Event = ambient(t, c.altitude, c.celsius)
		r := plan(t, j)
		best := r.Candidates[0]
		i := slices.IndexFunc(best.Findings, func(f conversion.Finding) bool { return f.Code == conversion.ConvertedDrift })
		if i < 0 {
			t.Fatalf("%s: %+v, sag %v there", c.name, best.Findings, best.Event.There.Middle)
		}
		f := best.Findings[i]
		if scalar(f.Value)*c.sign < 0.005 || scalar(f.Limit)*c.sign != 0.005 || !strings.Contains(f.Reason, c.advice) {
			t.Errorf("%s: %v against %v: %s", c.name, f.Value, f.Limit, f.Reason)
		}
	}
}

// A spring leans on its tube where it bows within its travel and nothing is within it: in a short fork it may not.
func TestBucklingByTheWire(t *testing.T) {
	kinds := map[[2]bool]int{}
	everyTypical(t, func(t *testing.T, j conversion.Job) {
		r, err := conversion.Plan(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Candidates {
			w, ok := shelved(j, c)
			if !ok || j.Legs[0].Room.Guide > 0 {
				continue
			}
			y, bows := w.BucklingDeflection()
			early := y <= min(c.Preload+j.Fork.Travel, w.SolidDeflection())
			if told := count(c.Findings, conversion.Buckling) > 0; told != (bows && early) {
				t.Errorf("%s, which bows: %v, from %v on: told %v", c.Coil, bows, y, told)
			}
			kinds[[2]bool{bows, early}]++
		}
	})
	if kinds[[2]bool{true, true}] == 0 || kinds[[2]bool{true, false}] == 0 || kinds[[2]bool{false, false}] == 0 {
		t.Errorf("not every kind of spring: %v", kinds)
	}
}
