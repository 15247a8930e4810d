// Command wire answers what coil spring fits a leg: it designs the spring for one
// leg that carries the whole fork and for both legs with half the rate each, holds
// both against the room there is, and explains the difference.
//
//	go -C examples run ./wire                        an air fork on one leg, a coil fork on two
//	go -C examples run ./wire -fork B04,B06          any forks of the dataset
//	go -C examples run ./wire -rate '9.8 N/mm'       another rate of the whole fork
//	go -C examples run ./wire -material sicr         another wire
//	go -C examples run ./wire -out folder            and plots as SVG and PNG
//
// The exit status is 0, or 2 for bad input. That no spring fits is an answer.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

const badInput = 2

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("wire", flag.ContinueOnError)
	flags.SetOutput(problems)
	var (
		ids      = flags.String("fork", "M07,M06", "forks of the dataset, `ids` with commas between")
		rate     = flags.String("rate", "", "`rate` of the whole fork, as '9.8 N/mm'; left out: what the fork's record asks for")
		material = flags.String("material", "", "wire by `id`, as sicr; left out: the one in the fork, or sicrv")
		folder   = flags.String("out", "", "write plots into this `folder`")
	)
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return badInput
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(problems, "what is %q? name forks with -fork\n", flags.Arg(0))
		return badInput
	}
	jobs, err := read(*ids, *rate, *material)
	if err != nil {
		fmt.Fprintln(problems, err)
		return badInput
	}
	_, err = io.WriteString(out, text(jobs))
	for _, j := range jobs {
		if err != nil || *folder == "" {
			break
		}
		err = j.plot(*folder, problems)
	}
	if err != nil {
		fmt.Fprintln(problems, err)
		return badInput
	}
	return 0
}

// read makes the jobs that the flags ask for.
func read(ids, rate, material string) ([]job, error) {
	var k units.Stiffness
	if rate != "" {
		var err error
		if k, err = units.Parse[units.Stiffness](rate); err != nil {
			return nil, fmt.Errorf("-rate: %w", err)
		}
		if k < least || k > most {
			return nil, fmt.Errorf("-rate: %w", &units.RangeError{Field: "rate of the fork", Value: k, Want: fmt.Sprintf("%v to %v", least, most)})
		}
	}
	var wire helical.Material
	if material != "" {
		var err error
		if wire, err = data.Reference().Wire(material); err != nil {
			return nil, fmt.Errorf("-material: %w", err)
		}
	}
	var jobs []job
	for id := range strings.SplitSeq(ids, ",") {
		fork, err := data.Reference().Fork(strings.TrimSpace(id))
		if err != nil {
			return nil, fmt.Errorf("-fork: %w", err)
		}
		jobs = append(jobs, newJob(fork, k, wire))
	}
	return jobs, nil
}
