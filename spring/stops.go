package spring

import (
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// WithStops is a curve with stops that give: past full extension, x < 0, and past the
// stroke its force goes on along a straight line of the rate of the stop there. Force, rate
// and energy then have a value at every finite x, the force without a jump, as a
// simulation needs that runs into its stops; Stroke is the travel between them. The rates
// are 1 N/mm to 100 kN/mm: some 100 N/mm for a rubber ring, 10 kN/mm for metal on metal
// (common practice, no source). Other rates, and a curve without a stroke, fail, see [Err].
//
// Stops come last: [Parallel] and the other combinations end at the stroke again.
func WithStops(c Curve, top, bottom units.Stiffness) Curve {
	if err := Err(c); err != nil {
		return Failed(err)
	}
	f := check.Of("WithStops")
	check.Between(f, "top", top, 1*units.NewtonPerMillimeter, 100_000*units.NewtonPerMillimeter)
	check.Between(f, "bottom", bottom, 1*units.NewtonPerMillimeter, 100_000*units.NewtonPerMillimeter)
	end := c.Stroke()
	if !(end > 0) {
		f.Report("c.Stroke", end, "above 0 mm", "")
	}
	if err := f.Err(); err != nil {
		return Failed(err)
	}
	return stopped{Curve: c, end: float64(end),
		top:    piece{F: float64(c.Force(0)), K: float64(top)},
		bottom: piece{F: float64(c.Force(end)), K: float64(bottom), E: float64(c.Energy(end))}}
}

type stopped struct {
	Curve
	end         float64
	top, bottom chamber.Piece // from travel 0 down, from the end up
}

func (s stopped) Force(x units.Length) units.Force {
	switch {
	case x < 0:
		return units.Force(s.top.Force(float64(x)))
	case float64(x) > s.end:
		return units.Force(s.bottom.Force(float64(x) - s.end))
	}
	return s.Curve.Force(x)
}

func (s stopped) Rate(x units.Length) units.Stiffness {
	switch {
	case x < 0:
		return units.Stiffness(s.top.K)
	case float64(x) > s.end:
		return units.Stiffness(s.bottom.K)
	}
	return s.Curve.Rate(x)
}

func (s stopped) Energy(x units.Length) units.Energy {
	switch {
	case x < 0:
		return units.Energy(s.top.Energy(float64(x)))
	case float64(x) > s.end:
		return units.Energy(s.bottom.Energy(float64(x) - s.end))
	}
	return s.Curve.Energy(x)
}
