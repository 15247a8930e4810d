package damping

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// OilHeat is the specific heat of mineral oil near 40 °C (textbooks, from memory, ±10 %).
const OilHeat units.SpecificHeat = 1900

// ThrottlingRise is the temperature rise of oil that drops by p without losing heat,
// Δp/(ρ·c): about 0.6 K for each 10 bar.
func ThrottlingRise(p units.Pressure, o Oil, c units.SpecificHeat) units.TemperatureDifference {
	return units.TemperatureDifference(float64(p) / (float64(o.Density) * float64(c)))
}

// Power that a damper turns into heat at a speed, F·v.
func Power(d Damper, v units.Speed) units.Power {
	return units.Power(float64(d.Force(v)) * float64(v))
}

// MeanPower is the mean heat of a sinusoidal motion, x = a·sin(2πft), with
// amplitude a from its middle: the integral of F·v over a cycle by Gauss–Legendre. Speeds
// 2πfa above [MaxSpeed], and negative ones, are a *[units.RangeError].
func MeanPower(d Damper, amplitude units.Length, frequency units.Frequency) (units.Power, error) {
	f := check.Of("MeanPower")
	checkDamper(f, d)
	a := check.Between(f, "amplitude", amplitude, 0, 400*units.Millimeter)
	if check.Between(f, "frequency", frequency, 0, 100*units.Hertz) && a {
		if peak := units.Speed(2 * math.Pi * float64(amplitude) * float64(frequency)); peak > MaxSpeed {
			f.Report("frequency", frequency, "a peak speed of at most "+MaxSpeed.String(), "")
		}
	}
	if err := f.Err(); err != nil {
		return 0, err
	}
	peak := 2 * math.Pi * float64(amplitude) * float64(frequency)
	mean := quad.Fixed(func(phase float64) float64 {
		v := units.Speed(peak * math.Cos(phase))
		return float64(Power(d, v)+Power(d, -v)) / 2
	}, 0, math.Pi/2, 64, quad.Legendre{}, 0)
	return units.Power(mean * 2 / math.Pi), nil
}

// WarmingSpec is a leg as one warm lump.
type WarmingSpec struct {
	Oil      units.Mass               // 0.01 kg to 5 kg
	OilHeat  units.SpecificHeat       // 1000 J/(kg·K) to 4000 J/(kg·K); see OilHeat
	Tube     units.Mass               // of the metal that warms with the oil, 0 to 10 kg
	TubeHeat units.SpecificHeat       // 300 J/(kg·K) to 1200 J/(kg·K); aluminum 900, steel 480
	Loss     units.ThermalConductance // to the air, 0.05 W/K to 50 W/K
}

// Warming is how a leg warms: m·c·dT/dt = P − G·T above the air. One lump in
// moving air, good to a factor of 1.5 (from memory).
type Warming struct {
	capacity, loss float64 // J/K, W/K
}

// NewWarming checks the specification.
func NewWarming(s WarmingSpec) (Warming, error) {
	f := check.Of("WarmingSpec")
	check.Between(f, "Oil", s.Oil, 0.01*units.Kilogram, 5*units.Kilogram)
	check.Between(f, "OilHeat", s.OilHeat, 1000, 4000)
	if check.Between(f, "Tube", s.Tube, 0, 10*units.Kilogram) && s.Tube > 0 {
		check.Between(f, "TubeHeat", s.TubeHeat, 300, 1200)
	}
	check.Between(f, "Loss", s.Loss, 0.05, 50)
	if err := f.Err(); err != nil {
		return Warming{}, err
	}
	capacity := float64(s.Oil) * float64(s.OilHeat)
	if s.Tube > 0 {
		capacity += float64(s.Tube) * float64(s.TubeHeat)
	}
	return Warming{capacity: capacity, loss: float64(s.Loss)}, nil
}

// TimeConstant is m·c/G, after which 63 % of the rise is reached.
func (w Warming) TimeConstant() units.Time { return units.Time(w.capacity / w.loss) }

// Steady is the rise above the air that a lasting power leads to, P/G.
func (w Warming) Steady(p units.Power) units.TemperatureDifference {
	return units.TemperatureDifference(float64(p) / w.loss)
}

// Rise above the air after a time t ≥ 0 of that power, from cold: P/G·(1 − exp(−t/τ)).
func (w Warming) Rise(p units.Power, t units.Time) units.TemperatureDifference {
	return w.Steady(p) * units.TemperatureDifference(-math.Expm1(-float64(t/w.TimeConstant())))
}
