package chamber

import "math"

// Pair is a main chamber and a second one of higher pressure behind a floating piston,
// which leaves its stop once the main one has reached that pressure. From there both
// share one,
//
//	p = ((V₁·p₁^(1/n) + V₂·p₂^(1/n)) / (V₁ + V₂ − A·x))ⁿ
//
// which is a single chamber of the joint volume.
type Pair struct {
	main, joint Chamber
	engage      float64 // travel at which the floating piston leaves its stop
	before      float64 // energy of main by then, less what joint would have
}

// NewPair is the pair with the volumes and pressures at travel 0, the floating piston on
// its stop: p2 is above p1.
func NewPair(area, v1, p1, v2, p2, ambient, n float64) Pair {
	pressure := math.Pow((v1*math.Pow(p1, 1/n)+v2*math.Pow(p2, 1/n))/(v1+v2), n)
	p := Pair{
		main:   New(area, v1, p1, ambient, n),
		joint:  New(area, v1+v2, pressure, ambient, n),
		engage: v1 * (1 - math.Pow(p1/p2, 1/n)) / area,
	}
	p.before = p.main.Energy(p.engage) - p.joint.Energy(p.engage)
	return p
}

// Engage is the travel at which the floating piston leaves its stop.
func (p *Pair) Engage() float64 { return p.engage }

// Force at x.
func (p *Pair) Force(x float64) float64 { return p.at(x).Force(x) }

// Rate at x; it drops where the floating piston leaves its stop.
func (p *Pair) Rate(x float64) float64 { return p.at(x).Rate(x) }

// Energy at x.
func (p *Pair) Energy(x float64) float64 {
	if c := p.at(x); c == &p.main {
		return c.Energy(x)
	}
	return p.joint.Energy(x) + p.before
}

// at is the chamber that acts at x.
func (p *Pair) at(x float64) *Chamber {
	if x < p.engage {
		return &p.main
	}
	return &p.joint
}
