package ode

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/internal/check"
)

// Derivative fills in dy/dt at t, y.
type Derivative func(t float64, y, dydt []float64)

// Settings say how accurate a step has to be: the error of component i stays, in
// the root mean square over the components, below Absolute[i] + Relative·|y[i]|.
type Settings struct {
	Relative  float64   // 0 to 0.1
	Absolute  []float64 // above 0, one for each component; infinite: the error of this one does not matter
	FirstStep float64   // 0: estimated
	MaxStep   float64   // 0: no limit
	Integrals int       // how many of the last components only add up: no derivative hangs on them
}

// Failures of a step. They come wrapped with the time.
var (
	ErrNotFinite = errors.New("the derivative is not finite")
	ErrStep      = errors.New("the step size fell below the resolution of time: singular, stiff or discontinuous")
	ErrSteps     = errors.New("too many steps: stiff, or tolerances too tight")
)

// maxSteps bounds one call of To or Until.
const maxSteps = 1_000_000

// Stats counts the work done.
type Stats struct {
	Evaluations, Steps, Accepted, Rejected int
}

// Solver holds a solution at a time and the last step that led there.
type Solver struct {
	f        Derivative
	settings Settings

	perAbsolute []float64 // 1 over the absolute tolerances

	t, from float64      // the last step went from from to t
	y       []float64    // at t
	next    []float64    // of the step that is tried; after it, where the last one began
	k       [7][]float64 // derivatives at its stages, the first at t
	h       float64      // to try next
	memory  float64      // logarithm of the error of the last accepted step, for the integral part
	stats   Stats

	start, width float64 // of the continuous extension, which may reach beyond an event
	dense        [5][]float64
	extended     bool // dense is that of the last step

	observe func() // after every step of To and Until

	signs []int     // of the events at the last step
	probe []float64 // a state between steps, without the integrals
}

// New starts at t, y. It is an error if a setting is out of range, or t, y or the
// derivative there is not finite.
func New(f Derivative, t float64, y []float64, s Settings) (*Solver, error) {
	faults := check.Of("Settings")
	check.Between(faults, "Relative", s.Relative, 0, 0.1)
	if len(s.Absolute) != len(y) || len(y) == 0 {
		faults.Report("Absolute", len(s.Absolute), fmt.Sprintf("one for each of %d components", len(y)), "")
	}
	for i, a := range s.Absolute {
		if !(a > 0) {
			faults.Report(fmt.Sprintf("Absolute[%d]", i), a, "above 0", "")
		}
	}
	check.Between(faults, "FirstStep", s.FirstStep, 0, math.MaxFloat64)
	check.Between(faults, "MaxStep", s.MaxStep, 0, math.MaxFloat64)
	check.Between(faults, "Integrals", float64(s.Integrals), 0, max(0, float64(len(y)-1)))
	if err := faults.Err(); err != nil {
		return nil, err
	}
	if s.MaxStep == 0 {
		s.MaxStep = math.Inf(1)
	}
	s.Absolute = slices.Clone(s.Absolute)
	room := make([]float64, 16*len(y))
	cut := func() []float64 {
		v := room[:len(y):len(y)]
		room = room[len(y):]
		return v
	}
	o := &Solver{f: f, settings: s, t: t, from: t, start: t, y: cut(), next: cut(), probe: cut(),
		perAbsolute: cut(), memory: leastMemory, h: s.FirstStep}
	for i, a := range s.Absolute {
		o.perAbsolute[i] = 1 / a
	}
	for i := range o.k {
		o.k[i] = cut()
	}
	for i := range o.dense {
		o.dense[i] = cut()
	}
	o.probe = o.probe[:len(y)-s.Integrals]
	if err := o.Restart(y); err != nil {
		return nil, err
	}
	return o, nil
}

// Restart goes on from another state at the same time, as after an impact.
func (o *Solver) Restart(y []float64) error {
	copy(o.y, y)
	copy(o.dense[0], y)
	for _, d := range o.dense[1:] {
		clear(d)
	}
	o.start, o.width, o.extended = o.t, 0, true
	o.eval(o.t, o.y, o.k[0])
	if math.IsNaN(o.t) || math.IsInf(o.t, 0) || !finite(o.y) || !finite(o.k[0]) {
		return o.fail(ErrNotFinite)
	}
	return nil
}

// Time reached.
func (o *Solver) Time() float64 { return o.t }

// State at Time, which the next step overwrites.
func (o *Solver) State() []float64 { return o.y }

// Last is the interval of the last step, in which At holds.
func (o *Solver) Last() (from, to float64) { return o.from, o.t }

// Stats of the work since New.
func (o *Solver) Stats() Stats { return o.stats }

