package gas

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Exchange is the heat flow between the gas and the wall around it, of first order: left alone at constant volume,
// the gas closes the gap to the wall temperature as e^(−t/τ), τ = m·cv/(h·A) with the gas's mass and heat capacity
// and the wall's film coefficient and area. Fork chambers have τ of a few seconds; [EstimateExchange] gives the
// order of magnitude, no measurement being published.
//
// A small sinusoidal volume change of frequency f then meets the complex stiffness
//
//	k* = k_isothermal·(1 + iγωτ)/(1 + iωτ),  ω = 2πf, γ = 1.4
//
// The zero Exchange has a wall that holds the gas at its temperature: isothermal at any frequency.
type Exchange struct {
	TimeConstant units.Time // τ, 0 to 1 h
}

// Validate reports a time constant outside its range, as *[units.RangeError].
func (e Exchange) Validate() error {
	f := check.Of("Exchange")
	check.Between(f, "TimeConstant", e.TimeConstant, 0, units.Hour)
	return f.Err()
}

// Exponent is the polytropic exponent that gives the stiffness in phase with the motion:
//
//	n = (1 + γω²τ²)/(1 + ω²τ²)
//
// It rises from 1 at f = 0 to 1.4 at f = +Inf. It is NaN for an f or τ that is negative or NaN.
func (e Exchange) Exponent(f units.Frequency) float64 {
	x := e.phase(f)
	return 1 + (Adiabatic-1)/(1+1/(x*x)) // this form keeps both limits exact
}

// LossFactor is the tangent of the angle by which the force leads the motion:
//
//	tan δ = (γ−1)ωτ/(1 + γω²τ²)
//
// It is 0 at f = 0 and +Inf and largest, 0.169, at ωτ = 1/√γ. (The out-of-phase stiffness itself, (γ−1)ωτ/(1 +
// ω²τ²), is largest at ωτ = 1.) The energy lost in a cycle is 2π·tan δ times the largest energy stored in the
// in-phase stiffness. It is NaN for an f or τ that is negative or NaN.
func (e Exchange) LossFactor(f units.Frequency) float64 {
	x := e.phase(f)
	return (Adiabatic - 1) / (1/x + Adiabatic*x)
}

// phase is ωτ, with 0·∞ read as 0.
func (e Exchange) phase(f units.Frequency) float64 {
	tau := float64(e.TimeConstant)
	switch {
	case !(f >= 0 && tau >= 0):
		return math.NaN()
	case f == 0 || tau == 0:
		return 0
	}
	return 2 * math.Pi * float64(f) * tau
}
