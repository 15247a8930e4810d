package units_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/units"
)

func TestString(t *testing.T) {
	tests := []struct {
		q    fmt.Stringer
		want string
	}{
		{12.5 * units.Millimeter, "12.5 mm"},
		{units.Length(0.0271), "27.1 mm"},
		{-3 * units.Micrometer, "-0.003 mm"},
		{1 * units.Meter, "1000 mm"},
		{units.Length(9.999), "9999 mm"},
		{10 * units.Meter, "10 m"},
		{-1500 * units.Meter, "-1500 m"},
		{units.Length(1e-9), "0.000001 mm"},
		{units.Length(1e-10), "1e-7 mm"},
		{units.Length(1.25e-10), "1.25e-7 mm"},
		{units.Length(1e20), "100000000000000000000 m"},
		{units.Length(1e21), "1e21 m"},
		{7.5 * units.SquareCentimeter, "7.5 cm²"},
		{units.Volume(380e-6), "380 mL"}, // 380*Milliliter is the float64 below,
		{10 * units.Liter, "10 L"},
		{82.5 * units.Kilogram, "82.5 kg"},
		{0.86 * units.GramPerMilliliter, "860 kg/m³"},
		{0.25 * units.Mole, "0.25 mol"},
		{1.5 * units.Second, "1.5 s"},
		{2.5 * units.Hertz, "2.5 Hz"},
		{3 * units.MeterPerSecond, "3 m/s"},
		{9.81 * units.MeterPerSecondSquared, "9.81 m/s²"},
		{27.2 * units.Degree, "27.2 deg"},
		{800 * units.Newton, "800 N"},
		{9.2 * units.NewtonPerMillimeter, "9.2 N/mm"},
		{1500 * units.NewtonSecondPerMeter, "1500 N·s/m"},
		{250 * units.Joule, "250 J"},
		{60 * units.Watt, "60 W"},
		{20 * units.NewtonMeter, "20 N·m"},
		{790 * units.Megapascal, "790 MPa"},
		{1.5 * units.Bar, "1.5 bar"},
		{5 * units.KelvinDifference, "5 K"},
		{7e-4 * units.PerKelvin, "0.0007 1/K"},
		{units.KinematicViscosity(15e-6), "15 mm²/s"},
		{12 * units.Centipoise, "12 mPa·s"},
		{units.Celsius(20), "20 °C"},
		{units.Celsius(20.3), "20.3 °C"},
		{units.Fahrenheit(68), "20 °C"},
		{units.Gauge(9.6 * units.Bar), "9.6 bar"},
		{units.Absolute(units.Atmosphere), "1.01325 bar abs"},
		{units.Length(math.NaN()), "NaN mm"},
		{units.Length(math.Inf(1)), "+Inf m"},
		{units.Force(math.Inf(1)), "+Inf N"},
		{units.Angle(math.Inf(-1)), "-Inf deg"},
		{units.Kelvin(math.NaN()), "NaN °C"},
		{units.Absolute(units.Pressure(math.NaN())), "NaN bar abs"},
	}
	for _, tt := range tests {
		t.Run(tt.want, func(t *testing.T) {
			if got := tt.q.String(); got != tt.want {
				t.Errorf("String gives %q, want %q", got, tt.want)
			}
			for _, format := range []string{"%v", "%s", "%+v"} {
				if got := fmt.Sprintf(format, tt.q); got != tt.want {
					t.Errorf("%s gives %q, want %q", format, got, tt.want)
				}
			}
		})
	}
}

