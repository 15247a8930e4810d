package data

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	ml  = units.Milliliter
	kg  = units.Kilogram
	nmm = units.NewtonPerMillimeter
	bar = units.Bar
)

// Fork is a generic fork in a generic machine. It is a plain value: a copy is
// independent of the set it came from.
//
// Evidence has the same form: a specimen, one measured or published vehicle or fork, or
// the class of many, of which only some values are given.
type Fork struct {
	ID      string          // short, as "M07"
	Name    string          // in words
	BasedOn string          // id of the fork that a study differs from in a few values; "" for an archetype
	Class   string          // id of the class that it stands for, or may be compared with; may be empty
	Use     string          // id of a Discipline
	Layout  geometry.Layout // which tubes slide

	Travel        Value[units.Length] // between both stops
	Stanchion     Value[units.Length] // outer diameter
	StanchionBore Value[units.Length] // its inner diameter
	OuterBore     Value[units.Length] // of the slider or outer tube
	Friction      Value[units.Force]  // of the whole fork sliding: half the width of the friction band

	// What a fork may have besides, at full extension.
	AxleToCrown       Value[units.Length] // along the legs, to the seat of the lower bearing
	OverallLength     Value[units.Length] // axle to the top of the tubes
	Mass              Value[units.Mass]   // of the fork with its clamps, without wheel
	LegSpacing        Value[units.Length] // between the axes of the legs
	BushSpacing       Value[units.Length] // between the middles of the bushes of a leg
	BushSpacingAtFull Value[units.Length] // the same at full travel

	Whole       Whole   // of a specimen
	Chassis     Chassis // around the fork
	Rider       Rider   // that the record is set up for
	Sag         Sag     // that is aimed for
	Left, Right Leg     // as the rider sees them
	Gap         Gap     // gas over the oil of each leg
	Kit         Kit     // what a coil build can take
}

// Chassis is the machine around the fork.
type Chassis struct {
	Rake             Value[units.Angle]     // of the steering axis from the vertical
	Offset           Value[units.Length]    // clamp offset plus axle lead
	ClampOffset      Value[units.Length]    // of the legs before the steering axis
	AxleLead         Value[units.Length]    // of the axle before the legs
	Tire             Value[Tire]            // of the front wheel
	WheelRadius      Value[units.Length]    // follows from the tire where the record does not say
	Trail            Value[units.Length]    // follows from rake, offset and radius, or is stated within 4 mm of that
	Wheelbase        Value[units.Length]    // axle to axle, fork extended
	Mass             Value[units.Mass]      // ready to ride
	UnsprungMass     Value[units.Mass]      // at the front
	FrontShare       Value[units.Share]     // of the machine's weight on the front wheel
	FrontShareRidden Value[units.Share]     // the same with rider in stance
	CenterOfGravity  Value[units.Length]    // height with rider
	WheelMass        Value[units.Mass]      // front wheel with tire and brake disc
	SteeredMass      Value[units.Mass]      // fork with bars and clamps, without wheel
	TireRate         Value[units.Stiffness] // of the front tire under its load
}

// Whole is what is known of the springs and dampers of a specimen as a whole.
type Whole struct {
	Rate     Value[units.Stiffness]   // of both legs, along the fork
	Damping  Value[units.DampingRate] // of both legs, along the fork
	Load     Value[units.Force]       // of the springs at rest with rider, along the fork
	Exponent Value[float64]           // polytropic, of the gas in quick strokes
}

// Rider is who rides, in riding kit.
type Rider struct {
	Mass   Value[units.Mass] // in riding kit, of the rider the record is set up for
	Range  Range[units.Mass] // that the fork is made for
	Stance string            // "seated" or "standing", in which sag is read
}

// Sag is the aim, as a share of the travel.
type Sag struct {
	Rider   Range[units.Share] // with rider
	Machine Range[units.Share] // without rider; may be left out
}

func (f *Fork) fields(w *walk) {
	w.text("name", required, &f.Name)
	if !w.reading() { // else readForks has
		w.text("based-on", optional, &f.BasedOn)
		w.text("class", optional, &f.Class)
	}
	w.id("use", required, &f.Use, disciplines)
	layout := f.Layout.String()
	word(w, "layout", &layout, geometry.Upright.String(), geometry.Inverted.String())
	_ = f.Layout.UnmarshalText([]byte(layout)) // one of the two, or a fault by now
	f.tubes(w)
	w.sub("chassis", required, f.Chassis.fields)
	w.sub("rider", required, f.Rider.fields)
	w.sub("sag", required, f.Sag.fields)
	parts := w.section()
	f.legs(w)
	if w.shows("gap", f.Gap != (Gap{})) {
		w.sub("gap", optional, func(w *walk) { f.Gap.fields(w, f) })
	}
	if parts.sound() && given(f.Travel, f.Stanchion, f.StanchionBore, f.OuterBore, f.Friction) {
		f.assemble(w)
	}
	w.sub("kit", required, func(w *walk) { f.Kit.fields(w, f) })
}

