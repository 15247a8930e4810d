// Package program runs the example programs in one way: flags in, text out, files into a folder, faults to the
// other stream, one of three statuses.
//
//	func main() { program.Main(command) }
//
//	func command(p *program.Program) func() error {
//		fork := program.Flag(p, "fork", "M06", "fork of the dataset, by `id`", data.Reference().Fork)
//		rider := program.Flag(p, "rider", "", "`mass` of the rider", program.Between(lightest, heaviest))
//		folder := p.Folder("out", "write plots into this `folder`")
//		return func() error { // the flags hold what was asked for, or their fallbacks
//			if err := p.Print(text(*fork, *rider)); err != nil {
//				return err
//			}
//			return folder.Draw("force", figure(*fork))
//		}
//	}
//
// All flags at fault are reported, one a line, as "-rider: …". A flag that is given without a value, as -fork "",
// is at fault; to leave it out is not.
//
// In a test, [Run] takes arguments and two buffers; examples/internal/golden has the checks that every program
// passes.
package program

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Statuses a program ends with. -h ends with Done.
const (
	Done     = 0
	NoAnswer = 1 // the question is sound and its answer is no
	BadInput = 2
)

// ErrNoAnswer ends a program with the status [NoAnswer]; what it says of that is printed already.
var ErrNoAnswer = errors.New("no answer")

// A Command declares its flags and returns what to do once they are read.
type Command func(p *Program) func() error

// Program is one run of a command.
type Program struct {
	Flags         *flag.FlagSet // for flags that are no text: Bool, Int, Float64
	Out, Problems io.Writer

	texts  []*text
	faults []error
}

// Main runs a command with the arguments of the process and ends the process.
func Main(command Command) { os.Exit(Run(command, os.Args[1:], os.Stdout, os.Stderr)) }

// Run runs a command and returns its status.
func Run(command Command, args []string, out, problems io.Writer) int {
	p := &Program{Flags: flag.NewFlagSet(filepath.Base(os.Args[0]), flag.ContinueOnError), Out: out, Problems: problems}
	p.Flags.SetOutput(problems)
	do := command(p)
	switch err := p.Flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return Done
	case err != nil:
		return BadInput // and the flag package has said why
	}
	if p.Flags.NArg() > 0 {
		p.faults = append(p.faults, fmt.Errorf("what is %q? every input has a flag; -h lists them", p.Flags.Arg(0)))
	}
	for _, t := range p.texts {
		if !t.given && t.fallback != "" {
			t.take(t.fallback)
		}
	}
	err := errors.Join(p.faults...)
	if err == nil {
		err = do()
	}
	switch {
	case err == nil:
		return Done
	case errors.Is(err, ErrNoAnswer):
		return NoAnswer
	}
	fmt.Fprintln(problems, err)
	return BadInput
}

// Print prints what the program has to say.
func (p *Program) Print(text string) error {
	_, err := io.WriteString(p.Out, text)
	return err
}
