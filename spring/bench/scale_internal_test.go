package bench

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func bare(t testing.TB) Fork {
	return Fork{Exponent: 1.3, Damping: 0.4, Spec: setup.Spec{Travel: 0.3, Friction: 84,
		Left: setup.Leg{Gap: &setup.Gap{Area: 18e-4, Residual: 300e-6}}},
		Chassis: geometry.Chassis{Rake: 0.47, Offset: 0.056, WheelRadius: 0.345, Wheelbase: 1.485, Mass: 111,
			UnsprungMass: 15.3,
			FrontShare:   0.485, FrontShareRidden: 0.47, CenterOfGravity: 0.91}}
}

// A scale has the fork's own number in its middle, comes back from where it went, rises, and bends only near 0; how
// far a number may be off is its slope, or between limits its exact deviation.
func TestScales(t *testing.T) {
	f := bare(t)
	for name, c := range map[string]struct {
		u                  Unknown
		center             float64
		straight, positive bool
	}{
		"straight":        {Uncertain("offset", 3*units.Millimeter), 0.056, true, false},
		"above 0":         {Uncertain("friction", 25*units.Newton), 84, false, true},
		"far above 0":     {Uncertain("friction", 5*units.Newton), 84, true, true},
		"near 0":          {Uncertain("friction", 80*units.Newton), 84, false, true},
		"between":         {Between("offset", 50*units.Millimeter, 60*units.Millimeter), 0.055, false, false},
		"above 0 between": {Between("friction", 20*units.Newton, 100*units.Newton), 60, false, true},
	} {
		s := newScale(&f, c.u)
		if got := s.value(0); !(math.Abs(got-c.center) <= 1e-9*c.center) {
			t.Errorf("%s: %v in the middle, want %v", name, got, c.center)
		}
		before := math.Inf(-1)
		for z := -4.0; z <= 4; z += 0.25 {
			v := s.value(z)
			if !(v > before) || c.positive && !(v > 0) {
				t.Errorf("%s: %v at %v, %v before", name, v, z, before)
			}
			before = v
			if got := s.z(v); !(math.Abs(got-z) <= 1e-7) {
				t.Errorf("%s: %v comes back as %v", name, z, got)
			}
			if c.straight && z > -2 {
				want := c.center + c.u.sd*z
				if !(math.Abs(v-want) <= 1e-5*want) {
					t.Errorf("%s: %v at %v, straight on %v", name, v, z, want)
				}
			}
			const sd = 0.3
			got := s.deviation(z, sd)
			want := sd * (s.value(z+1e-5) - s.value(z-1e-5)) / 2e-5
			tolerance := 1e-6
			if s.width > 0 {
				normal := func(e float64) float64 { return math.Exp(-e*e/2) / math.Sqrt(2*math.Pi) }
				moment := func(power float64) float64 {
					return quad.Fixed(func(e float64) float64 { return normal(e) * math.Pow(s.value(z+sd*e), power) }, -9, 9, 400,
						quad.Legendre{}, 0)
				}
				mean := moment(1)
				want = math.Sqrt(quad.Fixed(func(e float64) float64 {
					d := s.value(z+sd*e) - mean
					return normal(e) * d * d
				}, -9, 9, 400, quad.Legendre{}, 0))
				tolerance = 1e-3
			}
			if !(math.Abs(got-want) <= tolerance*want+1e-12) {
				t.Errorf("%s at %v: ± %v, want %v", name, z, got, want)
			}
		}
	}
	// Between limits every tenth is as likely.
	s := newScale(&f, Between("offset", 0.05, 0.06))
	for p, z := range map[float64]float64{0.1: -1.2815515655, 0.5: 0, 0.9: 1.2815515655,
		0.975: 1.9599639845} { // normal quantiles, any table
		if got := s.value(z); !(math.Abs(got-(0.05+0.01*p)) <= 1e-10) {
			t.Errorf("%v of the way: %v", p, got)
		}
	}
	if got := s.z(0.07); !math.IsInf(got, 1) {
		t.Errorf("above the limit: %v", got)
	}
}
