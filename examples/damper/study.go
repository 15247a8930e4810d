package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const typicalFork = "M06"

// typical are forces of such a fork, motocross, by speed; from memory, ±50 %.
var typical = []struct{ Speed, In, Out float64 }{{0.1, 90, 190}, {0.5, 190, 480}, {1, 310, 760}, {3, 650, 1500}}

// warming is a leg: a closed cartridge's oil, the tubes around it, and air that moves past; from memory.
var warming = damping.WarmingSpec{Oil: 0.17 * units.Kilogram, OilHeat: damping.OilHeat, Tube: 0.5 * units.Kilogram,
	TubeHeat: 900, Loss: 2}

// state is the damper with its oil at one temperature.
type state struct {
	units.Temperature
	Leg cartridge
	All damping.Damper // of the whole fork
}

// study is a fork on the invented damper, and what the sheet tells of it.
type study struct {
	Fork                 data.Fork
	Fluid                data.Fluid
	Rebound, Compression int     // clicks out
	Percent              float64 // by which other springs are stiffer
	Power                units.Power
	Cold, Warm, Hot      state
	*ride.Vehicle
	damping.Oscillator // of its body about the sag
	conversion.Respring
	Needle conversion.Needle
	damping.Warming
	Oil oil.Fluid
}

// fill works out what the sheet tells.
func (s *study) fill() error {
	fork, rider := s.Fork, s.Fork.Rider.Mass.Value
	if fork.Dampers() == 0 {
		return fmt.Errorf("fork %s has no leg with a damper", fork.ID)
	}
	if s.Power == 0 {
		s.Power = 150 * units.Watt
		if fork.Chassis.Mass.Value < conversion.LightMachine {
			s.Power = 50 * units.Watt
		}
	}
	var now, next *setup.Setup
	var errs [7]error
	s.Oil, errs[0] = s.Fluid.Oil()
	s.Cold, errs[1] = s.at(units.Celsius(-5))
	s.Warm, errs[2] = s.at(units.Celsius(20))
	s.Hot, errs[3] = s.at(units.Celsius(60))
	there, err := gas.StandardAt(0, s.Warm.Temperature)
	errs[4] = err
	now, errs[5] = fork.Setup(there)
	next, errs[6] = setup.New(fork.Spec(there).Stiffer(1 + s.Percent/100))
	if err := errors.Join(errs[:]...); err != nil {
		return err
	}
	if s.Vehicle, err = ride.New(ride.Of(now, fork.Chassis.Geometry(), rider, nil)); err != nil {
		return err
	}
	s.Oscillator, errs[0] = damping.NewOscillator(s.Body())
	needle, err := damping.NewSettings(clicks, func(out int) (damping.Damper, error) {
		return build(out, s.Compression, s.Warm.Leg.Spec().Oil)
	})
	errs[1] = err
	if s.Respring, errs[2] = conversion.NewRespring(now, next, fork.Load(rider)); errs[2] == nil {
		s.Needle, errs[3] = s.On(needle, s.Rebound)
	}
	s.Warming, errs[4] = damping.NewWarming(warming)
	return errors.Join(errs[:]...)
}

// at is the damper with its oil at a temperature.
func (s *study) at(t units.Temperature) (state, error) {
	o, err := damping.OilAt(s.Oil, t)
	if err != nil {
		return state{}, fmt.Errorf("oil %s at %.0f: %w", s.Fluid.ID, t, err)
	}
	leg, err := build(s.Rebound, s.Compression, o)
	return state{t, leg, damping.Sum([]damping.Damper{leg, leg}[:s.Fork.Dampers()]...)}, err
}

// In and Out are the sizes of the force of the whole fork in compression and in rebound.
func (t state) In(v units.Speed) float64  { return float64(t.All.Force(v)) }
func (t state) Out(v units.Speed) float64 { return -float64(t.All.Force(-v)) }

// Each is the heat of a leg.
func (s *study) Each() units.Power { return s.Power / units.Power(s.Fork.Dampers()) }

// Heated is the damper after 20 min of the heat in air as warm as the workshop; nil where its oil is not known.
func (s *study) Heated() *state {
	hot, err := s.at(s.Warm.Add(s.Rise(s.Each(), 20*units.Minute)))
	if err != nil {
		return nil
	}
	return &hot
}

// Left is the part of the warm rebound that hot oil leaves, and Clicks how many further out leave as much.
func (s *study) Left(hot *state, v units.Speed) units.Share {
	return units.Share(hot.Out(v) / s.Warm.Out(v))
}
func (s *study) Clicks(hot *state) float64 {
	return -damping.Clicks(float64(s.Left(hot, 0.1)), float64(s.Needle.Click))
}

func (s *study) Parts() []string           { return parts }
func (s *study) Typical() any              { return typical }
func (s *study) Lump() damping.WarmingSpec { return warming }
