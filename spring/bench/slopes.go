package bench

import (
	"slices"

	"gonum.org/v1/gonum/mat"
)

// slopes are the derivatives of m numbers in z by central differences, a step of each unknown to either side. Where no
// fork is on one side they are taken from z on; where none is on either side the error says why.
func slopes(z, steps []float64, m int, f func(z, dst []float64) error) (*mat.Dense, error) {
	jac := mat.NewDense(m, len(z), nil)
	moved := slices.Clone(z)
	low, high := make([]float64, m), make([]float64, m)
	for j, h := range steps {
		side := func(by float64, dst []float64) error {
			moved[j] = z[j] + by
			return f(moved, dst)
		}
		width := 2 * h
		err := side(-h, low)
		switch above := side(h, high); {
		case err != nil && above == nil:
			width, err = h, side(0, low)
		case err == nil && above != nil:
			width, err = h, side(0, high)
		}
		if err != nil {
			return nil, err
		}
		moved[j] = z[j]
		for i := range m {
			jac.Set(i, j, (high[i]-low[i])/width)
		}
	}
	return jac, nil
}

// gradient is the slopes of one number, with one step for all unknowns.
func gradient(z []float64, step float64, f func(z, dst []float64) error) ([]float64, error) {
	jac, err := slopes(z, slices.Repeat([]float64{step}, len(z)), 1, f)
	if err != nil {
		return nil, err
	}
	return jac.RawRowView(0), nil
}
