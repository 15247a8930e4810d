package main

import (
	"fmt"
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// model is a fork with what the library says about it.
type model struct {
	data.Fork
	setup  *setup.Setup
	sea    gas.Ambient
	ride   float64 // polytropic exponent of a fork that is ridden
	load   geometry.Load
	sag    setup.Sag
	alone  setup.Sag // without rider
	rested bool      // the machine alone makes the fork sag
	rate   units.Stiffness
	body   units.Frequency
	coils  map[data.Coil]helical.Spring // of its legs
}

// model sets a fork up for its typical rider.
func (c *catalog) model(f data.Fork) (*model, error) {
	m := &model{Fork: f, sea: c.sea, coils: make(map[data.Coil]helical.Spring)}
	air, err := c.Gas("air")
	if err != nil {
		return nil, err
	}
	m.ride = air.Ride.Value
	if m.setup, err = f.Setup(c.sea); err != nil {
		return nil, fmt.Errorf("%s: %w", f.ID, err)
	}
	for _, l := range m.legs() {
		if !l.Role.HasCoil() {
			continue
		}
		if m.coils[l.Coil], err = l.Coil.Spring(c.Set); err != nil {
			return nil, fmt.Errorf("%s: %w", f.ID, err)
		}
	}
	chassis := f.Chassis.Geometry()
	m.load = chassis.RiddenLoad(f.Rider.Mass.Value)
	if m.sag, err = m.setup.Sag(m.load.Axial); err != nil {
		return nil, fmt.Errorf("%s: sag: %w", f.ID, err)
	}
	m.alone, err = m.setup.Sag(f.MachineLoad())
	m.rested = err == nil && m.alone.Middle > 0
	m.rate = m.setup.CurveAbout(m.sag.Middle, m.ride).Rate(m.sag.Middle)
	m.body = chassis.Frequency(m.rate, m.load)
	return m, nil
}

// share is a length in percent of the travel.
func (m *model) share(x units.Length) float64 { return 100 * float64(x/m.Travel.Value) }

// legs are the two of the fork, by setup.Side.
func (m *model) legs() [2]data.Leg { return [2]data.Leg{m.Left, m.Right} }

// gauge is a pressure over that of the air around.
func (m *model) gauge(p units.AbsolutePressure) units.GaugePressure { return p.Gauge(m.sea.Pressure) }

// chambers are the gas of an air spring at one travel.
type chambers struct {
	positive, negative, second                units.Volume // negative and second 0: none
	positiveGauge, negativeGauge, secondGauge units.GaugePressure
}

// chambers tells what is in the air spring of a leg at a travel, moved there with
// exponent n from full extension.
func (m *model) chambers(side setup.Side, x units.Length, n float64) (chambers, bool) {
	if a, err := m.setup.Air(side, n); err == nil {
		c := chambers{positive: a.Positive().Volume(x), positiveGauge: m.gauge(a.Positive().Pressure(x))}
		if neg, ok := a.Negative(); ok {
			c.negative, c.negativeGauge = neg.Volume(x), m.gauge(neg.Pressure(x))
		}
		return c, true
	}
	leg := m.legs()[side]
	if !leg.Role.HasAir() {
		return chambers{}, false
	}
	return m.floating(leg.Air, x, n)
}

// floating is chambers for an air spring with a floating piston, which rests on its
// stop until the main chamber has the pressure behind it, and then shares that:
//
//	p = ((V₁·p₁^(1/n) + V₂·p₂^(1/n)) / (V₁ + V₂ − A·x))ⁿ
func (m *model) floating(a data.Air, x units.Length, n float64) (chambers, bool) {
	spec := spring.AirSpec{
		Bore: a.Bore.Value, Rod: a.Rod.Value, Volume: a.Volume.Value - a.Reducers.Value,
		Pressure:       gas.Fill{Gauge: a.Pressure.Value, Ambient: m.sea}.Absolute(),
		NegativeVolume: a.NegativeVolume.Value, Port: a.Port.Value,
		Ambient: m.sea.Pressure, Exponent: n, Travel: m.Travel.Value,
	}
	if a.NegativeRatio.Given() {
		spec.NegativePressure = times(a.Pressure.Value, a.NegativeRatio.Value).Absolute(m.sea.Pressure)
	}
	second := times(a.Pressure.Value, a.SecondRatio.Value).Absolute(m.sea.Pressure)
	piston, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{Air: spec, SecondVolume: a.SecondVolume.Value, SecondPressure: second})
	if err != nil {
		return chambers{}, false
	}
	plain, err := spring.NewAir(spec)
	if err != nil {
		return chambers{}, false
	}
	c := chambers{positive: plain.Positive().Volume(x), positiveGauge: m.gauge(plain.Positive().Pressure(x)),
		second: a.SecondVolume.Value, secondGauge: m.gauge(second)}
	if x > piston.Engage() {
		root := func(p units.AbsolutePressure) float64 { return math.Pow(p.In(units.Pascal), 1/n) }
		share := float64(a.SecondVolume.Value) * root(second)
		all := float64(spec.Volume)*root(spec.Pressure) + share
		room := c.positive + c.second
		c.second = room * units.Volume(share/all)
		c.positive = room - c.second
		c.positiveGauge = m.gauge(units.Absolute(units.Pressure(math.Pow(all/float64(room), n))))
		c.secondGauge = c.positiveGauge
	}
	if neg, ok := plain.Negative(); ok {
		c.negative, c.negativeGauge = neg.Volume(x), m.gauge(neg.Pressure(x))
	}
	return c, true
}

func times(p units.GaugePressure, ratio float64) units.GaugePressure {
	return units.Gauge(units.Pressure(p.In(units.Pascal) * ratio))
}