// tubes are the values of the sliding tubes.
func (f *Fork) tubes(w *walk) {
	quantity(w, "travel", required, &f.Travel, 20*mm, 400*mm)
	quantity(w, "stanchion", required, &f.Stanchion, 10*mm, 80*mm)
	quantity(w, "stanchion-bore", required, &f.StanchionBore, 5*mm, 80*mm)
	quantity(w, "outer-bore", required, &f.OuterBore, 10*mm, 90*mm)
	quantity(w, "friction", required, &f.Friction, 0, setup.MostFriction)
	quantity(w, "axle-to-crown", optional, &f.AxleToCrown, 200*mm, 900*mm)
	quantity(w, "overall-length", optional, &f.OverallLength, 300*mm, 1200*mm)
	quantity(w, "mass", optional, &f.Mass, 0.3*kg, 40*kg)
	quantity(w, "leg-spacing", optional, &f.LegSpacing, 50*mm, 300*mm)
	quantity(w, "bush-spacing", optional, &f.BushSpacing, 20*mm, 600*mm)
	quantity(w, "bush-spacing-at-full", optional, &f.BushSpacingAtFull, 20*mm, 900*mm)
	w.want(!given(f.StanchionBore, f.Stanchion) || f.StanchionBore.Value < f.Stanchion.Value, "stanchion-bore",
		"a bore below the stanchion's outer diameter")
	w.want(!given(f.OuterBore, f.Stanchion) || f.OuterBore.Value >= f.Stanchion.Value, "outer-bore",
		"a bore that takes the stanchion")
	w.want(!given(f.BushSpacing, f.BushSpacingAtFull) || f.BushSpacingAtFull.Value >= f.BushSpacing.Value,
		"bush-spacing-at-full", "bush-spacing or more")
}

// evidence are the values of a specimen or class, any of which may be left out.
func (f *Fork) evidence(w *walk) {
	w.partial = true
	w.text("name", required, &f.Name)
	w.id("class", optional, &f.Class, classes)
	f.tubes(w)
	w.sub("chassis", optional, f.Chassis.fields)
	w.sub("rider", optional, f.Rider.fields)
	if w.shows("left", f.Left != (Leg{})) {
		w.sub("left", optional, func(w *walk) { f.Left.fields(w, f) })
	}
	if w.shows("whole", f.Whole != (Whole{})) {
		w.sub("whole", optional, f.Whole.fields)
	}
}

func (h *Whole) fields(w *walk) {
	quantity(w, "rate", optional, &h.Rate, 0.5*nmm, 500*nmm)
	quantity(w, "damping", optional, &h.Damping, 1*units.NewtonSecondPerMeter, 100000*units.NewtonSecondPerMeter)
	quantity(w, "load", optional, &h.Load, 0, 100000*units.Newton)
	number(w, "exponent", optional, &h.Exponent, 1, 5.0/3)
}

// assemble reports what keeps the parts from making a fork.
func (f *Fork) assemble(w *walk) {
	sea, err := gas.Standard(0)
	if err == nil {
		_, err = f.Setup(sea)
	}
	for _, err := range check.Split(err) {
		if e, ok := err.(*units.RangeError); ok {
			err = &units.RangeError{Field: "Spec." + fieldNames.Replace(e.Field), Value: e.Value, Want: e.Want,
				Hint: cmp.Or(e.Hint, "else it is no fork")}
		}
		w.in.FaultFields("name", err)
	}
}

// fieldNames are the fields of setup.Spec that a record has by another name.
var fieldNames = strings.NewReplacer("Spec.", "", "Left.Gap.Gauge", "Gap.Precharge", "Right.Gap.Gauge", "Gap.Precharge",
	"Left.Gap", "Gap", "Right.Gap", "Gap", "Damper", "Reservoir", "Fill.Gauge", "Pressure",
	"NegativeGauge", "NegativeRatio", "SecondGauge", "SecondRatio", "Springs[0]", "Coil")

