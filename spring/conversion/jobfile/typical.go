package jobfile

import (
	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Typical is the job a fork's record stands for: its middle rider and its usual
// fill, set at 20 °C and sea level and taken to 5 °C and 2000 m, with a shelf of
// springs designed for its kit over the rates its riders want. An unknown id is a
// *data.NotFoundError; a kit that no spring of its material fits is an error that
// says why.
func Typical(id string, set *data.Set) (*File, error) {
	fork, err := set.Fork(id)
	if err != nil {
		return nil, err
	}
	discipline, err := set.Discipline(fork.Use)
	if err != nil {
		return nil, err
	}
	air, err := set.Gas(usualGas)
	if err != nil {
		return nil, err
	}
	fluid, err := set.Fluid(usualFluid)
	if err != nil {
		return nil, err
	}
	low, high := 0*units.Meter, 2000*units.Meter
	home, err := gas.StandardAt(low, units.Celsius(20))
	if err != nil {
		return nil, err
	}
	away, err := gas.StandardAt(high, units.Celsius(5))
	if err != nil {
		return nil, err
	}
	f := &File{Discipline: discipline, Fork: fork}
	kit := fork.Kit
	f.Job = conversion.Job{
		Known: known(fork, fork.Rider.Mass.Value, 0), Usual: usual(fork),
		Heading: conversion.Heading{Title: "Typical rider of fork " + fork.ID, Stance: fork.Rider.Stance,
			Discipline: discipline.Name, Invented: true,
			Fork: fork.ID, ForkName: fork.Name, Workshop: conversion.Place{Altitude: &low},
			Event: conversion.Place{Name: "a cold morning, 2000 m higher", Altitude: &high}},
		Rider: fork.Rider.Mass.Value, Chassis: fork.Chassis.Geometry(), Fork: fork.Geometry(), Present: fork.Spec(home),
		Preload: conversion.Setting[units.Length]{Min: kit.Preload.Lo, Aim: kit.PreloadAim.Value,
			Max: kit.Preload.Hi},
		OilVolume: conversion.Setting[units.Volume]{Min: kit.Oil.Lo, Aim: kit.OilAim.Value, Max: kit.Oil.Hi},
		Criterion: conversion.Energy, RideExponent: air.Ride.Value,
		SagWindow: [2]units.Share{fork.Sag.Rider.Lo, fork.Sag.Rider.Hi},
		Workshop:  home, Event: away, ConvertedFriction: kit.Friction.Value,
	}
	for _, l := range []data.Leg{fork.Left, fork.Right} {
		if l.Role.HasAir() {
			f.Job.MaxGauge = l.Air.Maximum.Value
		}
	}
	if f.Job.Oil, err = fluid.Oil(); err != nil {
		return nil, err
	}
	for _, side := range []setup.Side{setup.Left, setup.Right} {
		if on := [...]bool{kit.Legs.Left, kit.Legs.Right}[side]; on && len(f.Job.Legs) == 0 || !kit.Legs.Left &&
			!kit.Legs.Right {
			f.Job.Legs = append(f.Job.Legs, convertedLeg(side, fork, 0))
		}
	}
	wire, err := set.Wire(usualWire)
	if err != nil {
		return nil, err
	}
	f.Job.Shelf, err = shelf(fork, len(f.Job.Legs), wire)
	return f, err
}
