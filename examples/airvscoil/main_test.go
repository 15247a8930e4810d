package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func TestText(t *testing.T) {
	for file, args := range map[string][]string{
		"default.golden":         nil,
		"low-pressure.golden":    {"-air", "m09", "-coil", " M06"},
		"floating-piston.golden": {"-air", "B16", "-coil", "M35", "-rider", "95 kg"},
	} {
		t.Run(file, func(t *testing.T) { golden.Check(t, file, golden.Text(t, command, args...)) })
	}
}

func TestRefuses(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "two on air", Args: []string{"-coil", "B04"},
			Want: []string{"-coil: B04", "on air", "on coil springs, as B06"}},
		golden.Bad{Name: "two on coils", Args: []string{"-air", "M06"},
			Want: []string{"-air: M06", "on coil springs", "on air, as", "M07"}},
		golden.Bad{Name: "the other way round", Args: []string{"-air", "B06", "-coil", "B04"},
			Want: []string{"-air: B06", "-coil: B04"}},
		golden.Bad{Name: "two rates", Args: []string{"-coil", "M38"},
			Want: []string{"-coil: M38", "more than one rate", "as M14"}},
		golden.Bad{Name: "neither", Args: []string{"-air", "B40", "-coil", "B60"},
			Want: []string{`-air: no fork "B40"`, `-coil: no fork "B60"`, "B04"}},
		golden.Bad{Name: "mass without unit", Args: []string{"-rider", "79"}, Want: []string{"-rider", "kg"}},
		golden.Bad{Name: "mass of a feather", Args: []string{"-rider", "1 g"},
			Want: []string{"-rider", "10 kg to 250 kg"}},
		golden.Bad{Name: "too heavy for the fork", Args: []string{"-air", "B13", "-rider", "250 kg"},
			Want: []string{"-air: B13", "250 kg"}},
		golden.Bad{Name: "too light for the fork", Args: []string{"-air", "B11", "-rider", "10 kg"},
			Want: []string{"-air: B11", "10 kg", "sag"}},
	)
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
		out := golden.Text(t, command, "-air", air, "-coil", coil)
		golden.Readable(t, out)
		for _, bad := range []string{"−0.0 mm", "{", "?"} {
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
	golden.Pictures(t, command, 18)
	golden.Pictures(t, command, 18, "-air", "M09", "-coil", "M06")
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
