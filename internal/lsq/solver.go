package lsq

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
)

const (
	maxSteps     = 1000
	smallStep    = 1e-13 // of the size of a parameter
	rounding     = 1e-13 // of the squares
	firstDamping = 1e-2
	leastDamping = 1e-15
	maxBend      = 0.75 // of twice the acceleration to the step
)

// Solver minimizes one problem, from as many starts as wanted.
type Solver struct {
	Tolerance float64                // part of the residuals that J explains before the last step, 1e-8 at first
	Quit      func(x []float64) bool // asked after every step; true ends the search as Stopped. Nil: never

	p                Problem
	r, trialR, trial []float64
	jac, model       [][]float64    // the columns of J, and of each what the model fills in
	scale, slope     []float64      // D, and Jᵀr
	moving           []int          // parameters that no bound stops
	loose            []int          // those of moving that the step takes to no bound
	factors, damped  blas64.General // LQ of Jᵀ above r, which is the transpose of QR
	step, bend       []float64      // of the moving parameters, times D
	tau, work        []float64
}

// NewSolver makes room for the problem.
func NewSolver(p Problem) *Solver {
	n, rows := p.Parameters, p.Residuals+p.Prior.rows()
	room := func(n int) []float64 { return make([]float64, n) }
	s := &Solver{Tolerance: 1e-8, p: p, r: room(rows), trialR: room(rows), trial: room(n),
		jac: make([][]float64, n), model: make([][]float64, n), scale: room(n), slope: room(n),
		moving: make([]int, 0, n), loose: make([]int, 0, n), step: room(n), bend: room(n),
		tau: room(n + 1), work: room(64 * (n + 1))}
	s.factors.Data, s.damped.Data = room((n+1)*max(rows, n+1)), room((n+1)*2*n)
	for j := range s.jac {
		s.jac[j] = room(rows)
		s.model[j] = s.jac[j][:p.Residuals:p.Residuals]
		for i := range p.Prior.rows() {
			s.jac[j][p.Residuals+i] = p.Prior.Weight.At(i, j)
		}
	}
	return s
}

// Minimize searches from x, brought within the bounds, and leaves there where it
// ended.
func (s *Solver) Minimize(ctx context.Context, x []float64) Result {
	s.p.project(x)
	clear(s.scale)
	if !s.p.evaluate(x, s.r) || !s.linearize(x) {
		return Result{Squares: math.NaN(), Reason: OutOfDomain}
	}
	res := Result{Squares: floats.Dot(s.r, s.r), Reason: Stopped}
	damping, grow, gain := firstDamping, 2.0, 0.0
	if s.p.Lower != nil && s.p.Upper != nil {
		gain = 1 // a first step that J foretells badly does not go far there
	}
	last, beyond := false, false // only last digits are left to gain; the model did not hold at the last trial
	for ; res.Steps < maxSteps; res.Steps++ {
		if ctx.Err() != nil {
			res.Reason = Canceled
			return res
		}
		if last = last || s.explained() <= s.Tolerance*math.Sqrt(res.Squares); last {
			damping = leastDamping
		}
		s.solve(x, damping)
		if _, moved := s.move(x); !moved && !last {
			res.Reason = SmallStep
			if beyond {
				res.Reason = OutOfDomain
			}
			return res
		}
		squares := math.Inf(1)
		if last || math.Abs(gain-1) < 0.5 || s.accelerate(x) {
			foretold, _ := s.move(x)
			if beyond = !s.p.evaluate(s.trial, s.trialR); !beyond {
				squares = floats.Dot(s.trialR, s.trialR)
			}
			gain = (res.Squares - squares) / foretold
		}
		switch {
		case squares < res.Squares || last && squares <= res.Squares*(1+rounding):
			copy(x, s.trial)
			s.r, s.trialR = s.trialR, s.r
			res.Squares = squares
			if last {
				res.Reason = Stationary
				return res
			}
			if !s.linearize(x) {
				res.Reason = OutOfDomain
				return res
			}
			if s.Quit != nil && s.Quit(x) {
				return res
			}
			damping, grow = max(leastDamping, damping*max(0.1, 1-math.Pow(2*gain-1, 3))), 2
		case last:
			res.Reason = Stationary
			return res
		default:
			last = squares <= res.Squares*(1+rounding)
			damping, grow = damping*grow, 2*grow
		}
	}
	return res
}

// linearize fills in J at x and the factors of its moving columns.
func (s *Solver) linearize(x []float64) bool {
	if !s.p.differentiate(x, s.r[:s.p.Residuals], s.model) {
		return false
	}
	s.moving = s.moving[:0]
	for j, d := range s.jac {
		squares := floats.Dot(d, d)
		if !(squares <= math.MaxFloat64) {
			return false
		}
		s.scale[j], s.slope[j] = max(s.scale[j], math.Sqrt(squares)), floats.Dot(d, s.r)
		if squares > 0 && !s.p.stops(j, x[j], s.slope[j]) {
			s.moving = append(s.moving, j)
		}
	}
	s.factor(s.moving, s.scale)
	return true
}

