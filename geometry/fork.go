package geometry

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Layout says which end of the fork the stanchions point to.
type Layout int

const (
	Upright  Layout = iota // stanchions in the clamps, sliders at the wheel
	Inverted               // outer tubes in the clamps, stanchions at the wheel
)

var layouts = enum.Names[Layout]{Upright: "upright", Inverted: "inverted"}

// String is "upright" or "inverted".
func (l Layout) String() string { return layouts.String(l) }

// MarshalText writes the name.
func (l Layout) MarshalText() ([]byte, error) { return layouts.Marshal(l) }

// UnmarshalText reads a name.
func (l *Layout) UnmarshalText(text []byte) error { return layouts.Unmarshal(text, l) }

// Fork is the sliding geometry of a telescopic fork. Both legs are alike.
type Fork struct {
	Layout    Layout       // which tube slides
	Travel    units.Length // 20 mm to 400 mm
	Stanchion Tube         // the sliding inner tube
	OuterBore units.Length // bore of the tube around the stanchion, 10 mm to 90 mm and at least its outer diameter
}

// Validate reports every field out of range.
func (k Fork) Validate() error {
	f := check.Of("Fork")
	if !layouts.Has(k.Layout) {
		f.Report("Layout", k.Layout, layouts.Want(), "")
	}
	check.Between(f, "Travel", k.Travel, 20*units.Millimeter, 400*units.Millimeter)
	stanchion := k.Stanchion.Validate()
	f.Nest("Stanchion", stanchion)
	if check.Between(f, "OuterBore", k.OuterBore, 10*units.Millimeter, 90*units.Millimeter) &&
		!check.At(stanchion, "Tube.Outer") && k.OuterBore < k.Stanchion.Outer {
		f.Report("OuterBore", k.OuterBore, fmt.Sprintf("at least the stanchion's %.6g", k.Stanchion.Outer), "")
	}
	return f.Err()
}

// SealedArea is the piston area of the gas trapped in one leg: π/4·D² of the sealed sliding diameter, which is the
// stanchion's outer one in upright and inverted forks alike, because the tube's metal enters with what it holds.
func (k Fork) SealedArea() units.Area { return Circle(k.Stanchion.Outer) }

// OilColumn is the section over which a change of oil volume spreads when the level is read with the leg fully
// compressed: the stanchion's bore, and in an inverted fork also the annulus between stanchion and outer tube.
func (k Fork) OilColumn() units.Area {
	s := Circle(k.Stanchion.Bore)
	if k.Layout == Inverted {
		s += Circle(k.OuterBore) - Circle(k.Stanchion.Outer)
	}
	return s
}
