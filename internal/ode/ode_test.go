package ode_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/internal/ode"
)

func oscillator(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }

func TestEvents(t *testing.T) {
	s := start(t, oscillator, []float64{1, 0}, 1e-10, 1e-10)
	height := func(_ float64, y []float64) float64 { return y[0] }
	for i := range 7 { // cos t = 0 at odd multiples of π/2
		found, err := s.Until(100, height)
		if err != nil || found != 0 {
			t.Fatal(found, err)
		}
		near(t, "time", s.Time(), math.Pi*(float64(i)+0.5), 1e-8)
		near(t, "height", s.State()[0], 0, 1e-9) // the extension that locates it has order 4
		if rising := s.State()[1] > 0; rising && s.State()[0] < 0 || !rising && s.State()[0] > 0 {
			t.Errorf("event %d left at %v, before the change of sign", i, s.State())
		}
		if _, to := s.Last(); to != s.Time() {
			t.Errorf("last step ends at %v, not at the event %v", to, s.Time())
		}
	}
	at := s.Time()
	if found, err := s.Until(at+1, height); found >= 0 || err != nil || s.Time() != at+1 {
		t.Errorf("%v, %v at %v, want no event up to %v", found, err, s.Time(), at+1)
	}
}

// Of several events in one step the first counts.
func TestFirstOfSeveralEvents(t *testing.T) {
	s := start(t, oscillator, []float64{1, 0}, 1e-10, 1e-10)
	height := func(_ float64, y []float64) float64 { return y[0] }
	// just after the start, and just before the turn
	turn := func(_ float64, y []float64) float64 { return y[1] + 1e-3 }
	clock := func(t float64, _ []float64) float64 { return t - 1.5707 }
	for _, want := range []struct {
		event int
		t     float64
	}{{1, math.Asin(1e-3)}, {2, 1.5707}, {0, math.Pi / 2}, {1, math.Pi - math.Asin(1e-3)}} {
		found, err := s.Until(100, height, turn, clock)
		if err != nil || found != want.event {
			t.Fatalf("event %d, %v; want %d", found, err, want.event)
		}
		near(t, "time", s.Time(), want.t, 1e-8)
	}
	if err := s.Restart([]float64{0, 2}); err != nil || s.State()[1] != 2 {
		t.Errorf("restarted at %v, %v", s.State(), err)
	}
	at := s.Time()
	if err := s.To(at + 1); err != nil {
		t.Fatal(err)
	}
	near(t, "after the restart", s.State()[0], 2*math.Sin(1), 1e-8)
}

// A ball thrown up loses a tenth of its speed at each bounce; the bounces are events.
func TestBouncingBall(t *testing.T) {
	const g, keep = 9.81, 0.9
	fall := func(_ float64, y, d []float64) { d[0], d[1] = y[1], -g }
	settings := ode.Settings{Relative: 1e-9, Absolute: []float64{1e-9, 1e-9}, MaxStep: 0.1}
	at, speed, want := 0.0, 5.0, 0.0
	for range 10 {
		want += 2 * speed / g
		s, err := ode.New(fall, at, []float64{0, speed}, settings)
		if err != nil {
			t.Fatal(err)
		}
		found, err := s.Until(60, func(_ float64, y []float64) float64 { return y[0] })
		if err != nil || found != 0 {
			t.Fatal(found, err)
		}
		at = s.Time()
		near(t, "time of impact", at, want, 1e-12)
		near(t, "speed of impact", s.State()[1], -speed, 1e-11)
		speed *= keep
	}
}

// An integral that only adds up is the same whether it is said to be one or not, to the
// last bit, also where an event cuts a step: ∫sin² from 0 to the first rest at π/2 is π/4.
func TestIntegrals(t *testing.T) {
	f := func(_ float64, y, d []float64) { d[0], d[1], d[2] = y[1], -y[0], y[0]*y[0] }
	var ends [2][3]float64
	for integrals := range ends {
		s, err := ode.New(f, 0, []float64{0, 1, 0}, ode.Settings{Absolute: []float64{1e-9, 1e-9, 1e-9}, Integrals: integrals})
		if err != nil {
			t.Fatal(err)
		}
		if found, err := s.Until(3, func(_ float64, y []float64) float64 { return y[1] }); found != 0 || err != nil {
			t.Fatal(found, err)
		}
		near(t, "integral", s.State()[2], math.Pi/4, 1e-9)
		if err := s.To(3); err != nil {
			t.Fatal(err)
		}
		copy(ends[integrals][:], s.State())
	}
	if ends[0] != ends[1] {
		t.Errorf("%v, said to be an integral %v", ends[0], ends[1])
	}
}

func TestEventThatIsNone(t *testing.T) {
	s := start(t, oscillator, []float64{0, 1}, 1e-8, 1e-8)
	nan := func(float64, []float64) float64 { return math.NaN() }
	if found, err := s.Until(1, nan); found >= 0 || err != nil {
		t.Errorf("NaN is an event: %v, %v", found, err)
	}
	zero := func(float64, []float64) float64 { return 0 }
	if found, err := s.Until(2, zero); found >= 0 || err != nil {
		t.Errorf("0 throughout is an event: %v, %v", found, err)
	}
}

