package gas

import (
	"fmt"
	"iter"
	"math"

	"gonum.org/v1/gonum/dsp/fourier"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CycleSpec is a chamber whose volume swings sinusoidally about the one at rest.
type CycleSpec struct {
	Rest      State           // at mid stroke, at the temperature of the wall
	Amplitude units.Volume    // half the swing, from 1e-6 to 0.9 of Rest.Volume
	Frequency units.Frequency // 1e-6 Hz to 1e4 Hz
	Exchange  Exchange        // between gas and wall
}

// Cycle is the state that chamber settles into, the same in every cycle: the periodic solution of the energy
// equation of the gas,
//
//	dT/dt = (T_wall − T)/τ − (γ−1)·(T/V)·dV/dt
//	V = V₀ + V̂·sin φ,  φ = 2πft
//
// which for small amplitudes is what [Exchange] gives in closed form. The wall keeps its temperature. Immutable.
type Cycle struct {
	rest                 State
	swing                float64 // V̂/V₀
	excess               [cyclePoints]float64
	exponent, lossFactor float64
	loss                 units.Energy
}

const cyclePoints = 256

// NewCycle solves for the cycle. It is an error if the specification is out of range, or the gas on its way is.
func NewCycle(s CycleSpec) (*Cycle, error) {
	f := check.Of("CycleSpec")
	f.Nest("Rest", s.Rest.Validate())
	f.Nest("Exchange", s.Exchange.Validate())
	check.Between(f, "Frequency", s.Frequency, 1e-6, 1e4)
	const rounding = 1e-9 // 270 mL are 0.9 of 300 mL, whatever their last bits
	if r := float64(s.Amplitude / s.Rest.Volume); f.Err() == nil && !(r >= 1e-6-rounding && r <= 0.9+rounding) {
		f.Report("Amplitude", s.Amplitude, fmt.Sprintf("1e-6 to 0.9 of the %.6g at rest", s.Rest.Volume), "")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	c := &Cycle{rest: s.Rest, swing: float64(s.Amplitude / s.Rest.Volume)}
	c.settle(2 * math.Pi * float64(s.Frequency) * float64(s.Exchange.TimeConstant))
	c.sum()
	for state := range c.Loop() {
		if err := state.validate("NewCycle.result"); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// Exponent is the polytropic exponent between the ends of the stroke,
//
//	n = ln(p₁/p₂)/ln(V₂/V₁)
//
// with 1 at the smallest and 2 at the largest volume. It is 1 for an isothermal and 1.4 for an adiabatic cycle of
// any amplitude.
func (c *Cycle) Exponent() float64 { return c.exponent }

// LossFactor is the tangent of the angle by which the first harmonic of the pressure leads that of the compression
// (the describing function of the loop).
func (c *Cycle) LossFactor() float64 { return c.lossFactor }

// Loss is the work the piston leaves in the gas, and the gas in the wall, each cycle: the area of the loop in the
// p–V diagram.
func (c *Cycle) Loss() units.Energy { return c.loss }

// Loop runs once around the cycle in 256 states of equal steps in phase, from the volume at rest first to the
// largest one.
func (c *Cycle) Loop() iter.Seq[State] {
	return func(yield func(State) bool) {
		for i := range c.excess {
			v := 1 + c.swing*math.Sin(phase(i))
			pressure := 1 + c.pressure(i)
			if !yield(State{
				Pressure:    scaled(c.rest.Pressure, pressure),
				Volume:      c.rest.Volume * units.Volume(v),
				Temperature: units.Kelvin(c.rest.Temperature.Kelvin() * pressure * v),
			}) {
				return
			}
		}
	}
}

// The computation is in θ = (T/T_wall)·(V/V₀)^(γ−1), which an adiabatic gas keeps. With g = (V/V₀)^(γ−1) and the
// lag x = ωτ the energy equation reads
//
//	x·dθ/dφ = g − θ
//
// It is linear with constant coefficients: each harmonic k of g is divided by 1 + i·k·x. Those of the largest swing
// die away by 0.63 from one to the next, so that 128 of them leave nothing out. All run in excess over 1, which
// keeps the digits of a small amplitude.

func phase(i int) float64 { return 2 * math.Pi * float64(i) / cyclePoints }

// logVolume is ln(V/V₀).
func (c *Cycle) logVolume(phi float64) float64 { return math.Log1p(c.swing * math.Sin(phi)) }

// pressure is p/p₀ − 1 at a sample.
func (c *Cycle) pressure(i int) float64 {
	return math.Expm1(math.Log1p(c.excess[i]) - Adiabatic*c.logVolume(phase(i)))
}

// settle solves for θ at every sample.
func (c *Cycle) settle(lag float64) {
	drive := make([]float64, cyclePoints)
	for i := range drive {
		drive[i] = math.Expm1((Adiabatic - 1) * c.logVolume(phase(i)))
	}
	series := fourier.NewFFT(cyclePoints)
	harmonics := series.Coefficients(nil, drive)
	for k := range harmonics {
		harmonics[k] /= complex(1, float64(k)*lag)
	}
	for i, sum := range series.Sequence(nil, harmonics) {
		c.excess[i] = sum / cyclePoints
	}
}

// sum takes the first harmonics; equal weights are exact to rounding on a periodic function as smooth as this.
func (c *Cycle) sum() {
	var in, out float64
	for i := range c.excess {
		sin, cos := math.Sincos(phase(i))
		p := c.pressure(i) * 2 / cyclePoints
		in += p * sin
		out += p * cos
	}
	c.lossFactor = out / in
	c.loss = units.Energy(-math.Pi * c.swing * out * c.rest.Pressure.In(units.Pascal) * float64(c.rest.Volume))

	const largest, smallest = cyclePoints / 4, cyclePoints * 3 / 4
	rise := math.Log1p(c.pressure(smallest)) - math.Log1p(c.pressure(largest))
	c.exponent = rise / (math.Log1p(c.swing) - math.Log1p(-c.swing))
}
