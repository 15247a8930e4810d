// Command damper builds an invented damper out of its parts and shows what it does in a fork: force against speed
// with cold, warm and hot oil and by which part, damping ratio, cavitation, heat, and what another spring asks of
// the rebound needle.
//
//	go -C examples run ./damper                        in a motocross fork
//	go -C examples run ./damper -fork M11 -oil fork-10 in any fork, with any oil of the dataset
//	go -C examples run ./damper -rebound 6 -compression 14
//	go -C examples run ./damper -stiffer 10            for springs 10 % stiffer
//	go -C examples run ./damper -power '200 W'         with more heat to get rid of
//	go -C examples run ./damper -out folder            and plots as SVG and PNG
//
// The exit status is 0, or 2 for bad input.
package main

import (
	_ "embed"
	"errors"
	"text/template"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/units"
)

//go:embed sheet.tmpl
var sheet string

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	fork := program.Flag(p, "fork", typicalFork, "fork of the dataset, by `id`", data.Reference().Fork)
	fluid := program.Flag(p, "oil", "fork-5", "damper oil of the dataset, by `id`", data.Reference().Fluid)
	needle := program.Number(0, clicks)
	rebound := program.Flag(p, "rebound", "10", "rebound needle, `clicks` out from closed, 0 to 20", needle)
	compression := program.Flag(p, "compression", "10", "compression needle, `clicks` out from closed, 0 to 20", needle)
	stiffer := program.Flag(p, "stiffer", "6", "by how many `percent` the other springs are stiffer, −20 to 30",
		program.Number(-20.0, 30))
	power := program.Flag(p, "power", "", "heat of the whole fork, as '150 W'; left out: typical of the machine",
		program.Between(1*units.Watt, 2000*units.Watt))
	folder := p.Folder("out", "write plots into this `folder`")
	return func() error {
		s := &study{Fork: *fork, Fluid: *fluid, Rebound: *rebound, Compression: *compression, Percent: *stiffer,
			Power: *power}
		if err := s.fill(); err != nil {
			return err
		}
		text, err := prose.Set(sheet, s, template.FuncMap{"fade": damping.Fade, "meanPower": damping.MeanPower,
			"speedAt": damping.SpeedAt, "absolute": units.Absolute})
		cavitates := s.Warm.Leg.Cavitation()
		return errors.Join(err, p.Print(text), folder.Draw("force", s.forces(3)), folder.Draw("force-slow", s.forces(0.3)),
			folder.Draw("shares-compression", s.stacked("compression", 1, cavitates.Compression)),
			folder.Draw("shares-rebound", s.stacked("rebound", -1, cavitates.Rebound)), folder.Draw("ratio", s.ratios()))
	}
}
