package solve

import "math"

// Newton finds x between lo and hi with f(x) = 0, where f is below 0 at lo and above 0 at
// hi; the ends themselves are not read. It takes Newton's steps from the guess, or from the
// middle if that is outside, and bisects what is left of the bracket where a step leaves it
// or does not halve the one before: a kink, a flat or a falling stretch costs steps but does
// not mislead. It ends with a step of at most tol or, where f is smooth, with one after which
// the next would be a thousandth of that. It reports false when f is NaN.
//
// Source: the safeguarded iteration of W. H. Press et al., Numerical Recipes, "Newton-Raphson
// method using derivative" (from memory).
func Newton(f func(x float64) (value, slope float64), lo, hi, guess, tol float64) (float64, bool) {
	x := guess
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	last, straight := hi-lo, false // the step before, and whether it was Newton's
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
		if next > lo && next < hi && math.Abs(next-x) <= last/2 {
			// Newton's steps square the error: this one is to the next as the square of the last to it.
			step := math.Abs(next - x)
			if step <= tol || straight && 1000*step*step*step <= tol*last*last {
				return next, true
			}
			x, last, straight = next, step, true
			continue
		}
		next = lo + (hi-lo)/2
		last, straight = math.Abs(next-x), false
		if x = next; last <= tol {
			break
		}
	}
	return x, true
}
