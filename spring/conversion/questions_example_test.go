package conversion_test

import (
	"errors"
	"fmt"
	"log"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// typical is the job that a fork's record stands for; jobfile.Decode reads one of your own.
func typical(fork string) conversion.Job {
	file, err := jobfile.Typical(fork, data.Reference())
	if err != nil {
		log.Fatal(err)
	}
	return file.Job
}

// must is the plan of a job without faults.
func must(job conversion.Job) *conversion.Report {
	report, err := conversion.Plan(job)
	if err != nil {
		log.Fatal(err)
	}
	return report
}

// Which coil goes in, how far is it preloaded, and how much oil is filled in?
func ExampleReport_Chosen() {
	report := must(typical("M07"))
	c, ok := report.Chosen()
	if !ok {
		fmt.Println("none of these coils is safe in this fork")
		return
	}
	fmt.Printf("%.2f, preload %.1f, oil %.0f\n", c.Each, c.Preload, c.OilVolume)
	fmt.Printf("then the fork sags %.0f, before it did %.0f\n", c.Behavior.Sag.Middle, report.Present.Sag.Middle)
	// Output:
	// 8.94 N/mm, preload 4.0 mm, oil 575 mL
	// then the fork sags 66 mm, before it did 66 mm
}

// What is wrong with the spring somebody has lying around?
func ExampleFinding() {
	job := typical("M07")
	job.Shelf = job.Shelf[4:5]
	job.Shelf[0].Wire.FreeLength -= 90 * units.Millimeter
	for _, c := range must(job).Candidates {
		for _, f := range c.Findings {
			if f.Severity == conversion.Stop {
				fmt.Printf("%v %s: %.0f against %.0f\n", f.Severity, f.Code, f.Value, f.Limit)
			}
		}
	}
	// Output:
	// stop coil-bind: -40 mm against 5 mm
}

// Which rate does each way of matching ask for?
func ExampleCriterion() {
	for _, t := range must(typical("B04")).Targets {
		fmt.Printf("%-13v %.1f\n", t.Criterion, t.Rate)
	}
	// Output:
	// sag-force     7.3 N/mm
	// energy        8.4 N/mm
	// least-squares 8.3 N/mm
}

// What does a cold morning in the mountains do to the air fork, and to the coil fork?
func ExampleReport_event() {
	report := must(typical("M07"))
	fmt.Printf("air: %+.1f of sag\n", report.Event.Change(report.Event.There))
	if c, ok := report.Chosen(); ok {
		fmt.Printf("coil: %+.1f, with its gas let out %+.1f\n", c.Event.Change(c.Event.There),
			c.Event.Change(c.Event.Vented))
	}
	// Output:
	// air: -3.4 mm of sag
	// coil: -5.4 mm, with its gas let out +1.3 mm
}

// What is given up where the preload may not be as much as the sag asks for?
func ExampleSetting() {
	job := typical("B04")
	job.TargetSag = 25 * units.Millimeter
	job.Preload = conversion.Setting[units.Length]{Min: 2 * units.Millimeter, Aim: 3 * units.Millimeter,
		Max: 4 * units.Millimeter}
	c, _ := must(job).Chosen()
	fmt.Printf("preload %.1f gives %.0f of sag, wanted %.0f\n", c.Preload, c.Behavior.Sag.Middle, job.TargetSag)
	// Output:
	// preload 4.0 mm gives 31 mm of sag, wanted 25 mm
}

// How sure is all this?
func ExampleBehavior() {
	c, _ := must(typical("M07")).Chosen()
	u := c.Behavior.Uncertainty
	fmt.Printf("sag %.0f ± %.0f, energy %.0f ± %.0f\n", c.Behavior.Sag.Middle, u.Sag, c.Behavior.EnergyFull, u.Energy)
	// Output:
	// sag 66 mm ± 5 mm, energy 542 J ± 15 J
}

// What must be said before anybody loosens a cap?
func ExampleReport_cautions() {
	fmt.Printf("%.72s…\n", must(typical("M07")).Cautions[0])
	// Output:
	// Stored pressure: the charged air spring holds about 643 J. Wheel off the…
}

// A coil fork goes 6 % stiffer: what that asks of rebound, and where a needle then stands.
func ExampleRespring() {
	fork, _ := data.Reference().Fork("M06")
	home, _ := gas.StandardAt(0, units.Celsius(20))
	now, err1 := setup.New(fork.Spec(home))
	next, err2 := setup.New(fork.Spec(home).Stiffer(1.06))
	if err := errors.Join(err1, err2); err != nil {
		log.Fatal(err)
	}
	r, err := conversion.NewRespring(now, next, fork.Load(80*units.Kilogram))
	fmt.Printf("%.2f to %.2f about the sag, %.0f to %.0f at %.0f: %v, %v\n", r.Ask.OldRate, r.Ask.NewRate, r.Ask.OldForce,
		r.Ask.NewForce, r.Depth, r.Usual, err)

	needle, err := damping.NewSettings(20, func(out int) (damping.Damper, error) {
		return damping.Linear(1500 - 40*units.DampingRate(out)), nil
	})
	if err != nil {
		log.Fatal(err)
	}
	n, err := r.On(needle, 10)
	fmt.Printf("a click of %.1f: %d to %d out, %s, %v\n", n.Click, n.Settings[0].Clicks, n.Settings[1].Clicks,
		n.Own.Advice(), err)
	// Output:
	// 11.31 N/mm to 11.87 N/mm about the sag, 3005 N to 3143 N at 229 mm: +0.8 to +1.5 clicks, + is firmer, <nil>
	// a click of 3.7 %: 9 to 9 out, rebound 1 click firmer, and test; stay 2 clicks off closed, <nil>
}
