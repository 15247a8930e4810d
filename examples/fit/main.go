// Command fit finds the spring in a force–travel record of a test bench: it splits
// loading from unloading, fits rate, preload, gas and friction, and says how well
// the readings determine them.
//
//	go -C examples run ./fit                          the demo record that comes with it
//	go -C examples run ./fit -csv my.csv -fork M11    a record of a fork like M11
//	go -C examples run ./fit -csv my.csv -leg left    of one leg alone
//	go -C examples run ./fit -model coil              without the gas over the oil
//	go -C examples run ./fit -hold exponent           with a parameter held
//	go -C examples run ./fit -out folder              and plots as SVG and PNG
//
// The record is one stroke in and, best, one stroke out, in the order taken:
//
//	travel [mm],force [N]
//	0.0,58.4
//	5.0,143.8
//
// The exit status is 0, or 2 for bad input.
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

const badInput = 2

// demo is an invented bench sweep; see demo_test.go for how it was made.
//
//go:embed sweep.csv
var demo []byte

const demoName = "sweep.csv"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("fit", flag.ContinueOnError)
	flags.SetOutput(problems)
	var o options
	flags.StringVar(&o.csv, "csv", "", "record, a CSV `file`; left out: an invented demo record")
	flags.StringVar(&o.fork, "fork", "M06", "fork of the dataset, by `id`, whose dimensions are taken as known")
	flags.StringVar(&o.leg, "leg", "both", "what was measured: both, left or right")
	flags.StringVar(&o.model, "model", "", "`parts`: coil, coil+gap, air, air+gap; left out: what the fork has")
	flags.StringVar(&o.hold, "hold", "", "`parameters` to hold at their values, with commas between, as 'exponent,preload'")
	flags.Float64Var(&o.exponent, "exponent", 1, "polytropic exponent to start from or hold, 1 (slow) to 1.6667")
	flags.StringVar(&o.gauge, "gauge", "", "`pressure` of the air spring at full extension, as '9.6 bar'; left out: the fork's record")
	flags.StringVar(&o.altitude, "altitude", "0 m", "`altitude` of the workshop, for the pressure of the air around")
	flags.StringVar(&o.skip, "skip", "4 mm", "`travel` at either end whose readings are not fitted: friction turns there")
	folder := flags.String("out", "", "write plots into this `folder`")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return badInput
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(problems, "what is %q? give a record with -csv\n", flags.Arg(0))
		return badInput
	}
	j, err := o.job()
	if err == nil {
		err = j.solve()
	}
	if err == nil {
		_, err = io.WriteString(out, text(j))
	}
	if err == nil && *folder != "" {
		err = j.plot(*folder, problems)
	}
	if err != nil {
		fmt.Fprintln(problems, err)
		return badInput
	}
	return 0
}

// options are the flags as given.
type options struct {
	csv, fork, leg, model, hold, gauge, altitude, skip string
	exponent                                           float64
}

// job checks the options and reads the record.
func (o options) job() (*job, error) {
	j := &job{name: o.csv, exponent: o.exponent}
	var faults []error
	fault := func(flag string, err error) {
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", flag, err))
		}
	}
	var err error
	j.fork, err = data.Reference().Fork(o.fork)
	fault("-fork", err)
	if !(o.exponent >= gas.Isothermal && o.exponent <= 5.0/3) {
		fault("-exponent", &units.RangeError{Field: "exponent", Value: o.exponent, Want: "1 to 1.6667"})
	}
	j.skip, err = parse(o.skip, 0, 50*units.Millimeter)
	fault("-skip", err)
	j.altitude, err = parse(o.altitude, -400*units.Meter, 5000*units.Meter)
	fault("-altitude", err)
	gauge := units.GaugePressure{}
	if o.gauge != "" {
		p, err := parse(strings.TrimSpace(o.gauge), 0.1*units.Bar, 25*units.Bar)
		fault("-gauge", err)
		gauge = units.Gauge(p)
	}
	if o.leg != "both" && o.leg != "left" && o.leg != "right" {
		fault("-leg", fmt.Errorf("no leg %q: want both, left or right", o.leg))
	}
	j.leg = o.leg
	held, err := parameters(o.hold)
	fault("-hold", err)
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	air, err := gas.StandardAt(j.altitude, units.Celsius(20))
	if err != nil {
		return nil, fmt.Errorf("-altitude: %w", err)
	}
	if err := j.describe(o.model, air, gauge); err != nil {
		return nil, err
	}
	for _, p := range held {
		if err := j.hold(p, "as asked for"); err != nil {
			return nil, fmt.Errorf("-hold: %w", err)
		}
	}
	if len(j.free) == 0 {
		return nil, errors.New("-hold: nothing is left to fit")
	}
	lines, err := j.read()
	if err != nil {
		return nil, err
	}
	if j.record.Unloading == nil && !slices.Contains(held, fit.Friction) {
		err := j.hold(fit.Friction, "there is no stroke out, and one way friction passes for preload: k·Δpreload = friction. Measure out as well as in")
		if err != nil {
			return nil, err
		}
	}
	return j, j.plausible(lines)
}

