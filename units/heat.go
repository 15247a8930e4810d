package units

// SpecificHeat is heat per mass and temperature difference in joules per kilogram kelvin.
type SpecificHeat float64

// ThermalConductance is heat flow per temperature difference in watts per kelvin.
type ThermalConductance float64

// Expansivity is the relative change of a volume or a length per temperature
// difference, in 1/K.
type Expansivity float64

// Units of specific heat, thermal conductance and expansivity.
const (
	JoulePerKilogramKelvin SpecificHeat       = 1
	WattPerKelvin          ThermalConductance = 1
	PerKelvin              Expansivity        = 1
)

var specificHeatKind = kind{
	name: "SpecificHeat", noun: "a specific heat",
	units: []unit{
		{"J/(kg·K)", float64(JoulePerKilogramKelvin), also{"J/kg·K", "J/(kg·°C)"}},
		{"kJ/(kg·K)", 1e3, also{"kJ/kg·K", "kJ/(kg·°C)"}},
	},
}

var thermalConductanceKind = kind{
	name: "ThermalConductance", noun: "a thermal conductance",
	units: []unit{{"W/K", float64(WattPerKelvin), also{"W/°C"}}},
}

var expansivityKind = kind{
	name: "Expansivity", noun: "an expansivity",
	units: []unit{{"1/K", float64(PerKelvin), also{"1/°C", "K⁻¹", "K^-1"}}},
}
