package oil

import (
	"math"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

// slack in mm²/s keeps a viscosity given as 2 mm²/s from falling below it by rounding.
const slack = 1e-9

// walther is the straight line log₁₀ log₁₀ Z = A − B·log₁₀ T of ASTM D341.
type walther struct{ a, b float64 }

// through is the line through two measurements.
func through(p, q Measurement) walther {
	w, v := doubleLog(p.Viscosity), doubleLog(q.Viscosity)
	l, m := math.Log10(p.Temperature.Kelvin()), math.Log10(q.Temperature.Kelvin())
	b := (w - v) / (m - l)
	return walther{a: w + b*l, b: b}
}

// fromIndex is the line through one measurement that has the viscosity index. It
// reports false where that oil would lie outside 2 mm²/s to 500 mm²/s at 100 °C.
func fromIndex(p Measurement, index float64) (walther, bool) {
	line := func(lnY float64) walther {
		y := units.KinematicViscosity(math.Exp(lnY)) * units.SquareMillimeterPerSecond
		return through(Measurement{Viscosity: ofIndex(index, y), Temperature: celsius40},
			Measurement{Viscosity: y, Temperature: celsius100})
	}
	w := doubleLog(p.Viscosity)
	lnY, ok := solve.Root(func(lnY float64) float64 { return line(lnY).doubleLog(p.Temperature) - w },
		math.Log(leastViscosity.In(units.SquareMillimeterPerSecond)), math.Log(500), 1e-14)
	if !ok {
		return walther{}, false
	}
	return line(lnY), true
}

func (l walther) doubleLog(t units.Temperature) float64 { return l.a - l.b*math.Log10(t.Kelvin()) }

// at is the viscosity on the line, by the standard's own inverse of Z(ν) below
// 2 mm²/s. Where the two meet they differ by 0.03 %.
func (l walther) at(t units.Temperature) units.KinematicViscosity {
	z := math.Pow(10, math.Pow(10, l.doubleLog(t))) - 0.7
	if z < leastViscosity.In(units.SquareMillimeterPerSecond)-slack {
		z -= math.Exp(-0.7487 + z*(-3.295+z*(0.6119-z*0.3193)))
	}
	return units.KinematicViscosity(z) * units.SquareMillimeterPerSecond
}

// doubleLog is log₁₀ log₁₀ (ν + 0.7), ν in mm²/s and at least 2 mm²/s.
func doubleLog(v units.KinematicViscosity) float64 {
	return math.Log10(math.Log10(v.In(units.SquareMillimeterPerSecond) + 0.7))
}
