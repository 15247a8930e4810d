// Command airvscoil sets an air fork beside a coil fork and explains, with numbers
// to redo by hand, what the gas does.
//
//	go -C examples run ./airvscoil                        an enduro bicycle's fork on air and on a coil
//	go -C examples run ./airvscoil -air M07 -coil M06     any air fork and any coil fork of the dataset
//	go -C examples run ./airvscoil -rider '92 kg'         another rider
//	go -C examples run ./airvscoil -out folder            and plots as SVG and PNG
//
// The exit status is 0, or 2 for bad input.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/forkcurve/units"
)

const badInput = 2

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("airvscoil", flag.ContinueOnError)
	flags.SetOutput(problems)
	var (
		air    = flags.String("air", "B04", "fork on air, by `id` of the dataset")
		coil   = flags.String("coil", "B06", "fork on coil springs, by `id` of the dataset")
		rider  = flags.String("rider", "", "`mass` of the rider with kit, as '92 kg'; left out: the typical one of each fork")
		folder = flags.String("out", "", "write plots into this `folder`")
	)
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return badInput
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(problems, "what is %q? name the forks with -air and -coil\n", flags.Arg(0))
		return badInput
	}
	s, err := read(*air, *coil, *rider)
	if err == nil {
		_, err = io.WriteString(out, s.text())
	}
	if err == nil && *folder != "" {
		err = s.plot(*folder, problems)
	}
	if err != nil {
		fmt.Fprintln(problems, err)
		return badInput
	}
	return 0
}

// read makes the study that the flags ask for.
func read(air, coil, rider string) (*study, error) {
	var mass units.Mass
	if rider != "" {
		var err error
		if mass, err = units.Parse[units.Mass](rider); err != nil {
			return nil, fmt.Errorf("-rider: %w", err)
		}
		if !(mass >= lightest && mass <= heaviest) {
			return nil, fmt.Errorf("-rider: %w", &units.RangeError{Field: "mass of the rider", Value: mass, Want: fmt.Sprintf("%v to %v", lightest, heaviest)})
		}
	}
	return newStudy(air, coil, mass)
}
