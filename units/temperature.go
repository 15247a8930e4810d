package units

// Temperature is a point on the thermodynamic scale.
type Temperature struct{ kelvin float64 }

const zeroCelsius = 273.15 // K, ITS-90 definition of the Celsius scale

// Kelvin is the temperature of k kelvin.
func Kelvin(k float64) Temperature { return Temperature{kelvin: k} }

// Celsius is the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature{kelvin: c + zeroCelsius} }

// Fahrenheit is the temperature of f degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Temperature{kelvin: (f + 459.67) / 1.8} }

// Kelvin, Celsius and Fahrenheit read the temperature on each scale.
func (t Temperature) Kelvin() float64     { return t.kelvin }
func (t Temperature) Celsius() float64    { return t.kelvin - zeroCelsius }
func (t Temperature) Fahrenheit() float64 { return t.kelvin*1.8 - 459.67 }

// Add is the temperature d warmer than t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return Temperature{kelvin: t.kelvin + float64(d)}
}

// Sub is t - o.
func (t Temperature) Sub(o Temperature) TemperatureDifference {
	return TemperatureDifference(t.kelvin - o.kelvin)
}
