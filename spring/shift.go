package spring

import (
	"math"

	"example.org/forkcurve/units"
)

// Shift is a curve that starts elsewhere on its stroke, as a spacer makes it:
// F(x) = c.Force(x + by). With by above 0 the element is compressed by that much
// at full extension and its stroke is that much shorter; with by below 0 it is
// touched, and first resists, at the travel −by, and its stroke ends that much
// later. A shift past the end of the curve, or one that is not finite, leaves no
// stroke.
func Shift(c Curve, by units.Length) Curve {
	if c == nil || math.IsNaN(float64(by)) || math.IsInf(float64(by), 0) {
		return path{}
	}
	s := shifted{c: c, by: by}
	if by > 0 {
		s.before = c.Energy(by)
	}
	return s
}

type shifted struct {
	c      Curve
	by     units.Length
	before units.Energy // of c at by
}

func (s shifted) Force(x units.Length) units.Force {
	switch {
	case !s.holds(x):
		return units.Force(nan)
	case x+s.by < 0:
		return 0
	}
	return s.c.Force(s.travel(x))
}

func (s shifted) Rate(x units.Length) units.Stiffness {
	switch {
	case !s.holds(x):
		return units.Stiffness(nan)
	case x+s.by < 0:
		return 0
	}
	return s.c.Rate(s.travel(x))
}

func (s shifted) Energy(x units.Length) units.Energy {
	switch {
	case !s.holds(x):
		return units.Energy(nan)
	case x+s.by < 0:
		return 0
	}
	return s.c.Energy(s.travel(x)) - s.before
}

func (s shifted) Stroke() units.Length {
	if stroke := s.c.Stroke() - s.by; stroke > 0 {
		return stroke
	}
	return 0
}

func (s *shifted) holds(x units.Length) bool { return x >= 0 && x <= s.Stroke() && s.Stroke() > 0 }

// travel of c; rounding must not push it past the end.
func (s *shifted) travel(x units.Length) units.Length { return min(x+s.by, s.c.Stroke()) }
