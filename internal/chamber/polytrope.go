package chamber

import (
	"math"

	"example.org/forkcurve/internal/power"
)

// polytrope is the change of state p·Vⁿ = const.
type polytrope struct {
	n     float64
	power *power.Inverse // nil for n = 1
	near  series         // of the work near the start
}

func newPolytrope(n float64) polytrope {
	p := polytrope{n: n}
	if n != 1 {
		p.power = power.NewInverse(n)
	}
	for i := range p.near {
		p.near[i] = (n + float64(i)) * inverse[i]
	}
	return p
}

// grow is the pressure over that at the start, u⁻ⁿ, at a volume of u times that at the start.
func (p *polytrope) grow(u float64) float64 {
	if p.power == nil {
		return 1 / u
	}
	return p.power.Of(u)
}

const (
	small   = 1. / 16 // share of the volume for which eleven factors of the series are exact
	closest = 0.25    // n − 1 for which u¹⁻ⁿ − 1 of a table keeps all but the last digits
)

// work is (u¹⁻ⁿ − 1)/(n − 1), which tends to −ln u as n tends to 1: the work done on a gas
// compressed by the share s of its volume to u = 1 − s, over p₀·V₀. Where it can, it takes
// the u⁻ⁿ that is known; it is good to 1e-13.
func (p *polytrope) work(s, grow float64) float64 {
	switch m := p.n - 1; {
	case s <= small && s >= -small:
		return p.near.at(s)
	case m > closest:
		return ((1-s)*grow - 1) / m
	case m == 0:
		return -math.Log(1 - s)
	default:
		return math.Expm1(-m*math.Log(1-s)) / m
	}
}

// series is the work for a small s, s·(1 + c₁·s·(1 + c₂·s·(1 + …))), the binomial one with
// c_j = (n − 1 + j)/(j + 1).
type series [11]float64

func (c *series) at(s float64) float64 {
	w := 1.0
	for i := len(c) - 1; i >= 0; i-- {
		w = 1 + w*(s*c[i])
	}
	return s * w
}

// inverse is 1/(j + 1) from j = 1 on.
var inverse = series{1. / 2, 1. / 3, 1. / 4, 1. / 5, 1. / 6, 1. / 7, 1. / 8, 1. / 9, 1. / 10, 1. / 11, 1. / 12}
