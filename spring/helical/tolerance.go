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

// spread is Q, the factor of the grade on loads and lengths: EN 15800, from memory.
func (g Grade) spread() float64 {
	if !g.valid() {
		return math.NaN()
	}
	return [...]float64{Grade1: 0.63, Grade2: 1, Grade3: 1.6}[g]
}

// tolerated says whether EN 15800 covers the spring: d 0.07 mm to 16 mm, D 0.63
// mm to 200 mm, L0 to 630 mm, two active coils or more, index 4 to 20.
//
// Source: EN 15800, scope.
func (s Spring) tolerated() bool {
	c := s.Index()
	return s.wire >= 0.07*mm && s.wire <= 16*mm && s.mean >= 0.63*mm && s.mean <= 200*mm &&
		s.free <= 630*mm && s.active >= 2 && c >= 4 && c <= 20
}

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
// diameters from 10 mm to 63 mm. NaN outside, and where EN 15800 does not cover the spring.
//
// Source: DIN 2095, the table EN 15800 took over, from two spring makers' pages.
func (s Spring) DiameterTolerance(g Grade) units.Length {
	if !g.valid() || !s.tolerated() || s.mean < 10*mm {
		return units.Length(math.NaN())
	}
	column := 0
	switch c := s.Index(); {
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

// loadBase is aF·kF in newtons. The standard draws both as curves; the closed forms are from memory.
func (s Spring) loadBase() float64 {
	d, D, x := s.wire.In(mm), s.mean.In(mm), s.Index()/10
	af := 65.92 * math.Pow(d, 3.3) / math.Pow(D, 1.6) * (-0.84*x*x*x + 3.781*x*x - 4.244*x + 2.274)
	kf := -1/(3*s.active*s.active) + 8/(5*s.active) + 0.803
	return af * kf
}

// LoadTolerance is the permitted deviation ± of the force at a given length
// where the force should be f, (aF·kF + 1.5 %·f)·Q with Q = 0.63, 1 or 1.6 by
// grade. NaN where EN 15800 does not cover the spring or for a negative force.
//
// Source: EN 15800, from memory, not checked against the standard.
func (s Spring) LoadTolerance(g Grade, f units.Force) units.Force {
	if !s.tolerated() || !(f >= 0) {
		return units.Force(math.NaN())
	}
	return units.Force((s.loadBase() + 0.015*float64(f)) * g.spread())
}

// FreeLengthTolerance is the permitted deviation ± of the free length,
// aF·kF·Q/k. NaN where EN 15800 does not cover the spring.
//
// Source: EN 15800, from memory, not checked against the standard.
func (s Spring) FreeLengthTolerance(g Grade) units.Length {
	if !s.tolerated() {
		return units.Length(math.NaN())
	}
	return units.Length(s.loadBase() * g.spread() / float64(s.rate))
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
