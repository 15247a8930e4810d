// Command fit finds the spring in a force–travel record of a test bench: it splits
// loading from unloading, fits rate, preload, gas and friction of a fork, and says how
// well the readings determine them.
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
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// demo is an invented bench sweep; see demo_test.go for how it was made.
//
//go:embed sweep.csv
var demo []byte

const demoName = "sweep.csv"

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	read := flags(p)
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		j, err := read()
		if err != nil {
			return err
		}
		if err := j.solve(); err != nil {
			return err
		}
		if err := p.Print(j.text()); err != nil {
			return err
		}
		return j.draw(folder)
	}
}

// flags declares what a record is made of and returns what reads the record then.
func flags(p *program.Program) func() (*job, error) {
	csv := p.Text("csv", "", "record, a CSV `file`; left out: an invented demo record")
	fork := program.Flag(p, "fork", madeFork, "fork of the dataset, by `id`, whose dimensions are taken as known",
		data.Reference().Fork)
	leg := program.Flag(p, "leg", both, "what was measured: both, left or right", oneOf(both, left, right))
	parts := p.Text("model", "", "`parts`: coil, coil+gap, air, air+gap; left out: what the fork has")
	hold := program.Flag(p, "hold", "", "`parameters` to hold at their values, with commas between, as "+
		"'exponent,preload'", program.List(oneOf(names()...)))
	exponent := p.Flags.Float64("exponent", gas.Isothermal,
		"polytropic exponent to start from or hold, 1 (slow) to 1.6667")
	gauge := program.Flag(p, "gauge", "", "`pressure` of the air spring at full extension, as '9.6 bar'; left out: "+
		"the fork's record", program.Between(0.1*units.Bar, 25*units.Bar))
	altitude := program.Flag(p, "altitude", "0 m", "`altitude` of the workshop, for the pressure of the air around",
		program.Between(-400*units.Meter, 5000*units.Meter))
	skip := program.Flag(p, "skip", "4 mm", "`travel` at either end whose readings are not fitted: friction turns "+
		"there", program.Between(0, 50*units.Millimeter))
	return func() (*job, error) {
		j := &job{name: *csv, fork: *fork, leg: *leg, parts: *parts, skip: *skip, altitude: *altitude}
		air, err := gas.StandardAt(j.altitude, units.Celsius(20))
		if err != nil {
			return nil, fmt.Errorf("-altitude: %w", err)
		}
		if err := j.describe(air, *gauge, *exponent, *hold); err != nil {
			return nil, err
		}
		if j.name == "" {
			j.name, j.demo, j.subject = demoName, true, "An invented record, made by this library. "
			return j, j.take(bytes.NewReader(demo))
		}
		f, err := os.Open(j.name)
		if err != nil {
			return nil, fmt.Errorf("-csv: %w", err)
		}
		defer f.Close()
		return j, j.take(f)
	}
}

// take reads a record.
func (j *job) take(r io.Reader) (err error) {
	if j.record, err = fit.ReadCSV(j.name, r); err != nil {
		return err
	}
	if j.record.Unloading == nil {
		j.free = j.without(fit.Friction().String(), "there is no stroke out, and one way friction passes for preload: "+
			"k·Δpreload = friction. Measure out as well as in")
	}
	j.kept, j.rest = fit.Steady(j.record, j.skip)
	if top, travel := j.record.Loading[len(j.record.Loading)-1].Travel, j.fork.Travel.Value; top > travel {
		return fmt.Errorf("%s: %w", j.name, &units.RangeError{Field: "travel", Value: top,
			Want: fmt.Sprintf("%v at most, the travel of %s", travel, j.fork.ID),
			Hint: "is the unit right, or another -fork meant?"})
	}
	return nil
}
