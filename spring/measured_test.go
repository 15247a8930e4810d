package spring_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// bench is a curve as a test bench with constant friction reads it.
func bench(c spring.Curve, friction units.Force, n int) spring.MeasuredSpec {
	var s spring.MeasuredSpec
	for _, p := range spring.Sample(c, n) {
		s.Loading = append(s.Loading, spring.Reading{Travel: p.Travel, Force: p.Force + friction})
		s.Unloading = append(s.Unloading, spring.Reading{Travel: p.Travel, Force: p.Force - friction})
	}
	return s
}

func TestMeasuredSplitsFriction(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	m := must[spring.Measured](t)(spring.NewMeasured(bench(c, 25, 12)))
	same(t, m, c) // straight readings give the straight line
	for _, p := range spring.Sample(m, 50) {
		within(t, "friction", float64(m.Friction(p.Travel)), 25, 1e-9)
	}
	// The loop is a parallelogram of height 2·25 N.
	within(t, "loss", float64(m.Loss()), 2*25*0.305, 1e-9)
	if f := m.Friction(306 * mm); !math.IsNaN(float64(f)) {
		t.Errorf("friction beyond the stroke %v, want NaN", f)
	}

	one := bench(c, 25, 12)
	one.Unloading = nil
	m = must[spring.Measured](t)(spring.NewMeasured(one))
	within(t, "compressing only, force", float64(m.Force(100*mm)), float64(c.Force(100*mm))+25, 1e-9)
	within(t, "compressing only, friction", float64(m.Friction(100*mm)), 0, 0)
}

func TestMeasuredHitsReadingsAndKeepsOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 19))
	for range 100 {
		s := spring.MeasuredSpec{Loading: []spring.Reading{{0, units.Force(100 * r.Float64())}}}
		for range 1 + r.IntN(40) {
			last := s.Loading[len(s.Loading)-1]
			s.Loading = append(s.Loading, spring.Reading{
				Travel: last.Travel + units.Length(0.1+5*r.Float64())*mm,
				Force:  last.Force + units.Force(0.01+200*math.Pow(r.Float64(), 4))})
		}
		m := must[spring.Measured](t)(spring.NewMeasured(s))
		for _, q := range s.Loading {
			within(t, "force at a reading", float64(m.Force(q.Travel)), float64(q.Force), 1e-9*(1+float64(q.Force)))
		}
		curvetest.Rising(t, m)
	}
}

// The interpolation is of third order for a smooth curve.
func TestMeasuredConverges(t *testing.T) {
	a := must[spring.Air](t)(spring.NewAir(air))
	largest := func(n int) float64 {
		return math.Abs(float64(spring.Compare(a, must[spring.Measured](t)(spring.NewMeasured(bench(a, 0, n))),
			997).Largest.Force))
	}
	if coarse, fine := largest(20), largest(39); !(fine < coarse/3) {
		t.Errorf("error %v N with 20 readings, %v N with 39", coarse, fine)
	}
}

func TestBranches(t *testing.T) {
	at := func(travels ...float64) []spring.Reading {
		var record []spring.Reading
		for _, x := range travels {
			record = append(record, spring.Reading{Travel: units.Length(x) * mm, Force: units.Force(x)})
		}
		return record
	}
	s, err := spring.Branches(at(0, 10, 30, 20, 5, 0))
	if err != nil || !slices.Equal(s.Loading, at(0, 10, 30)) || !slices.Equal(s.Unloading, at(0, 5, 20, 30)) {
		t.Errorf("Branches of a loop = %+v, %v", s, err)
	}
	s, err = spring.Branches(at(0, 10, 30))
	if err != nil || len(s.Loading) != 3 || s.Unloading != nil {
		t.Errorf("Branches of one stroke = %+v, %v", s, err)
	}
	for _, c := range []struct {
		name   string
		record []spring.Reading
		index  int // −1: the record as a whole
		want   string
	}{
		{"nothing", nil, -1, "0 readings: want 2 readings or more"},
		{"one point", at(0), -1, "1 readings"},
		{"repeats", at(0, 10, 10, 20), 2, "record[2].Travel = 10 mm: want another travel"},
		{"unsorted", at(0, 10, 5, 20), 3, "record[3].Travel = 20 mm: want below the reading before it, 5 mm"},
		{"starts the wrong way", at(30, 10, 0), 1, "record[1].Travel = 10 mm: want above the reading before it, 30 mm"},
		{"NaN", at(0, math.NaN(), 20), 1, "record[1].Travel = NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := spring.Branches(c.record)
			if err == nil || !strings.Contains(err.Error(), c.want) || !errors.As(err, new(*units.RangeError)) {
				t.Fatalf("error %v, want a *units.RangeError with %q", err, c.want)
			}
			var reading *spring.ReadingError
			if errors.As(err, &reading) != (c.index >= 0) || reading != nil && reading.Index != c.index {
				t.Errorf("error names reading %+v, want %d", reading, c.index)
			}
		})
	}
}
