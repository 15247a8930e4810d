// Command bench turns readings of a fork at the bench into the fork's own numbers, tells what the readings can not
// tell, what contradicts, and what to measure next.
//
//	go -C examples run ./bench                        the readings that come with it
//	go -C examples run ./bench -readings my.toml      your own
//	go -C examples run ./bench -question rate         what the next reading is to sharpen: oil, rate, sag or lock
//	go -C examples run ./bench -blank                 a sheet to print and fill in at the bench
//	go -C examples run ./bench -out folder            plots, and the fork as a record of the dataset
//
// The exit status is 0, or 2 for bad input.
package main

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/bench/benchfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

//go:embed readings.toml
var builtIn []byte

//go:embed sheet.tmpl
var sheet string

//go:embed blank.txt
var blank string

func main() { program.Main(command) }

func command(p *program.Program) func() error {
	readings := p.Text("readings", "", "`file` of readings; left out: those that come with the program")
	asked := program.Flag(p, "question", "oil", "what the next reading is to sharpen: `oil, rate, sag or lock`", word)
	empty := p.Flags.Bool("blank", false, "print a sheet to fill in at the bench, and nothing else")
	folder := p.Folder("out", "write plots and the record into this `folder`")
	return func() error {
		if *empty {
			return p.Print(blank)
		}
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		f, err := read(*readings)
		if err != nil {
			return err
		}
		k, err := bench.Learn(ctx, f.Fork, f.Room, f.Unknowns, f.Readings)
		if err != nil {
			return err
		}
		s, err := newStudy(ctx, f, k, *asked)
		if err != nil {
			return err
		}
		text, err := prose.SetAt(30, sheet, s)
		if err != nil {
			return err
		}
		if err := p.Print(text); err != nil {
			return err
		}
		if !folder.Given() {
			return nil
		}
		var record bytes.Buffer
		if err := benchfile.WriteRecord(&record, f, s.Known, strings.ToLower(f.Record.ID)+"-measured"); err != nil {
			return err
		}
		return errors.Join(folder.Save("fork.toml", record.Bytes()), folder.Draw("values", s.values()),
			folder.Draw("residuals", s.residuals()), s.band(folder))
	}
}

func read(name string) (*benchfile.File, error) {
	if name == "" {
		return benchfile.Decode("readings.toml", bytes.NewReader(builtIn), data.Reference())
	}
	return benchfile.DecodeFile(name, data.Reference())
}

// word is one of the questions.
func word(text string) (string, error) {
	switch text {
	case "oil", "rate", "sag", "lock":
		return text, nil
	}
	return "", fmt.Errorf("%q is no question; want oil, rate, sag or lock", text)
}

// questions are what is always answered, the one asked about first.
func questions(f *benchfile.File, asked string) ([]bench.Question, error) {
	event, err := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	if err != nil {
		return nil, err
	}
	rider := rider(f)
	all := map[string]bench.Question{"oil": bench.OilFor(f.Side, wantedRatio),
		"rate": bench.RateFor(f.Record.Kit.PreloadAim.Value),
		"sag":  bench.SagOf(rider, event), "lock": bench.LockMargin(f.Side)}
	all["oil"] = named(all["oil"], fmt.Sprintf("oil in the %v leg for a gap of ratio %.1f", f.Side, wantedRatio))
	all["sag"] = named(all["sag"], fmt.Sprintf("sag with %.0f at 2500 m and 4 °C", rider))
	list := []bench.Question{all[asked]}
	for _, name := range []string{"oil", "rate", "sag"} {
		if name != asked {
			list = append(list, all[name])
		}
	}
	return list, nil
}

// rider is who sat on the fork for its readings, or who usually does.
func rider(f *benchfile.File) units.Mass {
	for _, r := range f.Readings {
		if s, ok := r.(bench.Sag); ok && s.Rider != 0 {
			return s.Rider
		}
	}
	return f.Record.Rider.Mass.Value
}

const wantedRatio = 3.5

func named(q bench.Question, name string) bench.Question {
	q.Name = name
	return q
}
