package data

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// Fluid is a damper oil by its viscosity class, never by a maker.
type Fluid struct {
	ID          string                          // short, as "fork-5"
	Name        string                          // in words
	Viscosity   Value[units.KinematicViscosity] // at 40 °C
	Viscosities Range[units.KinematicViscosity] // of the class
	Density     Value[units.Density]            // at 15 °C
	Expansion   Value[units.Expansivity]        // by volume
	Index       Value[float64]                  // viscosity index; may be left out
}

func (f *Fluid) fields(w *walk) {
	const cst = units.SquareMillimeterPerSecond
	w.text("name", required, &f.Name)
	quantity(w, "viscosity", required, &f.Viscosity, 1*cst, 1000*cst)
	quantityRange(w, "viscosities", required, &f.Viscosities, Tolerance, 1*cst, 1000*cst)
	quantity(w, "density", required, &f.Density, 700*units.KilogramPerCubicMeter, 1100*units.KilogramPerCubicMeter)
	quantity(w, "expansion", required, &f.Expansion, 2e-4*units.PerKelvin, 15e-4*units.PerKelvin)
	number(w, "viscosity-index", optional, &f.Index, 1, 500)
	within(w, "viscosity", f.Viscosity, f.Viscosities, "viscosities")
	if w.sound() {
		if _, err := f.Oil(); err != nil {
			w.in.Fault("name", err)
		}
	}
}

// Oil is the fluid as package oil calculates with it, without a viscosity where the
// index is not known.
func (f Fluid) Oil() (oil.Fluid, error) {
	spec := oil.FluidSpec{
		Density:   f.Density.Value,
		Reference: units.Celsius(15),
		Expansion: f.Expansion.Value,
	}
	if f.Index.Given() {
		spec.Viscosity = oil.Measurement{Viscosity: f.Viscosity.Value, Temperature: units.Celsius(40)}
		spec.Index = f.Index.Value
	}
	return oil.NewFluid(spec)
}

// Values lists every value of the fluid.
func (f Fluid) Values() []Entry { return list(f.fields) }
