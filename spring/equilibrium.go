package spring

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

// tolerance of a travel found by root finding, far below what a caliper sees.
const tolerance = 1e-9 // m

// Equilibrium is the travel at which a curve carries a load: 0 when the force at
// full extension already does, so that the fork stays topped out. The curve must
// rise with travel. A load above the force at the end of the stroke is a
// *units.RangeError.
func Equilibrium(c Curve, load units.Force) (units.Length, error) {
	if err := Err(c); err != nil {
		return 0, err
	}
	end := c.Stroke()
	if !(end > 0) {
		return 0, &units.RangeError{Field: "Stroke", Value: end, Want: "above 0"}
	}
	if c.Force(0) >= load {
		return 0, nil
	}
	if top := c.Force(end); !(load <= top) {
		return 0, &units.RangeError{Field: "load", Value: load,
			Want: fmt.Sprintf("at most %.0f, the force at the end of the %.0f stroke", top, end)}
	}
	x, ok := solve.Root(func(x float64) float64 { return float64(c.Force(units.Length(x)) - load) }, 0, float64(end), tolerance)
	if !ok || math.IsNaN(x) {
		return 0, &units.RangeError{Field: "Force", Value: c.Force(end), Want: "a number everywhere on the stroke"}
	}
	return units.Length(x), nil
}
