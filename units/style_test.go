package units_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// A sheet in the units that a workshop writes.
func ExampleStyle() {
	s := units.Style{Length: "in", Stiffness: "lbf/in", Pressure: "psi", Temperature: "°F"}
	for _, q := range []any{4 * units.Millimeter, 8.6 * units.NewtonPerMillimeter, units.Gauge(9 * units.Bar),
		units.Celsius(20), units.TemperatureDifference(40), 63 * units.Newton} {
		fmt.Printf("%.1f\n", s.Shown(q))
	}
	// Output:
	// 0.157 in
	// 49.1 lbf/in
	// 131 psi
	// 68.0 °F
	// 72.0 °F
	// 63.0 N
}

// Shown in every unit that is read, a number reads back to the quantity within the digits shown, and the step of
// those digits is at most 1.6 steps in its own unit.
func TestStyleKeepsItsDigits(t *testing.T) {
	within(t, "in", 305.4*units.Millimeter, "mm", "cm", "in")
	within(t, "volume", 542*units.Milliliter, "mL", "in³", "US fl oz")
	within(t, "mass", 79.4*units.Kilogram, "kg", "lb")
	within(t, "force", 1938*units.Newton, "N", "lbf", "kgf")
	within(t, "rate", 8.6*units.NewtonPerMillimeter, "N/mm", "lbf/in", "kgf/mm")
	within(t, "energy", 516*units.Joule, "J", "ft·lbf")
	within(t, "torque", 45*units.NewtonMeter, "N·m", "lbf·ft", "lbf·in")
	within(t, "pressure", 9.1*units.Bar, "bar", "psi", "kPa", "kgf/cm²")
}

func within[Q interface {
	units.Quantity
	~float64
}](t *testing.T, name string, q Q, symbols ...string) {
	t.Helper()
	for _, symbol := range symbols {
		one, err := units.Parse[Q]("1 " + symbol)
		if err != nil {
			t.Fatal(err)
		}
		var s units.Style
		for _, field := range []*string{&s.Length, &s.Volume, &s.Mass, &s.Force, &s.Stiffness, &s.Energy, &s.Torque,
			&s.Pressure} {
			*field = symbol
		}
		first, _ := units.Parse[Q]("1 " + symbols[0]) // its own
		for decimals := range 4 {
			text := fmt.Sprintf("%.*f", decimals, s.Shown(q))
			back, err := units.Parse[Q](text)
			if off := math.Abs(float64(back - q)); err != nil || !(off <= 0.8*math.Pow10(-decimals)*float64(first)+
				0.5*float64(one)*1e-9) && decimals > 0 {
				t.Errorf("%s: %v shown with %d decimals as %s, off by %v, %v", name, q, decimals, text, off, err)
			}
			if got := s.Number(q, decimals) + " " + s.Symbol(q); got != text {
				t.Errorf("number and symbol %q, shown %q", got, text)
			}
		}
	}
}

func TestStyle(t *testing.T) {
	for text, want := range map[string]string{
		units.Written[units.Stiffness]("49 lb/in"):                                   "lbf/in",
		units.Written[units.GaugePressure]("130 psig"):                               "psi",
		units.Written[units.Temperature]("68 F"):                                     "°F",
		units.Written[units.Length]("12"):                                            "",
		units.Style{}.Number(-0.001*units.Millimeter, 1):                             "0.0",
		units.Style{}.Symbol(3):                                                      "",
		fmt.Sprint(units.Style{Length: "in"}.Shown("4")):                             "4",
		fmt.Sprintf("%+.1f", units.Style{Length: "in"}.Shown(25.4*units.Millimeter)): "+1.000 in",
	} {
		if text != want {
			t.Errorf("%q, want %q", text, want)
		}
	}
	s := units.Style{Length: "psi", Pressure: "lbf/in", Mass: "lb"}
	if err := s.Validate(); len(units.Faults(err)) != 2 || !errors.As(err, new(*units.RangeError)) {
		t.Errorf("%v", err)
	}
}
