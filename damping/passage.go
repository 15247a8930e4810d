package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// TransitionReynolds is the Reynolds number up to which flow in a smooth pipe
// stays laminar (any textbook of fluid mechanics).
const TransitionReynolds = 2300

// passage is a fixed opening: p = viscous·μ·q + inertial·ρ·q·|q|. The zero passage is closed.
type passage struct {
	viscous  float64 // 1/m³
	inertial float64 // 1/m⁴
	reynolds float64 // Re = reynolds·ρ·q/μ, 1/m
}

// Flow through the passage.
func (c passage) Flow(p units.Pressure, o Oil) units.Flow {
	if c.viscous == 0 && c.inertial == 0 || p == 0 {
		return 0
	}
	a, b := c.viscous*float64(o.Viscosity), c.inertial*float64(o.Density)
	// The root of b·q² + a·q = |p|, written without cancellation.
	return units.Flow(2 * float64(p) / (a + math.Sqrt(a*a+4*b*math.Abs(float64(p)))))
}

// Drop is the pressure difference that drives q.
func (c passage) Drop(q units.Flow, o Oil) units.Pressure {
	if c.viscous == 0 && c.inertial == 0 {
		return blocked(q)
	}
	a, b := c.viscous*float64(o.Viscosity), c.inertial*float64(o.Density)
	return units.Pressure(float64(q) * (a + b*math.Abs(float64(q))))
}

// Reynolds is the Reynolds number of a flow, on the hydraulic diameter.
func (c passage) Reynolds(q units.Flow, o Oil) float64 {
	return c.reynolds * float64(o.Density) * math.Abs(float64(q)) / float64(o.Viscosity)
}

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

// AnnulusSpec is the ring-shaped gap between a piston or rod and its bore.
type AnnulusSpec struct {
	Bore         units.Length // of the outer part, 2 mm to 80 mm
	Clearance    units.Length // radial, half the difference of the diameters; 1 µm to 0.1 of Bore
	Length       units.Length // along the gap, 0.1 mm to 500 mm
	Eccentricity float64      // 0 centered to 1 touching
	Entrance     float64      // loss at the ends in dynamic heads, 0 to 5; see Entrance
}

// Annulus is a laminar ring-shaped gap with d the mean diameter and h the radial clearance:
//
//	Δp = 12·μ·L·q / (π·d·h³·(1 + 1.5·e²)) + K·(ρ/2)·(q/A)²
//
// Within 0.1 % of the exact solution for a centered gap. A part that touches
// its bore leaks 2.5 times what it leaks when centered.
type Annulus struct{ passage }

// NewAnnulus checks the specification.
func NewAnnulus(s AnnulusSpec) (Annulus, error) {
	f := check.Of("AnnulusSpec")
	if check.Between(f, "Bore", s.Bore, 2*units.Millimeter, 80*units.Millimeter) &&
		!(s.Clearance >= 1e-6*units.Meter && s.Clearance <= s.Bore/10) {
		hint := ""
		if s.Clearance >= s.Bore/2 {
			hint = "that leaves no part inside the bore; the clearance is radial"
		}
		f.Report("Clearance", s.Clearance, fmt.Sprintf("0.001 mm to %.6g, a tenth of the bore", s.Bore/10), hint)
	}
	check.Between(f, "Length", s.Length, 0.1*units.Millimeter, 500*units.Millimeter)
	check.Between(f, "Eccentricity", s.Eccentricity, 0, 1)
	check.Between(f, "Entrance", s.Entrance, 0, 5)
	if err := f.Err(); err != nil {
		return Annulus{}, err
	}
	h := float64(s.Clearance)
	around := math.Pi * (float64(s.Bore) - h)
	area := around * h
	return Annulus{passage{
		viscous:  12 * float64(s.Length) / (around * h * h * h * (1 + 1.5*s.Eccentricity*s.Eccentricity)),
		inertial: s.Entrance / (2 * area * area),
		reynolds: 2 * h / area,
	}}, nil
}

// RadialGapSpec is the film between two parallel disks, as a lapped or dirty shim leaves on its seat.
type RadialGapSpec struct {
	Inner units.Length // diameter, 1 mm to 200 mm
	Outer units.Length // diameter, above Inner to 400 mm
	Gap   units.Length // 1 µm to a tenth of Outer − Inner
}

// RadialGap is the laminar film between two parallel disks:
//
//	Δp = 6·μ·ln(r₂/r₁)·q / (π·c³)
type RadialGap struct{ passage }

// NewRadialGap checks the specification.
func NewRadialGap(s RadialGapSpec) (RadialGap, error) {
	f := check.Of("RadialGapSpec")
	inner := check.Between(f, "Inner", s.Inner, 1*units.Millimeter, 200*units.Millimeter)
	outer := check.Between(f, "Outer", s.Outer, 1*units.Millimeter, 400*units.Millimeter)
	if inner && outer {
		if s.Outer <= s.Inner {
			f.Report("Outer", s.Outer, fmt.Sprintf("above the inner diameter %.6g", s.Inner), "")
		} else {
			check.Between(f, "Gap", s.Gap, 1e-6*units.Meter, (s.Outer-s.Inner)/10)
		}
	}
	if err := f.Err(); err != nil {
		return RadialGap{}, err
	}
	c := float64(s.Gap)
	return RadialGap{passage{
		viscous:  6 * math.Log(float64(s.Outer/s.Inner)) / (math.Pi * c * c * c),
		reynolds: 2 / (math.Pi * float64(s.Inner)),
	}}, nil
}
