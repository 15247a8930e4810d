package main

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
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

// bath is the oil of one fork.
type bath struct {
	fork       data.Fork
	legs       [2]leg     // left and right
	main       setup.Side // the leg whose oil is told
	byLevel    bool       // the record has a level
	wholeLeg   bool       // the air over the oil is the air spring itself
	fluid      oil.Fluid
	cold, warm gas.Ambient
}

// leg is the oil of one leg, as the record has it, and the gas closed over it cold, as ridden.
type leg struct {
	fill oil.Fill
	gap  oil.AirGapSpec
}

func newBath(fork data.Fork) (*bath, error) {
	fluid, err1 := data.Reference().Fluid("fork-5") // for its expansion, in which fork oils hardly differ
	air, err2 := data.Reference().Gas("air")
	swells, err3 := fluid.Oil()
	cold, err4 := gas.StandardAt(0, units.Celsius(20))
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return nil, err
	}
	b := &bath{fork: fork, byLevel: fork.Gap.Level.Given(), wholeLeg: !fork.Gap.Residual.Given(), fluid: swells, cold: cold}
	b.warm = gas.Ambient{Temperature: cold.Temperature.Add(conversion.OilWarming), Pressure: cold.Pressure}
	for i, record := range []data.Leg{fork.Left, fork.Right} {
		var err error
		if b.legs[i], err = b.leg(record, air.Ride.Value); err != nil {
			return nil, err
		}
	}
	if !fork.Left.Role.HasCoil() && !fork.Left.Role.HasAir() {
		b.main = setup.Right
	}
	return b, nil
}

// leg finds the oil of a leg and the metal in it. Where the record has no level, the metal is what is left of the
// interior after oil and gas: an air cartridge with all it encloses, a damper, a spring.
func (b *bath) leg(record data.Leg, exponent float64) (leg, error) {
	gap, air := b.fork.Gap, record.Air
	l := leg{gap: oil.AirGapSpec{Area: gap.Area(b.fork), Residual: gap.Residual.Value, Travel: b.fork.Travel.Value,
		Pressure: gap.Precharge.Value.Absolute(b.cold.Pressure), Ambient: b.cold.Pressure, Exponent: exponent}}
	if b.wholeLeg {
		if !air.Volume.Given() {
			return leg{}, errors.New("its record has no gas over the oil")
		}
		l.gap.Area = geometry.Circle(air.Bore.Value) - geometry.Circle(air.Rod.Value)
		l.gap.Pressure = air.Pressure.Value.Absolute(b.cold.Pressure)
		l.gap.Residual = air.Volume.Value - units.Volume(float64(l.gap.Area)*float64(l.gap.Travel))
	}
	spec := oil.FillSpec{Interior: b.fork.Kit.Interior.Value, Column: b.fork.Geometry().OilColumn()}
	switch {
	case b.byLevel:
		spec.Metal, spec.Level = gap.Displaced.Value, gap.Level.Value
	case record.Oil.Volume.Given():
		spec.Volume = (record.Oil.Volume.Lo + record.Oil.Volume.Hi) / 2
		spec.Metal = max(0, spec.Interior-spec.Volume-l.gap.Residual)
	default:
		return leg{}, errors.New("its record has no oil volume for each leg")
	}
	var err error
	l.fill, err = oil.NewFill(spec)
	return l, err
}

// point is the fork with some fill at the end of the stroke.
type point struct {
	Oil         units.Volume // of the leg that is told
	Ratio       float64      // of the leg with the higher one
	locked      bool
	Deep, Force units.Force    // of the whole fork as ridden, at 66 % of travel and at the end
	pressure    units.Pressure // over ambient, of the gas at the end
}

// at is the fork with more oil in each leg than the record has, or less, closed cold and brought to the temperature
// of the air.
func (b *bath) at(more units.Volume, air gas.Ambient) (point, error) {
	spec := b.fork.Spec(b.cold)
	var p point
	for i, side := range []*setup.Leg{&spec.Left, &spec.Right} {
		l := b.legs[i]
		fill, err := l.fill.With(l.fill.Metal(), l.fill.Volume()+more)
		if err != nil {
			return p, err
		}
		if setup.Side(i) == b.main {
			p.Oil = fill.Volume()
		}
		sealed := fill.Sealed(l.gap, b.fluid, b.cold.Temperature, air.Temperature)
		gap, err := oil.NewAirGap(sealed)
		if err != nil {
			return p, err
		}
		_, locks := gap.Locks()
		p.locked = p.locked || locks
		if r := gap.CompressionRatio(); r > p.Ratio {
			p.Ratio, p.pressure = r, gap.Pressure(gap.Stroke()).Sub(b.cold.Pressure)
		}
		// The fork is built cold, around the room that the warm oil leaves, and warms with its gas.
		cold := units.Pressure(sealed.Pressure.In(units.Pascal) * b.cold.Temperature.Kelvin() / air.Temperature.Kelvin())
		gauge := units.Absolute(cold).Gauge(b.cold.Pressure)
		if b.wholeLeg {
			side.Air.Volume, side.Air.Fill.Gauge = gap.Volume(0), gauge
		} else {
			side.Gap = &setup.Gap{Area: sealed.Area, Residual: sealed.Residual, Gauge: gauge}
		}
	}
	if p.locked && b.wholeLeg { // there is no such air spring
		return p, nil
	}
	s, err := setup.New(spec)
	if err == nil {
		s, err = s.At(air)
	}
	if err != nil {
		return p, err
	}
	curve := s.Curve(b.legs[0].gap.Exponent)
	p.Force = curve.Force(curve.Stroke())
	p.Deep = curve.Force(min(curve.Stroke(), b.fork.Travel.Value*deep))
	return p, nil
}

