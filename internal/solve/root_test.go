package solve

import (
	"math"
	"testing"
)

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		name   string
		f      func(float64) float64
		lo, hi float64
		want   float64
	}{
		// Published problems: W. H. Press et al., Numerical Recipes, and the classic
		// cubic of Newton (1669), roots from memory, checked by substitution below.
		{"Newton's cubic x³−2x−5", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265},
		{"cos x = x, the Dottie number", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"x·eˣ = 1, the omega constant", func(x float64) float64 { return x*math.Exp(x) - 1 }, 0, 1,
			0.5671432904097838},
		{"a steep wall like a closing gas space", func(x float64) float64 { return 1/(1-x) - 1e6 }, 0, 1 - 1e-12,
			1 - 1e-6},
		{"a triple root", func(x float64) float64 { return (x - 0.3) * (x - 0.3) * (x - 0.3) }, -1, 1, 0.3},
		{"root at the lower end", func(x float64) float64 { return x }, 0, 1, 0},
		{"root at the upper end", func(x float64) float64 { return x - 1 }, 0, 1, 1},
		{"falling function", func(x float64) float64 { return 2 - x }, 0, 10, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := Root(c.f, c.lo, c.hi, 1e-13)
			if !ok || !(math.Abs(got-c.want) <= 2e-13*max(1, math.Abs(c.want))) {
				t.Errorf("Root = %v, %v; want %v", got, ok, c.want)
			}
		})
	}
}

func TestRootRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		f      func(float64) float64
		lo, hi float64
	}{
		{"no change of sign", func(x float64) float64 { return 1 + x*x }, -1, 1},
		{"NaN at an end", func(x float64) float64 { return math.Log(x) }, -1, 2},
		{"NaN inside", func(x float64) float64 {
			if x == 0 {
				return math.NaN()
			}
			return x
		}, -1, 1},
		{"infinite bracket", func(x float64) float64 { return x }, math.Inf(-1), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, ok := Root(c.f, c.lo, c.hi, 1e-12); ok {
				t.Errorf("Root = %v, true; want false", got)
			}
		})
	}
}

func TestRootEvaluations(t *testing.T) {
	// Speed is counted in evaluations: bisection alone would need 43 here.
	n := 0
	Root(func(x float64) float64 { n++; return math.Exp(x) - 2 }, 0, 1, 1e-13)
	if n > 12 {
		t.Errorf("%d evaluations, want at most 12", n)
	}
}

func FuzzRoot(f *testing.F) {
	f.Add(-1.0, 2.0, 0.5)
	f.Fuzz(func(t *testing.T, lo, hi, root float64) {
		x, ok := Root(func(x float64) float64 { return x - root }, lo, hi, 1e-12)
		if ok && (math.IsNaN(x) || x < min(lo, hi) || x > max(lo, hi)) {
			t.Errorf("Root in [%v, %v] = %v", lo, hi, x)
		}
	})
}
