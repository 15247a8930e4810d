package gas

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Ambient is the air around the fork. Its pressure is the one at the place, not the one a weather report reduces to
// sea level: at 2000 m those differ by a fifth.
//
// The zero Ambient is a vacuum at 0 K and not valid.
type Ambient struct {
	Temperature units.Temperature      `json:"temperature"` // −60 °C to 70 °C
	Pressure    units.AbsolutePressure `json:"pressure"`    // 0.2 bar to 1.2 bar
}

// Validate reports every field outside its range, as *[units.RangeError].
func (a Ambient) Validate() error { return a.validate("Ambient") }

func (a Ambient) validate(name string) error {
	f := check.Of(name)
	checkOutdoor(f, "Temperature", a.Temperature)
	if p := a.Pressure.In(units.Bar); !(p >= 0.2 && p <= 1.2) {
		hint := ""
		if p == 0 {
			hint = "not set? Standard gives it for an altitude"
		}
		f.Report("Pressure", a.Pressure, "0.2 bar to 1.2 bar absolute", hint)
	}
	return f.Err()
}

func checkOutdoor(f *check.Faults, field string, t units.Temperature) {
	if !(t.Celsius() >= -60 && t.Celsius() <= 70) {
		f.Report(field, t, "-60 °C to 70 °C", temperatureHint(t))
	}
}

// temperatureHint names the scale an outdoor temperature was probably meant in.
func temperatureHint(t units.Temperature) string {
	switch k, c := t.Kelvin(), t.Celsius(); {
	case k == 0:
		return "not set?"
	case k > 0 && k <= 70:
		return fmt.Sprintf("%.4g degrees Celsius are %.2f K", k, units.Celsius(k).Kelvin())
	case c > 70 && c <= 158:
		return fmt.Sprintf("%.4g degrees Fahrenheit are %.1f °C", c, units.Fahrenheit(c).Celsius())
	case c >= 213.15 && c <= 343.15:
		return fmt.Sprintf("%.5g kelvins are %.2f °C", c, units.Kelvin(c).Celsius())
	}
	return ""
}

// Constants of the standard atmosphere, in SI.
const (
	seaLevelTemperature = 288.15    // K
	seaLevelPressure    = 101325    // Pa
	lapse               = 0.0065    // K/m, geopotential
	earthRadius         = 6356766   // m, where the latitude's gravity is standard
	airMolarMass        = 0.0289644 // kg/mol
	standardGas         = 8.31432   // J/(mol·K); the standard's own, not today's R

	barometricExponent = 9.80665 * airMolarMass / (standardGas * lapse) // 5.255 876
)

// Standard is the standard atmosphere at an altitude above mean sea level, from −500 m to 11 000 m.
//
// The altitude is geometric, as a map or satellite receiver gives it; the formula (see the package comment) runs on
// geopotential altitude. Entering the geometric one directly would read the pressure 0.008 % low at 2000 m, 0.03 %
// at 4000 m and 0.3 % at 11 000 m.
//
// Real air departs from the standard: weather moves the pressure of a place by 2 % to 3 % either way.
//
// Source: ISO 2533:1975; U.S. Standard Atmosphere, 1976 (equations 18, 23 and 33a, numbers from memory).
func Standard(altitude units.Length) (Ambient, error) {
	f := check.Of("Standard")
	checkAltitude(f, altitude)
	if err := f.Err(); err != nil {
		return Ambient{}, err
	}
	z := float64(altitude)
	t := seaLevelTemperature - lapse*earthRadius*z/(earthRadius+z)
	p := seaLevelPressure * math.Pow(t/seaLevelTemperature, barometricExponent)
	return Ambient{Temperature: units.Kelvin(t), Pressure: units.Absolute(units.Pressure(p))}, nil
}

// PressureAltitude is where the standard atmosphere has that pressure, the inverse of [Standard]. A pressure beyond
// −500 m to 11 000 m is a *[units.RangeError].
func PressureAltitude(p units.AbsolutePressure) (units.Length, error) {
	t := seaLevelTemperature * math.Pow(p.In(units.Pascal)/seaLevelPressure, 1/barometricExponent)
	h := (seaLevelTemperature - t) / lapse
	z := units.Length(earthRadius * h / (earthRadius - h))
	const rounding = units.Millimeter
	if !(z >= -500-rounding && z <= 11000+rounding) {
		f := check.Of("PressureAltitude")
		f.Report("pressure", p, "0.227 bar to 1.0748 bar, the standard's from -500 m to 11000 m", "")
		return 0, f.Err()
	}
	return z, nil
}

func checkAltitude(f *check.Faults, z units.Length) {
	if z >= -500 && z <= 11000 {
		return
	}
	hint, feet := "", z*units.Foot/units.Meter
	if z > 11000 && feet <= 11000 {
		hint = fmt.Sprintf("%.0f ft are %.0f m", float64(z), float64(feet))
	}
	f.Report("altitude", z, "-500 m to 11000 m", hint)
}

// StandardAt is the pressure of the standard atmosphere at an altitude together with a measured air temperature,
// −60 °C to 70 °C: a cold or hot day at a known place.
//
// It leaves out three things. Warm air thins more slowly with altitude: a column 15 K above standard carries 1.2 %
// more pressure at 2000 m, 1.9 % at 3000 m. Weather moves the pressure by 2 % to 3 %. Humidity does not change the
// pressure here, but vapor pumped into a fork may condense there: from 30 °C down to 0 °C that takes at most 0.04
// bar off a reading (saturation pressures 42.5 hPa and 6.1 hPa, from memory). In such damp air γ is 0.004 lower. A
// barometer at the place beats this function.
func StandardAt(altitude units.Length, temperature units.Temperature) (Ambient, error) {
	f := check.Of("StandardAt")
	checkAltitude(f, altitude)
	checkOutdoor(f, "temperature", temperature)
	if err := f.Err(); err != nil {
		return Ambient{}, err
	}
	a, err := Standard(altitude)
	a.Temperature = temperature
	return a, err
}
