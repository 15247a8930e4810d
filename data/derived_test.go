package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// TestDerived: values that call themselves derived follow from the formula of their
// source, to the digit the file gives.
func TestDerived(t *testing.T) {
	checks := make(map[string]int)
	near := func(f data.Fork, source string, got, want, within float64) {
		t.Helper()
		checks[source]++
		if !(math.Abs(got-want) <= within) {
			t.Errorf("%s, %s: got %.4g, want %.4g", f.ID, source, got, want)
		}
	}
	for f := range data.Reference().Forks() {
		if c := f.Left.Coil; c.Wire.Source == "derived-wire" {
			s := wound(t, c)
			if c.ActiveCoils.Source == "derived-coils" {
				same, err := helical.New(helical.Spec{
					Wire: s.Wire(), OuterDiameter: s.OuterDiameter(), Rate: c.Rate.Value,
					FreeLength: s.FreeLength(), Material: s.Material(),
				})
				if err != nil {
					t.Fatal(err)
				}
				near(f, "derived-coils", c.ActiveCoils.Value, same.ActiveCoils(), 0.051)
			}
			// The wire 0.1 mm thinner is over the limit.
			thin, err := helical.New(helical.Spec{
				Wire: s.Wire() - 0.1*mm, OuterDiameter: s.OuterDiameter(), Rate: c.Rate.Value,
				FreeLength: s.FreeLength(), Material: s.Material(),
			})
			if err != nil {
				t.Fatal(err)
			}
			checks["derived-wire"]++
			if force := thin.Force(f.Travel.Value + c.Preload.Value); thin.ShearStress(force) <= 0.999*thin.StaticLimit() {
				t.Errorf("%s: a wire of %v would do", f.ID, thin.Wire())
			}
		}

		k := f.Kit
		if k.Interior.Source == "derived-kit" {
			want := f.Gap.Residual.Value + (k.Oil.Lo+k.Oil.Hi)/2
			if k.SpringInOil && f.Spring() == data.CoilLeg {
				want += wound(t, f.Left.Coil).Volume() + k.Metal.Value
			}
			if f.Gap.Residual.Given() && (f.Spring() == data.CoilLeg || !k.SpringInOil) {
				near(f, "derived-kit", k.Interior.Value.In(units.Milliliter), want.In(units.Milliliter), 0.55) // both are rounded
			}
		}
		if k.Metal.Source == "derived-kit" {
			want := f.Gap.Displaced.Value - wound(t, f.Left.Coil).Volume()
			near(f, "derived-kit", k.Metal.Value.In(units.Milliliter), want.In(units.Milliliter), 0.51)
		}
		if k.Rate.Source == "derived-rate" {
			x := units.Length(float64(f.Sag.Rider.Lo+f.Sag.Rider.Hi)/2) * f.Travel.Value
			for _, end := range []struct {
				rider units.Mass
				rate  units.Stiffness
			}{{f.Rider.Range.Lo, k.Rate.Lo}, {f.Rider.Range.Hi, k.Rate.Hi}} {
				load := f.Load(end.rider) - 2*gapForce(t, f, x)
				want := float64(load) / float64(x+k.PreloadAim.Value) / 1000
				near(f, "derived-rate", end.rate.In(units.NewtonPerMillimeter), want, 0.1)
			}
		}
	}
	for _, source := range []string{"derived-coils", "derived-wire", "derived-kit", "derived-rate"} {
		if checks[source] == 0 {
			t.Errorf("nothing checked of %s", source)
		}
	}
}

// gapForce is that of the gas over the oil of one leg at rest.
func gapForce(t *testing.T, f data.Fork, x units.Length) units.Force {
	t.Helper()
	if !f.Gap.Residual.Given() {
		return 0
	}
	sea, err := gas.Standard(0)
	if err != nil {
		t.Fatal(err)
	}
	gap, err := oil.NewAirGap(oil.AirGapSpec{
		Area:     f.Gap.Area(f),
		Residual: f.Gap.Residual.Value,
		Travel:   f.Travel.Value,
		Pressure: f.Gap.Precharge.Value.Absolute(sea.Pressure),
		Ambient:  sea.Pressure,
		Exponent: gas.Isothermal,
	})
	if err != nil {
		t.Fatal(err)
	}
	return gap.Force(x)
}

// TestSealedArea: the gap works on the stanchion's outer diameter, whatever the layout.
func TestSealedArea(t *testing.T) {
	for _, id := range []string{"M06", "M21"} { // inverted, upright
		f, err := data.Reference().Fork(id)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := f.Gap.Area(f), geometry.Circle(f.Stanchion.Value)-geometry.Circle(f.Gap.Rod.Value); got != want {
			t.Errorf("%s: got %v, want %v", id, got, want)
		}
	}
}
