package ode

import "math"

// Constants of the step control, those of the book's code.
const (
	safety       = 0.9
	minFactor    = 0.2
	maxFactor    = 10
	integral     = 0.04
	leastMemory  = -13.287712379549449 // log₂ 1e-4
	proportional = 0.2 - 0.75*integral

	leastError, mostError = 1e-300, 1e300 // squared: less is none, more is no number
)

// log2 of a normal x > 0, to 1e-5: a step needs no more, and math.Log and math.Exp would take a
// tenth of its time.
func log2(x float64) float64 {
	bits := math.Float64bits(x)
	exponent := float64(int(bits>>52) - 1023)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52) // 1 to 2
	s := (m - math.Sqrt2) / (m + math.Sqrt2)             // ln(m/√2) = 2·artanh s
	s2 := s * s
	return exponent + 0.5 + 2/math.Ln2*s*(1+s2*(1./3+s2/5))
}

// exp2 is 2^x to 1e-5, for x between ±1000.
func exp2(x float64) float64 {
	whole := math.Floor(x + 0.5)
	f := (x - whole) * math.Ln2
	f2 := f * f
	return math.Float64frombits(uint64(int(whole)+1023)<<52) * (1 + f + f2*(1./2+f*(1./6)) + f2*f2*(1./24+f*(1./120)))
}
