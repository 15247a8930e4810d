package helical

import (
	"fmt"
	"math"

	"example.org/forkcurve/units"
)

// Spring is a checked round-wire compression spring. It is immutable, safe for
// concurrent use; its methods allocate nothing. Make one with
// New: the zero Spring is no spring and its methods return zero or NaN.
//
// Two springs compare with Equal, since their materials may be equal and not the same.
//
// Symbols: d wire, D mean diameter, Na active coils, Nt total coils, L0 free
// length, Ls solid length, p pitch, G shear modulus, C = D/d index.
type Spring struct {
	wire, mean, free, solid, pitch units.Length
	active, total                  float64
	shear, elastic, tensile        units.Stress
	rate                           units.Stiffness
	ends                           Ends
	material                       Material
}

// Spec is the specification that makes the spring again, with the active coils stated.
func (s Spring) Spec() Spec {
	return Spec{Wire: s.wire, MeanDiameter: s.mean, ActiveCoils: s.active, Ends: s.ends, FreeLength: s.free,
		Material: s.material}
}

// Equal reports whether the springs agree in every value.
func (s Spring) Equal(o Spring) bool {
	same := s.material.Equal(o.material)
	s.material, o.material = Material{}, Material{}
	return same && s == o
}

// String is the spring as it is measured, as "wire 5.1 mm, outside 43 mm, 27 coils, 495 mm long, 4.94 N/mm".
func (s Spring) String() string {
	return fmt.Sprintf("wire %.3g, outside %.4g, %.3g coils, %.4g long, %.3g", s.wire, s.OuterDiameter(), s.total, s.free,
		s.rate)
}

// Wire is the diameter d of the wire.
func (s Spring) Wire() units.Length { return s.wire }

// MeanDiameter is D, measured to the middle of the wire.
func (s Spring) MeanDiameter() units.Length { return s.mean }

// OuterDiameter is D + d of the free spring.
func (s Spring) OuterDiameter() units.Length { return s.mean + s.wire }

// InnerDiameter is D − d of the free spring.
func (s Spring) InnerDiameter() units.Length { return s.mean - s.wire }

// Index is C = D/d.
func (s Spring) Index() float64 { return float64(s.mean / s.wire) }

// ActiveCoils is Na, the coils that deflect.
func (s Spring) ActiveCoils() float64 { return s.active }

// TotalCoils is Nt, with the dead coils of the ends.
func (s Spring) TotalCoils() float64 { return s.total }

// Ends is how the last coils are finished.
func (s Spring) Ends() Ends { return s.ends }

// Material is the wire.
func (s Spring) Material() Material { return s.material }

// FreeLength is L0.
func (s Spring) FreeLength() units.Length { return s.free }

// SolidLength is Ls, all coils touching, by the rule of the ends.
func (s Spring) SolidLength() units.Length { return s.solid }

// Pitch is p of the free spring, by the rule of the ends.
func (s Spring) Pitch() units.Length { return s.pitch }

// PitchAngle is atan(p/(π·D)) of the free spring.
func (s Spring) PitchAngle() units.Angle {
	return units.Angle(math.Atan(float64(s.pitch / (math.Pi * s.mean))))
}

// Rate is k = G·d⁴/(8·D³·Na) at 20 °C. It sees torsion of a flat coil only: the
// true rate of a fork spring is within 2 % of it (see the package comment).
//
// Source: EN 13906-1; Shigley, Mechanical Engineering Design, 9th ed.,
// equation (10-9).
func (s Spring) Rate() units.Stiffness { return s.rate }

// RateAt is the rate at the temperature: the shear modulus falls as
// Material.ModulusFactor says, about 1 % in 40 K for steel. NaN outside −50 °C to 200 °C.
func (s Spring) RateAt(t units.Temperature) units.Stiffness {
	return s.rate * units.Stiffness(s.material.ModulusFactor(t))
}

// SolidDeflection is L0 − Ls.
func (s Spring) SolidDeflection() units.Length { return s.free - s.solid }

// Force is k·deflection, for a deflection from 0 to SolidDeflection. Outside it is NaN.
func (s Spring) Force(deflection units.Length) units.Force {
	if !(deflection >= 0 && deflection <= s.SolidDeflection()) {
		return units.Force(math.NaN())
	}
	return units.Force(float64(s.rate) * float64(deflection))
}

// Energy is k·deflection²/2, for a deflection from 0 to SolidDeflection. Outside it is NaN.
func (s Spring) Energy(deflection units.Length) units.Energy {
	return units.Energy(float64(s.Force(deflection)) * float64(deflection) / 2)
}

// SolidForce is the force that closes the coils, k·(L0 − Ls).
func (s Spring) SolidForce() units.Force { return s.Force(s.SolidDeflection()) }

// WireLength is the wire it takes, Nt·√((π·D)² + p̄²) with the mean rise p̄ of a
// coil taken as (L0 − d)/Nt.
func (s Spring) WireLength() units.Length {
	rise := float64((s.free - s.wire)) / s.total
	return units.Length(s.total * math.Hypot(math.Pi*float64(s.mean), rise))
}

// Volume is the metal, and so what the spring displaces: WireLength·π·d²/4. Grinding
// removes a little of that, some 0.3 coil in all, which is left in.
func (s Spring) Volume() units.Volume {
	return units.Volume(float64(s.WireLength()) * math.Pi / 4 * float64(s.wire) * float64(s.wire))
}

// Mass is Volume times the density of the wire.
func (s Spring) Mass() units.Mass {
	return units.Mass(float64(s.Volume()) * float64(s.material.Density()))
}

// ActiveMass is the mass of the coils that move, ρ·(π·d²/4)·π·D·Na.
func (s Spring) ActiveMass() units.Mass {
	section := math.Pi / 4 * float64(s.wire) * float64(s.wire)
	return units.Mass(float64(s.material.Density()) * section * math.Pi * float64(s.mean) * s.active)
}

// SurgeFrequency is the lowest frequency at which a wave runs up and down the
// spring between two seats, f = ½·√(k/m) with m the ActiveMass. Higher ones are its multiples.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-25).
func (s Spring) SurgeFrequency() units.Frequency {
	return units.Frequency(math.Sqrt(float64(s.rate)/float64(s.ActiveMass())) / 2)
}
