package spring

import (
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/units"
)

// Limit ends the stroke of a curve at a travel, where something else stops the
// fork: coils that bind, metal on metal, or oil that fills the last of a
// gas space of volume V over a piston of area A, which locks the fork
// hydraulically at x = V/A. A fork made by [Parallel] ends with its shortest
// part, so that one limited element ends it all. A travel that is not above 0
// fails, see [Err].
func Limit(c Curve, travel units.Length) Curve {
	if err := Err(c); err != nil {
		return Failed(err)
	}
	if !(travel > 0) {
		return Failed(&units.RangeError{Field: "travel", Value: travel, Want: "above 0 mm"})
	}
	sum := chamber.NewSum(float64(travel))
	addCurve(sum, c, 1)
	return sum
}
