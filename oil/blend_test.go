package oil_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

func at20and80(density units.Density, cold, hot units.KinematicViscosity) oil.FluidSpec {
	return oil.FluidSpec{Density: density, Reference: units.Celsius(15), Expansion: 7.5e-4,
		Viscosity: oil.Measurement{Viscosity: cold, Temperature: units.Celsius(20)},
		Second:    oil.Measurement{Viscosity: hot, Temperature: units.Celsius(80)}}
}

func TestBlend(t *testing.T) {
	thin := newFluid(t, at20and80(850, 5*cSt, 2.1*cSt))
	thick := newFluid(t, at20and80(850, 20*cSt, 5*cSt))
	mix, err := oil.Blend(thin, 600*mL, thick, 400*mL)
	if err != nil {
		t.Fatal(err)
	}
	// 60 % of 5.0 mm²/s and 40 % of 20.0 by mass: the rule of Refutas evaluated
	// beforehand in another language, no outside evidence. The mean would be 11.
	register.Cite(t, "O-10")
	if got := mix.Viscosity(units.Celsius(20)).In(cSt); !(math.Abs(got-8.108549290140973) <= 1e-9) {
		t.Errorf("%v mm²/s, want 8.108549290140973", got)
	}
	if got := mix.Density(units.Celsius(15)); !(math.Abs(float64(got)-850) <= 1e-9) {
		t.Errorf("density %v, want 850", got)
	}
}

func TestBlendKeepsMassAndVolume(t *testing.T) {
	a := newFluid(t, oil.FluidSpec{Density: 830, Reference: units.Celsius(20), Expansion: 8e-4})
	b := newFluid(t, sheet(46*cSt, 7*cSt))
	mix, err := oil.Blend(a, 300*mL, b, 200*mL)
	if err != nil {
		t.Fatal(err)
	}
	if mix.HasViscosity() {
		t.Error("the blend knows a viscosity that one of its parts does not")
	}
	t0 := units.Celsius(15)
	for _, c := range []float64{-10, 15, 60} {
		at := units.Celsius(c)
		parts := a.Expand(300*mL, t0, at) + b.Expand(200*mL, t0, at)
		whole := mix.Expand(500*mL, t0, at)
		if !(math.Abs(float64(whole/parts-1)) <= 1e-12) {
			t.Errorf("at %v the whole is %v, the parts are %v", at, whole, parts)
		}
		mass := float64(a.Density(t0))*300e-6 + float64(b.Density(t0))*200e-6
		if got := float64(mix.Density(at)) * float64(whole); !(math.Abs(got/mass-1) <= 1e-12) {
			t.Errorf("at %v the mass is %v kg, want %v", at, got, mass)
		}
	}
}

// Which oil is poured first does not matter, whatever temperatures their densities are given at.
func TestBlendOfEitherOrder(t *testing.T) {
	a := newFluid(t, oil.FluidSpec{Density: 830, Reference: units.Celsius(20), Expansion: 8e-4})
	b := newFluid(t, oil.FluidSpec{Density: 850, Reference: units.Celsius(60), Expansion: 9e-4})
	for range 2 {
		mix, err1 := oil.Blend(a, 300*mL, b, 200*mL)
		other, err2 := oil.Blend(b, 200*mL, a, 300*mL)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for _, c := range []float64{-10, 15, 100} {
			at := units.Celsius(c)
			if p, q := mix.Density(at), other.Density(at); !(math.Abs(float64(p/q-1)) <= 1e-14) {
				t.Errorf("at %v %v and %v", at, p, q)
			}
		}
		whole := mix.Expand(500*mL, units.Celsius(15), units.Celsius(100))
		parts := a.Expand(300*mL, units.Celsius(15), units.Celsius(100)) +
			b.Expand(200*mL, units.Celsius(15), units.Celsius(100))
		if !(math.Abs(float64(whole/parts-1)) <= 1e-12) {
			t.Errorf("the whole %v, the parts %v", whole, parts)
		}
		a, b = b, a
	}
}

func TestBlendOfOneOil(t *testing.T) {
	f := newFluid(t, sheet(22*cSt, 4.4*cSt))
	mix, err := oil.Blend(f, 100*mL, f, 900*mL)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []float64{-20, 20, 50, 80, 120} {
		at := units.Celsius(c)
		if got, want := mix.Viscosity(at), f.Viscosity(at); !(math.Abs(float64(got/want-1)) <= 1e-9) {
			t.Errorf("at %v %v, want %v", at, got, want)
		}
	}
}
