package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func TestText(t *testing.T) {
	for name, args := range map[string][]string{
		"default.golden": nil, "air.golden": {"-fork", "M07, b04"}, "volume.golden": {"-fork", "M06,M09"},
	} {
		t.Run(name, func(t *testing.T) { golden.Check(t, name, golden.Text(t, command, args...)) })
	}
}

func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		text := golden.Text(t, command, "-fork", fork.ID)
		golden.Readable(t, text)
		if refit := strings.Contains(text, "COIL KIT IN"); refit != (fork.Spring() == data.AirLeg) {
			t.Errorf("%s: tells of a kit: %v", fork.ID, refit)
		}
	}
}

func TestBadInput(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "no such fork", Args: []string{"-fork", "M99"}, Want: []string{`no fork "M99"`}},
		golden.Bad{Name: "one of two forks", Args: []string{"-fork", "M11,M99"}, Want: []string{`no fork "M99"`}})
}

func TestPlots(t *testing.T) { golden.Pictures(t, command, 22, "-fork", "M11,M07,B04,M09") }

func find(t *testing.T, id string) *bath {
	t.Helper()
	fork, err := data.Reference().Fork(id)
	if err != nil {
		t.Fatal(err)
	}
	b, err := newBath(fork)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A record without what the fill follows from is an error that says so.
func TestNoOilData(t *testing.T) {
	fork := find(t, "M07").fork
	fork.Right.Oil = data.Oil{}
	if _, err := newBath(fork); err == nil || !strings.Contains(err.Error(), "no oil volume") {
		t.Errorf("without the oil of a leg: %v", err)
	}
	fork = find(t, "M11").fork
	fork.Gap = data.Gap{}
	if _, err := newBath(fork); err == nil || !strings.Contains(err.Error(), "no gas over the oil") {
		t.Errorf("without gas: %v", err)
	}
}

// By hand for a closed cartridge: 10 mL more in each leg are +0.7 % at two-thirds of travel and +3.2 % at the end.
func TestTenMilliliters(t *testing.T) {
	b := find(t, "M06")
	p, err1 := b.at(0, b.cold)
	q, err2 := b.at(10*ml, b.cold)
	got := fmt.Sprintf("%.1f %.1f", 100*float64(q.Deep/p.Deep-1), 100*float64(q.Force/p.Force-1))
	if err1 != nil || err2 != nil || got != "0.7 3.2" {
		t.Errorf("%s, by hand 0.7 3.2; %v, %v", got, err1, err2)
	}
}

// A step of the fork is twice that of a leg by package oil.
func TestSensitivity(t *testing.T) {
	for _, id := range []string{"M11", "M21"} {
		b := find(t, id)
		l := b.told()
		leg, err1 := l.fill.Sensitivity(l.gap)
		p, err2 := b.at(0, b.cold)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for more, want := range map[units.Volume]oil.Change{5 * ml: leg.Volume, b.moreAt(l.fill.Level().In(mm) - 5): leg.Level} {
			q, err := b.at(more, b.cold)
			if err != nil {
				t.Fatal(err)
			}
			if got := q.Force - p.Force; math.Abs(float64(got-2*want.Force)) > 1e-6 || math.Abs(q.Ratio-want.To) > 1e-9 {
				t.Errorf("%s, %.1f more: %+.3f to ratio %.3f; by the leg %+v", id, more, got, q.Ratio, want)
			}
		}
	}
}

// The fill told to lock does so and a little less oil does not; the fill of the record is the fork of the record.
func TestForks(t *testing.T) {
	for fork := range data.Reference().Forks() {
		b := find(t, fork.ID)
		for _, air := range []gas.Ambient{b.cold, b.warm} {
			lock := b.moreFor(oil.LockRatio, air)
			for _, step := range []units.Volume{-0.01 * ml, 0.01 * ml} {
				p, err := b.at(lock+step, air)
				if err != nil || p.locked != (step > 0) {
					t.Errorf("%s at %v: %+.2f of the lock, ratio %.1f, locked %v, %v", fork.ID, air, step, p.Ratio, p.locked, err)
				}
			}
		}
		if got := b.x(b.moreAt(37)); math.Abs(got-37) > 1e-9 {
			t.Errorf("%s: 37 %s come back as %g", fork.ID, b.unit(), got)
		}
		s, err1 := fork.Setup(b.cold)
		p, err2 := b.at(0, b.cold)
		if err1 != nil || err2 != nil {
			t.Fatal(fork.ID, err1, err2)
		}
		c := s.Curve(b.told().gap.Exponent)
		// The records are rounded to 0.5 mL of gas.
		if want := c.Force(c.Stroke()); math.Abs(float64(p.Force/want-1)) > 0.01 {
			t.Errorf("%s: %.0f at the end, the record's fork %.0f", fork.ID, p.Force, want)
		}
		if g, err := s.Gap(setup.Left, b.told().gap.Exponent); err == nil && math.Abs(p.Ratio/g.CompressionRatio()-1) > 0.01 {
			t.Errorf("%s: ratio %.2f, the record's fork %.2f", fork.ID, p.Ratio, g.CompressionRatio())
		}
	}
}

// The balance of volumes of a leg that loses its air cartridge.
func TestRefit(t *testing.T) {
	b := find(t, "M07")
	r, err := b.refit()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range r.states[1:] {
		if sum := s.fill.Volume() + s.fill.Residual() + r.metal; math.Abs(float64(sum-b.fork.Kit.Interior.Value)) > 1e-12 {
			t.Errorf("%s: oil, gas and metal are %.3f", s.name, sum)
		}
	}
	if got, want := r.states[3].fill.Volume()-r.was.fill.Volume(), r.was.fill.Metal()-r.metal; math.Abs(float64(got-want)) > 1e-12 {
		t.Errorf("for the same gas %.2f more, out less in is %.2f", got, want)
	}
	if ratio := r.states[4].gap.CompressionRatio(); math.Abs(ratio-5) > 1e-9 || r.states[2].fill.Volume() != r.aim {
		t.Errorf("ratio %g where 5 is told; %v where the kit asks for %v", ratio, r.states[2].fill.Volume(), r.aim)
	}
}