func (c *Chassis) fields(w *walk) {
	quantity(w, "rake", required, &c.Rake, 10*units.Degree, 45*units.Degree)
	quantity(w, "clamp-offset", optional, &c.ClampOffset, -40*mm, 120*mm)
	quantity(w, "axle-lead", optional, &c.AxleLead, -40*mm, 120*mm)
	parts := w.has("clamp-offset") || w.has("axle-lead")
	follows(w, "offset", need(!parts), &c.Offset, "derived-offset", -60*mm, 120*mm, func() (units.Length, bool) {
		return c.ClampOffset.Value + c.AxleLead.Value, c.ClampOffset.Given() && c.AxleLead.Given()
	})
	coded(w, "tire", optional, &c.Tire, func(t Tire) error { _, err := t.Radius(); return err })
	follows(w, "wheel-radius", need(!w.has("tire")), &c.WheelRadius, "tire-size", 100*mm, 450*mm,
		func() (units.Length, bool) {
			r, err := c.Tire.Value.Radius()
			return r, err == nil
		})
	follows(w, "trail", optional, &c.Trail, "derived-trail", -100*mm, 250*mm, func() (units.Length, bool) {
		return c.Geometry().Trail(), c.Rake.Given() && c.Offset.Given() && c.WheelRadius.Given()
	})
	quantity(w, "wheelbase", required, &c.Wheelbase, 700*mm, 2000*mm)
	quantity(w, "mass", required, &c.Mass, 4*kg, 600*kg)
	quantity(w, "unsprung-mass", required, &c.UnsprungMass, 0.5*kg, 60*kg)
	quantity(w, "front-share", required, &c.FrontShare, 0.2, 0.8)
	quantity(w, "front-share-ridden", required, &c.FrontShareRidden, 0.2, 0.8)
	quantity(w, "center-of-gravity", required, &c.CenterOfGravity, 300*mm, 1500*mm)
	quantity(w, "wheel-mass", optional, &c.WheelMass, 0.3*kg, 60*kg)
	quantity(w, "steered-mass", optional, &c.SteeredMass, 0.3*kg, 60*kg)
	quantity(w, "tire-rate", optional, &c.TireRate, 5*nmm, 1000*nmm)
	sum := c.ClampOffset.Value + c.AxleLead.Value
	w.want(!given(c.ClampOffset, c.AxleLead, c.Offset) || abs(sum-c.Offset.Value) <= 0.5*mm, "offset",
		"clamp-offset and axle-lead together, %.1f mm", sum.In(mm))
	w.want(!given(c.WheelMass, c.UnsprungMass) || c.WheelMass.Value < c.UnsprungMass.Value, "unsprung-mass",
		"more than the wheel-mass in it")
	trail := c.Geometry().Trail()
	w.want(!given(c.Rake, c.Offset, c.WheelRadius, c.Trail) || abs(trail-c.Trail.Value) <= 4*mm, "trail",
		"what rake, offset and wheel radius give, %.0f mm, within 4 mm", trail.In(mm))
	if !w.reading() || !given(c.Mass, c.UnsprungMass, c.FrontShare, c.FrontShareRidden) {
		return
	}
	for _, err := range check.Split(c.Geometry().Validate()) {
		// What is left of these: the front wheel carries less than its own mass.
		switch e, _ := err.(*units.RangeError); e.Field {
		case "Chassis.UnsprungMass":
			w.in.Fault("unsprung-mass", err)
		case "Chassis.FrontShareRidden":
			w.in.Fault("front-share-ridden", err)
		}
	}
}

// follows walks a length that is calculated from others of the record where it is left out,
// to a tenth of a millimeter.
func follows(w *walk, key string, n need, v *Value[units.Length], source string, lo, hi units.Length,
	from func() (units.Length, bool)) {
	if length, ok := from(); ok && w.reading() && !w.in.Has(key) && (v.Source == "" || v.Source == source) {
		length = units.Length(math.Round(length.In(mm)*10) / 1e4)
		if length < lo || length > hi {
			w.in.Fault(key, fmt.Errorf("what the record gives makes it %.1f: want %.0f to %.0f", length, lo, hi))
		} else {
			*v = Value[units.Length]{Value: length, Source: source}
		}
	}
	quantity(w, key, n, v, lo, hi)
}

func (r *Rider) fields(w *walk) {
	quantity(w, "mass", required, &r.Mass, geometry.LightestRider, geometry.HeaviestRider)
	quantityRange(w, "range", required, &r.Range, Window, geometry.LightestRider, geometry.HeaviestRider)
	word(w, "stance", &r.Stance, "seated", "standing")
	within(w, "mass", r.Mass, r.Range, "range")
}

func (s *Sag) fields(w *walk) {
	quantityRange(w, "rider", required, &s.Rider, Window, 0.01, 0.6)
	quantityRange(w, "machine", optional, &s.Machine, Window, 0, 0.6)
	w.want(!given(s.Rider) || s.Rider.Lo < s.Rider.Hi, "rider", "two shares that differ, the lower one first")
}

// Geometry is the chassis without its sources.
func (c *Chassis) Geometry() geometry.Chassis {
	return geometry.Chassis{
		Rake:             c.Rake.Value,
		Offset:           c.Offset.Value,
		WheelRadius:      c.WheelRadius.Value,
		Wheelbase:        c.Wheelbase.Value,
		Mass:             c.Mass.Value,
		UnsprungMass:     c.UnsprungMass.Value,
		FrontShare:       c.FrontShare.Value,
		FrontShareRidden: c.FrontShareRidden.Value,
		CenterOfGravity:  c.CenterOfGravity.Value,
	}
}

// Geometry is the sliding geometry of the fork without its sources.
func (f *Fork) Geometry() geometry.Fork {
	return geometry.Fork{
		Layout:    f.Layout,
		Travel:    f.Travel.Value,
		Stanchion: geometry.Tube{Outer: f.Stanchion.Value, Bore: f.StanchionBore.Value},
		OuterBore: f.OuterBore.Value,
	}
}

// Values lists every value of the fork in the order of the schema.
func (f Fork) Values() []Entry { return list(f.fields) }

// Evidence lists every value of a specimen or class.
func (f Fork) Evidence() []Entry { return list(f.evidence) }
