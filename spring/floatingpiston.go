package spring

import (
	"fmt"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// FloatingPistonSpec is an air spring with a second positive chamber behind a
// floating piston, set to a higher pressure than the main one.
type FloatingPistonSpec struct {
	Air            AirSpec                // without the second chamber
	SecondVolume   units.Volume           // 2 mL to 1 L, the floating piston on its stop
	SecondPressure units.AbsolutePressure // above Air.Pressure, up to 65 bar absolute
}

// FloatingPiston is an air spring whose second positive chamber joins in once
// the main one has reached its pressure. From there both share one pressure,
//
//	p = ((V₁·p₁^(1/n) + V₂·p₂^(1/n)) / (V₁ + V₂ − A·x))ⁿ
//
// which is a single chamber of the joint volume. The friction of the floating
// piston is left out.
type FloatingPiston struct {
	flat
	engage float64 // m
}

var _ Curve = FloatingPiston{}

// NewFloatingPiston checks the specification.
func NewFloatingPiston(s FloatingPistonSpec) (FloatingPiston, error) {
	f := check.Of("FloatingPistonSpec")
	air := check.Of("AirSpec")
	sound := s.Air.check(air)
	f.Nest("Air", air.Err())
	sound = check.Between(f, "SecondVolume", s.SecondVolume, 2*units.Milliliter, 1*units.Liter) && sound
	if check.Absolute(f, "SecondPressure", s.SecondPressure, 0.2*units.Bar, maxPressure) &&
		!check.At(air.Err(), "AirSpec.Pressure") && s.SecondPressure.In(units.Pascal) <= s.Air.Pressure.In(units.Pascal) {
		f.Report("SecondPressure", s.SecondPressure, "above the main chamber's "+s.Air.Pressure.String(),
			"else the floating piston is never on its stop")
	}
	if swept := s.Air.swept(); sound && s.Air.Volume+s.SecondVolume <= swept {
		f.Report("Air.Volume", s.Air.Volume,
			fmt.Sprintf("with the second chamber above the %.1f swept over full travel", swept), "no gas would be left")
	}
	if err := f.Err(); err != nil {
		return FloatingPiston{}, err
	}
	a := s.Air.joined(s.rest(s.Air.Port))
	a.checkEqualized(f, "Air.")
	if err := f.Err(); err != nil {
		return FloatingPiston{}, err
	}
	positive := chamber.NewPair(float64(a.piston()), float64(a.Volume), a.Pressure.In(units.Pascal),
		float64(s.SecondVolume), s.SecondPressure.In(units.Pascal), a.Ambient.In(units.Pascal), a.Exponent)
	sum := chamber.NewSum(float64(a.Travel))
	sum.AddPair(positive, 1)
	sum.AddChamber(a.rodSide(), 1)
	return FloatingPiston{flat{sum}, positive.Engage()}, nil
}

// rest is the positive pressure at rest at x, in Pa: that of both chambers where the
// floating piston has left its stop.
func (s FloatingPistonSpec) rest(x units.Length) float64 {
	p1, p2 := s.Air.Pressure.In(units.Pascal), s.SecondPressure.In(units.Pascal)
	v1, v2 := float64(s.Air.Volume), float64(s.SecondVolume)
	swept := float64(s.Air.piston()) * float64(x)
	if swept < v1*(1-p1/p2) {
		return p1 * v1 / (v1 - swept)
	}
	return (p1*v1 + p2*v2) / (v1 + v2 - swept)
}

// Engage is the travel at which the floating piston leaves its stop. It may lie
// beyond the stroke.
func (c FloatingPiston) Engage() units.Length { return units.Length(c.engage) }
