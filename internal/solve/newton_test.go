package solve

import (
	"math"
	"testing"
)

func TestNewton(t *testing.T) {
	for _, c := range []struct {
		name          string
		f             func(float64) (float64, float64)
		lo, hi, guess float64
		want          float64
	}{
		// Published problems as in TestRoot, and the textbook cases that plain Newton steps fail.
		{"Newton's cubic x³−2x−5", func(x float64) (float64, float64) { return x*x*x - 2*x - 5, 3*x*x - 2 }, 2, 3, 2,
			2.0945514815423265},
		{"x − cos x, the Dottie number", func(x float64) (float64, float64) { return x - math.Cos(x), 1 + math.Sin(x) },
			0, 1, 0.5, 0.7390851332151607},
		{"x·eˣ = 1, the omega constant",
			func(x float64) (float64, float64) { return x*math.Exp(x) - 1, (1 + x) * math.Exp(x) },
			0, 1, 0.9, 0.5671432904097838},
		{"the arc tangent, which diverges from 2",
			func(x float64) (float64, float64) { return math.Atan(x), 1 / (1 + x*x) }, -3, 10, 2, 0},
		{"the cube root, which diverges from anywhere", func(x float64) (float64, float64) {
			return math.Cbrt(x), 1 / (3 * math.Pow(math.Abs(x), 2./3))
		}, -1, 2, 0.7, 0},
		{"x³−2x+2, which goes round from 0 to 1",
			func(x float64) (float64, float64) { return x*x*x - 2*x + 2, 3*x*x - 2 },
			-3, 1.5, 0, -1.7692923542386314},
		{"a wall like a closing gas space",
			func(x float64) (float64, float64) { return 1/(1-x) - 1e6, 1 / (1 - x) / (1 - x) },
			0, 1 - 1e-12, 0.5, 1 - 1e-6},
		{"a kink from soft to hard", func(x float64) (float64, float64) {
			if x < 0.3 {
				return x - 0.4, 1
			}
			return -0.1 + 100*(x-0.3), 100
		}, 0, 1, 0.1, 0.301},
		{"a flat stretch before the root", func(x float64) (float64, float64) {
			if x < 0.6 {
				return -1, 0
			}
			return -1 + 10*(x-0.6), 10
		}, 0, 1, 0.2, 0.7},
		{"a guess outside", func(x float64) (float64, float64) { return x - 0.25, 1 }, 0, 1, math.NaN(), 0.25},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := 0
			got, ok := Newton(func(x float64) (float64, float64) { n++; return c.f(x) }, c.lo, c.hi, c.guess, 1e-13)
			if !ok || !(math.Abs(got-c.want) <= 2e-13*max(1, math.Abs(c.want))) {
				t.Errorf("Newton = %v, %v; want %v", got, ok, c.want)
			}
			if n > 60 {
				t.Errorf("%d evaluations, more than bisection needs", n)
			}
		})
	}
	if x, ok := Newton(func(float64) (float64, float64) { return math.NaN(), 1 }, 0, 1, 0.5, 1e-9); ok {
		t.Errorf("Newton of NaN = %v, true", x)
	}
}

// Speed is counted in evaluations: steps that square the error need no more on a smooth function.
func TestNewtonEvaluations(t *testing.T) {
	n := 0
	Newton(func(x float64) (float64, float64) { n++; return math.Exp(x) - 2, math.Exp(x) }, 0, 1, 0.5, 1e-13)
	if n > 6 {
		t.Errorf("%d evaluations, want at most 6", n)
	}
}

func FuzzNewton(f *testing.F) {
	f.Add(0.1, 0.4, 0.01, 3.0)
	f.Fuzz(func(t *testing.T, root, guess, kink, ratio float64) {
		if !(root > 0 && root < 1 && ratio > 1e-3 && ratio < 1e3 && kink >= 0 && kink <= 1) {
			t.Skip()
		}
		rise := func(x float64) float64 { return x + (ratio-1)*max(0, x-kink) }
		x, ok := Newton(func(x float64) (float64, float64) {
			slope := 1.0
			if x >= kink {
				slope = ratio
			}
			return rise(x) - rise(root), slope
		}, 0, 1, guess, 1e-12)
		if !ok || !(math.Abs(x-root) <= 1e-7) { // two steps may straddle the kink
			t.Errorf("a kink at %v of ratio %v: %v, %v; want %v", kink, ratio, x, ok, root)
		}
	})
}
