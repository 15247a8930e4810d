package data

import (
	"cmp"
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
type Fork struct {
	ID     string
	Name   string
	Use    string // id of a Discipline
	Layout geometry.Layout

	Travel        Value[units.Length]
	Stanchion     Value[units.Length] // outer diameter
	StanchionBore Value[units.Length]
	OuterBore     Value[units.Length] // of the slider or outer tube
	Friction      Value[units.Force]  // of the whole fork sliding: half the width of the friction band

	Chassis     Chassis
	Rider       Rider
	Sag         Sag
	Left, Right Leg
	Gap         Gap
	Kit         Kit
}

// Chassis is the machine around the fork.
type Chassis struct {
	Rake             Value[units.Angle]
	Offset           Value[units.Length] // clamp offset plus axle lead
	WheelRadius      Value[units.Length]
	Trail            Value[units.Length] // stated; it follows from the three above within 4 mm
	Wheelbase        Value[units.Length]
	Mass             Value[units.Mass]  // ready to ride
	UnsprungMass     Value[units.Mass]  // at the front
	FrontShare       Value[units.Share] // of the machine's weight on the front wheel
	FrontShareRidden Value[units.Share]
	CenterOfGravity  Value[units.Length] // height with rider
}

// Rider is who rides, in riding kit.
type Rider struct {
	Mass   Value[units.Mass]
	Range  Range[units.Mass]
	Stance string // "seated" or "standing", in which sag is read
}

// Sag is the aim, as a share of the travel.
type Sag struct {
	Rider   Range[units.Share]
	Machine Range[units.Share] // without rider; may be left out
}

func (f *Fork) fields(w *walk) {
	w.text("name", required, &f.Name)
	w.id("use", &f.Use, disciplines)
	layout := f.Layout.String()
	word(w, "layout", &layout, geometry.Upright.String(), geometry.Inverted.String())
	if layout == geometry.Inverted.String() {
		f.Layout = geometry.Inverted
	}
	quantity(w, "travel", required, &f.Travel, 20*mm, 400*mm)
	quantity(w, "stanchion", required, &f.Stanchion, 10*mm, 80*mm)
	quantity(w, "stanchion-bore", required, &f.StanchionBore, 5*mm, 80*mm)
	quantity(w, "outer-bore", required, &f.OuterBore, 10*mm, 90*mm)
	quantity(w, "friction", required, &f.Friction, 0, setup.MostFriction)
	w.want(!given(f.StanchionBore, f.Stanchion) || f.StanchionBore.Value < f.Stanchion.Value, "stanchion-bore",
		"a bore below the stanchion's outer diameter")
	w.want(!given(f.OuterBore, f.Stanchion) || f.OuterBore.Value >= f.Stanchion.Value, "outer-bore",
		"a bore that takes the stanchion")
	w.sub("chassis", required, f.Chassis.fields)
	w.sub("rider", required, f.Rider.fields)
	w.sub("sag", required, f.Sag.fields)
	parts := w.section()
	f.legs(w)
	if w.reading() || f.Gap != (Gap{}) {
		w.sub("gap", optional, func(w *walk) { f.Gap.fields(w, f) })
	}
	if parts.sound() && given(f.Travel, f.Stanchion, f.StanchionBore, f.OuterBore, f.Friction) {
		f.assemble(w)
	}
	w.sub("kit", required, func(w *walk) { f.Kit.fields(w, f) })
}

// assemble reports what keeps the parts from making a fork.
func (f *Fork) assemble(w *walk) {
	sea, err := gas.Standard(0)
	if err == nil {
		_, err = f.Setup(sea)
	}
	for _, err := range check.Split(err) {
		if e, ok := err.(*units.RangeError); ok {
			err = &units.RangeError{Field: "Spec." + fieldNames.Replace(e.Field), Value: e.Value, Want: e.Want, Hint: cmp.Or(e.Hint, "else it is no fork")}
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
	quantity(w, "offset", required, &c.Offset, -20*mm, 120*mm)
	quantity(w, "wheel-radius", required, &c.WheelRadius, 100*mm, 450*mm)
	quantity(w, "trail", required, &c.Trail, 0, 250*mm)
	quantity(w, "wheelbase", required, &c.Wheelbase, 700*mm, 2000*mm)
	quantity(w, "mass", required, &c.Mass, 4*kg, 600*kg)
	quantity(w, "unsprung-mass", required, &c.UnsprungMass, 0.5*kg, 40*kg)
	quantity(w, "front-share", required, &c.FrontShare, 0.2, 0.8)
	quantity(w, "front-share-ridden", required, &c.FrontShareRidden, 0.2, 0.8)
	quantity(w, "center-of-gravity", required, &c.CenterOfGravity, 300*mm, 1500*mm)
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

func (r *Rider) fields(w *walk) {
	quantity(w, "mass", required, &r.Mass, geometry.LightestRider, geometry.HeaviestRider)
	quantityRange(w, "range", required, &r.Range, geometry.LightestRider, geometry.HeaviestRider)
	word(w, "stance", &r.Stance, "seated", "standing")
	within(w, "mass", r.Mass, r.Range, "range")
}

func (s *Sag) fields(w *walk) {
	quantityRange(w, "rider", required, &s.Rider, 0.01, 0.6)
	quantityRange(w, "machine", optional, &s.Machine, 0, 0.6)
	w.want(!given(s.Rider) || s.Rider.Lo < s.Rider.Hi, "rider", "two shares that differ, the lower one first")
}

// Geometry is the chassis without its sources.
func (c Chassis) Geometry() geometry.Chassis {
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
func (f Fork) Geometry() geometry.Fork {
	return geometry.Fork{
		Layout:    f.Layout,
		Travel:    f.Travel.Value,
		Stanchion: geometry.Tube{Outer: f.Stanchion.Value, Bore: f.StanchionBore.Value},
		OuterBore: f.OuterBore.Value,
	}
}

// Values lists every value of the fork in the order of the schema.
func (f Fork) Values() []Entry { return list(f.fields) }
