package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm, ml = units.Millimeter, units.Milliliter
	deep   = 0.66 // share of travel at which a fork is still meant to be supple
)

// study is the oil of one fork.
type study struct {
	bath.Bath
	fork       data.Fork
	fills      [2]oil.Fill // left and right
	main       setup.Side  // the leg whose oil is told
	byLevel    bool        // the record has a level
	fluid      oil.Fluid
	exponent   float64
	cold, warm gas.Ambient
}

func newStudy(fork data.Fork) (*study, error) {
	fluid, err1 := data.Reference().Fluid("fork-5") // for its expansion, in which fork oils hardly differ
	air, err2 := data.Reference().Gas("air")
	swells, err3 := fluid.Oil()
	cold, err4 := gas.StandardAt(0, units.Celsius(20))
	left, err5 := fork.Fill(setup.Left)
	right, err6 := fork.Fill(setup.Right)
	if err := errors.Join(err1, err2, err3, err4, err5, err6); err != nil {
		return nil, err
	}
	s := &study{fork: fork, fills: [2]oil.Fill{left, right}, byLevel: fork.Gap.Level.Given(), fluid: swells,
		exponent: air.Ride.Value, cold: cold}
	s.warm = gas.Ambient{Temperature: cold.Temperature.Add(conversion.OilWarming), Pressure: cold.Pressure}
	if !fork.Left.Role.HasCoil() && !fork.Left.Role.HasAir() {
		s.main = setup.Right
	}
	var err error
	s.Bath, err = bath.New(bath.Spec{Fork: fork.Spec(cold), Fills: s.fills, Oil: swells, Exponent: s.exponent})
	return s, err
}

// told is the oil that the text tells, and where names the legs with such oil.
func (s *study) told() oil.Fill { return s.fills[s.main] }

func (s *study) where() string {
	if s.fills[0] == s.fills[1] {
		return "each leg"
	}
	return fmt.Sprintf("the %v leg", s.main)
}

// deep and end are the forces of the whole fork at 66 % of travel and at its end.
func (s *study) deep(e bath.End) units.Force { return e.Force(s.fork.Travel.Value * deep) }
func (s *study) end(e bath.End) units.Force  { return e.Force(s.fork.Travel.Value) }

// x is the position of a fill on the axis, its level in mm or its volume in mL, and moreAt the other way about.
func (s *study) x(more units.Volume) float64 {
	fill := s.told()
	if s.byLevel {
		return fill.LevelOf(fill.Volume() + more).In(mm)
	}
	return (fill.Volume() + more).In(ml)
}

func (s *study) moreAt(x float64) units.Volume {
	fill := s.told()
	if s.byLevel {
		return fill.OilAt(units.Length(x)*mm) - fill.Volume()
	}
	return units.Volume(x)*ml - fill.Volume()
}

// state is one fill of the leg that a coil kit goes into, its gas, and its ratio once warm.
type state struct {
	name string
	fill oil.Fill
	gap  oil.AirGap
	warm float64
}

// refit is the leg of an air fork that a coil kit goes into.
type refit struct {
	Where     string
	Was       oil.Fill
	shut, kit oil.AirGapSpec // the gas as the leg was closed, and with the kit
	Spring    helical.Spring
	Metal     units.Volume // of the kit, in the oil
	InOil     bool
	Aim       units.Volume // of oil in the converted leg
	states    []state      // as it is, oil untouched, as the kit asks, same gas, and at a good ratio
}

// refit takes the middle one of the springs designed for the fork's kit.
func (s *study) refit() (*refit, error) {
	file, err := jobfile.Typical(s.fork.ID, data.Reference())
	if err != nil {
		return nil, err
	}
	if len(file.Job.Legs) == 0 {
		return nil, errors.New("the kit names no leg")
	}
	leg := file.Job.Legs[0]
	r := &refit{Where: fmt.Sprintf("the %v leg", leg.Side), Was: s.fills[leg.Side], shut: s.Gap(leg.Side),
		kit: s.Gap(leg.Side), Metal: leg.Bath.Metal, InOil: leg.Bath.SpringInOil, Aim: file.Job.OilVolume.Aim}
	r.kit.Area, r.kit.Pressure = leg.Bath.Area, s.cold.Pressure // closed without a charge
	if len(file.Job.Legs) == 2 {
		r.Where = "each leg"
	}
	if r.Spring, err = helical.New(file.Job.Shelf[len(file.Job.Shelf)/2].Wire); err != nil {
		return nil, err
	}
	if r.InOil {
		r.Metal += r.Spring.Volume()
	}
	add := func(name string, gap oil.AirGapSpec, fill oil.Fill, err error) error {
		now, err1 := s.sealed(fill, gap, s.cold)
		warm, err2 := s.sealed(fill, gap, s.warm)
		r.states = append(r.states, state{name, fill, now, warm.CompressionRatio()})
		return errors.Join(err, err1, err2)
	}
	untouched, err1 := r.Was.With(r.Metal, r.Was.Volume())
	asked, err2 := r.Was.With(r.Metal, r.Aim)
	same, err3 := r.Was.Refitted(r.Metal, r.Was.Residual())
	good, err4 := asked.With(r.Metal, asked.OilFor(conversion.GoodGapRatio, r.kit.Area, r.kit.Travel))
	err = errors.Join(add("as it is", r.shut, r.Was, nil), add("kit in, oil untouched", r.kit, untouched, err1),
		add("kit in, oil as the kit asks", r.kit, asked, err2), add("kit in, gas room as before", r.kit, same, err3))
	if r.InOil { // else the oil only lubricates
		err = errors.Join(err, add(fmt.Sprintf("kit in, at ratio %.0f", conversion.GoodGapRatio), r.kit, good, err4))
	}
	return r, err
}

// sealed is the gas over a fill that was closed cold.
func (s *study) sealed(fill oil.Fill, gap oil.AirGapSpec, air gas.Ambient) (oil.AirGap, error) {
	return oil.NewAirGap(fill.Sealed(gap, s.fluid, s.cold.Temperature, air.Temperature))
}
