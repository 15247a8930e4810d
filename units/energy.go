package units

// Energy is an energy in joules.
type Energy float64

// Power is energy per time in watts.
type Power float64

// Torque is a moment of force in newton meters.
type Torque float64

// Units of energy.
const (
	Joule          Energy = 1
	Kilojoule      Energy = 1e3
	FootPoundForce Energy = poundForce * 12 * inch
)

// Units of power.
const (
	Watt     Power = 1
	Kilowatt Power = 1e3
)

// Units of torque.
const (
	NewtonMeter        Torque = 1
	NewtonMillimeter   Torque = 1e-3
	KilogramForceMeter Torque = gravity
	PoundForceFoot     Torque = poundForce * 12 * inch
	PoundForceInch     Torque = poundForce * inch
	OunceForceInch     Torque = poundForce / 16 * inch
)

var energyKind = kind{
	name: "Energy", noun: "an energy",
	units: []unit{
		{"J", float64(Joule), nil},
		{"kJ", float64(Kilojoule), nil},
		{"ft·lbf", float64(FootPoundForce), also{"ft·lb"}},
	},
}

var powerKind = kind{
	name: "Power", noun: "a power",
	units: []unit{
		{"W", float64(Watt), nil},
		{"kW", float64(Kilowatt), nil},
	},
}

var torqueKind = kind{
	name: "Torque", noun: "a torque",
	units: []unit{
		{"N·m", float64(NewtonMeter), also{"Nm"}},
		{"N·mm", float64(NewtonMillimeter), also{"Nmm"}},
		{"kgf·m", float64(KilogramForceMeter), also{"kg·m"}},
		{"lbf·ft", float64(PoundForceFoot), also{"ft·lbf", "lb·ft", "ft·lb"}},
		{"lbf·in", float64(PoundForceInch), also{"in·lbf", "lb·in", "in·lb"}},
		{"ozf·in", float64(OunceForceInch), also{"in·ozf"}},
	},
}
