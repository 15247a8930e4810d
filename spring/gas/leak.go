package gas

import (
	"errors"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Leak is a loss of pressure in proportion to the pressure difference that drives it, which dies away with a time
// constant. A real gap leaks more than in proportion at high pressure; measured near the pressure in use, the
// constant holds there.
//
// Sound seals lose 1 % to 3 % a week off road and 2 % to 5 % a month on a bicycle (from memory); 0.3 bar in a day
// calls for a repair (common practice, no source). Permeation through a nitrile ring is of the order of 0.1 % a
// month.
//
// The zero Leak is not valid.
type Leak struct {
	TimeConstant units.Time // 1 s to 1e10 s (300 years)
}

// Validate reports a time constant outside its range, as *[units.RangeError].
func (l Leak) Validate() error { return l.validate("Leak") }

func (l Leak) validate(name string) error {
	f := check.Of(name)
	check.Between(f, "TimeConstant", l.TimeConstant, 1, 1e10)
	return f.Err()
}

// LeakOf is the leak between two gauge readings of a chamber, both at the same temperature and ambient pressure
// ([Fill.Reading] corrects one to the other):
//
//	τ = t/ln(p₁/p₂)
//
// Each reading with a pump costs pressure itself: its empty hose joins the chamber, see [Join]. It is an error if
// the readings do not fall, or are not above 0 to 40 bar, or the resulting time constant is out of range.
func LeakOf(first, second units.GaugePressure, apart units.Time) (Leak, error) {
	f := check.Of("LeakOf")
	from, to := first.In(units.Pascal), second.In(units.Pascal)
	if !(from > 0 && from <= float64(maxGauge)) {
		f.Report("first", first, "above 0 to 40 bar", gaugeHint(first.In(units.Bar)))
	} else if !(to > 0 && to < from) {
		f.Report("second", second, "above 0 to below the first", "compare readings at one temperature")
	}
	check.Between(f, "apart", apart, 1, 1e9)
	if err := f.Err(); err != nil {
		return Leak{}, err
	}
	l := Leak{TimeConstant: apart / units.Time(math.Log(from/to))}
	if err := l.validate("LeakOf.result"); err != nil {
		return Leak{}, err
	}
	return l, nil
}

// ToAmbient is the state after leaking for a time, 0 or more, at its temperature:
//
//	p = p_ambient + (p₀ − p_ambient)·e^(−t/τ)
//
// A chamber below the ambient fills. It is an error if the leak, state, ambient or time is out of range.
func (l Leak) ToAmbient(s State, a Ambient, after units.Time) (State, error) {
	if err := errors.Join(l.Validate(), s.Validate(), a.Validate(), elapsed(after)); err != nil {
		return State{}, err
	}
	s.Pressure = a.Pressure.Add(s.Pressure.Sub(a.Pressure) * units.Pressure(l.left(after)))
	return s, nil
}

// Between is the state of two chambers after one has leaked into the other for a time, 0 or more. Both have one
// temperature, to 1e-9 of it, and keep it. The pressure difference dies away with the time constant,
//
//	p₁ = p_e + (p₁₀ − p_e)·e^(−t/τ),  p_e = (p₁₀V₁ + p₂₀V₂)/(V₁ + V₂)
//
// p₂ in the same way, and the amount in both together stays. A fork whose main chamber leaks into the negative one
// sinks; a stroke through the transfer port ([Join]) repairs it until the next time. It is an error if the leak, a
// state or the time is out of range, or the temperatures differ.
func (l Leak) Between(a, b State, after units.Time) (State, State, error) {
	if err := errors.Join(l.Validate(), a.validate("Between.a"), b.validate("Between.b"),
		elapsed(after)); err != nil {
		return State{}, State{}, err
	}
	if k := a.Temperature.Kelvin(); math.Abs(b.Temperature.Kelvin()-k) > 1e-9*k {
		f := check.Of("Between")
		f.Report("b.Temperature", b.Temperature, "that of a, "+a.Temperature.String(), "")
		return State{}, State{}, f.Err()
	}
	moved := a.Pressure.Sub(b.Pressure) * units.Pressure(1-l.left(after))
	v := a.Volume + b.Volume
	a.Pressure = a.Pressure.Add(-moved * units.Pressure(b.Volume/v))
	b.Pressure = b.Pressure.Add(moved * units.Pressure(a.Volume/v))
	return a, b, nil
}

func elapsed(t units.Time) error {
	f := check.Of("Leak")
	if !(t >= 0) {
		f.Report("after", t, "0 or more", "")
	}
	return f.Err()
}

// left is the share of the pressure difference still there.
func (l Leak) left(after units.Time) float64 {
	return math.Exp(-float64(after / l.TimeConstant))
}

// Admit lets in an amount of gas, 0 or more, at the temperature of the chamber: p₂ = p₁ + N·R·T/V. It is an error
// if the state, amount or result is out of range.
//
// Seal lips pump air into the legs: 0 to 0.3 bar an outing by what riders report, with no measurement known. The
// amount that raises one State to another pressure, the difference of their amounts, raises the pressure of a
// fuller leg more.
func (s State) Admit(n units.Amount) (State, error) {
	f := check.Of("Admit")
	if !(n >= 0) {
		f.Report("n", n, "0 or more", "to let gas out, Bleed")
	}
	if err := errors.Join(s.Validate(), f.Err()); err != nil {
		return State{}, err
	}
	rise := float64(n) * gasConstant * s.Temperature.Kelvin() / float64(s.Volume)
	s.Pressure = s.Pressure.Add(units.Pressure(rise))
	return result(s, "Admit.result")
}

// AmountForRise is the amount whose coming or going changes the pressure by d: N = d·V/(R·T). It is an error if the
// state is out of range or d not finite.
func (s State) AmountForRise(d units.Pressure) (units.Amount, error) {
	f := check.Of("AmountForRise")
	check.Between(f, "d", d, -maxPressure, maxPressure)
	if err := errors.Join(s.Validate(), f.Err()); err != nil {
		return 0, err
	}
	return units.Amount(float64(d) * float64(s.Volume) / (gasConstant * s.Temperature.Kelvin())), nil
}
