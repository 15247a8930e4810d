package spring

import (
	"math"

	"example.org/forkcurve/units"
)

// Scale is a curve with its force, rate and energy multiplied: by 2 for two legs
// alike, by the share that a spring rate differs from its label. A factor that
// is not finite leaves no stroke.
func Scale(c Curve, factor float64) Curve {
	if c == nil || math.IsNaN(factor) || math.IsInf(factor, 0) {
		return path{}
	}
	return scaled{c, factor}
}

type scaled struct {
	c      Curve
	factor float64
}

func (s scaled) Force(x units.Length) units.Force { return s.c.Force(x) * units.Force(s.factor) }

func (s scaled) Rate(x units.Length) units.Stiffness {
	return s.c.Rate(x) * units.Stiffness(s.factor)
}

func (s scaled) Energy(x units.Length) units.Energy { return s.c.Energy(x) * units.Energy(s.factor) }

func (s scaled) Stroke() units.Length { return s.c.Stroke() }
