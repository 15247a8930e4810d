package spring

import (
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/units"
)

// flat is a spring as a sum of its parts. The zero one has no stroke.
type flat struct{ parts *chamber.Sum }

// Force that resists compression.
func (f flat) Force(x units.Length) units.Force { return f.sum().Force(x) }

// Rate is dF/dx; where it jumps it is the one that follows.
func (f flat) Rate(x units.Length) units.Stiffness { return f.sum().Rate(x) }

// Energy stored since x = 0; below 0 where more was given out.
func (f flat) Energy(x units.Length) units.Energy { return f.sum().Energy(x) }

// Stroke is the travel of the fork, or less where the spring itself ends first.
func (f flat) Stroke() units.Length { return f.sum().Stroke() }

var noParts chamber.Sum

func (f flat) sum() *chamber.Sum {
	if f.parts == nil {
		return &noParts
	}
	return f.parts
}

// sumOf is a curve as a sum, nil if it is none.
func sumOf(c Curve) *chamber.Sum {
	switch c := c.(type) {
	case *chamber.Sum:
		return c
	case interface{ sum() *chamber.Sum }:
		return c.sum()
	}
	return nil
}

// addCurve adds a curve to a sum, taken apart where it can be.
func addCurve(sum *chamber.Sum, c Curve, factor float64) {
	if s := sumOf(c); s != nil {
		c = s
	}
	sum.AddCurve(c, factor)
}
