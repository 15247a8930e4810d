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
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/units"
)

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	air := p.Text("air", "B04", "fork on air, by `id` of the dataset")
	coil := p.Text("coil", "B06", "fork on coil springs, by `id` of the dataset")
	rider := program.Flag(p, "rider", "",
		"`mass` of the rider with kit, as '92 kg'; left out: the typical one of each fork",
		program.Between(10*units.Kilogram, 250*units.Kilogram))
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		s, err := newStudy(*air, *coil, *rider)
		if err != nil {
			return err
		}
		if err := p.Print(s.text()); err != nil || !folder.Given() {
			return err
		}
		for _, f := range s.figures() {
			if err := folder.Draw(f.name, f.draw()); err != nil {
				return err
			}
		}
		return nil
	}
}
