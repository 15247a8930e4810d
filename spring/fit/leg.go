package fit

import (
	"slices"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Rate is that of the first linear coil in each of the legs named, or in every leg
// that has one, added up: the legs share it as in the model.
func Rate(legs ...setup.Side) Parameter[units.Stiffness] {
	q := ofCoil(func(c *spring.CoilSpec) *units.Stiffness { return &c.Rate },
		func(_ *spring.CoilSpec, s float64) float64 { return s })
	q.shared = true
	p := q.in("rate", legs)
	p.linear = func(units.Stiffness) bool { return true }
	return p
}

// Preload is that of the same coils as of [Rate]; between legs it differs as in the
// model.
func Preload(legs ...setup.Side) Parameter[units.Length] {
	p := ofCoil(func(c *spring.CoilSpec) *units.Length { return &c.Preload },
		func(c *spring.CoilSpec, _ float64) float64 { return float64(c.Rate) }).in("preload", legs)
	p.linear = func(low units.Length) bool { return low >= 0 } // else the coil may be loose
	return p
}

// GapVolume is that of the gas over the oil at full extension in the legs named, or in
// every leg, added up: the legs share it as in the model.
func GapVolume(legs ...setup.Side) Parameter[units.Volume] {
	return quantity[units.Volume]{
		has:    func(l *setup.Leg) bool { return l.Gap != nil },
		get:    func(m *Model, l *setup.Leg) units.Volume { return l.Gap.Residual + swept(*m, l.Gap.Area) },
		set:    func(m *Model, l *setup.Leg, v units.Volume) { l.Gap.Residual = v - swept(*m, l.Gap.Area) },
		shared: true,
		slope: func(p *problem, l *setup.Leg, share float64, dst []float64) {
			m := &p.model
			here, v := m.Fork.Closed.Pressure, l.Gap.Residual+swept(*m, l.Gap.Area)
			gap, _ := oil.NewAirGap(oil.AirGapSpec{Area: l.Gap.Area, Residual: l.Gap.Residual, Travel: m.Fork.Travel,
				Pressure: l.Gap.Gauge.Absolute(here), Ambient: here, Exponent: m.Exponent})
			// The force hangs on x/V alone, so that V·∂F/∂V = −x·∂F/∂x.
			p.rates = spring.AppendRates(p.rates[:0], gap, p.travels)
			for i, k := range p.rates {
				dst[i] -= share / float64(v) * p.samples[i].x * float64(k)
			}
		},
	}.in("gap volume", legs)
}

// ChamberVolume is that of the gas in the positive chambers at full extension,
// reducers taken off, added up over the legs named or all.
func ChamberVolume(legs ...setup.Side) Parameter[units.Volume] {
	return quantity[units.Volume]{
		has:    hasAir,
		get:    func(_ *Model, l *setup.Leg) units.Volume { return l.Air.Volume - l.Air.Reducers },
		set:    func(_ *Model, l *setup.Leg, v units.Volume) { l.Air.Volume = v + l.Air.Reducers },
		shared: true,
	}.in("chamber volume", legs)
}

// NegativeVolume is that of the negative chambers at full extension, added up over the
// legs named or all.
func NegativeVolume(legs ...setup.Side) Parameter[units.Volume] {
	return quantity[units.Volume]{
		has:    func(l *setup.Leg) bool { return hasAir(l) && l.Air.NegativeVolume != 0 },
		get:    func(_ *Model, l *setup.Leg) units.Volume { return l.Air.NegativeVolume },
		set:    func(_ *Model, l *setup.Leg, v units.Volume) { l.Air.NegativeVolume = v },
		shared: true,
	}.in("negative volume", legs)
}

// Gauge is the reading of the air springs, other chambers with a valve left as they
// are; between legs it differs as in the model.
func Gauge(legs ...setup.Side) Parameter[units.Pressure] {
	return quantity[units.Pressure]{
		has: hasAir,
		get: func(_ *Model, l *setup.Leg) units.Pressure {
			return units.Pressure(l.Air.Fill.Gauge.In(units.Pascal))
		},
		set: func(_ *Model, l *setup.Leg, v units.Pressure) { l.Air.Fill.Gauge = units.Gauge(v) },
	}.in("gauge", legs)
}

// swept is the volume that a piston of that area sweeps over the travel.
func swept(m Model, area units.Area) units.Volume {
	return units.Volume(float64(area) * float64(m.Fork.Travel))
}

func hasAir(l *setup.Leg) bool { return l.Air != nil }

// quantity is something that a leg may have.
type quantity[Q ~float64] struct {
	has    func(l *setup.Leg) bool
	get    func(m *Model, l *setup.Leg) Q
	set    func(m *Model, l *setup.Leg, v Q)
	shared bool                                                         // what legs have adds up
	slope  func(p *problem, l *setup.Leg, share float64, dst []float64) // adds to dst; nil: not known
}

// legs are the named ones, or both, that have it; one named that has it not leaves
// none.
func (q quantity[Q]) legs(m *Model, sides []setup.Side) []*setup.Leg {
	list := make([]*setup.Leg, 0, 2)
	for side, l := range []*setup.Leg{&m.Fork.Left, &m.Fork.Right} {
		named := slices.Contains(sides, setup.Side(side))
		switch {
		case (named || len(sides) == 0) && q.has(l):
			list = append(list, l)
		case named:
			return nil
		}
	}
	return list
}

// parts are what each of the legs has, and what a parameter of them all is.
func (q quantity[Q]) parts(m *Model, legs []*setup.Leg) (each []Q, all Q) {
	for i, l := range legs {
		each = append(each, q.get(m, l))
		if q.shared || i == 0 {
			all += each[i]
		}
	}
	return each, all
}

// in is the parameter of those legs.
func (q quantity[Q]) in(name string, sides []setup.Side) Parameter[Q] {
	for i, s := range sides {
		name += []string{" ", " and "}[min(i, 1)] + s.String()
	}
	p := Parameter[Q]{name: name, get: func(m *Model) (Q, bool) {
		legs := q.legs(m, sides)
		_, all := q.parts(m, legs)
		return all, len(legs) > 0
	}, bind: func(m *Model) func(Q) {
		legs := q.legs(m, sides)
		each, all := q.parts(m, legs)
		return func(v Q) {
			for i, l := range legs {
				switch {
				case q.shared && all > 0:
					q.set(m, l, each[i]/all*v)
				case q.shared:
					q.set(m, l, v/Q(len(legs)))
				default:
					q.set(m, l, each[i]-all+v)
				}
			}
		}
	}}
	if q.slope == nil {
		return p
	}
	p.slope = func(p *problem, dst []float64) {
		legs := q.legs(&p.model, sides)
		each, all := q.parts(&p.model, legs)
		for i, l := range legs {
			share := 1.0
			if q.shared {
				share = float64(each[i] / all)
			}
			q.slope(p, l, share, dst)
		}
	}
	return p
}

// ofCoil is a number of the first coil in a leg, with which its force changes by that
// where it is compressed by s.
func ofCoil[Q ~float64](number func(*spring.CoilSpec) *Q, by func(c *spring.CoilSpec, s float64) float64) quantity[Q] {
	coil := func(l *setup.Leg) spring.CoilSpec { c, _ := setup.Find[spring.CoilSpec](*l); return c }
	return quantity[Q]{
		has: func(l *setup.Leg) bool { _, ok := setup.Find[spring.CoilSpec](*l); return ok },
		get: func(_ *Model, l *setup.Leg) Q { c := coil(l); return *number(&c) },
		set: func(_ *Model, l *setup.Leg, v Q) {
			c := coil(l)
			*number(&c) = v
			l.Springs[slices.IndexFunc(l.Springs, isCoil)] = c
		},
		slope: func(p *problem, l *setup.Leg, share float64, dst []float64) {
			const touch = 1e-9 // m; a coil at its free length is about to be compressed, rounding or not
			c := coil(l)
			for i, s := range p.samples {
				if s := s.x + float64(c.Preload); s > -touch {
					dst[i] += share * by(&c, s)
				}
			}
		},
	}
}

func isCoil(s spring.Spec) bool { _, ok := s.(spring.CoilSpec); return ok }
