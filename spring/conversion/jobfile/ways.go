package jobfile

import (
	"errors"
	"fmt"
	"strings"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/units"
)

// What a plan starts from, as a job says it.
const (
	fromBoth  = "fork"
	fromRider = "rider"
	fromFork  = "fork-alone"
)

// fromWord is read before the tables that it makes optional.
func (d *decoder) fromWord(t *strict.Table) {
	d.from = fromBoth
	if t == nil {
		return
	}
	if word, ok := t.OptionalWord("from", fromBoth, fromRider, fromFork); ok {
		d.from = word
	}
	word, _ := t.OptionalWord("to", toCoil, toAir)
	if d.toAir = word == toAir; d.toAir && t.Has("from") {
		t.Fault("from", errors.New("leave it out where plan.to is air: the fill follows from the rider"))
		d.from = fromBoth
	}
	if d.from == fromRider {
		d.file.Job.From = conversion.RiderAlone
	}
}

// riderOfFork finds who rides the present fill, where nobody was weighed.
func (d *decoder) riderOfFork() {
	if d.from != fromFork || !d.fork || d.root.Faults() > 0 {
		return
	}
	j := &d.file.Job
	rider, sure, err := conversion.RiderOf(*j)
	if err != nil {
		d.root.Table("plan").Fault("from", err)
		return
	}
	j.Rider, d.riderOff = rider, 2*sure
	if j.Heading.Stance != "" {
		j.Heading.Stance += ", "
	}
	j.Heading.Stance += fmt.Sprintf("give or take %.0f, not weighed: whom this fork carries at the middle of its sag "+
		"window", 2*sure)
}

// sweepTable makes the present fork do what a bench has shown of it.
func (d *decoder) sweepTable(t *strict.Table) {
	if t == nil {
		return
	}
	before, most := d.root.Faults(), 50_000*units.Newton
	at := strict.Quantities(t, "travels", strict.Between(-10*mm, 500*mm))
	in := strict.Quantities(t, "forces", strict.Between(-most, most))
	var s spring.MeasuredSpec
	for i := range sameLength(t, "forces", at, in) {
		s.Loading = append(s.Loading, spring.Reading{Travel: at[i], Force: in[i]})
	}
	if t.Has("forces-out") {
		out := strict.Quantities(t, "forces-out", strict.Between(-most, most))
		for i := range sameLength(t, "forces-out", at, out) {
			s.Unloading = append(s.Unloading, spring.Reading{Travel: at[i], Force: out[i]})
		}
	}
	if d.root.Faults() > before || !d.fork {
		return
	}
	if err := d.file.Sweep(s); err != nil {
		t.Fault("forces", err)
	}
}

// Sweep makes the present fork do what a slow sweep of it has shown, see [setup.Spec.AsMeasured]: what the table
// sweep of a job does.
func (f *File) Sweep(s spring.MeasuredSpec) error {
	measured, err := f.Job.Present.AsMeasured(s)
	if err == nil {
		f.Job.Present = measured
	}
	return err
}

// buildTable is what stands on the bench.
func (d *decoder) buildTable(t *strict.Table) {
	if t == nil {
		return
	}
	b := conversion.Build{Coil: t.Text("coil")}
	either := func(one, other string) {
		if t.Has(one) == t.Has(other) {
			t.Fault(one, fmt.Errorf("want either this or %s", other))
		}
	}
	if spacer, ok := strict.OptionalQuantity(t, "spacer", strict.Between(0, 1000*mm)); ok {
		b.Spacer = &spacer
	}
	b.Preload, _ = strict.OptionalQuantity(t, "preload", strict.Between(0, conversion.MostPreload))
	either("preload", "spacer")
	if level, ok := strict.OptionalQuantity(t, "oil-level", strict.Between(0, 1000*mm)); ok {
		b.OilLevel = &level
	}
	b.OilVolume, _ = strict.OptionalQuantity(t, "oil-volume", strict.Between(0, 2*units.Liter))
	either("oil-volume", "oil-level")
	if level, ok := strict.OptionalQuantity(t, "second-level", strict.Between(0, 1000*mm)); ok {
		b.SecondLevel = &level
	}
	if volume, ok := strict.OptionalQuantity(t, "second-volume", strict.Between(0, 2*units.Liter)); ok {
		b.SecondVolume = &volume
	}
	d.file.Build = &b
	if d.root.Faults() > 0 {
		return
	}
	_, err := conversion.Check(d.file.Job, b)
	for _, err := range check.Split(err) {
		if e, ok := err.(*units.RangeError); ok && strings.HasPrefix(e.Field, "Build.") {
			t.FaultFields("coil", e)
		}
	}
}
