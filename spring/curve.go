package spring

import (
	"math"

	"example.org/forkcurve/units"
)

// Curve is a spring along the fork axis. Implementations are immutable, safe
// for concurrent use and allocate nothing. For every x in [0, Stroke()]
//
//	Rate(x)   = dF/dx, the right-hand derivative where Force has a kink
//	Energy(x) = the integral of Force from 0 to x
//
// and outside all three are NaN.
type Curve interface {
	Force(x units.Length) units.Force    // resists compression
	Rate(x units.Length) units.Stiffness // dF/dx
	Energy(x units.Length) units.Energy  // stored since x = 0
	Stroke() units.Length                // largest x at which the element holds: travel, bind, hydraulic lock
}

// span is the stroke of a spring.
type span float64 // m

// Stroke is the travel of the fork, or less where the spring itself ends first.
func (s span) Stroke() units.Length { return units.Length(s) }

func (s span) holds(x units.Length) bool { return x >= 0 && x <= units.Length(s) }

// nan is the value of every curve outside its stroke.
var nan = math.NaN()

// Point is a curve at one travel.
type Point struct {
	Travel units.Length
	Force  units.Force
	Rate   units.Stiffness
	Energy units.Energy
}

// At reads all of a curve at x.
func At(c Curve, x units.Length) Point {
	return Point{Travel: x, Force: c.Force(x), Rate: c.Rate(x), Energy: c.Energy(x)}
}

// Sample reads a curve at n ≥ 2 equally spaced travels from 0 to its stroke,
// both included. It returns nil for n below 2 and for a curve without stroke.
func Sample(c Curve, n int) []Point {
	end := c.Stroke()
	if n < 2 || !(end > 0) {
		return nil
	}
	points := make([]Point, n)
	for i := range points {
		points[i] = At(c, part(end, i, n-1))
	}
	return points
}

// part is i/n of a stroke; the last part is the end itself, without rounding.
func part(end units.Length, i, n int) units.Length {
	if i == n {
		return end
	}
	return end * units.Length(i) / units.Length(n)
}
