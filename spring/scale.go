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
	sum := chamber.NewSum(math.Inf(1))
	addCurve(sum, c, factor)
	return sum
}
