package helical

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// ForkSpec says what the springs of a fork must do together, and the room that a leg
// has for one.
type ForkSpec struct {
	Rate   units.Stiffness // of the whole fork, 2 N/mm to 100 N/mm
	Travel units.Length    // 5 mm to 400 mm

	// The range that preload may be set over, and the one aimed at: 0 to 100 mm.
	PreloadLeast, PreloadAim, PreloadMost units.Length

	Room units.Length // seat to seat with the leg extended, 20 mm to 900 mm
	Bore units.Length // inner diameter of the tube around the spring, 8 mm to 100 mm
	Rod  units.Length // outer diameter of what runs inside, 0 for nothing

	Ends     Ends     // of the wire
	Material Material // of the wire
}

// ForkDesign is the spring that a leg gets where one leg or both carry the fork.
type ForkDesign struct {
	Legs   int        // 1: this spring carries the whole fork; 2: one in each leg
	Spec   DesignSpec // of the spring, for the most preload if one fits, else for the one aimed at
	Spring Spring     // that fits; else the shortest in a room of 1 m; the zero Spring if there is none
	Reason error      // why none fits, a *units.RangeError of Spec; nil where Spring fits
}

// anyRoom is the free length of a spring that no room holds back.
const anyRoom = 1000 * mm

// Design finds the spring for one leg that carries the whole fork or for each of two:
// one for the whole range of preload, where stress and bind are worst at the most and
// the spring goes in at the least, or where none fits one for the preload aimed at and
// no other. That none fits is an answer; a faulty specification is an error.
func (spec ForkSpec) Design(legs int) (ForkDesign, error) {
	if err := spec.check(legs); err != nil {
		return ForkDesign{}, err
	}
	d := ForkDesign{Legs: legs}
	for _, preload := range [][2]units.Length{{spec.PreloadLeast, spec.PreloadMost}, {spec.PreloadAim, spec.PreloadAim}} {
		d.Spec = DesignSpec{
			Rate: spec.Rate / units.Stiffness(legs), Stroke: spec.Travel, Preload: preload[1],
			Bore: spec.Bore, Rod: spec.Rod, FreeLength: spec.Room + preload[0], Ends: spec.Ends, Material: spec.Material,
		}
		if d.Spring, d.Reason = Design(d.Spec); d.Reason == nil {
			return d, nil
		}
	}
	d.Spring = d.InAnyRoom(d.Spec.Preload)
	return d, nil
}

// Exists reports whether there is a spring of the rate and wire in the bore at all.
func (d ForkDesign) Exists() bool { return d.Spring.wire != 0 }

// InAnyRoom is the shortest spring at a preload if the leg were long enough, up to 1 m:
// the zero Spring if there is none.
func (d ForkDesign) InAnyRoom(preload units.Length) Spring {
	d.Spec.Preload, d.Spec.FreeLength = preload, anyRoom
	s, _ := Design(d.Spec)
	return s
}

// Deflection is that at full travel, preload included.
func (d ForkDesign) Deflection() units.Length { return d.Spec.Preload + d.Spec.Stroke }

// Force is that of one spring at full travel.
func (d ForkDesign) Force() units.Force { return d.Spring.Force(d.Deflection()) }

func (spec ForkSpec) check(legs int) error {
	f := check.Of("ForkSpec")
	if legs != 1 && legs != 2 {
		f.Report("legs", legs, "1 or 2", "")
	}
	inRange(f, "Rate", spec.Rate, 2*minDesignRate, maxDesignRate, rateHint)
	lengthIn(f, "Travel", spec.Travel, 5*mm, 400*mm)
	if lengthIn(f, "PreloadMost", spec.PreloadMost, 0, 100*mm) && lengthIn(f, "PreloadLeast", spec.PreloadLeast, 0,
		spec.PreloadMost) {
		lengthIn(f, "PreloadAim", spec.PreloadAim, spec.PreloadLeast, spec.PreloadMost)
	}
	lengthIn(f, "Room", spec.Room, 20*mm, 900*mm)
	if lengthIn(f, "Bore", spec.Bore, 8*mm, 100*mm) {
		lengthIn(f, "Rod", spec.Rod, 0, spec.Bore)
	}
	endsIn(f, spec.Ends)
	materialIn(f, spec.Material)
	return f.Err()
}
