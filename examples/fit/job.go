package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What the demo record was made with, whole fork.
const (
	madeFork     = "M06"
	madeRate     = 9.6 * units.NewtonPerMillimeter
	madePreload  = 7.5 * units.Millimeter
	madeGap      = 1310 * units.Milliliter
	madeExponent = 1.1
	madeFriction = 58 * units.Newton
)

// What can be measured.
const both, left, right = "both", "left", "right"

// job is a record and what is made of it.
type job struct {
	name     string // of the file
	demo     bool
	subject  string              // what the pictures say of the record
	record   spring.MeasuredSpec // as read
	kept     spring.MeasuredSpec // what is fitted
	rest     spring.MeasuredSpec // what is not
	skip     units.Length
	altitude units.Length
	fork     data.Fork
	leg      string
	parts    string

	model  fit.Model // as the fork's record has it
	free   []fit.Free
	held   []fit.Unidentified // parameters that were not fitted, and why
	result *fit.Result
	pairs  []pair
}

// pair is two parameters that the readings hardly tell apart, and the fit with the
// second one held at the value of the model.
type pair struct {
	a, b        *parameter
	correlation float64
	other       *fit.Result // nil: none
}

// parameter is a number of the fork and how it is shown.
type parameter struct {
	name, unit, format string
	value              func(fit.Model) float64
	estimate           func(*fit.Result) (value, stdErr float64)
	made               float64 // what the demo was made with
}

func shown[Q ~float64](p fit.Parameter[Q], unit Q, symbol, format string, made Q) *parameter {
	return &parameter{p.String(), symbol, format,
		func(m fit.Model) float64 { v, _ := p.Of(m); return float64(v / unit) },
		func(r *fit.Result) (float64, float64) {
			v, e := p.Estimate(r)
			return float64(v / unit), float64(e / unit)
		},
		float64(made / unit)}
}

// parameters are those that fit.Usual frees, in its order.
var parameters = []*parameter{
	shown(fit.Rate(), units.NewtonPerMillimeter, "N/mm", "%.3f", madeRate),
	shown(fit.Preload(), mm, "mm", "%.2f", madePreload),
	shown(fit.ChamberVolume(), units.Milliliter, "mL", "%.1f", 0),
	shown(fit.GapVolume(), units.Milliliter, "mL", "%.1f", madeGap),
	shown(fit.Friction(), units.Newton, "N", "%.1f", madeFriction),
	shown(fit.Exponent(), 1, "", "%.3f", madeExponent),
}

func names() []string {
	var list []string
	for _, p := range parameters {
		list = append(list, p.name)
	}
	return list
}

// named is the parameter of that name.
func named(name string) *parameter { return parameters[slices.Index(names(), name)] }

// oneOf reads one of some words.
func oneOf(words ...string) func(string) (string, error) {
	return func(text string) (string, error) {
		if i := slices.IndexFunc(words, func(w string) bool { return strings.EqualFold(w, text) }); i >= 0 {
			return words[i], nil
		}
		return "", fmt.Errorf("no %q: there are %s", text, strings.Join(words, ", "))
	}
}

// asMade tells whether the demo is fitted as the fork it was made of, where it was.
func (j *job) asMade() bool {
	return j.demo && j.fork.ID == madeFork && j.leg == both && j.altitude == 0
}

