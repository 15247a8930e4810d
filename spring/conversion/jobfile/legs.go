package jobfile

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// legs are those that get a coil, as the fork's kit allows.
func (d *decoder) legs(t *strict.Table) {
	word, given := t.OptionalWord("legs", "left", "right", "both")
	if !d.fork {
		return
	}
	f := d.file
	may := f.Fork.Kit.Legs
	allowed := map[string]bool{"left": may.Left, "right": may.Right, "both": may.Both}
	switch {
	case given && !allowed[word]:
		t.Fault("legs", fmt.Errorf("fork %s takes no coil that way; its record allows %s", f.Fork.ID, list(allowed)))
	case word == "both" && d.unknown(setup.Left):
		d.missing(t, setup.Left)
	case word == "both" && d.unknown(setup.Right):
		d.missing(t, setup.Right)
	case !given && may.Left:
		word = "left"
	case !given && may.Right:
		word = "right"
	case !given:
		word = "both"
	}
	for _, side := range []setup.Side{setup.Left, setup.Right} {
		if word == "both" || word == side.String() {
			f.Job.Legs = append(f.Job.Legs, convertedLeg(side, f.Fork, d.inside[side]))
			if d.clearance != 0 {
				f.Job.Legs[len(f.Job.Legs)-1].Clearance = d.clearance
			}
			if d.inside[side] != 0 {
				f.Job.Legs[len(f.Job.Legs)-1].Bath.Spread = d.insideOff[side] / 2
			}
		}
	}
}

// unknown reports a damper leg beside one without, of which nobody knows what it holds: filled as the
// kit says for the other leg it locks.
func (d *decoder) unknown(side setup.Side) bool {
	legs := [...]data.Leg{setup.Left: d.file.Fork.Left, setup.Right: d.file.Fork.Right}
	return legs[side].Role.HasDamper() && !legs[1-side].Role.HasDamper() && !legs[side].Damper.Interior.Given() &&
		d.inside[side] == 0
}

func (d *decoder) missing(t *strict.Table, side setup.Side) {
	t.Fault("legs", fmt.Errorf("the %v leg of fork %s holds a damper, and what that leg holds with the damper in is "+
		"missing: its record knows the other leg only; measure it as bench.inside-%v, or convert one leg", side,
		d.file.Fork.ID, side))
}

func list(allowed map[string]bool) string {
	text := ""
	for _, word := range []string{"left", "right", "both"} {
		if allowed[word] {
			if text != "" {
				text += " or "
			}
			text += word
		}
	}
	return text
}

// convertedLeg is the leg with its own inside and guide, measured or else by the record: of a
// damper leg beside one without by what its damper leaves, and else by the kit.
func convertedLeg(side setup.Side, fork data.Fork, measured units.Volume) conversion.ConvertedLeg {
	kit, frame := fork.Kit, fork.Geometry()
	leg := [...]data.Leg{setup.Left: fork.Left, setup.Right: fork.Right}[side]
	l := conversion.ConvertedLeg{Side: side, Room: kit.Geometry(), Clearance: leg.Damper.Clearance.Value,
		Damper:  leg.Role.HasDamper(),
		Drained: [2]units.Volume{leg.Oil.Volume.Lo, leg.Oil.Volume.Hi},
		Bath: conversion.Bath{Interior: kit.Interior.Value, Spread: kit.Interior.Spread.SD, Column: frame.OilColumn(),
			Area: frame.SealedArea(), Metal: kit.Metal.Value, SpringInOil: kit.SpringInOil,
			Greased: kit.Oil.Lo < conversion.LeastOil && !kit.SpringInOil}}
	if fork.Gap.Residual.Given() {
		l.Bath.Area = fork.Gap.Area(fork)
	}
	if in := leg.Damper; in.Interior.Given() {
		l.Bath.Interior, l.Bath.Spread = in.Interior.Value, in.Interior.Spread.SD
		l.Room.Guide = max(l.Room.Guide, in.Guide.Value)
		l.Bath.Column -= geometry.Circle(in.Guide.Value) // a level over less holds no more than is thought
	}
	if measured != 0 {
		l.Bath.Interior, l.Bath.Spread = measured, 0
	}
	return l
}
