package gas

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// WarmUpSpec is a leg in the wind that its damper heats.
type WarmUpSpec struct {
	Oil, Aluminum, Steel units.Mass   // 0 to 10 kg each, 0.1 kg in all; magnesium counts as 1.1 times aluminum
	Gas                  units.Amount // 0 to 10 mol; a chamber of 0.2 mol takes as much heat as 5 g of aluminum

	Diameter units.Length // of the tube in the wind, 10 mm to 150 mm
	Surface  units.Area   // in the wind, 0.005 m² to 1 m²
	AirSpeed units.Speed  // past the leg, 0.5 m/s to 60 m/s

	Ambient Ambient           // around the leg
	Start   units.Temperature // of the leg, −60 °C to 200 °C; zero: that of the ambient
	Power   units.Power       // turned to heat in the leg, 0 to 5 kW, and no more than the leg gives off below 200 °C
}

// WarmUp is the temperature of that leg over a run. Oil, gas and metal are one lump of heat capacity C, which loses
// heat by wind and radiation:
//
//	C·dT/dt = P − h·A·(T − T_ambient)
//	T = T_∞ + (T_start − T_∞)·e^(−t/τ),  τ = C/(h·A),  T_∞ = T_ambient + P/(h·A)
//
// h is that of wind across a cylinder after Churchill and Bernstein, ±20 %, plus 5 W/(m²·K) of radiation
// (emissivity 0.8, painted or anodized). Oil at the valves is hotter than the lump. Damping power is the least
// known: take a factor of 2 either way. A run of several sections is a chain, each starting at the [WarmUp.At] of
// the one before.
//
// The sealed gas takes that temperature: [State.Heat] gives its pressure, and an [Ambient] of that temperature and
// the outside pressure gives the fork its ride height. Immutable.
type WarmUp struct {
	start, steady float64 // K
	constant      float64 // s
}

// Heat capacities in J/(kg·K) at room temperature: textbook tables of an unused mineral oil, 6061 aluminum and
// plain carbon steel (from memory).
const (
	oilHeat      = 1909
	aluminumHeat = 896
	steelHeat    = 434
	gasHeat      = gasConstant / (Adiabatic - 1) // J/(mol·K)
)

// NewWarmUp checks the specification and reports every fault.
func NewWarmUp(s WarmUpSpec) (WarmUp, error) {
	f := check.Of("WarmUpSpec")
	known := check.Between(f, "Oil", s.Oil, 0, 10)
	known = check.Between(f, "Aluminum", s.Aluminum, 0, 10) && known
	known = check.Between(f, "Steel", s.Steel, 0, 10) && known
	if known && s.Oil+s.Aluminum+s.Steel < 0.1 {
		f.Report("Oil, Aluminum, Steel", s.Oil+s.Aluminum+s.Steel, "0.1 kg in all", "")
	}
	check.Between(f, "Gas", s.Gas, 0, 10)
	check.Between(f, "Diameter", s.Diameter, 10*units.Millimeter, 150*units.Millimeter)
	check.Between(f, "Surface", s.Surface, 0.005, 1)
	check.Between(f, "AirSpeed", s.AirSpeed, 0.5, 60)
	f.Nest("Ambient", s.Ambient.Validate())
	if s.Start == (units.Temperature{}) {
		s.Start = s.Ambient.Temperature
	} else {
		check.Temperature(f, "Start", s.Start, units.Celsius(-60), units.Celsius(200))
	}
	check.Between(f, "Power", s.Power, 0, 5000)
	if err := f.Err(); err != nil {
		return WarmUp{}, err
	}
	capacity := oilHeat*float64(s.Oil) + aluminumHeat*float64(s.Aluminum) +
		steelHeat*float64(s.Steel) + gasHeat*float64(s.Gas)
	conductance := s.film() * float64(s.Surface)
	w := WarmUp{
		start:    s.Start.Kelvin(),
		steady:   s.Ambient.Temperature.Kelvin() + float64(s.Power)/conductance,
		constant: capacity / conductance,
	}
	if w.Steady().Celsius() > 200 {
		f.Report("Power", s.Power, fmt.Sprintf("what the surface gives off below 200 °C (it would take %.0f °C)",
			w.Steady().Celsius()), "")
		return WarmUp{}, f.Err()
	}
	return w, nil
}

// film is the coefficient h of wind and radiation, in W/(m²·K).
func (s WarmUpSpec) film() float64 {
	t := s.Ambient.Temperature.Kelvin()
	density := s.Ambient.Pressure.In(units.Pascal) * airMolarMass / (gasConstant * t)
	reynolds := float64(s.AirSpeed) * float64(s.Diameter) * density / viscosity(t)
	const emissivity, stefanBoltzmann = 0.8, 5.670374e-8
	radiation := 4 * emissivity * stefanBoltzmann * t * t * t
	return acrossCylinder(reynolds, prandtl(t))*conductivity(t)/float64(s.Diameter) + radiation
}

// At is the temperature of the leg, and of the gas in it, a time after the start. It is the steady one for t =
// +Inf, and NaN for a t that is negative or NaN.
func (w WarmUp) At(t units.Time) units.Temperature {
	if !(t >= 0) {
		return units.Kelvin(math.NaN())
	}
	return units.Kelvin(w.steady + (w.start-w.steady)*math.Exp(-float64(t)/w.constant))
}

// Steady is the temperature that a long run ends at.
func (w WarmUp) Steady() units.Temperature { return units.Kelvin(w.steady) }

// TimeConstant is the time to cover 63 % of the way to the steady temperature.
func (w WarmUp) TimeConstant() units.Time { return units.Time(w.constant) }
