package helical

import (
	"fmt"
	"math"
	"reflect"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Material is a spring wire. Package data has the usual ones, each value with its
// source, by Set.Wire; NewMaterial makes any other. Values are immutable and safe for
// concurrent use. The zero Material is refused by New; its methods return "" and 0, and
// NaN for a strength.
type Material struct{ spec *MaterialSpec }

// MaterialSpec describes a wire.
type MaterialSpec struct {
	ID   string // short plain name, as "sicr"
	Name string // in words

	ShearModulus   units.Stress  // G at 20 °C, 10 GPa to 150 GPa
	ElasticModulus units.Stress  // E at 20 °C, G < E < 3·G
	Thin           []Moduli      // of thinner wire, in rising order of UpTo; nil: the same
	Density        units.Density // 1 g/mL to 10 g/mL
	// Softening is the relative loss of G and E per kelvin, 0 to 0.002/K. Steel is
	// about 0.00025/K.
	Softening units.Expansivity
	// YieldRatio is the yield stress in torsion over the tensile strength
	// before set removal, 0.2 to 0.8: 0.45 for drawn carbon wire, 0.50 for
	// hardened and tempered wire, 0.35 for nonferrous wire.
	YieldRatio float64
	// SpringSteel says that fatigue data of peened and unpeened spring steel hold.
	SpringSteel bool
	Strength    Strength // by the thickness of the wire
}

// Moduli are the elastic constants at 20 °C of wire no thicker than UpTo: cold-drawn
// wire is a few percent stiffer when thin.
type Moduli struct {
	UpTo                         units.Length // diameter of wire, that one included
	ShearModulus, ElasticModulus units.Stress // at 20 °C
}

// NewMaterial checks spec. The error joins a *units.RangeError for each fault.
func NewMaterial(spec MaterialSpec) (Material, error) {
	f := check.Of("MaterialSpec")
	if spec.ID == "" {
		f.Report("ID", spec.ID, "a short plain name", "")
	}
	moduli := func(field string, g, e units.Stress) {
		if check.Between(f, field+"ShearModulus", g, 10*units.Gigapascal, 150*units.Gigapascal) && !(e > g && e < 3*g) {
			f.Report(field+"ElasticModulus", e, "more than the shear modulus and less than three times it", "")
		}
	}
	moduli("", spec.ShearModulus, spec.ElasticModulus)
	last := units.Length(0)
	for i, row := range spec.Thin {
		field := fmt.Sprintf("Thin[%d].", i)
		if row.UpTo > last && row.UpTo <= maxWire {
			last = row.UpTo
		} else {
			f.Report(field+"UpTo", row.UpTo, "diameters above zero and up to "+maxWire.String()+", in rising order", "")
		}
		moduli(field, row.ShearModulus, row.ElasticModulus)
	}
	check.Between(f, "Density", spec.Density, 1*units.GramPerMilliliter, 10*units.GramPerMilliliter)
	check.Between(f, "Softening", spec.Softening, 0, 0.002*units.PerKelvin)
	check.Between(f, "YieldRatio", spec.YieldRatio, 0.2, 0.8)
	if want := spec.Strength.fault(); want != "" {
		f.Report("Strength", "for "+spec.Strength.wires(), want, "")
	}
	if err := f.Err(); err != nil {
		return Material{}, err
	}
	return Material{new(spec.clone())}, nil
}

// none stands behind the zero Material.
var none MaterialSpec

func (m Material) get() *MaterialSpec {
	if m.spec == nil {
		return &none
	}
	return m.spec
}

// Spec is the specification that makes the material again.
func (m Material) Spec() MaterialSpec {
	return m.get().clone()
}

// clone has lists of its own, nil where they are empty.
func (spec MaterialSpec) clone() MaterialSpec {
	spec.Thin = append([]Moduli(nil), spec.Thin...)
	spec.Strength.Steps = append([]StrengthStep(nil), spec.Strength.Steps...)
	return spec
}

// Equal reports whether both are made by the same specification.
func (m Material) Equal(o Material) bool {
	return m.spec == o.spec || m.spec != nil && o.spec != nil && reflect.DeepEqual(m.spec, o.spec)
}

// ID is the short plain name, as "sicr".
func (m Material) ID() string { return m.get().ID }

// Name is the name in words.
func (m Material) Name() string { return m.get().Name }

// String is the ID.
func (m Material) String() string { return m.get().ID }

// Density is the mass of the metal over its volume.
func (m Material) Density() units.Density { return m.get().Density }

// YieldRatio is the yield stress in torsion over the tensile strength, set not removed.
func (m Material) YieldRatio() float64 { return m.get().YieldRatio }

// WireRange is the thinnest and the thickest wire whose strength is known.
func (m Material) WireRange() (thinnest, thickest units.Length) {
	return m.get().Strength.Thinnest, m.get().Strength.Thickest
}

// TensileStrength is the least tensile strength Rm of wire of that diameter,
// NaN outside WireRange.
func (m Material) TensileStrength(wire units.Length) units.Stress {
	return m.get().Strength.at(wire)
}

// ShearModulus is G at 20 °C of wire of that diameter.
func (m Material) ShearModulus(wire units.Length) units.Stress { return m.moduli(wire).ShearModulus }

// ElasticModulus is E at 20 °C of wire of that diameter.
func (m Material) ElasticModulus(wire units.Length) units.Stress {
	return m.moduli(wire).ElasticModulus
}

func (m Material) moduli(wire units.Length) Moduli {
	spec := m.get()
	for _, row := range spec.Thin {
		if wire <= row.UpTo {
			return row
		}
	}
	return Moduli{ShearModulus: spec.ShearModulus, ElasticModulus: spec.ElasticModulus}
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
	return 1 - float64(m.get().Softening)*(c-20)
}
