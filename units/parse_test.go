package units_test

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/units"
)

func TestParse(t *testing.T) {
	const lbf, in = 4.4482216152605, 0.0254
	tests := []struct {
		quantity, text string
		si             float64
	}{
		{"Length", "12.5 mm", 0.0125},
		{"Length", "12.5mm", 0.0125},
		{"Length", "12.5\u00a0mm", 0.0125},
		{"Length", "12.5\u202fmm", 0.0125},
		{"Length", "+12.5 mm", 0.0125},
		{"Length", "-12.5 mm", -0.0125},
		{"Length", "-0 mm", math.Copysign(0, -1)},
		{"Length", "00012 mm", 0.012},
		{"Length", "1.25e1 mm", 0.0125},
		{"Length", "1.25E+1 mm", 0.0125},
		{"Length", "125e-1mm", 0.0125},
		{"Length", "1e309 mm", 1e306}, // the prefix counts before the overflow
		{"Length", "1e-400 mm", 0},    // nearest float64
		{"Length", "4 cm", 0.04},
		{"Length", "1200 m", 1200},
		{"Length", "3 km", 3000},
		{"Length", "7 µm", 7e-6}, // U+00B5
		{"Length", "7 μm", 7e-6}, // U+03BC
		{"Length", "2 in", 0.0508},
		{"Length", "1 ft", 0.3048},
		{"Area", "10 cm²", 1e-3},
		{"Area", "10 cm^2", 1e-3},
		{"Area", "10 cm2", 1e-3},
		{"Area", "10 mm²", 1e-5},
		{"Area", "1 m²", 1},
		{"Area", "1 in²", in * in},
		{"Volume", "380 mL", 380e-6},
		{"Volume", "380 ml", 380e-6},
		{"Volume", "380 cc", 380e-6},
		{"Volume", "380 cm³", 380e-6},
		{"Volume", "380 cm^3", 380e-6},
		{"Volume", "1.2 L", 1.2e-3},
		{"Volume", "1.2 l", 1.2e-3},
		{"Volume", "5 mm3", 5e-9},
		{"Volume", "1 m³", 1},
		{"Volume", "1 in³", 16.387064e-6},
		{"Volume", "1 US fl oz", 29.5735295625e-6},
		{"Volume", "1 imp fl oz", 28.4130625e-6},
		{"Volume", "1 US gal", 3.785411784e-3},
		{"Volume", "1 imp gal", 4.54609e-3},
		{"Mass", "82 kg", 82},
		{"Mass", "350 g", 0.35},
		{"Mass", "1 lb", 0.45359237},
		{"Mass", "16 oz", 0.45359237},
		{"Density", "860 kg/m³", 860},
		{"Density", "0.86 g/mL", 860},
		{"Density", "7.85 g/cm³", 7850},
		{"Density", "0.86 kg/L", 860},
		{"Amount", "0.2 mol", 0.2},
		{"Amount", "200 mmol", 0.2},
		{"Time", "1.5 s", 1.5},
		{"Time", "20 ms", 0.02},
		{"Time", "3 min", 180},
		{"Time", "2 h", 7200},
		{"Time", "1 d", 86400},
		{"Frequency", "2.5 Hz", 2.5},
		{"Frequency", "120 1/min", 2},
		{"Frequency", "120 rpm", 2},
		{"Speed", "3 m/s", 3},
		{"Speed", "250 mm/s", 0.25},
		{"Speed", "36 km/h", 10},
		{"Speed", "1 mph", 0.44704},
		{"Speed", "3600 knot", 1852},
		{"Speed", "10 in/s", 0.254},
		{"Speed", "10 ft/s", 3.048},
		{"Acceleration", "9.81 m/s²", 9.81},
		{"Acceleration", "9.81 m/s^2", 9.81},
		{"Acceleration", "1 g", 9.80665},
		{"Acceleration", "1 ft/s²", 0.3048},
		{"Angle", "180 deg", math.Pi},
		{"Angle", "180°", math.Pi},
		{"Angle", "180º", math.Pi}, // ordinal sign of some keyboards
		{"Angle", "0.5 rad", 0.5},
		{"Force", "800 N", 800},
		{"Force", "1.2 kN", 1200},
		{"Force", "1 kgf", 9.80665},
		{"Force", "1 lbf", lbf},
		{"Stiffness", "9.2 N/mm", 9200},
		{"Stiffness", "9200 N/m", 9200},
		{"Stiffness", "1 kgf/mm", 9806.65},
		{"Stiffness", "1 kg/mm", 9806.65},
		{"Stiffness", "1 lbf/in", lbf / in},
		{"Stiffness", "1 lb/in", lbf / in},
		{"DampingRate", "1500 N·s/m", 1500},
		{"DampingRate", "1500 N*s/m", 1500},
		{"DampingRate", "1500 N.s/m", 1500},
		{"DampingRate", "1500 N s/m", 1500},
		{"DampingRate", "1.5 N·s/mm", 1500},
		{"DampingRate", "1 lbf·s/in", lbf / in},
		{"DampingRate", "1 kgf·s/mm", 9806.65},
		{"Energy", "250 J", 250},
		{"Energy", "0.25 kJ", 250},
		{"Energy", "1 ft·lbf", lbf * 12 * in},
		{"Power", "60 W", 60},
		{"Torque", "20 N·m", 20},
		{"Torque", "20 N⋅m", 20}, // U+22C5
		{"Torque", "20 N*m", 20},
		{"Torque", "20 N.m", 20},
		{"Torque", "20 N-m", 20},
		{"Torque", "20 N m", 20},
		{"Torque", "20 Nm", 20},
		{"Torque", "1 lbf·ft", lbf * 12 * in},
		{"Torque", "1 ft·lbf", lbf * 12 * in},
		{"Torque", "1 lb·ft", lbf * 12 * in},
		{"Torque", "1 ft-lb", lbf * 12 * in},
		{"Torque", "12 lbf·in", lbf * 12 * in},
		{"Torque", "192 ozf·in", lbf * 12 * in},
		{"Torque", "1 kgf·m", 9.80665},
		{"Stress", "790 MPa", 790e6},
		{"Stress", "790 N/mm²", 790e6},
		{"Stress", "78.5 GPa", 78.5e9},
		{"Stress", "1000 psi", 1000 * lbf / in / in},
		{"Stress", "1 ksi", 1000 * lbf / in / in},
		{"Pressure", "1.5 bar", 1.5e5},
		{"Pressure", "1500 mbar", 1.5e5},
		{"Pressure", "150 kPa", 1.5e5},
		{"Pressure", "1500 hPa", 1.5e5},
		{"Pressure", "0.15 MPa", 1.5e5},
		{"Pressure", "150000 Pa", 1.5e5},
		{"Pressure", "1 psi", lbf / in / in},
		{"Pressure", "1 atm", 101325},
		{"Pressure", "1 kgf/cm²", 98066.5},
		{"Pressure", "1 kgf/cm^2", 98066.5},
		{"Pressure", "1 kg/cm2", 98066.5},
		{"Pressure", "1 mmHg", 133.322387415},
		{"Pressure", "1 inHg", 3386.388640341},
		{"Pressure", "760 torr", 101325},
		{"Pressure", "1 inH2O", 249.08891},
		{"GaugePressure", "10.8 bar", 10.8e5},
		{"GaugePressure", "10.8 bar(g)", 10.8e5},
		{"GaugePressure", "10.8 bar (g)", 10.8e5},
		{"GaugePressure", "10.8 bar gauge", 10.8e5},
		{"GaugePressure", "10.8barg", 10.8e5},
		{"GaugePressure", "100 psig", 100 * lbf / in / in},
		{"GaugePressure", "-0.2 bar", -0.2e5},
		{"GaugePressure", "1 inHg", 3386.388640341}, // its g is not a mark
		{"AbsolutePressure", "1.013 bar", 1.013e5},
		{"AbsolutePressure", "1.013 bara", 1.013e5},
		{"AbsolutePressure", "1.013 bar(a)", 1.013e5},
		{"AbsolutePressure", "1.013 bar abs", 1.013e5},
		{"AbsolutePressure", "1.013 bar(abs)", 1.013e5},
		{"AbsolutePressure", "100 psia", 100 * lbf / in / in},
		{"AbsolutePressure", "29.92 inHg", 29.92 * 3386.388640341},
		{"AbsolutePressure", "1013.25 hPa", 101325},
		{"Temperature", "20 °C", 293.15},
		{"Temperature", "20°C", 293.15},
		{"Temperature", "20 degC", 293.15},
		{"Temperature", "20 C", 293.15},
		{"Temperature", "68 °F", 293.15},
		{"Temperature", "68 degF", 293.15},
		{"Temperature", "68 F", 293.15},
		{"Temperature", "293.15 K", 293.15},
		{"Temperature", "-40 °F", 233.15},
		{"TemperatureDifference", "10 K", 10},
		{"TemperatureDifference", "10 °C", 10},
		{"TemperatureDifference", "18 °F", 10},
		{"Expansivity", "7e-4 1/K", 7e-4},
		{"Expansivity", "7e-4 1/°C", 7e-4},
		{"KinematicViscosity", "15 mm²/s", 15e-6},
		{"KinematicViscosity", "15 mm2/s", 15e-6},
		{"KinematicViscosity", "15 cSt", 15e-6},
		{"KinematicViscosity", "15 m²/s", 15},
		{"DynamicViscosity", "12 mPa·s", 12e-3},
		{"DynamicViscosity", "12 cP", 12e-3},
		{"DynamicViscosity", "12 Pa·s", 12},
		{"DynamicViscosity", "1 reyn", lbf / in / in},
		{"DynamicViscosity", "1 lbf·s/in²", lbf / in / in},
		{"DynamicViscosity", "1 lbf·s/ft²", lbf / in / in / 144},
	}
	for _, tt := range tests {
		t.Run(tt.quantity+"/"+tt.text, func(t *testing.T) {
			got, err := quantityNamed(t, tt.quantity).parse(tt.text)
			if err != nil {
				t.Fatal(err)
			}
			si := math.Float64frombits(bits(got))
			if !(math.Abs(si-tt.si) <= 1e-15*math.Abs(tt.si)) || math.Signbit(si) != math.Signbit(tt.si) {
				t.Errorf("got %.17g in SI, want %.17g", si, tt.si)
			}
		})
	}
}

