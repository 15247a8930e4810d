package data

import "example.org/forkcurve/units"

// Gas is what a fork may be filled with.
type Gas struct {
	ID        string               // short, as others refer to it
	Name      string               // in words
	Density   Value[units.Density] // at 15 °C and 101.325 kPa
	Adiabatic Value[float64]       // polytropic exponent with no heat given off, cp/cv
	Ride      Value[float64]       // exponent usual for a fork that is ridden
}

func (g *Gas) fields(w *walk) {
	w.text("name", required, &g.Name)
	quantity(w, "density", required, &g.Density, 0.05*units.KilogramPerCubicMeter, 10*units.KilogramPerCubicMeter)
	number(w, "adiabatic-exponent", required, &g.Adiabatic, 1, 5.0/3)
	number(w, "ride-exponent", required, &g.Ride, 1, 5.0/3)
	w.want(!given(g.Ride, g.Adiabatic) || g.Ride.Value <= g.Adiabatic.Value, "ride-exponent",
		"the adiabatic exponent or less")
}

// Values lists every value of the gas.
func (g Gas) Values() []Entry { return list(g.fields) }
