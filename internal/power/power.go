// Package power raises numbers to one fixed negative exponent, which is what a
// gas spring does millions of times in a sweep. It is some ten times faster than
// math.Pow and agrees with it to 2e-15. Everything in it is safe for concurrent use.
package power

import (
	"math"
	"sync"
	"sync/atomic"
)

const (
	perOctave = 1 << cellBits // cells from one power of two to the next
	cellBits  = 7
	octaves   = 9
	minOctave = -5 // bases below 2^-5 or from 2^4 up go to math.Pow
	shift     = 52 - cellBits
	first     = (1023 + minOctave) << cellBits // the upper bits of 2^minOctave
)

// Cells is the number of cells; an index from there up has no cell.
const Cells = octaves * perOctave

// Inverse computes u^−n for one n. It is immutable.
//
// The bases are cut in cells by their upper bits. With u = c·(1+t), where c is about
// the middle of the cell and so |t| ≤ 2^-8, u^−n is the tabulated c^−n times a series
// in t, which five terms carry to rounding.
type Inverse struct {
	n                  float64
	b1, b2, b3, b4, b5 float64
	power              [Cells]float64 // c^−n
}

// reciprocal is 1/c of every cell, and logarithm that of the first octave's: the same for
// every exponent, filled in with the first table.
var (
	reciprocal [Cells]float64
	logarithm  [perOctave]float64
	prepare    = sync.OnceFunc(func() {
		for i := range reciprocal {
			c := 1 + (float64(i%perOctave)+0.5)/perOctave
			reciprocal[i] = math.Ldexp(1/c, -(i/perOctave + minOctave))
			logarithm[i%perOctave] = math.Log(1 / c)
		}
	})
)

// recent keeps the last tables made, one a slot, because a study asks for the
// same few exponents again and again.
var recent [16]atomic.Pointer[Inverse]

// NewInverse returns the table for exponent −n; n is finite and above 0.
func NewInverse(n float64) *Inverse {
	bits := math.Float64bits(n)
	slot := &recent[(bits*0x9e3779b97f4a7c15)>>60]
	if p := slot.Load(); p != nil && p.n == n {
		return p
	}
	p := tabulate(n)
	slot.Store(p)
	return p
}

func tabulate(n float64) *Inverse {
	p := &Inverse{n: n}
	var b [7]float64 // (1+t)^−n = Σ b_i·t^i
	b[0] = 1
	for i := range 6 {
		b[i+1] = b[i] * (-n - float64(i)) / float64(i+1)
	}
	// The sixth term is spread over the others by the Chebyshev polynomial T₆ on |t| ≤ h, which
	// leaves a 32nd of it: C. Lanczos, Applied Analysis (1956), on economization (from memory).
	const h2 = 1.0 / (4 * perOctave * perOctave)
	p.b1, p.b2, p.b3 = b[1], b[2]-b[6]*h2*h2*18/32, b[3]
	p.b4, p.b5 = b[4]+b[6]*h2*48/32, b[5]

	prepare()
	var octave [octaves]float64
	for k := range octave {
		octave[k] = math.Exp2(-n * float64(k+minOctave))
	}
	for i, log := range logarithm {
		c := math.Exp(n * log)
		for k := range octave {
			p.power[k*perOctave+i] = octave[k] * c
		}
	}
	return p
}

// Of is u^−n. For u below 0 it is NaN, unless n is whole.
func (p *Inverse) Of(u float64) float64 {
	if i := Cell(u); i < Cells {
		return p.At(i, u)
	}
	return p.Far(u)
}

// Cell is the index of the cell of u, or Cells and more where it has none. Cell, At and
// Far are Of in parts that the compiler puts in line.
func Cell(u float64) uint64 { return math.Float64bits(u)>>shift - first }

// At is u^−n for u in cell i.
func (p *Inverse) At(i uint64, u float64) float64 {
	return series(p.power[i], u*reciprocal[i]-1, p.b1, p.b2, p.b3, p.b4, p.b5)
}

// series is c·(1+t)^−n. It takes plain numbers so that a loop keeps them in registers.
func series(c, t, b1, b2, b3, b4, b5 float64) float64 {
	t2 := t * t
	return c + c*t*(b1+t*b2+t2*(b3+t*b4+t2*b5))
}

// Far is u^−n for u in no cell.
func (p *Inverse) Far(u float64) float64 { return math.Pow(u, -p.n) }

// Fill is Of at u = 1 − slope·x for every x, as many as dst has.
func Fill[X ~float64](p *Inverse, dst []float64, xs []X, slope float64) {
	xs = xs[:len(dst)]
	for j, x := range xs {
		u := 1 - slope*float64(x)
		i := Cell(u)
		if i >= Cells {
			dst[j] = p.Far(u)
			continue
		}
		dst[j] = p.At(i, u)
	}
}

// Add adds weight times Of at u = 1 − slope·x for every x, as many as dst has.
func Add[Y, X ~float64](p *Inverse, dst []Y, xs []X, weight, slope float64) {
	xs = xs[:len(dst)]
	b1, b2, b3, b4, b5 := p.b1, p.b2, p.b3, p.b4, p.b5
	for j, x := range xs {
		u := 1 - slope*float64(x)
		i := Cell(u)
		if i >= Cells { // no call within the loop, which would empty the registers
			dst[j] += Y(weight * p.Far(u))
			Add(p, dst[j+1:], xs[j+1:], weight, slope)
			return
		}
		dst[j] += Y(weight * series(p.power[i], u*reciprocal[i]-1, b1, b2, b3, b4, b5))
	}
}
