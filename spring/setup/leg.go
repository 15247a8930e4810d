package setup

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// leg is one leg in its present state, gas pressures at rest at full extension.
type leg struct {
	coil      spring.Coil
	topOut    spring.TopOut
	air       *air            // nil: none
	gap       *oil.AirGapSpec // nil: none
	hasCoil   bool
	hasTopOut bool
}

// moved is the leg after its gas has gone from one ambient to another.
func (l leg) moved(from, to gas.Ambient) leg {
	if l.air != nil {
		a := *l.air
		a.soak(from, to)
		l.air = &a
	}
	if l.gap != nil {
		g := *l.gap
		g.Pressure = heated(g.Pressure, from, to)
		g.Ambient = to.Pressure
		l.gap = &g
	}
	return l
}

// vented is the leg after its trapped gas was opened at full extension.
func (l leg) vented(here gas.Ambient) leg {
	if l.gap != nil {
		g := *l.gap
		g.Pressure = here.Pressure
		l.gap = &g
	}
	return l
}

// refilled is the leg after its air spring was set to its readings again.
func (l leg) refilled(here gas.Ambient) leg {
	if l.air != nil {
		a := *l.air
		a.set(here)
		l.air = &a
	}
	return l
}

// curves appends the curves of the leg's parts, its gas settled at rest at x and
// moving with exponent n.
func (l leg) curves(dst []spring.Curve, x units.Length, n float64) ([]spring.Curve, error) {
	if l.hasCoil {
		dst = append(dst, l.coil)
	}
	if l.hasTopOut {
		dst = append(dst, l.topOut)
	}
	if l.air != nil {
		c, err := air{FloatingPistonSpec: l.air.About(x, n)}.curve()
		if err != nil {
			return nil, err
		}
		dst = append(dst, c)
	}
	if l.gap != nil {
		c, err := oil.NewAirGap(l.gap.About(x, n))
		if err != nil {
			return nil, err
		}
		dst = append(dst, c)
	}
	return dst, nil
}

// air is an air spring in its present state. Without a second volume it has no
// floating piston.
type air struct {
	spring.FloatingPistonSpec
	readings Air
}

func (a air) curve() (spring.Curve, error) {
	if a.SecondVolume == 0 {
		return spring.NewAir(a.Air)
	}
	return spring.NewFloatingPiston(a.FloatingPistonSpec)
}

// About settles the gas at x.
func (a air) About(x units.Length, n float64) spring.FloatingPistonSpec {
	if a.SecondVolume == 0 {
		return spring.FloatingPistonSpec{Air: a.Air.About(x, n)}
	}
	return a.FloatingPistonSpec.About(x, n)
}

// set brings every chamber to its gauge reading in that air.
func (a *air) set(here gas.Ambient) {
	a.Air.Ambient = here.Pressure
	a.Air.Pressure = a.readings.Fill.Gauge.Absolute(here.Pressure)
	a.Air.NegativePressure = units.AbsolutePressure{}
	if a.readings.NegativeGauge != (units.GaugePressure{}) {
		a.Air.NegativePressure = a.readings.NegativeGauge.Absolute(here.Pressure)
	}
	if a.SecondVolume != 0 {
		a.SecondPressure = a.readings.SecondGauge.Absolute(here.Pressure)
	}
	a.Air = a.Air.Equalized()
}

// soak carries the sealed gas from one ambient to another.
func (a *air) soak(from, to gas.Ambient) {
	a.Air.Pressure = heated(a.Air.Pressure, from, to)
	a.Air.NegativePressure = heated(a.Air.NegativePressure, from, to)
	a.SecondPressure = heated(a.SecondPressure, from, to)
	a.Air.Ambient = to.Pressure
}

// heated is a pressure at constant volume: p ∝ T.
func heated(p units.AbsolutePressure, from, to gas.Ambient) units.AbsolutePressure {
	return units.Absolute(units.Pressure(p.In(units.Pascal) * to.Temperature.Kelvin() / from.Temperature.Kelvin()))
}