func parse[Q interface {
	units.Quantity
	~float64
}](text string, lo, hi Q) (Q, error) {
	q, err := units.Parse[Q](text)
	if err == nil && !(q >= lo && q <= hi) {
		err = &units.RangeError{Field: "value", Value: q, Want: fmt.Sprintf("%v to %v", lo, hi)}
	}
	return q, err
}

// parameters are the named ones.
func parameters(list string) ([]fit.Parameter, error) {
	var all []fit.Parameter
	if strings.TrimSpace(list) == "" {
		return nil, nil
	}
	var names []string
	for p := fit.Rate; p <= fit.Friction; p++ {
		names = append(names, p.String())
	}
	for name := range strings.SplitSeq(list, ",") {
		found := false
		for p := fit.Rate; p <= fit.Friction; p++ {
			if strings.EqualFold(strings.TrimSpace(name), p.String()) {
				all, found = append(all, p), true
			}
		}
		if !found {
			return nil, fmt.Errorf("no parameter %q: there are %s", strings.TrimSpace(name), strings.Join(names, ", "))
		}
	}
	return all, nil
}

// read reads the record and returns the lines its readings stand on. Errors begin
// with file and line.
func (j *job) read() ([]int, error) {
	content := demo
	if j.name != "" {
		f, err := os.Open(j.name)
		if err != nil {
			return nil, fmt.Errorf("-csv: %w", err)
		}
		defer f.Close()
		if content, err = io.ReadAll(io.LimitReader(f, fit.MaxCSV+1)); err != nil {
			return nil, fmt.Errorf("-csv: %w", err)
		}
	} else {
		j.name, j.demo = demoName, true
	}
	return j.take(content)
}

// take reads a record from its text.
func (j *job) take(content []byte) ([]int, error) {
	record, err := fit.ReadCSV(j.name, bytes.NewReader(content))
	if err != nil {
		return nil, err
	}
	j.record = record
	j.kept, j.left = settled(record, j.skip)
	return rowLines(content), nil
}

// rowLines are the lines that readings stand on.
func rowLines(content []byte) []int {
	var rows []int
	n := 0
	for text := range strings.Lines(string(content)) {
		n++
		text = strings.TrimPrefix(text, "\ufeff")
		if text[:min(1, len(text))] != "#" && strings.Trim(text, " \t\r\n;,") != "" {
			rows = append(rows, n)
		}
	}
	return rows[1:] // without the header
}

// plausible reports readings that cannot be of this fork, and too few of them.
func (j *job) plausible(lines []int) error {
	// In the order taken; the reading where the sweep turns ends both branches.
	all := slices.Clone(j.record.Loading)
	for i := len(j.record.Unloading) - 2; i >= 0; i-- {
		all = append(all, j.record.Unloading[i])
	}
	const shallowest, strongest = -10 * units.Millimeter, 50 * units.Kilonewton
	for i, r := range all {
		var fault units.RangeError
		switch travel := j.fork.Travel.Value; {
		case r.Travel < shallowest || r.Travel > travel:
			fault = units.RangeError{Field: "travel", Value: r.Travel, Want: fmt.Sprintf("%v to %v, the travel of %s", shallowest, travel, j.fork.ID), Hint: "is the unit right, or another -fork meant?"}
		case r.Force < -strongest || r.Force > strongest:
			fault = units.RangeError{Field: "force", Value: r.Force, Want: fmt.Sprintf("%v to %v", -strongest, strongest), Hint: "is the unit right?"}
		default:
			continue
		}
		return fmt.Errorf("%s:%d: %w", j.name, lines[min(i, len(lines)-1)], &fault)
	}
	fitted := 0
	for _, branch := range [][]spring.Reading{j.kept.Loading, j.kept.Unloading} {
		for _, r := range branch {
			if r.Travel >= 0 {
				fitted++
			}
		}
	}
	if fitted <= len(j.free) {
		return fmt.Errorf("%s:%d: %w", j.name, lines[len(lines)-1], &units.RangeError{Field: "readings to fit", Value: fitted,
			Want: fmt.Sprintf("more than the %d free parameters", len(j.free)), Hint: "take more readings, or free less with -model, -hold or -skip"})
	}
	return nil
}

// settled leaves out the readings at either end of the sweep, where friction turns
// from one side to the other and neither stroke is under way.
func settled(record spring.MeasuredSpec, skip units.Length) (kept, left spring.MeasuredSpec) {
	top := record.Loading[len(record.Loading)-1].Travel
	first := record.Loading[0].Travel
	part := func(branch []spring.Reading) (in, out []spring.Reading) {
		for _, r := range branch {
			if r.Travel < first+skip || r.Travel > top-skip || (record.Unloading != nil && r.Travel == top) {
				out = append(out, r)
			} else {
				in = append(in, r)
			}
		}
		return in, out
	}
	kept.Loading, left.Loading = part(record.Loading)
	kept.Unloading, left.Unloading = part(record.Unloading)
	return kept, left
}
