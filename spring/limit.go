package spring

import (
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/units"
)

// Limit ends the stroke of a curve at a travel, where something else stops the
// fork: coils that bind, metal on metal, or oil that fills the last of a
// gas space of volume V over a piston of area A, which locks the fork
// hydraulically at x = V/A. A fork made by [Parallel] ends with its shortest
// part, so that one limited element ends it all. A travel that is not above 0
// fails, see [Err].
func Limit(c Curve, travel units.Length) Curve {
	if err := Err(c); err != nil {
		return Failed(err)
	}
	if !(travel > 0) {
		return Failed(&units.RangeError{Field: "travel", Value: travel, Want: "above 0 mm"})
	}
	return limited{c, travel}
}

type limited struct {
	c      Curve
	travel units.Length
}

func (l limited) Force(x units.Length) units.Force {
	if !(x <= l.travel) {
		return units.Force(nan)
	}
	return l.c.Force(x)
}

func (l limited) Rate(x units.Length) units.Stiffness {
	if !(x <= l.travel) {
		return units.Stiffness(nan)
	}
	return l.c.Rate(x)
}

func (l limited) Energy(x units.Length) units.Energy {
	if !(x <= l.travel) {
		return units.Energy(nan)
	}
	return l.c.Energy(x)
}

func (l limited) addTo(sum *chamber.Sum, factor float64) {
	add(sum, l.c, factor)
	sum.End(float64(l.travel))
}

func (l limited) Stroke() units.Length { return min(l.travel, l.c.Stroke()) }
