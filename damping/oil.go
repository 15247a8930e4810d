package damping

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// Oil is what a valve needs to know of the oil, at one temperature.
//
// The zero Oil is not valid.
type Oil struct {
	Density   units.Density          // 500 kg/m³ to 1500 kg/m³
	Viscosity units.DynamicViscosity // 0.1 mPa·s to 100 Pa·s
}

// Kinematic is the oil of a data sheet that gives kinematic viscosity: μ = ν·ρ.
func Kinematic(density units.Density, viscosity units.KinematicViscosity) Oil {
	return Oil{Density: density, Viscosity: units.DynamicViscosity(float64(density) * float64(viscosity))}
}

// OilAt is a fluid at a temperature from −40 °C to 150 °C. A fluid without a viscosity is an error.
func OilAt(f oil.Fluid, t units.Temperature) (Oil, error) {
	faults := check.Of("OilAt")
	check.Temperature(faults, "t", t, units.Celsius(-40), units.Celsius(150))
	if !f.HasViscosity() {
		faults.Report("f", "without viscosity", "a fluid with the viscosity of its data sheet", "")
	}
	if err := faults.Err(); err != nil {
		return Oil{}, err
	}
	o := Oil{Density: f.Density(t), Viscosity: f.DynamicViscosity(t)}
	if err := o.Validate(); err != nil {
		return Oil{}, err
	}
	return o, nil
}

// Validate reports every field out of range, as *[units.RangeError].
func (o Oil) Validate() error {
	f := check.Of("Oil")
	check.Between(f, "Density", o.Density, 500*units.KilogramPerCubicMeter, 1500*units.KilogramPerCubicMeter)
	check.Between(f, "Viscosity", o.Viscosity, 0.1*units.MillipascalSecond, 100*units.PascalSecond)
	return f.Err()
}