func TestLimits(t *testing.T) {
	s := start(t, oscillator, []float64{1, 0}, 1e-8, 1e-8)
	if y := at(s, 0); !slices.Equal(y, []float64{1, 0}) {
		t.Errorf("before the first step At = %v", y)
	}
	for _, limit := range []float64{-1, 0, math.NaN()} {
		if err := s.To(limit); err != nil || s.Time() != 0 {
			t.Errorf("To(%v) went to %v, %v", limit, s.Time(), err)
		}
	}
	if err := s.To(3); err != nil || s.Time() != 3 {
		t.Fatalf("To(3) went to %v, %v", s.Time(), err)
	}
	from, to := s.Last()
	if !(math.Abs(at(s, to)[0]-s.State()[0]) <= 1e-15) {
		t.Errorf("At the end of the step %v, want %v", at(s, to), s.State())
	}
	near(t, "At inside", at(s, (from+to)/2)[0], math.Cos((from+to)/2), 1e-7)
}

func TestErrors(t *testing.T) {
	one := []float64{1}
	settings := ode.Settings{Relative: 1e-6, Absolute: []float64{1e-9}}
	growth := func(_ float64, y, d []float64) { d[0] = y[0] }
	for _, c := range []struct {
		name   string
		f      ode.Derivative
		t      float64
		y      []float64
		change func(*ode.Settings)
	}{
		{"relative tolerance NaN", growth, 0, one, func(s *ode.Settings) { s.Relative = math.NaN() }},
		{"relative tolerance of 1", growth, 0, one, func(s *ode.Settings) { s.Relative = 1 }},
		{"no absolute tolerance", growth, 0, one, func(s *ode.Settings) { s.Absolute[0] = 0 }},
		{"negative first step", growth, 0, one, func(s *ode.Settings) { s.FirstStep = -1 }},
		{"nothing but integrals", growth, 0, one, func(s *ode.Settings) { s.Integrals = 1 }},
		{"infinite longest step", growth, 0, one, func(s *ode.Settings) { s.MaxStep = math.Inf(1) }},
		{"NaN state", growth, 0, []float64{math.NaN()}, func(*ode.Settings) {}},
		{"infinite time", growth, math.Inf(1), one, func(*ode.Settings) {}},
		{"NaN derivative", func(_ float64, _, d []float64) { d[0] = math.NaN() }, 0, one, func(*ode.Settings) {}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := settings
			s.Absolute = slices.Clone(s.Absolute)
			c.change(&s)
			if o, err := ode.New(c.f, c.t, c.y, s); err == nil || o != nil {
				t.Errorf("New = %v, %v, want an error", o, err)
			}
		})
	}
	blowUp := func(_ float64, y, d []float64) { d[0] = y[0] * y[0] } // 1/(1−t)
	if err := start(t, blowUp, one, 1e-6, 1e-9).To(2); !errors.Is(err, ode.ErrStep) {
		t.Errorf("a pole gives %v", err)
	}
	root := func(_ float64, y, d []float64) { d[0] = -math.Sqrt(y[0]) - 1 } // leaves its domain at once
	if err := start(t, root, one, 1e-6, 1e-9).To(2); !errors.Is(err, ode.ErrStep) {
		t.Errorf("a domain left for good gives %v", err)
	}
	stiff := func(t float64, y, d []float64) { d[0] = -1e9 * (y[0] - math.Cos(t)) }
	if err := start(t, stiff, one, 1e-6, 1e-9).To(10); !errors.Is(err, ode.ErrSteps) {
		t.Errorf("a stiff problem gives %v", err)
	}
}

func TestAllocatesNothing(t *testing.T) {
	s := start(t, oscillator, []float64{1, 0}, 1e-9, 1e-9)
	height := func(_ float64, y []float64) float64 { return y[0] }
	end := 0.0
	if n := testing.AllocsPerRun(20, func() {
		end += 5
		if _, err := s.Until(end, height); err != nil {
			t.Fatal(err)
		}
		if err := s.To(end); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func FuzzSolver(f *testing.F) {
	f.Add(1.0, 0.0, -1.0, 0.0, 10.0, 1e-6, 1e-9)
	f.Add(1e200, 0.0, 1e9, 3.0, 1.0, 0.1, 1e-300)
	f.Add(math.NaN(), math.Inf(1), 0.0, 0.0, math.Inf(-1), -1.0, 0.0)
	f.Fuzz(func(t *testing.T, y0, t0, a, b, span, relative, absolute float64) {
		f := func(t float64, y, d []float64) { d[0] = a*y[0] + b*math.Sin(t)*math.Sqrt(y[0]) }
		s, err := ode.New(f, t0, []float64{y0}, ode.Settings{Relative: relative, Absolute: []float64{absolute}})
		if err != nil {
			_ = err.Error()
			return
		}
		for range 200 {
			before := s.Time()
			if err := s.Step(t0 + span); err != nil {
				break
			}
			if s.Time() < before {
				t.Fatalf("time runs back from %v to %v", before, s.Time())
			}
			if y := s.State()[0]; math.IsNaN(y) || math.IsInf(y, 0) {
				t.Fatalf("state %v with a nil error", y)
			}
		}
	})
}

func BenchmarkArenstorf(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if err := start(b, arenstorf, arenstorfStart, 1e-7, 1e-7).To(arenstorfPeriod); err != nil {
			b.Fatal(err)
		}
	}
}
