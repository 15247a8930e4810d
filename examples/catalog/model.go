package main

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
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

// chambers tells what is in the air spring of a leg at a travel, moved there with exponent n from full extension.
func (m *model) chambers(side setup.Side, x units.Length, n float64) (c chambers, ok bool) {
	spaces, err := m.setup.Spaces(x, n)
	if err != nil {
		return c, false
	}
	for _, s := range spaces {
		if s.Side != side {
			continue
		}
		v, p := s.Gas.Volume, m.gauge(s.Gas.Pressure)
		switch s.Chamber {
		case setup.Positive:
			c.positive, c.positiveGauge, ok = v, p, true
		case setup.Linked: // counts to the positive one, with the pressure of which it was filled
			c.positive += v
		case setup.Second:
			c.second, c.secondGauge = v, p
		case setup.Negative:
			c.negative, c.negativeGauge = v, p
		}
	}
	return c, ok
}
