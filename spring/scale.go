package spring

import (
	"math"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/units"
)

// Scale is a curve with its force, rate and energy multiplied: by 2 for two legs
// alike, by the share that a spring rate differs from its label. A factor that
// is not finite fails, see [Err].
func Scale(c Curve, factor float64) Curve {
	if err := Err(c); err != nil {
		return Failed(err)
	}
	if math.IsNaN(factor) || math.IsInf(factor, 0) {
		return Failed(&units.RangeError{Field: "factor", Value: factor, Want: "a finite number"})
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

func (s scaled) addTo(sum *chamber.Sum, factor float64) { add(sum, s.c, factor*s.factor) }

func (s scaled) Stroke() units.Length { return s.c.Stroke() }
