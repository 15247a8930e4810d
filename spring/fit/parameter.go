package fit

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Parameter is a number of a model that can be free, of quantity Q.
type Parameter[Q ~float64] struct {
	name   string
	get    func(m *Model) (Q, bool)
	bind   func(m *Model) (set func(v Q))
	slope  slope            // nil: by differences
	linear func(low Q) bool // whether the force is linear in it above that; nil: it is not
}

// slope adds the derivative of the force by a parameter, in SI, at every sample.
type slope func(p *problem, dst []float64)

// NewParameter names any number of a model: get reads it, false where the model has
// none, and set gives it another value. Set may change whatever the model points to,
// which is a copy. Between evaluations of a fit it is set again and again.
func NewParameter[Q ~float64](name string, get func(m *Model) (Q, bool), set func(m *Model, v Q)) Parameter[Q] {
	return Parameter[Q]{name: name, get: get, bind: func(m *Model) func(Q) { return func(v Q) { set(m, v) } }}
}

// String is the name of the parameter, as "gap volume".
func (p Parameter[Q]) String() string { return p.name }

// Of is the value in a model, false where the model has none.
func (p Parameter[Q]) Of(m Model) (Q, bool) { return p.get(&m) }

// With is the model with the parameter at another value.
func (p Parameter[Q]) With(m Model, v Q) Model {
	m = m.clone()
	p.bind(&m)(v)
	return m
}

// Estimate is the value in a result and its standard error, 0 for one that was not free
// or was held by a bound.
func (p Parameter[Q]) Estimate(r *Result) (value, stdErr Q) {
	value, _ = p.get(&r.Model)
	return value, Q(r.covariance.stdErr(p.name))
}

// Between makes the parameter free between two bounds.
func (p Parameter[Q]) Between(low, high Q) Free {
	f := Free{name: p.name, low: float64(low), high: float64(high), slope: p.slope,
		linear: p.linear != nil && p.linear(low),
		get:    func(m *Model) (float64, bool) { v, ok := p.get(m); return float64(v), ok },
		bind:   func(m *Model) func(float64) { set := p.bind(m); return func(v float64) { set(Q(v)) } }}
	if !(low < high) {
		f.err = &units.RangeError{Field: "bounds of " + p.name, Value: fmt.Sprintf("%.6g to %.6g", low, high),
			Want: "a lower bound below the upper one"}
	}
	return f
}

// Exponent is that of the sweep, one for all gas.
func Exponent() Parameter[float64] {
	return NewParameter("exponent", func(m *Model) (float64, bool) {
		gas := func(l setup.Leg) bool { return l.Gap != nil || l.Air != nil || l.Damper != nil }
		return m.Exponent, gas(m.Fork.Left) || gas(m.Fork.Right)
	}, func(m *Model, v float64) { m.Exponent = v })
}

// Friction is that of all that was measured, on either side of the curve.
func Friction() Parameter[units.Force] {
	p := NewParameter("friction", func(m *Model) (units.Force, bool) { return m.Fork.Friction, true },
		func(m *Model, v units.Force) { m.Fork.Friction = v })
	p.slope = func(p *problem, dst []float64) {
		for i, s := range p.samples {
			dst[i] = s.way
		}
	}
	p.linear = func(units.Force) bool { return true }
	return p
}

// Free is a parameter between bounds.
type Free struct {
	name      string
	get       func(m *Model) (float64, bool)
	bind      func(m *Model) (set func(v float64))
	slope     slope
	linear    bool    // whether the force is linear in it, as long as others stay
	low, high float64 // SI
	err       error
}

// String is the name of the parameter.
func (f Free) String() string { return f.name }

// checkFree reports bounds out of order, parameters freed twice, and those of what
// the fork does not have.
func checkFree(f *check.Faults, m *Model, free []Free) {
	seen := map[string]bool{}
	if len(free) == 0 {
		f.Report("Free", "nothing", "1 free parameter or more", "")
	}
	for _, p := range free {
		if p.get == nil {
			f.Report("Free", "a zero one", "what Between of a parameter makes", "")
			continue
		}
		f.Add(p.err)
		if seen[p.name] {
			f.Report("Free", p.name, "each parameter once", "")
		}
		seen[p.name] = true
		if _, has := p.get(m); !has {
			f.Report("Free", p.name, "a parameter of what the fork has", "")
		}
	}
}
