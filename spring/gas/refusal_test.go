package gas_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func TestEveryFieldHasLimits(t *testing.T) {
	sea := must(gas.Standard(0))
	refusal.Fields(t, func() gas.Ambient { return sea }, gas.Ambient.Validate)
	refusal.Fields(t, func() gas.Fill { return gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: sea} },
		gas.Fill.Validate)
	refusal.Fields(t, func() gas.State { return state(10*units.Bar, 430*cm3, units.Celsius(20)) }, gas.State.Validate)
	refusal.Fields(t, func() gas.Leak { return gas.Leak{TimeConstant: 1e6} }, gas.Leak.Validate)
	refusal.Fields(t, func() gas.Exchange { return gas.Exchange{TimeConstant: 5} }, gas.Exchange.Validate)
	refusal.Fields(t, func() gas.CycleSpec {
		return gas.CycleSpec{Rest: state(10*units.Bar, 430*cm3, units.Celsius(20)), Amplitude: 50 * cm3,
			Frequency: 1, Exchange: gas.Exchange{TimeConstant: 5}}
	}, func(s gas.CycleSpec) error {
		_, err := gas.NewCycle(s)
		return err
	})
	refusal.Fields(t, func() gas.WarmUpSpec {
		return gas.WarmUpSpec{Oil: 0.5, Aluminum: 1, Steel: 0.5, Gas: 0.1, Diameter: 50 * units.Millimeter, Surface: 0.1,
			AirSpeed: 10, Ambient: sea, Start: units.Celsius(30), Power: 20}
	}, func(s gas.WarmUpSpec) error {
		_, err := gas.NewWarmUp(s)
		return err
	})
}

// The hint names the unit meant only where the number would be right in it.
func TestHintsAreNotGuesses(t *testing.T) {
	sea := must(gas.Standard(0))
	hint := func(err error) string {
		_, hints := fields(t, err)
		return hints
	}
	ambient := func(u units.Temperature) string {
		return hint(gas.Ambient{Temperature: u, Pressure: sea.Pressure}.Validate())
	}
	fill := func(bar float64) string {
		return hint(gas.Fill{Gauge: units.Gauge(units.Pressure(bar) * units.Bar), Ambient: sea}.Validate())
	}
	for _, c := range []struct {
		what, got string
		some      bool
	}{
		{"−61 °C", ambient(units.Celsius(-61)), false},
		{"158 °C", ambient(units.Celsius(158)), true}, {"159 °C", ambient(units.Celsius(159)), false},
		{"70 K", ambient(units.Kelvin(70)), true}, {"71 K", ambient(units.Kelvin(71)), false},
		{"213 °C", ambient(units.Celsius(213)), false}, {"344 °C", ambient(units.Celsius(344)), false},
		{"−1 K", ambient(units.Kelvin(-1)), false},
		{"580 bar", fill(580), true}, {"4001 bar", fill(4001), false}, {"41 bar", fill(41), true},
		{"endless", fill(math.Inf(1)), false},
		{"36000 m", hint(second(gas.Standard(36000))), true}, {"37000 m", hint(second(gas.Standard(37000))), false},
		{"−600 m", hint(second(gas.Standard(-600))), false},
		{"3001 K", hint(second(state(units.Bar, 430*cm3, units.Celsius(20)).Heat(units.Kelvin(3001)))), false},
	} {
		if (c.got != "") != c.some {
			t.Errorf("%s: hint %q", c.what, c.got)
		}
	}
}

func second(_ any, err error) error { return err }

// Of a leg that weighs next to nothing the three masses together are told.
func TestWarmUpWantsAMass(t *testing.T) {
	sea := must(gas.Standard(0))
	for _, mass := range []units.Mass{0.03, 0.04} {
		_, err := gas.NewWarmUp(gas.WarmUpSpec{Oil: mass, Aluminum: mass, Steel: mass, Diameter: 0.05, Surface: 0.1,
			AirSpeed: 10, Ambient: sea})
		if (err == nil) != (3*mass >= 0.1) {
			t.Errorf("three times %v: %v", mass, err)
		}
	}
}

// Leaks and estimates know the ends of what they are given.
func TestEndsOfReadings(t *testing.T) {
	bar := func(x float64) units.GaugePressure { return units.Gauge(units.Pressure(x) * units.Bar) }
	good := state(10*units.Bar, 430*cm3, units.Celsius(20))
	estimate := func(volume units.Volume, kelvin float64) error {
		return second(gas.EstimateExchange(state(10*units.Bar, volume, units.Kelvin(kelvin)), 30*units.Millimeter, 40))
	}
	tube := math.Pi / 4 * 0.03 * 0.03 // m²
	between := func(kelvin float64) error {
		_, _, err := gas.Leak{TimeConstant: 1e5}.Between(good, state(8*units.Bar, 100*cm3, units.Kelvin(kelvin)), 1)
		return err
	}
	for _, c := range []struct {
		what string
		err  error
		ok   bool
	}{
		{"from nothing", second(gas.LeakOf(bar(0), bar(0), units.Day)), false},
		{"from below the ambient", second(gas.LeakOf(bar(-1), bar(-2), units.Day)), false},
		{"to nothing", second(gas.LeakOf(bar(9), bar(0), units.Day)), false},
		{"to below the ambient", second(gas.LeakOf(bar(9), bar(-1), units.Day)), false},
		{"to a little", second(gas.LeakOf(bar(9), bar(0.1), units.Day)), true},
		{"half a bore long", estimate(units.Volume(tube*0.0151), 293), true},
		{"shorter", estimate(units.Volume(tube*0.0149), 293), false},
		{"2 m long", estimate(units.Volume(tube*1.99), 293), true},
		{"longer", estimate(units.Volume(tube*2.01), 293), false},
		{"gas of 199 K", estimate(300*cm3, 199), false},
		{"as warm", between(293.15), true}, {"warmer by 1e-10", between(293.15 * (1 + 1e-10)), true},
		{"warmer by 1e-8", between(293.15 * (1 + 1e-8)), false}, {"colder by 1e-8", between(293.15 * (1 - 1e-8)), false},
	} {
		if (c.err == nil) != c.ok || len(units.Faults(c.err)) > 1 {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
}