// Observe calls f after every step that To or Until takes, with the solver at its end.
func (o *Solver) Observe(f func()) { o.observe = f }

func (o *Solver) stepped() {
	if o.observe != nil {
		o.observe()
	}
}

// At fills y with the solution inside the last step, of order 4, but for the integrals. It
// extrapolates outside.
func (o *Solver) At(t float64, y []float64) {
	if !o.extended {
		o.extend()
	}
	a := 0.0
	if o.width != 0 {
		a = (t - o.start) / o.width
	}
	b := 1 - a
	n := len(o.probe)
	y, d0, d1, d2, d3, d4 := y[:n], o.dense[0][:n], o.dense[1][:n], o.dense[2][:n], o.dense[3][:n], o.dense[4][:n]
	for i := range y {
		y[i] = d0[i] + a*(d1[i]+b*(d2[i]+a*(d3[i]+b*d4[i])))
	}
}

// To integrates to limit. A limit in the past does nothing.
func (o *Solver) To(limit float64) error {
	for range maxSteps {
		if !(o.t < limit) {
			return nil
		}
		if err := o.Step(limit); err != nil {
			return err
		}
		o.stepped()
	}
	return o.fail(ErrSteps)
}

// Step takes one accepted step, which ends at limit at the latest. A limit in the
// past does nothing.
func (o *Solver) Step(limit float64) error {
	if !(o.t < limit) {
		return nil
	}
	if o.h == 0 {
		o.h = o.firstStep(limit)
	}
	h, rejected := min(o.h, o.settings.MaxStep), false
	for {
		if !(0.1*h > math.Abs(o.t)*0x1p-52) {
			return o.fail(ErrStep)
		}
		last := o.t+1.01*h >= limit
		if last {
			h = limit - o.t
		}
		err := o.try(h)
		if !(err <= mostError) { // also NaN: a stage left the domain of f
			h, rejected = h*minFactor, true
			o.reject()
			continue
		}
		size := 0.5 * log2(max(err, leastError))
		if err > 1 {
			h, rejected = h/min(1/minFactor, exp2(proportional*size)/safety), true
			o.reject()
			continue
		}
		next := h / max(1/maxFactor, min(1/minFactor, exp2(proportional*size-integral*o.memory)/safety))
		if rejected {
			next = min(next, h)
		}
		o.stats.Accepted++
		o.memory = max(size, leastMemory)
		o.h = next
		o.accept(h)
		if last {
			o.t = limit
		}
		return nil
	}
}

// accept makes the step that was tried the last one.
func (o *Solver) accept(h float64) {
	o.y, o.next = o.next, o.y
	o.k[0], o.k[6] = o.k[6], o.k[0]
	o.start, o.width, o.extended = o.t, h, false
	o.from, o.t = o.t, o.t+h
}

// reject counts a rejected step; those before the first accepted one only search
// the scale of the problem.
func (o *Solver) reject() {
	if o.stats.Accepted > 0 {
		o.stats.Rejected++
	}
}

// firstStep estimates a step from the sizes of y, f and of f after an Euler step.
func (o *Solver) firstStep(limit float64) float64 {
	var y, f float64
	for i := range o.y {
		w := o.settings.Absolute[i] + o.settings.Relative*math.Abs(o.y[i])
		y += square(o.y[i] / w)
		f += square(o.k[0][i] / w)
	}
	h := 1e-6
	if f > 1e-10 && y > 1e-10 {
		h = 0.01 * math.Sqrt(y/f)
	}
	h = min(h, limit-o.t, o.settings.MaxStep)
	for i := range o.y {
		o.next[i] = o.y[i] + h*o.k[0][i]
	}
	k := o.k[1]
	o.eval(o.t+h, o.next, k)
	var second float64
	for i := range k {
		w := o.settings.Absolute[i] + o.settings.Relative*math.Abs(o.y[i])
		second += square((k[i] - o.k[0][i]) / w)
	}
	largest := max(math.Sqrt(second)/h, math.Sqrt(f))
	if !(largest <= math.MaxFloat64) {
		return h
	}
	h1 := max(1e-6, h*1e-3)
	if largest > 1e-15 {
		h1 = math.Pow(0.01/largest, 0.2)
	}
	return min(100*h, h1, limit-o.t, o.settings.MaxStep)
}

func (o *Solver) eval(t float64, y, dydt []float64) {
	o.stats.Evaluations++
	o.f(t, y, dydt)
}

func (o *Solver) fail(err error) error {
	return fmt.Errorf("ode: at t = %g: %w", o.t, err)
}

func finite(y []float64) bool {
	return !slices.ContainsFunc(y, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
}

func square(x float64) float64 { return x * x }
