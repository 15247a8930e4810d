// Command oilfill shows what the oil in a fork does at the end of the stroke: force and compression ratio of the
// gas over the oil against level or volume, cold and warm, with the fill at which the leg locks on its oil.
//
//	go -C examples run ./oilfill                     an off-road and a road fork
//	go -C examples run ./oilfill -fork M07,B04       any forks of the dataset
//	go -C examples run ./oilfill -out folder         and plots as SVG and PNG
//
// Of an air fork it also shows what taking the air cartridge out and putting a coil
// kit in does to the fill. The exit status is 0, or 2 for bad input.
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
	forks := program.Flag(p, "fork", "M11,M21", "forks of the dataset, `ids` with commas between",
		program.List(data.Reference().Fork))
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		var studies []*study
		var drawn error
		for _, fork := range *forks {
			s, err := newStudy(fork)
			if err != nil {
				return fmt.Errorf("fork %s: %w", fork.ID, err)
			}
			studies, drawn = append(studies, s), errors.Join(drawn, s.plot(folder))
		}
		text, err := prose.Set(sheet, studies)
		return errors.Join(err, p.Print(text), drawn)
	}
}
