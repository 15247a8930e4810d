package helical

import (
	"math"

	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Grade is a class of accuracy of cold-coiled springs. The zero value is none.
type Grade int

const (
	Grade1 Grade = iota + 1 // fine
	Grade2                  // what is made unless asked otherwise
	Grade3                  // coarse
)

var grades = enum.Names[Grade]{Grade1: "grade 1", Grade2: "grade 2", Grade3: "grade 3"}

// String is the name, as "grade 2".
func (g Grade) String() string { return grades.String(g) }

// MarshalText writes the name.
func (g Grade) MarshalText() ([]byte, error) { return grades.Marshal(g) }

// UnmarshalText reads a name.
func (g *Grade) UnmarshalText(text []byte) error { return grades.Unmarshal(text, g) }

func (g Grade) valid() bool { return grades.Has(g) }

// diameterBands are permitted deviations in millimeters of the coil diameter,
// by mean diameter, then by index to 8, 14 and 20, then by grade.
//
// Source: DIN 2095, the table EN 15800 took over, from two spring makers' pages.
// One copy has 1.1 for grade 3 at 31.5 mm to 40 mm and index 8 to 14.
var diameterBands = [...]struct {
	upTo  units.Length
	plays [3][3]float64
}{
	{16 * mm, [3][3]float64{{0.15, 0.30, 0.60}, {0.20, 0.35, 0.70}, {0.25, 0.40, 0.80}}},
	{25 * mm, [3][3]float64{{0.20, 0.35, 0.70}, {0.25, 0.45, 0.90}, {0.30, 0.50, 1.00}}},
	{31.5 * mm, [3][3]float64{{0.25, 0.40, 0.80}, {0.30, 0.50, 1.00}, {0.35, 0.60, 1.20}}},
	{40 * mm, [3][3]float64{{0.25, 0.50, 1.00}, {0.30, 0.60, 1.20}, {0.35, 0.70, 1.50}}},
	{50 * mm, [3][3]float64{{0.30, 0.60, 1.20}, {0.40, 0.80, 1.50}, {0.50, 0.90, 1.80}}},
	{63 * mm, [3][3]float64{{0.40, 0.80, 1.50}, {0.50, 1.00, 2.00}, {0.60, 1.10, 2.30}}},
}

// DiameterTolerance is the permitted deviation ± of the coil diameter, for mean
// diameters from 10 mm to 63 mm. NaN outside, and where EN 15800 does not cover the
// spring: wire over 16 mm, L0 over 630 mm, under two active coils, index outside 4 to 20.
//
// Source: DIN 2095, the table EN 15800 took over, from two spring makers' pages; EN
// 15800, scope.
func (s Spring) DiameterTolerance(g Grade) units.Length {
	c, column := s.Index(), 0
	covered := s.wire <= 16*mm && s.free <= 630*mm && s.active >= 2 && c >= 4 && c <= 20
	if !g.valid() || !covered || s.mean < 10*mm {
		return units.Length(math.NaN())
	}
	switch {
	case c > 14:
		column = 2
	case c > 8:
		column = 1
	}
	for _, band := range diameterBands {
		if s.mean <= band.upTo {
			return units.Length(band.plays[column][g-Grade1]) * mm
		}
	}
	return units.Length(math.NaN())
}

// RateTolerance is the permitted relative deviation ± of the rate: 4 %, 8 % and
// 12 % by grade above ten active coils, 5 %, 10 % and 15 % from three to ten. NaN below three.
// A grade 2 spring may thus be more than a step of the usual range off: measure
// both springs of a fork between 20 % and 80 % of the stroke and pair them.
//
// Source: accuracy classes of a machine-design handbook for load and rate of
// cold-coiled springs, from an excerpt.
func (s Spring) RateTolerance(g Grade) units.Share {
	if !g.valid() || !(s.active >= 3) {
		return units.Share(math.NaN())
	}
	if s.active > 10 {
		return 0.04 * units.Share(g)
	}
	return 0.05 * units.Share(g)
}
