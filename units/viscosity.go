package units

// KinematicViscosity is dynamic viscosity over density in square meters per second.
type KinematicViscosity float64

// DynamicViscosity is shear stress over shear rate in pascal seconds.
type DynamicViscosity float64

// Units of kinematic viscosity.
const (
	SquareMeterPerSecond      KinematicViscosity = 1
	SquareMillimeterPerSecond KinematicViscosity = 1e-6
	Centistokes               KinematicViscosity = 1e-6
)

// Units of dynamic viscosity.
const (
	PascalSecond                  DynamicViscosity = 1
	MillipascalSecond             DynamicViscosity = 1e-3
	Centipoise                    DynamicViscosity = 1e-3
	Reyn                          DynamicViscosity = poundForce / (inch * inch)
	PoundForceSecondPerSquareFoot DynamicViscosity = poundForce / (144 * inch * inch)
)

var kinematicViscosityKind = kind{
	name: "KinematicViscosity", noun: "a kinematic viscosity",
	units: []unit{
		{"mm²/s", float64(SquareMillimeterPerSecond), nil},
		{"cSt", float64(Centistokes), nil},
		{"m²/s", float64(SquareMeterPerSecond), nil},
	},
}

var dynamicViscosityKind = kind{
	name: "DynamicViscosity", noun: "a dynamic viscosity",
	units: []unit{
		{"mPa·s", float64(MillipascalSecond), nil},
		{"cP", float64(Centipoise), nil},
		{"Pa·s", float64(PascalSecond), nil},
		{"reyn", float64(Reyn), also{"lbf·s/in²"}},
		{"lbf·s/ft²", float64(PoundForceSecondPerSquareFoot), nil},
	},
}
