package gas

import (
	"errors"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Compress changes the volume along p·Vⁿ = constant:
//
//	p₂ = p₁·(V₁/V₂)ⁿ      T₂ = T₁·(V₁/V₂)ⁿ⁻¹
//
// n is from 1 ([Isothermal]) to 5/3; [Adiabatic] is 1.4. A volume larger than the present one expands the gas. It
// is an error if the state, to, n or the resulting state is out of range.
func (s State) Compress(to units.Volume, n float64) (State, error) {
	if err := s.validateChange("Compress", to, n); err != nil {
		return State{}, err
	}
	r := float64(s.Volume / to)
	warming := math.Pow(r, n-1)
	return result(State{
		Pressure:    scaled(s.Pressure, r*warming),
		Volume:      to,
		Temperature: units.Kelvin(s.Temperature.Kelvin() * warming),
	}, "Compress.result")
}

// CompressToPressure changes the volume along p·Vⁿ = constant until the gas has the given pressure:
//
//	V₂ = V₁·(p₁/p₂)^(1/n)      T₂ = T₁·(p₂/p₁)^((n−1)/n)
//
// Range and errors are those of [State.Compress].
func (s State) CompressToPressure(to units.AbsolutePressure, n float64) (State, error) {
	f := check.Of("CompressToPressure")
	check.Absolute(f, "to", to, minPressure, maxPressure)
	checkExponent(f, n)
	if err := errors.Join(s.Validate(), f.Err()); err != nil {
		return State{}, err
	}
	r := to.In(units.Pascal) / s.Pressure.In(units.Pascal)
	warming := math.Pow(r, 1-1/n)
	return result(State{
		Pressure:    to,
		Volume:      s.Volume * units.Volume(warming/r),
		Temperature: units.Kelvin(s.Temperature.Kelvin() * warming),
	}, "CompressToPressure.result")
}

// Work is the work done on the gas by Compress(to, n), positive for compression:
//
//	W = (p₁V₁/(n−1))·((V₁/V₂)ⁿ⁻¹ − 1)
//
// and its limit p₁V₁·ln(V₁/V₂) at n = 1, approached without loss of digits. The ambient's share on the other side
// of the piston is not in it. Range and errors are those of [State.Compress], except that the resulting state is
// not judged.
func (s State) Work(to units.Volume, n float64) (units.Energy, error) {
	if err := s.validateChange("Work", to, n); err != nil {
		return 0, err
	}
	l := math.Log(float64(s.Volume / to))
	if math.Abs(l) < 0.5 {
		// The quotient rounds near 1; the difference of near volumes is exact.
		l = -math.Log1p(float64((to - s.Volume) / s.Volume))
	}
	// (r^m − 1)/m = l·(e^(m·l) − 1)/(m·l) with m = n−1.
	w := s.Pressure.In(units.Pascal) * float64(s.Volume) * l
	if ml := (n - 1) * l; ml != 0 {
		w *= math.Expm1(ml) / ml
	}
	return units.Energy(w), nil
}

func (s State) validateChange(change string, to units.Volume, n float64) error {
	f := check.Of(change)
	checkVolume(f, "to", to)
	checkExponent(f, n)
	return errors.Join(s.Validate(), f.Err())
}

// EnergyBalance is the first law for a change: what the piston puts in and what the wall gives is what the gas has
// more, Work + Heat = Internal.
type EnergyBalance struct {
	Work     units.Energy // done on the gas
	Heat     units.Energy // that flowed into the gas; negative: into the wall
	Internal units.Energy // ΔU, the change of internal energy
}

// EnergyBalance says where the work of Compress(to, n) goes, for a gas of γ = 1.4:
//
//	ΔU = (p₂V₂ − p₁V₁)/(γ−1) = W·(n−1)/(γ−1)      Q = ΔU − W = −W·(γ−n)/(γ−1)
//
// At n = 1 all the work leaves as heat, at n = γ all of it stays. W, range and errors are those of [State.Work].
func (s State) EnergyBalance(to units.Volume, n float64) (EnergyBalance, error) {
	w, err := s.Work(to, n)
	return EnergyBalance{
		Work:     w,
		Heat:     -w * units.Energy((Adiabatic-n)/(Adiabatic-1)),
		Internal: w * units.Energy((n-1)/(Adiabatic-1)),
	}, err
}

func scaled(p units.AbsolutePressure, by float64) units.AbsolutePressure {
	return units.Absolute(units.Pressure(p.In(units.Pascal) * by))
}
