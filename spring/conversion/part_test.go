package conversion_test

import (
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// bySize is a shelf entry that is known by its curve, of the room the coils of the test take.
func bySize(name string, s spring.Spec) conversion.ShelfCoil {
	return conversion.ShelfCoil{Name: name, Spring: s, Size: conversion.SpringSize{FreeLength: 605 * mm,
		OuterDiameter: 42 * mm,
		InnerDiameter: 29 * mm, Mass: 900 * units.Gram}}
}

// dualRate is near the motocross coils of the tests at first and stiffer from some 225 mm on.
func dualRate() spring.StackSpec {
	return spring.StackSpec{Soft: spring.CoilPart{Rate: 15 * nmm, FreeLength: 300 * mm, SolidLength: 180 * mm},
		Hard: spring.CoilPart{Rate: 17 * nmm, FreeLength: 305 * mm, SolidLength: 90 * mm}}
}

// A coil by its curve is planned as the same coil by its wire, but for what the wire alone tells.
func TestCoilByItsCurve(t *testing.T) {
	j := motocross(t)
	wired := plan(t, j)
	for i, c := range wired.Candidates {
		if c.Coil != j.Shelf[1].Name {
			continue
		}
		s := spring.CoilSpec{Rate: j.Shelf[1].Rate, FreeLength: 605 * mm,
			SolidLength: 605*mm - c.BindMargin - c.Preload - j.Fork.Travel}
		j.Shelf[1] = bySize(c.Coil, s)
		j.Shelf[1].Size.Mass = c.Mass
		got := plan(t, j).Candidates[i]
		for name, pair := range map[string][2]float64{
			"rate": {float64(got.Rate), float64(c.Rate)}, "preload": {float64(got.Preload), float64(c.Preload)},
			"sag":  {float64(got.Behavior.Sag.Middle), float64(c.Behavior.Sag.Middle)},
			"bind": {float64(got.BindMargin), float64(c.BindMargin)},
		} {
			if !(math.Abs(pair[0]/pair[1]-1) <= 1e-6) {
				t.Errorf("%s %v, by its wire %v", name, pair[0], pair[1])
			}
		}
		want(t, got.Findings, conversion.StressUnknown, conversion.Note)
		if got.Stress != 0 || got.StressLimit != 0 {
			t.Errorf("stress %v of %v without a wire", got.Stress, got.StressLimit)
		}
	}
}

// The rate of a compound spring is that of the coil that does the same by the criterion.
func TestEquivalentRate(t *testing.T) {
	progressive := spring.ProgressiveSpec{Coils: []spring.CoilGroup{{Count: 20, Gap: 6 * mm, Rate: 260 * nmm},
		{Count: 20, Gap: 15 * mm, Rate: 340 * nmm}}}
	readings := []spring.Reading{{}, {Travel: 100 * mm, Force: 800}, {Travel: 200 * mm, Force: 1750},
		{Travel: 330 * mm, Force: 3300}}
	part := func(rate, free units.Stiffness, solid units.Length) spring.CoilPart {
		return spring.CoilPart{Rate: rate * nmm, FreeLength: units.Length(free) * mm, SolidLength: solid * mm}
	}
	for name, s := range map[string]spring.Spec{
		"dual rate": dualRate(), "progressive": progressive, "measured": spring.MeasuredSpec{Loading: readings},
		"nested": spring.NestedSpec{Outer: part(7, 605, 280), Inner: part(3, 500, 180)},
		"rate table": spring.RateTableSpec{Rates: []spring.RatePoint{{Rate: 7 * nmm},
			{Compression: 340 * mm, Rate: 11 * nmm}}},
	} {
		for _, criterion := range conversion.Criteria() {
			j := motocross(t)
			j.Criterion = criterion
			j.Shelf = append(j.Shelf, bySize(name, s))
			r := plan(t, j)
			i := 0
			for r.Candidates[i].Coil != name {
				i++
			}
			c := r.Candidates[i]
			given, err := s.(spring.Adjustable).Adjusted(1, c.Preload).Curve(j.Fork.Travel)
			if err != nil {
				t.Fatal(err)
			}
			same, err := spring.CoilSpec{Rate: c.Each, Preload: c.Preload}.Curve(j.Fork.Travel)
			if err != nil {
				t.Fatal(err)
			}
			switch x := min(j.Fork.Travel*9/10, given.Stroke()); criterion {
			case conversion.Energy:
				if got, want := given.Energy(x), same.Energy(x); !(math.Abs(float64(got/want)-1) <= 1e-9) {
					t.Errorf("%s: energy %v, of its rate %v", name, got, want)
				}
			case conversion.SagForce:
				if got, want := given.Force(r.TargetSag), same.Force(r.TargetSag); math.Abs(float64(
					got/want)-1) > 1e-9 {
					t.Errorf("%s: force %v, of its rate %v", name, got, want)
				}
			default:
				if least, most := given.Rate(0), given.Rate(x); c.Each < min(least, most) || c.Each > max(least, most) {
					t.Errorf("%s: %v, outside its rates %v to %v", name, c.Each, least, most)
				}
			}
			if c.Behavior.Sag.Load == 0 || !(math.Abs(c.RateDeviation) <= 0.6) {
				t.Errorf("%s by %v: off by %.2f, %+v", name, criterion, c.RateDeviation, c.Findings)
			}
			marshal(t, r)
		}
	}
}

func TestShelfSpringFaults(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*conversion.ShelfCoil)
		want   string
	}{
		{"no length", func(c *conversion.ShelfCoil) { c.Size.FreeLength = 0 },
			"Job.Shelf[0].Size.FreeLength = 0 mm: want 40 mm to 900 mm"},
		{"no mass", func(c *conversion.ShelfCoil) { c.Size.Mass = 0 }, "Job.Shelf[0].Size.Mass = 0 kg"},
		{"wire beside it", func(c *conversion.ShelfCoil) { c.Rate = 8 * nmm },
			"Job.Shelf[0].Spring = dual-rate spring: want no rate and wire beside it"},
		{"preload of its own", func(c *conversion.ShelfCoil) {
			s := dualRate()
			s.Preload = 3 * mm
			c.Spring = s
		}, "Job.Shelf[0].Spring = 23.9"},
		{"no spring to carry on", func(c *conversion.ShelfCoil) {
			c.Spring = spring.TopOutSpec{Rate: 3 * nmm,
				Length: 30 * mm}
		},
			"Job.Shelf[0].Spring = top-out spring: want a main spring"},
		{"fault within", func(c *conversion.ShelfCoil) { c.Spring = spring.StackSpec{Soft: dualRate().Soft} },
			"Job.Shelf[0].Spring.Hard.Rate = 0 N/mm"},
		{"no stroke", func(c *conversion.ShelfCoil) {
			c.Spring = spring.CoilSpec{Rate: 8 * nmm, FreeLength: 100 * mm, SolidLength: 98 * mm}
		}, "Job.Shelf[0].Spring.FreeLength = 100 mm: want above solid length plus preload"},
	} {
		j := motocross(t)
		j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
		c.change(&j.Shelf[0])
		if _, err := conversion.Plan(j); err == nil || !strings.Contains(err.Error(),
			c.want) || strings.Contains(err.Error(), "\nJob.Shelf[0].Size") {
			t.Errorf("%s: error %v, want %s", c.name, err, c.want)
		}
	}
	// A fault of the spring is told beside one of the preload that it would be tried at.
	j := motocross(t)
	j.Preload.Min = 900 * mm
	j.Shelf = []conversion.ShelfCoil{bySize("dual", spring.StackSpec{Soft: dualRate().Soft})}
	if _, err := conversion.Plan(j); err == nil || !strings.Contains(err.Error(), "Job.Preload.Min") ||
		!strings.Contains(err.Error(), "Job.Shelf[0].Spring.Hard.Rate") {
		t.Errorf("a preload and a spring: error %v", err)
	}
	// In a leg with a guide the inner diameter must be known, and a short spring binds.
	j = motocross(t)
	j.Legs[0].Room.Guide = 20 * mm
	j.Shelf = []conversion.ShelfCoil{bySize("dual", dualRate())}
	j.Shelf[0].Size.InnerDiameter = 0
	if _, err := conversion.Plan(j); err == nil || !strings.Contains(err.Error(),
		"Job.Shelf[0].Size.InnerDiameter = 0 mm") {
		t.Errorf("guide: error %v", err)
	}
	s := dualRate()
	s.Hard.SolidLength = 130 * mm
	j.Shelf[0] = bySize("dual", s)
	want(t, plan(t, j).Candidates[0].Findings, conversion.CoilBind, conversion.Stop)
}

// Springs of every kind are planned out of, too.
func TestPresentCompoundSpring(t *testing.T) {
	j := motocross(t)
	s := dualRate()
	s.Preload = 4 * mm
	j.Present.Left = setup.Leg{Springs: []spring.Spec{s}, Gap: j.Present.Left.Gap}
	if c := plan(t, j).Candidates[0]; !(math.Abs(c.RateDeviation) <= 0.2) {
		t.Errorf("the nearest coil is off by %.2f", c.RateDeviation)
	}
}