func TestParseError(t *testing.T) {
	const (
		first   = "a number must come first"
		space   = "write one space before the unit and none after it"
		ounce   = `say which fluid ounce: "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`
		vacuum  = " is absolute: it counts from vacuum, not from the ambient"
		ambient = " is gauge: it counts from the ambient, not from vacuum"
	)
	tests := []struct {
		quantity, text string
		offset         int
		hint           string
	}{
		{"Length", "", 0, first},
		{"Length", "mm", 0, first},
		{"Length", " 12 mm", 0, first},
		{"Length", "NaN mm", 0, first},
		{"Length", "-Inf mm", 1, first},
		{"Length", "--1 mm", 1, first},
		{"Length", "−1 mm", 0, "minus sign: write the hyphen -"},
		{"Length", ".5 mm", 0, "write a digit before the decimal point"},
		{"Length", "5. mm", 2, "write a digit after the decimal point"},
		{"Length", "5e mm", 2, "write digits after the e of the exponent"},
		{"Length", "5e+ mm", 3, "write digits after the e of the exponent"},
		{"Length", "12,5 mm", 2, "decimal comma: write 12.5"},
		{"Length", "-12,50mm", 3, "decimal comma: write -12.50"},
		{"Length", "1,000 mm", 1, "comma: write 1.000 or 1000"},
		{"Length", "12, mm", 2, "a comma is not part of a number"},
		{"Length", "12.5", 4, "unit missing"},
		{"Length", "12.5 ", 5, "unit missing"},
		{"Length", "12.5  mm", 5, space},
		{"Length", "12.5 mm ", 5, space},
		{"Length", "12.5 bar", 5, "bar is a pressure"},
		{"Length", "12.5 barg", 5, "barg is a gauge pressure"},
		{"Length", "12.5 kg", 5, "kg is a mass"},
		{"Length", "12.5 MM", 5, "unknown unit; did you mean mm?"},
		{"Length", "1 240 mm", 2, "write a number without spaces in it"},
		{"Length", "12.5 1/km", 5, "unknown unit"},
		{"Length", "12.5 furlong", 5, "unknown unit"},
		{"Length", "12.5 mm mm", 5, "unknown unit"},
		{"Length", "0x10 mm", 1, "unknown unit"},
		{"Length", "1_000 mm", 1, "unknown unit"},
		{"Length", "1e309 m", 0, "number too large"},
		{"Length", "1e308 km", 0, "number too large"},
		{"Length", "1e99999999999999999999 mm", 0, "number too large"},
		{"Time", "1e308 h", 0, "number too large"},
		{"Temperature", "1e309 K", 0, "number too large"},
		{"Temperature", "20 mm", 3, "mm is a length"},
		{"TemperatureDifference", "5 s", 2, "s is a time"},
		{"Volume", "5 fl oz", 2, ounce},
		{"Volume", "5 oz", 2, ounce},
		{"Volume", "1 gal", 2, `say which gallon: "US gal" (3.785 L) or "imp gal" (4.546 L)`},
		{"Force", "80 kg", 3, "kg is a mass: write kgf for the weight of 1 kg"},
		{"Force", "80 lb", 3, "lb is a mass: write lbf for the weight of 1 lb"},
		{"Force", "80 N·m", 3, "N·m is a torque"},
		{"Stress", "80 psia", 3, "psia is an absolute pressure"},
		{"Pressure", "3 barg", 2, "barg counts from the ambient, a Pressure is a difference"},
		{"Pressure", "3 bar(a)", 2, "bar(a) counts from vacuum, a Pressure is a difference"},
		{"GaugePressure", "10.8 bara", 5, "bara" + vacuum},
		{"GaugePressure", "10.8 bar(a)", 5, "bar(a)" + vacuum},
		{"GaugePressure", "10.8 bar abs", 5, "bar abs" + vacuum},
		{"GaugePressure", "150 psia", 4, "psia" + vacuum},
		{"AbsolutePressure", "10.8 barg", 5, "barg" + ambient},
		{"AbsolutePressure", "150 psig", 4, "psig" + ambient},
		{"AbsolutePressure", "10.8 mm(a)", 5, "unknown unit"},
	}
	for _, tt := range tests {
		t.Run(tt.quantity+"/"+tt.text, func(t *testing.T) {
			q := quantityNamed(t, tt.quantity)
			got, err := q.parse(tt.text)
			var e *units.ParseError
			if !errors.As(err, &e) {
				t.Fatalf("got %v, %v; want a *ParseError", got, err)
			}
			if bits(got) != 0 {
				t.Errorf("a failed Parse gave %v", got)
			}
			if e.Quantity != tt.quantity || e.Text != tt.text || e.Offset != tt.offset || e.Hint != tt.hint {
				t.Errorf("got %+v, want %+v", e, tt)
			}
			if kept, err := q.into(7, tt.text); err == nil || kept != q.of(7) {
				t.Errorf("a failed UnmarshalText left %v, %v; want %v and an error", kept, err, q.of(7))
			}
		})
	}
	_, err := units.Parse[units.Mass]("1 " + strings.Repeat("µ", 40))
	want := `units: parse Mass "1 ` + strings.Repeat("µ", 29) + `…": at byte 2: unknown unit ` +
		"(want a number in kg, g, lb, oz)"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// A unit of another quantity is named as one, whichever the quantity.
func TestForeignUnitIsNamed(t *testing.T) {
	for _, q := range quantities {
		_, err := q.parse("1 ?")
		var own, foreign *units.ParseError
		if !errors.As(err, &own) {
			t.Fatal(err)
		}
		other := quantities[0]
		if q.name == other.name {
			other = quantities[1]
		}
		_, err = other.parse("1 " + own.Accepted[0])
		if !errors.As(err, &foreign) || !strings.HasPrefix(foreign.Hint, own.Accepted[0]+" is a") {
			t.Errorf("%s taken for a %s: %v", q.name, other.name, err)
		}
	}
}

// Every symbol an error offers is accepted, and every one is named once.
func TestAcceptedIsAccepted(t *testing.T) {
	for _, q := range quantities {
		t.Run(q.name, func(t *testing.T) {
			_, err := q.parse("1 ?")
			var e *units.ParseError
			if !errors.As(err, &e) || len(e.Accepted) == 0 {
				t.Fatalf("got %v, want a *ParseError with units", err)
			}
			for i, symbol := range e.Accepted {
				if _, err := q.parse("1 " + symbol); err != nil {
					t.Error(err)
				}
				if slices.Contains(e.Accepted[:i], symbol) {
					t.Errorf("%s is listed twice", symbol)
				}
			}
			if !strings.HasSuffix(reflect.TypeOf(q.of(0)).String(), "."+e.Quantity) {
				t.Errorf("%T calls itself %s", q.of(0), e.Quantity)
			}
		})
	}
}
