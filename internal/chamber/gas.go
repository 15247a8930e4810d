package chamber

import "example.org/forkcurve/internal/power"

// term is the force weight·(1 − slope·x)⁻ⁿ of one chamber, stored its p₀·V₀.
type term struct{ weight, slope, stored float64 }

// gas is all chambers of one exponent, without the ambient on their pistons.
type gas struct {
	polytrope
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
		e += t.stored * g.work(s, g.grow(1-s))
	}
	return e
}
