package jobfile

import (
	"errors"
	"fmt"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// What a job turns the fork to.
const (
	toCoil = "coil"
	toAir  = "air"
)

// usualPlaces are those of the table of fills where a job names none.
var usualPlaces = struct {
	temperatures [3]float64 // °C
	altitudes    [3]units.Length
}{[3]float64{0, 15, 30}, [3]units.Length{0, 1500 * units.Meter, 3000 * units.Meter}}

// ToAir is the job of filling the fork with air: kept on its air springs, or where Build is told, back to them from
// that build, with no reducers but those it has. The error tells a fork whose record has no air spring, or what of
// the build does not let it stand.
func (f *File) ToAir() (conversion.AirJob, error) {
	j := f.Job
	a := conversion.AirJob{Heading: j.Heading, Rider: j.Rider, Chassis: j.Chassis, Fork: j.Fork, Air: j.Present,
		Criterion: j.Criterion, RideExponent: j.RideExponent, TargetSag: j.TargetSag, SagWindow: j.SagWindow,
		Workshop: j.Workshop, Event: j.Event, Known: j.Known, Usual: j.Usual, MaxGauge: j.MaxGauge, Torques: j.Torques}
	if _, onAir := j.Fill(); !onAir {
		return a, fmt.Errorf("fork %s has no air spring in its record", f.Fork.ID)
	}
	for _, t := range usualPlaces.temperatures {
		for _, z := range usualPlaces.altitudes {
			air, err := gas.StandardAt(z, units.Celsius(t))
			if err != nil {
				return a, err
			}
			a.Places = append(a.Places, conversion.AirPlace{Place: conversion.Place{Altitude: &z}, Ambient: air})
		}
	}
	if f.Build == nil {
		return a, nil
	}
	r, err := conversion.Check(j, *f.Build)
	if err != nil {
		return a, err
	}
	match := r.Candidates[0].Behavior.Setup.Spec()
	a.Match = &match
	return a, nil
}

// airJob reads what a job to air has beside one to coil springs.
func (d *decoder) airJob(t *strict.Table) {
	reducers := [2]units.Volume{}
	if lo, hi, ok := strict.OptionalRange(t, "reducers", strict.Between(0, 500*units.Milliliter)); ok {
		reducers = [2]units.Volume{lo, hi}
	}
	var places []conversion.AirPlace
	if in := d.root.OptionalTable("places"); in != nil {
		places = d.places(in)
	}
	if !d.fork || d.root.Faults() > 0 {
		return
	}
	a, err := d.file.ToAir()
	if err != nil {
		t.Fault("to", err)
		return
	}
	if a.Reducers = reducers; places != nil {
		a.Places = places
	}
	d.file.Air = &a
}

// places are every temperature at every altitude.
func (d *decoder) places(t *strict.Table) (list []conversion.AirPlace) {
	temperatures := strict.Quantities(t, "temperatures", strict.Between(units.Celsius(-40), units.Celsius(60)))
	altitudes := strict.Quantities(t, "altitudes", strict.Between(-500*units.Meter, 9000*units.Meter))
	if n := len(temperatures) * len(altitudes); n > conversion.MaxPlaces {
		t.Fault("altitudes", fmt.Errorf("%d places in all; want %d or fewer", n, conversion.MaxPlaces))
		return nil
	}
	for _, c := range temperatures {
		for _, z := range altitudes {
			air, err := gas.StandardAt(z, c)
			if err != nil {
				return nil // a fault above
			}
			list = append(list, conversion.AirPlace{Place: conversion.Place{Altitude: &z}, Ambient: air})
		}
	}
	return list
}

// airPlan reads the table plan of a job to air that comes from no coil build.
func (d *decoder) airPlan(t *strict.Table) {
	j, travel := &d.file.Job, d.file.Fork.Travel.Value
	if word, ok := t.OptionalWord("criterion", criteria()...); ok {
		j.Criterion = criterion(word)
	}
	j.RideExponent = d.rideExponent(t)
	j.TargetSag, _ = strict.OptionalQuantity(t, "target-sag", ofFork(d, travel/20, travel/2)...)
	if t.Has("reducers") {
		t.Fault("reducers", errors.New("leave it out where there is no build to match: what is in the fork stays"))
	}
}
