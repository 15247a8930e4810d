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
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
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
		err = writeJSON(out, file, report)
	} else {
		err = writeSheet(out, file, report)
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

// given is what the report rests on.
type given struct {
	Rider        units.Mass                     `json:"rider"`
	Stance       string                         `json:"stance"`
	Discipline   string                         `json:"discipline"`
	Fork         string                         `json:"fork"`
	Name         string                         `json:"name"`
	Fill         *gas.Fill                      `json:"fill,omitempty"` // of a fork on air
	Present      legs                           `json:"present"`
	Workshop     jobfile.Place                  `json:"workshop"`
	Event        jobfile.Place                  `json:"event"`
	RideExponent float64                        `json:"ride_exponent"`
	Preload      conversion.Range[units.Length] `json:"preload"`
	Oil          conversion.Range[units.Volume] `json:"oil"`
	Loose        *units.Length                  `json:"loose_reading,omitempty"` // of the caliper
	Torques      []jobfile.Torque               `json:"torques,omitempty"`
}

// legs are what the legs of the present fork hold.
type legs struct {
	Left  string `json:"left,omitempty"`
	Right string `json:"right,omitempty"`
}

// writeJSON prints what the sheet says; quantities are texts with units.
func writeJSON(out io.Writer, file *jobfile.File, report *conversion.Report) error {
	j := file.Job
	g := given{Rider: j.Rider, Stance: file.Stance, Discipline: file.Discipline.ID, Fork: file.Fork.ID, Name: file.Fork.Name,
		Present:  legs{springs(j.Present.Left), springs(j.Present.Right)},
		Workshop: file.Workshop, Event: file.Event, RideExponent: j.RideExponent, Preload: j.Preload, Oil: j.OilVolume, Torques: file.Torques}
	if file.Fill != (gas.Fill{}) {
		g.Fill = &file.Fill
	}
	if j.Caliper != nil {
		g.Loose = &j.Caliper.Loose
	}
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	return e.Encode(struct {
		Title    string             `json:"title"`
		Given    given              `json:"given"`
		Report   *conversion.Report `json:"report"`
		Cautions []string           `json:"cautions"`
	}{file.Title, g, report, cautions(file)})
}
