package fit

import (
	"errors"
	"slices"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Steady parts a sweep into what was taken at least ends away from where it began and
// from where it turned, and the rest: there friction turns from one side to the other
// and no stroke is under way. A sweep one way does not turn where it ends, and keeps
// its last reading if ends is 0.
func Steady(sweep spring.MeasuredSpec, ends units.Length) (steady, rest spring.MeasuredSpec) {
	if len(sweep.Loading) == 0 {
		return sweep, rest
	}
	first, top := sweep.Loading[0].Travel+ends, sweep.Loading[len(sweep.Loading)-1].Travel
	part := func(branch []spring.Reading) (in, out []spring.Reading) {
		for _, r := range branch {
			if r.Travel < first || r.Travel > top-ends || r.Travel == top && sweep.Unloading != nil {
				out = append(out, r)
			} else {
				in = append(in, r)
			}
		}
		return in, out
	}
	steady.Loading, rest.Loading = part(sweep.Loading)
	steady.Unloading, rest.Unloading = part(sweep.Unloading)
	return steady, rest
}

// Usual frees what a sweep may tell of a fork of which only the class is known, within
// what is possible: rate within a factor of 5, preload from −20 mm to 60 mm, volumes
// from next to no gas at full travel to 3 or 4 times that, friction up to 600 N,
// exponent. What the model has not is left out.
//
// They stand in the order in which [Identify] should try to keep them.
func Usual(m Model) []Free {
	var free []Free
	if k, ok := Rate().Of(m); ok {
		free = append(free, Rate().Between(k/5, 5*k), Preload().Between(-20*units.Millimeter, 60*units.Millimeter))
	}
	// The part of each volume in the model that leaves next to no gas at full travel.
	var air, gap units.Volume
	for _, l := range []setup.Leg{m.Fork.Left, m.Fork.Right} {
		if a := l.Air; a != nil {
			air = max(air, 1.02*swept(m, geometry.Circle(a.Bore))/(a.Volume-a.Reducers))
		}
		if g := l.Gap; g != nil {
			gap = max(gap, 1.02*swept(m, g.Area)/(g.Residual+swept(m, g.Area)))
		}
	}
	if v, ok := ChamberVolume().Of(m); ok {
		free = append(free, ChamberVolume().Between(air*v, min(4*air*v, 3*units.Liter)))
	}
	if v, ok := GapVolume().Of(m); ok {
		free = append(free, GapVolume().Between(gap*v, min(3*gap*v, gap*v+1.9*units.Liter)))
	}
	free = append(free, Friction().Between(0, 600*units.Newton))
	if _, ok := Exponent().Of(m); ok {
		free = append(free, Exponent().Between(gas.Isothermal, 5.0/3))
	}
	return free
}

// Unidentified is a parameter that was held because the readings do not determine it.
type Unidentified struct {
	Parameter string // by name
	Reason    string // in words
}

// Identify fits what the readings determine. Of parameters that they do not, the one
// that stands last in the list is held at the model's value, and the rest fitted again.
func Identify(readings spring.MeasuredSpec, m Model, free ...Free) (*Result, []Unidentified, error) {
	free = slices.Clone(free)
	var held []Unidentified
	for {
		r, err := Fit(readings, m, free...)
		var vague *UnidentifiableError
		if len(free) < 2 || !errors.As(err, &vague) {
			return r, held, err
		}
		for i, q := range slices.Backward(free) {
			if slices.Contains(vague.Parameters, q.name) {
				free, held = slices.Delete(free, i, i+1), append(held, Unidentified{q.name, vague.Reason})
				break
			}
		}
	}
}
