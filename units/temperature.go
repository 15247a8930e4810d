package units

// TemperatureDifference is an interval of temperature in kelvins. An interval of
// 1 °C is 1 K and one of 1 °F is 5/9 K: no offset of a scale is involved.
type TemperatureDifference float64

// Units of temperature difference.
const (
	KelvinDifference     TemperatureDifference = 1
	CelsiusDifference    TemperatureDifference = 1
	FahrenheitDifference TemperatureDifference = 5.0 / 9
)

var temperatureDifferenceKind = kind{
	name: "TemperatureDifference", noun: "a temperature difference",
	units: []unit{
		{"K", float64(KelvinDifference), nil},
		{"°C", float64(CelsiusDifference), also{"degC", "C"}},
		{"°F", float64(FahrenheitDifference), also{"degF", "F"}},
	},
}

// Temperature is a point on the thermodynamic scale. The zero value is 0 K. A value
// below it can be made, as an out-of-range input to be reported by whoever checks
// it. Values compare with == and Compare.
//
// Celsius(x).Celsius() is x to 0.03 pK between −17 °C and 238 °C, not always to the
// last bit, because kelvins are stored. The text is nevertheless that of x. Where no
// number of degrees gives t exactly (many below −136 °C, few above 273 °C, none between),
// it is in kelvins. "20 °C", "20 C", "68 °F" and "293.15 K" are read.
type Temperature struct{ kelvin float64 }

const zeroCelsius = 273.15 // K, definition of the Celsius scale

// Kelvin is the temperature of k kelvins.
func Kelvin(k float64) Temperature { return Temperature{kelvin: k} }

// Celsius is the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature{kelvin: c + zeroCelsius} }

// Fahrenheit is the temperature of f degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Celsius((f - 32) / 1.8) }

// Kelvin is the temperature in kelvins.
func (t Temperature) Kelvin() float64 { return t.kelvin }

// Celsius is the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.kelvin - zeroCelsius }

// Fahrenheit is the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 {
	// The conversion forbids a fused multiply-add, so every machine agrees.
	return float64(t.Celsius()*1.8) + 32
}

// Add is the temperature d warmer than t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return Temperature{kelvin: t.kelvin + float64(d)}
}

// Sub is the difference t − o.
func (t Temperature) Sub(o Temperature) TemperatureDifference {
	return TemperatureDifference(t.kelvin - o.kelvin)
}

var temperatureKind = kind{
	name: "Temperature", noun: "a temperature",
	units: []unit{
		{"°C", 1, also{"degC", "C"}},
		{"°F", 5.0 / 9, also{"degF", "F"}},
		{"K", 1, nil},
	},
	origin: zeroCelsius,
	point: func(v float64, u *unit) float64 {
		switch u.symbol {
		case "°C":
			return Celsius(v).kelvin
		case "°F":
			return Fahrenheit(v).kelvin
		}
		return v
	},
}
