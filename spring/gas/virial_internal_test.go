package gas

import (
	"math"
	"testing"
)

// The density found for a pressure gives that pressure, at the corners of the range.
func TestDensityAtCorners(t *testing.T) {
	for i := range virials {
		for _, kelvin := range []float64{minReal, maxReal} {
			for _, p := range []float64{float64(minPressure), float64(maxRealPressure)} {
				s := virials[i].at(p, kelvin)
				if got := s.p(); !(math.Abs(got/p-1) < 1e-14) {
					t.Errorf("%v at %v K: %v Pa, want %v", Species(i), kelvin, got, p)
				}
			}
		}
	}
}

// Entropy and heat capacity belong together: (∂s/∂T)_ρ = cv/T, and with Maxwell's relation
// (∂s/∂ρ)_T = −(∂p/∂T)_ρ/ρ².
func TestEntropyDerivatives(t *testing.T) {
	for i := range virials {
		m := &virials[i]
		for _, kelvin := range []float64{230, 300, 450, 690} {
			for _, rho := range []float64{10, 400, 1500} {
				central := func(f func(x float64) float64, x float64) float64 {
					h := 1e-4 * x
					return (f(x+h) - f(x-h)) / (2 * h)
				}
				s := m.with(rho, kelvin)
				overT := central(func(t float64) float64 { e := m.with(rho, t); return e.entropy() }, kelvin)
				if want := s.heat() / kelvin; !(math.Abs(overT/want-1) < 1e-6) {
					t.Errorf("%v, %v K, %v mol/m³: ∂s/∂T = %v, want %v", Species(i), kelvin, rho, overT, want)
				}
				overRho := central(func(r float64) float64 { e := m.with(r, kelvin); return e.entropy() }, rho)
				dpdT := central(func(t float64) float64 { e := m.with(rho, t); return e.p() }, kelvin)
				if want := -dpdT / (rho * rho * gasConstant); !(math.Abs(overRho/want-1) < 1e-6) {
					t.Errorf("%v, %v K, %v mol/m³: ∂s/∂ρ = %v, want %v", Species(i), kelvin, rho, overRho, want)
				}
			}
		}
	}
}
