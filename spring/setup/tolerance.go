package setup

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Tolerance is how well the numbers behind a fork are known: the standard
// uncertainty (one standard deviation) of each, all independent; 0 is exact. Half of a
// tolerance that bounds 95 % of cases is a standard uncertainty.
type Tolerance struct {
	Rate        units.Share                 // of the rate of each coil spring, 0 to 10 %
	Preload     units.Length                // of each coil spring, 0 to 5 mm
	Gauge       units.Pressure              // of every reading of an air spring, one error for all, 0 to 1 bar
	Residual    units.Volume                // gas over the oil at full travel, in each leg, 0 to 300 mL
	Temperature units.TemperatureDifference // of the fork at the other place, 0 to 20 K
	Load        units.Force                 // on the axis: scales, and what the rest here leaves out, 0 to 200 N

	Rider    units.Force    // on the axis: the mass of the rider, 0 to 200 N
	Stance   units.Force    // on the axis: the share of the front wheel, 0 to 200 N
	Chambers units.Share    // of the volume of every chamber of an air spring, each its own, 0 to 30 %
	Exponent float64        // of the ridden gas, 0 to 0.2
	Weather  units.Pressure // of the air at the other place, 0 to 50 mbar

	Filled     [2]units.Volume // as Residual of one leg, left and right, in its place where it is not 0
	FreeLength units.Length    // of each coil spring, where it makes the preload, 0 to 30 mm
	Friction   units.Force     // of the friction on the way in and on the way out, each its own, 0 to 300 N
}

// Usual is what a workshop reaches. Common practice, no source: springs within 4 %, a
// caliper and a collar within 1 mm, a pump gauge within 0.2 bar, a fill within 5 mL a
// leg, the fork within 4 K of the air, the load within 20 N, taken as 95 % bounds; the
// exponent within 0.1 and the weather within 15 mbar of the standard air.
func Usual() Tolerance {
	return Tolerance{Rate: 2 * units.Percent, Preload: 0.5 * units.Millimeter, Gauge: 0.1 * units.Bar,
		Residual:    2.5 * units.Milliliter,
		Temperature: 2 * units.KelvinDifference, Load: 10 * units.Newton,
		Exponent: 0.05, Weather: 0.0075 * units.Bar}
}

// Validate reports every field out of range, as *[units.RangeError].
func (t Tolerance) Validate() error {
	f := check.Of("Tolerance")
	check.Between(f, "Rate", t.Rate, 0, 0.1)
	check.Between(f, "Preload", t.Preload, 0, 5*units.Millimeter)
	check.Between(f, "Gauge", t.Gauge, 0, 1*units.Bar)
	check.Between(f, "Residual", t.Residual, 0, 300*units.Milliliter)
	check.Between(f, "Temperature", t.Temperature, 0, 20*units.KelvinDifference)
	check.Between(f, "Load", t.Load, 0, 200*units.Newton)
	check.Between(f, "Rider", t.Rider, 0, 200*units.Newton)
	check.Between(f, "Stance", t.Stance, 0, 200*units.Newton)
	check.Between(f, "Chambers", t.Chambers, 0, 0.3)
	check.Between(f, "Exponent", t.Exponent, 0, 0.2)
	check.Between(f, "Weather", t.Weather, 0, 0.05*units.Bar)
	check.Between(f, "Filled[0]", t.Filled[0], 0, 300*units.Milliliter)
	check.Between(f, "Filled[1]", t.Filled[1], 0, 300*units.Milliliter)
	check.Between(f, "FreeLength", t.FreeLength, 0, 30*units.Millimeter)
	check.Between(f, "Friction", t.Friction, 0, 300*units.Newton)
	return f.Err()
}

// residual is that of a leg.
func (t Tolerance) residual(leg int) units.Volume {
	if t.Filled[leg] != 0 {
		return t.Filled[leg]
	}
	return t.Residual
}
