package oil

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

const (
	// leastViscosity is where log log (ν + 0.7) ends and, for ν at 100 °C, where
	// the viscosity index does.
	leastViscosity = 2 * units.SquareMillimeterPerSecond
	// mostViscosity is the upper limit of the equation of ASTM D341.
	mostViscosity = 2e7 * units.SquareMillimeterPerSecond
)

var (
	celsius40  = units.Celsius(40)
	celsius100 = units.Celsius(100)
	coldest    = units.Celsius(-40)
	hottest    = units.Celsius(150)
)

// HasViscosity reports whether the data sheet gave the viscosity.
func (f Fluid) HasViscosity() bool { return f.line != walther{} }

// Viscosity is the kinematic viscosity at t by ASTM D341, for −40 °C to 150 °C;
// NaN where HasViscosity is false.
func (f Fluid) Viscosity(t units.Temperature) units.KinematicViscosity {
	if !f.HasViscosity() {
		return units.KinematicViscosity(math.NaN())
	}
	return f.line.at(t)
}

// DynamicViscosity at t: ν·ρ, for −40 °C to 150 °C; NaN where HasViscosity is
// false.
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
				fmt.Sprintf("an oil of 2 mm²/s to 500 mm²/s at 100 °C when its viscosity index is %.0f", s.Index), "give a second measurement instead")
			return walther{}
		}
	default:
		if !s.Second.check(f, "Second") || !ok || !s.falls(f) {
			return walther{}
		}
		line = through(s.Viscosity, s.Second)
	}
	if v := line.at(coldest); !(v <= mostViscosity) {
		f.Report("Viscosity", v, fmt.Sprintf("at most %v at %v", mostViscosity, coldest), "the viscosity falls too steeply for an oil")
	}
	return line
}

func (m Measurement) check(f *check.Faults, field string) bool {
	ok := check.Temperature(f, field+".Temperature", m.Temperature, coldest, hottest)
	if m.Viscosity >= 0 && m.Viscosity < leastViscosity {
		f.Report(field+".Viscosity", m.Viscosity, "at least "+leastViscosity.String(), "ASTM D341 needs a measurement at a lower temperature")
		return false
	}
	return check.Between(f, field+".Viscosity", m.Viscosity, leastViscosity, 2e4*units.SquareMillimeterPerSecond) && ok
}

// falls reports a second measurement that is not thinner and warmer, or thicker
// and colder, than the first.
func (s FluidSpec) falls(f *check.Faults) bool {
	a, b := s.Viscosity, s.Second
	switch warmer := b.Temperature.Compare(a.Temperature); {
	case math.Abs(float64(b.Temperature.Sub(a.Temperature))) < 1:
		f.Report("Second.Temperature", b.Temperature, fmt.Sprintf("at least 1 K away from the %.6g of the first measurement", a.Temperature), "")
	case warmer > 0 && !(b.Viscosity < a.Viscosity):
		f.Report("Second.Viscosity", b.Viscosity, fmt.Sprintf("below the %.6g at %.6g", a.Viscosity, a.Temperature), "viscosity falls with temperature")
	case warmer < 0 && !(b.Viscosity > a.Viscosity):
		f.Report("Second.Viscosity", b.Viscosity, fmt.Sprintf("above the %.6g at %.6g", a.Viscosity, a.Temperature), "viscosity falls with temperature")
	default:
		return true
	}
	return false
}
