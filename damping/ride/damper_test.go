package ride

import (
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// On a coil a stroke with a damping ratio ζ ends e^(−πζ/√(1−ζ²)) times as far from rest as it
// began: in by the one of compression, out by that of rebound.
func TestByRatio(t *testing.T) {
	const in, out = 0.1, 0.25
	bare := base(t, 10, 500, nil)
	d, err := bare.ByRatio(in, out)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range []units.Speed{-2, -0.1, 0, 0.1, 2} {
		if got := float64(d.Coefficient(v)) * float64(v); !(math.Abs(got-float64(d.Force(v))) <= 1e-12) {
			t.Errorf("at %v: %v N, the coefficient says %v N", v, d.Force(v), got)
		}
	}
	v := bare.WithDamper(d)
	if v.Spec().Damper != d || bare.Spec().Damper != nil || v.Sag() != bare.Sag() {
		t.Errorf("the damper of the other vehicle is %v, of the first %v", v.Spec().Damper, bare.Spec().Damper)
	}
	r := free(t, v, 0.1, 3)
	last, turns := 0.1, 0
	for i, p := range r.Samples[2:] {
		before := r.Samples[i+1]
		if (p.Velocity > 0) == (before.Velocity > 0) {
			continue
		}
		share := float64(before.Velocity / (before.Velocity - p.Velocity))
		turn := math.Abs(float64(before.Travel-v.sag) + 0.5*share*float64(before.Velocity)/2000)
		ratio := in // it starts stretched
		if before.Velocity < 0 {
			ratio = out
		}
		near(t, "share of a stroke that is left", turn/last, math.Exp(-math.Pi*ratio/math.Sqrt(1-ratio*ratio)), 2e-3)
		last, turns = turn, turns+1
	}
	if turns < 4 {
		t.Errorf("%d turns", turns)
	}
	for _, c := range [][2]float64{{-0.1, 0.5}, {0.1, math.NaN()}, {4, 0.5}} {
		if d, err := bare.ByRatio(c[0], c[1]); !errors.As(err, new(*units.RangeError)) || d != nil {
			t.Errorf("ByRatio(%v, %v) = %v, %v", c[0], c[1], d, err)
		}
	}
}
