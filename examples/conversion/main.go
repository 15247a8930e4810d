// Command conversion plans the change of a fork from its present springs to coil
// springs and prints a bench sheet.
//
//	go -C examples run ./conversion                  the job that comes with it
//	go -C examples run ./conversion -job my.toml     a job of your own
//	go -C examples run ./conversion -fork B04        any fork of the dataset, typical rider
//	go -C examples run ./conversion -data my.toml    with forks of your own beside the dataset
//	go -C examples run ./conversion -sweep fork.csv  the present fork as a test bench has shown it
//	go -C examples run ./conversion -fork B04 -air   the fork kept on air: what to fill it to, here and elsewhere
//	go -C examples run ./conversion -full            with loads, forces, rates and all coils
//	go -C examples run ./conversion -json            the same report as JSON
//	go -C examples run ./conversion -csv             the curves of the forks as CSV
//	go -C examples run ./conversion -plot out        and plots as SVG and PNG
//
// The exit status is 0 with a safe plan, 1 without one, 2 for a bad job.
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/spring/fit"
)

//go:embed job.toml
var builtIn []byte

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	job := p.Text("job", "", "job `file`; left out: the job that comes with the program")
	fork := p.Text("fork", "", "plan for a fork of the dataset, by `id`, with its typical rider")
	swept := p.Text("sweep", "", "CSV `file` of a slow sweep of the present fork, which then is as measured")
	set := p.Data()
	toAir := p.Flags.Bool("air", false, "fill the fork with air instead: kept on air, or from the job's build back to it")
	asJSON := p.Flags.Bool("json", false, "print the report as JSON")
	asCSV := p.Flags.Bool("csv", false, "print the curves of the forks as CSV")
	full := p.Flags.Bool("full", false, "print everything behind the plan as well")
	plots := p.Folder("plot", "write plots into this `folder`")
	return func() error {
		file, err := read(*job, *fork, *set)
		if err == nil && *swept != "" {
			err = sweep(file, *swept)
		}
		if err != nil {
			return err
		}
		if *toAir && file.Air == nil {
			job, err := file.ToAir()
			if err != nil {
				return err
			}
			file.Air = &job
		}
		if *asJSON && *asCSV {
			return errors.New("give -json or -csv, not both")
		}
		if file.Air != nil {
			return fill(p, *file.Air, *asJSON, *asCSV, plots)
		}
		report, err := file.Report()
		if err != nil {
			return err
		}
		write := sheet.WriteText
		if *full {
			write = sheet.WriteFullText
		}
		switch {
		case *asJSON:
			write = sheet.WriteJSON
		case *asCSV:
			write = sheet.WriteCSV
		}
		if err := write(p.Out, report); err != nil {
			return err
		}
		if err := plot(plots, report); err != nil {
			return err
		}
		if _, ok := report.Chosen(); !ok {
			return program.ErrNoAnswer
		}
		return nil
	}
}

// sweep makes the present fork do what a bench has recorded of it.
func sweep(file *jobfile.File, name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	s, err := fit.ReadCSV(name, f)
	if err != nil {
		return err
	}
	if err := file.Sweep(s); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// read gets the job from a file, from a fork's record, or the one built in.
func read(job, fork string, set *data.Set) (*jobfile.File, error) {
	switch {
	case job != "" && fork != "":
		return nil, errors.New("give -job or -fork, not both")
	case fork != "":
		return jobfile.Typical(fork, set)
	}
	var in io.Reader = bytes.NewReader(builtIn)
	if job != "" {
		f, err := os.Open(job)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in = f
	} else {
		job = "job.toml"
	}
	return jobfile.Decode(job, in, set)
}
