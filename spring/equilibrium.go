package spring

import (
	"fmt"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

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
	bottom, top := c.Force(0), c.Force(end)
	switch {
	case bottom >= load:
		return 0, nil
	case load == top:
		return end, nil
	case !(load <= top):
		return 0, &units.RangeError{Field: "load", Value: load,
			Want: fmt.Sprintf("at most %.0f, the force at the end of the %.0f stroke", top, end)}
	}
	guess := float64(end) * float64((load-bottom)/(top-bottom))
	x, ok := 0.0, false
	if s := sumOf(c); s != nil {
		x, ok = s.Equilibrium(float64(load), guess)
	} else {
		x, ok = solve.Newton(func(x float64) (float64, float64) {
			return float64(c.Force(units.Length(x)) - load), float64(c.Rate(units.Length(x)))
		}, 0, float64(end), guess, chamber.Tolerance)
	}
	if !ok {
		return 0, &units.RangeError{Field: "Force", Value: c.Force(end), Want: "a number everywhere on the stroke"}
	}
	return units.Length(x), nil
}
