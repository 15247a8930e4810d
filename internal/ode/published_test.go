package ode_test

import (
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/internal/register"
)

// start makes a solver with one relative and one absolute tolerance.
func start(t testing.TB, f ode.Derivative, y []float64, relative, absolute float64) *ode.Solver {
	t.Helper()
	s, err := ode.New(f, 0, y, ode.Settings{Relative: relative, Absolute: slices.Repeat([]float64{absolute}, len(y))})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// at is the solution inside the last step.
func at(s *ode.Solver, t float64) []float64 {
	y := make([]float64, len(s.State()))
	s.At(t, y)
	return y
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.11g, want %.11g ± %g", what, got, want, tol)
	}
}

// arenstorf is a closed orbit of the restricted three-body problem; Hairer,
// Nørsett and Wanner, section II.0.
func arenstorf(_ float64, y, d []float64) {
	const mu, other = 0.012277471, 1 - 0.012277471
	r1 := square(y[0]+mu) + square(y[1])
	r1 *= math.Sqrt(r1)
	r2 := square(y[0]-other) + square(y[1])
	r2 *= math.Sqrt(r2)
	d[0], d[1] = y[2], y[3]
	d[2] = y[0] + 2*y[3] - other*(y[0]+mu)/r1 - mu*(y[0]-other)/r2
	d[3] = y[1] - 2*y[2] - other*y[1]/r1 - mu*y[1]/r2
}

var arenstorfStart = []float64{0.994, 0, 0, -2.00158510637908252240537862224}

const arenstorfPeriod = 17.0652165601579625588917206249

func square(x float64) float64 { return x * x }

// What the Fortran code of Hairer and Wanner, dopri5.f, prints for its driver
// program at both tolerances 1e-7, as recorded in the deSolve package's Arenstorf
// example: the orbit by dense output at even times, the step each came from, the
// end and the work.
func TestArenstorfAsPublishedCode(t *testing.T) {
	register.Cite(t, "N-01")
	s := start(t, arenstorf, arenstorfStart, 1e-7, 1e-7)
	printed := []struct {
		t, x, y float64
		step    int
	}{
		{2, -0.5798781411, 0.6090775251, 60},
		{4, -0.1983335270, 0.1137638086e1, 73},
		{6, -0.4735743943, 0.2239068118, 91},
		{8, -0.1174553350e1, -0.2759466982, 110},
		{10, -0.8398073466, 0.4468302268, 122},
		{12, 0.1314712468e-1, -0.8385751499, 145},
		{14, -0.6031129504, -0.9912598031, 159},
		{16, 0.2427110999, -0.3899948833, 177},
	}
	for s.Time() < arenstorfPeriod {
		if err := s.Step(arenstorfPeriod); err != nil {
			t.Fatal(err)
		}
		for len(printed) > 0 && printed[0].t <= s.Time() {
			p := printed[0]
			y := at(s, p.t)
			// Rounding grows by some 1e5 along the orbit.
			near(t, "x", y[0], p.x, 2e-9)
			near(t, "y", y[1], p.y, 2e-9)
			if got := s.Stats().Accepted; got != p.step {
				t.Errorf("t = %g comes from step %d, want %d", p.t, got, p.step)
			}
			printed = printed[1:]
		}
	}
	near(t, "x at the end", s.State()[0], 0.9940021016, 2e-9)
	near(t, "y at the end", s.State()[1], 0.8911185692e-5, 2e-9)
	if got, want := s.Stats(), (ode.Stats{Evaluations: 1442, Steps: 240, Accepted: 216, Rejected: 22}); got != want {
		t.Errorf("work %+v, want %+v", got, want)
	}
}

