package data

import (
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Kit is what a coil build in this fork can take: for an air fork a conversion,
// for a coil fork another spring.
type Kit struct {
	Legs        Legs                   // that may carry a spring
	Room        Value[units.Length]    // seat to seat at full extension
	Bore        Value[units.Length]    // of the tube the spring must pass
	Guide       Value[units.Length]    // rod or guide inside the spring, 0 for none
	Interior    Value[units.Volume]    // inside one such leg at full travel, spring and oil out
	SpringInOil bool                   // false in the lower legs of a bicycle: the spring stands above the oil
	Metal       Value[units.Volume]    // of spacer and guide
	Oil         Range[units.Volume]    // per leg
	OilAim      Value[units.Volume]    // what to begin with, in Oil
	Preload     Range[units.Length]    // that the kit is made for
	PreloadAim  Value[units.Length]    // what to begin with, in Preload
	Rate        Range[units.Stiffness] // of the whole fork, over the range of riders
	Friction    Value[units.Force]     // of the fork so built, as Fork.Friction
}

// Legs says which legs may carry a coil spring: only the left, only the right, or
// both at once. More than one may be true.
type Legs struct{ Left, Right, Both bool }

func (k *Kit) fields(w *walk, f *Fork) {
	k.Legs.field(w)
	var own Leg // whose spring and oil the kit has where it does not say
	if f.Left.Role.HasCoil() {
		own = f.Left
	}
	quantity(w, "room", required, &k.Room, 50*mm, 1000*mm)
	same(w, "bore", &k.Bore, f.StanchionBore, "stanchion-bore", func(n need) {
		quantity(w, "bore", n, &k.Bore, 10*mm, 80*mm)
	})
	quantity(w, "guide", required, &k.Guide, 0, 60*mm)
	quantity(w, "interior", required, &k.Interior, 5*ml, 3000*ml)
	w.bool("spring-in-oil", &k.SpringInOil)
	quantity(w, "metal", required, &k.Metal, 0, 300*ml)
	same(w, "oil", &k.Oil, own.Oil.Volume, "left.oil.volume", func(n need) {
		quantityRange(w, "oil", n, &k.Oil, Shelf, 0, 2000*ml)
	})
	quantity(w, "oil-aim", required, &k.OilAim, 0, 2000*ml)
	same(w, "preload", &k.Preload, own.Coil.Preloads, "left.coil.preloads", func(n need) {
		quantityRange(w, "preload", n, &k.Preload, Adjuster, 0, 60*mm)
	})
	same(w, "preload-aim", &k.PreloadAim, own.Coil.Preload, "left.coil.preload", func(n need) {
		quantity(w, "preload-aim", n, &k.PreloadAim, 0, 60*mm)
	})
	quantityRange(w, "rate", required, &k.Rate, Shelf, 0.5*nmm, 200*nmm)
	same(w, "friction", &k.Friction, f.Friction, "friction", func(n need) {
		quantity(w, "friction", n, &k.Friction, 0, setup.MostFriction)
	})
	within(w, "oil-aim", k.OilAim, k.Oil, "oil")
	within(w, "preload-aim", k.PreloadAim, k.Preload, "preload")
	w.want(!given(k.Bore, f.StanchionBore) || k.Bore.Value <= f.StanchionBore.Value, "bore",
		"the stanchion's bore or less")
	w.want(!given(k.Guide, k.Bore) || k.Guide.Value < k.Bore.Value, "guide", "a guide below the bore")
	w.want(!given(k.OilAim, k.Metal, k.Interior) || k.OilAim.Value+k.Metal.Value < k.Interior.Value, "interior",
		"room for the oil and the metal at least")
}

func (l *Legs) field(w *walk) {
	if w.schema != nil {
		w.schema.add("legs", listSchema(wordSchema([]string{"left", "right", "both"}), 1, 3))
		return
	}
	if w.based && !w.in.Has("legs") {
		return
	}
	places := []struct {
		name string
		on   *bool
	}{{"left", &l.Left}, {"right", &l.Right}, {"both", &l.Both}}
	if !w.reading() {
		text := ""
		for _, p := range places {
			if *p.on {
				if text != "" {
					text += ", "
				}
				text += quote(p.name)
			}
		}
		w.emit("legs", "["+text+"]", "", "")
		return
	}
	names := w.in.Words("legs", "left", "right", "both")
	for _, p := range places {
		for _, name := range names {
			*p.on = *p.on || name == p.name
		}
	}
}

// SpringSpec is what springs must do that together give the fork that rate, and the room
// that the kit has for them.
func (f *Fork) SpringSpec(rate units.Stiffness, wire helical.Material) helical.ForkSpec {
	k := f.Kit
	return helical.ForkSpec{
		Rate:         rate,
		Travel:       f.Travel.Value,
		PreloadLeast: k.Preload.Lo,
		PreloadAim:   k.PreloadAim.Value,
		PreloadMost:  k.Preload.Hi,
		Room:         k.Room.Value,
		Bore:         k.Bore.Value,
		Rod:          k.Guide.Value,
		Material:     wire,
	}
}

// Geometry is the room the leg offers without its sources.
func (k Kit) Geometry() geometry.Room {
	return geometry.Room{Length: k.Room.Value, Bore: k.Bore.Value, Guide: k.Guide.Value}
}
