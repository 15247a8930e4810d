package damping

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Entrance is the head a laminar stream loses at the ends of a short pipe: one dynamic head to reach its mean speed
// and 1.3 more to grow its parabolic profile, none of it won back at the exit (from memory, textbooks give 1.2 to
// 1.4 for the second part).
const Entrance = 2.3

// PipeSpec is a round laminar bleed.
type PipeSpec struct {
	Diameter units.Length // 0.1 mm to 20 mm
	Length   units.Length // 0.1 mm to 2 m
	Entrance float64      // loss at the ends in dynamic heads, 0 to 5; see Entrance
}

// Pipe is a round laminar bleed, by Hagen and Poiseuille with the loss at its ends:
//
//	Δp = 128·μ·L·q/(π·d⁴) + K·(ρ/2)·(q/A)²
//
// The law is laminar; where Reynolds is above [TransitionReynolds] the true pressure is higher: in a long smooth
// pipe twice as high at Re = 3000 and three times at 5000 (Blasius).
type Pipe struct{ passage }

// NewPipe checks the specification.
func NewPipe(s PipeSpec) (Pipe, error) {
	f := check.Of("PipeSpec")
	check.Between(f, "Diameter", s.Diameter, 0.1*units.Millimeter, 20*units.Millimeter)
	check.Between(f, "Length", s.Length, 0.1*units.Millimeter, 2*units.Meter)
	check.Between(f, "Entrance", s.Entrance, 0, 5)
	if err := f.Err(); err != nil {
		return Pipe{}, err
	}
	return newPipe(s), nil
}

func newPipe(s PipeSpec) Pipe {
	d, area := float64(s.Diameter), float64(geometry.Circle(s.Diameter))
	return Pipe{passage{
		viscous:  128 * float64(s.Length) / (math.Pi * d * d * d * d),
		inertial: s.Entrance / (2 * area * area),
		reynolds: d / area,
	}}
}
