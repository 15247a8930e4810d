// Command conversion plans the change of a fork from its present springs to coil
// springs and prints a bench sheet.
//
//	go -C examples run ./conversion                  the job that comes with it
//	go -C examples run ./conversion -job my.toml     a job of your own
//	go -C examples run ./conversion -fork B04        any fork of the dataset, typical rider
//	go -C examples run ./conversion -data my.toml    with forks of your own beside the dataset
//	go -C examples run ./conversion -json            the same report as JSON
//	go -C examples run ./conversion -plot out        and plots as SVG and PNG
//
// The exit status is 0 with a safe plan, 1 without one, 2 for a bad job.
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
)

//go:embed job.toml
var builtIn []byte

const (
	exitPlan = iota
	exitNoPlan
	exitBadJob
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("conversion", flag.ContinueOnError)
	flags.SetOutput(problems)
	var (
		job    = flags.String("job", "", "job `file`; left out: the job that comes with the program")
		fork   = flags.String("fork", "", "plan for a fork of the dataset, by `id`, with its typical rider")
		forks  = flags.String("data", "", "`file` with forks of your own")
		asJSON = flags.Bool("json", false, "print the report as JSON")
		plots  = flags.String("plot", "", "write plots into this `folder`")
	)
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return exitBadJob
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(problems, "what is %q? give a job with -job or a fork with -fork\n", flags.Arg(0))
		return exitBadJob
	}
	file, err := read(*job, *fork, *forks)
	if err != nil {
		fmt.Fprintln(problems, err)
		return exitBadJob
	}
	report, err := conversion.Plan(file.Job)
	if err != nil {
		fmt.Fprintln(problems, err)
		return exitBadJob
	}
	if *asJSON {
		err = sheet.WriteJSON(out, report)
	} else {
		err = sheet.WriteText(out, report)
	}
	if err == nil && *plots != "" {
		err = plot(*plots, file, report, problems)
	}
	if err != nil {
		fmt.Fprintln(problems, err)
		return exitBadJob
	}
	if _, ok := report.Chosen(); !ok {
		return exitNoPlan
	}
	return exitPlan
}

// read gets the job from a file, from a fork's record, or the one built in.
func read(job, fork, forks string) (*jobfile.File, error) {
	set := data.Reference()
	if forks != "" {
		own, err := readData(forks)
		if err != nil {
			return nil, err
		}
		set = data.Merge(set, own)
	}
	switch {
	case job != "" && fork != "":
		return nil, fmt.Errorf("give -job or -fork, not both")
	case fork != "":
		return jobfile.Typical(fork, set)
	case job == "":
		return jobfile.Decode("job.toml", bytes.NewReader(builtIn), set)
	}
	f, err := os.Open(job)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return jobfile.Decode(job, f, set)
}

func readData(name string) (*data.Set, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return data.DecodeFile(name, f)
}

// plot writes the plots and names them beside the report.
func plot(folder string, file *jobfile.File, report *conversion.Report, problems io.Writer) error {
	names, err := writePlots(folder, report, file.Job.RideExponent, file.Job.Workshop, file.Job.Event)
	for _, name := range names {
		fmt.Fprintln(problems, "wrote", name)
	}
	return err
}
