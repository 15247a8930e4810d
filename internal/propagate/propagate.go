// Package propagate carries standard uncertainties of independent inputs through
// a calculation: to first order, and by drawing samples. Its functions are safe for
// concurrent use as far as the model is.
//
// Sources: JCGM 100:2008, Guide to the expression of uncertainty in measurement,
// equation (10); JCGM 101:2008, its supplement on the Monte Carlo method.
package propagate

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/stat"
)

// Model calculates outputs y from inputs x, both of fixed length, and reports
// whether it could. It is called from several goroutines at once.
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
	parts, ok := Contributions(m, x, u, outputs)
	if !ok {
		return nil, false
	}
	return Combined(parts, outputs), true
}

// Contributions is what each input adds to each output, ∂y/∂x_i · u_i with its sign: a row of
// outputs for every input, of zeros where it has no uncertainty.
func Contributions(m Model, x, u []float64, outputs int) (rows [][]float64, ok bool) {
	all := make([]float64, (len(u)+1)*outputs)
	at, below := slices.Clone(x), all[len(u)*outputs:]
	rows = make([][]float64, len(u))
	for i, ui := range u {
		rows[i] = all[i*outputs : (i+1)*outputs : (i+1)*outputs]
		if ui == 0 {
			continue
		}
		at[i] = x[i] + ui
		if !m(at, rows[i]) {
			return nil, false
		}
		at[i] = x[i] - ui
		if !m(at, below) {
			return nil, false
		}
		at[i] = x[i]
		for j := range rows[i] {
			rows[i][j] = (rows[i][j] - below[j]) / 2
		}
	}
	return rows, true
}

// Combined is the standard uncertainty of each output that contributions make together.
func Combined(rows [][]float64, outputs int) []float64 {
	squares := make([]float64, outputs)
	for _, row := range rows {
		for j, d := range row {
			squares[j] += d * d
		}
	}
	for j := range squares {
		squares[j] = math.Sqrt(squares[j])
	}
	return squares
}

// Distribution is what samples of one output say.
type Distribution struct {
	Mean, StdDev float64
	Low, High    float64 // between them the middle 95 % of the samples
}

// MonteCarlo draws n ≥ 2 samples of the inputs, each normal about x_i with standard
// deviation u_i; an input of no uncertainty is not drawn. Samples at which the model fails
// are left out and counted; there is no distribution where fewer than two are left. The
// model is called from as many goroutines as there are processors, but the numbers follow
// from the seed alone. The quantiles need 8 bytes for every output of every sample. It
// ends early with the error of the context.
func MonteCarlo(ctx context.Context, m Model, x, u []float64, outputs, n int, seed uint64) (
	d []Distribution, failed int, err error) {
	draws := make([][]float64, outputs)
	for j := range draws {
		draws[j] = make([]float64, n)
	}
	blocks := (n + block - 1) / block
	drawn := make([]int, blocks) // of every block, at its start
	var next atomic.Int64
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), blocks) {
		workers.Go(func() {
			at, y := slices.Clone(x), make([]float64, outputs)
			for b := int(next.Add(1)) - 1; b < blocks && ctx.Err() == nil; b = int(next.Add(1)) - 1 {
				r := rand.New(rand.NewPCG(seed, uint64(b)*0x9e3779b97f4a7c15)) // a stream of its own
				for range min(block, n-b*block) {
					for i, ui := range u {
						if ui != 0 {
							at[i] = x[i] + ui*r.NormFloat64()
						}
					}
					if !m(at, y) {
						continue
					}
					for j := range draws {
						draws[j][b*block+drawn[b]] = y[j]
					}
					drawn[b]++
				}
			}
		})
	}
	workers.Wait()
	if err := ctx.Err(); err != nil {
		return nil, 0, err
	}
	left := 0
	for b, count := range drawn {
		for j := range draws {
			copy(draws[j][left:], draws[j][b*block:b*block+count])
		}
		left += count
	}
	if left < 2 {
		return nil, n - left, nil
	}
	d = make([]Distribution, outputs)
	for j := range d {
		workers.Go(func() { d[j] = distribution(draws[j][:left]) })
	}
	workers.Wait()
	return d, n - left, nil
}

// block is how many samples share a stream: few, so that a thousand keep all processors busy.
const block = 64

// distribution sorts the samples.
func distribution(s []float64) Distribution {
	slices.Sort(s)
	mean, dev := stat.MeanStdDev(s, nil)
	return Distribution{Mean: mean, StdDev: dev,
		Low: stat.Quantile(0.025, stat.Empirical, s, nil), High: stat.Quantile(0.975, stat.Empirical, s, nil)}
}
