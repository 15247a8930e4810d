package units

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
)

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

// Expansivity is the relative change of a volume or a length per temperature
// difference, in 1/K.
type Expansivity float64

// PerKelvin is the unit of expansivity.
const PerKelvin Expansivity = 1

var expansivityKind = kind{
	name: "Expansivity", noun: "an expansivity",
	units: []unit{{"1/K", float64(PerKelvin), also{"1/°C", "K⁻¹", "K^-1"}}},
}

// Temperature is a point on the thermodynamic scale. The zero value is 0 K. A value
// below it can be made, as an out-of-range input to be reported by whoever checks
// it. Values compare with == and Compare.
//
// Celsius(x).Celsius() is x to 0.03 pK between −17 °C and 238 °C, not always to the
// last bit, because kelvins are stored. The text is nevertheless that of x.
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

// Compare is −1 when t is colder than o, 0 when they are equal and +1 when t is warmer.
func (t Temperature) Compare(o Temperature) int { return cmp.Compare(t.kelvin, o.kelvin) }

// String is the exact text in degrees Celsius, as "20 °C". Where no number of degrees
// gives t exactly (many below −136 °C, few above 273 °C, none between), it is in
// kelvins.
func (t Temperature) String() string { return string(t.append(nil)) }

// Format implements fmt.Formatter as described in the package comment.
func (t Temperature) Format(s fmt.State, verb rune) {
	write(s, verb, "Temperature", t.Celsius(), "°C", t.append)
}

// AppendText appends the exact text to b.
func (t Temperature) AppendText(b []byte) ([]byte, error) {
	if !isFinite(t.kelvin) {
		return b, notFinite("Temperature", t.String())
	}
	return t.append(b), nil
}

// MarshalText is the exact text.
func (t Temperature) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText reads a text such as "20 °C", "20 C", "68 °F" or "293.15 K". On an
// error t keeps its value.
func (t *Temperature) UnmarshalText(text []byte) error { return t.parse(string(text)) }

var temperatureKind = kind{
	name: "Temperature", noun: "a temperature",
	units: []unit{
		{"°C", 1, also{"degC", "C"}},
		{"°F", 5.0 / 9, also{"degF", "F"}},
		{"K", 1, nil},
	},
}

func (t *Temperature) parse(text string) error {
	n, u, err := temperatureKind.split(text)
	if err != nil {
		return err
	}
	v, err := n.float(0)
	if err != nil {
		return temperatureKind.tooLarge(text)
	}
	switch u.symbol {
	case "°C":
		*t = Celsius(v)
	case "°F":
		*t = Fahrenheit(v)
	default:
		*t = Kelvin(v)
	}
	return nil
}

func (t Temperature) append(b []byte) []byte {
	same := func(c float64) bool {
		return math.Float64bits(Celsius(c).kelvin) == math.Float64bits(t.kelvin)
	}
	if !isFinite(t.kelvin) {
		return append(strconv.AppendFloat(b, t.kelvin, 'g', -1, 64), " °C"...)
	}
	if b, ok := appendShortest(b, t.Celsius(), same); ok {
		return append(b, " °C"...)
	}
	return append(appendShifted(b, t.kelvin, 0), " K"...)
}
