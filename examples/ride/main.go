// Command ride takes the present air fork of a job and the coil build planned for it over the same ground and tells
// what a rider would feel of the difference.
//
//	go -C examples run ./ride                       the shipped job: a motocross fork
//	go -C examples run ./ride -fork B04             any air fork of the dataset, with its typical rider
//	go -C examples run ./ride -job my.toml          a job of your own, as for ./conversion
//	go -C examples run ./ride -compression 0.3 -rebound 0.7    another damper in both
//	go -C examples run ./ride -road road.csv        over a recorded road too (time_s,height_mm)
//	go -C examples run ./ride -study 200            and how sure that is, by 200 forks within what a workshop reaches
//	go -C examples run ./ride -exponents            the exponent of a landing, for every air fork of the dataset
//	go -C examples run ./ride -out folder           and plots as SVG and PNG
//
// Ctrl-C ends it. The exit status is 0, 1 where no coil of the shelf is safe, 2 for bad input.
package main

import (
	"cmp"
	"context"
	_ "embed"
	"errors"
	"os"
	"os/signal"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/spring/conversion/jobfile"
)

//go:embed sheet.tmpl
var sheet string

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	job := p.Text("job", "", "job `file`; left out: a typical job of -fork")
	fork := p.Text("fork", "M07", "air fork of the dataset, by `id`, with its typical rider")
	compression := program.Flag(p, "compression", "", "damping `ratio` in compression; left out: usual of its kind",
		ratio)
	rebound := program.Flag(p, "rebound", "", "damping `ratio` in rebound; left out: usual of its kind", ratio)
	recorded := p.Text("road", "", "CSV `file` of a recorded road, with the columns time_s and height_mm")
	forks := program.Flag(p, "study", "0", "`number` of forks in a study, 2 to 2000; 0: none", program.Number(0, 2000))
	exponents := p.Flags.Bool("exponents", false,
		"the exponent of a landing for every air fork of the dataset, and nothing else")
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		if *exponents {
			text, err := table(ctx)
			return errors.Join(err, p.Print(text))
		}
		file, err := read(*job, *fork)
		if err != nil {
			return err
		}
		report, err := file.Report()
		if err != nil {
			return err
		}
		in, out := usual(file.Discipline)
		c, err := compare(report, *cmp.Or(*compression, &in), *cmp.Or(*rebound, &out))
		if errors.Is(err, errNoCoil) {
			const sentence = "No coil of the shelf is safe in this fork, so there is nothing to ride; see ./conversion.\n"
			return errors.Join(p.Print(sentence), program.ErrNoAnswer)
		}
		if err != nil {
			return err
		}
		courses, err := courses(report.Job)
		if err != nil {
			return err
		}
		if *recorded != "" {
			course, err := record(*recorded)
			if err != nil {
				return err
			}
			courses = append(courses, course)
		}
		if err := c.over(ctx, courses); err != nil {
			return err
		}
		if *forks > 0 {
			if err := c.study(ctx, courses[0], int(*forks), progress(p.Problems)); err != nil {
				return err
			}
		}
		text, err := prose.SetAt(28, sheet, c)
		if err != nil {
			return err
		}
		if err := p.Print(text); err != nil {
			return err
		}
		for _, o := range c.Outings {
			if err := errors.Join(folder.Draw(o.File+"-travel", o.travel()),
				folder.Draw(o.File+"-force", o.force())); err != nil {
				return err
			}
		}
		return nil
	}
}

// ratio reads a damping ratio, which may be 0.
func ratio(text string) (*float64, error) {
	v, err := program.Number(0.0, 3)(text)
	return &v, err
}

// read gets the job from a file, or a typical one of a fork.
func read(job, fork string) (*jobfile.File, error) {
	if job == "" {
		return jobfile.Typical(fork, data.Reference())
	}
	f, err := os.Open(job)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return jobfile.Decode(job, f, data.Reference())
}

func record(name string) (ride.Course, error) {
	f, err := os.Open(name)
	if err != nil {
		return ride.Course{}, err
	}
	defer f.Close()
	road, err := ride.ReadProfile(name, f)
	if err != nil {
		return ride.Course{}, err
	}
	return ride.Course{Name: "RECORDED ROAD", Duration: min(road.End(), 600), Road: road}, nil
}
