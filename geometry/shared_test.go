package geometry_test

import (
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/units"
)

func TestShared(t *testing.T) {
	c := geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * units.Millimeter, WheelRadius: 345 * units.Millimeter,
		Wheelbase: 1485 * units.Millimeter, Mass: 111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram,
		FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * units.Millimeter}
	shared.Read(t, func() any {
		return []any{c.RiddenLoad(79 * units.Kilogram), c.Lowered(10 * units.Millimeter), c.Trail(), c.Validate()}
	})
}
