package fit

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Parameter is a number of a model that can be free, of quantity Q.
type Parameter[Q ~float64] struct {
	name   string
	get    func(m *Model) (Q, bool)
	set    func(m *Model, v Q)
	slope  slope            // nil: by differences
	linear func(low Q) bool // whether the force is linear in it from there on; nil: nowhere
}

// slope adds the derivative of the force by a parameter, in SI, at every sample.
type slope func(m *Model, samples []sample, dst []float64)

// NewParameter names any number of a model: get reads it, false where the model has
// none, and set gives it another value. Set may change whatever the model points to,
// which is a copy. Between evaluations of a fit it is set again and again.
func NewParameter[Q ~float64](name string, get func(m *Model) (Q, bool), set func(m *Model, v Q)) Parameter[Q] {
	return Parameter[Q]{name: name, get: get, set: set}
}

// String is the name of the parameter, as "gap volume".
func (p Parameter[Q]) String() string { return p.name }

// Of is the value in a model, false where the model has none.
func (p Parameter[Q]) Of(m Model) (Q, bool) { return p.get(&m) }

// With is the model with the parameter at another value.
func (p Parameter[Q]) With(m Model, v Q) Model {
	m = m.clone()
	p.set(&m, v)
	return m
}

// StdErr is the standard error of the parameter in a result; 0 stands for one that
// was not free, or was held by a bound.
func (p Parameter[Q]) StdErr(r *Result) Q { return Q(r.covariance.stdErr(p.name)) }

// Between makes the parameter free between two bounds.
func (p Parameter[Q]) Between(low, high Q) Free {
	f := Free{name: p.name, low: float64(low), high: float64(high), slope: p.slope, linear: p.linear != nil && p.linear(low),
		get: func(m *Model) (float64, bool) { v, ok := p.get(m); return float64(v), ok },
		set: func(m *Model, v float64) { p.set(m, Q(v)) }}
	if !(low < high) {
		f.err = &units.RangeError{Field: "bounds of " + p.name, Value: fmt.Sprintf("%.6g to %.6g", low, high),
			Want: "a lower bound below the upper one"}
	}
	return f
}

// Free is a parameter between bounds.
type Free struct {
	name      string
	get       func(m *Model) (float64, bool)
	set       func(m *Model, v float64)
	slope     slope
	linear    bool    // whether the force is linear in it, as long as others stay
	low, high float64 // SI
	err       error
}

// String is the name of the parameter.
func (f Free) String() string { return f.name }

// Rate is that of the first linear coil in each of the legs named, or in every leg
// that has one, alike.
func Rate(legs ...setup.Side) Parameter[units.Stiffness] {
	return ofCoil("rate", legs, func(c *spring.CoilSpec) *units.Stiffness { return &c.Rate },
		func(_ *spring.CoilSpec, s float64) float64 { return s },
		func(units.Stiffness) bool { return true })
}

// Preload is that of the same coils as of [Rate].
func Preload(legs ...setup.Side) Parameter[units.Length] {
	return ofCoil("preload", legs, func(c *spring.CoilSpec) *units.Length { return &c.Preload },
		func(c *spring.CoilSpec, _ float64) float64 { return float64(c.Rate) },
		func(low units.Length) bool { return low >= 0 }) // else it may be loose
}

// GapVolume is that of the gas over the oil in each leg at full extension.
func GapVolume(legs ...setup.Side) Parameter[units.Volume] {
	has := func(l *setup.Leg) bool { return l.Gap != nil }
	swept := func(m *Model, l *setup.Leg) units.Volume {
		return units.Volume(float64(l.Gap.Area) * float64(m.Fork.Travel))
	}
	get := func(m *Model, l *setup.Leg) units.Volume { return l.Gap.Residual + swept(m, l) }
	p := ofLegs("gap volume", legs, has, get,
		func(m *Model, l *setup.Leg, v units.Volume) { l.Gap.Residual = v - swept(m, l) })
	p.slope = func(m *Model, samples []sample, dst []float64) {
		for _, l := range chosen(m, legs, has) {
			here := m.Fork.Closed.Pressure
			gap, _ := oil.NewAirGap(oil.AirGapSpec{Area: l.Gap.Area, Residual: l.Gap.Residual, Travel: m.Fork.Travel,
				Pressure: l.Gap.Gauge.Absolute(here), Ambient: here, Exponent: m.Exponent})
			v := float64(get(m, l))
			for i, s := range samples { // the force hangs on x/V alone, so that V·∂F/∂V = −x·∂F/∂x
				dst[i] -= s.x / v * float64(gap.Rate(units.Length(s.x)))
			}
		}
	}
	return p
}

// ChamberVolume is that of the gas in the positive chamber of each air spring at full
// extension, reducers taken off.
func ChamberVolume(legs ...setup.Side) Parameter[units.Volume] {
	return ofLegs("chamber volume", legs, hasAir,
		func(_ *Model, l *setup.Leg) units.Volume { return l.Air.Volume - l.Air.Reducers },
		func(_ *Model, l *setup.Leg, v units.Volume) { l.Air.Volume = v + l.Air.Reducers })
}

