package gas

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Exponents n of the two limits of p·Vⁿ = constant for air.
const (
	Isothermal = 1.0 // the gas keeps its temperature: at rest
	Adiabatic  = 1.4 // no heat flows: cp/cv of air as an ideal two-atom gas
)

// maxExponent is cp/cv of a one-atom gas, the largest an ideal gas can have.
const maxExponent = 5.0 / 3

// gasConstant is k·N_A with the exact SI values of 2019, in J/(mol·K).
const gasConstant = 1.380649e-23 * 6.02214076e23

// State is a quantity of gas at rest in a chamber. It is a plain value: methods
// return the state after a change and leave the receiver alone.
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

const (
	wantPressure = "0.01 bar to 1000 bar absolute"
	wantVolume   = "1 mm³ to 1 m³"
)

func pressureHolds(p units.AbsolutePressure) bool {
	return p.In(units.Pascal) >= float64(minPressure) && p.In(units.Pascal) <= float64(maxPressure)
}

func volumeHolds(v units.Volume) bool { return v >= minVolume && v <= maxVolume }

func volumeHint(v units.Volume) string {
	if v > maxVolume {
		return "a bare number counts cubic meters"
	}
	return ""
}

// Validate reports every field outside its range, as *[units.RangeError].
func (s State) Validate() error { return s.validate("State") }

// validate names the state, so that a change can tell what went in from what came out.
func (s State) validate(name string) error {
	pressure, volume := pressureHolds(s.Pressure), volumeHolds(s.Volume)
	temperature := s.Temperature.Kelvin() >= minTemperature && s.Temperature.Kelvin() <= maxTemperature
	if pressure && volume && temperature {
		return nil
	}
	f := check.Of(name)
	if !pressure {
		f.Report("Pressure", s.Pressure, wantPressure, "")
	}
	if !volume {
		f.Report("Volume", s.Volume, wantVolume, volumeHint(s.Volume))
	}
	if !temperature {
		hint := ""
		if s.Temperature.Kelvin() < minTemperature {
			hint = "kelvins count from absolute zero, 0 °C is 273.15 K"
		}
		f.Report("Temperature", s.Temperature, "50 K to 3000 K", hint)
	}
	return f.Err()
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
