package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// refit is the leg of an air fork that a coil kit goes into.
type refit struct {
	bath   *bath
	was    *leg
	where  string
	area   units.Area
	spring helical.Spring
	out    units.Volume // the cartridge with all it encloses
	metal  units.Volume // of the kit, in the oil
	inOil  bool
	aim    units.Volume // of oil in the converted leg
}

// newRefit takes the middle one of the springs designed for the fork's kit.
func newRefit(b *bath) (*refit, error) {
	file, err := jobfile.Typical(b.fork.ID, data.Reference())
	if err != nil {
		return nil, err
	}
	if len(file.Job.Legs) == 0 {
		return nil, errors.New("the kit names no leg")
	}
	bath, side := file.Job.Legs[0].Bath, file.Job.Legs[0].Side
	coil := file.Job.Shelf[len(file.Job.Shelf)/2]
	was := &b.legs[side]
	r := &refit{bath: b, was: was, where: fmt.Sprintf("the %v leg", side), area: bath.Area, out: was.spec.Metal, metal: bath.Metal, inOil: bath.SpringInOil, aim: file.Job.OilVolume.Aim}
	if len(file.Job.Legs) == 2 {
		r.where = "each leg"
	}
	if r.spring, err = helical.New(coil.Wire); err != nil {
		return nil, err
	}
	if r.inOil {
		r.metal += r.spring.Volume()
	}
	return r, nil
}

// state is one fill of the leg.
type state struct {
	name string
	fill oil.Fill
	warm oil.Fill
	area units.Area
}

// states are the leg as it is, with the kit and nothing done to the oil, with the oil
// the kit asks for, and with the same gas as before.
func (r *refit) states() ([]state, error) {
	was := r.was
	list := []state{{name: "as it is", fill: was.fill, area: was.area}}
	add := func(name string, fill oil.Fill, err error) error {
		list = append(list, state{name: name, fill: fill, area: r.area})
		return err
	}
	kit := was.spec
	kit.Metal = r.metal
	with := func(volume units.Volume) (oil.Fill, error) {
		s := kit
		s.Volume = volume
		return oil.NewFill(s)
	}
	same, err := with(was.fill.Volume())
	if err := add("kit in, oil untouched", same, err); err != nil {
		return nil, err
	}
	aimed, err := with(r.aim)
	if err := add("kit in, oil as the kit asks", aimed, err); err != nil {
		return nil, err
	}
	as, err := was.fill.Refitted(r.metal, was.fill.Residual())
	if err := add("kit in, gas room as before", as, err); err != nil {
		return nil, err
	}
	if !r.inOil { // there the oil only lubricates
		return r.warmed(list), nil
	}
	full, err := was.fill.Refitted(r.metal, oil.ResidualFor(conversion.GoodGapRatio, r.area, r.bath.fork.Travel.Value))
	if err := add(fmt.Sprintf("kit in, at ratio %.0f", conversion.GoodGapRatio), full, err); err != nil {
		return nil, err
	}
	return r.warmed(list), nil
}

// warmed fills in how the states are once warm.
func (r *refit) warmed(list []state) []state {
	for i := range list {
		list[i].warm = list[i].fill.Warmed(r.bath.fluid, r.bath.cold.Temperature, r.bath.warm.Temperature)
	}
	return list
}

// gap is the leg's gas in that state, closed at ambient pressure but for the charge
// that the leg as it is has.
func (r *refit) gap(s state) (oil.AirGap, error) {
	spec := oil.AirGapSpec{Area: s.area, Residual: s.fill.Residual(), Travel: r.bath.fork.Travel.Value,
		Pressure: r.bath.cold.Pressure, Ambient: r.bath.cold.Pressure, Exponent: r.bath.exponent}
	if s.fill == r.was.fill {
		spec.Pressure = r.was.charge.Absolute(r.bath.cold.Pressure)
	}
	return oil.NewAirGap(spec)
}

// ratio is that of a fill over the fork's travel, +Inf where it locks at once.
func (r *refit) ratio(s state, fill oil.Fill) (float64, error) {
	s.fill = fill
	gap, err := r.gap(s)
	return gap.CompressionRatio(), err
}
