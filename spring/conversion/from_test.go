package conversion_test

import (
	"fmt"
	"log"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// everyTypical runs a test on the typical job of every fork of the dataset.
func everyTypical(t *testing.T, test func(t *testing.T, job conversion.Job)) {
	t.Helper()
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			f, err := jobfile.Typical(fork.ID, data.Reference())
			if err != nil {
				t.Fatal(err)
			}
			test(t, f.Job)
		})
	}
}

// From the rider alone every criterion asks for the rate that holds the load at the sag, whatever springs and fill
// the record has, and nothing is said of them.
func TestRiderAlone(t *testing.T) {
	everyTypical(t, func(t *testing.T, job conversion.Job) {
		job.From = conversion.RiderAlone
		r, err := conversion.Plan(job)
		if err != nil {
			t.Fatal(err)
		}
		goal := job.Fork.Travel * units.Length(job.SagWindow[0]+job.SagWindow[1]) / 2
		if !(math.Abs(float64(r.Present.Sag.Middle-goal)) <= 1e-6) || r.TargetSag != goal {
			t.Errorf("the fork asked for sags %v, want %v", r.Present.Sag.Middle, goal)
		}
		for _, target := range r.Targets {
			if !(math.Abs(float64(target.Rate/r.Band.Asked)-1) <= 1e-6) {
				t.Errorf("%v asks for %v, the sag for %v", target.Criterion, target.Rate, r.Band.Asked)
			}
		}
		if !(r.Band.Least < r.Band.Asked && r.Band.Asked < r.Band.Most) {
			t.Errorf("band %v to %v about %v", r.Band.Least, r.Band.Most, r.Band.Asked)
		}
		other := job
		other.Present, err = job.Present.Filled(filledAt(4, job))
		if err != nil {
			other.Present = job.Present
		}
		if s, err := conversion.Plan(other); err != nil || s.Band.Asked != r.Band.Asked ||
			count(s.Findings, conversion.FillImplausible) != 0 {
			t.Errorf("another fill, another rate or a finding: %v", err)
		}
		found := slices.Clone(r.Findings)
		for _, c := range r.Candidates {
			found = append(found, c.Findings...)
			if c.Rebound != (conversion.Rebound{}) {
				t.Error("rebound against a damper nobody set")
			}
		}
		for _, f := range found {
			if strings.Contains(f.Reason, "present fork") {
				t.Errorf("%s speaks of the present fork: %s", f.Code, f.Reason)
			}
			switch f.Code {
			case conversion.PresentSag, conversion.PresentDrift, conversion.PressureLimit, conversion.FillImplausible,
				conversion.RideHeight, conversion.DamperRange, conversion.CriteriaDiffer:
				t.Errorf("%s is told of springs that are not looked at", f.Code)
			}
		}
	})
}

// Who rides a fill sags to the middle of the window on it, and the window is √12 standard uncertainties wide.
func TestRiderOf(t *testing.T) {
	everyTypical(t, func(t *testing.T, job conversion.Job) {
		rider, sure, err := conversion.RiderOf(job)
		if err != nil {
			t.Fatal(err)
		}
		job.Rider = rider
		r, err := conversion.Plan(job)
		if err != nil {
			t.Fatal(err)
		}
		goal := job.Fork.Travel * units.Length(job.SagWindow[0]+job.SagWindow[1]) / 2
		if !(math.Abs(float64(r.Present.Sag.Middle-goal)) <= 1e-6) {
			t.Errorf("%.1f sags %v, want %v", rider, r.Present.Sag.Middle, goal)
		}
		if !(sure > 0 && sure < rider/2) {
			t.Errorf("%.1f ± %.1f", rider, sure)
		}
	})
	job := typical("M07")
	job.Present, _ = job.Present.Filled(filledAt(0.5, job))
	job.SagWindow[1] = 0.9
	_, _, err := conversion.RiderOf(job)
	if err == nil || !strings.Contains(err.Error(), "Job.SagWindow") {
		t.Errorf("%v", err)
	}
	job.SagWindow[1] = 0.3
	if _, _, err = conversion.RiderOf(job); err == nil || !strings.Contains(err.Error(), "Job.Rider") {
		t.Errorf("half a bar carries somebody: %v", err)
	}
}

