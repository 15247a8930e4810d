package lsq

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

const (
	// collinear is the least to the greatest singular value below which columns of J are
	// one. Forward differences leave less.
	collinear = 1e-6
	involved  = 0.1 // part of a direction of no effect that names a parameter
)

// Determined is how well the residuals determine parameters, to first order at one
// point.
type Determined struct {
	Covariance *mat.SymDense // (JᵀJ)⁻¹; nil unless Rank is that of all
	Rank       int
	Singular   []float64 // values of J with columns of length 1, the greatest first
	Vague      []int     // positions of parameters that residuals do not change, or only together
}

// Determined tells of the listed parameters at x, the others known; false where the
// model does not hold.
func (s *Solver) Determined(x []float64, list []int) (Determined, bool) {
	k := len(list)
	if k == 0 {
		return Determined{}, true
	}
	if !s.p.evaluate(x, s.r) || !s.p.differentiate(x, s.r[:s.p.Residuals], s.model) {
		return Determined{}, false
	}
	var d Determined
	lengths := make([]float64, len(s.jac))
	for j, d := range s.jac {
		lengths[j] = floats.Norm(d, 2)
	}
	for c, j := range list {
		switch {
		case !(lengths[j] <= math.MaxFloat64):
			return Determined{}, false
		case lengths[j] == 0:
			d.Vague = append(d.Vague, c)
		}
	}
	if d.Vague != nil {
		return d, true
	}
	s.factor(list, lengths)
	triangle := mat.NewDense(k, k, nil)
	for i := range k {
		for c := i; c < k; c++ {
			triangle.Set(i, c, row(&s.factors, c)[i])
		}
	}
	var svd mat.SVD
	if !svd.Factorize(triangle, mat.SVDFull) {
		return Determined{}, false
	}
	var v mat.Dense
	svd.VTo(&v)
	d.Singular = svd.Values(nil)
	for d.Rank < k && d.Singular[d.Rank] >= collinear*d.Singular[0] {
		d.Rank++
	}
	if d.Rank < k {
		for c := range k {
			if math.Abs(v.At(c, k-1)) > involved {
				d.Vague = append(d.Vague, c)
			}
		}
		return d, true
	}
	d.Covariance = mat.NewSymDense(k, nil)
	for a, i := range list {
		for b, j := range list[:a+1] {
			var sum float64
			for c, value := range d.Singular {
				sum += v.At(a, c) * v.At(b, c) / (value * value)
			}
			d.Covariance.SetSym(b, a, sum/(lengths[i]*lengths[j]))
		}
	}
	return d, true
}
