package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring/helical"
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
		{"bicycle.golden", []string{"-fork", "B04, b06"}},
		{"nofit.golden", []string{"-fork", "M06", "-material", "a227"}},
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

// TestEveryFork: an answer or a reason, 80 columns, and cutting a spring is spoken of
// only to forbid it.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			for _, args := range [][]string{{}, {"-material", "a227"}, {"-rate", "100 N/mm"}} {
				status, out, problems := program(t, append(args, "-fork", fork.ID)...)
				if status != 0 || problems != "" {
					t.Errorf("%v: status %d, %s", args, status, problems)
				}
				if !strings.Contains(out, "Answer: ") || strings.Contains(out, "no spring of this wire fits") && !strings.Contains(out, "does not fit: ") {
					t.Errorf("%v: neither an answer nor a reason", args)
				}
				checkText(t, out)
			}
		})
	}
}

func checkText(t *testing.T, out string) {
	t.Helper()
	for line := range strings.Lines(out) {
		if utf8.RuneCountInString(line) > width+1 {
			t.Errorf("%d columns: %s", utf8.RuneCountInString(line)-1, line)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "\t"} {
		if strings.Contains(out, bad) {
			t.Errorf("the text says %q", bad)
		}
	}
	words := strings.Join(strings.Fields(out), " ")
	for _, forbids := range []string{"A spring is never cut, ground or pressed", "Never cut, grind,"} {
		words = strings.ReplaceAll(words, forbids, "")
	}
	for word := range strings.FieldsSeq(words) {
		switch strings.ToLower(strings.Trim(word, ".,;:()")) {
		case "cut", "cutting", "grind", "grinding", "saw", "shorten":
			t.Errorf("the text says %q", word)
		}
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
		want string
	}{
		{"no such fork", []string{"-fork", "M99"}, `no fork "M99"`},
		{"one of two forks", []string{"-fork", "M07,M99"}, `no fork "M99"`},
		{"empty fork", []string{"-fork", "M07,"}, `no fork ""`},
		{"bare rate", []string{"-rate", "9.8"}, "N/mm"},
		{"rate in another unit of force", []string{"-rate", "9.8 kgf"}, "N/mm"},
		{"rate too high", []string{"-rate", "200 N/mm"}, "100 N/mm"},
		{"no rate", []string{"-rate", "0 N/mm"}, "2 N/mm"},
		{"no such wire", []string{"-material", "wood"}, "sicrv"},
		{"no such flag", []string{"-frok", "M07"}, "frok"},
		{"words left over", []string{"M07"}, `"M07"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != badInput || out != "" || !strings.Contains(problems, c.want) {
				t.Errorf("status %d, printed %q, %s", status, out, problems)
			}
		})
	}
	if status, _, problems := program(t, "-out", "/dev/null/x"); status != badInput || !strings.Contains(problems, "/dev/null") {
		t.Errorf("into no folder: status %d, %s", status, problems)
	}
}

func TestRateInOtherUnits(t *testing.T) {
	_, metric, _ := program(t, "-fork", "M06", "-rate", "9.80665 N/mm")
	_, old, _ := program(t, "-fork", "M06", "-rate", "1 kgf/mm")
	if metric != old || !strings.Contains(old, "9.81 N/mm: as asked for") {
		t.Errorf("in kgf/mm\n%s", old)
	}
}

func TestPlots(t *testing.T) {
	first, second := t.TempDir(), filepath.Join(t.TempDir(), "new")
	for _, dir := range []string{first, second} {
		if status, _, problems := program(t, "-fork", "M07,M06,B04", "-out", dir); status != 0 || strings.Count(problems, "wrote ") != 24 {
			t.Fatalf("status %d, %s", status, problems)
		}
	}
	for _, fork := range []string{"M07", "M06", "B04"} {
		for _, name := range []string{"stress", "gap", "wire", "length"} {
			for _, ext := range []string{".png", ".svg"} {
				file := fork + "-" + name + ext
				a, err := os.ReadFile(filepath.Join(first, file))
				if err != nil {
					t.Fatal(err)
				}
				b, err := os.ReadFile(filepath.Join(second, file))
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(a, b) {
					t.Errorf("%s differs from one run to the next", file)
				}
				if ext == ".png" {
					if _, err := png.Decode(bytes.NewReader(a)); err != nil {
						t.Errorf("%s: %v", file, err)
					}
				}
			}
		}
	}
	if status, _, problems := program(t, "-fork", "M06", "-rate", "100 N/mm", "-out", first); status != 0 || !strings.Contains(problems, "nothing to draw") {
		t.Errorf("without a spring: status %d, %s", status, problems)
	}
}

// The spring whose length needed is L0, worked by hand before this program was written,
// with the formulas of package helical's comment: wire, outer diameter and rate given,
// preload 6 mm off-road and 3 mm on the bicycle, silicon-chromium-vanadium wire.
// differs names the numbers by hand that are more than 2 % off, and why.
func TestByHand(t *testing.T) {
	for _, c := range []struct {
		name                             string
		rate, outer, stroke, wire        float64 // stroke with preload
		coils, solid, length, mass, mega float64
		differs                          map[string]string
	}{
		{"off-road, two springs", 4.9, 43, 311, 5.1, 25, 139, 485, 0.52, 1109, nil},
		{"off-road, one spring", 9.8, 43, 311, 6.5, 37, 255, 619, 1.17, 1032, nil},
		{"off-road, one spring over its limit", 9.8, 43, 311, 6.1, 28, 182, 521, 0.9, 1260, map[string]string{
			"length": "by hand about S_a was left to solid, not 1.5·S_a",
			"mass":   "by hand a rough value to one figure; π²·D·n·d²/4 with the dead coils is 0.80 kg",
		}},
		{"bicycle, one spring", 8.3, 31.5, 173, 4.5, 25, 121, 320, 0.29, 1083, nil},
		{"bicycle, two springs", 4.15, 31.5, 173, 3.6, 19, 74, 266, 0.14, 1093, map[string]string{
			"coils": "by hand rounded up to whole coils: 18.5",
			"mass":  "by hand two figures: 0.1444 kg",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := helical.New(helical.Spec{
				Wire: units.Length(c.wire) * mm, OuterDiameter: units.Length(c.outer) * mm, Rate: units.Stiffness(c.rate) * npm,
				FreeLength: units.Length(c.length) * mm, Material: sicrv(t),
			})
			if err != nil {
				t.Fatal(err)
			}
			stroke := units.Length(c.stroke) * mm
			for _, n := range []struct {
				name      string
				got, hand float64
			}{
				{"coils", s.ActiveCoils(), c.coils},
				{"solid", s.SolidLength().In(mm), c.solid},
				{"length", (s.SolidLength() + s.DynamicMinimumGap() + stroke).In(mm), c.length},
				{"mass", float64(s.Mass()), c.mass},
				{"stress", s.ShearStress(units.Force(c.rate * c.stroke)).In(units.Megapascal), c.mega},
			} {
				off := n.got/n.hand - 1
				if why, listed := c.differs[n.name]; listed != (off > 0.02 || off < -0.02) {
					t.Errorf("%s %.4g, by hand %.4g, %+.1f %%; listed as different: %v %s", n.name, n.got, n.hand, 100*off, listed, why)
				}
			}
		})
	}
}

// Free to choose, Design comes out no longer than the choice by hand, in a bore that
// clears its spring by 1 mm when closed; the wire is within 0.1 mm of it.
func TestDesignNoLongerThanByHand(t *testing.T) {
	for _, c := range []struct {
		name                             string
		rate, bore, stroke, wire, length float64
	}{
		{"off-road, two springs", 4.9, 44.8, 311, 5.1, 485},
		{"off-road, one spring", 9.8, 44.6, 311, 6.5, 619},
		{"bicycle, one spring", 8.3, 33, 173, 4.5, 320},
		{"bicycle, two springs", 4.15, 33.2, 173, 3.6, 266},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := helical.Design(helical.DesignSpec{Rate: units.Stiffness(c.rate) * npm, Stroke: units.Length(c.stroke) * mm,
				Bore: units.Length(c.bore) * mm, FreeLength: longest, Material: sicrv(t)})
			if err != nil {
				t.Fatal(err)
			}
			if s.FreeLength().In(mm) > c.length || s.Wire().In(mm) < c.wire-0.101 || s.Wire().In(mm) > c.wire+0.001 {
				t.Errorf("wire %.1f, %.1f outside, %.0f long; by hand wire %.1f, %.0f long", s.Wire().In(mm), s.OuterDiameter().In(mm), s.FreeLength().In(mm), c.wire, c.length)
			}
		})
	}
}

// TestOfWire: of all wires, the one that Design takes is the shortest, and each does
// what it must.
func TestOfWire(t *testing.T) {
	fork, err := data.Reference().Fork("M07")
	if err != nil {
		t.Fatal(err)
	}
	j := newJob(fork, 0, helical.Material{})
	shortest, ok := shortestOf(springs(j.one.spec))
	if !ok || shortest.Wire() != j.one.spring.Wire() || shortest.FreeLength() != j.one.spring.FreeLength() {
		t.Errorf("shortest is of %v, %v long; designed is %v, %v", shortest.Wire(), shortest.FreeLength(), j.one.spring.Wire(), j.one.spring.FreeLength())
	}
	for _, s := range springs(j.one.spec) {
		if s.ShearStress(s.Force(j.one.stroke())) > s.StaticLimit()*(1+1e-12) || s.OuterDiameterAtSolid() > j.one.spec.Bore-1*mm+1e-9*mm {
			t.Errorf("wire %v: %v of %v, %v wide", s.Wire(), s.ShearStress(s.Force(j.one.stroke())), s.StaticLimit(), s.OuterDiameterAtSolid())
		}
	}
}

// TestStiffest: at that rate a spring fits, a step above none does.
func TestStiffest(t *testing.T) {
	fork, err := data.Reference().Fork("M06")
	if err != nil {
		t.Fatal(err)
	}
	j := newJob(fork, 0, helical.Material{})
	k, ok := stiffest(j.two.spec)
	if !ok || k < j.two.spec.Rate {
		t.Fatalf("stiffest %v, %v; %v fits", k, ok, j.two.spec.Rate)
	}
	for _, step := range []units.Stiffness{0, 0.1 * npm} {
		spec := j.two.spec
		spec.Rate = k + step
		if _, err := helical.Design(spec); (err == nil) != (step == 0) {
			t.Errorf("at %v: %v", spec.Rate, err)
		}
	}
}

// sicrv is the usual wire.
func sicrv(t *testing.T) helical.Material {
	t.Helper()
	m, err := data.Reference().Wire("sicrv")
	if err != nil {
		t.Fatal(err)
	}
	return m
}
