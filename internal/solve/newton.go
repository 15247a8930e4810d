package solve

import "math"

// Newton finds x between lo and hi with f(x) = 0 to within tol in x, where f is below 0 at
// lo and above 0 at hi; the ends themselves are not read. It takes Newton's steps from the
// guess, or from the middle if that is outside, and bisects what is left of the bracket
// where a step leaves it or does not halve the one before: a kink, a flat or a falling
// stretch costs steps but does not mislead. It reports false when f is NaN.
//
// Source: the safeguarded iteration of W. H. Press et al., Numerical Recipes, "Newton-Raphson
// method using derivative" (from memory).
func Newton(f func(x float64) (value, slope float64), lo, hi, guess, tol float64) (float64, bool) {
	x, last := guess, hi-lo
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	for range maxIterations {
		value, slope := f(x)
		switch {
		case math.IsNaN(value):
			return 0, false
		case value == 0:
			return x, true
		case value < 0:
			lo = x
		default:
			hi = x
		}
		next := x - value/slope
		if !(next > lo && next < hi && math.Abs(next-x) <= last/2) {
			next = lo + (hi-lo)/2
		}
		last = math.Abs(next - x)
		if x = next; last <= tol {
			break
		}
	}
	return x, true
}
