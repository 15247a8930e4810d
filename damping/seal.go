package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// SealSpec is a lip seal or O-ring on a sliding surface.
type SealSpec struct {
	Diameter units.Length // of the sliding surface, 2 mm to 80 mm
	Width    units.Length // over which pressure presses the seal on, 0.1 mm to 10 mm
	Friction float64      // coefficient μ, 0.01 to 0.5; wet elastomer 0.1 to 0.2 (from memory)
	Fitted   units.Force  // friction without pressure, from the fit alone, 0 to 200 N
}

// Seal is the sliding friction of a seal, F = F₀ + μ·π·D·w·p.
type Seal struct {
	fitted float64 // N
	slope  float64 // m²
}

// NewSeal checks the specification.
func NewSeal(s SealSpec) (Seal, error) {
	f := check.Of("SealSpec")
	if check.Between(f, "Diameter", s.Diameter, 2*units.Millimeter, 80*units.Millimeter) && s.Width > s.Diameter/2 {
		f.Report("Width", s.Width, fmt.Sprintf("at most the radius %.6g", s.Diameter/2), "")
	} else {
		check.Between(f, "Width", s.Width, 0.1*units.Millimeter, 10*units.Millimeter)
	}
	check.Between(f, "Friction", s.Friction, 0.01, 0.5)
	check.Between(f, "Fitted", s.Fitted, 0, 200*units.Newton)
	if err := f.Err(); err != nil {
		return Seal{}, err
	}
	return Seal{fitted: float64(s.Fitted), slope: s.Friction * math.Pi * float64(s.Diameter) * float64(s.Width)}, nil
}

// Force at a pressure difference over the seal, of either sign.
func (s Seal) Force(p units.Pressure) units.Force {
	return units.Force(s.fitted + s.slope*math.Abs(float64(p)))
}
