package setup

import (
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// air is an air spring in its present state. Without a second volume it has no
// floating piston.
type air struct {
	spring.FloatingPistonSpec
	readings Air
}

// about is the curve of the gas settled at rest at x and moving with exponent n.
func (a air) about(x units.Length, n float64) (spring.Curve, error) {
	switch {
	case a.SecondVolume != 0:
		return spring.NewFloatingPiston(a.FloatingPistonSpec.About(x, n))
	case a.readings.Linked != 0:
		return spring.NewAir(a.linked(x, n))
	}
	return spring.NewAir(a.Air.About(x, n))
}

// linked is the spring with its auxiliary volume: joined at rest, and cut off at
// x when it moves.
func (a air) linked(x units.Length, n float64) spring.AirSpec {
	joint := a.Air
	joint.Volume += a.readings.Linked
	if n == gas.Isothermal {
		return joint.About(x, n)
	}
	swept := units.Volume(float64(geometry.Circle(joint.Bore)) * float64(x))
	// Cut off at x, the main chamber would have this pressure back at full extension.
	alone := a.Air.Equalized()
	alone.Pressure = scaled(joint.Pressure, float64(joint.Volume/(joint.Volume-swept))*float64((alone.Volume-swept)/alone.Volume))
	return alone.About(x, n)
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
	joint := a.FloatingPistonSpec
	joint.Air.Volume += a.readings.Linked
	a.Air.NegativePressure = joint.Equalized().Air.NegativePressure
}

// soak carries the sealed gas from one ambient to another.
func (a *air) soak(from, to gas.Ambient) {
	a.keep(to.Temperature.Kelvin() / from.Temperature.Kelvin())
	a.Air.Ambient = to.Pressure
}

// keep scales every pressure, as heating and leaking do.
func (a *air) keep(ratio float64) {
	a.Air.Pressure = scaled(a.Air.Pressure, ratio)
	a.Air.NegativePressure = scaled(a.Air.NegativePressure, ratio)
	a.SecondPressure = scaled(a.SecondPressure, ratio)
}

// meet lets the positive and the negative chamber come to one pressure at rest at
// x, as a leak between them or the transfer port does. Each then keeps its gas; that
// behind a floating piston stays there, and takes part once its pressure is reached.
func (a *air) meet(x units.Length) {
	if a.Air.NegativeVolume == 0 {
		return
	}
	piston, rod := geometry.Circle(a.Air.Bore), geometry.Circle(a.Air.Rod)
	positive, negative := a.Air.Volume+a.readings.Linked, a.Air.NegativeVolume
	above := positive - units.Volume(float64(piston)*float64(x))
	below := negative + units.Volume(float64(piston-rod)*float64(x))
	held := a.Air.Pressure.In(units.Pascal)*float64(positive) + a.Air.NegativePressure.In(units.Pascal)*float64(negative)
	shared := held / float64(above+below)
	if second := a.SecondPressure.In(units.Pascal); a.SecondVolume != 0 && shared > second {
		behind := second * float64(a.SecondVolume)
		shared = (held + behind) / float64(above+below+a.SecondVolume)
		above += a.SecondVolume - units.Volume(behind/shared)
	}
	p := units.Absolute(units.Pressure(shared))
	a.Air.Pressure = scaled(p, float64(above/positive))
	a.Air.NegativePressure = scaled(p, float64(below/negative))
}
