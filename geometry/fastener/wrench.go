package fastener

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Wrench is a torque wrench with an adapter that moves the fastener away from its square drive: an extension in
// line, or a crowfoot at an angle. The force of the hand then has the lever L + e·cos θ about the fastener, while
// the wrench clicks by its own lever L:
//
//	setting = torque·L/(L + e·cos θ)
//
// so the setting goes down with an adapter that points away from the grip. At a right angle it does not change;
// pointing back past the grip it goes up. L is the lever of the wrench at hand: no fixed correction per length of
// adapter holds for all wrenches.
//
// An extension along the axis of the fastener, between drive and socket, changes nothing and is no Extension here.
type Wrench struct {
	Length    units.Length // L, from the drive to the middle of the grip, 50 mm to 2 m
	Extension units.Length // e, from the drive to the fastener, 0 to 1 m
	Angle     units.Angle  // θ between wrench and adapter, 0 in line and away from the grip, −180° to 180°
}

// Validate reports every field out of range, and an adapter that points back so far that less than a fifth of the
// lever is left.
func (w Wrench) Validate() error {
	f := check.Of("Wrench")
	length := check.Between(f, "Length", w.Length, 50*units.Millimeter, 2*units.Meter)
	extension := check.Between(f, "Extension", w.Extension, 0, 1*units.Meter)
	angle := check.Between(f, "Angle", w.Angle, -math.Pi, math.Pi)
	if lever := w.lever(); length && extension && angle && lever < w.Length/5 {
		f.Report("Extension", w.Extension, fmt.Sprintf("one that leaves a lever of at least %.4g", w.Length/5),
			"the adapter points back to the grip")
	}
	return f.Err()
}

func (w Wrench) lever() units.Length {
	return w.Length + w.Extension*units.Length(math.Cos(float64(w.Angle)))
}

// Setting of the wrench that puts a torque on the fastener.
func (w Wrench) Setting(torque units.Torque) units.Torque {
	return torque * units.Torque(w.Length/w.lever())
}

// Torque on the fastener when the wrench clicks at a setting.
func (w Wrench) Torque(setting units.Torque) units.Torque {
	return setting * units.Torque(w.lever()/w.Length)
}
