// Command oilfill shows what the oil in a fork does at the end of the stroke: force
// and compression ratio of the gas over the oil against level or volume, cold and
// warm, with the fill at which the leg locks on its oil.
//
//	go -C examples run ./oilfill                     an off-road and a road fork
//	go -C examples run ./oilfill -fork M07,B04       any forks of the dataset
//	go -C examples run ./oilfill -out folder         and plots as SVG and PNG
//
// Of an air fork it also shows what taking the air cartridge out and putting a coil
// kit in does to the fill. The exit status is 0, or 2 for bad input.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/forkcurve/data"
)

const badInput = 2

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, problems io.Writer) int {
	flags := flag.NewFlagSet("oilfill", flag.ContinueOnError)
	flags.SetOutput(problems)
	var (
		ids    = flags.String("fork", "M11,M21", "forks of the dataset, `ids` with commas between")
		folder = flags.String("out", "", "write plots into this `folder`")
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
	if err := show(*ids, *folder, out, problems); err != nil {
		fmt.Fprintln(problems, err)
		return badInput
	}
	return 0
}

func show(ids, folder string, out, problems io.Writer) error {
	var baths []*bath
	for id := range strings.SplitSeq(ids, ",") {
		fork, err := data.Reference().Fork(strings.TrimSpace(id))
		if err != nil {
			return fmt.Errorf("-fork: %w", err)
		}
		b, err := newBath(fork)
		if err != nil {
			return fmt.Errorf("fork %s: %w", fork.ID, err)
		}
		baths = append(baths, b)
	}
	text, err := text(baths)
	if err != nil {
		return err
	}
	if _, err := io.WriteString(out, text); err != nil || folder == "" {
		return err
	}
	for _, b := range baths {
		if err := b.plot(folder, problems); err != nil {
			return err
		}
	}
	return nil
}
