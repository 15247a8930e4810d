package fit

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

const (
	maxSteps  = 500
	gradient  = 1e-10 // cosine between residuals and a column of J at which a point counts as stationary
	smallStep = 1e-12 // of the width of the bounds
)

// end is where a search came to.
type end struct {
	z       []float64 // in the unit box
	squares float64   // Σr² there
	steps   int
	settled bool
}

// search minimizes from the start and from either side of it in every
// direction, and returns where these searches ended, the best first.
func (p *problem) search() []end {
	ends := []end{p.minimize(p.start())}
	for i := range p.free {
		for _, side := range []float64{0.1, 0.9} {
			z := p.start()
			z[i] = side
			ends = append(ends, p.minimize(z))
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int {
		switch {
		case a.settled && !b.settled:
			return -1
		case b.settled && !a.settled:
			return 1
		}
		return cmp.Compare(a.squares, b.squares)
	})
	return ends
}

// minimize descends from z in the unit box.
func (p *problem) minimize(z []float64) end {
	n := len(p.free)
	normal, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	squares := p.normal(z, normal, right)
	trial, nextNormal, nextRight := make([]float64, n), mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	damping := 1e-3
	for steps := 1; steps <= maxSteps; steps++ {
		moving := inside(z, normal, right)
		if stationary(moving, normal, right, squares) {
			return end{z, squares, steps, true}
		}
		length := step(moving, z, trial, normal, right, damping)
		if length <= smallStep {
			return end{z, squares, steps, true}
		}
		if next := p.normal(trial, nextNormal, nextRight); next < squares {
			z, trial = trial, z
			normal, nextNormal = nextNormal, normal
			right, nextRight = nextRight, right
			squares = next
			damping = max(damping/10, 1e-15)
		} else {
			damping *= 10
		}
	}
	return end{z, squares, maxSteps, false}
}

// normal fills in JᵀJ and Jᵀr at z and returns rᵀr, with r measured − model and
// J the derivatives of the model in the unit box.
func (p *problem) normal(z []float64, normal *mat.SymDense, right *mat.VecDense) float64 {
	normal.Zero()
	right.Zero()
	model := p.at(z)
	t := model.terms()
	var d [parameters]float64
	var squares float64
	for _, s := range p.samples {
		r := s.f - t.force(s.x, s.sign, &d)
		squares += r * r
		for i, q := range p.free {
			di := d[q.parameter] * (q.high - q.low)
			right.SetVec(i, right.AtVec(i)+di*r)
			for j, w := range p.free[:i+1] {
				normal.SetSym(j, i, normal.At(j, i)+di*d[w.parameter]*(w.high-w.low))
			}
		}
	}
	return squares
}

// inside lists the parameters free to move: not on a bound that the descent
// direction points beyond, and of some effect.
func inside(z []float64, normal *mat.SymDense, right *mat.VecDense) []int {
	var moving []int
	for i, v := range z {
		out := v <= 0 && right.AtVec(i) <= 0 || v >= 1 && right.AtVec(i) >= 0
		if !out && normal.At(i, i) > 0 {
			moving = append(moving, i)
		}
	}
	return moving
}

func stationary(moving []int, normal *mat.SymDense, right *mat.VecDense, squares float64) bool {
	for _, i := range moving {
		if math.Abs(right.AtVec(i)) > gradient*math.Sqrt(normal.At(i, i)*squares) {
			return false
		}
	}
	return true
}

// step writes the damped step from z, projected on the box, to trial and returns
// its largest part.
func step(moving []int, z, trial []float64, normal *mat.SymDense, right *mat.VecDense, damping float64) float64 {
	n := len(moving)
	a, b := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for k, i := range moving {
		for l, j := range moving[:k+1] {
			a.SetSym(l, k, normal.At(j, i))
		}
		a.SetSym(k, k, normal.At(i, i)*(1+damping))
		b.SetVec(k, right.AtVec(i))
	}
	var factor mat.Cholesky
	delta := mat.NewVecDense(n, nil)
	if !factor.Factorize(a) || factor.SolveVecTo(delta, b) != nil {
		// Too close to singular for this damping: down the gradient.
		for k, i := range moving {
			delta.SetVec(k, b.AtVec(k)/(normal.At(i, i)*(1+damping)*float64(n)))
		}
	}
	copy(trial, z)
	var length float64
	for k, i := range moving {
		trial[i] = min(1, max(0, z[i]+delta.AtVec(k)))
		length = max(length, math.Abs(trial[i]-z[i]))
	}
	return length
}
