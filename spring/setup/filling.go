package setup

import (
	"slices"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// heat brings the sealed gas to a temperature.
func heat(spaces []space, to units.Temperature) error {
	for i := range spaces {
		var err error
		if spaces[i].gas, err = spaces[i].gas.Heat(to); err != nil {
			return err
		}
	}
	return nil
}

// fill brings every space that has a reading to it, or those only, in the air here, and then
// those without one to what the port leaves them.
func fill(spaces []space, here gas.Ambient, only ...Chamber) error {
	reached := func(s space) bool { return len(only) == 0 || slices.Contains(only, s.valve()) }
	for i := range spaces {
		if s := &spaces[i]; s.set && reached(*s) {
			var err error
			if s.gas, err = (gas.Fill{Gauge: s.reading, Ambient: here}).State(s.gas.Volume); err != nil {
				return err
			}
		}
	}
	for g := range groups(spaces) {
		for i := range g {
			s := &g[i]
			if s.joint != byPort || s.set || !reached(g[0]) {
				continue
			}
			met := gas.State{Pressure: pascals(g.at(s.port)[0].p), Volume: s.gas.Volume - s.swept(s.port),
				Temperature: g[0].gas.Temperature}
			var err error
			if s.gas, err = met.Compress(s.gas.Volume, gas.Isothermal); err != nil {
				return err
			}
		}
	}
	return nil
}

// valve is the chamber whose valve fills the space.
func (s space) valve() Chamber {
	if c := s.chamber(); c != Linked {
		return c
	}
	return Positive
}

func pascals(p float64) units.AbsolutePressure { return units.Absolute(units.Pressure(p)) }
