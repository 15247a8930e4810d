package damping

import (
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
func (f Friction) Coefficient(v units.Speed) units.DampingRate {
	v = moving(v)
	return over(f.Force(v), v)
}
