package setup

import (
	"fmt"

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
		return nil, &units.RangeError{Field: "x", Value: x, Want: fmt.Sprintf("0 mm to %.6g", s.travel)}
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

// Air is the air spring of one leg, moving with exponent n from full extension;
// false when the leg has none of the plain kind, without a floating piston, or n
// is outside [1, 5/3].
func (s *Setup) Air(side Side, n float64) (spring.Air, bool) {
	a := s.legs[side&1].air
	if a == nil {
		return spring.Air{}, false
	}
	c, err := a.about(0, n)
	plain, ok := c.(spring.Air)
	return plain, ok && err == nil
}
