package gas

import (
	"errors"
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Fill is what the technician did: pumped a chamber to this gauge reading, in this air, and let it settle to the
// temperature of that air.
//
// No program can tell an absolute pressure entered as gauge from a high reading: the gauge shows 0 when the chamber
// is open. Nor is a bare units.Gauge(9.6) caught; it is 9.6 Pa and a flat chamber.
//
// The zero Fill is not valid.
type Fill struct {
	Gauge   units.GaugePressure `json:"gauge"`   // 0 to 40 bar
	Ambient Ambient             `json:"ambient"` // in which it was read
}

const maxGauge = 40 * units.Bar

// Validate reports every field outside its range, as *[units.RangeError].
func (f Fill) Validate() error {
	faults := check.Of("Fill")
	if g := f.Gauge.In(units.Pascal); !(g >= 0 && g <= float64(maxGauge)) {
		faults.Report("Gauge", f.Gauge, "0 to 40 bar", gaugeHint(f.Gauge.In(units.Bar)))
	}
	faults.Nest("Ambient", f.Ambient.Validate())
	return faults.Err()
}

// gaugeHint names the unit in which a number of bar out of range would be in range.
func gaugeHint(bar float64) string {
	number := units.Pressure(bar)
	switch {
	case bar < 0:
		return "a gauge counts from the ambient and shows 0 when the chamber is open; AbsolutePressure.Gauge converts"
	case bar > 40 && number*units.PSI <= maxGauge:
		return fmt.Sprintf("%.4g psi are %.1f bar", bar, (number * units.PSI).In(units.Bar))
	case bar > 40 && number*units.Kilopascal <= maxGauge:
		return fmt.Sprintf("%.4g kPa are %.1f bar", bar, (number * units.Kilopascal).In(units.Bar))
	}
	return ""
}

// Absolute is the pressure in the chamber, the reading plus the ambient pressure.
func (f Fill) Absolute() units.AbsolutePressure { return f.Gauge.Absolute(f.Ambient.Pressure) }

// State is the gas in the filled chamber of volume v. It is an error if the fill or v (1 mm³ to 1 m³) is out of
// range.
func (f Fill) State(v units.Volume) (State, error) {
	if err := f.Validate(); err != nil {
		return State{}, err
	}
	return result(State{Pressure: f.Absolute(), Volume: v, Temperature: f.Ambient.Temperature}, "Fill.State.result")
}

// Reading is what the gauge would show elsewhere, once the chamber has taken that temperature, if the chamber is
// rigid and loses nothing to the gauge:
//
//	p_gauge' = (p_gauge + p_ambient)·T'/T − p_ambient'
//
// It may be negative. It is an error if the fill or the ambient is out of range.
func (f Fill) Reading(at Ambient) (units.GaugePressure, error) {
	if err := errors.Join(f.Validate(), at.validate("Reading.at")); err != nil {
		return units.GaugePressure{}, err
	}
	p := scaled(f.Absolute(), at.Temperature.Kelvin()/f.Ambient.Temperature.Kelvin())
	return p.Gauge(at.Pressure), nil
}
