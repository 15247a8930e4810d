package ode

import "example.org/forkcurve/internal/solve"

// Until integrates until g changes sign or, reporting false, to limit. The solver
// then stands at the event, on the side of the new sign, located on the
// continuous extension to the resolution of a double.
//
// A sign is looked for at the ends of steps, so two changes within one step are
// missed: Settings.MaxStep has to be shorter than what they may be apart. A g
// that is 0 at the start, as it may be just after an event, counts as having the
// sign that it takes on in the step.
func (o *Solver[Y]) Until(limit float64, g func(t float64, y Y) float64) (bool, error) {
	before := sign(g(o.t, o.y))
	for range maxSteps {
		if !(o.t < limit) {
			return false, nil
		}
		if err := o.Step(limit); err != nil {
			return false, err
		}
		after := sign(g(o.t, o.y))
		if before != 0 && after != before {
			o.goBack(before, g)
			return true, nil
		}
		before = after
	}
	return false, o.fail(ErrSteps)
}

// goBack shortens the last step to end where g leaves the sign it had before.
func (o *Solver[Y]) goBack(before int, g func(t float64, y Y) float64) {
	at, ok := solve.Root(func(t float64) float64 { return g(t, o.At(t)) }, o.from, o.t, 0)
	if !ok {
		return // 0 or a sign change by rounding at the very end
	}
	// The root may be a few roundings short of the change.
	for step := (o.t - o.from) * 0x1p-50; sign(g(at, o.At(at))) == before && at < o.t; step *= 2 {
		at = min(at+step, o.t)
	}
	if at >= o.t {
		return
	}
	o.y = o.At(at)
	o.t = at
	o.k1 = o.eval(at, o.y)
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
