package explore

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// doubt is one value that is not known exactly: how far it may be off by the dataset, and what an error of it changes.
type doubt struct {
	name, known, source string
	sd                  float64 // standard deviation, in SI units or as a share
	add                 func(d *drawn, e float64)
}

// drawn is a fork with errors in it.
type drawn struct {
	spec     setup.Spec
	record   data.Fork // for the load and the section of the gas over the oil
	rider    units.Mass
	exponent float64
}

// doubts collects those of a fork.
type doubts struct {
	State
	list []doubt
}

// value adds what a record says of a value: its spread is taken as it stands, or where the page has another value
// as a share.
func value[Q ~float64](l *doubts, name string, v data.Value[Q], scales [2]scale[Q], add func(d *drawn, e Q)) {
	if v.Given() && v.Spread.SD > 0 {
		one := scales[l.system()]
		l.list = append(l.list, doubt{name, fmt.Sprintf("± %.3g %s", one.of(v.Spread.SD), printed(one.unit)), from(v),
			float64(v.Spread.SD), func(d *drawn, e float64) { add(d, Q(e)) }})
	}
}

// share adds a value whose spread is a share of it, whatever the page has set it to.
func (l *doubts) share(name, source string, sd, of float64, add func(d *drawn, e float64)) {
	if source != "" && sd > 0 && of != 0 {
		l.list = append(l.list, doubt{name, fmt.Sprintf("± %.2g %%", 100*sd/math.Abs(of)), source, sd / math.Abs(of), add})
	}
}

// from is the source of a spread.
func from[Q any](v data.Value[Q]) string {
	id := v.Spread.Source
	if id == "" {
		id = v.Source
	}
	return strings.ReplaceAll(id, "-", " ")
}

// relative is a standard deviation and the value it belongs to, as share takes them.
func relative[Q ~float64](v data.Value[Q]) (source string, sd, of float64) {
	return from(v), float64(v.Spread.SD), float64(v.Value)
}

func gauged(v data.Value[units.GaugePressure]) (source string, sd, of float64) {
	return from(v), v.Spread.SD.In(units.Pascal), v.Value.In(units.Pascal)
}

// degrees are the same in both systems.
var degrees = [2]scale[units.Angle]{linear("°", units.Degree), linear("°", units.Degree)}

// doubts of a fork as it is set.
func (s State) doubts(f Fork) []doubt {
	l := &doubts{State: s}
	r := f.Record
	value(l, "travel", r.Travel, millimeters, func(d *drawn, e units.Length) { d.spec.Travel += e })
	friction := r.Friction
	if f.Builds != nil {
		friction = r.Kit.Friction
	}
	l.share("friction", from(friction), float64(friction.Spread.SD), float64(friction.Value),
		func(d *drawn, e float64) { d.spec.Friction *= units.Force(max(0, 1+e)) })
	c := r.Chassis
	value(l, "mass of the machine", c.Mass, kilograms, func(d *drawn, e units.Mass) { d.record.Chassis.Mass.Value += e })
	value(l, "unsprung mass", c.UnsprungMass, kilograms,
		func(d *drawn, e units.Mass) { d.record.Chassis.UnsprungMass.Value += e })
	value(l, "share of the front wheel", c.FrontShareRidden, shares,
		func(d *drawn, e units.Share) { d.record.Chassis.FrontShareRidden.Value += e })
	value(l, "rake", c.Rake, degrees, func(d *drawn, e units.Angle) { d.record.Chassis.Rake.Value += e })
	value(l, "rider in kit", r.Rider.Mass, kilograms, func(d *drawn, e units.Mass) { d.rider += e })
	for side := range 2 {
		l.leg(f, side)
	}
	if air, err := data.Reference().Gas("air"); err == nil {
		l.share("exponent of the ridden gas", from(air.Ride), air.Ride.Spread.SD, air.Ride.Value, func(d *drawn, e float64) {
			d.exponent = max(1, d.exponent*(1+e))
		})
	}
	return l.list
}

// at is a leg of a drawn fork.
func (d *drawn) at(side int) *setup.Leg {
	if side == 0 {
		return &d.spec.Left
	}
	return &d.spec.Right
}

