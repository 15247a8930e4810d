package spring

import (
	"fmt"
	"math"

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
	main, joint, negative Chamber
	engage                float64 // m, travel at which the floating piston leaves its stop
	before                float64 // J, what main had stored by then, less what joint would have
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
	n := s.Air.Exponent
	p1, p2 := s.Air.Pressure.In(units.Pascal), s.SecondPressure.In(units.Pascal)
	v1, v2 := float64(s.Air.Volume), float64(s.SecondVolume)
	main := s.Air.positive()
	joint := main
	joint.Volume = units.Volume(v1 + v2)
	joint.Pressure = units.Absolute(units.Pressure(math.Pow((v1*math.Pow(p1, 1/n)+v2*math.Pow(p2, 1/n))/(v1+v2), n)))
	c := FloatingPiston{
		main:     newChamber(main),
		joint:    newChamber(joint),
		negative: s.Air.newNegative(),
		engage:   v1 * (1 - math.Pow(p1/p2, 1/n)) / float64(main.Area),
	}
	at := units.Length(c.engage)
	c.before = c.main.energy(c.main.ratio(at)) - c.joint.energy(c.joint.ratio(at))
	return c, nil
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
	if !c.main.holds(x) {
		return units.Force(nan)
	}
	p := c.positive(x)
	return units.Force(p.force(p.ratio(x)) + c.negative.force(c.negative.ratio(x)))
}

// Rate drops where the floating piston leaves its stop.
func (c FloatingPiston) Rate(x units.Length) units.Stiffness {
	if !c.main.holds(x) {
		return units.Stiffness(nan)
	}
	p := c.positive(x)
	return units.Stiffness(p.rate(p.ratio(x)) + c.negative.rate(c.negative.ratio(x)))
}

// Energy is the work of the fork on all chambers and on the ambient.
func (c FloatingPiston) Energy(x units.Length) units.Energy {
	if !c.main.holds(x) {
		return units.Energy(nan)
	}
	p := c.positive(x)
	e := p.energy(p.ratio(x)) + c.negative.energy(c.negative.ratio(x))
	if p == &c.joint {
		e += c.before
	}
	return units.Energy(e)
}

// Stroke is the travel.
func (c FloatingPiston) Stroke() units.Length { return c.main.Stroke() }

// Engage is the travel at which the floating piston leaves its stop. It may lie
// beyond the stroke.
func (c FloatingPiston) Engage() units.Length { return units.Length(c.engage) }

// positive is the chamber that acts at x.
func (c *FloatingPiston) positive(x units.Length) *Chamber {
	if float64(x) < c.engage {
		return &c.main
	}
	return &c.joint
}
