package spring

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// TopOutSpec is a spring that resists extension over the last part of the
// stroke: a top-out spring, or the coil that serves as a mechanical negative
// spring of an air fork.
type TopOutSpec struct {
	Rate   units.Stiffness // 0.1 N/mm to 500 N/mm
	Length units.Length    // travel over which it acts, from full extension, 0.5 mm to 200 mm
	Travel units.Length    // of the fork, 1 mm to 400 mm
}

// TopOut pulls the fork down near full extension: F = −k·(length − x) up to its
// length, then 0.
type TopOut struct {
	rate, length, stroke float64 // N/m, m, m
}

var _ Curve = TopOut{}

// NewTopOut checks the specification.
func NewTopOut(s TopOutSpec) (TopOut, error) {
	f := check.Of("TopOutSpec")
	check.Between(f, "Rate", s.Rate, 0.1*units.NewtonPerMillimeter, 500*units.NewtonPerMillimeter)
	check.Between(f, "Length", s.Length, 0.5*units.Millimeter, 200*units.Millimeter)
	check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	if err := f.Err(); err != nil {
		return TopOut{}, err
	}
	return TopOut{rate: float64(s.Rate), length: float64(s.Length), stroke: float64(s.Travel)}, nil
}

// Force is −k·(length − x), or 0 beyond its length.
func (t TopOut) Force(x units.Length) units.Force {
	if !t.holds(x) {
		return units.Force(nan)
	}
	return units.Force(-t.rate * max(0, t.length-float64(x)))
}

// Rate is k up to its length, then 0.
func (t TopOut) Rate(x units.Length) units.Stiffness {
	switch {
	case !t.holds(x):
		return units.Stiffness(nan)
	case float64(x) >= t.length:
		return 0
	}
	return units.Stiffness(t.rate)
}

// Energy is negative: the spring gives out what it stored at full extension.
func (t TopOut) Energy(x units.Length) units.Energy {
	if !t.holds(x) {
		return units.Energy(nan)
	}
	s := min(float64(x), t.length)
	return units.Energy(-t.rate * s * (t.length - s/2))
}

// Stroke is the travel.
func (t TopOut) Stroke() units.Length { return units.Length(t.stroke) }

func (t TopOut) holds(x units.Length) bool { return x >= 0 && float64(x) <= t.stroke }
