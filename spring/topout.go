package spring

import (
	"example.org/forkcurve/internal/chamber"
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
// length, then 0. Its energy is negative: it gives out what it stored at full extension.
type TopOut struct{ piecewise }

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
	k, length := float64(s.Rate), float64(s.Length)
	pieces := chamber.Path{{F: -k * length, K: k}, {X: length}}
	return TopOut{path{pieces, float64(s.Travel)}.integrated().spring(float64(s.Travel))}, nil
}
