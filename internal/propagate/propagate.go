// Package propagate carries standard uncertainties of independent inputs through
// a calculation: to first order, and by drawing samples. Its functions are safe for
// concurrent use as far as the model is.
//
// Sources: JCGM 100:2008, Guide to the expression of uncertainty in measurement,
// equation (10); JCGM 101:2008, its supplement on the Monte Carlo method.
package propagate

import (
	"math"
	"slices"
)

// Model calculates outputs y from inputs x, both of fixed length, and reports
// whether it could. It is called from several goroutines at once.
type Model func(x, y []float64) bool

// Contributions is what each of the inputs x with standard uncertainties u adds to each output,
// ∂y/∂x_i · u_i with its sign, the derivatives taken over ± u_i: a row of outputs for every input, of
// zeros where it has no uncertainty, which costs nothing. It reports false when the model fails at a
// point, and is 0 where the output stands still to first order, however far it bends: then draw samples.
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

// Combined is the standard uncertainty of each output that contributions make together,
//
//	u²(y) = Σ (∂y/∂x_i · u_i)²
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
