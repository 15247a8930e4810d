// Command damper builds an invented damper out of its parts and shows what it does
// in a fork: force against speed with cold, warm and hot oil and by which part,
// damping ratio, cavitation, heat, and what another spring asks of the rebound
// needle.
//
//	go -C examples run ./damper                        in a motocross fork
//	go -C examples run ./damper -fork M11              in any fork of the dataset
//	go -C examples run ./damper -oil fork-10           with another oil
//	go -C examples run ./damper -rebound 6 -compression 14
//	go -C examples run ./damper -stiffer 10            for springs 10 % stiffer
//	go -C examples run ./damper -power '200 W'         with more heat to get rid of
//	go -C examples run ./damper -out folder            and plots as SVG and PNG
//
// The exit status is 0, or 2 for bad input.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/data"
	"example.org/forkcurve/units"
)

const badInput = 2

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("damper", flag.ContinueOnError)
	flags.SetOutput(problems)
	var o options
	flags.StringVar(&o.fork, "fork", "M06", "fork of the dataset, by `id`")
	flags.StringVar(&o.oil, "oil", "fork-5", "damper oil of the dataset, by `id`")
	flags.IntVar(&o.rebound, "rebound", clicks/2, fmt.Sprintf("rebound needle, `clicks` out from closed, 0 to %d", clicks))
	flags.IntVar(&o.compression, "compression", clicks/2, fmt.Sprintf("compression needle, `clicks` out from closed, 0 to %d", clicks))
	flags.Float64Var(&o.stiffer, "stiffer", 6, "by how many `percent` the other springs are stiffer, −20 to 30")
	flags.StringVar(&o.power, "power", "", "heat of the whole fork, as '150 W'; left out: typical of the machine")
	folder := flags.String("out", "", "write plots into this `folder`")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return badInput
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(problems, "what is %q? name a fork with -fork\n", flags.Arg(0))
		return badInput
	}
	j, err := o.job()
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
	fork, oil, power     string
	rebound, compression int
	stiffer              float64
}

func (o options) job() (*job, error) {
	fork, err1 := data.Reference().Fork(o.fork)
	if err1 != nil {
		err1 = fmt.Errorf("-fork: %w", err1)
	}
	fluid, err2 := data.Reference().Fluid(o.oil)
	if err2 != nil {
		err2 = fmt.Errorf("-oil: %w", err2)
	}
	var power units.Power
	var err3 error
	if o.power != "" {
		const least, most = 1 * units.Watt, 2000 * units.Watt
		power, err3 = units.Parse[units.Power](o.power)
		if err3 == nil && (power < least || power > most) {
			err3 = &units.RangeError{Field: "power", Value: power, Want: fmt.Sprintf("%v to %v", least, most)}
		}
		if err3 != nil {
			err3 = fmt.Errorf("-power: %w", err3)
		}
	}
	var err4 error
	if !(o.stiffer >= -20 && o.stiffer <= 30) {
		err4 = fmt.Errorf("-stiffer: %w", &units.RangeError{Field: "change of the springs", Value: fmt.Sprintf("%g %%", o.stiffer), Want: "−20 % to 30 %"})
	}
	if err := errors.Join(err1, err2, err3, err4, needle("-rebound", o.rebound), needle("-compression", o.compression)); err != nil {
		return nil, err
	}
	return newJob(fork, fluid, o.rebound, o.compression, o.stiffer, power)
}

func needle(flag string, out int) error {
	if out < 0 || out > clicks {
		return fmt.Errorf("%s: %w", flag, &units.RangeError{Field: "clicks", Value: out, Want: fmt.Sprintf("0 to %d, counted from closed", clicks)})
	}
	return nil
}
