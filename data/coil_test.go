package data_test

import (
	"errors"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// wound is the coil of a record as a spring.
func wound(t *testing.T, c data.Coil) helical.Spring {
	t.Helper()
	s, err := c.Spring(data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestEditedCoil: a record is a plain value, so an edited copy is another spring, in
// its own methods and in the fork that it is part of.
func TestEditedCoil(t *testing.T) {
	f, err := data.Reference().Fork("M06")
	if err != nil {
		t.Fatal(err)
	}
	before := wound(t, f.Left.Coil)
	f.Left.Coil.Wire.Value += 0.8 * mm
	f.Left.Coil.ActiveCoils.Value += 20
	f.Left.Coil.FreeLength.Value -= 10 * mm
	s := wound(t, f.Left.Coil)
	want := units.Length(f.Left.Coil.ActiveCoils.Value+2) * f.Left.Coil.Wire.Value
	if s.SolidLength() != want || f.Left.Coil.SolidLength() != want {
		t.Errorf("solid length %v and %v, want %v", s.SolidLength(), f.Left.Coil.SolidLength(), want)
	}
	if s.Rate() == before.Rate() || s.FreeLength() != before.FreeLength()-10*mm {
		t.Errorf("rate %v, free length %v", s.Rate(), s.FreeLength())
	}
	// Closed before the end of the travel, it takes travel from the fork.
	f.Left.Coil.ActiveCoils.Value += 10
	sea, err := gas.Standard(0)
	if err != nil {
		t.Fatal(err)
	}
	fork, err := f.Setup(sea)
	if err == nil && fork.Curve(gas.Isothermal).Stroke() >= f.Travel.Value {
		t.Errorf("a coil of %v solid and %v free does not bind in %v", f.Left.Coil.SolidLength(),
			f.Left.Coil.FreeLength.Value, f.Travel.Value)
	}
}

// TestCoilThatCannotBeWound: what cannot be wound is an error.
func TestCoilThatCannotBeWound(t *testing.T) {
	f, err := data.Reference().Fork("M06")
	if err != nil {
		t.Fatal(err)
	}
	thick := f.Left.Coil
	thick.Wire.Value = 0.2 * units.Meter
	var r *units.RangeError
	if _, err := thick.Spring(data.Reference()); !errors.As(err, &r) {
		t.Errorf("wire of 0.2 m: %v", err)
	}
	other := f.Left.Coil
	other.Material = "wood"
	var missing *data.NotFoundError
	if _, err := other.Spring(data.Reference()); !errors.As(err, &missing) || missing.Kind != "material" {
		t.Errorf("wood: %v", err)
	}
}
