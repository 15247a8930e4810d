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
			near(f, "derived-free-length", c.FreeLength.Value.In(mm), least(s, f, c).In(mm), 1e-6)
			// The wire 0.1 mm thinner, as wide as clears the tube, is over the limit when closed.
			if thin, ok := windable(t, s.Wire()-0.1*mm, f, c); ok {
				t.Errorf("%s: a wire of %v would do", f.ID, thin.Wire())
			}
			checks["derived-wire"]++
		}

		if d := f.Right.Damper; d.Interior.Source == "derived-damper" {
			near(f, "derived-damper", float64(d.Interior.Value), float64(f.Kit.Interior.Value-d.Cartridge.Value), 1e-9)
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
	for _, source := range []string{"derived-coils", "derived-wire", "derived-free-length", "derived-kit",
		"derived-rate", "derived-damper"} {
		if checks[source] == 0 {
			t.Errorf("nothing checked of %s", source)
		}
	}
}

// least is the free length that keeps the dynamic gap at full travel and the most preload,
// up to a millimeter.
func least(s helical.Spring, f data.Fork, c data.Coil) units.Length {
	need := s.SolidLength() + f.Travel.Value + c.Preloads.Hi + s.DynamicMinimumGap()
	return units.Length(math.Ceil(need.In(mm)-1e-9)) * mm
}

// windable is the widest spring of that wire, no wider than the one of the record, that
// clears the tube when it is closed, if it then bears the stress.
func windable(t *testing.T, wire units.Length, f data.Fork, c data.Coil) (helical.Spring, bool) {
	for outer := c.OuterDiameter.Value; outer > c.OuterDiameter.Value-2.5*mm; outer -= 0.1 * mm {
		spec := helical.Spec{
			Wire: wire, OuterDiameter: outer, Rate: c.Rate.Value, FreeLength: c.FreeLength.Value,
			Ends: c.Ends, Material: wound(t, c).Material(),
		}
		s, err := helical.New(spec)
		if err != nil {
			continue
		}
		spec.FreeLength = least(s, f, c)
		if s, err = helical.New(spec); err == nil && s.OuterDiameterAtSolid() <= f.Kit.Bore.Value {
			return s, s.ShearStress(s.SolidForce()) <= 0.995*s.StaticLimit() // coils are rounded to a tenth
		}
	}
	return helical.Spring{}, false
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
