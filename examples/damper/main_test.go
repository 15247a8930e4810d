package main

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/units"
)

func TestText(t *testing.T) {
	for name, args := range map[string][]string{
		"default.golden": nil,
		"bicycle.golden": {"-fork", "B04", "-oil", "fork-2-5", "-rebound", "0", "-compression", "20", "-stiffer", "-8",
			"-power", "80 W"},
	} {
		t.Run(name, func(t *testing.T) {
			text := golden.Text(t, command, args...)
			golden.Readable(t, text)
			golden.Check(t, name, text)
		})
	}
}

func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		golden.Readable(t, golden.Text(t, command, "-fork", fork.ID))
	}
}

// Every oil with a known viscosity, with both needles at either end.
func TestEveryOil(t *testing.T) {
	for fluid := range data.Reference().Fluids() {
		known, err := fluid.Oil()
		if err != nil {
			t.Fatal(err)
		}
		for _, out := range []string{"0", "20"} {
			args := []string{"-oil", fluid.ID, "-rebound", out, "-compression", out}
			if known.HasViscosity() {
				golden.Readable(t, golden.Text(t, command, args...))
			} else if status, _, problems := golden.Run(t, command, args...); status != program.BadInput ||
				!strings.Contains(problems, "viscosity") {
				t.Errorf("%s: status %d, %s", fluid.ID, status, problems)
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "needle beyond open", Args: []string{"-rebound", "21"},
			Want: []string{"-rebound", "21", "0 to 20"}},
		golden.Bad{Name: "needle beyond closed", Args: []string{"-compression", "-1"},
			Want: []string{"-compression", "0 to 20"}},
		golden.Bad{Name: "needle in halves", Args: []string{"-rebound", "1.5"}, Want: []string{"-rebound", "1.5"}},
		golden.Bad{Name: "springs too stiff", Args: []string{"-stiffer", "80"},
			Want: []string{"-stiffer", "80", "-20 to 30"}},
		golden.Bad{Name: "springs of no number", Args: []string{"-stiffer", "NaN"}, Want: []string{"-stiffer", "NaN"}},
		golden.Bad{Name: "no power", Args: []string{"-power", "0 W"}, Want: []string{"-power", "1 W"}},
		golden.Bad{Name: "power in another unit", Args: []string{"-power", "150 N"}, Want: []string{"-power", "W"}},
		golden.Bad{Name: "all at once", Args: []string{"-fork", "none", "-oil", "soup", "-power", "x", "-rebound", "50"},
			Want: []string{"none", "soup", "-power", "50"}})
}

func TestPlots(t *testing.T) {
	golden.Pictures(t, command, 10)
	for _, args := range [][]string{ // the thickest and the thinnest oil, on needles at either end
		{"-fork", "B17", "-oil", "iso-vg-68", "-rebound", "0", "-compression", "0", "-out", t.TempDir()},
		{"-fork", "M09", "-oil", "iso-vg-7", "-rebound", "20", "-compression", "20", "-out", t.TempDir()},
	} {
		if status, _, problems := golden.Run(t, command, args...); status != program.Done {
			t.Errorf("%v: status %d, %s", args, status, problems)
		}
	}
}

func newDefault(t *testing.T, fork string, out int) *study {
	t.Helper()
	record, err1 := data.Reference().Fork(fork)
	fluid, err2 := data.Reference().Fluid("fork-5")
	s := &study{Fork: record, Fluid: fluid, Rebound: out, Compression: out}
	if err := errors.Join(err1, err2, s.fill()); err != nil {
		t.Fatal(err)
	}
	return s
}

// The text calls the damper one with typical forces, to ±50 %.
func TestTypical(t *testing.T) {
	warm := newDefault(t, typicalFork, 10).Warm
	for _, p := range typical {
		in, out := warm.In(units.Speed(p.Speed))/p.In, warm.Out(units.Speed(p.Speed))/p.Out
		if !(math.Abs(in-1) <= 0.5 && math.Abs(out-1) <= 0.5) {
			t.Errorf("at %v %.2f and %.2f of the typical", p.Speed, in, out)
		}
	}
}

// Cold oil, a closed needle and a second leg each resist more, at every speed.
func TestMoreResists(t *testing.T) {
	s, firm, single := newDefault(t, typicalFork, 10), newDefault(t, typicalFork, 2), newDefault(t, "B06", 10)
	for _, v := range []units.Speed{0.05, 0.1, 0.5, 3} {
		for _, force := range []func(state, units.Speed) float64{state.In, state.Out} {
			cold, mid, hot := force(s.Cold, v), force(s.Warm, v), force(s.Hot, v)
			if closed := force(firm.Warm, v); !(cold > mid && mid > hot && closed > mid) {
				t.Errorf("at %v cold %.1f, warm %.1f, hot %.1f N; %.1f N with needles 2 out", v, cold, mid, hot, closed)
			}
			if one := force(single.Warm, v); !(math.Abs(2*one-mid) <= 1e-9*mid) {
				t.Errorf("at %v %.1f N with one leg, %.1f N with two", v, one, mid)
			}
		}
	}
}
