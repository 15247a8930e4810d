package setup

import (
	"errors"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Gap is the gas trapped over the oil of a leg, or in a bicycle's lower leg.
type Gap struct {
	Area     units.Area          // of the sliding tube, as in [oil.AirGapSpec], 1 cm² to 40 cm²
	Residual units.Volume        // gas at full travel, −1 L to 2 L; 0 or less: the leg locks on its oil before
	Gauge    units.GaugePressure // precharge at full extension, 0 to 3 bar; zero: closed at the ambient
}

// spec is the gap closed in some air.
func (g Gap) spec(travel units.Length, here gas.Ambient) oil.AirGapSpec {
	return oil.AirGapSpec{Area: g.Area, Residual: g.Residual, Travel: travel, Pressure: g.Gauge.Absolute(here.Pressure),
		Ambient: here.Pressure, Exponent: gas.Isothermal}
}

func (g Gap) validate(travel units.Length) error {
	f := check.Of("Gap")
	s := g.spec(travel, plain.Ambient)
	if !check.Gauge(f, "Gauge", g.Gauge, 0, 3*units.Bar) {
		s.Pressure = s.Ambient // to look at the rest
	}
	return errors.Join(f.Err(), s.Validate())
}

func (g Gap) space(travel units.Length) space {
	s := space{part: trapped, area: g.Area, reading: g.Gauge, set: g.Gauge != units.GaugePressure{}}
	s.gas.Volume = g.Residual + s.swept(travel)
	s.end = g.spec(travel, plain.Ambient).Stroke()
	return s
}
