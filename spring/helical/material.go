package helical

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Material is a spring wire. Values are immutable and comparable; two calls of
// SiCr are equal. The zero Material is refused by New; its methods return "" and
// 0, and NaN for a strength.
type Material struct{ m *material }

type material struct {
	id, name, source string
	moduli           []moduli // by rising diameter; the last has no limit
	density          units.Density
	softening        float64 // relative loss of modulus per kelvin
	yield            float64 // torsional yield over tensile strength, set not removed
	steel            bool    // the Zimmerli fatigue data apply
	strength         Strength
}

// moduli are the elastic constants at 20 °C of wire up to a diameter.
type moduli struct {
	upTo           units.Length // 0: any
	shear, elastic units.Stress
}

// MaterialSpec describes a wire of the caller's own.
type MaterialSpec struct {
	ID     string // short plain name, as "sicr"
	Name   string // in words
	Source string // where the numbers come from

	ShearModulus   units.Stress  // G at 20 °C, 10 GPa to 150 GPa
	ElasticModulus units.Stress  // E at 20 °C, G < E < 3·G
	Density        units.Density // 1 g/ml to 10 g/ml
	// Softening is the relative loss of G and E per kelvin, 0 to 0.002.
	// Steel is about 0.00025.
	Softening float64
	// YieldRatio is the yield stress in torsion over the tensile strength
	// before set removal, 0.2 to 0.8: 0.45 for drawn carbon wire, 0.50 for
	// hardened and tempered wire, 0.35 for nonferrous wire.
	YieldRatio float64
	// SpringSteel says that fatigue data of peened and unpeened spring steel hold.
	SpringSteel bool
	Strength    Strength
}

// NewMaterial checks spec. The error joins a *units.RangeError for each fault.
func NewMaterial(spec MaterialSpec) (Material, error) {
	f := check.Of("MaterialSpec")
	if spec.ID == "" {
		f.Report("ID", spec.ID, "a short plain name", "")
	}
	const gigapascal = 1000 * units.Megapascal
	if check.Between(f, "ShearModulus", spec.ShearModulus, 10*gigapascal, 150*gigapascal) {
		if !(spec.ElasticModulus > spec.ShearModulus && spec.ElasticModulus < 3*spec.ShearModulus) {
			f.Report("ElasticModulus", spec.ElasticModulus, "more than the shear modulus and less than three times it", "")
		}
	}
	check.Between(f, "Density", spec.Density, 1*units.GramPerMilliliter, 10*units.GramPerMilliliter)
	check.Between(f, "Softening", spec.Softening, 0, 0.002)
	check.Between(f, "YieldRatio", spec.YieldRatio, 0.2, 0.8)
	if want := spec.Strength.fault(); want != "" {
		f.Report("Strength", "for "+spec.Strength.wires(), want, "")
	}
	if err := f.Err(); err != nil {
		return Material{}, err
	}
	return Material{&material{
		id: spec.ID, name: spec.Name, source: spec.Source,
		moduli:    []moduli{{shear: spec.ShearModulus, elastic: spec.ElasticModulus}},
		density:   spec.Density,
		softening: spec.Softening,
		yield:     spec.YieldRatio,
		steel:     spec.SpringSteel,
		strength:  spec.Strength,
	}}, nil
}

// none stands behind the zero Material.
var none = material{moduli: []moduli{{}}}

func (m Material) get() *material {
	if m.m == nil {
		return &none
	}
	return m.m
}

// ID is the short plain name, as "sicr".
func (m Material) ID() string { return m.get().id }

// Name is the name in words.
func (m Material) Name() string { return m.get().name }

// Source says where the numbers come from.
func (m Material) Source() string { return m.get().source }

// String is the ID.
func (m Material) String() string { return m.get().id }

// Density is the mass of the metal over its volume.
func (m Material) Density() units.Density { return m.get().density }

// YieldRatio is the yield stress in torsion over the tensile strength, set not removed.
func (m Material) YieldRatio() float64 { return m.get().yield }

// WireRange is the thinnest and the thickest wire whose strength is known.
func (m Material) WireRange() (thinnest, thickest units.Length) {
	return m.get().strength.lo, m.get().strength.hi
}

// TensileStrength is the least tensile strength Rm of wire of that diameter,
// NaN outside WireRange.
func (m Material) TensileStrength(wire units.Length) units.Stress {
	return m.get().strength.at(wire)
}

// ShearModulus is G at 20 °C of wire of that diameter.
func (m Material) ShearModulus(wire units.Length) units.Stress { return m.at(wire).shear }

// ElasticModulus is E at 20 °C of wire of that diameter.
func (m Material) ElasticModulus(wire units.Length) units.Stress { return m.at(wire).elastic }

func (m Material) at(wire units.Length) moduli {
	table := m.get().moduli
	for _, row := range table[:len(table)-1] {
		if wire <= row.upTo {
			return row
		}
	}
	return table[len(table)-1]
}

// ModulusFactor is G(T)/G(20 °C) = 1 − r·(T − 20 °C), with r the softening of
// the material, from −50 °C to 200 °C. Outside it returns NaN.
//
// Source: the linear form is that of EN 13906-1 (from memory), r = 0.25e-3 1/K
// for its cold-drawn and oil-tempered steels.
func (m Material) ModulusFactor(t units.Temperature) float64 {
	c := t.Celsius()
	if !(c >= -50 && c <= 200) {
		return math.NaN()
	}
	return 1 - m.get().softening*(c-20)
}
