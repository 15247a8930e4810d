package data

import "example.org/forkcurve/units"

// Discipline is what a fork is used for, with the windows its setup lies in.
// Windows that the trade does not state are left out.
type Discipline struct {
	ID               string              // short, as others refer to it
	Name             string              // in words
	Sag              Range[units.Share]  // with rider, of the travel
	SagLength        Range[units.Length] // the same where the trade says it in length
	MachineSag       Range[units.Share]  // without rider, of the travel
	MachineSagLength Range[units.Length] // the same where the trade says it in length
	Preload          Range[units.Length] // of a coil fork
	FrictionZone     Range[units.Length] // between sag settled from above and from below

	// Damping ratios of the body on its fork about sag, at 0.5 m/s along the axis.
	CompressionDamping, ReboundDamping Value[float64]
}

func (d *Discipline) fields(w *walk) {
	w.text("name", required, &d.Name)
	quantityRange(w, "sag", required, &d.Sag, Window, 0.01, 0.6)
	quantityRange(w, "sag-length", optional, &d.SagLength, Window, 1*mm, 200*mm)
	quantityRange(w, "machine-sag", optional, &d.MachineSag, Window, 0, 0.6)
	quantityRange(w, "machine-sag-length", optional, &d.MachineSagLength, Window, 0, 200*mm)
	quantityRange(w, "preload", optional, &d.Preload, Window, 0, 60*mm)
	quantityRange(w, "friction-zone", required, &d.FrictionZone, Window, 0, 60*mm)
	number(w, "compression-damping", optional, &d.CompressionDamping, 0.01, 3)
	number(w, "rebound-damping", need(d.CompressionDamping.Given()), &d.ReboundDamping, 0.01, 3)
	w.want(!given(d.Sag) || d.Sag.Lo < d.Sag.Hi, "sag", "two shares that differ, the lower one first")
}

// Values lists every value of the discipline.
func (d Discipline) Values() []Entry { return list(d.fields) }
