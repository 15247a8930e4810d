package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// RadialGapSpec is the film between two parallel disks, as a lapped or dirty shim leaves on its seat.
type RadialGapSpec struct {
	Inner units.Length // diameter, 1 mm to 200 mm
	Outer units.Length // diameter, above Inner to 400 mm
	Gap   units.Length // 1 µm to a tenth of Outer − Inner
}

// RadialGap is the laminar film between two parallel disks:
//
//	Δp = 6·μ·ln(r₂/r₁)·q / (π·c³)
type RadialGap struct{ passage }

// NewRadialGap checks the specification.
func NewRadialGap(s RadialGapSpec) (RadialGap, error) {
	f := check.Of("RadialGapSpec")
	inner := check.Between(f, "Inner", s.Inner, 1*units.Millimeter, 200*units.Millimeter)
	outer := check.Between(f, "Outer", s.Outer, 1*units.Millimeter, 400*units.Millimeter)
	if inner && outer {
		if s.Outer <= s.Inner {
			f.Report("Outer", s.Outer, fmt.Sprintf("above the inner diameter %.6g", s.Inner), "")
		} else {
			check.Between(f, "Gap", s.Gap, 1e-6*units.Meter, (s.Outer-s.Inner)/10)
		}
	}
	if err := f.Err(); err != nil {
		return RadialGap{}, err
	}
	c := float64(s.Gap)
	return RadialGap{passage{
		viscous:  6 * math.Log(float64(s.Outer/s.Inner)) / (math.Pi * c * c * c),
		reynolds: 2 / (math.Pi * float64(s.Inner)),
	}}, nil
}
