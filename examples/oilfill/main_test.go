package main

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/oil"
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
		if fork.Right.Role == data.NoLeg {
			continue // refused: the program fills two legs
		}
		text := golden.Text(t, command, "-fork", fork.ID)
		golden.Readable(t, text)
		if refit := strings.Contains(text, "COIL KIT IN"); refit != (fork.Spring() == data.AirLeg) {
			t.Errorf("%s: tells of a kit: %v", fork.ID, refit)
		}
	}
}

func TestBadInput(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "no such fork", Args: []string{"-fork", "none"}, Want: []string{`no fork "none"`}},
		golden.Bad{Name: "one of two forks", Args: []string{"-fork", "M11,none"}, Want: []string{`no fork "none"`}})
}

func TestPlots(t *testing.T) { golden.Pictures(t, command, 22, "-fork", "M11,M07,B04,M09") }

// The balance of volumes of a leg that loses its air cartridge.
func TestRefit(t *testing.T) {
	fork, err := data.Reference().Fork("M07")
	if err != nil {
		t.Fatal(err)
	}
	s, err := newStudy(fork)
	if err != nil {
		t.Fatal(err)
	}
	r, aim := s.Refit, fork.Kit.OilAim.Value
	asked, err1 := r.With(aim)
	same, err2 := r.SameGas()
	good, err3 := r.AtRatio(5)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	for _, at := range []oil.Refitted{asked, same, good} {
		sum := at.Fill.Volume() + at.Fill.Residual() + r.Metal
		if !(math.Abs(float64(sum-fork.Kit.Interior.Value)) <= 1e-12) {
			t.Errorf("oil, gas and metal are %.3f", sum)
		}
	}
	if got, want := same.Fill.Volume()-r.Was.Volume(), r.Was.Metal()-r.Metal; !(math.Abs(float64(got-want)) <= 1e-12) {
		t.Errorf("for the same gas %.2f more, out less in is %.2f", got, want)
	}
	if ratio := good.Cold.CompressionRatio(); !(math.Abs(ratio-5) <= 1e-9) || asked.Fill.Volume() != aim {
		t.Errorf("ratio %g where 5 is told; %v where the kit asks for %v", ratio, asked.Fill.Volume(), aim)
	}
	if s.Now.Fills[0] == s.Now.Fills[1] || !(math.Abs(s.X(s.moreAt(37))-37) <= 1e-9) {
		t.Errorf("%v; 37 come back as %v", s.Fill, s.X(s.moreAt(37)))
	}
}

// A record without what the fill follows from is an error that says so.
func TestNoOilData(t *testing.T) {
	for fork := range data.Reference().Forks() {
		if fork.Right.Role == data.NoLeg {
			continue
		}
		fork.Gap, fork.Right.Oil = data.Gap{}, data.Oil{}
		if _, err := newStudy(fork); err == nil || !strings.Contains(err.Error(), "no gas over the oil") &&
			!strings.Contains(err.Error(), "no oil volume") {
			t.Errorf("%s: %v", fork.ID, err)
		}
	}
}
