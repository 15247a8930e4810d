package units

// Mass is a mass in kilograms.
type Mass float64

// Density is mass per volume in kilograms per cubic meter.
type Density float64

// Amount is an amount of substance in moles.
type Amount float64

const pound = 0.45359237 // kg, international avoirdupois pound of 1959

// Units of mass.
const (
	Kilogram  Mass = 1
	Gram      Mass = 1e-3
	PoundMass Mass = pound
	OunceMass Mass = pound / 16
)

// Units of density.
const (
	KilogramPerCubicMeter  Density = 1
	GramPerMilliliter      Density = 1e3
	GramPerCubicCentimeter Density = 1e3
)

// Units of amount of substance.
const (
	Mole      Amount = 1
	Millimole Amount = 1e-3
)

var massKind = kind{
	name: "Mass", noun: "a mass",
	units: []unit{
		{"kg", float64(Kilogram), nil},
		{"g", float64(Gram), nil},
		{"lb", float64(PoundMass), nil},
		{"oz", float64(OunceMass), nil},
	},
}

var densityKind = kind{
	name: "Density", noun: "a density",
	units: []unit{
		{"kg/m³", float64(KilogramPerCubicMeter), nil},
		{"g/mL", float64(GramPerMilliliter), also{"g/ml", "kg/L", "kg/l"}},
		{"g/cm³", float64(GramPerCubicCentimeter), also{"g/cc"}},
	},
}

var amountKind = kind{
	name: "Amount", noun: "an amount of substance",
	units: []unit{
		{"mol", float64(Mole), nil},
		{"mmol", float64(Millimole), nil},
	},
}
