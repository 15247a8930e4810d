package gas_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func finite(t *testing.T, what string, values ...float64) {
	t.Helper()
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s = %v with a nil error", what, values)
			return
		}
	}
}

// valid checks what a constructor or change returned with a nil error.
func valid(t *testing.T, what string, s gas.State, err error) bool {
	t.Helper()
	if err != nil {
		return false
	}
	if err := s.Validate(); err != nil {
		t.Errorf("%s returned a bad state: %v", what, err)
	}
	finite(t, what, s.Pressure.In(1), float64(s.Volume), s.Temperature.Kelvin(), amount(s))
	return true
}

func FuzzStandard(f *testing.F) {
	f.Add(0.0, 15.0)
	f.Add(11000.0, -60.0)
	f.Add(-500.0, 70.0)
	f.Add(math.Inf(1), math.NaN())
	f.Fuzz(func(t *testing.T, z, c float64) {
		for _, make := range []func() (gas.Ambient, error){
			func() (gas.Ambient, error) { return gas.Standard(units.Length(z)) },
			func() (gas.Ambient, error) { return gas.StandardAt(units.Length(z), units.Celsius(c)) },
		} {
			a, err := make()
			if err != nil {
				_ = err.Error()
				continue
			}
			if err := a.Validate(); err != nil {
				t.Errorf("at %v m: %v", z, err)
			}
			finite(t, "Ambient", a.Pressure.In(1), a.Temperature.Kelvin())
		}
	})
}

func FuzzState(f *testing.F) {
	f.Add(1e6, 430e-6, 293.15, 200e-6, 1.4, 2e6, 313.15, 0.1)
	f.Add(1e3, 1e-9, 50.0, 1.0, 1.0, 1e8, 3000.0, 0.0)
	f.Add(1e8, 1.0, 3000.0, 1e-9, 5.0/3, 1e3, 50.0, 1.0)
	f.Add(math.NaN(), math.Inf(1), 0.0, -1.0, 0.0, math.Inf(-1), -1.0, math.NaN())
	f.Fuzz(func(t *testing.T, p, v, kelvin, to, n, toPressure, toKelvin, fraction float64) {
		s := state(units.Pressure(p), units.Volume(v), units.Kelvin(kelvin))
		if err := s.Validate(); err != nil {
			_ = err.Error()
		}
		keeps := func(what string, got gas.State, err error, share float64) {
			t.Helper()
			if valid(t, what, got, err) {
				relative(t, "amount after "+what, amount(got), share*amount(s), 1e-12)
			}
		}
		c, err := s.Compress(units.Volume(to), n)
		keeps("Compress", c, err, 1)
		c, err = s.CompressToPressure(units.Absolute(units.Pressure(toPressure)), n)
		keeps("CompressToPressure", c, err, 1)
		c, err = s.Heat(units.Kelvin(toKelvin))
		keeps("Heat", c, err, 1)
		c, err = s.Bleed(fraction)
		keeps("Bleed", c, err, 1-fraction)
		if w, err := s.Work(units.Volume(to), n); err == nil {
			finite(t, "Work", float64(w))
			if to < v && w < 0 || to > v && w > 0 {
				t.Errorf("work %v from %v to %v m³", float64(w), v, to)
			}
		}
		other := state(units.Pressure(toPressure), units.Volume(to), units.Kelvin(toKelvin))
		if j, err := gas.Join(s, other); valid(t, "Join", j, err) {
			relative(t, "amount after Join", amount(j), amount(s)+amount(other), 1e-12)
		}
		a := gas.Ambient{Temperature: units.Kelvin(toKelvin), Pressure: units.Absolute(units.Pressure(toPressure))}
		vented, err := s.Vent(a)
		valid(t, "Vent", vented, err)
		if e, err := s.StoredEnergy(a); err == nil {
			finite(t, "StoredEnergy", float64(e))
			if e < 0 {
				t.Errorf("stored energy %v", float64(e))
			}
		}
	})
}

func FuzzFill(f *testing.F) {
	f.Add(9.6e5, 293.15, 101325.0, 430e-6, 263.15, 7e4)
	f.Add(40e5, 343.15, 1.2e5, 1e-9, 213.15, 2e4)
	f.Add(-1.0, 0.0, math.NaN(), math.Inf(1), 0.0, 0.0)
	f.Fuzz(func(t *testing.T, gauge, kelvin, p, v, kelvin2, p2 float64) {
		fill := gas.Fill{Gauge: units.Gauge(units.Pressure(gauge)), Ambient: gas.Ambient{
			Temperature: units.Kelvin(kelvin), Pressure: units.Absolute(units.Pressure(p))}}
		if err := fill.Validate(); err != nil {
			_ = err.Error()
		} else {
			finite(t, "Absolute", fill.Absolute().In(1))
		}
		s, err := fill.State(units.Volume(v))
		valid(t, "Fill.State", s, err)
		elsewhere := gas.Ambient{Temperature: units.Kelvin(kelvin2), Pressure: units.Absolute(units.Pressure(p2))}
		r, err := fill.Reading(elsewhere)
		if err == nil {
			finite(t, "Reading", r.In(1))
		}
	})
}

func FuzzExchange(f *testing.F) {
	f.Add(2.9, 1.0)
	f.Add(0.0, math.Inf(1))
	f.Add(3600.0, 1e-300)
	f.Add(-1.0, math.NaN())
	f.Fuzz(func(t *testing.T, tau, hertz float64) {
		e := gas.Exchange{TimeConstant: units.Time(tau)}
		n, loss := e.Exponent(units.Frequency(hertz)), e.LossFactor(units.Frequency(hertz))
		if !(tau >= 0 && hertz >= 0) {
			if n == n || loss == loss {
				t.Errorf("τ = %v, f = %v: %v and %v, want NaN", tau, hertz, n, loss)
			}
			return
		}
		if !(n >= 1 && n <= gas.Adiabatic && loss >= 0 && loss <= 0.1691) {
			t.Errorf("τ = %v, f = %v: exponent %v, loss factor %v", tau, hertz, n, loss)
		}
	})
}
