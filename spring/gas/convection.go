package gas

import "math"

// Transport properties of dry air at moderate pressure: U.S. Standard Atmosphere, 1976, equations 51 and 53
// (numbers from memory). Pressure adds a few percent at 30 bar.

// viscosity is dynamic, in Pa·s.
func viscosity(kelvin float64) float64 {
	return 1.458e-6 * math.Pow(kelvin, 1.5) / (kelvin + 110.4)
}

// conductivity is thermal, in W/(m·K).
func conductivity(kelvin float64) float64 {
	return 2.64638e-3 * math.Pow(kelvin, 1.5) / (kelvin + 245.4*math.Pow(10, -12/kelvin))
}

// Heat capacities of dry air as an ideal gas, J/(kg·K).
const (
	airConstantVolume   = airConstantPressure / Adiabatic
	airConstantPressure = Adiabatic / (Adiabatic - 1) * gasConstant / airMolarMass // 1005
)

func prandtl(kelvin float64) float64 {
	return viscosity(kelvin) * airConstantPressure / conductivity(kelvin)
}

// verticalPlate is the mean Nusselt number of natural convection on a vertical wall of the height that the Rayleigh
// number is made with, up to 10¹².
//
// Source: S. W. Churchill and H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a
// vertical plate, Int. J. Heat Mass Transfer 18 (1975) 1323–1329.
func verticalPlate(rayleigh, prandtl float64) float64 {
	fluid := math.Pow(1+math.Pow(0.492/prandtl, 9./16), 8./27)
	n := 0.825 + 0.387*math.Pow(rayleigh, 1./6)/fluid
	return n * n
}

// acrossCylinder is the mean Nusselt number of wind across a cylinder, good to ±20 %, for Reynolds·Prandtl above
// 0.2.
//
// Source: S. W. Churchill and M. Bernstein, A correlating equation for forced convection from gases and liquids to
// a circular cylinder in crossflow, J. Heat Transfer 99 (1977) 300–306.
func acrossCylinder(reynolds, prandtl float64) float64 {
	fluid := math.Pow(1+math.Pow(0.4/prandtl, 2./3), 1./4)
	wake := math.Pow(1+math.Pow(reynolds/282000, 5./8), 4./5)
	return 0.3 + 0.62*math.Sqrt(reynolds)*math.Cbrt(prandtl)/fluid*wake
}
