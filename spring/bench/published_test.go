package bench

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/internal/lsq"
	"example.org/forkcurve/internal/register"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.8g, want %.8g ± %g", what, got, want, tol)
	}
}

// JCGM 100:2008 (GUM), example H.2: resistance, reactance and impedance from five
// simultaneous observations, table H.2 and results H.3 and H.4 (from memory, recomputed): the
// correlated inputs through the gradient that answers go by.
func TestGUMH2(t *testing.T) {
	register.Cite(t, "X-51")
	observed := mat.NewDense(5, 3, []float64{
		5.007, 19.663e-3, 1.0456,
		4.994, 19.639e-3, 1.0438,
		5.005, 19.640e-3, 1.0468,
		4.990, 19.685e-3, 1.0428,
		4.999, 19.678e-3, 1.0433})
	var c mat.SymDense
	stat.CovarianceMatrix(&c, observed, nil)
	c.ScaleSym(1.0/5, &c) // of the means
	var at [3]float64
	for j := range at {
		at[j] = stat.Mean(mat.Col(nil, j, observed), nil)
	}
	answers := []func(x [3]float64) float64{
		func(x [3]float64) float64 { return x[0] / x[1] * math.Cos(x[2]) },
		func(x [3]float64) float64 { return x[0] / x[1] * math.Sin(x[2]) },
		func(x [3]float64) float64 { return x[0] / x[1] },
	}
	var g [3][]float64
	for i, want := range []struct{ value, u float64 }{{127.732, 0.071}, {219.847, 0.295}, {254.260, 0.236}} {
		for j := range at {
			h := 1e-6 * at[j]
			low, high := at, at
			low[j] -= h
			high[j] += h
			g[i] = append(g[i], (answers[i](high)-answers[i](low))/(2*h))
		}
		near(t, "value", answers[i](at), want.value, 0.0005)
		near(t, "uncertainty", math.Sqrt(variance(g[i], &c)), want.u, 0.0007) // printed from rounded inputs: 0.2956 as 0.295
	}
	for _, r := range []struct {
		i, j int
		want float64
	}{{0, 1, -0.588}, {0, 2, -0.485}, {1, 2, 0.993}} {
		both := mat.Inner(mat.NewVecDense(3, g[r.i]), &c, mat.NewVecDense(3, g[r.j]))
		near(t, "correlation", both/math.Sqrt(variance(g[r.i], &c)*variance(g[r.j], &c)), r.want, 0.0005)
	}
}

// The same guide, H.3: calibration of a thermometer, y₁ + y₂·(t − 20 °C) through 11 readings
// (from memory, recomputed), by the solver that serves the readings here.
func TestGUMH3(t *testing.T) {
	register.Cite(t, "X-52")
	temperature := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	correction := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	s := lsq.NewSolver(lsq.Problem{Parameters: 2, Residuals: 11, Evaluate: func(x, r []float64) bool {
		for i := range r {
			r[i] = x[0] + x[1]*(temperature[i]-20) - correction[i]
		}
		return true
	}})
	x := []float64{0, 0}
	end := s.Minimize(context.Background(), x)
	d, ok := s.Determined(x, []int{0, 1})
	if !ok || d.Covariance == nil {
		t.Fatal("not determined")
	}
	scale := end.Squares / 9
	near(t, "y1", x[0], -0.1712, 0.00005)
	near(t, "y2", x[1], 0.00218, 0.000005)
	near(t, "s", math.Sqrt(scale), 0.0035, 0.00005)
	near(t, "s(y1)", math.Sqrt(scale*d.Covariance.At(0, 0)), 0.0029, 0.00005)
	near(t, "s(y2)", math.Sqrt(scale*d.Covariance.At(1, 1)), 0.00067, 0.000005)
	near(t, "r", d.Covariance.At(0, 1)/math.Sqrt(d.Covariance.At(0, 0)*d.Covariance.At(1, 1)), -0.930, 0.0005)
}
