package damping

import (
	"math"

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
