package jobfile

import (
	"errors"
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter

	// Records of the dataset.
	usualGas   = "air"
	usualFluid = "fork-5"
	usualWire  = "sicrv"
)

// decoder fills a file from the tables of a document, noting every fault there.
type decoder struct {
	set  *data.Set
	root *strict.Table
	file *File
	fork bool // the fork is known, so that what hangs on it can be checked

	clearance units.Length // of the spring to tube and guide; 0: not said

	inside, insideOff [2]units.Volume // of the legs at full travel, measured, and how far it may be off; 0: not

	from     string              // what the plan starts from
	toAir    bool                // the fork is to be filled with air
	riderOff units.Mass          // how far the rider may be off, 95 %; 0: not said
	gaugeOff units.GaugePressure // the reading of the present fill

	preloadOff  units.Length // of the aim
	frictionOff units.Force  // of the fork on its springs
}

func (d *decoder) decode() {
	f := d.file
	f.Job.Heading.Title = d.root.Text("title")
	if d.root.Has("invented") {
		f.Job.Heading.Invented = d.root.Bool("invented")
	}
	d.fromWord(d.root.OptionalTable("plan"))
	d.forkTable(d.root.Table("fork"))
	d.riderTable()
	f.Job.Heading.Workshop, f.Job.Workshop = place(d.root.Table("workshop"))
	event := d.root.Table("event")
	height := altitude(event)
	warmth, warmthOff := strict.TolerancedTemperature(event, "temperature", warmths)
	f.Job.Heading.Event, f.Job.Event = placeAt(event, height, warmth)
	d.presentFork()
	d.presentSprings(d.root.OptionalTable("present"))
	d.sweepTable(d.root.OptionalTable("sweep"))
	d.riderOfFork()
	d.torqueTable(d.root.OptionalTable("torque"))
	d.wrenchTable(d.root.OptionalTable("wrench"))
	if plan := d.root.Table("plan"); d.toAir && !d.root.HasTable("build") {
		d.airPlan(plan)
	} else {
		d.benchTable(d.root.OptionalTable("bench"))
		d.planTable(plan)
		d.weightsTable(d.root.OptionalTable("weights"))
		if d.from == fromBoth || d.root.HasTable("shelf") || d.root.HasTable("build") {
			d.shelfTable(d.root.Table("shelf"))
		} else {
			d.designedShelf()
		}
		d.buildTable(d.root.OptionalTable("build"))
	}
	f.Job.Known = known(f.Fork, f.Job.Rider, d.riderOff/2)
	if d.gaugeOff != (units.GaugePressure{}) {
		f.Job.Known.Gauge = units.Pressure(d.gaugeOff.In(units.Pascal)) / 2
	}
	if warmthOff != 0 {
		f.Job.Known.Temperature = warmthOff / 2
	}
	if d.preloadOff != 0 {
		f.Job.Known.Preload = min(d.preloadOff/2, 5*mm)
	}
	if d.frictionOff != 0 {
		f.Job.Known.Friction = d.frictionOff / 2
	}
	if d.toAir {
		d.airJob(d.root.Table("plan"))
	}
}

func (d *decoder) forkTable(t *strict.Table) {
	id := t.Text("id")
	if id == "" {
		return
	}
	fork, err := d.set.Fork(id)
	if err != nil {
		t.Fault("id", err)
		return
	}
	f := d.file
	f.Fork, d.fork = fork, true
	f.Job.Heading.Fork, f.Job.Heading.ForkName = fork.ID, fork.Name
	f.Job.Chassis, f.Job.Fork = fork.Chassis.Geometry(), fork.Geometry()
	f.Job.SagWindow = [2]units.Share{fork.Sag.Rider.Lo, fork.Sag.Rider.Hi}
	f.Job.Usual = usual(fork)
	d.clearance, _ = strict.OptionalQuantity(t, "spring-clearance", strict.Between(0, 10*mm))
	d.bushes(t)
}

// bushes are known once somebody says how far above the axle they begin.
func (d *decoder) bushes(t *strict.Table) {
	b := &d.file.Job.Usual.Bushes
	grown := b.SpacingAtFull - b.Spacing
	if apart, ok := strict.OptionalQuantity(t, "bush-spacing", strict.Between(30*mm, 500*mm)); ok {
		b.Spacing, b.SpacingAtFull = apart, apart+grown
	}
	overhang, ok := strict.OptionalQuantity(t, "bush-overhang", strict.Between(50*mm, 900*mm))
	switch {
	case !ok:
		return
	case b.Spacing == 0:
		t.Fault("bush-overhang", errors.New("bush-spacing is missing; the record does not say it either"))
		return
	case overhang < grown+50*mm:
		t.Fault("bush-overhang", fmt.Errorf("want %.6g and more: the lower bush comes %.6g nearer to the axle at full travel",
			grown+50*mm, grown))
		return
	}
	b.Overhang = overhang
}

