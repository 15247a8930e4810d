package gas

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
)

// Worked examples of textbooks, from memory, with the book's own properties of air at the film
// temperature.
func TestPublishedConvection(t *testing.T) {
	for _, tt := range []struct {
		name, cite     string
		got, want, tol float64
	}{
		{"cylinder in a wind tunnel, Nu",
			"G-54", // 12.7 mm, 10 m/s
			acrossCylinder(6071, 0.700), 40.6, 0.05},
		{"steam pipe in the wind, Nu", "G-55", // 100 mm, 8 m/s
			acrossCylinder(4.219e4, 0.7202), 124, 0.5},
		{"glass door of a fireplace, Nu", "G-56", // 0.71 m high
			verticalPlate(1.813e9, 0.690), 147, 0.5},
	} {
		register.Cite(t, tt.cite)
		if !(math.Abs(tt.got-tt.want) <= tt.tol) {
			t.Errorf("%s = %.5g, want %g ± %g (%s)", tt.name, tt.got, tt.want, tt.tol, tt.cite)
		}
	}
}

// The standard atmosphere lists viscosity and conductivity as well; the header of the record names
// the program. At 2000 m the printed table has 1.726e-5 Pa·s.
func TestTransportRecorded(t *testing.T) {
	register.Cite(t, "A-08", "A-01")
	for _, row := range record.Rows(t, "atmosphere.csv",
		"altitude_m,temperature_K,pressure_Pa,viscosity_Pas,conductivity_WmK", 25) {
		x := record.Numbers(t, row)
		if mu := viscosity(x[1]); !(math.Abs(mu/x[3]-1) < 1e-9) {
			t.Errorf("viscosity at %v K = %v, want %v", x[1], mu, x[3])
		}
		if k := conductivity(x[1]); !(math.Abs(k/x[4]-1) < 1e-9) {
			t.Errorf("conductivity at %v K = %v, want %v", x[1], k, x[4])
		}
	}
	if mu := viscosity(275.15); !(math.Abs(mu-1.726e-5) <= 1e-9) {
		t.Errorf("viscosity at 2000 m = %v", mu)
	}
}
