package spring

import "example.org/forkcurve/units"

// Parallel is the sum of curves that share their travel, as the springs and gas
// spaces of both legs do through the axle. Its stroke is the shortest of
// theirs. Nil curves are left out; with nothing left the stroke is 0.
func Parallel(curves ...Curve) Curve {
	var p parallel
	for _, c := range curves {
		switch c := c.(type) {
		case nil:
		case parallel:
			p = append(p, c...)
		default:
			p = append(p, c)
		}
	}
	if len(p) == 1 {
		return p[0]
	}
	return p
}

type parallel []Curve

func (p parallel) Force(x units.Length) units.Force {
	if len(p) == 0 {
		return units.Force(nan)
	}
	var sum units.Force
	for _, c := range p {
		sum += c.Force(x)
	}
	return sum
}

func (p parallel) Rate(x units.Length) units.Stiffness {
	if len(p) == 0 {
		return units.Stiffness(nan)
	}
	var sum units.Stiffness
	for _, c := range p {
		sum += c.Rate(x)
	}
	return sum
}

func (p parallel) Energy(x units.Length) units.Energy {
	if len(p) == 0 {
		return units.Energy(nan)
	}
	var sum units.Energy
	for _, c := range p {
		sum += c.Energy(x)
	}
	return sum
}

func (p parallel) Stroke() units.Length {
	if len(p) == 0 {
		return 0
	}
	stroke := p[0].Stroke()
	for _, c := range p[1:] {
		stroke = min(stroke, c.Stroke())
	}
	return stroke
}
