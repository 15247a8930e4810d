package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// BushesSpec is where the bushes of a fork stand, fully extended.
type BushesSpec struct {
	Spacing  units.Length // between the middles of both bushes, fully extended, 30 mm to 500 mm
	Overhang units.Length // from the axle up to the lower bush, fully extended, 50 mm to 900 mm
	Friction float64      // coefficient μ, 0.01 to 0.3; coated bushes in oil 0.03 to 0.1 (from memory)
	Rake     units.Angle  // steering axis from the vertical, 10° to 45°
	Wheel    units.Length // radius, 100 mm to 450 mm
	Travel   units.Length // 20 mm to 400 mm, below Overhang
}

// Bushes is the friction of both bushes of a fork under side load. With N the wheel load, B the braking force at
// the contact patch, R the wheel radius and M the moment of the brake reaction on the legs,
//
//	Q = B·cos ε − N·sin ε               side load at the axle, positive rearward
//	M = B·R
//	R_up  = (Q·b + M)/a
//	R_low = (Q·(a + b) + M)/a
//	F = μ·(|R_low| + |R_up|)
//
// over both legs together. Compression by x makes a longer and b shorter by x.
type Bushes struct {
	spec BushesSpec
}

// NewBushes checks the specification.
func NewBushes(s BushesSpec) (Bushes, error) {
	f := check.Of("BushesSpec")
	check.Between(f, "Spacing", s.Spacing, 30*units.Millimeter, 500*units.Millimeter)
	overhang := check.Between(f, "Overhang", s.Overhang, 50*units.Millimeter, 900*units.Millimeter)
	check.Between(f, "Friction", s.Friction, 0.01, 0.3)
	check.Between(f, "Rake", s.Rake, 10*units.Degree, 45*units.Degree)
	check.Between(f, "Wheel", s.Wheel, 100*units.Millimeter, 450*units.Millimeter)
	if check.Between(f, "Travel", s.Travel, 20*units.Millimeter, 400*units.Millimeter) && overhang && s.Travel >= s.Overhang {
		f.Report("Travel", s.Travel, fmt.Sprintf("below the overhang %.6g", s.Overhang), "the axle would reach the lower bush")
	}
	if err := f.Err(); err != nil {
		return Bushes{}, err
	}
	return Bushes{spec: s}, nil
}

// Reactions of the lower and the upper bush at travel x, positive where the axle is pushed rearward.
func (b Bushes) Reactions(x units.Length, wheel, braking units.Force) (lower, upper units.Force) {
	s := b.spec
	side, moment := b.side(wheel, braking)
	upper = units.Force((float64(side)*float64(s.Overhang-x) + float64(moment)) / float64(s.Spacing+x))
	return side + upper, upper
}

func (b Bushes) side(wheel, braking units.Force) (side units.Force, moment units.Torque) {
	sin, cos := math.Sincos(float64(b.spec.Rake))
	return braking*units.Force(cos) - wheel*units.Force(sin), units.Torque(float64(braking) * float64(b.spec.Wheel))
}

// Force of sliding friction at travel x, 0 to Travel.
func (b Bushes) Force(x units.Length, wheel, braking units.Force) units.Force {
	lower, upper := b.Reactions(x, wheel, braking)
	return units.Force(b.spec.Friction * (math.Abs(float64(lower)) + math.Abs(float64(upper))))
}

// Lightest is the braking force with the least friction at a wheel load, which unloads the lower bush: B = N·(a +
// b)·sin ε/((a + b)·cos ε + R). It does not depend on travel.
func (b Bushes) Lightest(wheel units.Force) units.Force {
	sin, cos := math.Sincos(float64(b.spec.Rake))
	above := float64(b.spec.Overhang + b.spec.Spacing)
	return units.Force(float64(wheel) * above * sin / (above*cos + float64(b.spec.Wheel)))
}
