package units_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/register"
	. "example.org/forkcurve/units"
)

// Each expected value is compared at the precision it was printed with: tolerance is
// half a unit of its last digit, or 0 where the source marks it exact (then 1e-15
// relative is left for the division).
func TestPublishedFactors(t *testing.T) {
	tests := []struct {
		name      string
		got       float64
		want      float64
		tolerance float64
		cite      string
	}{
		{"kgf in N", KilogramForce.In(Newton), 9.80665, 0, "U-01"},
		{"lbf in N", PoundForce.In(Newton), 4.448222, 5e-7, "U-01"},
		{"lbf/in in N/m", PoundForcePerInch.In(NewtonPerMeter), 175.1268, 5e-5, "U-02"},
		{"kgf/mm in N/m", KilogramForcePerMillimeter.In(NewtonPerMeter), 9806.65, 0, "U-02"},
		{"lbf/ft in N/m", PoundForcePerFoot.In(NewtonPerMeter), 14.5939, 5e-5, "U-02"},
		{"kgf/mm in lbf/in", KilogramForcePerMillimeter.In(PoundForcePerInch), 55.997414595, 5e-10, "U-02"},
		{"psi in Pa", PSI.In(Pascal), 6894.757, 5e-4, "U-03"},
		{"bar in psi", Bar.In(PSI), 14.5037738, 5e-8, "U-03"},
		{"atm in psi", Atmosphere.In(PSI), 14.6959488, 5e-8, "U-03"},
		{"kgf/cm² in Pa", KilogramForcePerSquareCentimeter.In(Pascal), 98066.5, 0, "U-03"},
		// SP 811 also has an inch of mercury at 32 °F (3386.38 Pa) and one at 60 °F
		// (3376.85 Pa); ours is the conventional one.
		{"inHg in Pa", InchOfMercury.In(Pascal), 3386.389, 5e-4, "U-04"},
		{"mmHg in Pa", MillimeterOfMercury.In(Pascal), 133.3224, 5e-5, "U-04"},
		{"torr in Pa", Torr.In(Pascal), 133.3224, 5e-5, "U-04"},
		{"inH2O in Pa", InchOfWater.In(Pascal), 249.0889, 5e-5, "U-04"},
		{"lbf·ft in N·m", PoundForceFoot.In(NewtonMeter), 1.355818, 5e-7, "U-05"},
		{"lbf·in in N·m", PoundForceInch.In(NewtonMeter), 0.1129848, 5e-8, "U-05"},
		{"ozf·in in N·m", OunceForceInch.In(NewtonMeter), 0.007061552, 5e-10, "U-05"},
		{"kgf·m in N·m", KilogramForceMeter.In(NewtonMeter), 9.80665, 0, "U-05"},
		{"ft·lbf in J", FootPoundForce.In(Joule), 1.355818, 5e-7, "U-05"},
		{"US fl oz in mL", USFluidOunce.In(Milliliter), 29.57353, 5e-6, "U-06"},
		{"imp fl oz in mL", ImperialFluidOunce.In(Milliliter), 28.41306, 5e-6, "U-06"},
		{"in³ in mL", CubicInch.In(Milliliter), 16.38706, 5e-6, "U-06"},
		{"US gal in L", USGallon.In(Liter), 3.785412, 5e-7, "U-06"},
		{"imp gal in L", ImperialGallon.In(Liter), 4.54609, 0, "U-06"},
		{"cSt in m²/s", Centistokes.In(SquareMeterPerSecond), 1e-6, 0, "U-07"},
		{"cP in Pa·s", Centipoise.In(PascalSecond), 1e-3, 0, "U-07"},
		{"reyn in Pa·s", Reyn.In(PascalSecond), 6894.757, 5e-4, "U-07"},
		{"lbf·s/ft² in Pa·s", PoundForceSecondPerSquareFoot.In(PascalSecond), 47.88026, 5e-6, "U-07"},
		{"lbf·s/in in N·s/m", PoundForceSecondPerInch.In(NewtonSecondPerMeter), 175.126835246, 5e-10, "U-08"},
		{"kgf·s/mm in N·s/m", KilogramForceSecondPerMillimeter.In(NewtonSecondPerMeter), 9806.65, 0, "U-08"},
		{"mph in m/s", MilePerHour.In(MeterPerSecond), 0.44704, 0, "U-09"},
		{"km/h in m/s", KilometerPerHour.In(MeterPerSecond), 0.2777778, 5e-8, "U-09"},
		{"knot in m/s", Knot.In(MeterPerSecond), 0.5144444, 5e-8, "U-09"},
		{"in/s in m/s", InchPerSecond.In(MeterPerSecond), 0.0254, 0, "U-09"},
		{"ft/s in m/s", FootPerSecond.In(MeterPerSecond), 0.3048, 0, "U-09"},
		{"68 °F in °C", Fahrenheit(68).Celsius(), 20, 1e-9, "U-10"},
		{"−40 °F in °C", Fahrenheit(-40).Celsius(), -40, 1e-9, "U-13"},
		{"100 °C in °F", Celsius(100).Fahrenheit(), 212, 1e-9, "U-10"},
		{"20 °C in K", Celsius(20).Kelvin(), 293.15, 1e-9, "U-10"},
		{"10 °C interval in °F", (10 * CelsiusDifference).In(FahrenheitDifference), 18, 1e-9, "U-14"},
		{"29.2 inHg in torr", (29.2 * InchOfMercury).In(Torr), 742, 0.5, "U-11"},
		{"29.2 inHg in kPa", (29.2 * InchOfMercury).In(Kilopascal), 98.9, 0.05, "U-11"},
		{"29.2 inHg in mbar", (29.2 * InchOfMercury).In(Millibar), 989, 0.5, "U-11"},
		{"32 psi in kPa", (32 * PSI).In(Kilopascal), 220, 5, "U-11"}, // printed to two digits
		{"740 mm of mercury of 13 570 kg/m³ under 9.81 m/s²",
			Pressure(13570 * float64(KilogramPerCubicMeter) * 9.81 * float64(740*Millimeter)).In(Kilopascal), 98.5, 0.05,
			"U-12"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			register.Cite(t, tt.cite)
			tolerance := max(tt.tolerance, 1e-15*math.Abs(tt.want))
			if !(math.Abs(tt.got-tt.want) <= tolerance) {
				t.Errorf("got %.12g, want %v ± %g (%s)", tt.got, tt.want, tolerance, tt.cite)
			}
		})
	}
}

