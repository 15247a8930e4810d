package oil

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Blend is the oil that results from volumes of two oils, 1 mL to 100 L each, measured at 15 °C. Volumes and their
// expansions add up. The viscosity is known where that of both is, and follows the rule of Refutas
//
//	I = 14.534·ln ln (ν + 0.8) + 10.975, ν in mm²/s, mean by mass
//
// (R. E. Maples, Petroleum Refinery Process Economics, 2nd ed. 2000) at 20 °C and
// 80 °C, where both must have 2 mm²/s or more, with ASTM D341 between and beyond.
//
// The rule is for oils of one kind. No published error of it for fork oils was found; the related rule of Wright
// missed base oils thickened with polymer, as fork oils are, by 8 % at 40 °C and 15 % at 100 °C on average and by
// 25 % at most (N. Saksono, Subiyanto and S. Widodo, Scientific Contributions Oil and Gas 34, 2011). Whether two
// oils tolerate each other's additives no rule tells.
func Blend(a Fluid, volumeA units.Volume, b Fluid, volumeB units.Volume) (Fluid, error) {
	f := check.Of("Blend")
	for _, c := range []struct {
		name   string
		fluid  Fluid
		volume units.Volume
	}{{"A", a, volumeA}, {"B", b, volumeB}} {
		check.Between(f, "Volume"+c.name, c.volume, 1*units.Milliliter, 100*units.Liter)
		if !(c.fluid.spec.Density > 0) {
			f.Report(c.name, c.fluid.Density(reference), "a fluid from NewFluid", "")
		}
		if v := c.fluid.Viscosity(blendHot); v < leastViscosity-slack*units.SquareMillimeterPerSecond {
			f.Report(c.name, v, "at least "+leastViscosity.String()+" at "+blendHot.String(), "")
		}
	}
	if err := f.Err(); err != nil {
		return Fluid{}, err
	}
	massA := float64(volumeA) * float64(a.Density(reference))
	massB := float64(volumeB) * float64(b.Density(reference))
	growth := float64(volumeA)*float64(a.spec.Expansion)/a.growth(reference) +
		float64(volumeB)*float64(b.spec.Expansion)/b.growth(reference)
	volume := float64(volumeA + volumeB)
	mix := Fluid{spec: FluidSpec{Density: units.Density((massA + massB) / volume), Reference: reference,
		Expansion: units.Expansivity(growth / volume)}}
	if a.HasViscosity() && b.HasViscosity() {
		at := func(t units.Temperature) Measurement {
			i := (massA*blendIndex(a.Viscosity(t)) + massB*blendIndex(b.Viscosity(t))) / (massA + massB)
			return Measurement{Viscosity: ofBlendIndex(i), Temperature: t}
		}
		mix.spec.Viscosity, mix.spec.Second = at(blendCold), at(blendHot)
		mix.line = through(mix.spec.Viscosity, mix.spec.Second)
	}
	return mix, nil
}

var (
	reference = units.Celsius(15)
	blendCold = units.Celsius(20)
	blendHot  = units.Celsius(80)
)

// blendIndex is that of Refutas without its two constants, which a mean cancels.
func blendIndex(v units.KinematicViscosity) float64 {
	return math.Log(math.Log(v.In(units.SquareMillimeterPerSecond) + 0.8))
}

func ofBlendIndex(i float64) units.KinematicViscosity {
	return units.KinematicViscosity(math.Exp(math.Exp(i))-0.8) * units.SquareMillimeterPerSecond
}
