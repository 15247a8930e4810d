package ode

import (
	"math"

	"example.org/forkcurve/internal/solve"
)

// Event is a function of the state whose change of sign is to be found.
type Event func(t float64, y []float64) float64

// Until integrates until one of the events changes sign and returns its index or,
// -1, to limit. The solver then stands at the event, on the side of the new sign,
// located on the continuous extension to the resolution of a double; of several in
// one step it is the first.
//
// A sign is looked for at the ends of steps, so two changes within one step are
// missed: Settings.MaxStep has to be shorter than what they may be apart. An event
// that is 0 at the start, as it may be just after it, counts as having the sign that
// it takes on in the step.
func (o *Solver) Until(limit float64, events ...Event) (int, error) {
	o.signs = o.signs[:0]
	for _, g := range events {
		o.signs = append(o.signs, sign(g(o.t, o.y)))
	}
	for range maxSteps {
		if !(o.t < limit) {
			return -1, nil
		}
		if err := o.Step(limit); err != nil {
			return -1, err
		}
		first, at := -1, o.t
		for i, g := range events {
			before, after := o.signs[i], sign(g(o.t, o.y))
			if before == 0 || after == before {
				o.signs[i] = after
			} else if t := o.change(before, g); first < 0 || t < at {
				first, at = i, t
			}
		}
		if first >= 0 {
			o.goBack(at, o.signs[first], events[first])
		}
		if o.stepped(); first >= 0 {
			return first, nil
		}
	}
	return -1, o.fail(ErrSteps)
}

// change is the time in the last step at which g leaves the sign it had before.
func (o *Solver) change(before int, g Event) float64 {
	value := func(t float64) float64 {
		o.At(t, o.probe)
		return g(t, o.probe)
	}
	at, ok := solve.Root(value, o.from, o.t, 0)
	if !ok {
		return o.t // 0 or a sign change by rounding at the very end
	}
	// The root may be a few roundings short of the change.
	for step := (o.t - o.from) * 0x1p-50; sign(value(at)) == before && at < o.t; step *= 2 {
		at = min(at+step, o.t)
	}
	return at
}

// goBack takes the last step again, to end at a time within at which g has the other
// sign than before.
func (o *Solver) goBack(at float64, before int, g Event) {
	if at >= o.t {
		return
	}
	if !o.extended {
		o.extend()
	}
	end, whole := o.t, o.t-o.from
	o.t = o.from
	o.y, o.next = o.next, o.y
	o.k[0], o.k[6] = o.k[6], o.k[0]
	// Between steps the extension has one order less than the step: the change may come a
	// little later than it says.
	for late := whole * 0x1p-44; ; late *= 8 {
		h := min(at-o.from, whole)
		o.try(h)
		if at >= end || sign(g(o.from+h, o.next)) == -before {
			o.accept(h)
			return
		}
		if rise := o.rise(at, whole, g); rise > 0 { // a little further than the tangent leads
			late = max(late, min(1.1*math.Abs(g(o.from+h, o.next))/rise, whole))
		}
		at += late
	}
}

// rise is the slope of g on the extension just before a time, without its sign.
func (o *Solver) rise(at, whole float64, g Event) float64 {
	short := whole * 0x1p-10
	o.At(at, o.probe)
	end := g(at, o.probe)
	o.At(at-short, o.probe)
	return math.Abs(end-g(at-short, o.probe)) / short
}

// sign is 0 for 0 and, to be of no account, for NaN.
func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
