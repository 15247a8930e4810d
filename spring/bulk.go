package spring

import (
	"slices"

	"example.org/forkcurve/units"
)

// AppendForces appends the force at every x, NaN outside the stroke. Springs and
// sums of this package are read in bulk, faster than one point after another.
func AppendForces(dst []units.Force, c Curve, xs []units.Length) []units.Force {
	if s := sumOf(c); s != nil {
		dst, added := grow(dst, len(xs))
		s.Evaluate(added, nil, nil, xs)
		return dst
	}
	for _, x := range xs {
		dst = append(dst, c.Force(x))
	}
	return dst
}

// AppendRates appends the rate at every x as [AppendForces] does the force.
func AppendRates(dst []units.Stiffness, c Curve, xs []units.Length) []units.Stiffness {
	if s := sumOf(c); s != nil {
		dst, added := grow(dst, len(xs))
		s.Evaluate(nil, added, nil, xs)
		return dst
	}
	for _, x := range xs {
		dst = append(dst, c.Rate(x))
	}
	return dst
}

// AppendEnergies appends the energy at every x as [AppendForces] does the force.
func AppendEnergies(dst []units.Energy, c Curve, xs []units.Length) []units.Energy {
	if s := sumOf(c); s != nil {
		dst, added := grow(dst, len(xs))
		s.Evaluate(nil, nil, added, xs)
		return dst
	}
	for _, x := range xs {
		dst = append(dst, c.Energy(x))
	}
	return dst
}

// AppendPoints appends all of the curve at every x; a gas spring takes one power for the
// three.
func AppendPoints(dst []Point, c Curve, xs []units.Length) []Point {
	const block = 128
	var force [block]units.Force
	var rate [block]units.Stiffness
	var energy [block]units.Energy
	s := sumOf(c)
	if s == nil {
		for _, x := range xs {
			dst = append(dst, At(c, x))
		}
		return dst
	}
	dst = slices.Grow(dst, len(xs))
	for xs := range slices.Chunk(xs, block) {
		s.Evaluate(force[:len(xs)], rate[:len(xs)], energy[:len(xs)], xs)
		for i, x := range xs {
			dst = append(dst, Point{Travel: x, Force: force[i], Rate: rate[i], Energy: energy[i]})
		}
	}
	return dst
}

// grow is dst with n more values, and those.
func grow[T any](dst []T, n int) (whole, added []T) {
	whole = slices.Grow(dst, n)[:len(dst)+n]
	return whole, whole[len(dst):]
}
