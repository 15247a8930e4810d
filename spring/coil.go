package spring

import (
	"fmt"

	"example.org/forkcurve/internal/chamber"
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

// Coil is a linear coil spring: F = k·(x + preload), zero while it is loose. The
// preload's own energy is not counted.
type Coil struct{ piecewise }

var _ Curve = Coil{}

// NewCoil checks the specification. A spring that binds before the end of
// travel is valid: its Stroke is free length − solid length − preload.
func NewCoil(s CoilSpec) (Coil, error) {
	f := check.Of("CoilSpec")
	check.Between(f, "Rate", s.Rate, 0.1*units.NewtonPerMillimeter, 200*units.NewtonPerMillimeter)
	preload := check.Between(f, "Preload", s.Preload, -50*units.Millimeter, 100*units.Millimeter)
	check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	stroke := s.Travel
	if s.FreeLength != 0 || s.SolidLength != 0 {
		free := check.Between(f, "FreeLength", s.FreeLength, 10*units.Millimeter, 1*units.Meter)
		solid := check.Between(f, "SolidLength", s.SolidLength, 1*units.Millimeter, 1*units.Meter)
		room := s.FreeLength - s.SolidLength - s.Preload
		if preload && free && solid && !(room > 0) {
			f.Report("FreeLength", s.FreeLength,
				fmt.Sprintf("above solid length plus preload, %.6g", s.SolidLength+s.Preload), "")
		}
		stroke = min(stroke, room)
	}
	if err := f.Err(); err != nil {
		return Coil{}, err
	}
	k, p := float64(s.Rate), float64(s.Preload)
	pieces := chamber.Path{{F: k * p, K: k}}
	if p < 0 {
		pieces = chamber.Path{{}, {X: -p, K: k}}
	}
	return Coil{path{pieces, float64(stroke)}.spring(float64(s.Travel))}, nil
}
