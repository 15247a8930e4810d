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
