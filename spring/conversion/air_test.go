package conversion_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"log"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// filling is the job of filling the typical fork of a record; false for one without air.
func filling(t testing.TB, id string) (conversion.AirJob, bool) {
	t.Helper()
	f, err := jobfile.Typical(id, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	job, err := f.ToAir()
	return job, err == nil
}

// everyAir runs a test on the typical job of every air fork of the dataset.
func everyAir(t *testing.T, test func(t *testing.T, job conversion.AirJob)) {
	t.Helper()
	n := 0
	for fork := range data.Reference().Forks() {
		if job, onAir := filling(t, fork.ID); onAir {
			n++
			t.Run(fork.ID, func(t *testing.T) { test(t, job) })
		}
	}
	if n < 15 {
		t.Errorf("%d air forks", n)
	}
}

func planAir(t testing.TB, job conversion.AirJob) *conversion.AirReport {
	t.Helper()
	r, err := conversion.PlanAir(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func bar(g units.GaugePressure) float64 { return g.In(units.Bar) }

// A coil planned from air, and the air from that coil: the first fill again. With the sag of the air fork it is the
// same; with that of the coil fork it differs by what the sags differ, to first order.
func TestThereAndBack(t *testing.T) {
	everyTypical(t, func(t *testing.T, job conversion.Job) {
		first, onAir := job.Fill()
		if !onAir {
			t.Skip("no air spring")
		}
		plan, err := conversion.Plan(job)
		if err != nil {
			t.Fatal(err)
		}
		back, _ := filling(t, job.Heading.Fork)
		for _, c := range plan.Candidates {
			if c.Behavior.Sag.Load == 0 {
				continue
			}
			coils := c.Behavior.Setup.Spec()
			back.Match, back.Criterion = &coils, conversion.SagForce
			r := planAir(t, back)
			if !(math.Abs(float64(r.TargetSag-c.Behavior.Sag.Middle)) <= 1e-9) {
				t.Errorf("%s: target %v, the coil fork sags %v", c.Coil, r.TargetSag, c.Behavior.Sag.Middle)
			}
			linear := bar(first.Gauge) + 0.1*float64((c.Behavior.Sag.Middle-plan.Present.Sag.Middle)/r.SagStep)
			// The second order of a sag that differs by up to a few millimeters.
			off := float64(c.Behavior.Sag.Middle/plan.Present.Sag.Middle) - 1
			if got := bar(r.Asked); !(math.Abs(got/linear-1) <= 1e-3+2*off*off) {
				t.Errorf("%s: back at %.3f bar, first %.3f, by the sags %.3f", c.Coil, got, bar(first.Gauge), linear)
			}
			back.TargetSag = plan.Present.Sag.Middle
			if got := bar(planAir(t, back).Asked); !(math.Abs(got-bar(first.Gauge)) <= 1e-4) {
				t.Errorf("%s: at the first sag %.5f bar, first %.5f", c.Coil, got, bar(first.Gauge))
			}
			back.TargetSag = 0
		}
	})
}

// Reducers and fill of an air fork are found again from what it does, by both criteria.
func TestReducersFoundAgain(t *testing.T) {
	everyAir(t, func(t *testing.T, job conversion.AirJob) {
		goal := job.Air
		in := units.Volume(1)
		for _, l := range []*setup.Leg{&goal.Left, &goal.Right} {
			if l.Air != nil {
				swept := units.Volume(math.Pi / 4 * float64(l.Air.Bore*l.Air.Bore*goal.Travel))
				in = min(in, l.Air.Reducers+(l.Air.Volume-l.Air.Reducers-swept)*0.3)
			}
		}
		for _, l := range []*setup.Leg{&goal.Left, &goal.Right} {
			if l.Air != nil {
				air := *l.Air
				air.Reducers = in
				l.Air = &air
			}
		}
		first, _ := conversion.Job{Present: goal}.Fill()
		job.Match, job.Reducers = &goal, [2]units.Volume{0, 2 * in}
		for _, criterion := range []conversion.Criterion{conversion.Energy, conversion.LeastSquares} {
			job.Criterion = criterion
			r := planAir(t, job)
			// Golden sections end within a thousandth of the range.
			if !(math.Abs(float64(r.Reducers-in)) <= 0.002*float64(2*in)) ||
				!(math.Abs(bar(r.Asked)/bar(first.Gauge)-1) <= 0.002) {
				t.Errorf("%v: %.2f and %.3f bar, want %.2f and %.3f bar", criterion, r.Reducers, bar(r.Asked), in,
					bar(first.Gauge))
			}
		}
	})
}

// What the gauge shows elsewhere, by hand: (p + p_a)·T'/T − p_a' at constant volume (ideal gas law), with the
// pressures that the handbook's table of the standard atmosphere prints in bar to four decimals.
func TestPlacesByHand(t *testing.T) {
	register.Cite(t, "A-06")
	table := map[units.Length]float64{0: 1.01325, 1500 * units.Meter: 0.8456, 3000 * units.Meter: 0.7012}
	everyAir(t, func(t *testing.T, job conversion.AirJob) {
		r, seen := planAir(t, job), 0
		for _, p := range r.Places[1:] {
			there, known := table[*p.Place.Altitude]
			if !known {
				t.Fatalf("altitude %v", *p.Place.Altitude)
			}
			for i, g := range r.Gauges {
				want := (bar(g.Positive)+1.01325)*(p.Ambient.Temperature.Celsius()+273.15)/293.15 - there
				// Half a unit in the last place of the table, and its altitude being geopotential.
				if got := bar(p.Shows[i].Positive); !(math.Abs(got-want) <= 6e-5) {
					t.Errorf("%v: %.5f bar, by hand %.5f", p.Ambient, got, want)
				}
				seen++
			}
			if len(p.Set) == 0 || p.Sag == nil {
				continue
			}
			// Set there as told, the fork sags there as in the workshop.
			spec, err := r.Behavior.Setup.Spec().Filled(gas.Fill{Gauge: p.Set[0].Positive, Ambient: p.Ambient})
			if err != nil {
				t.Fatal(err)
			}
			set, err := setup.New(spec)
			if err != nil {
				t.Fatal(err)
			}
			moved, err := set.At(p.Ambient)
			if err != nil {
				t.Fatal(err)
			}
			sag, err := moved.Sag(r.Rider.Axial)
			if err != nil || !(math.Abs(float64(sag.Middle-r.TargetSag)) <= 1e-5) {
				t.Errorf("%v: sag %v, %v, want %v", p.Ambient, sag.Middle, err, r.TargetSag)
			}
			if lower := p.Sag.Middle > r.TargetSag; lower != (bar(p.Set[0].Positive) > bar(p.Shows[0].Positive)) {
				t.Errorf("%v: sags %v untouched, shows %v, set %v", p.Ambient, p.Sag.Middle, p.Shows[0].Positive,
					p.Set[0].Positive)
			}
		}
		if seen == 0 {
			t.Error("no gauge")
		}
	})
}

// A heavier rider needs more air, and nobody is told to pass what is marked.
func TestFillsRise(t *testing.T) {
	everyAir(t, func(t *testing.T, job conversion.AirJob) {
		last := 0.0
		for i := range 6 {
			job.Rider = units.Mass(40+25*i) * units.Kilogram
			r := planAir(t, job)
			if !(bar(r.Asked) >= last) {
				t.Errorf("%v asks for %v, a lighter one for %.2f bar", job.Rider, r.Asked, last)
			}
			last = bar(r.Asked)
			for _, g := range r.Gauges {
				if bar(g.Positive) > bar(job.MaxGauge)+1e-9 {
					t.Errorf("%v: advised %v, marked %v", job.Rider, g.Positive, job.MaxGauge)
				}
			}
			over := bar(r.Asked) > bar(job.MaxGauge)
			stops := slices.ContainsFunc(r.Findings, func(f conversion.Finding) bool {
				return f.Code == conversion.PressureLimit && f.Severity == conversion.Stop
			})
			if over != stops || r.Safe() && over {
				t.Errorf("%v asks for %v, marked %v: told %v", job.Rider, r.Asked, job.MaxGauge, stops)
			}
		}
	})
}

func TestAirFindings(t *testing.T) {
	coils := func(t *testing.T, factor units.Stiffness) conversion.AirJob {
		job, _ := filling(t, "M07")
		plan := typical("M07")
		plan.Shelf = plan.Shelf[4:5]
		plan.Shelf[0].Rate *= factor
		r, err := conversion.Check(plan, conversion.Build{Coil: plan.Shelf[0].Name, Preload: 4 * mm, OilVolume: 540 * mL})
		if err != nil {
			t.Fatal(err)
		}
		match := r.Candidates[0].Behavior.Setup.Spec()
		job.Match, job.Criterion = &match, conversion.Energy
		return job
	}
	for _, c := range []struct {
		name string
		job  func(t *testing.T) conversion.AirJob
		want conversion.Code
		not  bool
	}{
		{"usual", func(t *testing.T) conversion.AirJob { j, _ := filling(t, "M07"); return j }, conversion.FillImplausible,
			true},
		{"usual", func(t *testing.T) conversion.AirJob { j, _ := filling(t, "M07"); return j }, conversion.PressureThere,
			true},
		{"light rider", func(t *testing.T) conversion.AirJob {
			j, _ := filling(t, "M07")
			j.Rider = 25 * units.Kilogram
			return j
		}, conversion.FillImplausible, false},
		{"heavy rider", func(t *testing.T) conversion.AirJob {
			j, _ := filling(t, "M07")
			j.Rider = 180 * units.Kilogram
			return j
		}, conversion.SagMissed, false},
		{"hot low place", func(t *testing.T) conversion.AirJob {
			j, _ := filling(t, "M07")
			j.MaxGauge = units.Gauge(10 * units.Bar)
			hot, err := gas.StandardAt(0, units.Celsius(45))
			if err != nil {
				t.Fatal(err)
			}
			j.Places = []conversion.AirPlace{{Place: conversion.Place{Name: "the plain"}, Ambient: hot}}
			return j
		}, conversion.PressureThere, false},
		{"as few reducers as may be", func(t *testing.T) conversion.AirJob {
			j := coils(t, 1)
			j.Reducers = [2]units.Volume{0, 30 * mL}
			j.TargetSag = 45 * mm
			return j
		}, conversion.ReducerRange, false},
		{"all the reducers", func(t *testing.T) conversion.AirJob {
			j := coils(t, 1)
			j.Reducers = [2]units.Volume{0, 10 * mL}
			j.TargetSag = 100 * mm
			return j
		}, conversion.ReducerRange, false},
		{"room for reducers", func(t *testing.T) conversion.AirJob {
			j := coils(t, 1)
			j.Reducers = [2]units.Volume{0, 120 * mL}
			j.TargetSag = 80 * mm
			return j
		}, conversion.ReducerRange, true},
		{"hot seals", func(t *testing.T) conversion.AirJob {
			j, _ := filling(t, "B04")
			j.Places[0].Ambient.Temperature = units.Celsius(58)
			return j
		}, conversion.SealHot, false},
		{"rider of another fork", func(t *testing.T) conversion.AirJob {
			j, _ := filling(t, "B04")
			j.Rider = 150 * units.Kilogram
			return j
		}, conversion.RiderRange, false},
	} {
		r := planAir(t, c.job(t))
		if slices.ContainsFunc(r.Findings, func(f conversion.Finding) bool { return f.Code == c.want }) == c.not {
			t.Errorf("%s: asked %v, reducers %.0f, found %+v; %s fires %v", c.name, r.Asked, r.Reducers, r.Findings, c.want,
				!c.not)
		}
	}
}

// A tenth of its gas less lets a fork down as if a tenth of the absolute pressure were let out at full extension.
func TestLeakDrift(t *testing.T) {
	for id, told := range map[string]bool{"M07": true, "B01": false} {
		j, _ := filling(t, id)
		r := planAir(t, j)
		spec := r.Behavior.Setup.Spec()
		for _, l := range []*setup.Leg{&spec.Left, &spec.Right} {
			if l.Air == nil {
				continue
			}
			air := *l.Air
			home := air.Fill.Ambient.Pressure.In(units.Pascal)
			left := 0.9*(air.Fill.Gauge.In(units.Pascal)+home) - home
			air.Fill.Gauge = units.Gauge(units.Pressure(left))
			l.Air = &air
		}
		let, err := setup.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		sag, err := let.Sag(r.Rider.Axial)
		if err != nil {
			t.Fatal(err)
		}
		lower := sag.Middle - r.Behavior.Sag.Middle
		i := slices.IndexFunc(r.Findings, func(f conversion.Finding) bool { return f.Code == conversion.LeakDrift })
		if i >= 0 != told || told != (lower > 5*mm) {
			t.Fatalf("%s: %.2f lower, told: %v", id, lower, i >= 0)
		}
		if !told {
			continue
		}
		f := r.Findings[i]
		if got := scalar(f.Value); !(math.Abs(got-float64(lower)) <= 1e-6) || scalar(f.Limit) != 0.005 {
			t.Errorf("%s: %v against %v, want %v lower", id, f.Value, f.Limit, lower)
		}
		if days := fmt.Sprintf("every %d days", int(30*5*mm/lower)); !strings.Contains(f.Reason, days) {
			t.Errorf("%s: %s; want %s", id, f.Reason, days)
		}
	}
}

func TestAirJobHasLimits(t *testing.T) {
	refusal.Fields(t, func() conversion.AirJob {
		j, _ := filling(t, "M07")
		j.Places = j.Places[:1]
		j.Known, j.TargetSag, j.Reducers = nil, 66*mm, [2]units.Volume{0, 20 * mL}
		match := typical("M06").Present
		match.Travel = j.Fork.Travel
		j.Match, j.Torques = &match, []conversion.Torque{{Name: "cap", Value: 30 * units.NewtonMeter}}
		return j
	}, func(j conversion.AirJob) error {
		_, err := conversion.PlanAir(j)
		return err
	})
	for want, spoil := range map[string]func(*conversion.AirJob){
		"AirJob.Air = no air spring": func(j *conversion.AirJob) { j.Air = typical("M06").Present },
		"Air.Fill.Gauge":             func(j *conversion.AirJob) { j.Air.Left.Air.Fill.Gauge = units.GaugePressure{} },
		"AirJob.Reducers[0]":         func(j *conversion.AirJob) { j.Reducers[0] = 9 * mL },
		"AirJob.Criterion":           func(j *conversion.AirJob) { j.Criterion = 7 },
		"AirJob.Places":              func(j *conversion.AirJob) { j.Places = make([]conversion.AirPlace, 51) },
		"AirJob.Air.Travel":          func(j *conversion.AirJob) { j.Air.Travel -= 5 * mm },
		"does not carry": func(j *conversion.AirJob) {
			j.Match = &setup.Spec{Travel: j.Fork.Travel, Closed: j.Workshop, Left: setup.Leg{Gap: &setup.Gap{
				Area: 10 * units.SquareCentimeter, Residual: 1900 * mL}}}
		},
	} {
		j, _ := filling(t, "M07")
		spoil(&j)
		_, err := conversion.PlanAir(j)
		var outside *units.RangeError
		if !errors.As(err, &outside) || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
}

func TestAirJSON(t *testing.T) {
	for _, id := range []string{"M07", "B04", "B12"} {
		job, onAir := filling(t, id)
		if !onAir {
			continue
		}
		text, err := json.Marshal(planAir(t, job))
		if err != nil {
			t.Fatal(err)
		}
		var back conversion.AirReport
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatal(err)
		}
		again, err := json.Marshal(back)
		if err != nil || string(again) != string(text) {
			t.Errorf("%s: %v, another text the second time", id, err)
		}
	}
}

// The fork stays on air: what does the pump have to show here, and up there?
func ExamplePlanAir() {
	file, err := jobfile.Typical("B04", data.Reference())
	if err != nil {
		log.Fatal(err)
	}
	job, err := file.ToAir()
	if err != nil {
		log.Fatal(err)
	}
	r, err := conversion.PlanAir(job)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f for a sag of %.0f; a tenth of a bar more %+.1f\n", r.Gauges[0].Positive, r.TargetSag, r.SagStep)
	for _, p := range r.Places[:1] {
		fmt.Printf("%s: shows %.1f and sags %.0f; set %.1f\n", p.Place.Name, p.Shows[0].Positive, p.Sag.Middle,
			p.Set[0].Positive)
	}
	// Output:
	// 5.9 bar for a sag of 38 mm; a tenth of a bar more -0.7 mm
	// a cold morning, 2000 m higher: shows 5.7 bar and sags 36 mm; set 5.4 bar
}
