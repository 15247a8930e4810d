package chamber

import "example.org/forkcurve/internal/power"

// gas is all chambers of one exponent.
type gas struct {
	n     float64
	power *power.Inverse // nil for n = 1
	terms []term
}

// term is the force weight·(1 − slope·x)⁻ⁿ of one chamber, stored its p₀·V₀.
type term struct{ weight, slope, stored float64 }

// Force of the gas alone at x, without the ambient on the pistons.
func (g *gas) Force(x float64) (f float64) {
	if g.power == nil {
		for _, t := range g.terms {
			f += t.weight / (1 - t.slope*x)
		}
		return f
	}
	for _, t := range g.terms {
		u := 1 - t.slope*x
		if i := power.Cell(u); i < power.Cells {
			f += t.weight * g.power.At(i, u)
		} else {
			f += t.weight * g.power.Far(u)
		}
	}
	return f
}

// Rate at x.
func (g *gas) Rate(x float64) (k float64) {
	for _, t := range g.terms {
		u := 1 - t.slope*x
		k += t.weight * t.slope * g.grow(u) / u
	}
	return g.n * k
}

// slope is force and rate at x from one power a chamber.
func (g *gas) slope(x float64) (f, k float64) {
	for _, t := range g.terms {
		per := 1 / (1 - t.slope*x) // 1/u
		w := t.weight * per
		if g.power != nil {
			w = t.weight * g.power.Of(1-t.slope*x)
		}
		f += w
		k += w * t.slope * per
	}
	return f, g.n * k
}

// Energy of the gas alone at x.
func (g *gas) Energy(x float64) (e float64) {
	for _, t := range g.terms {
		s := t.slope * x
		e += t.stored * g.work(s, g.grow(1-s))
	}
	return e
}

// grow is u⁻ⁿ.
func (g *gas) grow(u float64) float64 {
	if g.power == nil {
		return 1 / u
	}
	return g.power.Of(u)
}

// work is (u¹⁻ⁿ − 1)/(n − 1), which tends to −ln u as n tends to 1: the work done on a gas
// compressed by the share s of its volume to u = 1 − s, over p₀·V₀. The u⁻ⁿ given serves
// where u¹⁻ⁿ is far enough from 1, a series where s is small; both to 1e-13.
func (g *gas) work(s, grow float64) float64 {
	switch m := g.n - 1; {
	case s <= small && s >= -small:
		return smallWork(s, m)
	case m > closest:
		return ((1-s)*grow - 1) / m
	default:
		return work(1-s, g.n)
	}
}

// closest to 1 that n may come before u¹⁻ⁿ from a table loses more than the last digits.
const closest = 0.2

// small is a share of the volume for which twelve terms of the series are exact.
const small = 1. / 16

// smallWork is the work by the binomial series s·(1 + (m+1)/2·s·(1 + (m+2)/3·s·(1 + …))).
func smallWork(s, m float64) float64 {
	w := 1.0
	for j := len(inverse) - 1; j > 0; j-- {
		w = 1 + w*s*((m+float64(j))*inverse[j])
	}
	return s * w
}

// inverse is 1/(j + 1).
var inverse = [...]float64{1, 1. / 2, 1. / 3, 1. / 4, 1. / 5, 1. / 6, 1. / 7, 1. / 8, 1. / 9, 1. / 10, 1. / 11, 1. / 12}
