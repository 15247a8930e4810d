package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// program runs the command as a user would.
func program(t *testing.T, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = run(args, &o, &p)
	return status, o.String(), p.String()
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		golden string
		args   []string
	}{
		{"default.golden", nil},
		{"low-pressure.golden", []string{"-air", "m09", "-coil", " M06"}},
		{"floating-piston.golden", []string{"-air", "B16", "-coil", "M35", "-rider", "95 kg"}},
	} {
		t.Run(c.golden, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != 0 || problems != "" {
				t.Errorf("status %d, %s", status, problems)
			}
			golden.Check(t, c.golden, out)
		})
	}
}

func TestHelp(t *testing.T) {
	if status, out, problems := program(t, "-h"); status != 0 || out != "" || !strings.Contains(problems, "-out") {
		t.Errorf("status %d, printed %q, %s", status, out, problems)
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want []string
	}{
		{"two on air", []string{"-coil", "B04"}, []string{"-coil: B04", "on air", "on coil springs, as B06"}},
		{"two on coils", []string{"-air", "M06"}, []string{"-air: M06", "on coil springs", "on air, as", "M07"}},
		{"the other way round", []string{"-air", "B06", "-coil", "B04"}, []string{"-air: B06", "-coil: B04"}},
		{"no such fork", []string{"-air", "B40"}, []string{`-air: no fork "B40"`, "B04"}},
		{"neither", []string{"-air", "B40", "-coil", "B60"}, []string{`-air: no fork "B40"`, `-coil: no fork "B60"`}},
		{"mass without unit", []string{"-rider", "79"}, []string{"-rider", "kg"}},
		{"mass of a feather", []string{"-rider", "1 g"}, []string{"-rider", "10 kg to 250 kg"}},
		{"too heavy for the fork", []string{"-air", "B13", "-rider", "250 kg"}, []string{"-air: B13", "250 kg"}},
		{"too light for the fork", []string{"-air", "B11", "-rider", "10 kg"}, []string{"-air: B11", "10 kg", "sag"}},
		{"no such flag", []string{"-frok", "B04"}, []string{"frok"}},
		{"words left over", []string{"B04"}, []string{"B04"}},
		{"into no folder", []string{"-out", "/dev/null/x"}, []string{"/dev/null/x"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != badInput || out != "" && c.name != "into no folder" {
				t.Errorf("status %d, printed %q", status, out)
			}
			for _, want := range c.want {
				if !strings.Contains(problems, want) {
					t.Errorf("no %q in %s", want, problems)
				}
			}
		})
	}
}

// everyPair is each air fork with some coil forks.
func everyPair(t *testing.T, check func(t *testing.T, air, coil string)) {
	t.Helper()
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		for _, coil := range []string{"B15", "M35", "L02"} {
			t.Run(f.ID+" "+coil, func(t *testing.T) { check(t, f.ID, coil) })
		}
	}
}

// A topic is a page at most, of 80 columns, and has numbers throughout.
func TestEveryPairOnPages(t *testing.T) {
	const page = 70 // of A4, six lines to the inch
	everyPair(t, func(t *testing.T, air, coil string) {
		status, out, problems := program(t, "-air", air, "-coil", coil)
		if status != 0 || problems != "" {
			t.Fatalf("status %d, %s", status, problems)
		}
		for line := range strings.Lines(out) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
				t.Errorf("%d columns: %s", n, line)
			}
		}
		for _, bad := range []string{"NaN", "Inf", "%!", "\t", "−0.0 mm", " \n"} {
			if strings.Contains(out, bad) {
				t.Errorf("the text says %q", bad)
			}
		}
		topics := strings.Split(out, strings.Repeat("-", width)+"\n")
		if len(topics) != 12 {
			t.Errorf("%d topics", len(topics)-1)
		}
		for i, topic := range topics {
			if n := strings.Count(topic, "\n"); n > page {
				t.Errorf("topic %d has %d lines", i, n)
			}
		}
	})
}

