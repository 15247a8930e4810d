package gas

import (
	"errors"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Heat brings the gas to a temperature in its rigid chamber: p₂ = p₁·T₂/T₁. It is an error if the state, to or the
// resulting state is out of range.
func (s State) Heat(to units.Temperature) (State, error) {
	f := check.Of("Heat")
	checkTemperature(f, "to", to)
	if err := errors.Join(s.Validate(), f.Err()); err != nil {
		return State{}, err
	}
	return result(State{
		Pressure:    scaled(s.Pressure, to.Kelvin()/s.Temperature.Kelvin()),
		Volume:      s.Volume,
		Temperature: to,
	}, "Heat.result")
}

// Bleed lets out a fraction of the amount, from 0 to less than 1, slowly enough for the chamber to keep its
// temperature: p₂ = p₁·(1 − fraction). [Leak] has time in it. It is an error if the state, fraction or the
// resulting state is out of range.
func (s State) Bleed(fraction float64) (State, error) {
	f := check.Of("Bleed")
	if !(fraction >= 0 && fraction < 1) {
		f.Report("fraction", fraction, "0 to less than 1", "to let everything out, Vent")
	}
	if err := errors.Join(s.Validate(), f.Err()); err != nil {
		return State{}, err
	}
	s.Pressure = scaled(s.Pressure, 1-fraction)
	return result(s, "Bleed.result")
}

// Vent opens the chamber to the ambient and lets it come to rest: the gas takes the ambient's pressure and
// temperature. Air flows in if the chamber held less. It is an error if the state or the ambient is out of range.
func (s State) Vent(a Ambient) (State, error) {
	if err := errors.Join(s.Validate(), a.Validate()); err != nil {
		return State{}, err
	}
	return State{Pressure: a.Pressure, Volume: s.Volume, Temperature: a.Temperature}, nil
}

// Join opens a port between two rigid chambers and lets them settle without heat from the walls. Amounts and
// internal energies add; the energy of an ideal gas with constant heat capacity is p·V·cv/R, so
//
//	V = V₁ + V₂      p = (p₁V₁ + p₂V₂)/V      T = (N₁T₁ + N₂T₂)/(N₁ + N₂)
//
// Equal temperatures stay as they are. When the port closes again each chamber holds its own volume at the joint
// pressure and temperature. It is an error if a state or the resulting state is out of range.
func Join(a, b State) (State, error) {
	if err := errors.Join(a.validate("Join.a"), b.validate("Join.b")); err != nil {
		return State{}, err
	}
	v := a.Volume + b.Volume
	// Written as shifts from a, which two chambers in the same state leave exact.
	ofVolume := float64(b.Volume / v)
	ofAmount := float64(b.Amount() / (a.Amount() + b.Amount()))
	pa, pb := a.Pressure.In(units.Pascal), b.Pressure.In(units.Pascal)
	ta, tb := a.Temperature.Kelvin(), b.Temperature.Kelvin()
	return result(State{
		Pressure:    units.Absolute(units.Pressure(pa + (pb-pa)*ofVolume)),
		Volume:      v,
		Temperature: units.Kelvin(ta + (tb-ta)*ofAmount),
	}, "Join.result")
}

// StoredEnergy is what the gas can give up in bursting out to the ambient, the work of its isentropic expansion to
// the ambient pressure:
//
//	E = (p·V/(γ−1))·(1 − (p_ambient/p)^((γ−1)/γ)),  γ = 1.4
//
// It is the figure safety rules go by and an upper bound for what a thrown part carries: pushing the surrounding
// air away takes its share. Gas at or below the ambient pressure stores nothing, 0. It is an error if the state or
// the ambient is out of range.
//
// Let all pressure out, from every chamber, before loosening any cap.
//
// Source: ASME PCC-2, Article 501, appendix on the stored energy of a pneumatic pressure test (from memory).
func (s State) StoredEnergy(a Ambient) (units.Energy, error) {
	if err := errors.Join(s.Validate(), a.Validate()); err != nil {
		return 0, err
	}
	p, ambient := s.Pressure.In(units.Pascal), a.Pressure.In(units.Pascal)
	if p <= ambient {
		return 0, nil
	}
	const k = Adiabatic - 1
	spent := -math.Expm1(k / Adiabatic * math.Log(ambient/p))
	return units.Energy(p * float64(s.Volume) / k * spent), nil
}
