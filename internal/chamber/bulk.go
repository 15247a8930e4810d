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
	for len(xs) > 0 {
		s.evaluate(next(&force), next(&rate), next(&energy), next(&xs))
	}
}

// next cuts a block off a list.
func next[T any](list *[]T) []T {
	n := min(block, len(*list))
	head := (*list)[:n]
	*list = (*list)[n:]
	return head
}

func (s *Sum) evaluate(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	base, end := s.base, s.end()
	for i := range force {
		force[i] = units.Force(base.Force(within(xs[i], end)))
	}
	for i := range rate {
		rate[i] = units.Stiffness(base.Rate(within(xs[i], end)))
	}
	for i := range energy {
		energy[i] = units.Energy(base.Energy(within(xs[i], end)))
	}
	for i := range s.gases {
		if g := &s.gases[i]; g.power != nil {
			g.add(force, rate, energy, xs)
		} else {
			part{g, 1}.add(force, rate, energy, xs)
		}
	}
	for _, p := range s.parts {
		p.add(force, rate, energy, xs)
	}
}

// add is the part, point by point.
func (p part) add(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	for i := range force {
		force[i] += units.Force(p.factor * p.Force(float64(xs[i])))
	}
	for i := range rate {
		rate[i] += units.Stiffness(p.factor * p.Rate(float64(xs[i])))
	}
	for i := range energy {
		energy[i] += units.Energy(p.factor * p.Energy(float64(xs[i])))
	}
}

// add is all chambers of one exponent other than 1, one after another.
func (g *gas) add(force []units.Force, rate []units.Stiffness, energy []units.Energy, xs []units.Length) {
	var buffer [block]float64
	grow := buffer[:len(xs)] // u⁻ⁿ
	for _, t := range g.terms {
		if len(rate)+len(energy) == 0 {
			power.Add(g.power, force, xs, t.weight, t.slope)
			continue
		}
		power.Fill(g.power, grow, xs, t.slope)
		if len(energy) > 0 {
			g.addAll(t, grow, force, rate, energy, xs)
			continue
		}
		for i := range force {
			force[i] += units.Force(t.weight * grow[i])
		}
		stiffness := g.n * t.weight * t.slope
		for i := range rate {
			rate[i] += units.Stiffness(stiffness * grow[i] / (1 - t.slope*float64(xs[i])))
		}
	}
}

// addAll is one chamber of known u⁻ⁿ. The three together take hardly longer than the energy.
func (g *gas) addAll(t term, grow []float64, force []units.Force, rate []units.Stiffness, energy []units.Energy,
	xs []units.Length) {
	var noForce [block]units.Force
	var noRate [block]units.Stiffness
	if len(force) == 0 {
		force = noForce[:]
	}
	if len(rate) == 0 {
		rate = noRate[:]
	}
	n := len(grow)
	force, rate, energy, xs = force[:n], rate[:n], energy[:n], xs[:n]
	m := g.n - 1
	stiffness, stored := g.n*t.weight*t.slope, t.stored/m
	for i, w := range grow {
		s := t.slope * float64(xs[i])
		force[i] += units.Force(t.weight * w)
		rate[i] += units.Stiffness(stiffness * w / (1 - s))
		if m > closest && (s > small || s < -small) {
			energy[i] += units.Energy(stored * ((1-s)*w - 1)) // work without a call
		} else {
			energy[i] += units.Energy(t.stored * g.work(s, w))
		}
	}
}
