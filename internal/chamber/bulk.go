package chamber

import (
	"example.org/forkcurve/internal/power"
	"example.org/forkcurve/units"
)

// block is how many points are evaluated together: enough to keep a core busy, few
// enough to stay in its first cache.
const block = 128

// Evaluate fills in force, rate and energy at every x. Each of the three is as long as
// xs, or nil where it is not asked for; they share their powers.
func (s *Sum) Evaluate(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	for at := 0; at < len(xs); at += block {
		end := min(at+block, len(xs))
		s.evaluate(span(force, at, end), span(rate, at, end), span(energy, at, end), xs[at:end])
	}
}

func span[T any](list []T, from, to int) []T {
	if list == nil {
		return nil
	}
	return list[from:to]
}

func (s *Sum) evaluate(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	for i := range force {
		force[i] = units.Force(s.base.Force(s.within(xs[i])))
	}
	for i := range rate {
		rate[i] = units.Stiffness(s.base.Rate(s.within(xs[i])))
	}
	for i := range energy {
		energy[i] = units.Energy(s.base.Energy(s.within(xs[i])))
	}
	for i := range s.gases {
		if g := &s.gases[i]; g.power != nil {
			g.add(force, rate, energy, xs)
		} else {
			add(g, 1, force, rate, energy, xs)
		}
	}
	for i := range s.pairs {
		add(&s.pairs[i].of, s.pairs[i].factor, force, rate, energy, xs)
	}
	for i := range s.paths {
		add(&s.paths[i].of, s.paths[i].factor, force, rate, energy, xs)
	}
	for i := range s.curves {
		add(&s.curves[i].of, s.curves[i].factor, force, rate, energy, xs)
	}
}

// element is a part of a sum.
type element interface {
	Force(x float64) float64
	Rate(x float64) float64
	Energy(x float64) float64
}

// add is a part of the sum, point by point.
func add(e element, factor float64, force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	for i := range force {
		force[i] += units.Force(factor * e.Force(float64(xs[i])))
	}
	for i := range rate {
		rate[i] += units.Stiffness(factor * e.Rate(float64(xs[i])))
	}
	for i := range energy {
		energy[i] += units.Energy(factor * e.Energy(float64(xs[i])))
	}
}

// add is all chambers of one exponent, not of n = 1.
func (g *gas) add(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	var buffer [block]float64
	grow := buffer[:len(xs)] // u⁻ⁿ
	for _, t := range g.terms {
		if rate == nil && energy == nil {
			power.Add(g.power, force, xs, t.weight, t.slope)
			continue
		}
		power.Fill(g.power, grow, xs, t.slope)
		for i := range force {
			force[i] += units.Force(t.weight * grow[i])
		}
		stiffness := g.n * t.weight * t.slope
		for i := range rate {
			rate[i] += units.Stiffness(stiffness * grow[i] / (1 - t.slope*float64(xs[i])))
		}
		m := g.n - 1
		for i := range energy {
			if s := t.slope * float64(xs[i]); m > closest && (s > small || s < -small) {
				energy[i] += units.Energy(t.stored / m * ((1-s)*grow[i] - 1))
			} else {
				energy[i] += units.Energy(t.stored * g.work(s, grow[i]))
			}
		}
	}
}
