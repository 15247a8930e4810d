package helical

import (
	"math"

	"example.org/forkcurve/units"
)

// Slenderness is L0/D. Above 5.2 on flat seats a steel spring without a guide
// buckles somewhere in its stroke; fork springs have 8 to 15 and always lean on
// the tube or the rod.
func (s Spring) Slenderness() float64 { return float64(s.free / s.mean) }

// BucklingDeflection is where the spring bows out if nothing guides it and its ends
// stand flat on their seats, as in a fork,
//
//	y = L0·C1·(1 − √(1 − C2/λ²))    λ = ½·L0/D
//	C1 = E/(2·(E−G))    C2 = 2·π²·(E−G)/(2·G+E)
//
// ok is false, and the deflection that to solid, if it never does.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-10);
// identical to EN 13906-1.
func (s Spring) BucklingDeflection() (y units.Length, ok bool) {
	e, g := float64(s.elastic), float64(s.shear)
	c1 := e / (2 * (e - g))
	c2 := 2 * math.Pi * math.Pi * (e - g) / (2*g + e)
	lambda := s.Slenderness() / 2
	if root := 1 - c2/(lambda*lambda); root >= 0 {
		y = s.free * units.Length(c1*(1-math.Sqrt(root)))
		if y < s.SolidDeflection() {
			return y, true
		}
	}
	return s.SolidDeflection(), false
}

// GuideForce is an estimate, good to a factor of two, of how hard a spring on
// flat seats leans on its guide in all: the tube around it or the rod within,
// with that diametral clearance. Times the coefficient of friction it is the
// friction of the spring. Zero before BucklingDeflection, and NaN outside the
// stroke or for a negative clearance.
//
// The bowed spring is taken as a long column lying in a helix against the guide,
// which pushes w = r·F²/(4·B) on each unit of length: r is the radial clearance
// and B the bending stiffness of a helix of length L, B = L·k·D²·E/(2·(2·G + E)).
// Shear of the spring, which makes it lean harder, is left out.
//
// Source: A. Lubinski, W. S. Althouse, J. L. Logan, Helical Buckling of Tubing
// Sealed in Packers, J. Petroleum Technology 14 (1962), for w, from memory; B
// from S. Timoshenko, J. Gere, Theory of Elastic Stability, buckling of helical springs.
func (s Spring) GuideForce(deflection, clearance units.Length) units.Force {
	f := float64(s.Force(deflection))
	if math.IsNaN(f) || !(clearance >= 0) {
		return units.Force(math.NaN())
	}
	if y, ok := s.BucklingDeflection(); !ok || deflection < y {
		return 0
	}
	e, g := float64(s.elastic), float64(s.shear)
	perLength := float64(s.rate) * float64(s.mean) * float64(s.mean) * e / (2 * (2*g + e))
	return units.Force(float64(clearance) / 2 * f * f / (4 * perLength))
}
