package gas_test

import (
	"math"
	"math/cmplx"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// at is the frequency with the given ωτ.
func at(e gas.Exchange, phase float64) units.Frequency {
	return units.Frequency(phase / (2 * math.Pi * float64(e.TimeConstant)))
}

func TestExchangeComplexStiffness(t *testing.T) {
	e := gas.Exchange{TimeConstant: 2.9 * units.Second}
	for _, x := range []float64{1e-6, 0.01, 0.3, 1, 2, 50, 1e6} {
		k := complex(1, 1.4*x) / complex(1, x)
		relative(t, "Exponent", e.Exponent(at(e, x)), real(k), 1e-12)
		relative(t, "LossFactor", e.LossFactor(at(e, x)), math.Tan(cmplx.Phase(k)), 1e-9)
	}
}

// The energy balance of the gas, dT/dt = (T_wall − T)/τ − (γ−1)·T/V·dV/dt, in steps of time through
// a small oscillation: an independent route to stiffness and loss.
func TestExchangeAgainstEnergyBalance(t *testing.T) {
	const gamma, tau, amplitude = 1.4, 2.9, 1e-5
	e := gas.Exchange{TimeConstant: tau}
	for _, x := range []float64{0.3, 1 / math.Sqrt(gamma), 4} {
		omega := x / tau
		volume := func(t float64) float64 { return 1 - amplitude*math.Sin(omega*t) }
		slope := func(t, temp float64) float64 {
			return (1-temp)/tau + (gamma-1)*temp/volume(t)*amplitude*omega*math.Cos(omega*t)
		}
		const perCycle, cycles = 400, 30 // the start has died away after 30 cycles of at most τ·2π/0.3
		h := 2 * math.Pi / omega / perCycle
		temp, in, out := 1.0, 0.0, 0.0
		for i := range perCycle * cycles {
			t := float64(i) * h
			if i >= perCycle*(cycles-1) { // Fourier coefficients over the last cycle
				rise := temp/volume(t) - 1 // (p − p₀)/p₀
				in += rise * math.Sin(omega*t) * 2 / perCycle
				out += rise * math.Cos(omega*t) * 2 / perCycle
			}
			k1 := slope(t, temp)
			k2 := slope(t+h/2, temp+h/2*k1)
			k3 := slope(t+h/2, temp+h/2*k2)
			k4 := slope(t+h, temp+h*k3)
			temp += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
		}
		// The linear theory is off by the order of the amplitude.
		near(t, "Exponent", e.Exponent(at(e, x)), in/amplitude, 1e-4)
		near(t, "LossFactor", e.LossFactor(at(e, x)), out/in, 1e-4)
	}
}

func TestExchangePeaks(t *testing.T) {
	e := gas.Exchange{TimeConstant: 1 * units.Second}
	loss := func(x float64) float64 { return e.LossFactor(at(e, x)) }
	stiffness := func(x float64) float64 { return loss(x) * e.Exponent(at(e, x)) }
	peak := func(f func(float64) float64, x float64) bool {
		return f(x) > f(x*1.001) && f(x) > f(x/1.001)
	}
	if !peak(loss, 1/math.Sqrt(1.4)) || peak(loss, 1) {
		t.Error("the loss factor does not peak at ωτ = 1/√γ")
	}
	if !peak(stiffness, 1) || peak(stiffness, 1/math.Sqrt(1.4)) {
		t.Error("the loss stiffness does not peak at ωτ = 1")
	}
	relative(t, "largest loss factor", loss(1/math.Sqrt(1.4)), 0.4/(2*math.Sqrt(1.4)), 1e-12)
}

func TestExchangeLimits(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, tt := range []struct {
		name           string
		tau            units.Time
		f              units.Frequency
		exponent, loss float64
	}{
		{"at rest", 3, 0, 1, 0},
		{"infinitely fast", 3, units.Frequency(inf), 1.4, 0},
		{"ω²τ² overflows", 3, 1e200, 1.4, 0.4 / 1.4 / (6e200 * math.Pi)},
		{"ω²τ² underflows", 3, 1e-200, 1, 0.4 * 6e-200 * math.Pi},
		{"perfect wall", 0, 5, 1, 0},
		{"perfect wall, infinitely fast", 0, units.Frequency(inf), 1, 0},
		{"insulated", units.Time(inf), 1, 1.4, 0},
		{"insulated, at rest", units.Time(inf), 0, 1, 0},
		{"negative frequency", 3, -1, nan, nan},
		{"negative time constant", -3, 1, nan, nan},
		{"both negative", -3, -1, nan, nan},
		{"NaN frequency", 3, units.Frequency(nan), nan, nan},
		{"NaN time constant", units.Time(nan), 0, nan, nan},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := gas.Exchange{TimeConstant: tt.tau}
			same := func(a, b float64) bool { return a == b || a != a && b != b }
			if got := e.Exponent(tt.f); !same(got, tt.exponent) {
				t.Errorf("Exponent = %v, want %v", got, tt.exponent)
			}
			got := e.LossFactor(tt.f)
			if !same(got, tt.loss) && !(math.Abs(got/tt.loss-1) < 1e-12) {
				t.Errorf("LossFactor = %v, want %v", got, tt.loss)
			}
		})
	}
}

