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
		f.Report(field, fmt.Sprintf("%.6g mm²", a.In(mm2)), fmt.Sprintf("%.6g mm² to %.6g mm²", lo.In(mm2), hi.In(mm2)), "")
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
