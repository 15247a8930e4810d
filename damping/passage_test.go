package damping

import (
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// The exact solution for a centered annulus, Q = π·Δp/(8·μ·L)·(R⁴ − r⁴ − (R² − r²)²/ln(R/r)),
// as in any textbook of fluid mechanics.
func TestAnnulusExact(t *testing.T) {
	for _, part := range []float64{0.001, 0.01, 0.05, 0.099} { // clearance over bore
		const bore, length = 0.025, 0.01
		outer, inner := bore/2, bore/2-part*bore
		ring := (outer - inner) * (outer + inner)
		exact := math.Pi / (8 * length) * (math.Pow(outer, 4) - math.Pow(inner, 4) - ring*ring/math.Log(outer/inner))
		a := must(NewAnnulus(AnnulusSpec{Bore: bore, Clearance: units.Length(part * bore), Length: length}))
		near(t, "conductance over the exact one", 1/(a.viscous*exact), 1, 1e-3)
		touching := must(NewAnnulus(AnnulusSpec{Bore: bore, Clearance: units.Length(part * bore), Length: length,
			Eccentricity: 1}))
		near(t, "touching over centered", a.viscous/touching.viscous, 2.5, 1e-12)
	}
}

// What the laminar law leaves out, by Blasius' f = 0.316·Re^(−1/4) against 64/Re.
func TestPipeStatedError(t *testing.T) {
	for _, tt := range []struct{ re, factor float64 }{{3000, 2}, {5000, 3}} {
		near(t, "turbulent over laminar", 0.316*math.Pow(tt.re, -0.25)/(64/tt.re), tt.factor, 0.07)
	}
}

// Where both terms of an orifice are alike, and that its drop is the turbulent law far
// above and Sampson's far below.
func TestOrificeRegimes(t *testing.T) {
	o := must(NewOrifice(OrificeSpec{Area: 2e-6, Discharge: Discharge}))
	same := units.Flow(o.viscous * float64(warm.Viscosity) / (o.inertial * float64(warm.Density)))
	near(t, "Re of equal terms", o.Reynolds(same, warm), 14.5, 0.1)
	d := math.Sqrt(4 / math.Pi * 2e-6)
	creep := 24 * float64(warm.Viscosity) * 1e-12 / (d * d * d)
	near(t, "creeping drop", float64(o.Drop(1e-12, warm)), creep, 1e-4*creep)
	for q := units.Flow(1e-12); q < 1; q *= 7 {
		near(t, "there and back", float64(o.Flow(o.Drop(q, warm), warm)/q), 1, 1e-12)
	}
}
