package units

// Force is a force in newtons.
type Force float64

// Stiffness is force per deflection, the rate of a spring, in newtons per meter.
type Stiffness float64

// DampingRate is force per speed in newton seconds per meter.
type DampingRate float64

const poundForce = pound * gravity // N

// Units of force.
const (
	Newton        Force = 1
	Kilonewton    Force = 1e3
	KilogramForce Force = gravity
	PoundForce    Force = poundForce
)

// Units of stiffness.
const (
	NewtonPerMeter             Stiffness = 1
	NewtonPerMillimeter        Stiffness = 1e3
	KilogramForcePerMillimeter Stiffness = gravity * 1e3
	PoundForcePerInch          Stiffness = poundForce / inch
	PoundForcePerFoot          Stiffness = poundForce / (12 * inch)
)

// Units of damping rate.
const (
	NewtonSecondPerMeter             DampingRate = 1
	NewtonSecondPerMillimeter        DampingRate = 1e3
	KilogramForceSecondPerMillimeter DampingRate = gravity * 1e3
	PoundForceSecondPerInch          DampingRate = poundForce / inch
)

var forceKind = kind{
	name: "Force", noun: "a force",
	units: []unit{
		{"N", float64(Newton), nil},
		{"kN", float64(Kilonewton), nil},
		{"kgf", float64(KilogramForce), also{"kp"}},
		{"lbf", float64(PoundForce), nil},
	},
	refused: []refusal{
		{"kg", "kg is a mass: write kgf for the weight of 1 kg"},
		{"lb", "lb is a mass: write lbf for the weight of 1 lb"},
	},
}

var stiffnessKind = kind{
	name: "Stiffness", noun: "a stiffness",
	units: []unit{
		{"N/mm", float64(NewtonPerMillimeter), nil},
		{"N/m", float64(NewtonPerMeter), nil},
		{"kgf/mm", float64(KilogramForcePerMillimeter), also{"kg/mm"}},
		{"lbf/in", float64(PoundForcePerInch), also{"lb/in"}},
		{"lbf/ft", float64(PoundForcePerFoot), also{"lb/ft"}},
	},
}

var dampingRateKind = kind{
	name: "DampingRate", noun: "a damping rate",
	units: []unit{
		{"N·s/m", float64(NewtonSecondPerMeter), nil},
		{"N·s/mm", float64(NewtonSecondPerMillimeter), nil},
		{"kgf·s/mm", float64(KilogramForceSecondPerMillimeter), also{"kg·s/mm"}},
		{"lbf·s/in", float64(PoundForceSecondPerInch), also{"lb·s/in"}},
	},
}
