package oil

import "example.org/forkcurve/units"

// Grade is an ISO VG class of ISO 3448 (ASTM D2422), which covers the viscosity
// at 40 °C to 10 % either side of its midpoint. The classes leave gaps.
type Grade struct {
	Number   int                      // as in ISO VG 32
	Midpoint units.KinematicViscosity // at 40 °C
}

// grades are the classes of ISO 3448:1992, Table 1. The midpoints of the four thinnest are not their numbers.
var grades = [...]Grade{
	{2, 2.2e-6}, {3, 3.2e-6}, {5, 4.6e-6}, {7, 6.8e-6}, {10, 10e-6}, {15, 15e-6},
	{22, 22e-6}, {32, 32e-6}, {46, 46e-6}, {68, 68e-6}, {100, 100e-6}, {150, 150e-6}, {220, 220e-6},
	{320, 320e-6}, {460, 460e-6}, {680, 680e-6}, {1000, 1000e-6}, {1500, 1500e-6},
}

// GradeOf is the class of an oil with that viscosity at 40 °C; false between and beyond the classes.
func GradeOf(at40 units.KinematicViscosity) (Grade, bool) {
	const slack = 1e-9 // keeps a limit in its class whatever its last bit
	for _, g := range grades {
		if lo, hi := g.Limits(); at40 >= lo*(1-slack) && at40 <= hi*(1+slack) {
			return g, true
		}
	}
	return Grade{}, false
}

// Limits are the least and the greatest viscosity of the class at 40 °C.
func (g Grade) Limits() (lo, hi units.KinematicViscosity) {
	return g.Midpoint * (1 - 0.1), g.Midpoint * (1 + 0.1)
}

// Grade is the ISO VG class of the oil; false where its viscosity is not known or
// lies between the classes, to which fork oils are not bound.
func (f Fluid) Grade() (Grade, bool) { return GradeOf(f.Viscosity(celsius40)) }
