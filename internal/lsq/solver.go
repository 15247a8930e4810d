package lsq

import (
	"context"
	"math"

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
	jac              []float64 // by rows
	scale, slope     []float64 // D, and Jᵀr
	moving           []int     // parameters that no bound stops
	loose            []int     // those of moving that the step takes to no bound
	qr, damped       blas64.General
	step, bend       []float64 // of the moving parameters, times D
	tau, work        []float64
}

// NewSolver makes room for the problem.
func NewSolver(p Problem) *Solver {
	n, rows := p.Parameters, p.Residuals+p.Prior.rows()
	room := func(n int) []float64 { return make([]float64, n) }
	return &Solver{
		Tolerance: 1e-8,
		p:         p, r: room(rows), trialR: room(rows), trial: room(n), jac: room(rows * n), scale: room(n), slope: room(n),
		moving: make([]int, 0, n), loose: make([]int, 0, n), qr: blas64.General{Data: room(max(rows, n+1) * (n + 1))},
		damped: blas64.General{Data: room(2 * n * (n + 1))}, step: room(n), bend: room(n),
		tau: room(n + 1), work: room(64 * (n + 1)),
	}
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

// linearize fills in J at x and the QR factors of its moving columns.
func (s *Solver) linearize(x []float64) bool {
	if !s.p.differentiate(x, s.r, s.jac, s.trialR) {
		return false
	}
	n := s.p.Parameters
	clear(s.slope)
	clear(s.bend)
	for i, r := range s.r {
		for j, d := range s.jac[i*n : i*n+n] {
			s.slope[j] += d * r
			s.bend[j] += d * d
		}
	}
	s.moving = s.moving[:0]
	for j, squares := range s.bend {
		if !(squares <= math.MaxFloat64) {
			return false
		}
		s.scale[j] = max(s.scale[j], math.Sqrt(squares))
		if squares > 0 && !s.p.stops(j, x[j], s.slope[j]) {
			s.moving = append(s.moving, j)
		}
	}
	s.factor(s.moving, s.scale)
	return true
}

// factor leaves in qr the triangle of those columns of J over their scale, beside
// what it makes of the residuals.
func (s *Solver) factor(columns []int, scale []float64) {
	n, k := s.p.Parameters, len(columns)
	a := shape(&s.qr, max(len(s.r), k+1), k+1)
	for i, r := range s.r {
		row := a.Data[i*a.Stride : (i+1)*a.Stride]
		for c, j := range columns {
			row[c] = s.jac[i*n+j] / scale[j]
		}
		row[k] = r
	}
	clear(a.Data[len(s.r)*a.Stride : a.Rows*a.Stride])
	lapack64.Geqrf(*a, s.tau[:k+1], s.work, len(s.work))
}

func shape(m *blas64.General, rows, cols int) *blas64.General {
	m.Rows, m.Cols, m.Stride = rows, cols, cols
	return m
}

// explained is the length of the part of the residuals that the moving columns span.
func (s *Solver) explained() float64 {
	k := len(s.moving)
	return blas64.Nrm2(blas64.Vector{N: k, Data: s.qr.Data[k:], Inc: s.qr.Stride})
}

// solve leaves the damped step from x in step and its triangle in damped. Parameters
// that it takes to a bound go just there, and the others make the best of it.
func (s *Solver) solve(x []float64, damping float64) {
	k := len(s.moving)
	s.loose = s.loose[:0]
	for i := range k {
		s.loose, s.step[i] = append(s.loose, i), 0
	}
	for stopped := true; stopped; {
		n := len(s.loose)
		b := shape(&s.damped, 2*k, n+1)
		clear(b.Data[:b.Rows*b.Stride])
		for i := range k {
			row, from := b.Data[i*b.Stride:(i+1)*b.Stride], s.qr.Data[i*s.qr.Stride:i*s.qr.Stride+k+1]
			for c, m := range s.loose {
				if s.step[m] = 0; m >= i { // below lies how it was factored
					row[c] = from[m]
				}
			}
			row[n] = from[k] + floats.Dot(from[i:k], s.step[i:k])
		}
		for c := range s.loose {
			b.Data[(k+c)*b.Stride+c] = math.Sqrt(damping)
		}
		lapack64.Geqrf(*b, s.tau[:min(2*k, n+1)], s.work, len(s.work))
		v := blas64.Vector{N: n, Data: s.bend, Inc: 1}
		for c := range s.loose {
			s.bend[c] = -b.Data[c*b.Stride+n]
		}
		blas64.Trsv(blas.NoTrans, s.triangle(), v)
		stopped = false
		loose := s.loose[:0]
		for c, m := range s.loose {
			j := s.moving[m]
			s.step[m] = s.bend[c]
			if to := x[j] + s.step[m]/s.scale[j]; s.p.within(j, to) == to {
				loose = append(loose, m)
			} else {
				s.step[m], stopped = (s.p.within(j, to)-x[j])*s.scale[j], true
			}
		}
		s.loose = loose
	}
}

func (s *Solver) triangle() blas64.Triangular {
	return blas64.Triangular{Uplo: blas.Upper, Diag: blas.NonUnit,
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
	n, k := s.p.Parameters, len(s.loose)
	floats.SubTo(s.trial, s.trial, x) // part of the step in the parameters' own units
	clear(s.bend)
	for i, r := range s.r {
		row := s.jac[i*n : i*n+n]
		second := s.trialR[i] - r
		for j, d := range row {
			second -= d * s.trial[j]
		}
		for j, d := range row {
			s.bend[j] -= d * second
		}
	}
	a := s.bend[:k]
	for c, m := range s.loose {
		j := s.moving[m]
		a[c] = s.bend[j] / s.scale[j] * 2 / (part * part)
	}
	v := blas64.Vector{N: k, Data: a, Inc: 1}
	blas64.Trsv(blas.Trans, s.triangle(), v)
	blas64.Trsv(blas.NoTrans, s.triangle(), v)
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
	for i, k := 0, len(s.moving); i < k; i++ {
		row := s.qr.Data[i*s.qr.Stride : i*s.qr.Stride+k+1]
		change := floats.Dot(row[i:k], s.step[i:k])
		foretold -= change * (2*row[k] + change)
	}
	return foretold, moved
}
