package data

import (
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// Role is what a leg holds.
type Role string

// The roles of a leg.
const (
	CoilLeg       Role = "coil"
	AirLeg        Role = "air"
	DamperLeg     Role = "damper"
	CoilDamperLeg Role = "coil+damper"
	AirDamperLeg  Role = "air+damper"
	NoLeg         Role = "none" // of a fork with one leg
)

// HasCoil reports whether the leg holds a coil spring.
func (r Role) HasCoil() bool { return r == CoilLeg || r == CoilDamperLeg }

// HasAir reports whether the leg holds an air spring.
func (r Role) HasAir() bool { return r == AirLeg || r == AirDamperLeg }

// HasDamper reports whether the leg holds a damper.
func (r Role) HasDamper() bool { return r == DamperLeg || r == CoilDamperLeg || r == AirDamperLeg }

// Leg is one leg. Coil and Air are filled in where the role says so.
type Leg struct {
	Role      Role      // what the leg holds
	Coil      Coil      // where the role has one
	Compound  Compound  // what makes the coil part of a spring of two rates or more
	Air       Air       // where the role has one
	Reservoir Reservoir // of a pressurized damper; left out: it is open
	Damper    Damper    // what a spring beside it has to know
	Oil       Oil       // of the leg, as it comes
}

// Coil is a coil spring, one of its leg.
type Coil struct {
	Rate          Value[units.Stiffness] // of this spring
	Rates         Range[units.Stiffness] // over the range of riders
	Preload       Value[units.Length]    // at full extension, as it comes
	Preloads      Range[units.Length]    // that its adjuster or spacers reach
	OuterDiameter Value[units.Length]    // of the free spring
	FreeLength    Value[units.Length]    // without load
	Material      string                 // id of a Material
	Ends          helical.Ends           // how the wire ends
	Wire          Value[units.Length]    // diameter of the wire
	ActiveCoils   Value[float64]         // that move
}

// Spring is the coil as package helical calculates with it, of the wire that the set
// has under the id Material. The error is a *NotFoundError if it has none, or says
// what keeps the spring from being made.
func (c Coil) Spring(in *Set) (helical.Spring, error) {
	wire, err := in.Wire(c.Material)
	if err != nil {
		return helical.Spring{}, err
	}
	return c.spring(wire)
}

// spring is that of the wire.
func (c Coil) spring(wire helical.Material) (helical.Spring, error) {
	return helical.New(helical.Spec{
		Wire:          c.Wire.Value,
		OuterDiameter: c.OuterDiameter.Value,
		ActiveCoils:   c.ActiveCoils.Value,
		Ends:          c.Ends,
		FreeLength:    c.FreeLength.Value,
		Material:      wire,
	})
}

// SolidLength is the length with all coils touching, whatever the wire is made of.
func (c Coil) SolidLength() units.Length {
	return c.Ends.SolidLength(c.Wire.Value, c.ActiveCoils.Value)
}

// Air is the air spring of a leg. A negative chamber is either equalized with the
// positive one through a port, or has a pressure of its own in the given ratio to
// the gauge pressure of the positive one; a balance coil does its work
// mechanically over the first part of the travel.
type Air struct {
	Bore           Value[units.Length]        // of the piston
	Rod            Value[units.Length]        // 0 for none
	Volume         Value[units.Volume]        // positive chamber at full extension
	Reducers       Value[units.Volume]        // solid pieces or oil in it
	Linked         Value[units.Volume]        // auxiliary volume behind an orifice
	NegativeVolume Value[units.Volume]        // on the rod side, at full extension; left out: none
	NegativeRatio  Value[float64]             // gauge pressure over the positive one's; left out: equalized
	Port           Value[units.Length]        // travel at which the two equalize
	BalanceRate    Value[units.Stiffness]     // of the balance coil; left out: none
	BalanceLength  Value[units.Length]        // travel over which the balance coil acts
	SecondVolume   Value[units.Volume]        // behind a floating piston
	SecondRatio    Value[float64]             // its gauge pressure over the positive one's
	Pressure       Value[units.GaugePressure] // of the positive chamber, for the rider of the record
	Pressures      Range[units.GaugePressure] // over the range of riders
	Maximum        Value[units.GaugePressure] // that is marked on the fork
}

// Reservoir is the gas of a pressurized damper, which pushes on its rod.
type Reservoir struct {
	Rod      Value[units.Length]        // that enters it
	Volume   Value[units.Volume]        // of the gas at full extension
	Pressure Value[units.GaugePressure] // at full extension, as it comes
}

// Damper is the damper of a leg as far as a spring beside it has to know; what is not
// known is left out.
type Damper struct {
	Rod       Value[units.Length] // diameter
	Cartridge Value[units.Volume] // that a closed cartridge takes up
	Interior  Value[units.Volume] // of the leg at full travel, damper in, spring and oil out
	Guide     Value[units.Length] // outer diameter of what a spring must pass over
	Clearance Value[units.Length] // on the diameter, that a spring leaves to it
}

// Oil is the oil of a leg; what is not known is left out.
type Oil struct {
	Volume    Range[units.Volume] // over the piston, in the lower leg or the outer chamber
	Cartridge Range[units.Volume] // in a closed cartridge
	Level     Range[units.Length] // air over the oil, fork compressed, spring out
}

// Gap is the gas over the oil of each leg, or in its lower part. A fork whose air
// springs take up whole legs has none.
type Gap struct {
	Rod       Value[units.Length]        // swallowed by a cartridge or leaving the lower leg: off the sealed area
	Level     Value[units.Length]        // oil level the residual stands for
	Displaced Value[units.Volume]        // by spring, spacer and guide
	Residual  Value[units.Volume]        // gas left at full travel, per leg
	Precharge Value[units.GaugePressure] // left out: closed at ambient
	Charged   string                     // the leg that has the precharge, "left" or "right"; "": both
}

func (f *Fork) legs(w *walk) {
	w.sub("left", required, func(w *walk) { f.Left.fields(w, f) })
	if !w.reading() && w.schema == nil && f.Right == f.Left {
		w.emit("right.like", `"left"`, "", "")
		return
	}
	w.sub("right", required, func(w *walk) {
		if w.schema != nil {
			w.schema.add("like", wordSchema([]string{"left"}))
		}
		if w.reading() && w.in.Has("like") {
			w.in.Word("like", "left")
			f.Right = f.Left
			return
		}
		f.Right.fields(w, f)
	})
	empty := func(l Leg) bool {
		return (l.Role == DamperLeg || l.Role == NoLeg) && l.Coil == (Coil{}) && l.Air == (Air{})
	}
	w.want(!empty(f.Left) || !empty(f.Right), "left", "a spring in one leg at least")
}

func (l *Leg) fields(w *walk, f *Fork) {
	word(w, "role", &l.Role, CoilLeg, AirLeg, DamperLeg, CoilDamperLeg, AirDamperLeg, NoLeg)
	part := func(key string, n need, has bool, fields func(*walk)) {
		if w.shows(key, has) {
			w.sub(key, n, fields)
		}
	}
	if w.based && !w.partial { // the base may have no such part to go on with
		w.needs("coil", l.Role.HasCoil() && l.Coil == (Coil{}))
		w.needs("air", l.Role.HasAir() && l.Air == (Air{}))
	}
	part("coil", required, l.Role.HasCoil(), func(w *walk) { l.Coil.fields(w, f) })
	part("compound", optional, l.Compound != (Compound{}), func(w *walk) { l.Compound.fields(w, f, l.Coil) })
	part("air", required, l.Role.HasAir(), func(w *walk) { l.Air.fields(w, f) })
	w.want(l.Role == "" || l.Role.HasCoil() || !w.has("coil"), "role", "a role with coil, or no table of that name")
	w.want(l.Role == "" || l.Role.HasCoil() || !w.has("compound"), "role", "a role with coil, or no table compound")
	w.want(l.Role == "" || l.Role.HasAir() || !w.has("air"), "role", "a role with air, or no table of that name")
	part("reservoir", optional, l.Reservoir != (Reservoir{}), l.Reservoir.fields)
	part("damper", optional, l.Damper != (Damper{}), l.Damper.fields)
	part("oil", optional, l.Oil != (Oil{}), l.Oil.fields)
}

func (d *Damper) fields(w *walk) {
	quantity(w, "rod", optional, &d.Rod, 4*mm, 30*mm)
	quantity(w, "cartridge", optional, &d.Cartridge, 5*ml, 1000*ml)
	quantity(w, "interior", optional, &d.Interior, 5*ml, 3000*ml)
	quantity(w, "guide", optional, &d.Guide, 4*mm, 60*mm)
	quantity(w, "clearance", optional, &d.Clearance, 0, 10*mm)
	w.want(!given(d.Guide, d.Rod) || d.Guide.Value >= d.Rod.Value, "guide", "the rod's diameter or more")
}

func (c *Coil) fields(w *walk, f *Fork) {
	quantity(w, "rate", required, &c.Rate, 0.5*nmm, 100*nmm)
	quantityRange(w, "rates", required, &c.Rates, Shelf, 0.5*nmm, 100*nmm)
	quantity(w, "preload", required, &c.Preload, 0, 60*mm)
	quantityRange(w, "preloads", required, &c.Preloads, Adjuster, 0, 60*mm)
	quantity(w, "outer-diameter", required, &c.OuterDiameter, 10*mm, 80*mm)
	quantity(w, "free-length", required, &c.FreeLength, 50*mm, 1000*mm)
	w.id("material", required, &c.Material, materials)
	ends := c.Ends.String()
	word(w, "ends", &ends, helical.SquaredGround.String(), helical.Squared.String(), helical.PlainGround.String(),
		helical.Plain.String())
	_ = c.Ends.UnmarshalText([]byte(ends)) // one of the four, or a fault by now
	quantity(w, "wire", required, &c.Wire, 1*mm, 15*mm)
	number(w, "active-coils", required, &c.ActiveCoils, 2, 100)
	within(w, "rate", c.Rate, c.Rates, "rates")
	within(w, "preload", c.Preload, c.Preloads, "preloads")
	w.want(!given(c.OuterDiameter, f.StanchionBore) || c.OuterDiameter.Value < f.StanchionBore.Value, "outer-diameter",
		"a spring that fits the stanchion's bore")
	if w.reading() && ends != "" && given(c.Wire, c.OuterDiameter, c.ActiveCoils, c.FreeLength) {
		c.made(w)
	}
}

// made reports whether the spring can be made, and compares its rate.
func (c *Coil) made(w *walk) {
	material, ok := w.set.materials[c.Material]
	if !ok {
		material = w.known.materials[c.Material]
	}
	wire, err := material.Wire()
	if err != nil {
		return // reported where the material stands
	}
	s, err := c.spring(wire)
	if err != nil {
		w.in.Fault("wire", err)
		return
	}
	rate := s.Rate()
	w.want(!given(c.Rate) || abs(rate-c.Rate.Value) <= c.Rate.Value/50, "rate",
		"what wire, diameter and coils give, %.2f N/mm, within 2 %%", rate.In(nmm))
}

func (a *Air) fields(w *walk, f *Fork) {
	quantity(w, "bore", required, &a.Bore, 10*mm, 100*mm)
	quantity(w, "rod", required, &a.Rod, 0, 30*mm)
	quantity(w, "volume", required, &a.Volume, 10*ml, 2000*ml)
	quantity(w, "reducers", optional, &a.Reducers, 1*ml, 500*ml)
	quantity(w, "linked", optional, &a.Linked, 1*ml, 1000*ml)
	quantity(w, "negative-volume", optional, &a.NegativeVolume, 1*ml, 1000*ml)
	number(w, "negative-ratio", optional, &a.NegativeRatio, 0.1, 2)
	quantity(w, "port", optional, &a.Port, 0, 30*mm)
	quantity(w, "balance-rate", optional, &a.BalanceRate, 0.1*nmm, 50*nmm)
	quantity(w, "balance-length", optional, &a.BalanceLength, 1*mm, 200*mm)
	quantity(w, "second-volume", optional, &a.SecondVolume, 5*ml, 1000*ml)
	number(w, "second-ratio", optional, &a.SecondRatio, 1, 5)
	quantity(w, "pressure", required, &a.Pressure, units.Gauge(0), units.Gauge(25*bar))
	quantityRange(w, "pressures", required, &a.Pressures, Adjuster, units.Gauge(0), units.Gauge(25*bar))
	quantity(w, "maximum", required, &a.Maximum, units.Gauge(0), units.Gauge(30*bar))
	w.want(!given(a.Bore, f.Stanchion) || a.Bore.Value <= f.Stanchion.Value, "bore", "a bore inside the stanchion")
	w.want(!given(a.Rod, a.Bore) || a.Rod.Value < a.Bore.Value, "rod", "a rod below the bore")
	sweep := swept(a.Bore.Value, f.Travel.Value)
	w.want(!given(a.Volume, a.Bore, f.Travel) || a.Volume.Value-a.Reducers.Value > sweep, "volume",
		"more than the piston sweeps, %.0f mL, reducers taken off", sweep.In(ml))
	w.want(!w.has("second-volume"), "linked", "no second chamber beside it")
	w.want(a.NegativeVolume.Given() || w.has("negative-volume"), "negative-ratio", "negative-volume beside it")
	w.want((a.NegativeVolume.Given() || w.has("negative-volume")) && !w.has("negative-ratio"), "port",
		"an equalized negative chamber beside it")
	w.bothOrNeither("balance-rate", "balance-length")
	w.bothOrNeither("second-volume", "second-ratio")
	p, lo, hi, most := gauge(a.Pressure.Value), gauge(a.Pressures.Lo), gauge(a.Pressures.Hi), gauge(a.Maximum.Value)
	w.want(!given(a.Pressure, a.Pressures) || p >= lo && p <= hi, "pressure", "a pressure inside pressures")
	w.want(!given(a.Maximum, a.Pressures) || most >= hi, "maximum", "the top of pressures or more")
}

func gauge(p units.GaugePressure) float64 { return p.In(units.Pascal) }

// swept is what a piston of that bore takes up over the travel.
func swept(bore, travel units.Length) units.Volume {
	return units.Volume(float64(geometry.Circle(bore)) * float64(travel))
}

func (r *Reservoir) fields(w *walk) {
	quantity(w, "rod", required, &r.Rod, 6*mm, 30*mm)
	quantity(w, "volume", required, &r.Volume, 5*ml, 500*ml)
	quantity(w, "pressure", required, &r.Pressure, units.Gauge(0), units.Gauge(20*bar))
}

func (o *Oil) fields(w *walk) {
	quantityRange(w, "volume", optional, &o.Volume, Shelf, 0, 2000*ml)
	quantityRange(w, "cartridge", optional, &o.Cartridge, Shelf, 0, 1000*ml)
	quantityRange(w, "level", optional, &o.Level, Shelf, 10*mm, 600*mm)
}

func (g *Gap) fields(w *walk, f *Fork) {
	quantity(w, "rod", optional, &g.Rod, 0, 30*mm)
	quantity(w, "level", optional, &g.Level, 10*mm, 600*mm)
	quantity(w, "displaced", optional, &g.Displaced, 0, 500*ml)
	quantity(w, "residual", required, &g.Residual, 1*ml, 1000*ml)
	quantity(w, "precharge", optional, &g.Precharge, units.Gauge(0), units.Gauge(3*bar))
	if w.shows("charged", g.Charged != "") {
		word(w, "charged", &g.Charged, "left", "right")
	}
	w.want(!given(g.Rod, f.Stanchion) || g.Rod.Value < f.Stanchion.Value, "rod", "a rod below the stanchion's diameter")
	w.bothOrNeither("level", "displaced")
	if given(g.Level, g.Displaced, g.Residual, f.Stanchion, f.StanchionBore, f.OuterBore) {
		left := units.Volume(float64(f.Geometry().OilColumn())*float64(g.Level.Value)) - g.Displaced.Value
		w.want(abs(left-g.Residual.Value) <= max(1*ml, g.Residual.Value/50), "residual",
			"what level and displaced leave, %.1f mL, within 2 %%", left.In(ml))
	}
}

// Area is the piston area of the gap of one leg.
func (g Gap) Area(f Fork) units.Area {
	return f.Geometry().SealedArea() - geometry.Circle(g.Rod.Value)
}

// Dampers is how many legs damp.
func (f *Fork) Dampers() int {
	n := 0
	for _, l := range []Leg{f.Left, f.Right} {
		if l.Role.HasDamper() {
			n++
		}
	}
	return n
}

// Spring is what carries the fork: CoilLeg, AirLeg, or "" if there is nothing. A
// coil outranks air beside it.
func (f *Fork) Spring() Role {
	switch {
	case f.Left.Role.HasCoil() || f.Right.Role.HasCoil():
		return CoilLeg
	case f.Left.Role.HasAir() || f.Right.Role.HasAir():
		return AirLeg
	}
	return ""
}