// NegativeVolume is that of the negative chamber of each air spring at full extension.
func NegativeVolume(legs ...setup.Side) Parameter[units.Volume] {
	return ofLegs("negative volume", legs, func(l *setup.Leg) bool { return hasAir(l) && l.Air.NegativeVolume != 0 },
		func(_ *Model, l *setup.Leg) units.Volume { return l.Air.NegativeVolume },
		func(_ *Model, l *setup.Leg, v units.Volume) { l.Air.NegativeVolume = v })
}

// Gauge is the reading of each air spring, other chambers with a valve left as they
// are.
func Gauge(legs ...setup.Side) Parameter[units.Pressure] {
	return ofLegs("gauge", legs, hasAir,
		func(_ *Model, l *setup.Leg) units.Pressure { return units.Pressure(l.Air.Fill.Gauge.In(units.Pascal)) },
		func(_ *Model, l *setup.Leg, v units.Pressure) { l.Air.Fill.Gauge = units.Gauge(v) })
}

// Exponent is that of the sweep, one for all gas.
func Exponent() Parameter[float64] {
	return NewParameter("exponent", func(m *Model) (float64, bool) {
		l, r := m.Fork.Left, m.Fork.Right
		return m.Exponent, l.Gap != nil || r.Gap != nil || l.Air != nil || r.Air != nil || l.Damper != nil || r.Damper != nil
	}, func(m *Model, v float64) { m.Exponent = v })
}

// Friction is that of all that was measured, on either side of the curve.
func Friction() Parameter[units.Force] {
	p := NewParameter("friction", func(m *Model) (units.Force, bool) { return m.Fork.Friction, true },
		func(m *Model, v units.Force) { m.Fork.Friction = v })
	p.slope = func(_ *Model, samples []sample, dst []float64) {
		for i, s := range samples {
			dst[i] += s.way
		}
	}
	p.linear = func(units.Force) bool { return true }
	return p
}

func hasAir(l *setup.Leg) bool { return l.Air != nil }

// chosen are the named legs, both if none is, that have something; one named that has
// it not leaves none.
func chosen(m *Model, sides []setup.Side, has func(*setup.Leg) bool) []*setup.Leg {
	var legs []*setup.Leg
	for side, l := range []*setup.Leg{&m.Fork.Left, &m.Fork.Right} {
		named := false
		for _, s := range sides {
			named = named || int(s) == side
		}
		switch {
		case (named || len(sides) == 0) && has(l):
			legs = append(legs, l)
		case named:
			return nil
		}
	}
	return legs
}

// ofLegs is a parameter with one value for all chosen legs.
func ofLegs[Q ~float64](name string, sides []setup.Side, has func(*setup.Leg) bool,
	get func(*Model, *setup.Leg) Q, set func(*Model, *setup.Leg, Q)) Parameter[Q] {
	for i, s := range sides {
		name += []string{" ", " and "}[min(i, 1)] + s.String()
	}
	return NewParameter(name, func(m *Model) (Q, bool) {
		legs := chosen(m, sides, has)
		if legs == nil {
			return 0, false
		}
		return get(m, legs[0]), true
	}, func(m *Model, v Q) {
		for _, l := range chosen(m, sides, has) {
			set(m, l, v)
		}
	})
}

// ofCoil is a parameter of the first coil in each leg, whose force changes with it
// by that where the coil is compressed by s.
func ofCoil[Q ~float64](name string, sides []setup.Side, at func(*spring.CoilSpec) *Q,
	by func(c *spring.CoilSpec, s float64) float64, linear func(low Q) bool) Parameter[Q] {
	has := func(l *setup.Leg) bool { _, ok := setup.Find[spring.CoilSpec](*l); return ok }
	p := ofLegs(name, sides, has, func(_ *Model, l *setup.Leg) Q {
		c, _ := setup.Find[spring.CoilSpec](*l)
		return *at(&c)
	}, func(_ *Model, l *setup.Leg, v Q) {
		for i, s := range l.Springs {
			if c, ok := s.(spring.CoilSpec); ok {
				*at(&c) = v
				l.Springs[i] = c
				return
			}
		}
	})
	p.slope = func(m *Model, samples []sample, dst []float64) {
		for _, l := range chosen(m, sides, has) {
			const touch = 1e-9 // m; a coil at its free length is about to be compressed, rounding or not
			c, _ := setup.Find[spring.CoilSpec](*l)
			for i, s := range samples {
				if s := s.x + float64(c.Preload); s > -touch {
					dst[i] += by(&c, s)
				}
			}
		}
	}
	p.linear = linear
	return p
}

// checkFree reports bounds out of order, parameters freed twice, and those of what
// the fork does not have.
func checkFree(f *check.Faults, m *Model, free []Free) {
	seen := map[string]bool{}
	if len(free) == 0 {
		f.Report("Free", "nothing", "1 free parameter or more", "")
	}
	for _, p := range free {
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
