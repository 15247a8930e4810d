package main

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// wind adds the spring between two depths: the coil of the record, and a second one on it or in it.
func (f *frame) wind(m *model, d *leg, l data.Leg, top, bottom, x float64) {
	s := m.coils[l.Coil]
	at, err := l.Working(m.Travel.Value, units.Length(x)*units.Millimeter)
	if err != nil {
		return // the fork would not have been set up
	}
	dead := (s.TotalCoils() - s.ActiveCoils()) / 2
	main := coil{wire: mm(s.Wire()), mean: mm(s.MeanDiameter()), top: top, bottom: bottom,
		active: s.ActiveCoils(), dead: dead, metal: mm3(s.Volume())}
	second, with := l.Compound, main
	with.metal = 0 // counted with the kit's
	switch second.Kind {
	case spring.KindStack:
		main.top = bottom - mm(l.Coil.FreeLength.Value-at.Compression)
		with.bottom = main.top
		with.active = mm(second.SolidLength.Value)/with.wire - 2*dead
		d.label(with.mean/2, (with.top+with.bottom)/2, "second spring %v, free %v", second.Rate.Value,
			second.FreeLength.Value)
		d.extent(0, with.top, with.bottom, length(with.bottom-with.top))
		d.coils = append(d.coils, with)
	case spring.KindNested:
		with.top = max(top, bottom-mm(second.FreeLength.Value))
		with.wire = min(0.7*main.wire, (main.mean-main.wire)/6) // schematic
		with.mean = main.mean - main.wire - with.wire - 2
		with.active = max(1, mm(second.SolidLength.Value)/with.wire-2*dead)
		d.label(with.mean/2, with.top+0.2*(bottom-with.top), "inner spring %v, free %v", second.Rate.Value,
			second.FreeLength.Value)
		d.coils = append(d.coils, with)
	}
	d.coils = append(d.coils, main)
	d.extent(0, main.top, bottom, "spring "+length(bottom-main.top))
	if x == 0 {
		d.note(main.mean/2, main.top+0.3*(bottom-main.top),
			"coil spring %v, wire Ø %v, outside Ø %v, free %v, preload %v",
			l.Coil.Rate.Value, l.Coil.Wire.Value, l.Coil.OuterDiameter.Value, l.Coil.FreeLength.Value,
			l.Coil.Preload.Value)
		return
	}
	d.note(main.mean/2, main.top+0.5*(bottom-main.top), "coil spring, %.0f above solid", s.BindMargin(at.Compression))
}

// installed is the length of the spring of a leg at full extension.
func installed(l data.Leg) float64 {
	free := l.Coil.FreeLength.Value
	switch l.Compound.Kind {
	case spring.KindStack:
		free += l.Compound.FreeLength.Value
	case spring.KindNested:
		free = max(free, l.Compound.FreeLength.Value)
	}
	return mm(free - l.Coil.Preload.Value)
}

// springBelow adds a spring that stands on the foot, under a cartridge or support tube that hangs from the cap.
func (f *frame) springBelow(m *model, d *leg, l data.Leg, x float64) {
	room := roomOf(m, l)
	seat := f.length - footLength - room
	outer := min(0.62*f.bore, f.bore-1)
	d.hollow(outer, capLength, seat)
	d.inside(solidPart, 0, outer, seat-perchLength, seat)
	if spacer := room - installed(l); spacer > 0.5 {
		d.add(thinTube, outer-3, outer, seat, seat+spacer)
		d.label(outer-1.5, seat+spacer/2, "spacer %.0f mm", spacer)
	}
	guide := radius(m.Kit.Guide.Value)
	tip := seat - 30 - x
	if guide > 0 {
		d.inside(rodPart, 0, guide, tip, seat)
		d.add(rodPart, 0, guide, seat, f.floor(x))
	}
	what := "support tube"
	if l.Role == data.CoilDamperLeg {
		what = "damper cartridge"
		d.inside(solidPart, 0, outer-thinWall, tip-pistonLength, tip)
	}
	if x == 0 {
		text := what + " (schematic)"
		if guide > 0 {
			text += fmt.Sprintf(", rod in the spring Ø %v", m.Kit.Guide.Value)
		}
		d.note(outer-thinWall/2, capLength+0.75*(seat-capLength), "%s", text)
		d.extent(1, seat, f.floor(0), "seat to seat "+length(room))
	}
	f.wind(m, d, l, f.floor(x)-installed(l)+x, f.floor(x), x)
}

// springAbove adds a spring that hangs under the cap, on a perch that stands on the foot.
func (f *frame) springAbove(m *model, d *leg, l data.Leg, x float64) {
	room := roomOf(m, l)
	spacer := room - installed(l)
	perch := capLength + room - x
	wide := min(0.9*f.bore, mm(l.Coil.OuterDiameter.Value)/2)
	if spacer > 0.5 {
		d.add(thinTube, wide-3, wide, capLength, capLength+spacer)
		d.label(wide-1.5, capLength+spacer/2, "spacer %.0f mm", spacer)
	}
	guide := radius(m.Kit.Guide.Value)
	d.add(solidPart, 0, wide, perch, perch+perchLength)
	if f.sealed {
		rod := radius(m.Gap.Rod.Value)
		d.add(rodPart, 0, rod, perch+perchLength, f.floor(x))
		d.inside(solidPart, 0, f.bore, f.upperEnd-headLength, f.upperEnd)
		d.inside(rodPart, 0, rod, f.upperEnd-headLength, f.upperEnd)
		if guide > 0 {
			d.add(rodPart, 0, guide, perch-max(20, room-f.travel-spacer-20), perch)
		}
		d.label(0.8*wide, perch+perchLength/2, "perch on a rod Ø %v", m.Gap.Rod.Value)
	} else {
		outer := max(0.5*f.bore, guide+2.5)
		d.hollow(outer, perch+perchLength, f.floor(x))
		text := "damper rod, carries the spring (schematic)"
		if guide > 0 {
			tip := capLength + room + perchLength + 20
			d.add(rodPart, 0, guide, capLength, perch)
			d.inside(rodPart, 0, guide, perch, tip)
			d.inside(solidPart, 0, outer-thinWall, tip, tip+pistonLength)
			text = fmt.Sprintf("damper cartridge (schematic), rod in the spring Ø %v", m.Kit.Guide.Value)
		}
		d.label(outer-thinWall/2, f.upperEnd-0.1*(f.upperEnd-perch), "%s", text)
	}
	if x == 0 {
		d.extent(1, capLength, perch, "seat to seat "+length(room))
	}
	f.wind(m, d, l, capLength+spacer, perch, x)
}
