package oil

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// FluidSpec is a fork oil by its data sheet. The viscosity may be left out where only the volume of the oil
// matters; else it takes one measurement and either a second one at another temperature or the viscosity index.
type FluidSpec struct {
	Density   units.Density     // at Reference, 700 kg/m³ to 1100 kg/m³
	Reference units.Temperature // of the density, usually 15 °C or 20 °C; −20 °C to 60 °C
	Expansion units.Expansivity // by volume, 2·10⁻⁴ 1/K to 15·10⁻⁴ 1/K

	Viscosity Measurement // usually at 40 °C; zero: not known
	Second    Measurement // usually at 100 °C; zero: given by Index
	Index     float64     // viscosity index, 1 to 500; zero: given by Second
}

// Measurement is a kinematic viscosity and the temperature it was measured at.
type Measurement struct {
	Viscosity   units.KinematicViscosity // 2 mm²/s to 20 000 mm²/s
	Temperature units.Temperature        // −40 °C to 150 °C
}

// Fluid is a damper oil.
type Fluid struct {
	spec FluidSpec
	line walther // zero: viscosity not known
}

// NewFluid checks the data sheet. A viscosity that does not fall with temperature, two measurements at one
// temperature and a viscosity below the 2 mm²/s from which the equation of ASTM D341 holds are errors.
func NewFluid(s FluidSpec) (Fluid, error) {
	f := check.Of("FluidSpec")
	check.Between(f, "Density", s.Density, 700*units.KilogramPerCubicMeter, 1100*units.KilogramPerCubicMeter)
	check.Temperature(f, "Reference", s.Reference, units.Celsius(-20), units.Celsius(60))
	check.Between(f, "Expansion", s.Expansion, 2e-4*units.PerKelvin, 15e-4*units.PerKelvin)
	line := s.line(f)
	if err := f.Err(); err != nil {
		return Fluid{}, err
	}
	return Fluid{spec: s, line: line}, nil
}

// Equal is f == o, for go-cmp and others that look for the method.
func (f Fluid) Equal(o Fluid) bool { return f == o }

// String is what a data sheet says of it, as "860 kg/m³ at 15 °C, 32 mm²/s at 40 °C, 6.24 mm²/s at 100 °C".
func (f Fluid) String() string {
	text := fmt.Sprintf("%.4g at %.3g", f.spec.Density, f.spec.Reference)
	if f.HasViscosity() {
		text += fmt.Sprintf(", %.3g at 40 °C, %.3g at 100 °C", f.Viscosity(celsius40), f.Viscosity(celsius100))
	}
	return text
}

// Spec is the data sheet; NewFluid makes the same fluid of it.
func (f Fluid) Spec() FluidSpec { return f.spec }

// Density at t: ρ₀ / (1 + β·(t − t₀)), for −40 °C to 150 °C.
func (f Fluid) Density(t units.Temperature) units.Density {
	return f.spec.Density / units.Density(f.growth(t))
}

// Expand is the volume at temperature to of what was v at temperature from, both −40 °C to 150 °C.
func (f Fluid) Expand(v units.Volume, from, to units.Temperature) units.Volume {
	return v * units.Volume(f.growth(to)/f.growth(from))
}

func (f Fluid) growth(t units.Temperature) float64 {
	return 1 + float64(f.spec.Expansion)*(t.Kelvin()-f.spec.Reference.Kelvin())
}
