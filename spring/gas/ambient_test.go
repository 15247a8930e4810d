package gas_test

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func TestStandardPublished(t *testing.T) {
	for _, tt := range []struct {
		altitude     units.Length
		pascal, tolP float64
		kelvin, tolK float64
		cite         string
	}{
		// "Atmosphere to 86 km by 2 km", table after U.S. Standard Atmosphere, 1976, five digits of
		// pressure, two decimals of temperature.
		{2000, 79501, 0.5, 275.15, 0.005, "A-01"},
		{4000, 61660, 0.5, 262.17, 0.005, "A-02"},
		{6000, 47218, 0.5, 249.19, 0.005, "A-03"},
		{8000, 35652, 0.5, 236.22, 0.005, "A-04"},
		{10000, 26500, 0.5, 223.25, 0.005, "A-05"},
		// International standard atmosphere table, Mechanical Engineers' Handbook, volume 4, table
		// 6: pressure in bar to four decimals.
		{-500, 107480, 6, 0, 0, "A-06"},
		{500, 95460, 6, 0, 0, "A-06"},
		{1000, 89880, 6, 0, 0, "A-06"},
		{1500, 84560, 6, 0, 0, "A-06"},
		{2500, 74690, 6, 0, 0, "A-06"},
		{3000, 70120, 6, 0, 0, "A-06"},
		{3500, 65780, 6, 0, 0, "A-06"},
		{5000, 54050, 6, 0, 0, "A-06"},
		{11000, 22700, 6, 0, 0, "A-06"},
	} {
		a := must(gas.Standard(tt.altitude))
		register.Cite(t, tt.cite)
		where := tt.cite + " at " + strconv.FormatFloat(float64(tt.altitude), 'f', 0, 64) + " m, "
		near(t, where+"Pa", a.Pressure.In(units.Pascal), tt.pascal, tt.tolP)
		if tt.kelvin != 0 {
			near(t, where+"K", a.Temperature.Kelvin(), tt.kelvin, tt.tolK)
		}
	}
	sea := must(gas.Standard(0))
	if sea.Temperature != units.Celsius(15) || sea.Pressure != units.Absolute(1*units.Atmosphere) {
		t.Errorf("sea level %v, want 15 °C and 1 atm exactly", sea)
	}
}

func TestStandardRecorded(t *testing.T) {
	register.Cite(t, "A-07")
	const header = "altitude_m,temperature_K,pressure_Pa,viscosity_Pas,conductivity_WmK"
	for _, row := range record.Rows(t, "atmosphere.csv", header, 25) {
		a := must(gas.Standard(units.Length(record.Number(t, row[0]))))
		kelvin, pascal := record.Number(t, row[1]), record.Number(t, row[2])
		// Ten digits are recorded.
		near(t, row[0]+" m, K", a.Temperature.Kelvin(), kelvin, 1e-9*kelvin)
		near(t, row[0]+" m, Pa", a.Pressure.In(units.Pascal), pascal, 1e-9*pascal)
	}
}

// Taking the map's altitude for geopotential altitude is a common slip; its size is documented.
func TestGeometricIsNotGeopotential(t *testing.T) {
	for _, tt := range []struct{ z, percent, tol float64 }{
		{2000, -0.008, 0.0005}, {4000, -0.03, 0.005}, {11000, -0.3, 0.05},
	} {
		slip := 101325 * math.Pow(1-0.0065*tt.z/288.15, 5.25588)
		right := must(gas.Standard(units.Length(tt.z))).Pressure.In(units.Pascal)
		near(t, "slip, %", 100*(slip/right-1), tt.percent, tt.tol)
	}
}

// The warm column that StandardAt leaves out, by the hydrostatic equation.
func TestStandardAtStatedError(t *testing.T) {
	for _, tt := range []struct{ z, percent float64 }{{2000, 1.2}, {3000, 1.9}} {
		warm := 1.0 // ln p falls by g·M/(R·T) each meter; step through the warm column
		const warmer, steps = 15.0, 3000
		for i := range steps {
			z := tt.z * (float64(i) + 0.5) / steps
			warm *= math.Exp(-0.034163 / (288.15 + warmer - 0.0065*z) * tt.z / steps)
		}
		hot := units.Celsius(15 - 6.5e-3*tt.z + warmer)
		a := must(gas.StandardAt(units.Length(tt.z), hot))
		near(t, "missing, %", 100*(warm*101325/a.Pressure.In(units.Pascal)-1), tt.percent, 0.1)
		if a.Temperature != hot || a.Pressure != must(gas.Standard(units.Length(tt.z))).Pressure {
			t.Errorf("StandardAt = %v", a)
		}
	}
}

func TestStandardMonotone(t *testing.T) {
	last := must(gas.Standard(-500))
	for z := units.Length(-490); z <= 11000; z += 10 {
		a := must(gas.Standard(z))
		if err := a.Validate(); err != nil {
			t.Fatal(err)
		}
		if a.Pressure.Sub(last.Pressure) >= 0 || a.Temperature.Sub(last.Temperature) >= 0 {
			t.Fatalf("pressure or temperature does not fall at %v m", float64(z))
		}
		last = a
	}
}

// The altitude of a pressure is where the standard has it; outside it is refused.
func TestPressureAltitude(t *testing.T) {
	for _, z := range []units.Length{-500, 0, 240, 2500, 8848, 11000} {
		near(t, z.String(), float64(must(gas.PressureAltitude(must(gas.Standard(z)).Pressure))), float64(z), 1e-6)
	}
	for _, p := range []units.Pressure{0, -1, 0.2 * units.Bar, 1.1 * units.Bar, units.Pressure(math.NaN())} {
		var out *units.RangeError
		if z, err := gas.PressureAltitude(units.Absolute(p)); !errors.As(err, &out) {
			t.Errorf("%v is at %v, %v", p, z, err)
		}
	}
}