// leg adds the doubts of one leg.
func (l *doubts) leg(f Fork, side int) {
	has := [2]setup.Leg{f.Spec.Left, f.Spec.Right}[side]
	r := [2]data.Leg{f.Record.Left, f.Record.Right}[side]
	where := setup.Side(side).String() + " leg: "
	if has.Air != nil {
		l.air(where, r.Air, func(d *drawn) *setup.Air { return d.at(side).Air })
	}
	for i, spec := range has.Springs {
		if _, ok := spec.(spring.Adjustable); !ok {
			continue
		}
		adjust := func(rate float64, preload units.Length) func(*drawn, float64) {
			return func(d *drawn, e float64) {
				springs := d.at(side).Springs
				springs[i] = springs[i].(spring.Adjustable).Adjusted(1+rate*e, preload*units.Length(e))
			}
		}
		l.share(where+"rate of the spring", "judgment", judged("coil-rate"), 1, adjust(1, 0))
		preload := judged("coil-preload")
		l.list = append(l.list, doubt{where + "preload", "± " + show(millimeters, l.State, units.Length(preload), 0),
			"judgment", preload, adjust(0, 1)})
	}
	if has.Gap != nil {
		l.gap(where, f, side)
	}
	if has.Damper != nil {
		damper := func(d *drawn) *setup.Damper { return d.at(side).Damper }
		value(l, where+"rod of the damper", r.Reservoir.Rod, millimeters,
			func(d *drawn, e units.Length) { damper(d).Rod += e })
		value(l, where+"damper gas", r.Reservoir.Volume, milliliters,
			func(d *drawn, e units.Volume) { damper(d).Volume += e })
		source, sd, of := gauged(r.Reservoir.Pressure)
		l.share(where+"pressure of the damper gas", source, sd, of, func(d *drawn, e float64) {
			damper(d).Fill.Gauge = damper(d).Fill.Gauge.Times(1 + e)
		})
	}
}

// air adds those of an air spring.
func (l *doubts) air(where string, r data.Air, of func(*drawn) *setup.Air) {
	length := func(name string, v data.Value[units.Length], at func(*setup.Air) *units.Length) {
		value(l, where+name, v, millimeters, func(d *drawn, e units.Length) { *at(of(d)) = max(0, *at(of(d))+e) })
	}
	volume := func(name string, v data.Value[units.Volume], at func(*setup.Air) *units.Volume) {
		source, sd, value := relative(v)
		l.share(where+name, source, sd, value, func(d *drawn, e float64) { *at(of(d)) *= units.Volume(1 + e) })
	}
	length("bore of the air spring", r.Bore, func(a *setup.Air) *units.Length { return &a.Bore })
	length("rod of the air spring", r.Rod, func(a *setup.Air) *units.Length { return &a.Rod })
	length("transfer port", r.Port, func(a *setup.Air) *units.Length { return &a.Port })
	volume("positive chamber", r.Volume, func(a *setup.Air) *units.Volume { return &a.Volume })
	volume("volume reducers", r.Reducers, func(a *setup.Air) *units.Volume { return &a.Reducers })
	volume("linked volume", r.Linked, func(a *setup.Air) *units.Volume { return &a.Linked })
	volume("negative chamber", r.NegativeVolume, func(a *setup.Air) *units.Volume { return &a.NegativeVolume })
	volume("second chamber", r.SecondVolume, func(a *setup.Air) *units.Volume { return &a.SecondVolume })
	source, sd, value := gauged(r.Pressure)
	l.share(where+"pressure on the gauge", source, sd, value, func(d *drawn, e float64) {
		a := of(d)
		for _, g := range []*units.GaugePressure{&a.Fill.Gauge, &a.NegativeGauge, &a.SecondGauge} {
			*g = g.Times(1 + e)
		}
	})
}

// gap adds those of the gas over the oil. A leg that a plan has built is filled to a level, or else by volume into an
// inside that may be off.
func (l *doubts) gap(where string, f Fork, side int) {
	r := f.Record
	less := func(d *drawn, e units.Volume) { d.at(side).Gap.Residual += e }
	left := r.Gap.Residual
	for _, b := range f.Builds {
		if int(b.Side) != side {
			continue
		}
		left.Spread.Source, left.Source = "judgment", "judgment"
		if b.OilLevel != nil {
			left.Spread.SD = units.Volume(judged("gap-level") * float64(r.Geometry().OilColumn()))
		} else {
			left.Spread.SD = units.Volume(math.Hypot(float64(r.Kit.Interior.Spread.SD), float64(r.Kit.OilAim.Spread.SD)))
		}
	}
	value(l, where+"gas over the oil, at full travel", left, milliliters, less)
	value(l, where+"inside of the stanchion", r.StanchionBore, millimeters, func(d *drawn, e units.Length) {
		before := d.record.Gap.Area(d.record)
		d.record.StanchionBore.Value += e
		d.at(side).Gap.Area += d.record.Gap.Area(d.record) - before
	})
	source, sd, of := gauged(r.Gap.Precharge)
	l.share(where+"precharge", source, sd, of, func(d *drawn, e float64) {
		d.at(side).Gap.Gauge = d.at(side).Gap.Gauge.Times(1 + e)
	})
}

// judged is a standard deviation that the dataset has for a field where a record does not say: a share, or a length in
// meters.
func judged(key string) float64 {
	j, err := data.Reference().Spread(key)
	if err != nil {
		return 0
	}
	if share, err := units.Parse[units.Share](j.SD); err == nil {
		return float64(share)
	}
	length, _ := units.Parse[units.Length](j.SD)
	return float64(length)
}
