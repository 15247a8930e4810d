// Package solve finds a root of a continuous function inside a bracket, which
// gonum does not offer. Its functions are safe for concurrent use.
package solve

import "math"

// maxIterations is never reached with a sane tolerance: bisection alone needs
// 64 halvings to exhaust a float64.
const maxIterations = 200

// Root finds x in [lo, hi] with f(x) = 0 to within tol in x, by Chandrupatla's
// method: inverse quadratic interpolation where it is safe, else bisection. It
// reports false when lo or hi is not finite, when f does not change sign
// between them or when f is NaN.
//
// Source: T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm for
// finding the zero of a nonlinear function without using derivatives, Advances
// in Engineering Software 28 (1997) 145–149.
func Root(f func(float64) float64, lo, hi, tol float64) (float64, bool) {
	a, b := lo, hi
	fa, fb := f(a), f(b)
	switch {
	case math.IsNaN(fa) || math.IsNaN(fb) || math.IsInf(a, 0) || math.IsInf(b, 0):
		return 0, false
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case (fa > 0) == (fb > 0):
		return 0, false
	}
	t := 0.5
	for range maxIterations {
		x := a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) {
			return 0, false
		}
		// c, the point that leaves the bracket, serves the interpolation.
		c, fc := a, fa
		if (fx > 0) != (fa > 0) {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx

		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		limit := (2*epsilon*math.Abs(best) + tol) / math.Abs(b-a)
		if fbest == 0 || limit > 0.5 {
			return best, true
		}
		t = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = min(max(t, limit), 1-limit)
	}
	return a, true
}

const epsilon = 0x1p-53