// usual is what the record says the fork is made for.
func usual(fork data.Fork) conversion.Usual {
	u := conversion.Usual{
		Riders:     [2]units.Mass{fork.Rider.Range.Lo, fork.Rider.Range.Hi},
		MachineSag: [2]units.Share{fork.Sag.Machine.Lo, fork.Sag.Machine.Hi},
		LegSpacing: fork.LegSpacing.Value, LeastOil: fork.Kit.Oil.Lo,
		Bushes: conversion.Bushes{Spacing: fork.BushSpacing.Value, SpacingAtFull: fork.BushSpacingAtFull.Value},
	}
	for _, l := range []data.Leg{fork.Left, fork.Right} {
		if l.Role.HasAir() {
			u.Fills = [2]units.GaugePressure{l.Air.Pressures.Lo, l.Air.Pressures.Hi}
		}
	}
	return u
}

func (d *decoder) riderTable() {
	f, t := d.file, d.root.OptionalTable("rider")
	if t == nil && d.from == fromFork {
		f.Job.Heading.Discipline = f.Discipline.Name
		return
	}
	if t == nil {
		t = d.root.Table("rider")
	}
	if d.from != fromFork {
		f.Job.Rider, d.riderOff = strict.Toleranced(t, "mass", strict.Between(geometry.LightestRider,
			geometry.HeaviestRider))
		f.Job.Heading.Stance = t.Word("stance", "standing", "seated")
	} else {
		if t.Has("mass") {
			t.Fault("mass", errors.New("leave it out where plan.from is fork-alone, which finds the rider"))
		}
		f.Job.Heading.Stance, _ = t.OptionalWord("stance", "standing", "seated")
	}
	use, given := t.OptionalText("discipline")
	if !given {
		use = f.Fork.Use
	}
	if !given && !d.fork {
		return
	}
	discipline, err := d.set.Discipline(use)
	if err != nil {
		t.Fault("discipline", err)
		return
	}
	f.Discipline, f.Job.Heading.Discipline = discipline, discipline.Name
	if given && discipline.ID != f.Fork.Use && discipline.Sag.Given() {
		f.Job.SagWindow = [2]units.Share{discipline.Sag.Lo, discipline.Sag.Hi}
	}
}

func mass(t *strict.Table) units.Mass {
	return strict.Quantity(t, "mass", strict.Between(geometry.LightestRider, geometry.HeaviestRider))
}

func (d *decoder) rideExponent(t *strict.Table) float64 {
	if n, ok := t.OptionalNumber("ride-exponent", conversion.LeastRideExponent, gas.Adiabatic); ok {
		return n
	}
	air, err := d.set.Gas(usualGas)
	if err != nil {
		t.Fault("ride-exponent", err)
	}
	return air.Ride.Value
}

// place reads the air of a table by temperature and altitude.
func place(t *strict.Table) (conversion.Place, gas.Ambient) {
	height := altitude(t)
	return placeAt(t, height, strict.Quantity(t, "temperature", warmths))
}

func altitude(t *strict.Table) units.Length {
	return strict.Quantity(t, "altitude", strict.Between(-500*units.Meter, 9000*units.Meter))
}

// warmths are those of the air somewhere.
var warmths = strict.Between(units.Celsius(-40), units.Celsius(60))

// placeAt is place with an altitude and a temperature that are read already.
func placeAt(t *strict.Table, altitude units.Length, temperature units.Temperature) (conversion.Place, gas.Ambient) {
	name, _ := t.OptionalText("name")
	air, _ := gas.StandardAt(altitude, temperature) // an error only after a fault above
	return conversion.Place{Name: name, Altitude: &altitude}, air
}

// presentFork is the fork of the record, on air with the fill of the table air.
func (d *decoder) presentFork() {
	f := d.file
	limit := units.Gauge(40 * units.Bar)
	onAir, fill := false, gas.Fill{}
	for _, l := range []data.Leg{f.Fork.Left, f.Fork.Right} {
		if l.Role.HasAir() {
			onAir, limit = true, l.Air.Maximum.Value
		}
	}
	if read := d.from != fromRider && !d.toAir; onAir && read || d.root.HasTable("air") {
		t := d.root.Table("air")
		fill.Gauge, d.gaugeOff = strict.Toleranced(t, "pressure", strict.Between(units.Gauge(0), limit))
		if most := 2 * units.Bar; d.gaugeOff.In(units.Pascal) > float64(most) {
			t.Fault("pressure", fmt.Errorf("want a tolerance of 0 bar to %v after the ±", most))
		}
		_, fill.Ambient = place(t)
	}
	switch {
	case onAir && d.root.HasTable("air"):
		f.Job.Present, _ = f.Fork.Spec(fill.Ambient).Filled(fill) // it is on air
	case d.fork:
		if d.root.HasTable("air") && !onAir {
			d.root.Fault("air", fmt.Errorf("fork %s has no air spring; leave this table out", f.Fork.ID))
		}
		f.Job.Present = f.Fork.Spec(f.Job.Workshop)
	}
	if onAir {
		f.Job.MaxGauge = limit
	}
}

