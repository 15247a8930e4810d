package conversion_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/geometry/fastener"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func TestEveryFieldHasLimits(t *testing.T) {
	refusal.Fields(t, func() conversion.Job {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		j.Legs[0].Room.Guide = 20 * mm
		j.Caliper = &geometry.Caliper{Loose: 12 * mm}
		j.Collar = &geometry.Collar{Pitch: 1 * mm, Sides: 6}
		j.Wrench = &fastener.Wrench{Length: 400 * mm, Extension: 60 * mm, Angle: 90 * units.Degree}
		j.Torques = []conversion.Torque{{Name: "cap", Value: 30 * units.NewtonMeter, Unit: "N·m"}}
		j.Usual = conversion.Usual{Riders: [2]units.Mass{60, 110}, Fills: fills(7, 12), LegSpacing: 210 * mm,
			MachineSag: [2]units.Share{0.05, 0.13}, LeastOil: 400 * mL,
			Bushes: conversion.Bushes{Spacing: 150 * mm, SpacingAtFull: 400 * mm, Overhang: 560 * mm}}
		j.TargetSag, j.Weights, j.Known = 66*mm, conversion.UsualWeights(), new(setup.Usual())
		j.Legs[0].Drained, j.Legs[0].Clearance = [2]units.Volume{300 * mL, 400 * mL}, 1*mm
		j.Legs[0].Bath.Spread, j.Legs[0].Bath.Column = 10*mL, 20e-4
		j.Heading.Workshop.Altitude, j.Running = new(200*units.Meter), new(units.Celsius(60))
		return j
	}, planned, "Heading.Workshop.Altitude", "Running")
	refusal.Fields(t, func() conversion.Job {
		j := motocross(t)
		j.Legs[0].Room.Guide = 20 * mm
		j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
		j.Shelf[0].Spread = 0.02
		return j
	}, planned, "Shelf[0].Rate", "Shelf[0].Wire*", "Shelf[0].Spring*")
}

func planned(j conversion.Job) error {
	_, err := conversion.Plan(j)
	return err
}

// One field out of range, or a number that is no quantity, gives one fault of that field.
func TestEveryChoiceHasLimits(t *testing.T) {
	clicks := func(rebound, compression int) func(*conversion.Job) {
		return func(j *conversion.Job) { j.Clicks = &conversion.Clicks{Rebound: rebound, Compression: compression} }
	}
	for field, list := range map[string][]func(*conversion.Job){
		"Clicks":          {clicks(-1, 5), clicks(5, -1), clicks(61, 5), clicks(5, 61)},
		"":                {clicks(0, 60), clicks(60, 0)},
		"From":            {func(j *conversion.Job) { j.From = 7 }},
		"Torques[0].Unit": {func(j *conversion.Job) { j.Torques = []conversion.Torque{{Value: 30, Unit: "mm"}} }},
		"Torques[1].Value": {func(j *conversion.Job) {
			j.Torques = []conversion.Torque{{Value: 30, Unit: "lbf·ft"}, {Value: 301}}
		}},
		"Heading.Units.Length": {func(j *conversion.Job) { j.Heading.Units.Length = "N" }},
		"Running": {func(j *conversion.Job) { j.Running = new(units.Celsius(101)) },
			func(j *conversion.Job) { j.Running = new(units.Celsius(math.NaN())) }},
		"Known.Rate": {func(j *conversion.Job) { j.Known = &setup.Tolerance{Rate: 0.2} }},
		"Workshop.Temperature": {func(j *conversion.Job) {
			j.Workshop.Temperature, j.Running = units.Celsius(99),
				new(units.Celsius(60))
		}},
		"TargetSag": {func(j *conversion.Job) { j.TargetSag = j.Fork.Travel/2 + 1*mm },
			func(j *conversion.Job) { j.TargetSag = j.Fork.Travel/20 - 1*mm }},
		"Legs": {func(j *conversion.Job) { j.Legs = append(j.Legs, j.Legs[0], j.Legs[0]) }},
		"Usual.Bushes.SpacingAtFull": {func(j *conversion.Job) {
			j.Usual.Bushes = conversion.Bushes{Spacing: 150 * mm, SpacingAtFull: 501 * mm, Overhang: 560 * mm}
		},
			func(j *conversion.Job) {
				j.Usual.Bushes = conversion.Bushes{Spacing: 150 * mm, SpacingAtFull: 310 * mm, Overhang: 200 * mm}
			},
			func(j *conversion.Job) {
				j.Usual.Bushes = conversion.Bushes{Spacing: 150 * mm, SpacingAtFull: 140 * mm, Overhang: 560 * mm}
			}},
		"Shelf[0].Spring": {func(j *conversion.Job) {
			j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
			j.Shelf[0].Wire = motocross(t).Shelf[0].Wire
		}},
		"Shelf[0].Spring.Travel": nil,
		"Shelf[0].Spring.Soft.Rate": {func(j *conversion.Job) {
			s := dualRate()
			s.Soft.Rate = -1
			j.Shelf = []conversion.ShelfCoil{bySize("dual", s)}
		}},
		"Shelf[0].Size": {func(j *conversion.Job) { j.Shelf[0].Size.Mass = 1 }},
	} {
		for i, change := range list {
			j := motocross(t)
			change(&j)
			err := planned(j)
			faults := units.Faults(err)
			if field == "" {
				if err != nil {
					t.Errorf("%d: %v", i, err)
				}
				continue
			}
			var one *units.RangeError
			if len(faults) != 1 || !errors.As(err, &one) || one.Field != "Job."+field {
				t.Errorf("%s, %d: %v", field, i, err)
			}
		}
	}
}

