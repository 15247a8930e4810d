package spring

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CoilSpec is a linear coil spring in a leg.
type CoilSpec struct {
	Rate    units.Stiffness // of this spring, 0.1 N/mm to 200 N/mm
	Preload units.Length    // compression at full extension, −50 mm to 100 mm; negative: loose by that much
	Travel  units.Length    // of the fork, 1 mm to 400 mm

	// FreeLength and SolidLength bound the stroke by coil bind. Both zero: the
	// spring never binds within Travel.
	FreeLength  units.Length // 10 mm to 1000 mm, above SolidLength and Preload
	SolidLength units.Length // 1 mm to 1000 mm
}

// Coil is a linear coil spring: F = k·(x + preload), zero while it is loose.
type Coil struct {
	rate, preload, stroke float64 // N/m, m, m
}

var _ Curve = Coil{}

// NewCoil checks the specification. A spring that binds before the end of
// travel is valid: its Stroke is free length − solid length − preload.
func NewCoil(s CoilSpec) (Coil, error) {
	f := check.Of("CoilSpec")
	check.Between(f, "Rate", s.Rate, 0.1*units.NewtonPerMillimeter, 200*units.NewtonPerMillimeter)
	check.Between(f, "Preload", s.Preload, -50*units.Millimeter, 100*units.Millimeter)
	check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	stroke := s.Travel
	if s.FreeLength != 0 || s.SolidLength != 0 {
		free := check.Between(f, "FreeLength", s.FreeLength, 10*units.Millimeter, 1*units.Meter)
		solid := check.Between(f, "SolidLength", s.SolidLength, 1*units.Millimeter, 1*units.Meter)
		room := s.FreeLength - s.SolidLength - s.Preload
		if free && solid && !(room > 0) {
			f.Report("FreeLength", s.FreeLength, "above solid length plus preload, "+(s.SolidLength+s.Preload).String(), "")
		}
		stroke = min(stroke, room)
	}
	if err := f.Err(); err != nil {
		return Coil{}, err
	}
	return Coil{rate: float64(s.Rate), preload: float64(s.Preload), stroke: float64(stroke)}, nil
}

// Force is k·(x + preload), or 0 while the spring is loose.
func (c Coil) Force(x units.Length) units.Force {
	if !c.holds(x) {
		return units.Force(nan)
	}
	return units.Force(c.rate * max(0, float64(x)+c.preload))
}

// Rate is k, or 0 while the spring is loose.
func (c Coil) Rate(x units.Length) units.Stiffness {
	switch {
	case !c.holds(x):
		return units.Stiffness(nan)
	case float64(x)+c.preload < 0:
		return 0
	}
	return units.Stiffness(c.rate)
}

// Energy is k/2·((x + preload)² − preload²), the preload's own energy not
// counted.
func (c Coil) Energy(x units.Length) units.Energy {
	if !c.holds(x) {
		return units.Energy(nan)
	}
	end, start := max(0, float64(x)+c.preload), max(0, c.preload)
	return units.Energy(c.rate / 2 * (end - start) * (end + start))
}

// Stroke is the travel, or less where the coils bind first.
func (c Coil) Stroke() units.Length { return units.Length(c.stroke) }

func (c Coil) holds(x units.Length) bool { return x >= 0 && float64(x) <= c.stroke }
