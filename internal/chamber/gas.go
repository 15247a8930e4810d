package chamber

import (
	"math"

	"example.org/forkcurve/internal/power"
)

// term is the force weight·(1 − slope·x)⁻ⁿ of one chamber, stored its p₀·V₀.
type term struct{ weight, slope, stored float64 }

// gas is all chambers of one exponent, without the ambient on their pistons.
type gas struct {
	n     float64
	power *power.Inverse // nil for n = 1
	terms []term
}

// Force at x.
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
func (g *gas) Rate(x float64) float64 {
	_, k := g.slope(x)
	return k
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

// Energy at x.
func (g *gas) Energy(x float64) (e float64) {
	for _, t := range g.terms {
		s := t.slope * x
		e += t.stored * work(s, g.n, grow(g.power, 1-s))
	}
	return e
}

// grow is u⁻ⁿ.
func grow(p *power.Inverse, u float64) float64 {
	if p == nil {
		return 1 / u
	}
	return p.Of(u)
}

const (
	small   = 1. / 16 // share of the volume for which eleven factors of the series are exact
	closest = 0.25    // n − 1 for which u¹⁻ⁿ − 1 of a table keeps all but the last digits
)

// work is (u¹⁻ⁿ − 1)/(n − 1), which tends to −ln u as n tends to 1: the work done on a gas
// compressed by the share s of its volume to u = 1 − s, over p₀·V₀. Where it can, it takes
// the u⁻ⁿ that is known; it is good to 1e-13.
func work(s, n, grow float64) float64 {
	m := n - 1
	switch {
	case s <= small && s >= -small:
		// The binomial series s·(1 + (m+1)/2·s·(1 + (m+2)/3·s·(1 + …))).
		w := 1.0
		for j := len(inverse) - 1; j > 0; j-- {
			w = 1 + w*s*((m+float64(j))*inverse[j])
		}
		return s * w
	case m > closest:
		return ((1-s)*grow - 1) / m
	case m == 0:
		return -math.Log(1 - s)
	default:
		return math.Expm1(-m*math.Log(1-s)) / m
	}
}

// inverse is 1/(j + 1).
var inverse = [...]float64{1, 1. / 2, 1. / 3, 1. / 4, 1. / 5, 1. / 6, 1. / 7, 1. / 8, 1. / 9, 1. / 10, 1. / 11, 1. / 12}
