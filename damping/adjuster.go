package damping

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// AdjusterSpec is a needle that opens a bleed click by click.
type AdjusterSpec struct {
	Clicks    int        // from closed to open, 1 to 100
	PerClick  units.Area // opened by one click, 0.001 mm² to 20 mm²
	Closed    units.Area // left open at 0 clicks, 0 to 20 mm²
	Discharge float64    // 0.3 to 1; see Discharge
}

// Adjuster is a bleed whose area is counted in clicks from closed.
type Adjuster struct {
	spec AdjusterSpec
}

// NewAdjuster checks the specification.
func NewAdjuster(s AdjusterSpec) (Adjuster, error) {
	f := check.Of("AdjusterSpec")
	if s.Clicks < 1 || s.Clicks > 100 {
		f.Report("Clicks", s.Clicks, "1 to 100", "")
	}
	checkArea(f, "PerClick", s.PerClick, smallestOpening, 20*units.SquareMillimeter)
	checkArea(f, "Closed", s.Closed, 0, 20*units.SquareMillimeter)
	check.Between(f, "Discharge", s.Discharge, 0.3, 1)
	if err := f.Err(); err != nil {
		return Adjuster{}, err
	}
	return Adjuster{spec: s}, nil
}

// At is the bleed so many clicks from closed. It is an error below 0 and above the number of clicks.
func (a Adjuster) At(clicks int) (Orifice, error) {
	if clicks < 0 || clicks > a.spec.Clicks {
		return Orifice{}, &units.RangeError{Field: "clicks", Value: clicks, Want: fmt.Sprintf("0 to %d, counted from closed", a.spec.Clicks)}
	}
	area := float64(a.spec.Closed) + float64(clicks)*float64(a.spec.PerClick)
	if area == 0 {
		return Orifice{}, nil
	}
	return newOrifice(area, a.spec.Discharge), nil
}