// describe makes the model out of what is known of the fork, and frees the rest.
func (j *job) describe(air gas.Ambient, gauge units.Pressure, exponent float64, hold []string) error {
	if !(exponent >= gas.Isothermal && exponent <= 5.0/3) {
		return &units.RangeError{Field: "-exponent", Value: exponent, Want: "1 to 1.6667"}
	}
	spec := j.fork.Spec(air)
	where := j.fork.ID
	if j.leg != both {
		where, spec.Friction = "the "+j.leg+" leg of "+where, spec.Friction/2
	}
	if j.leg == left {
		spec.Right = setup.Leg{}
	} else if j.leg == right {
		spec.Left = setup.Leg{}
	}
	if err := j.choose(&spec, where); err != nil {
		return err
	}
	if gauge != 0 {
		if !strings.Contains(j.parts, "air") {
			return errors.New("-gauge: the model has no air spring")
		}
		var err error
		if spec, err = spec.Filled(gas.Fill{Gauge: units.Gauge(gauge), Ambient: air}); err != nil {
			return fmt.Errorf("-gauge: %w", err)
		}
	}
	j.model = fit.Model{Fork: spec, Exponent: exponent}
	j.free = fit.Usual(j.model)
	for _, name := range hold {
		all := len(j.free)
		if j.free = j.without(name, "as asked for"); len(j.free) == all {
			return fmt.Errorf("-hold: the model %s has no %s to hold", j.parts, name)
		}
	}
	if len(j.free) == 0 {
		return errors.New("-hold: nothing is left to fit")
	}
	return nil
}

// choose leaves the parts of the model in the legs, and what goes with them.
func (j *job) choose(spec *setup.Spec, where string) error {
	legs := []*setup.Leg{&spec.Left, &spec.Right}
	has := map[string]bool{}
	for _, l := range legs {
		coil := slices.ContainsFunc(l.Springs, isMain)
		has["coil"] = has["coil"] || coil
		has["air"], has["gap"] = has["air"] || l.Air != nil, has["gap"] || l.Gap != nil
	}
	all := slices.DeleteFunc([]string{"coil", "air", "gap"}, func(p string) bool { return !has[p] })
	if j.parts == "" {
		j.parts = strings.Join(all, "+")
	}
	wanted := strings.Split(j.parts, "+")
	if !slices.Contains([]string{"coil", "coil+gap", "air", "air+gap"}, j.parts) {
		return fmt.Errorf("-model: %q is no model for %s: want coil, coil+gap, air or air+gap", j.parts, where)
	}
	for _, p := range wanted {
		if !has[p] {
			return fmt.Errorf("-model: %s has no %s", where, p)
		}
	}
	for _, l := range legs {
		if l.Damper = nil; !slices.Contains(wanted, "gap") {
			l.Gap = nil
		}
		if !slices.Contains(wanted, "air") {
			l.Air = nil
		}
		l.Springs = slices.DeleteFunc(l.Springs, func(s spring.Spec) bool {
			return isMain(s) != (wanted[0] == "coil") // a top-out spring balances an air spring
		})
		for i, s := range l.Springs {
			if c, ok := s.(spring.CoilSpec); ok { // it was pushed as far as the record goes, and did not bind
				l.Springs[i] = spring.CoilSpec{Rate: c.Rate, Preload: c.Preload}
			}
		}
	}
	return nil
}

// isMain reports whether a spring carries the fork, wound to one rate or more.
func isMain(s spring.Spec) bool {
	_, ok := s.(spring.Adjustable)
	return ok
}

// without are the free parameters but one, which is held.
func (j *job) without(name, why string) []fit.Free {
	rest := slices.DeleteFunc(slices.Clone(j.free), func(f fit.Free) bool { return f.String() == name })
	if len(rest) < len(j.free) {
		j.held = append(j.held, fit.Unidentified{Parameter: name, Reason: why})
	}
	return rest
}

// solve fits what the readings determine.
func (j *job) solve() error {
	var vague []fit.Unidentified
	var err error
	if j.result, vague, err = fit.Identify(j.kept, j.model, j.free...); err != nil {
		return fmt.Errorf("%s: %w", j.name, err)
	}
	for _, v := range vague {
		j.free = j.without(v.Parameter, v.Reason)
	}
	for i, a := range j.free {
		for k, b := range j.free[i+1:] {
			const near = 0.95 // from there on they count as told apart badly
			if c := j.result.Correlation(a, b); c > near || c < -near {
				rest := slices.Delete(slices.Clone(j.free), i+1+k, i+2+k)
				other, _ := fit.Fit(j.kept, j.model, rest...) // without, nothing is said of it
				j.pairs = append(j.pairs, pair{named(a.String()), named(b.String()), c, other})
			}
		}
	}
	return nil
}
