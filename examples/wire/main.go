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
	_ "embed"
	"errors"
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/prose"
)

//go:embed sheet.tmpl
var sheet string

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	forks := program.Flag(p, "fork", "M07,M06", "`ids` of forks, commas between", program.List(data.Reference().Fork))
	rate := program.Flag(p, "rate", "", "`rate` of the whole fork, as '9.8 N/mm'; left out: what the record asks for",
		program.Between(2*npm, 100*npm))
	wire := program.Flag(p, "material", "", "wire by `id`, as sicr; left out: the one in the fork, or sicrv",
		data.Reference().Wire)
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		var studies []*study
		for _, fork := range *forks {
			s, err := newStudy(fork, *rate, *wire)
			if err != nil {
				return err
			}
			studies = append(studies, s)
		}
		text, err := prose.Set(sheet, facts(studies))
		if err != nil {
			return err
		}
		if err := p.Print(text); err != nil || !folder.Given() {
			return err
		}
		for _, s := range studies {
			if !s.One.Exists() && !s.Two.Exists() {
				fmt.Fprintf(p.Problems, "%s: no spring exists, nothing to draw\n", s.Fork.ID)
				continue
			}
			wires, lengths := s.plots()
			err = errors.Join(err, folder.Draw(s.Fork.ID+"-wire", wires), folder.Draw(s.Fork.ID+"-length", lengths))
		}
		return err
	}
}
