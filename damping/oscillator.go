package damping

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// OscillatorSpec is the body on its fork about sag, along the fork axis.
type OscillatorSpec struct {
	Stiffness units.Stiffness // of the whole fork about sag, gas included, 10 N/m to 1 MN/m
	Mass      units.Mass      // sprung mass on the fork times cos² ε, 0.1 kg to 2000 kg
}

// Oscillator is a mass on a spring.
//
// With the wheel on the ground, a body that sinks by z compresses a fork at rake
// ε by x = z/cos ε; its kinetic energy m·ż²/2 is m·cos² ε·ẋ²/2, hence the mass.
type Oscillator struct {
	stiffness, mass float64
}

// NewOscillator checks the specification.
func NewOscillator(s OscillatorSpec) (Oscillator, error) {
	f := check.Of("OscillatorSpec")
	check.Between(f, "Stiffness", s.Stiffness, 10*units.NewtonPerMeter, 1e6*units.NewtonPerMeter)
	check.Between(f, "Mass", s.Mass, 0.1*units.Kilogram, 2000*units.Kilogram)
	if err := f.Err(); err != nil {
		return Oscillator{}, err
	}
	return Oscillator{stiffness: float64(s.Stiffness), mass: float64(s.Mass)}, nil
}

// Critical damping 2·√(k·m), the least that lets the body return without crossing its rest.
func (o Oscillator) Critical() units.DampingRate {
	return units.DampingRate(2 * math.Sqrt(o.stiffness*o.mass))
}

// Frequency of the undamped body, √(k/m)/2π.
func (o Oscillator) Frequency() units.Frequency {
	return units.Frequency(math.Sqrt(o.stiffness/o.mass) / (2 * math.Pi))
}

// Damped is the frequency of the free motion at a damping ratio, f·√(1 − ζ²),
// and 0 from ζ = 1 on. NaN for a negative ratio.
func (o Oscillator) Damped(ratio float64) units.Frequency {
	if ratio < 0 {
		return units.Frequency(math.NaN())
	}
	return o.Frequency() * units.Frequency(math.Sqrt(max(0, 1-ratio*ratio)))
}

// Ratio is the damping ratio ζ of a damper at a speed: its coefficient over the
// critical one. Compression and rebound, slow and fast have each their own.
func (o Oscillator) Ratio(d Damper, v units.Speed) float64 {
	return float64(d.Coefficient(v)) / float64(o.Critical())
}

// MeanRatio is the damping ratio averaged evenly over the speeds between two, by 60 of them.
func (o Oscillator) MeanRatio(d Damper, from, to units.Speed) float64 {
	const n = 60
	sum := 0.0
	for i := range n {
		sum += o.Ratio(d, from+(to-from)*(units.Speed(i)+0.5)/n)
	}
	return sum / n
}

// MeanOfStrokes is the mean of the damping ratios of compression and of rebound, each averaged over the speeds between
// two, given as of compression. Usual are 0.3 to 0.7 (from memory).
func (o Oscillator) MeanOfStrokes(d Damper, from, to units.Speed) float64 {
	return (o.MeanRatio(d, from, to) + o.MeanRatio(d, -from, -to)) / 2
}

// StickBand is half the width of the band about rest in which friction holds the body, F/k. A free motion under
// friction alone loses 4·F/k of its amplitude in each cycle and stops in that band.
func (o Oscillator) StickBand(friction units.Force) units.Length {
	return units.Length(float64(friction) / o.stiffness)
}

// LogDecrement is the logarithm of the ratio of two amplitudes one full cycle apart, δ = 2πζ/√(1 − ζ²), for 0 ≤ ζ <
// 1; else NaN. The short form 2πζ is 5 % low at ζ = 0.3 and 40 % at ζ = 0.8.
func LogDecrement(ratio float64) float64 {
	if !(ratio >= 0 && ratio < 1) {
		return math.NaN()
	}
	return 2 * math.Pi * ratio / math.Sqrt((1-ratio)*(1+ratio))
}

// DampingRatio is ζ by the amplitudes of two peaks of the same side, that many full cycles apart: δ =
// ln(first/later)/cycles, ζ = δ/√(4π² + δ²). Take amplitudes from the rest position, and cycles, not half cycles.
// Amplitudes that are not above 0, that grow, or cycles below 1 are a *[units.RangeError].
func DampingRatio(first, later units.Length, cycles int) (float64, error) {
	f := check.Of("DampingRatio")
	if check.Between(f, "first", first, 1e-9*units.Meter, 10*units.Meter) {
		check.Between(f, "later", later, 1e-9*units.Meter, first)
	}
	if cycles < 1 || cycles > 1e6 {
		f.Report("cycles", cycles, "1 or more full cycles", "")
	}
	if err := f.Err(); err != nil {
		return 0, err
	}
	d := math.Log(float64(first/later)) / float64(cycles)
	return d / math.Hypot(2*math.Pi, d), nil
}