// What the text says of the direction of every change is so in every air fork.
func TestDirections(t *testing.T) {
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		t.Run(f.ID, func(t *testing.T) {
			s, err := newStudy(f.ID, "B06", 0)
			if err != nil {
				t.Fatal(err)
			}
			untouched := s.treatments()[0]
			less := func(name string, a, b float64) {
				if !(a < b) {
					t.Errorf("%s: %.2f, not below %.2f", name, a, b)
				}
			}
			less("hot day", untouched.change(s.hot), 0)
			less("cold day", 0, untouched.change(s.warmed(units.Celsius(0))))
			less("altitude", untouched.change(s.up), 0)
			less("set again at altitude", 0, s.setAgain().change(s.up))
			leaked, ok := s.air.sagOf(s.air.set.Leaked(0.9))
			if !ok {
				t.Fatal("leaked: does not carry the rider")
			}
			less("leaked", s.air.sag.Middle.In(mm), leaked.In(mm))
			if s.air.trapped() {
				wrong, ok := s.air.sagOf(s.air.set.VentedAt(s.air.settled))
				if !ok {
					t.Fatal("vented under load: does not carry the rider")
				}
				less("vented under load", s.air.sag.Middle.In(mm), wrong.In(mm))
				vented := treatment{fork: &s.air, apply: (*setup.Setup).Vented}
				less("vented at altitude", untouched.change(s.up), vented.change(s.up))
			}
			if s.air.Left.Air.NegativeVolume.Value > 0 {
				first, last, ok := s.across()
				less("leaked into the negative chamber", s.air.sag.Middle.In(mm), first.In(mm))
				if ok {
					less("in the end", first.In(mm), last.In(mm))
				}
			}
		})
	}
}

func TestPlots(t *testing.T) {
	for _, args := range [][]string{nil, {"-air", "M09", "-coil", "M06"}} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "new")
			status, _, problems := program(t, append(args, "-out", dir)...)
			files, err := filepath.Glob(filepath.Join(dir, "*"))
			if status != 0 || strings.Count(problems, "wrote ") != 18 || err != nil || len(files) != 18 {
				t.Fatalf("status %d, files %v, %v, %s", status, files, err, problems)
			}
			for _, file := range files {
				drawn, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				if filepath.Ext(file) == ".png" {
					_, err = png.Decode(bytes.NewReader(drawn))
				} else {
					err = wellFormed(drawn)
				}
				if err != nil {
					t.Errorf("%s: %v", file, err)
				}
			}
		})
	}
}

// The same forks give the same bytes.
func TestPlotsAgain(t *testing.T) {
	drawn := func(dir string) []byte {
		s, err := newStudy("B04", "B06", 0)
		if err != nil {
			t.Fatal(err)
		}
		var all []byte
		for _, f := range []*chart.Figure{s.loopFigure(), s.temperatureFigure()} {
			names, err := f.Write(dir, "same")
			if err != nil {
				t.Fatal(err)
			}
			for _, name := range names {
				file, err := os.ReadFile(name)
				if err != nil {
					t.Fatal(err)
				}
				all = append(all, file...)
			}
		}
		return all
	}
	if !bytes.Equal(drawn(t.TempDir()), drawn(t.TempDir())) {
		t.Error("drawn twice, the files differ")
	}
}

func wellFormed(svg []byte) error {
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// Every pair has plots.
func TestEveryPairDraws(t *testing.T) {
	everyPair(t, func(t *testing.T, air, coil string) {
		s, err := newStudy(air, coil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range s.figures() {
			for _, l := range f.draw().Lines {
				if len(l.X) == 0 {
					t.Errorf("%s: %s%s has no points", f.name, l.Name, l.Label)
				}
				for i := range l.X {
					if math.IsNaN(l.X[i] + l.Y[i]) {
						t.Fatal(fmt.Errorf("%s: %s%s is NaN at %g", f.name, l.Name, l.Label, l.X[i]))
					}
				}
			}
		}
	})
}
