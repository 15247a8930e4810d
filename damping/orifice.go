package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Discharge is the discharge coefficient of a sharp-edged opening well above Re = 1000, where it is between 0.60
// and 0.65; a rounded or short tube gives up to 0.8 (textbooks, from memory).
const Discharge = 0.62

// OrificeSpec is a thin opening.
type OrificeSpec struct {
	Area      units.Area // 0.001 mm² to 1000 mm²
	Discharge float64    // discharge coefficient, 0.3 to 1; see Discharge
}

// Orifice is a thin round opening of diameter d:
//
//	Δp = (ρ/2)·(q / (C·A))² + 24·μ·q/d³
//
// The second term, Sampson's creeping flow, outweighs the first below a Reynolds number of about 15, where a
// constant C would be wrong. Several holes count as so many orifices in parallel.
//
// The zero Orifice is closed.
type Orifice struct{ passage }

// NewOrifice checks the specification.
func NewOrifice(s OrificeSpec) (Orifice, error) {
	f := check.Of("OrificeSpec")
	checkOpening(f, s.Area, s.Discharge)
	if err := f.Err(); err != nil {
		return Orifice{}, err
	}
	return newOrifice(float64(s.Area), s.Discharge), nil
}

const smallestOpening, largestOpening = 1e-3 * units.SquareMillimeter, 1e3 * units.SquareMillimeter

func checkOpening(f *check.Faults, a units.Area, discharge float64) {
	checkArea(f, "Area", a, smallestOpening, largestOpening)
	check.Between(f, "Discharge", discharge, 0.3, 1)
}

// checkArea is check.Between with a message in mm², the size of these openings.
func checkArea(f *check.Faults, field string, a, lo, hi units.Area) {
	if !(a >= lo && a <= hi) {
		const mm2 = units.SquareMillimeter
		f.Report(field, fmt.Sprintf("%.6g mm²", a.In(mm2)), fmt.Sprintf("%.6g mm² to %.6g mm²", lo.In(mm2), hi.In(mm2)),
			"")
	}
}

func newOrifice(area, discharge float64) Orifice {
	d := math.Sqrt(4 / math.Pi * area)
	return Orifice{passage{
		viscous:  24 / (d * d * d),
		inertial: 1 / (2 * discharge * discharge * area * area),
		reynolds: d / area,
	}}
}

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
		return Orifice{}, &units.RangeError{Field: "clicks", Value: clicks,
			Want: fmt.Sprintf("0 to %d, counted from closed", a.spec.Clicks)}
	}
	area := float64(a.spec.Closed) + float64(clicks)*float64(a.spec.PerClick)
	if area == 0 {
		return Orifice{}, nil
	}
	return newOrifice(area, a.spec.Discharge), nil
}
