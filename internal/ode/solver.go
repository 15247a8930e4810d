package ode

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
)

// Vector is a state of fixed size, passed by value.
type Vector interface {
	[1]float64 | [2]float64 | [3]float64 | [4]float64 | [5]float64 | [6]float64 | [7]float64 | [8]float64
}

// Settings say how accurate a step has to be: the error of component i stays, in
// the root mean square over the components, below Absolute[i] + Relative·|y[i]|.
type Settings[Y Vector] struct {
	Relative  float64 // 0 to 0.1
	Absolute  Y       // above 0
	FirstStep float64 // 0: estimated
	MaxStep   float64 // 0: no limit
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
type Solver[Y Vector] struct {
	f        func(t float64, y Y) Y
	settings Settings[Y]

	t, from float64 // the last step went from from to t
	y, k1   Y       // at t
	h       float64 // to try next
	memory  float64 // error of the last accepted step, for the integral part
	stats   Stats

	start, width float64 // of the continuous extension, which may reach beyond an event
	dense        [5]Y
}

// New starts at t, y. It is an error if a setting is out of range, or t, y or the
// derivative there is not finite.
func New[Y Vector](f func(t float64, y Y) Y, t float64, y Y, s Settings[Y]) (*Solver[Y], error) {
	faults := check.Of("Settings")
	check.Between(faults, "Relative", s.Relative, 0, 0.1)
	for i := range len(y) {
		if !(s.Absolute[i] > 0 && s.Absolute[i] <= math.MaxFloat64) {
			faults.Report(fmt.Sprintf("Absolute[%d]", i), s.Absolute[i], "above 0", "")
		}
	}
	check.Between(faults, "FirstStep", s.FirstStep, 0, math.MaxFloat64)
	check.Between(faults, "MaxStep", s.MaxStep, 0, math.MaxFloat64)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	if s.MaxStep == 0 {
		s.MaxStep = math.Inf(1)
	}
	o := &Solver[Y]{f: f, settings: s, t: t, from: t, start: t, y: y, memory: 1e-4, h: s.FirstStep}
	o.dense[0] = y
	o.k1 = o.eval(t, y)
	if !(finite([1]float64{t}) && finite(y) && finite(o.k1)) {
		return nil, o.fail(ErrNotFinite)
	}
	return o, nil
}

// Time reached.
func (o *Solver[Y]) Time() float64 { return o.t }

// State at Time.
func (o *Solver[Y]) State() Y { return o.y }

// Last is the interval of the last step, in which At holds.
func (o *Solver[Y]) Last() (from, to float64) { return o.from, o.t }

// Stats of the work since New.
func (o *Solver[Y]) Stats() Stats { return o.stats }

// At is the solution inside the last step, of order 4. It extrapolates outside.
func (o *Solver[Y]) At(t float64) Y {
	y := o.dense[0]
	if o.width == 0 {
		return y
	}
	a := (t - o.start) / o.width
	b := 1 - a
	for i := range len(y) {
		y[i] += a * (o.dense[1][i] + b*(o.dense[2][i]+a*(o.dense[3][i]+b*o.dense[4][i])))
	}
	return y
}

// To integrates to limit. A limit in the past does nothing.
func (o *Solver[Y]) To(limit float64) error {
	for range maxSteps {
		if !(o.t < limit) {
			return nil
		}
		if err := o.Step(limit); err != nil {
			return err
		}
	}
	return o.fail(ErrSteps)
}

// Step takes one accepted step, which ends at limit at the latest. A limit in the
// past does nothing.
func (o *Solver[Y]) Step(limit float64) error {
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
		y, k7, err := o.try(h)
		if !(err <= math.MaxFloat64) { // also NaN: a stage left the domain of f
			h, rejected = h*minFactor, true
			o.reject()
			continue
		}
		plain := math.Pow(err, proportional)
		if err > 1 {
			h, rejected = h/min(1/minFactor, plain/safety), true
			o.reject()
			continue
		}
		next := h / max(1/maxFactor, min(1/minFactor, plain/math.Pow(o.memory, integral)/safety))
		if rejected {
			next = min(next, h)
		}
		o.stats.Accepted++
		o.memory = max(err, 1e-4)
		o.from, o.t, o.y, o.k1, o.h = o.t, o.t+h, y, k7, next
		if last {
			o.t = limit
		}
		return nil
	}
}

// Constants of the step control, those of the book's code.
const (
	safety       = 0.9
	minFactor    = 0.2
	maxFactor    = 10
	integral     = 0.04
	proportional = 0.2 - 0.75*integral
)

// reject counts a rejected step; those before the first accepted one only search
// the scale of the problem.
func (o *Solver[Y]) reject() {
	if o.stats.Accepted > 0 {
		o.stats.Rejected++
	}
}

// firstStep estimates a step from the sizes of y, f and of f after an Euler step.
func (o *Solver[Y]) firstStep(limit float64) float64 {
	var y, f float64
	for i := range len(o.y) {
		w := o.settings.Absolute[i] + o.settings.Relative*math.Abs(o.y[i])
		y += square(o.y[i] / w)
		f += square(o.k1[i] / w)
	}
	h := 1e-6
	if f > 1e-10 && y > 1e-10 {
		h = 0.01 * math.Sqrt(y/f)
	}
	h = min(h, limit-o.t, o.settings.MaxStep)
	euler := o.y
	for i := range len(euler) {
		euler[i] += h * o.k1[i]
	}
	k := o.eval(o.t+h, euler)
	var second float64
	for i := range len(k) {
		w := o.settings.Absolute[i] + o.settings.Relative*math.Abs(o.y[i])
		second += square((k[i] - o.k1[i]) / w)
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

func (o *Solver[Y]) eval(t float64, y Y) Y {
	o.stats.Evaluations++
	return o.f(t, y)
}

func (o *Solver[Y]) fail(err error) error {
	return fmt.Errorf("ode: at t = %g: %w", o.t, err)
}

func finite[Y Vector](y Y) bool {
	for i := range len(y) {
		if math.IsNaN(y[i]) || math.IsInf(y[i], 0) {
			return false
		}
	}
	return true
}

func square(x float64) float64 { return x * x }
