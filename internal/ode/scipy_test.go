package ode_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
)

func predators(_ float64, y, d []float64) { d[0], d[1] = 2*(y[0]-y[0]*y[1]), -(y[1] - y[0]*y[1]) }

func vanDerPol(mu float64) ode.Derivative {
	return func(_ float64, y, d []float64) { d[0], d[1] = y[1], mu*(1-y[0]*y[0])*y[1]-y[0] }
}

// The recorded solutions, to the order of magnitude of the error that scipy's RK45
// makes, and for as much work. It is the same pair with another step control, and
// tolerances bound the error of a step, not what it grows to; neither is always
// better. The header of the record tells how it was made.
func TestAgainstSolveIVP(t *testing.T) {
	register.Cite(t, "N-04")
	const header = "problem,end,y0,y1,error_6,evaluations_6,error_9,evaluations_9"
	for _, row := range record.Rows(t, "solve_ivp.csv", header, 5) {
		x := record.Numbers(t, row[1:])
		end, exact := x[0], [2]float64{x[1], x[2]}
		for i, tol := range []float64{1e-6, 1e-9} {
			got, stats := [2]float64{}, ode.Stats{}
			switch row[0] {
			case "kepler 0.5":
				got, stats = run(t, kepler, keplerStart(0.5), end, tol)
			case "kepler 0.9":
				got, stats = run(t, kepler, keplerStart(0.9), end, tol)
			case "predators":
				got, stats = run(t, predators, []float64{1, 3}, end, tol)
			case "van der pol 1":
				got, stats = run(t, vanDerPol(1), []float64{2, 0}, end, tol)
			case "van der pol 10":
				got, stats = run(t, vanDerPol(10), []float64{2, 0}, end, tol)
			default:
				t.Fatalf("unknown problem %q", row[0])
			}
			e := max(math.Abs(got[0]-exact[0]), math.Abs(got[1]-exact[1]))
			theirs, work := x[3+2*i], x[4+2*i]
			t.Logf("%s at %g: error %.3g with %d evaluations, scipy %.3g with %g", row[0], tol, e, stats.Evaluations,
				theirs, work)
			if e > 10*theirs || float64(stats.Evaluations) > 1.1*work {
				t.Errorf("%s at %g: more than ten times scipy's error or a tenth more work", row[0], tol)
			}
		}
	}
}

func run(t *testing.T, f ode.Derivative, y []float64, end, tol float64) ([2]float64, ode.Stats) {
	t.Helper()
	s := start(t, f, y, tol, 1e-3*tol)
	if err := s.To(end); err != nil {
		t.Fatal(err)
	}
	return [2]float64(s.State()[:2]), s.Stats()
}
