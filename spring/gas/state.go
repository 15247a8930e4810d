package gas

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Exponents n of p·Vⁿ = constant for air: both limits, and what is usual between them.
const (
	Isothermal = 1.0 // the gas keeps its temperature: at rest
	Ridden     = 1.3 // in a fork that works: common practice, no source
	Adiabatic  = 1.4 // no heat flows: cp/cv of air as an ideal two-atom gas
)

// maxExponent is cp/cv of a one-atom gas, the largest an ideal gas can have.
const maxExponent = 5.0 / 3

// gasConstant is k·N_A with the exact SI values of 2019, in J/(mol·K).
const gasConstant = 1.380649e-23 * 6.02214076e23

// State is a quantity of gas at rest in a chamber. It is a plain value: methods return the state after a change and
// leave the receiver alone.
//
// The zero State is not valid.
type State struct {
	Pressure    units.AbsolutePressure // 0.01 bar to 1000 bar
	Volume      units.Volume           // 1 mm³ to 1 m³
	Temperature units.Temperature      // 50 K to 3000 K
}

const (
	minPressure, maxPressure       = 0.01 * units.Bar, 1000 * units.Bar
	minVolume, maxVolume           = units.CubicMillimeter, units.CubicMeter
	minTemperature, maxTemperature = 50.0, 3000.0 // K
)

// Validate reports every field outside its range, as *[units.RangeError].
func (s State) Validate() error { return s.validate("State") }

// validate names the state, so that a change can tell what went in from what came out.
func (s State) validate(name string) error {
	f := check.Of(name)
	check.Absolute(f, "Pressure", s.Pressure, minPressure, maxPressure)
	checkVolume(f, "Volume", s.Volume)
	checkTemperature(f, "Temperature", s.Temperature)
	return f.Err()
}

func checkVolume(f *check.Faults, field string, v units.Volume) {
	hint := ""
	if v > maxVolume {
		hint = "a bare number counts cubic meters"
	}
	if !(v >= minVolume && v <= maxVolume) {
		f.Report(field, v, "1 mm³ to 1 m³", hint)
	}
}

func checkTemperature(f *check.Faults, field string, t units.Temperature) {
	hint := ""
	if t.Kelvin() < minTemperature {
		hint = "kelvins count from absolute zero, 0 °C is 273.15 K"
	}
	if !(t.Kelvin() >= minTemperature && t.Kelvin() <= maxTemperature) {
		f.Report(field, t, "50 K to 3000 K", hint)
	}
}

func checkExponent(f *check.Faults, n float64) {
	if !(n >= Isothermal && n <= maxExponent) {
		f.Report("n", n, "1 (isothermal) to 5/3 (adiabatic one-atom gas; air 1.4)", "")
	}
}

// Amount is the amount of gas, N = p·V/(R·T). It means nothing unless the state is valid.
func (s State) Amount() units.Amount {
	return units.Amount(s.Pressure.In(units.Pascal) * float64(s.Volume) / (gasConstant * s.Temperature.Kelvin()))
}

// result hands out a state reached by a change, or why it can not be.
func result(s State, name string) (State, error) {
	if err := s.validate(name); err != nil {
		return State{}, err
	}
	return s, nil
}
