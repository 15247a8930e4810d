package setup

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Setup is a fork in one state: closed, filled and soaked to the air around it.
// It is immutable and safe for concurrent use.
type Setup struct {
	travel          units.Length
	legs            [2]leg // left, right
	closed, ambient gas.Ambient
	friction        units.Force
}

// Travel of the fork.
func (s *Setup) Travel() units.Length { return s.travel }

// Ambient is the air the fork is in now.
func (s *Setup) Ambient() gas.Ambient { return s.ambient }

// Friction is that of the whole fork, half the band between pushed-down and
// lifted-up.
func (s *Setup) Friction() units.Force { return s.friction }

// At is the fork carried to other air and soaked to its temperature. No gas
// enters or leaves.
func (s *Setup) At(a gas.Ambient) (*Setup, error) {
	if err := a.Validate(); err != nil {
		return nil, err
	}
	m := *s
	m.ambient = a
	for i := range m.legs {
		m.legs[i] = s.legs[i].moved(s.ambient, a)
	}
	if _, err := m.curve(0, gas.Isothermal); err != nil {
		return nil, err
	}
	return &m, nil
}

// Vented is the fork after the gas over the oil of each leg was let out to the
// ambient, wheel off the ground and fork extended.
func (s *Setup) Vented() *Setup {
	m := *s
	for i := range m.legs {
		m.legs[i] = s.legs[i].vented(s.ambient)
	}
	return &m
}

// Refilled is the fork after every air spring was set to its gauge readings
// again, here.
func (s *Setup) Refilled() *Setup {
	m := *s
	for i := range m.legs {
		m.legs[i] = s.legs[i].refilled(s.ambient)
	}
	return &m
}

// Curve is the fork's force against travel with polytropic exponent n from full
// extension: 1 for a slow movement, about 1.3 for a ridden one, at most 5/3.
// Another n gives a curve of no stroke, NaN everywhere.
func (s *Setup) Curve(n float64) spring.Curve { return s.CurveAbout(0, n) }

// CurveAbout is the curve of a fork that has settled at rest at x and moves from
// there with exponent n. An x outside [0, Travel] or an n outside [1, 5/3] gives
// a curve of no stroke, NaN everywhere.
func (s *Setup) CurveAbout(x units.Length, n float64) spring.Curve {
	c, err := s.curve(x, n)
	if err != nil {
		return spring.Parallel()
	}
	return c
}

func (s *Setup) curve(x units.Length, n float64) (spring.Curve, error) {
	if !(x >= 0 && x <= s.travel) {
		return nil, &units.RangeError{Field: "x", Value: x, Want: "0 mm to " + s.travel.String()}
	}
	parts := make([]spring.Curve, 0, 8)
	for _, l := range s.legs {
		var err error
		if parts, err = l.curves(parts, x, n); err != nil {
			return nil, err
		}
	}
	return spring.Parallel(parts...), nil
}

// Side names a leg, as seen by the rider.
type Side int

const (
	Left Side = iota
	Right
)

// String is "left" or "right".
func (s Side) String() string {
	if s == Right {
		return "right"
	}
	return "left"
}

// Gap is the gas over the oil of one leg, moving with exponent n from full
// extension; false when the leg has none or n is outside [1, 5/3].
func (s *Setup) Gap(side Side, n float64) (oil.AirGap, bool) {
	g := s.legs[side&1].gap
	if g == nil {
		return oil.AirGap{}, false
	}
	c, err := oil.NewAirGap(g.About(0, n))
	return c, err == nil
}
