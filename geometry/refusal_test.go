package geometry_test

import (
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/units"
)

func TestEveryFieldHasLimits(t *testing.T) {
	refusal.Fields(t, func() geometry.Chassis {
		return geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * units.Millimeter, WheelRadius: 345 * units.Millimeter,
			Wheelbase: 1485 * units.Millimeter, Mass: 111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram,
			FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * units.Millimeter}
	}, geometry.Chassis.Validate)
	refusal.Fields(t, func() geometry.Fork {
		return geometry.Fork{Layout: geometry.Inverted, Travel: 305 * units.Millimeter,
			Stanchion: geometry.Tube{Outer: 48 * units.Millimeter,
				Bore: 44 * units.Millimeter}, OuterBore: 54 * units.Millimeter}
	}, geometry.Fork.Validate)
	refusal.Fields(t, func() geometry.Room {
		return geometry.Room{Length: 620 * units.Millimeter, Bore: 44 * units.Millimeter, Guide: 20 * units.Millimeter}
	}, geometry.Room.Validate)
	refusal.Fields(t, func() geometry.Collar { return geometry.Collar{Pitch: 1 * units.Millimeter, Sides: 6} },
		geometry.Collar.Validate)
	for _, sides := range []int{-1, 0, 37} {
		if (geometry.Collar{Pitch: 1 * units.Millimeter, Sides: sides}).Validate() == nil {
			t.Errorf("%d sides", sides)
		}
	}
}

// A field that is out of range by itself has no second fault by what it is compared with.
func TestOneFaultEach(t *testing.T) {
	ok := geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * units.Millimeter, WheelRadius: 345 * units.Millimeter,
		Wheelbase: 1485 * units.Millimeter, Mass: 111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram,
		FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * units.Millimeter}
	for name, change := range map[string]func(*geometry.Chassis){
		"light": func(c *geometry.Chassis) { c.Mass = 1 * units.Kilogram },
		"heavy": func(c *geometry.Chassis) { c.UnsprungMass = 90 * units.Kilogram },
		"share": func(c *geometry.Chassis) { c.FrontShare = 0.01 },
		"stand": func(c *geometry.Chassis) { c.FrontShareRidden = 0.01 },
	} {
		c := ok
		change(&c)
		if n := len(units.Faults(c.Validate())); n != 1 {
			t.Errorf("%s: %d faults: %v", name, n, c.Validate())
		}
	}
	k := geometry.Fork{Travel: 305 * units.Millimeter, OuterBore: 5 * units.Millimeter,
		Stanchion: geometry.Tube{Outer: 48 * units.Millimeter, Bore: 2 * units.Millimeter}}
	if n := len(units.Faults(k.Validate())); n != 2 {
		t.Errorf("%d faults: %v", n, k.Validate())
	}
}
