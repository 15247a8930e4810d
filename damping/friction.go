package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// FrictionSpec is the friction of a leg or a fork.
type FrictionSpec struct {
	Breakaway units.Force       // at rest, 0 to 5 kN
	Kinetic   units.Force       // sliding, 0 to Breakaway
	Stribeck  units.Speed       // at which sliding friction has mostly replaced breakaway, 0.5 mm/s to 100 mm/s
	Viscous   units.DampingRate // of oil films, 0 to 1000 N·s/m
	Creep     units.Speed       // below which contact gives instead of sliding, 0.01 mm/s to a tenth of Stribeck
}

// Friction is Coulomb's and Stribeck's friction:
//
//	F = (F_k + (F_b − F_k)·exp(−(v/v_s)²))·tanh(v/v_c) + c·v
//
// A true step at v = 0 can not be integrated; the creep speed v_c replaces it,
// so that a fork held by friction creeps by up to v_c instead of standing.
type Friction struct {
	spec FrictionSpec
}

// NewFriction checks the specification.
func NewFriction(s FrictionSpec) (Friction, error) {
	f := check.Of("FrictionSpec")
	if check.Between(f, "Breakaway", s.Breakaway, 0, 5e3*units.Newton) {
		check.Between(f, "Kinetic", s.Kinetic, 0, s.Breakaway)
	}
	if check.Between(f, "Stribeck", s.Stribeck, 0.5*units.MillimeterPerSecond, 100*units.MillimeterPerSecond) {
		check.Between(f, "Creep", s.Creep, 0.01*units.MillimeterPerSecond, s.Stribeck/10)
	}
	check.Between(f, "Viscous", s.Viscous, 0, 1000*units.NewtonSecondPerMeter)
	if err := f.Err(); err != nil {
		return Friction{}, err
	}
	return Friction{spec: s}, nil
}

// Force against the motion.
func (f Friction) Force(v units.Speed) units.Force {
	s := f.spec
	if s.Creep == 0 {
		return 0
	}
	ratio := float64(v / s.Stribeck)
	dry := float64(s.Kinetic) + float64(s.Breakaway-s.Kinetic)*math.Exp(-ratio*ratio)
	return units.Force(dry*math.Tanh(float64(v/s.Creep)) + float64(s.Viscous)*float64(v))
}

// Coefficient is F/v.
func (f Friction) Coefficient(v units.Speed) units.DampingRate { return coefficient(f, v) }

// SealSpec is a lip seal or O-ring on a sliding surface.
type SealSpec struct {
	Diameter units.Length // of the sliding surface, 2 mm to 80 mm
	Width    units.Length // over which pressure presses the seal on, 0.1 mm to 10 mm
	Friction float64      // coefficient μ, 0.01 to 0.5; wet elastomer 0.1 to 0.2 (from memory)
	Fitted   units.Force  // friction without pressure, from the fit alone, 0 to 200 N
}

// Seal is the sliding friction of a seal, F = F₀ + μ·π·D·w·p.
type Seal struct {
	fitted float64 // N
	slope  float64 // m²
}

// NewSeal checks the specification.
func NewSeal(s SealSpec) (Seal, error) {
	f := check.Of("SealSpec")
	if check.Between(f, "Diameter", s.Diameter, 2*units.Millimeter, 80*units.Millimeter) && s.Width > s.Diameter/2 {
		f.Report("Width", s.Width, fmt.Sprintf("at most the radius %.6g", s.Diameter/2), "")
	} else {
		check.Between(f, "Width", s.Width, 0.1*units.Millimeter, 10*units.Millimeter)
	}
	check.Between(f, "Friction", s.Friction, 0.01, 0.5)
	check.Between(f, "Fitted", s.Fitted, 0, 200*units.Newton)
	if err := f.Err(); err != nil {
		return Seal{}, err
	}
	return Seal{fitted: float64(s.Fitted), slope: s.Friction * math.Pi * float64(s.Diameter) * float64(s.Width)}, nil
}

// Force at a pressure difference over the seal, of either sign.
func (s Seal) Force(p units.Pressure) units.Force {
	return units.Force(s.fitted + s.slope*math.Abs(float64(p)))
}

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
	if check.Between(f, "Travel", s.Travel, 20*units.Millimeter, 400*units.Millimeter) && overhang &&
		s.Travel >= s.Overhang {
		f.Report("Travel", s.Travel, fmt.Sprintf("below the overhang %.6g", s.Overhang),
			"the axle would reach the lower bush")
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