// The same source at tolerances of 1e-17, which is the exact orbit to all digits
// printed, and its period, to 30 digits in the book.
func TestArenstorfExact(t *testing.T) {
	register.Cite(t, "N-02")
	s := start(t, arenstorf, arenstorfStart, 1e-12, 1e-12)
	for _, p := range []struct{ t, x, y float64 }{
		{2, -0.5798767232, 0.6090783555},
		{4, -0.1983328832, 0.1137637824e1},
		{6, -0.4735743108, 0.2239077929},
		{8, -0.1174553507e1, -0.2759450770},
		{10, -0.8398071663, 0.4468314171},
		{12, 0.1314377269e-1, -0.8385747019},
		{14, -0.6031162761, -0.9912585277},
		{16, 0.2427044376, -0.3899991215},
		{arenstorfPeriod, 0.994, 0},
	} {
		if err := s.To(p.t); err != nil {
			t.Fatal(err)
		}
		near(t, "x", s.State()[0], p.x, 1e-9)
		near(t, "y", s.State()[1], p.y, 1e-9)
	}
}

// kepler is an orbit around a unit mass: problems D1 to D5 of Hull, Enright,
// Fellen and Sedgwick, SIAM J. Numer. Anal. 9 (1972) 603–637.
func kepler(_ float64, y, d []float64) {
	r := square(y[0]) + square(y[1])
	r *= math.Sqrt(r)
	d[0], d[1], d[2], d[3] = y[2], y[3], -y[0]/r, -y[1]/r
}

func keplerStart(e float64) []float64 {
	return []float64{1 - e, 0, 0, math.Sqrt((1 + e) / (1 - e))}
}

// Kepler's equation is the exact solution.
func keplerAt(e, t float64) (x, y float64) {
	a := t
	for range 100 {
		a -= (a - e*math.Sin(a) - t) / (1 - e*math.Cos(a))
	}
	return math.Cos(a) - e, math.Sqrt(1-e*e) * math.Sin(a)
}

func TestKepler(t *testing.T) {
	register.Cite(t, "N-03")
	// D5 at t = 20 as Shampine and Gordon, Computer Solution of Ordinary
	// Differential Equations (1975), print it, from memory.
	x, y := keplerAt(0.9, 20)
	near(t, "D5 x", x, -1.29526625098758, 1e-13)
	near(t, "D5 y", y, 0.400393896379232, 1e-13)
	for _, e := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		x, y := keplerAt(e, 20)
		s := start(t, kepler, keplerStart(e), 1e-11, 1e-11)
		if err := s.To(20); err != nil {
			t.Fatal(err)
		}
		near(t, "x", s.State()[0], x, 2e-8)
		near(t, "y", s.State()[1], y, 2e-8)
	}
}

// Problem A4 of the same set, with its closed solution.
func logistic(_ float64, y, d []float64) { d[0] = y[0] / 4 * (1 - y[0]/20) }

func logisticAt(t float64) float64 { return 20 / (1 + 19*math.Exp(-t/4)) }

// The method has order 5 at the ends of steps, 4 between: halving equal steps
// divides the largest error by 2⁵ and 2⁴, or a little more as higher orders fade.
func TestOrder(t *testing.T) {
	worst := func(steps int) (ends, between float64) {
		h := 20 / float64(steps)
		s, err := ode.New(logistic, 0, []float64{1}, ode.Settings{
			Relative: 0.1, Absolute: []float64{1e6}, FirstStep: h, MaxStep: h})
		if err != nil {
			t.Fatal(err)
		}
		for s.Time() < 20 {
			if err := s.Step(20); err != nil {
				t.Fatal(err)
			}
			from, to := s.Last()
			ends = max(ends, math.Abs(s.State()[0]-logisticAt(to)))
			for _, share := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
				when := from + share*(to-from)
				between = max(between, math.Abs(at(s, when)[0]-logisticAt(when)))
			}
		}
		if got := s.Stats().Accepted; got != steps {
			t.Fatalf("%d steps, want %d", got, steps)
		}
		return ends, between
	}
	e1, b1 := worst(64)
	e2, b2 := worst(128)
	near(t, "order at the ends", math.Log2(e1/e2), 5, 0.3)
	near(t, "order between", math.Log2(b1/b2), 4.5, 0.7)
}