// factor leaves in factors the triangle of those columns of J over their scale and,
// below, what it makes of the residuals.
func (s *Solver) factor(columns []int, scale []float64) {
	k := len(columns)
	a := shape(&s.factors, k+1, max(len(s.r), k+1))
	for c, j := range columns {
		floats.ScaleTo(row(a, c)[:len(s.r)], 1/scale[j], s.jac[j])
	}
	copy(row(a, k), s.r)
	for c := range k + 1 {
		clear(row(a, c)[len(s.r):])
	}
	lapack64.Gelqf(*a, s.tau, s.work, len(s.work))
}

func shape(m *blas64.General, rows, cols int) *blas64.General {
	m.Rows, m.Cols, m.Stride = rows, cols, cols
	return m
}

func row(m *blas64.General, i int) []float64 { return m.Data[i*m.Stride : (i+1)*m.Stride] }

// explained is the length of the part of the residuals that the moving columns span.
func (s *Solver) explained() float64 {
	k := len(s.moving)
	return floats.Norm(row(&s.factors, k)[:k], 2)
}

// solve leaves the damped step from x in step and its triangle in damped. Parameters
// that it takes to a bound go just there, and the others make the best of it.
func (s *Solver) solve(x []float64, damping float64) {
	k := len(s.moving)
	clear(s.step)
	s.loose = s.loose[:0]
	for m := range k {
		s.loose = append(s.loose, m)
	}
	for stopped := true; stopped; {
		n := len(s.loose)
		b := shape(&s.damped, n+1, max(1, 2*k))
		clear(b.Data[:b.Rows*b.Stride])
		rest := row(b, n)
		copy(rest, row(&s.factors, k)[:k])
		for m, step := range s.step[:k] { // of those at a bound, as yet
			floats.AddScaled(rest[:m+1], step, row(&s.factors, m)[:m+1])
		}
		for c, m := range s.loose {
			copy(row(b, c), row(&s.factors, m)[:m+1])
			row(b, c)[k+c] = math.Sqrt(damping)
		}
		lapack64.Gelqf(*b, s.tau, s.work, len(s.work))
		for c, q := range rest[:n] {
			s.bend[c] = -q
		}
		blas64.Trsv(blas.Trans, s.triangle(), blas64.Vector{N: n, Data: s.bend, Inc: 1})
		stopped = false
		for c, m := range s.loose {
			j := s.moving[m]
			to := x[j] + s.bend[c]/s.scale[j]
			if within := s.p.within(j, to); within != to {
				s.step[m], stopped = (within-x[j])*s.scale[j], true
				s.loose[c] = -1
			}
		}
		if !stopped {
			for c, m := range s.loose {
				s.step[m] = s.bend[c]
			}
		}
		s.loose = slices.DeleteFunc(s.loose, func(m int) bool { return m < 0 })
	}
}

func (s *Solver) triangle() blas64.Triangular {
	return blas64.Triangular{Uplo: blas.Lower, Diag: blas.NonUnit,
		N: len(s.loose), Data: s.damped.Data, Stride: s.damped.Stride}
}

// accelerate adds to the step half of its geodesic acceleration, which makes up for
// the second derivative of r along the step as the step does for r. It returns false
// where that is so large that J is of no use so far.
func (s *Solver) accelerate(x []float64) bool {
	const part = 0.1 // of the step, at which r tells its second derivative
	copy(s.trial, x)
	for i, j := range s.moving {
		s.trial[j] += part * s.step[i] / s.scale[j]
	}
	if s.p.project(s.trial) {
		return true // the second derivative is not to be had there
	}
	if !s.p.evaluate(s.trial, s.trialR) {
		return false
	}
	floats.SubTo(s.trial, s.trial, x) // part of the step in the parameters' own units
	floats.Sub(s.trialR, s.r)
	for j, d := range s.jac {
		floats.AddScaled(s.trialR, -s.trial[j], d)
	}
	a := s.bend[:len(s.loose)]
	for c, m := range s.loose {
		j := s.moving[m]
		a[c] = -floats.Dot(s.jac[j], s.trialR) / s.scale[j] * 2 / (part * part)
	}
	v := blas64.Vector{N: len(a), Data: a, Inc: 1}
	blas64.Trsv(blas.NoTrans, s.triangle(), v)
	blas64.Trsv(blas.Trans, s.triangle(), v)
	if !(2*floats.Norm(a, 2) <= maxBend*floats.Norm(s.step[:len(s.moving)], 2)) {
		return false
	}
	for c, m := range s.loose {
		s.step[m] += a[c] / 2
	}
	return true
}

// move writes x after the step, within the bounds, to trial, and returns the
// reduction of squares that J foretells and whether x moves at all.
func (s *Solver) move(x []float64) (foretold float64, moved bool) {
	copy(s.trial, x)
	for i, j := range s.moving {
		s.trial[j] += s.step[i] / s.scale[j]
	}
	s.p.project(s.trial)
	for i, j := range s.moving {
		d := s.trial[j] - x[j]
		s.step[i] = d * s.scale[j]
		moved = moved || math.Abs(d) > smallStep*s.p.size(j, x[j])
	}
	k := len(s.moving)
	for i, q := range row(&s.factors, k)[:k] {
		var change float64
		for m := i; m < k; m++ {
			change += row(&s.factors, m)[i] * s.step[m]
		}
		foretold -= change * (2*q + change)
	}
	return foretold, moved
}
