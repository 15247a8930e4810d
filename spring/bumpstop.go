package spring

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// BumpStopSpec is a solid rubber ring or block at the end of the stroke. A stop
// of cellular polyurethane follows another law: measure it and use
// [NewMeasured].
type BumpStopSpec struct {
	Outer  units.Length // diameter, 5 mm to 90 mm
	Bore   units.Length // diameter of the hole, 0 to 0.9 of Outer
	Height units.Length // 2 mm to 100 mm

	Modulus   units.Stress // Young's modulus of the rubber at small strain, 0.2 MPa to 50 MPa
	Restraint float64      // β of the ends, 0 where they slide to 2 where they stick; less with carbon black

	Contact   units.Length // travel at which it is touched, 0 up to Travel
	MaxStrain float64      // share of its height after which it counts as solid, 0.1 to 0.8
	Travel    units.Length // of the fork, 1 mm to 400 mm
}

// BumpStop is a block of incompressible rubber in compression: with λ its height
// over that at rest,
//
//	F = A·E_c/3·(λ⁻² − λ)         λ = 1 − (x − contact)/height
//	E_c = E·(1 + β·S²)            S = (outer − bore)/(4·height)
//
// zero before it is touched. S is the loaded area over the area free to bulge.
// At first touch the rate is A·E_c/height. Up to about half its height the
// law follows rubber well, beyond it is a guide (from memory); the stroke ends
// at the largest strain given. Rubber is also 10 % to 40 % stiffer in a fast blow
// than in a slow one (from memory).
//
// Sources: the Gaussian network law of L. R. G. Treloar, The Physics of Rubber
// Elasticity; the shape factor of A. N. Gent and P. B. Lindley, The compression
// of bonded rubber blocks, Proc. Inst. Mech. Eng. 173 (1959). Their block is
// compact; a thin ring that sticks to its seats is up to a third stiffer.
type BumpStop struct {
	scale           float64 // A·E_c/3, N
	contact, height float64 // m
	stroke          float64 // m
}

var _ Curve = BumpStop{}

// NewBumpStop checks the specification.
func NewBumpStop(s BumpStopSpec) (BumpStop, error) {
	f := check.Of("BumpStopSpec")
	if check.Between(f, "Outer", s.Outer, 5*units.Millimeter, 90*units.Millimeter) {
		check.Between(f, "Bore", s.Bore, 0, 0.9*s.Outer)
	}
	check.Between(f, "Height", s.Height, 2*units.Millimeter, 100*units.Millimeter)
	check.Between(f, "Modulus", s.Modulus, 0.2*units.Megapascal, 50*units.Megapascal)
	check.Between(f, "Restraint", s.Restraint, 0, 2)
	if check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter) {
		check.Between(f, "Contact", s.Contact, 0, s.Travel)
	}
	check.Between(f, "MaxStrain", s.MaxStrain, 0.1, 0.8)
	if err := f.Err(); err != nil {
		return BumpStop{}, err
	}
	outer, bore, height := float64(s.Outer), float64(s.Bore), float64(s.Height)
	area := math.Pi / 4 * (outer - bore) * (outer + bore)
	shape := (outer - bore) / (4 * height)
	return BumpStop{
		scale:   area * float64(s.Modulus) * (1 + s.Restraint*shape*shape) / 3,
		contact: float64(s.Contact),
		height:  height,
		stroke:  min(float64(s.Travel), float64(s.Contact)+height*s.MaxStrain),
	}, nil
}

// Force is A·E_c/3·(λ⁻² − λ), or 0 before contact.
func (b BumpStop) Force(x units.Length) units.Force {
	if !b.holds(x) {
		return units.Force(nan)
	}
	e := b.strain(x)
	l := 1 - e
	return units.Force(b.scale * e * (1 + l + l*l) / (l * l))
}

// Rate is A·E_c/(3·height)·(2·λ⁻³ + 1), or 0 before contact.
func (b BumpStop) Rate(x units.Length) units.Stiffness {
	switch {
	case !b.holds(x):
		return units.Stiffness(nan)
	case float64(x) < b.contact:
		return 0
	}
	l := 1 - b.strain(x)
	return units.Stiffness(b.scale / b.height * (2/(l*l*l) + 1))
}

// Energy is A·E_c·height/3·(1/λ + λ²/2 − 3/2).
func (b BumpStop) Energy(x units.Length) units.Energy {
	if !b.holds(x) {
		return units.Energy(nan)
	}
	e := b.strain(x)
	return units.Energy(b.scale * b.height * e * e * (1/(1-e) + 0.5)) // without the cancellation near λ = 1
}

// Stroke is the travel, or less where the largest strain comes first.
func (b BumpStop) Stroke() units.Length { return units.Length(b.stroke) }

func (b *BumpStop) holds(x units.Length) bool { return x >= 0 && float64(x) <= b.stroke }

// strain is 1 − λ.
func (b *BumpStop) strain(x units.Length) float64 {
	return max(0, float64(x)-b.contact) / b.height
}
