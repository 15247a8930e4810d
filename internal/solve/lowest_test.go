package solve_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/solve"
)

// The bottom of valleys of known shape is found as closely as asked for, smooth or not, inside and at an end.
func TestLowest(t *testing.T) {
	for name, c := range map[string]struct {
		f      func(x float64) float64
		lo, hi float64
		want   float64
	}{
		"parabola":          {func(x float64) float64 { return (x - 1.3) * (x - 1.3) }, -2, 5, 1.3},
		"bend":              {func(x float64) float64 { return math.Abs(x - 0.7) }, 0, 1, 0.7},
		"steep on one side": {func(x float64) float64 { return math.Exp(x) - 2*x }, -1, 4, math.Ln2},
		"rises":             {math.Exp, 0, 3, 0},
		"falls":             {func(x float64) float64 { return -x }, 0, 3, 3},
		"no width":          {math.Exp, 2, 2, 2},
	} {
		for _, within := range []float64{0.5, 1e-3, 1e-6} {
			calls := 0
			x, fx := solve.Lowest(func(x float64) float64 {
				if calls++; !(x >= c.lo && x <= c.hi) {
					t.Errorf("%s: asked at %v", name, x)
				}
				return c.f(x)
			}, c.lo, c.hi, within)
			if !(math.Abs(x-c.want) <= within/2) || fx != c.f(x) {
				t.Errorf("%s: %v, %v within %v, want %v", name, x, fx, within, c.want)
			}
			if most := 4 + math.Log(max(1, (c.hi-c.lo)/within))/math.Log(1.618); float64(calls) > most {
				t.Errorf("%s: %d calls for %v", name, calls, within)
			}
		}
	}
}
