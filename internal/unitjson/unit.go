package unitjson

import (
	"errors"
	"math"
	"math/big"
	"reflect"
	"strconv"
	"strings"

	"example.org/forkcurve/units"
)

// unit is how a quantity stands in JSON. Its number is the value in SI divided by
// 10^shift or, where there is a scale, by that and less the origin.
type unit struct {
	symbol string // in a key; empty: none
	shift  int
	scale  float64 // 0: 10^shift
	origin string  // in SI; empty: 0
}

// quantities are the types that are numbers, by what their keys end in.
var quantities = map[reflect.Type]unit{
	reflect.TypeFor[units.Length]():                {symbol: "mm", shift: -3},
	reflect.TypeFor[units.Area]():                  {symbol: "mm2", shift: -6},
	reflect.TypeFor[units.Volume]():                {symbol: "mL", shift: -6},
	reflect.TypeFor[units.Mass]():                  {symbol: "kg"},
	reflect.TypeFor[units.Share]():                 {symbol: "percent", shift: -2},
	reflect.TypeFor[units.Density]():               {symbol: "kg_per_m3"},
	reflect.TypeFor[units.Frequency]():             {symbol: "Hz"},
	reflect.TypeFor[units.Angle]():                 {symbol: "deg", scale: float64(units.Degree)},
	reflect.TypeFor[units.Force]():                 {symbol: "N"},
	reflect.TypeFor[units.Stiffness]():             {symbol: "N_per_mm", shift: 3},
	reflect.TypeFor[units.Energy]():                {symbol: "J"},
	reflect.TypeFor[units.Torque]():                {symbol: "N_m"},
	reflect.TypeFor[units.Stress]():                {symbol: "MPa", shift: 6},
	reflect.TypeFor[units.Pressure]():              {symbol: "bar", shift: 5},
	reflect.TypeFor[units.AbsolutePressure]():      {symbol: "bar_abs", shift: 5},
	reflect.TypeFor[units.GaugePressure]():         {symbol: "bar_gauge", shift: 5},
	reflect.TypeFor[units.Temperature]():           {symbol: "degC", scale: 1, origin: "273.15"},
	reflect.TypeFor[units.TemperatureDifference](): {symbol: "K"},
	reflect.TypeFor[units.Expansivity]():           {symbol: "per_K"},
	reflect.TypeFor[units.KinematicViscosity]():    {symbol: "mm2_per_s", shift: -6},
}

// quantity is the unit of a type that is a number; a float64 that is no quantity has none.
func quantity(t reflect.Type) (u unit, ok bool) {
	if u, ok = quantities[t]; !ok {
		ok = t.Kind() == reflect.Float64 && !t.Implements(texts)
	}
	return u, ok
}

// meter is the unit of a length tagged so.
var meter = unit{symbol: "m"}

// unitOf is the unit of a field by its tag or by its type, or what that lists or points to.
func unitOf(t reflect.Type, tag string) unit {
	switch t.Kind() {
	case reflect.Slice, reflect.Array, reflect.Pointer:
		t = t.Elem()
	}
	if tag == meter.symbol {
		return meter
	}
	return quantities[t]
}

// si is the number of a quantity in SI.
func si(v reflect.Value) float64 {
	switch q := v.Interface().(type) {
	case units.Temperature:
		return q.Kelvin()
	case units.AbsolutePressure:
		return q.In(units.Pascal)
	case units.GaugePressure:
		return q.In(units.Pascal)
	}
	return v.Float()
}

func setSI(v reflect.Value, x float64) {
	switch q := v.Addr().Interface().(type) {
	case *units.Temperature:
		*q = units.Kelvin(x)
	case *units.AbsolutePressure:
		*q = units.Absolute(units.Pressure(x))
	case *units.GaugePressure:
		*q = units.Gauge(units.Pressure(x))
	default:
		v.SetFloat(x)
	}
}

var errNumber = errors.New("want a finite number")

// precision in bits makes a conversion that is not decimal exact to the last digit
// of a float64.
const precision = 200

// longest text of a number that is read.
const longest = 400

// text is the shortest number in that unit that is read back as x.
func (u unit) text(x float64) (string, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "", errNumber
	}
	if u.scale == 0 {
		return shifted(strconv.FormatFloat(x, 'e', -1, 64), -u.shift), nil
	}
	exact := new(big.Float).SetPrec(precision).SetFloat64(x)
	exact.Sub(exact, u.zero())
	exact.Quo(exact, big.NewFloat(u.scale))
	for digits := 0; ; digits++ { // 17 do, and more so near an origin that nobody measures there
		text := exact.Text('e', digits)
		if back, err := u.parse(text); err == nil && back == x || digits == 40 {
			return shifted(text, 0), nil
		}
	}
}

// parse is text in SI.
func (u unit) parse(text string) (float64, error) {
	mantissa, power, _ := strings.Cut(strings.ToLower(text), "e")
	shift := 0
	if power != "" {
		var err error
		if shift, err = strconv.Atoi(power); err != nil {
			return 0, errNumber
		}
	}
	x, err := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(shift+u.shift), 64)
	if err != nil || len(text) > longest {
		return 0, errNumber
	}
	if u.scale == 0 {
		return x, nil
	}
	exact, _, err := big.ParseFloat(text, 10, precision, big.ToNearestEven)
	if err != nil {
		return 0, errNumber
	}
	exact.Mul(exact, big.NewFloat(u.scale))
	exact.Add(exact, u.zero())
	x, _ = exact.Float64()
	return x, nil
}

// zero is the origin, in SI.
func (u unit) zero() *big.Float {
	zero, _, err := big.ParseFloat(u.origin, 10, precision, big.ToNearestEven)
	if err != nil {
		return new(big.Float)
	}
	return zero
}

// shifted writes the number in text, of the form -d.ddde±dd, times 10^shift.
func shifted(text string, shift int) string {
	mantissa, power, _ := strings.Cut(text, "e")
	exponent, _ := strconv.Atoi(power)
	exponent += shift
	sign := ""
	if mantissa[0] == '-' {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.TrimRight(strings.Replace(mantissa, ".", "", 1), "0")
	switch {
	case digits == "":
		return "0"
	case exponent < -6 || exponent > 20:
		if len(digits) > 1 {
			digits = digits[:1] + "." + digits[1:]
		}
		return sign + digits + "e" + strconv.Itoa(exponent)
	case exponent < 0:
		return sign + "0." + strings.Repeat("0", -exponent-1) + digits
	case len(digits) <= exponent+1:
		return sign + digits + strings.Repeat("0", exponent+1-len(digits))
	}
	return sign + digits[:exponent+1] + "." + digits[exponent+1:]
}
