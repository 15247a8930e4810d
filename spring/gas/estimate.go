package gas

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// EstimateExchange guesses the thermal time constant of an upright cylindrical chamber of that bore, from natural
// convection of its air at a mean temperature difference between gas and wall, 0 to 300 K:
//
//	τ = ρ·cv·V/(h·A),  h = Nu·k/L,  Nu(Ra, Pr) after Churchill and Chu
//
// with L and A the length and surface of the chamber. Where convection would be slower than conduction through
// still gas, τ = (D/2)²·ρ·cv/(5.783·k), that counts.
//
// It is an estimate to ±50 %: the correlation is for a wall in open air and steady flow, and no measurement in a
// fork is known. Oil splash and mist shorten τ, in an oil gap to half of it or less (from memory). A ridden fork
// swings the gas by some 20 K to 60 K.
//
// It is an error if s is not valid or outside 200 K to 700 K and 0.2 bar to 65 bar, or the bore (5 mm to 80 mm) or
// excess is out of range, or the chamber is not between half a bore and 2 m long.
func EstimateExchange(s State, bore units.Length, excess units.TemperatureDifference) (Exchange, error) {
	f := check.Of("EstimateExchange")
	if err := s.Validate(); err != nil {
		f.Nest("s", err)
	} else {
		check.Absolute(f, "s.Pressure", s.Pressure, 0.2*units.Bar, 65*units.Bar)
		check.Temperature(f, "s.Temperature", s.Temperature, units.Kelvin(200), units.Kelvin(maxReal))
	}
	check.Between(f, "bore", bore, 5*units.Millimeter, 80*units.Millimeter)
	check.Between(f, "excess", excess, 0, 300)
	if err := f.Err(); err != nil {
		return Exchange{}, err
	}
	section := geometry.Circle(bore)
	length, diameter := float64(s.Volume)/float64(section), float64(bore)
	if !(length >= diameter/2 && length <= 2) {
		f.Report("s.Volume", s.Volume, "half a bore to 2 m of length in that bore", "")
		return Exchange{}, f.Err()
	}
	t := s.Temperature.Kelvin()
	k := conductivity(t)
	const besselZero = 2.404826 // the first of J₀, which governs the slowest decay in a cylinder
	density := s.Pressure.In(units.Pascal) * airMolarMass / (gasConstant * t)
	still := density * airConstantVolume * diameter * diameter / (4 * besselZero * besselZero * k)

	const gravity = 9.80665
	kinematic, diffusivity := viscosity(t)/density, k/(density*airConstantPressure)
	rayleigh := gravity * float64(excess) / t * length * length * length / (kinematic * diffusivity)
	film := verticalPlate(rayleigh, prandtl(t)) * k / length
	surface := math.Pi*diameter*length + 2*float64(section)
	moved := density * airConstantVolume * float64(s.Volume) / (film * surface)
	return Exchange{TimeConstant: units.Time(min(still, moved))}, nil
}