// Every derived unit is rebuilt from its parts.
func TestUnitsFromParts(t *testing.T) {
	var (
		n, kgf, lbf = float64(Newton), float64(KilogramForce), float64(PoundForce)
		mm, cm, in  = float64(Millimeter), float64(Centimeter), float64(Inch)
		ft, m, s    = float64(Foot), float64(Meter), float64(Second)
		kg, g, lb   = float64(Kilogram), float64(Gram), float64(PoundMass)
		g0          = float64(StandardGravity)
		minute, h   = float64(Minute), float64(Hour)
	)
	tests := []struct {
		name string
		unit float64
		want float64
	}{
		{"km", float64(Kilometer), 1000 * m},
		{"cm", cm, m / 100},
		{"mm", mm, m / 1000},
		{"µm", float64(Micrometer), mm / 1000},
		{"ft", ft, 12 * in},
		{"cm²", float64(SquareCentimeter), cm * cm},
		{"mm²", float64(SquareMillimeter), mm * mm},
		{"m²", float64(SquareMeter), m * m},
		{"in²", float64(SquareInch), in * in},
		{"m³", float64(CubicMeter), m * m * m},
		{"L", float64(Liter), 1000 * cm * cm * cm},
		{"mL", float64(Milliliter), cm * cm * cm},
		{"cm³", float64(CubicCentimeter), cm * cm * cm},
		{"mm³", float64(CubicMillimeter), mm * mm * mm},
		{"in³", float64(CubicInch), in * in * in},
		{"US gal", float64(USGallon), 231 * in * in * in},
		{"US fl oz", float64(USFluidOunce), float64(USGallon) / 128},
		{"imp fl oz", float64(ImperialFluidOunce), float64(ImperialGallon) / 160},
		{"g", g, kg / 1000},
		{"oz", float64(OunceMass), lb / 16},
		{"kg/m³", float64(KilogramPerCubicMeter), kg / (m * m * m)},
		{"g/mL", float64(GramPerMilliliter), g / float64(Milliliter)},
		{"g/cm³", float64(GramPerCubicCentimeter), g / (cm * cm * cm)},
		{"mmol", float64(Millimole), float64(Mole) / 1000},
		{"ms", float64(Millisecond), s / 1000},
		{"h", h, 60 * minute},
		{"d", float64(Day), 24 * h},
		{"1/min", float64(RevolutionPerMinute), 1 / minute},
		{"Hz", float64(Hertz), 1 / s},
		{"m/s", float64(MeterPerSecond), m / s},
		{"mm/s", float64(MillimeterPerSecond), mm / s},
		{"km/h", float64(KilometerPerHour), float64(Kilometer) / h},
		{"mph", float64(MilePerHour), 5280 * ft / h},
		{"knot", float64(Knot), 1852 * m / h},
		{"in/s", float64(InchPerSecond), in / s},
		{"ft/s", float64(FootPerSecond), ft / s},
		{"m/s²", float64(MeterPerSecondSquared), m / (s * s)},
		{"ft/s²", float64(FootPerSecondSquared), ft / (s * s)},
		{"deg", 360 * float64(Degree), 2 * math.Pi * float64(Radian)},
		{"N", n, kg * m / (s * s)},
		{"kN", float64(Kilonewton), 1000 * n},
		{"kgf", kgf, kg * g0},
		{"lbf", lbf, lb * g0},
		{"N/m", float64(NewtonPerMeter), n / m},
		{"N/mm", float64(NewtonPerMillimeter), n / mm},
		{"kgf/mm", float64(KilogramForcePerMillimeter), kgf / mm},
		{"lbf/in", float64(PoundForcePerInch), lbf / in},
		{"lbf/ft", float64(PoundForcePerFoot), lbf / ft},
		{"N·s/m", float64(NewtonSecondPerMeter), n * s / m},
		{"N·s/mm", float64(NewtonSecondPerMillimeter), n * s / mm},
		{"kgf·s/mm", float64(KilogramForceSecondPerMillimeter), kgf * s / mm},
		{"lbf·s/in", float64(PoundForceSecondPerInch), lbf * s / in},
		{"J", float64(Joule), n * m},
		{"kJ", float64(Kilojoule), 1000 * n * m},
		{"ft·lbf", float64(FootPoundForce), ft * lbf},
		{"W", float64(Watt), float64(Joule) / s},
		{"kW", float64(Kilowatt), 1000 * float64(Joule) / s},
		{"N·m", float64(NewtonMeter), n * m},
		{"N·mm", float64(NewtonMillimeter), n * mm},
		{"kgf·m", float64(KilogramForceMeter), kgf * m},
		{"lbf·ft", float64(PoundForceFoot), lbf * ft},
		{"lbf·in", float64(PoundForceInch), lbf * in},
		{"ozf·in", float64(OunceForceInch), lbf / 16 * in},
		{"Pa", float64(Pascal), n / (m * m)},
		{"hPa", float64(Hectopascal), 100 * n / (m * m)},
		{"kPa", float64(Kilopascal), 1000 * n / (m * m)},
		{"bar", float64(Bar), 10 * n / (cm * cm)},
		{"mbar", float64(Millibar), float64(Bar) / 1000},
		{"psi", float64(PSI), lbf / (in * in)},
		{"kgf/cm²", float64(KilogramForcePerSquareCentimeter), kgf / (cm * cm)},
		{"torr", 760 * float64(Torr), float64(Atmosphere)},
		{"inHg", float64(InchOfMercury), 25.4 * float64(MillimeterOfMercury)},
		{"inH2O", float64(InchOfWater), 1000 * float64(KilogramPerCubicMeter) * g0 * in},
		{"MPa", float64(Megapascal), n / (mm * mm)},
		{"N/mm²", float64(NewtonPerSquareMillimeter), n / (mm * mm)},
		{"GPa", float64(Gigapascal), 1000 * n / (mm * mm)},
		{"ksi", float64(KSI), 1000 * lbf / (in * in)},
		{"°C", 100 * float64(CelsiusDifference), float64(Celsius(100).Sub(Celsius(0)))},
		{"°F", 180 * float64(FahrenheitDifference), float64(Fahrenheit(212).Sub(Fahrenheit(32)))},
		{"1/K", float64(PerKelvin), 1 / float64(KelvinDifference)},
		{"m²/s", float64(SquareMeterPerSecond), m * m / s},
		{"mm²/s", float64(SquareMillimeterPerSecond), mm * mm / s},
		{"cSt", float64(Centistokes), float64(Centipoise) / float64(GramPerCubicCentimeter)},
		{"Pa·s", float64(PascalSecond), float64(Pascal) * s},
		{"mPa·s", float64(MillipascalSecond), float64(Pascal) * s / 1000},
		{"reyn", float64(Reyn), lbf * s / (in * in)},
		{"lbf·s/ft²", float64(PoundForceSecondPerSquareFoot), lbf * s / (ft * ft)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			// A few roundings of 1.1e-16 each.
			if !(math.Abs(tt.unit-tt.want) <= 1e-15*math.Abs(tt.want)) {
				t.Errorf("unit is %.17g, its parts give %.17g", tt.unit, tt.want)
			}
		})
	}
}

// Text in any unit that is no power of ten is the product with the constant.
func TestParseIsConstantProduct(t *testing.T) {
	check(t, "0.46 kgf/mm", 0.46*KilogramForcePerMillimeter)
	check(t, "5.3 lbf/in", 5.3*PoundForcePerInch)
	check(t, "27.2 deg", 27.2*Degree)
	check(t, "139 psi", 139*PSI)
	check(t, "2.5 in", 2.5*Inch)
	check(t, "4.7 imp fl oz", 4.7*ImperialFluidOunce)
	check(t, "18 °F", 18*FahrenheitDifference)
}

// Text in a power of ten is rounded once from the decimal number.
func TestParseIsNearestDecimal(t *testing.T) {
	check(t, "27.1 mm", Length(0.0271)) // 27.1*Millimeter is the next float64
	check(t, "0.57 bar", Pressure(57000))
}

func check[Q interface {
	Quantity
	~float64
}](t *testing.T, text string, want Q) {
	t.Helper()
	got, err := Parse[Q](text)
	if err != nil || got != want {
		t.Errorf("Parse(%q) = %.17g, %v; want %.17g", text, float64(got), err, float64(want))
	}
}