// moreFor is how much more oil brings the first leg to the ratio at the temperature of the air.
func (b *bath) moreFor(ratio float64, air gas.Ambient) units.Volume {
	most := units.Volume(math.Inf(1))
	for _, l := range b.legs {
		full := b.fluid.Expand(l.fill.OilFor(ratio, l.gap.Area, l.gap.Travel), air.Temperature, b.cold.Temperature)
		most = min(most, full-l.fill.Volume())
	}
	return most
}

// told is the leg whose oil the text tells, and where names the legs with such oil.
func (b *bath) told() leg { return b.legs[b.main] }

func (b *bath) where() string {
	if b.legs[0] == b.legs[1] {
		return "each leg"
	}
	return fmt.Sprintf("the %v leg", b.main)
}

// x is the position of a fill on the axis, its level in mm or its volume in mL, and moreAt the other way about.
func (b *bath) x(more units.Volume) float64 {
	fill := b.told().fill
	if b.byLevel {
		return fill.LevelOf(fill.Volume() + more).In(mm)
	}
	return (fill.Volume() + more).In(ml)
}

func (b *bath) moreAt(x float64) units.Volume {
	fill := b.told().fill
	if b.byLevel {
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
	where  string
	was    leg
	area   units.Area
	spring helical.Spring
	metal  units.Volume // of the kit, in the oil
	inOil  bool
	aim    units.Volume // of oil in the converted leg
	states []state      // as it is, oil untouched, as the kit asks, same gas, and at a good ratio
}

// refit takes the middle one of the springs designed for the fork's kit.
func (b *bath) refit() (*refit, error) {
	file, err := jobfile.Typical(b.fork.ID, data.Reference())
	if err != nil {
		return nil, err
	}
	if len(file.Job.Legs) == 0 {
		return nil, errors.New("the kit names no leg")
	}
	kit, side := file.Job.Legs[0].Bath, file.Job.Legs[0].Side
	r := &refit{where: fmt.Sprintf("the %v leg", side), was: b.legs[side], area: kit.Area, metal: kit.Metal,
		inOil: kit.SpringInOil, aim: file.Job.OilVolume.Aim}
	if len(file.Job.Legs) == 2 {
		r.where = "each leg"
	}
	if r.spring, err = helical.New(file.Job.Shelf[len(file.Job.Shelf)/2].Wire); err != nil {
		return nil, err
	}
	if r.inOil {
		r.metal += r.spring.Volume()
	}
	was, open := r.was.fill, r.was.gap
	open.Area, open.Pressure = r.area, b.cold.Pressure // the kit's leg is closed without a charge
	add := func(name string, gap oil.AirGapSpec, fill oil.Fill, err error) error {
		if err != nil {
			return err
		}
		s := state{name: name, fill: fill}
		if s.gap, err = oil.NewAirGap(fill.Sealed(gap, b.fluid, b.cold.Temperature, b.cold.Temperature)); err != nil {
			return err
		}
		warm, err := oil.NewAirGap(fill.Sealed(gap, b.fluid, b.cold.Temperature, b.warm.Temperature))
		s.warm = warm.CompressionRatio()
		r.states = append(r.states, s)
		return err
	}
	untouched, err1 := was.With(r.metal, was.Volume())
	asked, err2 := was.With(r.metal, r.aim)
	same, err3 := was.Refitted(r.metal, was.Residual())
	err = errors.Join(add("as it is", r.was.gap, was, nil), add("kit in, oil untouched", open, untouched, err1),
		add("kit in, oil as the kit asks", open, asked, err2), add("kit in, gas room as before", open, same, err3))
	if r.inOil { // else the oil only lubricates
		good, err4 := asked.With(r.metal, asked.OilFor(conversion.GoodGapRatio, r.area, open.Travel))
		err = errors.Join(err, add(fmt.Sprintf("kit in, at ratio %.0f", conversion.GoodGapRatio), open, good, err4))
	}
	return r, err
}
