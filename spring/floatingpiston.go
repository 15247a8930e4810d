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
	Air            AirSpec
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
	span
	positive chamber.Pair
	negative chamber.Chamber // the zero one adds nothing
}

var _ Curve = FloatingPiston{}

// NewFloatingPiston checks the specification.
func NewFloatingPiston(s FloatingPistonSpec) (FloatingPiston, error) {
	f := check.Of("FloatingPistonSpec")
	s.Air.check(f)
	check.Between(f, "SecondVolume", s.SecondVolume, 2*units.Milliliter, 1*units.Liter)
	if check.Absolute(f, "SecondPressure", s.SecondPressure, 0.2*units.Bar, maxPressure) &&
		s.SecondPressure.In(units.Pascal) <= s.Air.Pressure.In(units.Pascal) {
		f.Report("SecondPressure", s.SecondPressure, "above the main chamber's "+s.Air.Pressure.String(), "else the floating piston is never on its stop")
	}
	if swept := s.Air.swept(); s.Air.Volume > 0 && s.Air.Volume+s.SecondVolume <= swept {
		f.Report("Air.Volume", s.Air.Volume, fmt.Sprintf("with the second chamber above the %.1f swept over full travel", swept), "no gas would be left")
	}
	if err := f.Err(); err != nil {
		return FloatingPiston{}, err
	}
	s = s.Equalized()
	s.Air.checkEqualized(f, "Air.")
	if err := f.Err(); err != nil {
		return FloatingPiston{}, err
	}
	a := s.Air
	return FloatingPiston{
		span: span(a.Travel),
		positive: chamber.NewPair(float64(a.piston()), float64(a.Volume), a.Pressure.In(units.Pascal),
			float64(s.SecondVolume), s.SecondPressure.In(units.Pascal), a.Ambient.In(units.Pascal), a.Exponent),
		negative: a.behind(),
	}, nil
}

// Equalized fills in the negative pressure as [AirSpec.Equalized] does; where the
// floating piston has left its stop before the port, both positive chambers share
// the pressure there.
func (s FloatingPistonSpec) Equalized() FloatingPistonSpec {
	shared, _ := s.rest(s.Air.Port)
	s.Air = s.Air.meeting(shared)
	return s
}

// About is the spring that has settled at rest at x and moves from there with
// exponent n, as [AirSpec.About].
func (s FloatingPistonSpec) About(x units.Length, n float64) FloatingPistonSpec {
	s = s.Equalized()
	rest, joint := s.rest(x)
	main := s.Air.Pressure
	s.Air = s.Air.About(x, n)
	if joint {
		// Each chamber keeps its own gas.
		s.Air.Pressure = settled(main, main.In(units.Pascal)/rest, n)
		s.SecondPressure = settled(s.SecondPressure, s.SecondPressure.In(units.Pascal)/rest, n)
	}
	return s
}

// rest is the positive pressure at rest at x, in Pa, and whether both chambers
// have it.
func (s FloatingPistonSpec) rest(x units.Length) (p float64, joint bool) {
	p1, p2 := s.Air.Pressure.In(units.Pascal), s.SecondPressure.In(units.Pascal)
	v1, v2 := float64(s.Air.Volume), float64(s.SecondVolume)
	swept := float64(s.Air.piston()) * float64(x)
	if swept < v1*(1-p1/p2) {
		return p1 * v1 / (v1 - swept), false
	}
	return (p1*v1 + p2*v2) / (v1 + v2 - swept), true
}

// Force is the sum over the chambers.
func (c FloatingPiston) Force(x units.Length) units.Force {
	if !c.holds(x) {
		return units.Force(nan)
	}
	return units.Force(c.positive.Force(float64(x)) + c.negative.Force(float64(x)))
}

// Rate drops where the floating piston leaves its stop.
func (c FloatingPiston) Rate(x units.Length) units.Stiffness {
	if !c.holds(x) {
		return units.Stiffness(nan)
	}
	return units.Stiffness(c.positive.Rate(float64(x)) + c.negative.Rate(float64(x)))
}

// Energy is the work of the fork on all chambers and on the ambient.
func (c FloatingPiston) Energy(x units.Length) units.Energy {
	if !c.holds(x) {
		return units.Energy(nan)
	}
	return units.Energy(c.positive.Energy(float64(x)) + c.negative.Energy(float64(x)))
}

func (c FloatingPiston) addTo(s *chamber.Sum, factor float64) {
	s.AddPair(c.positive, factor)
	s.AddChamber(c.negative, factor)
	s.End(float64(c.span))
}

// Engage is the travel at which the floating piston leaves its stop. It may lie
// beyond the stroke.
func (c FloatingPiston) Engage() units.Length { return units.Length(c.positive.Engage()) }
