package units

// Pressure is a pressure difference in pascals: across a piston, a valve or a seal.
// A pressure counted from vacuum is an [AbsolutePressure], one counted from the
// ambient a [GaugePressure].
type Pressure float64

// Stress is force per area inside a solid, and an elastic modulus, in pascals.
type Stress float64

// Units of pressure. The columns of mercury and water are the conventional ones:
// 13 595.1 kg/m³ and 1000 kg/m³ at standard gravity, whatever their temperature.
const (
	Pascal                           Pressure = 1
	Hectopascal                      Pressure = 1e2
	Kilopascal                       Pressure = 1e3
	Millibar                         Pressure = 1e2
	Bar                              Pressure = 1e5
	Atmosphere                       Pressure = 101325
	PSI                              Pressure = poundForce / (inch * inch)
	KilogramForcePerSquareCentimeter Pressure = gravity * 1e4
	InchOfMercury                    Pressure = 13595.1 * gravity * inch
	MillimeterOfMercury              Pressure = 13595.1 * gravity * 1e-3
	Torr                             Pressure = 101325.0 / 760
	InchOfWater                      Pressure = 1000 * gravity * inch
)

// Units of stress. KSI is 1000 pounds-force per square inch.
const (
	Megapascal                Stress = 1e6
	Gigapascal                Stress = 1e9
	NewtonPerSquareMillimeter Stress = 1e6
	KSI                       Stress = 1000 * poundForce / (inch * inch)
)

var pressureUnits = []unit{
	{"bar", float64(Bar), nil},
	{"mbar", float64(Millibar), nil},
	{"Pa", float64(Pascal), nil},
	{"hPa", float64(Hectopascal), nil},
	{"kPa", float64(Kilopascal), nil},
	{"MPa", 1e6, nil},
	{"psi", float64(PSI), nil},
	{"atm", float64(Atmosphere), nil},
	{"kgf/cm²", float64(KilogramForcePerSquareCentimeter), also{"kg/cm²"}},
	{"inHg", float64(InchOfMercury), nil},
	{"mmHg", float64(MillimeterOfMercury), nil},
	{"torr", float64(Torr), also{"Torr"}},
	{"inH2O", float64(InchOfWater), nil},
}

var pressureKind = kind{
	name: "Pressure", noun: "a pressure",
	units: pressureUnits,
	datum: difference,
}

var stressKind = kind{
	name: "Stress", noun: "a stress",
	units: []unit{
		{"MPa", float64(Megapascal), nil},
		{"N/mm²", float64(NewtonPerSquareMillimeter), nil},
		{"GPa", float64(Gigapascal), nil},
		{"Pa", 1, nil},
		{"kPa", 1e3, nil},
		{"psi", float64(PSI), nil},
		{"ksi", float64(KSI), nil},
	},
}
