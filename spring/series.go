package spring

import (
	"slices"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

// Series is the curves end to end: they share their force, and their travels add
// up. Each must rise with travel and rests on its own stop at x = 0: it
// stands still until the force has reached its first one, and again at the end
// of its stroke, when the others go on alone. Its stroke is the sum of
// theirs; [Limit] ends it at the travel of the fork. Curves that are nil or
// without a stroke are left out; with nothing left it has failed, see [Err].
//
// Springs that are preloaded together are put in series without preload and
// then shifted: Shift(Series(a, b), preload).
//
// Coil, Progressive from a pitch table, Stack and Nested combine into one closed
// form. With any other curve the share of each follows from a bracketed root at
// every evaluation, of some ten evaluations of its parts, to 1e-13 m.
func Series(curves ...Curve) Curve {
	curves, err := nonNil(curves)
	curves = slices.DeleteFunc(curves, func(c Curve) bool { return !(c.Stroke() > 0) })
	switch {
	case err != nil:
		return Failed(err)
	case len(curves) == 0:
		return Failed(noCurves("one curve with a stroke at least"))
	case len(curves) == 1:
		return curves[0]
	}
	var lines []polyline
	var rest []Curve
	for _, c := range curves {
		if s, ok := c.(interface{ polyline() (polyline, bool) }); ok {
			if l, ok := s.polyline(); ok {
				lines = append(lines, l)
				continue
			}
		}
		rest = append(rest, c)
	}
	if len(lines) > 0 {
		sum := inSeries(lines...).path()
		rest = append(rest, sum.spring(sum.stroke))
	}
	sum := rest[0]
	for _, c := range rest[1:] {
		sum = series{sum, c}
	}
	return sum
}

// series is two curves end to end.
type series struct{ a, b Curve }

// shareTolerance of the share of one curve in the travel.
const shareTolerance = 1e-13 // m

// moving says which of the two curves compress from a travel on.
type moving struct{ a, b bool }

// share is the part of x that each curve takes, and who moves. For x within the
// stroke.
func (s *series) share(x units.Length) (ya, yb units.Length, who moving) {
	endA, endB := s.a.Stroke(), s.b.Stroke()
	lo, hi := min(max(0, x-endB), endA), min(x, endA)
	surplus := func(y float64) float64 {
		return float64(s.a.Force(units.Length(y)) - s.b.Force(min(x-units.Length(y), endB)))
	}
	// A curve on its stop moves on from the force at which it gives way.
	if d := surplus(float64(lo)); d >= 0 {
		// a stands still on its stop, or goes on while b is at its end.
		return lo, min(x-lo, endB), moving{a: x >= endB || d == 0, b: x < endB}
	}
	if d := surplus(float64(hi)); d <= 0 {
		return hi, min(x-hi, endB), moving{a: x < endA, b: x >= endA || d == 0}
	}
	y, _ := solve.Root(surplus, float64(lo), float64(hi), shareTolerance)
	return units.Length(y), x - units.Length(y), moving{true, true}
}

func (s series) Force(x units.Length) units.Force {
	if !s.holds(x) {
		return units.Force(nan)
	}
	ya, yb, who := s.share(x)
	if who.a {
		return s.a.Force(ya)
	}
	return s.b.Force(yb)
}

func (s series) Rate(x units.Length) units.Stiffness {
	if !s.holds(x) {
		return units.Stiffness(nan)
	}
	ya, yb, who := s.share(x)
	switch {
	case !who.b:
		return s.a.Rate(ya)
	case !who.a:
		return s.b.Rate(yb)
	}
	ka, kb := s.a.Rate(ya), s.b.Rate(yb)
	if ka == 0 || kb == 0 {
		return 0
	}
	return 1 / (1/ka + 1/kb)
}

func (s series) Energy(x units.Length) units.Energy {
	if !s.holds(x) {
		return units.Energy(nan)
	}
	ya, yb, _ := s.share(x)
	return s.a.Energy(ya) + s.b.Energy(yb)
}

func (s series) Stroke() units.Length { return s.a.Stroke() + s.b.Stroke() }

func (s *series) holds(x units.Length) bool { return x >= 0 && x <= s.Stroke() }