// A shelf spring of no name is one, in a leg with a guide its inside counts, and a spring that is measured need not
// begin
// at no force.
func TestShelfSpringsThatAreFine(t *testing.T) {
	measured := spring.MeasuredSpec{}
	for x := units.Length(0); x <= 400*mm; x += 20 * mm {
		measured.Loading = append(measured.Loading, spring.Reading{Travel: x, Force: 30 + units.Force(8600*float64(x))})
	}
	for what, change := range map[string]func(*conversion.Job){
		"no name":              func(j *conversion.Job) { j.Shelf[0].Name = "" },
		"no inside, no guide":  func(j *conversion.Job) { j.Shelf[0].Size.InnerDiameter = 0 },
		"inside and guide":     func(j *conversion.Job) { j.Legs[0].Room.Guide = 15 * mm },
		"measured from a load": func(j *conversion.Job) { j.Shelf[0].Spring = measured },
	} {
		j := motocross(t)
		j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
		change(&j)
		if err := planned(j); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
	for _, inner := range []units.Length{-1 * mm, 4 * mm, 70 * mm} {
		j := motocross(t)
		j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
		j.Shelf[0].Size.InnerDiameter = inner
		if err := planned(j); len(units.Faults(err)) != 1 {
			t.Errorf("an inside of %v: %v", inner, err)
		}
	}
}

// The same of a fill.
func TestEveryChoiceOfAFillHasLimits(t *testing.T) {
	for field, list := range map[string][]func(*conversion.AirJob){
		"Rider":     {func(j *conversion.AirJob) { j.Rider = 14 }, func(j *conversion.AirJob) { j.Rider = 201 }},
		"Criterion": {func(j *conversion.AirJob) { j.Criterion = 9 }},
		"Places":    {func(j *conversion.AirJob) { j.Places = slices.Repeat(j.Places[:1], 51) }},
		"Places[0].Place.Altitude": {func(j *conversion.AirJob) { j.Places[0].Place.Altitude = new(-501 * units.Meter) },
			func(j *conversion.AirJob) { j.Places[0].Place.Altitude = new(11001 * units.Meter) }},
		"Known.Rate":  {func(j *conversion.AirJob) { j.Known = &setup.Tolerance{Rate: 0.2} }},
		"Reducers[1]": {func(j *conversion.AirJob) { j.Reducers = [2]units.Volume{0, -1} }},
		"": {func(j *conversion.AirJob) { j.Air.Left, j.Air.Right = j.Air.Right, j.Air.Left },
			func(j *conversion.AirJob) { j.Places = slices.Repeat(j.Places[:1], 50) }},
	} {
		for i, change := range list {
			j, _ := filling(t, "M07")
			change(&j)
			_, err := conversion.PlanAir(j)
			if field == "" {
				if err != nil {
					t.Errorf("%d: %v", i, err)
				}
				continue
			}
			var one *units.RangeError
			if len(units.Faults(err)) != 1 || !errors.As(err, &one) || one.Field != "AirJob."+field ||
				strings.Contains(err.Error(), "does not carry") {
				t.Errorf("%s, %d: %v", field, i, err)
			}
		}
	}
}

// Who rides a fill is not told of a fork that is none.
func TestRiderOfNoFork(t *testing.T) {
	for field, change := range map[string]func(*conversion.Job){
		"Job.Chassis.Rake":     func(j *conversion.Job) { j.Chassis.Rake = 2 },
		"Job.Present.Friction": func(j *conversion.Job) { j.Present.Friction = -1 },
		"Job.SagWindow":        func(j *conversion.Job) { j.SagWindow = [2]units.Share{0.3, 0.2} },
		"Job.TargetSag":        func(j *conversion.Job) { j.TargetSag = 290 * mm },
		"Job.Rider": func(j *conversion.Job) {
			air := *j.Present.Left.Air
			air.Fill.Gauge = units.Gauge(35 * units.Bar)
			j.Present.Left.Air = &air
		},
	} {
		j := motocross(t)
		change(&j)
		_, _, err := conversion.RiderOf(j)
		var one *units.RangeError
		if len(units.Faults(err)) != 1 || !errors.As(err, &one) || one.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// A report that is none is not read, and leaves the one there.
func TestReportsThatAreNone(t *testing.T) {
	r := plan(t, motocross(t))
	was := *r
	if err := r.UnmarshalJSON([]byte("{\"version\": ")); err == nil || r.Rider != was.Rider {
		t.Errorf("read %v", err)
	}
	j, _ := filling(t, "M07")
	a := planAir(t, j)
	if err := a.UnmarshalJSON([]byte("[]")); err == nil || a.Asked == (units.GaugePressure{}) {
		t.Errorf("read %v", err)
	}
	dual := motocross(t)
	dual.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate()), dual.Shelf[1]}
	text, err := plan(t, dual).MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	var again conversion.Report
	if err := again.UnmarshalJSON(text); err != nil {
		t.Fatal(err)
	}
	for i, c := range again.Job.Shelf {
		if known := c.Wire.Material.ID() != ""; known != (i == 1) {
			t.Errorf("%s: a wire %v", c.Name, known)
		}
	}
}

// A click that does less than half as much at speed leaves the shims to be changed.
func TestSlowNeedle(t *testing.T) {
	for click, c := range map[units.Share]struct {
		fast units.Share
		slow bool
	}{0.10: {0.04, true}, 0.06: {0.03, false}, 0.08: {0.08, false}, 0.05: {0, true}} {
		if got := (conversion.Needle{Click: click, Fast: c.fast}).SlowOnly(); got != c.slow {
			t.Errorf("%v, fast %v: %v", click, c.fast, got)
		}
	}
	for click, slow := range map[units.Share]bool{0.21: true, 0.19: false} { // 1.1² = 1.21
		if got := (conversion.Needle{Click: click, Fast: 0.0975}).SlowOnly(); got != slow {
			t.Errorf("%v: %v", click, got)
		}
	}
}
