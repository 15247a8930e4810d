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
// and outside all three are NaN, unless [WithStops] goes on from there.
type Curve interface {
	Force(x units.Length) units.Force    // resists compression
	Rate(x units.Length) units.Stiffness // dF/dx
	Energy(x units.Length) units.Energy  // stored since x = 0
	Stroke() units.Length                // largest x at which the element holds: travel, bind, hydraulic lock
}

// nan is the value of every curve outside its stroke.
var nan = math.NaN()

// Point is a curve at one travel.
type Point struct {
	Travel units.Length    // from full extension
	Force  units.Force     // resists compression
	Rate   units.Stiffness // dF/dx there
	Energy units.Energy    // stored since full extension
}

// At reads all of a curve at x.
func At(c Curve, x units.Length) Point {
	return Point{Travel: x, Force: c.Force(x), Rate: c.Rate(x), Energy: c.Energy(x)}
}

// Sample reads a curve at n ≥ 2 equally spaced travels from 0 to its stroke,
// both included. It returns nil for n below 2 and for a curve without stroke.
func Sample(c Curve, n int) []Point {
	if n < 2 || Err(c) != nil || !(c.Stroke() > 0) {
		return nil
	}
	return AppendPoints(nil, c, steps(c.Stroke(), n))
}

// steps are n ≥ 2 equally spaced travels from 0 to the end, the last one without rounding.
func steps(end units.Length, n int) []units.Length {
	xs := make([]units.Length, n)
	for i := range xs {
		xs[i] = end * units.Length(i) / units.Length(n-1)
	}
	xs[n-1] = end
	return xs
}
