package setup

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// change applies a change to both legs and checks that the fork still makes
// sense.
func (s *Setup) change(legs func(leg) leg) (*Setup, error) {
	m := *s
	for i := range m.legs {
		m.legs[i] = legs(s.legs[i])
	}
	if _, err := m.curve(0, gas.Isothermal); err != nil {
		return nil, err
	}
	return &m, nil
}

// At is the fork carried to other air and soaked to its temperature. No gas
// enters or leaves.
func (s *Setup) At(a gas.Ambient) (*Setup, error) {
	if err := a.Validate(); err != nil {
		return nil, err
	}
	m, err := s.change(func(l leg) leg { return l.moved(s.ambient, a) })
	if err != nil {
		return nil, err
	}
	m.ambient = a
	return m, nil
}

// Vented is the fork after the gas over the oil of each leg was let out to the
// ambient, wheel off the ground and fork extended.
func (s *Setup) Vented() *Setup {
	m := *s
	for i := range m.legs {
		m.legs[i] = s.legs[i].withGap(func(g *oil.AirGapSpec) { g.Pressure = s.ambient.Pressure })
	}
	return &m
}

// VentedAt is the fork after its trapped gas was opened to the ambient with the
// fork held at x, 0 to 0.9 of the travel: what happens when the weight is on the
// wheel. Extended again, it holds a vacuum that pulls the fork down.
func (s *Setup) VentedAt(x units.Length) (*Setup, error) {
	f := check.Of("VentedAt")
	if !check.Between(f, "x", x, 0, s.travel*9/10) {
		return nil, f.Err()
	}
	return s.change(func(l leg) leg {
		return l.withGap(func(g *oil.AirGapSpec) {
			extended := g.Residual + units.Volume(float64(g.Area)*float64(g.Travel))
			g.Pressure = scaled(s.ambient.Pressure, 1-float64(g.Area)*float64(x)/float64(extended))
		})
	})
}

// Pumped is the fork after seals have pumped air in, or a warm-up has: the trapped
// gas of each leg is higher by p at full extension, −0.5 bar to 2 bar. From
// memory: up to 0.3 bar an outing.
func (s *Setup) Pumped(p units.Pressure) (*Setup, error) {
	f := check.Of("Pumped")
	if !check.Between(f, "p", p, -0.5*units.Bar, 2*units.Bar) {
		return nil, f.Err()
	}
	return s.change(func(l leg) leg {
		return l.withGap(func(g *oil.AirGapSpec) {
			g.Pressure = units.Absolute(units.Pressure(g.Pressure.In(units.Pascal)) + p)
		})
	})
}

// Open is the fork with the trapped gas free to come and go: a seal is gone. A coil
// fork keeps its spring; a fork on whole-leg air is not touched, see [Setup.Leaked].
func (s *Setup) Open() (*Setup, error) {
	return s.change(func(l leg) leg { l.gap = nil; return l })
}

// Refilled is the fork after every air spring, and the trapped gas of a leg that has a
// precharge, was set to its gauge reading again, here.
func (s *Setup) Refilled() *Setup {
	m := *s
	for i, l := range s.legs {
		l = l.withAir(func(a *air) { a.set(s.ambient) })
		if l.precharge != (units.GaugePressure{}) {
			l = l.withGap(func(g *oil.AirGapSpec) { g.Pressure = l.precharge.Absolute(s.ambient.Pressure) })
		}
		m.legs[i] = l
	}
	return &m
}

// Leaked is the fork after its air springs have lost gas to the ambient and kept
// the share remaining of it, 0.1 to 1, in every chamber alike.
func (s *Setup) Leaked(remaining float64) (*Setup, error) {
	f := check.Of("Leaked")
	if !check.Between(f, "remaining", remaining, 0.1, 1) {
		return nil, f.Err()
	}
	return s.change(func(l leg) leg { return l.withAir(func(a *air) { a.keep(remaining) }) })
}

// Equalized is the fork after the positive and negative chambers of each air
// spring have come to one pressure at rest at x, 0 to travel: a stroke to the
// transfer port, or a leak past the piston. The gas of both together is kept. A
// leak at sag pulls the fork down, for good until it passes its port again.
func (s *Setup) Equalized(x units.Length) (*Setup, error) {
	f := check.Of("Equalized")
	if !check.Between(f, "x", x, 0, s.travel) {
		return nil, f.Err()
	}
	return s.change(func(l leg) leg { return l.withAir(func(a *air) { a.meet(x) }) })
}