// A chamber with τ = 2.9 s from slow to ridden: the closed form, to the digits usually tabulated,
// and the integrated cycle of a small swing.
func TestExchangeTable(t *testing.T) {
	register.Cite(t, "H-01")
	for _, tt := range []struct{ hertz, exponent, tolN, loss, tolLoss float64 }{
		{0.02, 1.05, 0.005, 0.12, 0.005},
		{0.05, 1.18, 0.005, 0.17, 0.005},
		{0.1, 1.31, 0.005, 0.13, 0.005},
		{0.2, 1.37, 0.005, 0.074, 0.0005},
		{0.5, 1.395, 0.0005, 0.031, 0.0005},
		{1, 1.399, 0.0005, 0.016, 0.0005},
		{2, 1.40, 0.005, 0.008, 0.0005},
	} {
		e := gas.Exchange{TimeConstant: 2.9 * units.Second}
		near(t, "exponent", e.Exponent(units.Frequency(tt.hertz)), tt.exponent, tt.tolN)
		near(t, "loss factor", e.LossFactor(units.Frequency(tt.hertz)), tt.loss, tt.tolLoss)
		c := must(cycle(10, 300, 293.15, 1e-3, tt.hertz, 2.9))
		near(t, "integrated exponent", c.Exponent(), tt.exponent, tt.tolN)
		near(t, "integrated loss factor", c.LossFactor(), tt.loss, tt.tolLoss)
	}
}

// Points of N(ω) = (1 + iγωτ)/(1 + iωτ) in closed form, and the air spring rate n·p·A²/V of 5 bar
// absolute in 100 mL under 8 cm²: 3200 N/m held, 4480 N/m fast (a gauge value taken for p would be
// 20 % low).
func TestExchangeStiffness(t *testing.T) {
	register.Cite(t, "H-02", "H-03")
	e := gas.Exchange{TimeConstant: 1 * units.Second}
	for _, tt := range []struct{ phase, real, imaginary float64 }{
		{0.1, 1.003960396039604, 0.039603960396039584},
		{10, 1.396039603960396, 0.03960396039603962},
	} {
		n := e.Exponent(at(e, tt.phase))
		relative(t, "Re N", n, tt.real, 1e-12)
		relative(t, "Im N", n*e.LossFactor(at(e, tt.phase)), tt.imaginary, 1e-12)
	}
	const held = 5e5 * 8e-4 * 8e-4 / 100e-6
	relative(t, "held, N/m", e.Exponent(0)*held, 3200, 1e-12)
	relative(t, "fast, N/m", e.Exponent(units.Frequency(math.Inf(1)))*held, 4480, 1e-12)
}
