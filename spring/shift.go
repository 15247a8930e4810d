package spring

import (
	"fmt"
	"math"

	"example.org/forkcurve/units"
)

// Shift is a curve that starts elsewhere on its stroke, as a spacer makes it:
// F(x) = c.Force(x + by). With by above 0 the element is compressed by that much
// at full extension and its stroke is that much shorter; with by below 0 it is
// touched, and first resists, at the travel −by, and its stroke ends that much
// later. A shift past the end of the curve, or one that is not finite, fails, see
// [Err].
func Shift(c Curve, by units.Length) Curve {
	if err := Err(c); err != nil {
		return Failed(err)
	}
	if !(by < c.Stroke()) || math.IsInf(float64(by), 0) {
		return Failed(&units.RangeError{Field: "by", Value: by,
			Want: fmt.Sprintf("below the stroke of the curve, %.6g", c.Stroke())})
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

func (s shifted) Stroke() units.Length { return s.c.Stroke() - s.by }

func (s *shifted) holds(x units.Length) bool { return x >= 0 && x <= s.Stroke() }

// travel of c; rounding must not push it past the end.
func (s *shifted) travel(x units.Length) units.Length { return min(x+s.by, s.c.Stroke()) }
