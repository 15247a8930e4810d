package data

import (
	"errors"
	"slices"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// Material is a spring wire. Its tensile strength against diameter is one of
//
//	a table           up-to and tensile-strength, wire no thicker than each
//	a power law       strength-at-1mm / (d/1 mm)^exponent
//	a logarithmic law strength-at-1mm − loss-per-decade·log10(d/1 mm)
//
// from the thinnest wire to the last of the table or the thickest.
type Material struct {
	ID       string // short, as "sicr"
	Name     string // in words
	Standard string // designation, as "EN 10270-2 VDSiCr"; may be empty

	SpringSteel bool // fatigue data of spring steel hold

	ShearModulus   Value[units.Stress] // G at 20 °C
	ElasticModulus Value[units.Stress] // E at 20 °C

	// Thinner wire up to each of these diameters has these moduli; left out: all alike.
	ThinUpTo           List[units.Length]
	ThinShearModulus   List[units.Stress]
	ThinElasticModulus List[units.Stress]

	Density    Value[units.Density]     // at 20 °C
	Softening  Value[units.Expansivity] // relative loss of G and E per kelvin
	YieldRatio Value[float64]           // yield in torsion over tensile strength, set not removed

	Thinnest        Value[units.Length] // wire that the strength holds for
	Thickest        Value[units.Length] // of a law
	UpTo            List[units.Length]  // thickest wire of each step, in rising order
	TensileStrength List[units.Stress]  // least of each step
	StrengthAt1mm   Value[units.Stress] // of wire of 1 mm, by a law
	Exponent        Value[float64]      // of the wire in mm, by a law: At1mm·d⁻ᵐ
	LossPerDecade   Value[units.Stress] // of the wire, by a law: At1mm − loss·lg d
}

func (m *Material) fields(w *walk) {
	const gpa, mpa = 1000 * units.Megapascal, units.Megapascal
	w.text("name", required, &m.Name)
	w.text("standard", optional, &m.Standard)
	w.bool("spring-steel", &m.SpringSteel)
	quantity(w, "shear-modulus", required, &m.ShearModulus, 10*gpa, 150*gpa)
	quantity(w, "elastic-modulus", required, &m.ElasticModulus, 10*gpa, 400*gpa)
	quantities(w, "thin-up-to", optional, &m.ThinUpTo, 0.05*mm, 50*mm)
	quantities(w, "thin-shear-modulus", optional, &m.ThinShearModulus, 10*gpa, 150*gpa)
	quantities(w, "thin-elastic-modulus", optional, &m.ThinElasticModulus, 10*gpa, 400*gpa)
	quantity(w, "density", required, &m.Density, 1*units.GramPerMilliliter, 10*units.GramPerMilliliter)
	quantity(w, "softening", required, &m.Softening, 0, 0.002*units.PerKelvin)
	number(w, "yield-ratio", required, &m.YieldRatio, 0.2, 0.8)
	quantity(w, "thinnest", required, &m.Thinnest, 0.05*mm, 50*mm)
	quantity(w, "thickest", optional, &m.Thickest, 0.05*mm, 50*mm)
	quantities(w, "up-to", optional, &m.UpTo, 0.05*mm, 50*mm)
	quantities(w, "tensile-strength", optional, &m.TensileStrength, 100*mpa, 5000*mpa)
	quantity(w, "strength-at-1mm", optional, &m.StrengthAt1mm, 100*mpa, 5000*mpa)
	number(w, "exponent", optional, &m.Exponent, 0, 1)
	quantity(w, "loss-per-decade", optional, &m.LossPerDecade, 0, 5000*mpa)
	if w.sound() {
		if _, err := m.Wire(); err != nil {
			w.in.Fault("name", err)
		}
	}
}

// Wire is the material as package helical calculates with it.
func (m Material) Wire() (helical.Material, error) {
	strength := helical.Strength{
		Thinnest:      m.Thinnest.Value,
		Thickest:      m.Thickest.Value,
		At1mm:         m.StrengthAt1mm.Value,
		Exponent:      m.Exponent.Value,
		LossPerDecade: m.LossPerDecade.Value,
	}
	law, table := m.StrengthAt1mm.Given(), m.TensileStrength.Given()
	both := m.Exponent.Given() == m.LossPerDecade.Given() // or neither
	if law == table || law && both || len(m.UpTo.Values) != len(m.TensileStrength.Values) {
		return helical.Material{}, errStrength
	}
	for i, upTo := range m.UpTo.Values {
		strength.Steps = append(strength.Steps, helical.StrengthStep{UpTo: upTo, Rm: m.TensileStrength.Values[i]})
		strength.Thickest = upTo
	}
	if n := len(m.ThinUpTo.Values); len(m.ThinShearModulus.Values) != n || len(m.ThinElasticModulus.Values) != n {
		return helical.Material{}, errThin
	}
	var thin []helical.Moduli
	for i, upTo := range m.ThinUpTo.Values {
		thin = append(thin, helical.Moduli{
			UpTo: upTo, ShearModulus: m.ThinShearModulus.Values[i], ElasticModulus: m.ThinElasticModulus.Values[i],
		})
	}
	return helical.NewMaterial(helical.MaterialSpec{
		ID:             m.ID,
		Name:           m.Name,
		ShearModulus:   m.ShearModulus.Value,
		ElasticModulus: m.ElasticModulus.Value,
		Thin:           thin,
		Density:        m.Density.Value,
		Softening:      m.Softening.Value,
		YieldRatio:     m.YieldRatio.Value,
		SpringSteel:    m.SpringSteel,
		Strength:       strength,
	})
}

func (m Material) clone() Material {
	m.ThinUpTo.Values = slices.Clone(m.ThinUpTo.Values)
	m.ThinShearModulus.Values = slices.Clone(m.ThinShearModulus.Values)
	m.ThinElasticModulus.Values = slices.Clone(m.ThinElasticModulus.Values)
	m.UpTo.Values = slices.Clone(m.UpTo.Values)
	m.TensileStrength.Values = slices.Clone(m.TensileStrength.Values)
	return m
}

var (
	errThin = errors.New("moduli of thin wire: want thin-up-to, thin-shear-modulus and thin-elastic-modulus, " +
		"three lists of one length")
	errStrength = errors.New("tensile strength: want up-to with tensile-strength, two lists of one length, " +
		"or strength-at-1mm with either exponent or loss-per-decade")
)

// Values lists every value of the material.
func (m Material) Values() []Entry { return list(m.fields) }
