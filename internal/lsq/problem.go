package lsq

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Problem is a sum of squares.
type Problem struct {
	Parameters int
	Residuals  int // of the model, without those of the prior

	// Evaluate writes the residuals at x to r. It returns false where the model
	// does not hold, and is then asked nearer to where it does.
	Evaluate func(x, r []float64) bool

	// Differentiate writes ∂r[i]/∂x[j] to jac[j][i], at x where the residuals are r.
	// Nil takes forward differences of Evaluate.
	Differentiate func(x, r []float64, jac [][]float64) bool

	Lower, Upper []float64 // bounds of each parameter; nil: none
	Prior        *Prior    // nil: flat
}

// Prior is a normal one, as the residuals Weight·(x − Mean): WeightᵀWeight is the
// inverse of the covariance. A parameter of which nothing is known has no row.
type Prior struct {
	Mean   []float64
	Weight *mat.Dense
}

func (p *Prior) rows() int {
	if p == nil {
		return 0
	}
	return p.Weight.RawMatrix().Rows
}

// evaluate adds the residuals of the prior to those of the model.
func (p *Problem) evaluate(x, r []float64) bool {
	if !p.Evaluate(x, r[:p.Residuals]) {
		return false
	}
	for i := range p.Prior.rows() {
		var sum float64
		for j, w := range p.Prior.Weight.RawRowView(i) {
			sum += w * (x[j] - p.Prior.Mean[j])
		}
		r[p.Residuals+i] = sum
	}
	return true
}

// differentiate fills in jac at x, where the residuals of the model are r.
func (p *Problem) differentiate(x, r []float64, jac [][]float64) bool {
	if p.Differentiate != nil {
		return p.Differentiate(x, r, jac)
	}
	for j := range jac {
		if !p.Forward(j, x, r, jac[j]) {
			return false
		}
	}
	return true
}

// Forward writes ∂r/∂x[j] to d by a forward difference, backward at the upper bound or
// where the model does not hold: r are the residuals at x. It leaves x as it was.
func (p *Problem) Forward(j int, x, r, d []float64) bool {
	was := x[j]
	h := 1e-7 * p.size(j, was)
	if p.Upper != nil && was+h > p.Upper[j] {
		h = -h
	}
	defer func() { x[j] = was }()
	x[j] = was + h
	if !p.Evaluate(x, d) {
		h = -h
		if x[j] = was + h; !p.Evaluate(x, d) {
			return false
		}
	}
	h = x[j] - was // as it was rounded
	for i, v := range d {
		d[i] = (v - r[i]) / h
	}
	return true
}

// size is what a change of parameter j is measured by: the width of its bounds, or
// its value.
func (p *Problem) size(j int, v float64) float64 {
	if p.Lower != nil && p.Upper != nil {
		if width := p.Upper[j] - p.Lower[j]; !math.IsInf(width, 0) {
			return width
		}
	}
	if v == 0 {
		return 1
	}
	return math.Abs(v)
}

// project brings x into the bounds and tells whether it had to.
func (p *Problem) project(x []float64) (outside bool) {
	for j, v := range x {
		x[j] = p.within(j, v)
		outside = outside || x[j] != v
	}
	return outside
}

// within is the value of parameter j nearest to v within its bounds.
func (p *Problem) within(j int, v float64) float64 {
	if p.Lower != nil {
		v = max(v, p.Lower[j])
	}
	if p.Upper != nil {
		v = min(v, p.Upper[j])
	}
	return v
}

// stops tells that a bound stops parameter j where the squares grow with slope.
func (p *Problem) stops(j int, v, slope float64) bool {
	return p.Lower != nil && v <= p.Lower[j] && slope >= 0 || p.Upper != nil && v >= p.Upper[j] && slope <= 0
}