// A plan that is built as it says is found to be what it says.
func TestCheckOfThePlan(t *testing.T) {
	everyTypical(t, func(t *testing.T, job conversion.Job) {
		plan, err := conversion.Plan(job)
		if err != nil {
			t.Fatal(err)
		}
		job.Shelf = slices.DeleteFunc(slices.Clone(job.Shelf),
			func(c conversion.ShelfCoil) bool { return c.Name != plan.Candidates[0].Coil })
		plan, err = conversion.Plan(job)
		if err != nil {
			t.Fatal(err)
		}
		c := plan.Candidates[0]
		b := conversion.Build{Coil: c.Coil, Spacer: &c.Spacer}
		if b.OilLevel = c.OilLevel; c.OilLevel == nil {
			b.OilVolume = c.OilVolume
		}
		if c.Spacer < 0 {
			b.Spacer, b.Preload = nil, c.Preload
		}
		r, err := conversion.Check(job, b)
		if err != nil {
			t.Fatal(err)
		}
		d := r.Candidates[0]
		if !(math.Abs(float64(d.Preload-c.Preload)) <= 1e-9 && math.Abs(float64(d.OilVolume-c.OilVolume)) <= 1e-12 &&
			math.Abs(float64(d.Behavior.Sag.Middle-c.Behavior.Sag.Middle)) <= 1e-9) {
			t.Errorf("preload %v, oil %v, sag %v; planned %v, %v, %v", d.Preload, d.OilVolume, d.Behavior.Sag.Middle,
				c.Preload, c.OilVolume, c.Behavior.Sag.Middle)
		}
		if c.OilLevel != nil && d.Verdict != c.Verdict {
			t.Errorf("planned %v, judged %v", c.Verdict, d.Verdict)
		}
	})
}

// What stands is judged as it stands: too much oil locks, a short spacer leaves no preload, both outside the kit.
func TestCheckJudges(t *testing.T) {
	job := typical("M07")
	coil := job.Shelf[4].Name
	judged := func(b conversion.Build) []conversion.Code {
		t.Helper()
		b.Coil = coil
		r, err := conversion.Check(job, b)
		if err != nil {
			t.Fatal(err)
		}
		var codes []conversion.Code
		for _, f := range r.Candidates[0].Findings {
			codes = append(codes, f.Code)
		}
		return codes
	}
	level := 60 * mm
	for _, c := range []struct {
		build conversion.Build
		want  conversion.Code
		fires bool
	}{
		{conversion.Build{Preload: 4 * mm, OilVolume: 540 * mL}, conversion.OilRange, false},
		{conversion.Build{Preload: 4 * mm, OilVolume: 540 * mL}, conversion.PreloadRange, false},
		{conversion.Build{Preload: 4 * mm, OilVolume: 700 * mL}, conversion.OilRange, true},
		{conversion.Build{Preload: 4 * mm, OilVolume: 741 * mL}, conversion.HydraulicLock, true},
		{conversion.Build{Preload: 4 * mm, OilLevel: &level}, conversion.HydraulicLock, true},
		{conversion.Build{Preload: 20 * mm, OilVolume: 540 * mL}, conversion.PreloadRange, true},
		{conversion.Build{Preload: 0, OilVolume: 540 * mL}, conversion.LooseSpring, true},
		{conversion.Build{Preload: 4 * mm, OilVolume: 0}, conversion.NoOil, true},
	} {
		if codes := judged(c.build); slices.Contains(codes, c.want) != c.fires {
			t.Errorf("%+v: %v; want %s %v", c.build, codes, c.want, c.fires)
		}
	}
}

// Each leg of a build is judged by its own oil: what nobody says of the second is what leaves it the gas of the first.
func TestCheckOfTwoLegs(t *testing.T) {
	job := typical("M14")
	if len(job.Legs) != 2 {
		t.Fatal("not a fork of two springs")
	}
	judged := func(change func(*conversion.Build)) conversion.Candidate {
		t.Helper()
		b := conversion.Build{Coil: job.Shelf[4].Name, Preload: job.Preload.Aim, OilVolume: job.OilVolume.Aim}
		change(&b)
		r, err := conversion.Check(job, b)
		if err != nil {
			t.Fatal(err)
		}
		return r.Candidates[0]
	}
	alike := judged(func(*conversion.Build) {})
	own := alike.Builds[1].OilVolume
	if again := judged(func(b *conversion.Build) { b.SecondVolume = &own }); !(math.Abs(float64(
		again.Builds[1].OilVolume-own)) <= 1e-12) || again.Behavior.EnergyFull != alike.Behavior.EnergyFull {
		t.Errorf("the oil it is taken to have: %+v, want %+v", again.Builds[1], alike.Builds[1])
	}
	level := *alike.Builds[1].OilLevel - 20*mm
	more := own + units.Volume(float64(job.Legs[1].Bath.Column)*0.020)
	for name, c := range map[string]conversion.Candidate{
		"20 mm higher":  judged(func(b *conversion.Build) { b.SecondLevel = &level }),
		"as much of it": judged(func(b *conversion.Build) { b.SecondVolume = &more }),
	} {
		first, second := c.Builds[0], c.Builds[1]
		left := job.Legs[1].Bath.Interior - job.Legs[1].Bath.Metal - more
		if !(math.Abs(float64(second.OilVolume-more)) <= 1e-11) || first.Cold != alike.Builds[0].Cold ||
			!(second.Cold.Ratio > first.Cold.Ratio) || !(c.Behavior.EnergyFull > alike.Behavior.EnergyFull) {
			t.Errorf("%s: %+v and %+v, %v left before the spring", name, first, second, left)
		}
	}
	full := own + 130*mL
	if c := judged(func(b *conversion.Build) { b.SecondVolume = &full }); !slices.ContainsFunc(c.Findings,
		func(f conversion.Finding) bool {
			return f.Code == conversion.HydraulicLock && strings.Contains(f.Reason, "right leg")
		}) {
		t.Errorf("%v more in the right leg: %+v", 130*mL, c.Findings)
	}
}

