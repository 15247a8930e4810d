package oil_test

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	f := newFluid(t, sheet(15*cSt, 3.4*cSt))
	a := newAerated(t, oil.AeratedSpec{BulkModulus: 1.5 * units.Gigapascal, Air: 0.02, Pressure: sea, Exponent: 1.4})
	shared.Read(t, func() any {
		index, ok := f.ViscosityIndex()
		return []any{f.Viscosity(units.Celsius(-5)), index, ok, a.BulkModulus(units.Absolute(3 * units.Bar))}
	})
}
