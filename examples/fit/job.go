package main

import (
	"errors"
	"fmt"
	"slices"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// job is a record and what is made of it.
type job struct {
	name     string // of the file
	demo     bool
	record   spring.MeasuredSpec // as read
	kept     spring.MeasuredSpec // what is fitted
	left     spring.MeasuredSpec // what is not
	skip     units.Length
	fork     data.Fork
	leg      string
	altitude units.Length
	exponent float64
	parts    string
	legs     []setup.Leg // that were measured

	model fit.Model // as the fork's record has it
	free  []freed
	held  []held

	result *fit.Result
	pairs  []pair
}

// freed is a free parameter.
type freed struct {
	parameter fit.Parameter
	free      fit.Free
}

// held is a parameter that was not fitted, and why.
type held struct {
	parameter fit.Parameter
	why       string
}

// pair is two parameters that the readings hardly tell apart, and the fit with the
// second one held at the value of the model.
type pair struct {
	a, b        fit.Parameter
	correlation float64
	other       *fit.Result // nil: none
}

// near is the correlation from which two parameters count as told apart badly.
const near = 0.95

// describe makes the model out of what is known of the fork, and frees the rest.
func (j *job) describe(parts string, air gas.Ambient, gauge units.GaugePressure) error {
	spec := j.fork.Spec(air)
	if gauge != (units.GaugePressure{}) {
		filled, err := spec.Filled(gas.Fill{Gauge: gauge, Ambient: air})
		if err != nil {
			return errors.New("-gauge: the model has no air spring")
		}
		spec = filled
	}
	switch j.leg {
	case "left":
		j.legs = []setup.Leg{spec.Left}
	case "right":
		j.legs = []setup.Leg{spec.Right}
	default:
		j.legs = []setup.Leg{spec.Left, spec.Right}
	}
	has := map[string]bool{}
	for _, leg := range j.legs {
		_, coil := setup.Find[spring.CoilSpec](leg)
		has["coil"] = has["coil"] || coil
		has["air"] = has["air"] || leg.Air != nil
		has["gap"] = has["gap"] || leg.Gap != nil
	}
	if parts == "" {
		for _, p := range []string{"coil", "air", "gap"} {
			switch {
			case has[p] && parts == "":
				parts = p
			case has[p]:
				parts += "+" + p
			}
		}
	}
	j.parts = parts
	where := j.fork.ID
	if j.leg != "both" {
		where = "the " + j.leg + " leg of " + j.fork.ID
	}
	wants := map[string]bool{}
	switch parts {
	case "coil", "air":
		wants[parts] = true
	case "coil+gap", "air+gap":
		wants[parts[:len(parts)-len("+gap")]], wants["gap"] = true, true
	default:
		return fmt.Errorf("-model: %q is no model for %s: want coil, coil+gap, air or air+gap", parts, where)
	}
	for p := range wants {
		if !has[p] {
			return fmt.Errorf("-model: %s has no %s", where, p)
		}
	}
	if gauge != (units.GaugePressure{}) && !wants["air"] {
		return errors.New("-gauge: the model has no air spring")
	}
	travel := j.fork.Travel.Value
	if wants["coil"] {
		j.coil(travel)
	}
	if wants["air"] {
		if err := j.air(travel, air); err != nil {
			return fmt.Errorf("-model: %w", err)
		}
	}
	if wants["gap"] {
		j.gap(travel, air)
	}
	if wants["gap"] || wants["air"] {
		j.set(fit.Exponent, fit.FreeExponent(gas.Isothermal, 5.0/3))
	}
	j.model.Friction = j.fork.Friction.Value * units.Force(len(j.legs)) / 2
	j.set(fit.Friction, fit.FreeFriction(0, 600*units.Newton))
	return nil
}

func (j *job) set(p fit.Parameter, f fit.Free) { j.free = append(j.free, freed{p, f}) }

// coil is the coils of the legs as one.
func (j *job) coil(travel units.Length) {
	c := spring.CoilSpec{Travel: travel}
	for _, leg := range j.legs {
		if one, ok := setup.Find[spring.CoilSpec](leg); ok {
			c.Rate += one.Rate
			c.Preload = one.Preload
		}
	}
	j.model.Coil = c
	j.set(fit.Rate, fit.FreeRate(c.Rate/5, 5*c.Rate))
	j.set(fit.Preload, fit.FreePreload(-20*units.Millimeter, 60*units.Millimeter))
}

// least is the smallest volume that may be fitted: next to nothing left at full travel.
func least(area units.Area, travel units.Length) units.Volume {
	return units.Volume(1.02 * float64(area) * float64(travel))
}

// gap is the gas over the oil of the legs as one chamber.
func (j *job) gap(travel units.Length, air gas.Ambient) {
	g := spring.ChamberSpec{Ambient: air.Pressure, Exponent: j.exponent, Travel: travel}
	for _, leg := range j.legs {
		if leg.Gap != nil {
			g.Area += leg.Gap.Area
			g.Volume += leg.Gap.Residual + units.Volume(float64(leg.Gap.Area)*float64(travel))
			g.Pressure = leg.Gap.Gauge.Absolute(air.Pressure)
		}
	}
	j.model.Gap = g
	low := least(g.Area, travel)
	j.set(fit.GapVolume, fit.FreeGapVolume(low, min(3*low, 5*units.Liter)))
}

// air is the air spring, which only one leg may have and of the plain kind.
func (j *job) air(travel units.Length, ambient gas.Ambient) error {
	var found *setup.Air
	for _, leg := range j.legs {
		switch {
		case leg.Air == nil:
			continue
		case found != nil:
			return fmt.Errorf("%s has an air spring in each leg: measure one with -leg left", j.fork.ID)
		case leg.Air.SecondVolume > 0:
			return fmt.Errorf("%s has a second positive chamber, which the model does not know", j.fork.ID)
		}
		found = leg.Air
		if t, ok := setup.Find[spring.TopOutSpec](leg); ok {
			balance, err := t.Curve(travel)
			if err != nil {
				return err
			}
			j.model.Rest = balance
		}
	}
	a := spring.AirSpec{Bore: found.Bore, Rod: found.Rod, Volume: found.Volume - found.Reducers,
		Pressure: found.Fill.Gauge.Absolute(ambient.Pressure), NegativeVolume: found.NegativeVolume, Port: found.Port,
		Ambient: ambient.Pressure, Exponent: j.exponent, Travel: travel}
	if found.NegativeGauge != (units.GaugePressure{}) {
		a.NegativePressure = found.NegativeGauge.Absolute(ambient.Pressure)
	}
	j.model.Air = a
	low := least(geometry.Circle(found.Bore), travel)
	j.set(fit.ChamberVolume, fit.FreeChamberVolume(low, min(4*low, 3*units.Liter)))
	return nil
}

// hold takes a parameter from the free ones.
func (j *job) hold(p fit.Parameter, why string) error {
	at := slices.IndexFunc(j.free, func(f freed) bool { return f.parameter == p })
	if at < 0 {
		return fmt.Errorf("the model %s has no %v to hold", j.parts, p)
	}
	j.free = slices.Delete(j.free, at, at+1)
	j.held = append(j.held, held{p, why})
	return nil
}

// easiest is the order in which parameters are held that the readings do not
// determine: first what is known best without them.
var easiest = []fit.Parameter{fit.Exponent, fit.Friction, fit.GapVolume, fit.ChamberVolume, fit.Preload, fit.Rate}

// solve fits, holding what the readings do not determine.
func (j *job) solve() error {
	for {
		var err error
		j.result, err = j.fit(nil)
		var vague *fit.UnidentifiableError
		if !errors.As(err, &vague) {
			if err != nil {
				return fmt.Errorf("%s: %w", j.name, err)
			}
			break
		}
		for _, p := range easiest {
			if slices.Contains(vague.Parameters, p) {
				if err := j.hold(p, vague.Reason); err != nil {
					return err
				}
				break
			}
		}
		if len(j.free) == 0 {
			return fmt.Errorf("%s: %w", j.name, vague)
		}
	}
	for i, a := range j.free {
		for _, b := range j.free[i+1:] {
			if c := j.result.Correlation(a.parameter, b.parameter); c > near || c < -near {
				p := pair{a: a.parameter, b: b.parameter, correlation: c}
				if slices.Index(easiest, p.a) < slices.Index(easiest, p.b) {
					p.a, p.b = p.b, p.a
				}
				p.other, _ = j.fit(&p.b) // without, nothing is said of it
				j.pairs = append(j.pairs, p)
			}
		}
	}
	return nil
}

// fit fits the free parameters, all but one if that is named.
func (j *job) fit(without *fit.Parameter) (*fit.Result, error) {
	var free []fit.Free
	for _, f := range j.free {
		if without == nil || f.parameter != *without {
			free = append(free, f.free)
		}
	}
	return fit.Fit(j.kept, j.model, free...)
}

// curve is the record as a spring; an error says why it is none.
func (j *job) curve() (spring.Measured, error) { return spring.NewMeasured(j.record) }