func TestCheckRefuses(t *testing.T) {
	job := typical("M07")
	coil := job.Shelf[4].Name
	short, long, level := 0*mm, 700*mm, 900*mm
	for want, b := range map[string]conversion.Build{
		"Build.Coil":      {Coil: "none", Preload: 4 * mm, OilVolume: 500 * mL},
		"Build.Preload":   {Coil: coil, Preload: 90 * mm, OilVolume: 500 * mL},
		"Build.Spacer":    {Coil: coil, Spacer: &long, OilVolume: 500 * mL},
		"Build.OilVolume": {Coil: coil, Preload: 4 * mm, OilVolume: 1900 * mL},
		"Build.OilLevel":  {Coil: coil, Preload: 4 * mm, OilLevel: &level},
	} {
		_, err := conversion.Check(job, b)
		if n := len(check.Split(err)); err == nil || !strings.Contains(err.Error(), want) || n != 1 {
			t.Errorf("%d faults, %v; want %s", n, err, want)
		}
	}
	one := 500 * mL
	if _, err := conversion.Check(job, conversion.Build{Coil: coil, Preload: 4 * mm, OilVolume: 500 * mL,
		SecondVolume: &one}); err == nil || !strings.Contains(err.Error(), "Build.SecondVolume") {
		t.Errorf("oil in a leg that is not converted: %v", err)
	}
	two, much := typical("M14"), 1900*mL
	if _, err := conversion.Check(two, conversion.Build{Coil: two.Shelf[4].Name, Preload: two.Preload.Aim,
		OilVolume: two.OilVolume.Aim, SecondVolume: &much}); err == nil ||
		!strings.Contains(err.Error(), "Build.SecondVolume") {
		t.Errorf("more than the second leg holds: %v", err)
	}
	job.Shelf[4].Wire.FreeLength -= 30 * mm
	if _, err := conversion.Check(job, conversion.Build{Coil: coil, Spacer: &short, OilVolume: 500 * mL}); err == nil {
		t.Error("a spring that hangs loose is built in")
	}
	if _, err := conversion.Check(typical("B04"), conversion.Build{Coil: typical("B04").Shelf[0].Name,
		OilLevel: &short}); err == nil || !strings.Contains(err.Error(), "Build.OilLevel") {
		t.Errorf("a level in bicycle lowers: %v", err)
	}
}

// Nobody read the fill, or nobody wants it back: what does this rider need?
func ExampleFrom() {
	job := typical("M07")
	job.From = conversion.RiderAlone
	report := must(job)
	c, _ := report.Chosen()
	fmt.Printf("asked for %.1f, from %.1f to %.1f within the sag window\n", report.Band.Asked, report.Band.Least,
		report.Band.Most)
	fmt.Printf("%s: preload %.1f, oil %.0f, sag %.0f\n", c.Coil, c.Preload, c.OilVolume, c.Behavior.Sag.Middle)
	// Output:
	// asked for 8.5 N/mm, from 6.3 N/mm to 10.8 N/mm within the sag window
	// 8.42: preload 4.0 mm, oil 574 mL, sag 69 mm
}

// Nobody was weighed: whom does this fill carry?
func ExampleRiderOf() {
	rider, sure, err := conversion.RiderOf(typical("M07"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f, give or take %.0f\n", rider, 2*sure)
	// Output:
	// 92 kg, give or take 28 kg
}

// What is wrong with the build on the bench?
func ExampleCheck() {
	job, spacer, level := typical("M07"), 60*units.Millimeter, 160*units.Millimeter
	report, err := conversion.Check(job, conversion.Build{Coil: job.Shelf[3].Name, Spacer: &spacer, OilLevel: &level})
	if err != nil {
		log.Fatal(err)
	}
	c := report.Candidates[0]
	fmt.Printf("%v: preload %.1f, oil %.0f\n", c.Verdict, c.Preload, c.OilVolume)
	for _, f := range c.Findings {
		if f.Severity > conversion.Note {
			fmt.Printf("%v %s: %.1f against %.1f\n", f.Severity, f.Code, f.Value, f.Limit)
		}
	}
	// Output:
	// care: preload 5.0 mm, oil 580 mL
	// caution buckling: 40.2 N against 20.0 N
	// caution bottoming-missed: 516.8 J against 553.7 J
	// caution oil-range: 579.8 mL against 575.0 mL
}

// filledAt is a fill of so many bar in the air of the workshop.
func filledAt(bar float64, job conversion.Job) gas.Fill {
	return gas.Fill{Gauge: units.Gauge(units.Pressure(bar) * units.Bar), Ambient: job.Workshop}
}