func (d *decoder) planTable(t *strict.Table) {
	f, kit := d.file, d.file.Fork.Kit
	if d.from != fromRider || t.Has("criterion") { // from a rider alone the sag decides
		f.Job.Criterion = criterion(t.Word("criterion", criteria()...))
	}
	f.Job.RideExponent = d.rideExponent(t)
	travel := f.Fork.Travel.Value
	f.Job.TargetSag, _ = strict.OptionalQuantity(t, "target-sag", ofFork(d, travel/20, travel/2)...)
	f.Job.Preload, d.preloadOff = setting(d, t, "preload", conversion.MostPreload, kit.Preload, kit.PreloadAim)
	if warm, ok := strict.OptionalQuantity(t, "running-temperature", strict.Between(units.Celsius(-40),
		units.Celsius(conversion.HottestRunning))); ok {
		f.Job.Running = &warm
	}
	d.legs(t)
	room := 3 * units.Liter // at full travel; more stands above the leg
	if len(f.Job.Legs) > 0 {
		room = f.Job.Legs[0].Bath.Interior - f.Job.Legs[0].Bath.Metal
	}
	volume, off := setting(d, t, "oil", room, kit.Oil, kit.OilAim)
	if f.Job.OilVolume = volume; off != 0 {
		t.Fault("oil-aim", errors.New("want it without a ±: how far a fill is off follows from the inside of the leg"))
	}
	if d.fork && f.Job.OilVolume.Aim >= room {
		key := "oil"
		if t.Has("oil-aim") {
			key = "oil-aim"
		}
		t.Fault(key, fmt.Errorf("want an aim below %.6g, what the leg holds at full travel", room))
	}
	fluid, ok := t.OptionalText("fluid")
	if !ok {
		fluid = usualFluid
	}
	if oil, err := d.set.Fluid(fluid); err != nil {
		t.Fault("fluid", err)
	} else if f.Job.Oil, err = oil.Oil(); err != nil {
		t.Fault("fluid", err)
	}
	f.Job.ConvertedFriction = kit.Friction.Value
	friction, within, ok := strict.OptionalToleranced(t, "friction", strict.Between(0, setup.MostFriction))
	if d.frictionOff = within; ok {
		f.Job.ConvertedFriction = friction
	}
}

// ofFork are limits that hang on the fork: none as long as it is unknown, which is a
// fault already.
func ofFork[Q units.Quantity](d *decoder, lo, hi Q) []strict.Check[Q] {
	if !d.fork {
		return nil
	}
	return []strict.Check[Q]{strict.Between(lo, hi)}
}

// setting is a range from 0 to at most hi and its aim, which may say how far it may be off, from the file
// or else from the fork's kit.
func setting[Q units.Length | units.Volume](d *decoder, t *strict.Table, key string, hi Q, r data.Range[Q],
	aim data.Value[Q]) (s conversion.Setting[Q], off Q) {
	s = conversion.Setting[Q]{Min: r.Lo, Aim: aim.Value, Max: r.Hi}
	if from, to, ok := strict.OptionalRange(t, key, ofFork(d, 0, hi)...); ok {
		s = conversion.Setting[Q]{Min: from, Aim: (from + to) / 2, Max: to}
	}
	to, off, ok := strict.OptionalToleranced(t, key+"-aim", ofFork(d, s.Min, s.Max)...)
	if ok {
		s.Aim = to
	}
	return s, off
}

func criteria() []string {
	var words []string
	for _, c := range conversion.Criteria() {
		words = append(words, c.String())
	}
	return words
}

func criterion(word string) conversion.Criterion {
	var c conversion.Criterion
	_ = c.UnmarshalText([]byte(word)) // Word let only names of criteria through
	return c
}

// weightsTable says what the shelf is ranked by; what it leaves out is as usual.
func (d *decoder) weightsTable(t *strict.Table) {
	if t == nil {
		return
	}
	w := conversion.UsualWeights()
	for _, weight := range []struct {
		key string
		of  *float64
	}{{"support", &w.Support}, {"comfort", &w.Comfort}, {"bottoming", &w.Bottoming}, {"robustness", &w.Robustness},
		{"cautions", &w.Cautions}} {
		if n, ok := t.OptionalNumber(weight.key, 0, conversion.MostWeight); ok {
			*weight.of = n
		}
	}
	if w == (conversion.Weights{}) {
		d.root.Fault("weights", errors.New("all 0; want one weight above 0 at least"))
	}
	d.file.Job.Weights = w
}
