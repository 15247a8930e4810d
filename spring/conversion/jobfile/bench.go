package jobfile

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/geometry/fastener"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func (d *decoder) benchTable(t *strict.Table) {
	if t == nil {
		return
	}
	if pitch, ok := strict.OptionalQuantity(t, "collar-pitch", strict.Between(0.25*mm, 5*mm)); ok {
		d.file.Job.Collar = &geometry.Collar{Pitch: pitch, Sides: 6}
	}
	if flats, ok := whole(t, "collar-flats", 1, 36); ok && d.file.Job.Collar != nil {
		d.file.Job.Collar.Sides = flats
	} else if ok && !t.Has("collar-pitch") {
		t.Fault("collar-flats", errors.New("want collar-pitch beside it"))
	}
	rebound, counted := whole(t, "rebound-clicks", 0, 60)
	compression, both := whole(t, "compression-clicks", 0, 60)
	switch {
	case counted && both:
		d.file.Job.Clicks = &conversion.Clicks{Rebound: rebound, Compression: compression}
	case t.Has("rebound-clicks") != t.Has("compression-clicks"):
		key := "rebound-clicks"
		if t.Has("compression-clicks") {
			key = "compression-clicks"
		}
		t.Fault(key, errors.New("want both rebound-clicks and compression-clicks, or none"))
	}
	if loose, ok := strict.OptionalQuantity(t, "loose-reading", strict.Between(0, 300*mm)); ok {
		d.file.Job.Caliper = &geometry.Caliper{Loose: loose}
	}
	for _, side := range []setup.Side{setup.Left, setup.Right} {
		d.inside[side], d.insideOff[side], _ = strict.OptionalToleranced(t, "inside-"+side.String(),
			strict.Between(5*units.Milliliter, 3*units.Liter))
	}
}

func (d *decoder) torqueTable(t *strict.Table) {
	if t == nil {
		return
	}
	t.Limit(50) // on a sheet
	for _, name := range t.Keys() {
		value := strict.Quantity(t, name, strict.Between(conversion.LeastTorque, conversion.MostTorque))
		d.file.Job.Torques = append(d.file.Job.Torques, conversion.Torque{Name: name, Value: value,
			Unit: strict.Written[units.Torque](t, name)})
	}
}

// wrenchTable is the torque wrench and its adapter.
func (d *decoder) wrenchTable(t *strict.Table) {
	if t == nil {
		return
	}
	before := t.Faults()
	w := fastener.Wrench{Length: strict.Quantity(t, "length", strict.Between(50*mm, 2000*mm)),
		Extension: strict.Quantity(t, "extension", strict.Between(0, 1000*mm))}
	w.Angle, _ = strict.OptionalQuantity(t, "angle", strict.Between(-180*units.Degree, 180*units.Degree))
	if t.Faults() == before {
		t.FaultFields("extension", w.Validate())
	}
	d.file.Job.Wrench = &w
}

// whole is a whole number under the key, if there is one.
func whole(t *strict.Table, key string, lo, hi int) (int, bool) {
	n, ok := t.OptionalNumber(key, float64(lo), float64(hi))
	if ok && n != math.Trunc(n) {
		t.Fault(key, fmt.Errorf("want a whole number, %d to %d", lo, hi))
		return 0, false
	}
	return int(n), ok
}
