// Package propagate carries standard uncertainties of independent inputs through
// a calculation: to first order, and by drawing samples.
//
// Sources: JCGM 100:2008, Guide to the expression of uncertainty in measurement,
// equation (10); JCGM 101:2008, its supplement on the Monte Carlo method.
package propagate

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Model calculates outputs y from inputs x, both of fixed length, and reports
// whether it could.
type Model func(x, y []float64) bool

// FirstOrder is the standard uncertainty of each output,
//
//	u²(y) = Σ (∂y/∂x_i · u_i)²
//
// for inputs x with standard uncertainties u, the derivatives taken over ± u_i. An
// input of no uncertainty costs nothing. It reports false when the model fails at a
// point, and is 0 where the output stands still to first order, however far it
// bends: then draw samples.
func FirstOrder(m Model, x, u []float64, outputs int) ([]float64, bool) {
	squares := make([]float64, outputs)
	at, above, below := slices.Clone(x), make([]float64, outputs), make([]float64, outputs)
	for i, ui := range u {
		if ui == 0 {
			continue
		}
		at[i] = x[i] + ui
		if !m(at, above) {
			return nil, false
		}
		at[i] = x[i] - ui
		if !m(at, below) {
			return nil, false
		}
		at[i] = x[i]
		for j := range squares {
			d := (above[j] - below[j]) / 2
			squares[j] += d * d
		}
	}
	for j := range squares {
		squares[j] = math.Sqrt(squares[j])
	}
	return squares, true
}

// Distribution is what samples of one output say.
type Distribution struct {
	Mean, StdDev float64
	Low, High    float64 // between them the middle 95 % of the samples
}

// MonteCarlo draws n ≥ 2 samples of the inputs, each normal about x_i with standard
// deviation u_i, from a stream fixed by the seed. Samples at which the model fails
// are left out and counted.
func MonteCarlo(m Model, x, u []float64, outputs, n int, seed uint64) (d []Distribution, failed int) {
	r := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	draws := make([][]float64, outputs)
	at, y := make([]float64, len(x)), make([]float64, outputs)
	for range n {
		for i := range at {
			at[i] = x[i] + u[i]*r.NormFloat64()
		}
		if !m(at, y) {
			failed++
			continue
		}
		for j := range draws {
			draws[j] = append(draws[j], y[j])
		}
	}
	if n-failed < 2 {
		return nil, failed
	}
	d = make([]Distribution, outputs)
	for j, s := range draws {
		slices.Sort(s)
		mean, dev := stat.MeanStdDev(s, nil)
		d[j] = Distribution{Mean: mean, StdDev: dev,
			Low: stat.Quantile(0.025, stat.Empirical, s, nil), High: stat.Quantile(0.975, stat.Empirical, s, nil)}
	}
	return d, failed
}
