package oil_test

import (
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

func TestEveryFieldHasLimits(t *testing.T) {
	refusal.Fields(t, func() oil.FluidSpec { return sheet(15*cSt, 3.4*cSt) }, func(s oil.FluidSpec) error {
		_, err := oil.NewFluid(s)
		return err
	})
	refusal.Fields(t, func() oil.InteriorSpec {
		return oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12 * mm, Cartridge: open, Length: 300 * mm}
	}, func(s oil.InteriorSpec) error {
		_, err := oil.NewInterior(s)
		return err
	})
	refusal.Fields(t, func() oil.AeratedSpec {
		return oil.AeratedSpec{BulkModulus: 1500 * units.Megapascal, Air: 0.02, Pressure: sea, Exponent: 1.2}
	}, func(s oil.AeratedSpec) error {
		_, err := oil.NewAerated(s)
		return err
	})
}
