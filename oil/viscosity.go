package oil

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

const (
	// leastViscosity is where log log (ν + 0.7) ends and, for ν at 100 °C, where the viscosity index does.
	leastViscosity = 2 * units.SquareMillimeterPerSecond
	// mostViscosity and thinnest are the limits of the equation of ASTM D341 in its full form (from memory).
	mostViscosity = 2e7 * units.SquareMillimeterPerSecond
	thinnest      = 0.21 * units.SquareMillimeterPerSecond
	// leastApart is the least distance of two measurements: over 10 K an oil thins by 20 % or more, so that the
	// 0.5 % to which each is known (common practice, no source) leaves the slope within 4 %.
	leastApart = 10 * units.KelvinDifference
)

var (
	celsius40  = units.Celsius(40)
	celsius100 = units.Celsius(100)
	coldest    = units.Celsius(-40)
	hottest    = units.Celsius(150)
)

// HasViscosity reports whether the data sheet gave the viscosity.
func (f Fluid) HasViscosity() bool { return f.line != walther{} }

// Viscosity is the kinematic viscosity at t by ASTM D341, for −40 °C to 150 °C; NaN where HasViscosity is false.
//
// Caution: the line is known where it was measured. Carried into the cold it tells the least that is to be expected:
// wax that comes out near the pour point, and polymer thickeners, make real oil thicker, at −20 °C by a factor of 2 or
// more (from memory). Do not ride hard on a cold fork because a computed viscosity allows it.
func (f Fluid) Viscosity(t units.Temperature) units.KinematicViscosity {
	if !f.HasViscosity() {
		return units.KinematicViscosity(math.NaN())
	}
	return f.line.at(t)
}

// DynamicViscosity at t: ν·ρ, for −40 °C to 150 °C; NaN where HasViscosity is false.
func (f Fluid) DynamicViscosity(t units.Temperature) units.DynamicViscosity {
	return units.DynamicViscosity(float64(f.Viscosity(t)) * float64(f.Density(t)))
}

// line fits the viscosity of the data sheet and reports its faults to f.
func (s FluidSpec) line(f *check.Faults) walther {
	if s.Viscosity == (Measurement{}) {
		if s.Second != (Measurement{}) || s.Index != 0 {
			f.Report("Viscosity", s.Viscosity.Viscosity, "a first measurement beside a second one or an index", "")
		}
		return walther{}
	}
	ok := s.Viscosity.check(f, "Viscosity")
	var line walther
	switch {
	case s.Second != (Measurement{}) && s.Index != 0:
		f.Report("Index", s.Index, "to be left out when Second is given", "")
		return walther{}
	case s.Second == (Measurement{}) && s.Index == 0:
		f.Report("Index", s.Index, "a viscosity index, or a second measurement", "")
		return walther{}
	case s.Index != 0:
		if !check.Between(f, "Index", s.Index, 1, 500) || !ok {
			return walther{}
		}
		if line, ok = fromIndex(s.Viscosity, s.Index); !ok {
			f.Report("Viscosity.Viscosity", s.Viscosity.Viscosity,
				fmt.Sprintf("an oil of 2 mm²/s to 500 mm²/s at 100 °C when its viscosity index is %.0f",
					s.Index), "give a second measurement instead")
			return walther{}
		}
	default:
		if !s.Second.check(f, "Second") || !ok || !s.falls(f) {
			return walther{}
		}
		line = through(s.Viscosity, s.Second)
	}
	const steep = "the viscosity falls too steeply for an oil"
	if v := line.at(coldest); !(v <= mostViscosity) {
		f.Report("Viscosity", v, fmt.Sprintf("at most %.6g at %v", mostViscosity, coldest), steep)
	} else if v := line.at(hottest); !(v >= thinnest) {
		f.Report("Viscosity", v, fmt.Sprintf("at least %.6g at %v", thinnest, hottest), steep)
	}
	return line
}

func (m Measurement) check(f *check.Faults, field string) bool {
	ok := check.Temperature(f, field+".Temperature", m.Temperature, coldest, hottest)
	if m.Viscosity >= 0 && m.Viscosity < leastViscosity {
		f.Report(field+".Viscosity", m.Viscosity, "at least "+leastViscosity.String(),
			"ASTM D341 needs a measurement at a lower temperature")
		return false
	}
	return check.Between(f, field+".Viscosity", m.Viscosity, leastViscosity, 2e4*units.SquareMillimeterPerSecond) && ok
}

// falls reports a second measurement that is not thinner and warmer, or thicker and colder, than the first.
func (s FluidSpec) falls(f *check.Faults) bool {
	a, b := s.Viscosity, s.Second
	switch warmer := b.Temperature.Compare(a.Temperature); {
	case math.Abs(float64(b.Temperature.Sub(a.Temperature))) < float64(leastApart)-1e-9:
		f.Report("Second.Temperature", b.Temperature,
			fmt.Sprintf("at least %v away from the %.6g of the first measurement", leastApart, a.Temperature),
			"nearer ones do not tell how the viscosity falls")
	case warmer > 0 && !(b.Viscosity < a.Viscosity):
		f.Report("Second.Viscosity", b.Viscosity, fmt.Sprintf("below the %.6g at %.6g", a.Viscosity, a.Temperature),
			"viscosity falls with temperature")
	case warmer < 0 && !(b.Viscosity > a.Viscosity):
		f.Report("Second.Viscosity", b.Viscosity, fmt.Sprintf("above the %.6g at %.6g", a.Viscosity, a.Temperature),
			"viscosity falls with temperature")
	default:
		return true
	}
	return false
}
