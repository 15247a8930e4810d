// Package chamber is the inner loop of a fork: gas springs, chains of cubic pieces
// and the sum of all springs that share a travel, in plain SI numbers and unchecked.
// Whoever builds on it has checked its numbers; travels are in m, forces in N, rates in
// N/m, energies in J since travel 0, pressures absolute in Pa.
//
// Everything here is immutable once built, safe for concurrent use from then on and
// allocates nothing when evaluated. Only [Sum] knows where the stroke ends.
package chamber

// Chamber is a sealed gas space behind a piston,
//
//	F = A·(p₀·u⁻ⁿ − p_a)        u = V/V₀ = 1 − A·x/V₀
//
// with A above 0 where the fork compresses the gas and below 0 where the space grows.
// A chamber of no area, such as the zero one, has no force.
type Chamber struct {
	term
	polytrope
	ambient          float64 // A·p_a
	volume, pressure float64 // V₀, p₀
}

// New is the chamber of that area, volume and pressure at travel 0, outer pressure and
// exponent n ≥ 1.
func New(area, volume, pressure, ambient, n float64) Chamber {
	return Chamber{term{weight: area * pressure, slope: area / volume, stored: pressure * volume},
		newPolytrope(n), area * ambient, volume, pressure}
}

// Force at x.
func (c *Chamber) Force(x float64) float64 { return c.weight*c.grow(c.Ratio(x)) - c.ambient }

// Rate is n·p·A²/V.
func (c *Chamber) Rate(x float64) float64 {
	u := c.Ratio(x)
	return c.n * c.weight * c.slope * c.grow(u) / u
}

// Energy is the work done on the gas less that of the ambient on the piston.
func (c *Chamber) Energy(x float64) float64 {
	return c.stored*c.work(c.slope*x, c.grow(c.Ratio(x))) - c.ambient*x
}

// Pressure of the gas at x.
func (c *Chamber) Pressure(x float64) float64 { return c.pressure * c.grow(c.Ratio(x)) }

// Volume of the gas at x.
func (c *Chamber) Volume(x float64) float64 { return c.volume * c.Ratio(x) }

// Ratio is V/V₀ at x.
func (c *Chamber) Ratio(x float64) float64 { return 1 - c.slope*x }
