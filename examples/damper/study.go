package main

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	ride       = 1.3 // exponent of the gas in the springs, usual for a ridden fork
	slow, fast = 0.1 * units.MeterPerSecond, 0.5 * units.MeterPerSecond
)

// warming is a leg: a closed cartridge's oil, the tubes around it, and air that moves past; from memory.
var warming = damping.WarmingSpec{Oil: 0.17 * units.Kilogram, OilHeat: damping.OilHeat, Tube: 0.5 * units.Kilogram,
	TubeHeat: 900, Loss: 2}

// state is the damper with its oil at one temperature.
type state struct {
	celsius float64
	leg     cartridge
	fork    damping.Damper // all legs with a damper
}

// study is a fork on the invented damper.
type study struct {
	fork                 data.Fork
	fluid                data.Fluid
	oil                  oil.Fluid
	rebound, compression int     // clicks out
	legs                 int     // with a damper
	states               []state // cold, warm and hot
	warm, hot            state
	load                 units.Force
	mass                 units.Mass
	power                units.Power // as heat
	sag                  setup.Sag
	rate                 units.Stiffness // about the sag
	body                 damping.Oscillator
}

func newStudy(fork data.Fork, fluid data.Fluid, rebound, compression int, power units.Power) (*study, error) {
	s := &study{fork: fork, fluid: fluid, rebound: rebound, compression: compression, power: power}
	for _, leg := range []data.Leg{fork.Left, fork.Right} {
		if slices.Contains([]data.Role{data.DamperLeg, data.CoilDamperLeg, data.AirDamperLeg}, leg.Role) {
			s.legs++
		}
	}
	if s.legs == 0 {
		return nil, fmt.Errorf("fork %s has no leg with a damper", fork.ID)
	}
	var err error
	if s.oil, err = fluid.Oil(); err != nil {
		return nil, err
	}
	for _, celsius := range []float64{-5, 20, 60} {
		t, err := s.at(celsius)
		if err != nil {
			return nil, err
		}
		s.states = append(s.states, t)
	}
	s.warm, s.hot = s.states[1], s.states[2]
	load := fork.Chassis.Geometry().RiddenLoad(fork.Rider.Mass.Value)
	cos := math.Cos(float64(fork.Chassis.Rake.Value))
	s.load, s.mass = load.Axial, units.Mass(float64(load.Sprung)/float64(units.StandardGravity)*cos*cos)
	if _, s.sag, s.rate, err = s.springs(1); err != nil {
		return nil, err
	}
	s.body, err = damping.NewOscillator(damping.OscillatorSpec{Stiffness: s.rate, Mass: s.mass})
	return s, err
}

// at is the damper with its oil at a temperature.
func (s *study) at(celsius float64) (state, error) {
	o, err := damping.At(s.oil, units.Celsius(celsius))
	if err != nil {
		return state{}, fmt.Errorf("oil %s at %.0f °C: %w", s.fluid.ID, celsius, err)
	}
	leg, err := build(s.rebound, s.compression, o)
	return state{celsius, leg, damping.Sum([]damping.Damper{leg, leg}[:s.legs]...)}, err
}

// springs is the fork with every main spring so many times as stiff, where it settles, and its rate there as ridden.
func (s *study) springs(times float64) (*setup.Setup, setup.Sag, units.Stiffness, error) {
	air, err := gas.StandardAt(0, units.Celsius(s.warm.celsius))
	if err != nil {
		return nil, setup.Sag{}, 0, err
	}
	spec := s.fork.Spec(air)
	for _, leg := range []*setup.Leg{&spec.Left, &spec.Right} {
		leg.Springs = slices.Clone(leg.Springs)
		for i, one := range leg.Springs {
			if main, ok := one.(spring.Adjustable); ok {
				leg.Springs[i] = main.Adjusted(times, 0)
			}
		}
		if leg.Air != nil {
			air := *leg.Air
			for _, g := range []*units.GaugePressure{&air.Fill.Gauge, &air.NegativeGauge, &air.SecondGauge} {
				*g = g.Times(times)
			}
			leg.Air = &air
		}
	}
	fork, err := setup.New(spec)
	if err != nil {
		return nil, setup.Sag{}, 0, fmt.Errorf("springs %.2f times as stiff: %w", times, err)
	}
	sag, err := fork.Sag(s.load)
	if err != nil {
		return nil, sag, 0, err
	}
	return fork, sag, fork.CurveAbout(sag.Middle, ride).Rate(sag.Middle), nil
}

// asked is what springs so many times as stiff ask of rebound, with the usual worth of a click.
func (s *study) asked(times float64) (damping.ReboundSpec, units.Length, error) {
	now, _, _, err := s.springs(1)
	if err != nil {
		return damping.ReboundSpec{}, 0, err
	}
	next, _, rate, err := s.springs(times)
	if err != nil {
		return damping.ReboundSpec{}, 0, err
	}
	before, after := now.Curve(ride), next.Curve(ride)
	depth := min(units.Length(conversion.ReboundDepth)*now.Travel(), before.Stroke(), after.Stroke())
	return damping.ReboundSpec{OldRate: s.rate, NewRate: rate, OldForce: before.Force(depth),
		NewForce: after.Force(depth),
		PerClick: damping.CommonClick}, depth, nil
}