func TestFormat(t *testing.T) {
	travel := 12.5 * units.Millimeter
	tests := []struct {
		format string
		q      any
		want   string
	}{
		{"%.1f", travel, "12.5 mm"},
		{"%.2f", travel, "12.50 mm"},
		{"%F", travel, "12.500000 mm"},
		{"%.0f", 140.4 * units.Millimeter, "140 mm"},
		{"%.0f", travel, "13 mm"}, // a tie, and what a processor may make of one
		{"%.0f", units.Length(math.Nextafter(0.0125, 0)), "13 mm"},
		{"%.0f", -travel, "-13 mm"},
		{"%.0f", 12.4999 * units.Millimeter, "12 mm"},
		{"%.2f", units.Length(0), "0.00 mm"},
		{"%g", travel, "12.5 mm"},
		{"%.2g", travel, "12 mm"},
		{"%.2v", travel, "12 mm"},
		{"%.2s", travel, "12 mm"},
		{"%.1e", travel, "1.2e+01 mm"},
		{"%.1E", travel, "1.2E+01 mm"},
		{"%+.1f", travel, "+12.5 mm"},
		{"%+.1f", -travel, "-12.5 mm"},
		{"%+.1f", units.Length(math.Inf(1)), "+Inf m"},
		{"%+.1f", units.Length(math.NaN()), "NaN mm"},
		{"%10.1f|", travel, "   12.5 mm|"},
		{"%-10.1f|", travel, "12.5 mm   |"},
		{"%10v|", travel, "   12.5 mm|"},
		{"%-10s|", travel, "12.5 mm   |"},
		{"%3v|", travel, "12.5 mm|"},
		{"%9.1f|", 20 * units.NewtonMeter, " 20.0 N·m|"}, // the dot is one column
		{"%q", travel, `"12.5 mm"`},
		{"%d", travel, "%!d(units.Length=12.5 mm)"},
		{"%x", units.Celsius(20), "%!x(units.Temperature=20 °C)"},
		{"%.1f", units.Celsius(20.26), "20.3 °C"},
		{"%7.1f", units.Gauge(9.6 * units.Bar), "9.6 bar"},
		{"%.2f", units.Absolute(units.Atmosphere), "1.01 bar abs"},
		{"%.1f", 12345 * units.Millimeter, "12.3 m"},
		{"%.1f", 33.2 * units.PoundForceFoot, "45.0 N·m"},
		{"%v", struct{ L units.Length }{travel}, "{12.5 mm}"},
		{"%+v", struct{ T units.Temperature }{units.Celsius(20)}, "{T:20 °C}"},
		{"%v", []units.Length{travel, 2 * travel}, "[12.5 mm 25 mm]"},
	}
	for _, tt := range tests {
		t.Run(tt.format+" "+tt.want, func(t *testing.T) {
			if got := fmt.Sprintf(tt.format, tt.q); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestRangeErrorText(t *testing.T) {
	e := &units.RangeError{Field: "AirSpec.Bore", Value: 3 * units.Millimeter, Want: "10 mm to 100 mm"}
	if got, want := e.Error(), "AirSpec.Bore = 3 mm: want 10 mm to 100 mm"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	e.Hint = "is it the rod?"
	if got, want := e.Error(), "AirSpec.Bore = 3 mm: want 10 mm to 100 mm (is it the rod?)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestAllocations(t *testing.T) {
	buf := make([]byte, 0, 64)
	var sink float64
	tests := []struct {
		name string
		want float64
		f    func()
	}{
		{"In", 0, func() { sink = (12.5 * units.Millimeter).In(units.Inch) }},
		{"AppendText of a length", 0, func() { buf, _ = units.Length(0.01234567890123456).AppendText(buf[:0]) }},
		{"AppendText of an angle", 0, func() { buf, _ = (27.2 * units.Degree).AppendText(buf[:0]) }},
		{"AppendText of a temperature", 0, func() { buf, _ = units.Celsius(20.3).AppendText(buf[:0]) }},
		{"AppendText of a pressure", 0, func() { buf, _ = units.Absolute(units.Atmosphere).AppendText(buf[:0]) }},
		{"String", 1, func() { _ = (12.5 * units.Millimeter).String() }},
		{"Parse", 1, func() { _, _ = units.Parse[units.Length]("12.5 mm") }},
		{"Parse of a spelling", 1, func() { _, _ = units.Parse[units.Torque]("33.2 ft-lb") }},
	}
	for _, tt := range tests {
		if got := testing.AllocsPerRun(100, tt.f); got > tt.want {
			t.Errorf("%s allocates %v times, want at most %v", tt.name, got, tt.want)
		}
	}
	if math.IsNaN(sink) {
		t.Error("In gave NaN")
	}
}
