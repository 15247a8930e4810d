package main

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// fill says how a part is drawn.
type fill int

const (
	trappedGas fill = iota
	oilFill
	positiveAir
	negativeAir
	secondAir
	vacant // open to the ambient, or of no matter here
	outerTube
	stanchionTube
	thinTube
	solidPart
	rodPart
)

// part is a body of revolution around the axis of a leg, in millimeters; depths count from the top of the leg.
type part struct {
	fill
	inner, outer float64 // radii
	top, bottom  float64 // depths
	shell        bool    // encloses what the leg holds, or lies within another part: takes no room
}

func (p part) solid() float64 { return circle(p.outer) - circle(p.inner) }

// coil is a spring in side view.
type coil struct {
	wire, mean   float64 // diameters
	top, bottom  float64
	active, dead float64 // coils, dead ones at each end
	metal        float64 // volume
	enclosed     bool    // in a cylinder
}

// extent is a dimension along the axis.
type extent struct {
	lane        int // 0 next to the leg
	top, bottom float64
	text        string
	loose       bool // the length is given, its place is not
}

// note names what lies at a point.
type note struct {
	r, z float64
	text string
}

// leg is the drawing of a leg in one state.
type leg struct {
	extended bool
	parts    []part
	coils    []coil
	extents  []extent
	notes    []note
}

func (d *leg) add(f fill, inner, outer, top, bottom float64) {
	d.parts = append(d.parts, part{fill: f, inner: inner, outer: outer, top: top, bottom: bottom})
}

// inside adds a part within one that has taken the room.
func (d *leg) inside(f fill, inner, outer, top, bottom float64) {
	d.parts = append(d.parts, part{fill: f, inner: inner, outer: outer, top: top, bottom: bottom, shell: true})
}

func (d *leg) note(r, z float64, format string, args ...any) {
	d.notes = append(d.notes, note{r, z, fmt.Sprintf(format, args...)})
}

// label is a note that is needed once, on the extended leg.
func (d *leg) label(r, z float64, format string, args ...any) {
	if d.extended {
		d.note(r, z, format, args...)
	}
}

// extent adds a dimension.
func (d *leg) extent(lane int, top, bottom float64, text string) {
	d.extents = append(d.extents, extent{lane, top, bottom, text, false})
}

// hollow adds a tube that is closed to what is around it.
func (d *leg) hollow(outer, top, bottom float64) {
	d.add(thinTube, 0, outer, top, bottom) // takes the room
	d.inside(thinTube, outer-thinWall, outer, top, bottom)
	d.inside(vacant, 0, outer-thinWall, top, bottom)
}

// drawLeg is one leg of the fork compressed by x millimeters.
func (f *frame) drawLeg(m *model, side setup.Side, x float64) *leg {
	if m.legs()[side].Role == data.NoLeg {
		return &leg{}
	}
	held := f.contents(m, side, x)
	d := &leg{extended: x == 0, coils: held.coils, extents: held.extents, notes: held.notes}
	f.fluids(m, side, x, held, d)
	f.tubes(m, side, x, d)
	d.parts = append(d.parts, held.parts...)
	return d
}

// tubes adds stanchion and outer tube with their ends.
func (f *frame) tubes(m *model, side setup.Side, x float64, d *leg) {
	end := f.length - x
	if f.inverted {
		d.inside(outerTube, f.outerBore, f.outside(), 0, f.upperEnd)
		d.inside(stanchionTube, f.bore, f.stanchion, f.lowerTop-x, end-footLength/2)
		d.inside(solidPart, 0, f.outerBore, 0, capLength)
		d.inside(solidPart, 0, f.bore, f.floor(x), end)
		d.inside(solidPart, f.stanchion, f.outside()+2, end-footLength, end)
		d.inside(solidPart, f.stanchion, f.outerBore, f.upperEnd-10, f.upperEnd)
	} else {
		d.inside(outerTube, f.outerBore, f.outside(), f.lowerTop-x, end)
		d.inside(stanchionTube, f.bore, f.stanchion, 0, f.upperEnd)
		d.inside(solidPart, 0, f.bore, 0, capLength)
		d.inside(solidPart, 0, f.outerBore, f.floor(x), end)
		d.inside(solidPart, f.stanchion, f.outerBore, f.lowerTop-x, f.lowerTop-x+10)
	}
	if x > 0 || side == setup.Right {
		return
	}
	outer, inner := "slider, bore Ø %v", "stanchion Ø %v, bore Ø %v"
	if f.inverted {
		d.note(f.outerBore+outerWall/2, capLength+14, "outer tube, bore Ø %v", m.OuterBore.Value)
		d.note((f.stanchion+f.bore)/2, f.upperEnd+0.4*f.travel, inner, m.Stanchion.Value, m.StanchionBore.Value)
		return
	}
	d.note((f.stanchion+f.bore)/2, f.lowerTop-14, inner, m.Stanchion.Value, m.StanchionBore.Value)
	d.note(f.outerBore+outerWall/2, f.upperEnd-0.3*(f.upperEnd-f.lowerTop), outer, m.OuterBore.Value)
}

// fluids adds gas and oil around what the leg holds.
func (f *frame) fluids(m *model, side setup.Side, x float64, held, d *leg) {
	l := m.legs()[side]
	floor, end := f.floor(x), f.lowerTop-x
	state := func() string {
		travel := units.Length(x) * units.Millimeter
		if gap, err := m.setup.Gap(side, gas.Isothermal); err == nil {
			travel = min(travel, gap.Stroke())
			return fmt.Sprintf("%.0f, %s", gap.Volume(travel), bar(m.gauge(gap.Pressure(travel))))
		}
		c, _ := m.chambers(side, travel, gas.Isothermal)
		return fmt.Sprintf("%.0f, %s", c.positive, bar(c.positiveGauge))
	}
	oil := "oil"
	if l.Oil.Volume.Given() {
		oil = "oil " + between(l.Oil.Volume)
	}
	if f.sealed {
		if !m.Gap.Residual.Given() {
			return
		}
		depth := f.bath(m, l) / (circle(f.outerBore) - circle(radius(m.Gap.Rod.Value)))
		level := max(f.upperEnd, floor-depth)
		d.inside(trappedGas, f.stanchion, f.outerBore, end, f.upperEnd)
		d.inside(trappedGas, 0, f.outerBore, f.upperEnd, level)
		d.inside(oilFill, 0, f.outerBore, level, floor)
		d.note(0.75*f.outerBore, (f.upperEnd+level)/2, "gas in the lower leg %s", state())
		d.label(0.75*f.outerBore, floor-depth/2, "%s", oil)
		return
	}
	level := capLength
	if v := gasOver(m, side, x); v > 0 {
		level, _ = f.level(held, x, v)
	}
	pour := func(inner, outer, top, bottom float64) {
		surface := min(max(level, top), bottom)
		if surface > top {
			d.inside(trappedGas, inner, outer, top, surface)
		}
		if surface < bottom {
			d.inside(oilFill, inner, outer, surface, bottom)
		}
	}
	if f.inverted {
		pour(0, f.outerBore, capLength, end)
		pour(f.stanchion, f.outerBore, end, f.upperEnd)
		pour(0, f.bore, end, floor)
	} else {
		pour(0, f.bore, capLength, f.upperEnd)
		pour(0, f.outerBore, f.upperEnd, floor)
		d.inside(oilFill, f.stanchion, f.outerBore, end, f.upperEnd)
	}
	name := "gas over the oil"
	if wholeLeg(m, l) {
		name = "air spring: the gas over the oil,"
	}
	if level > capLength {
		z := capLength + 0.62*(level-capLength)
		d.note(f.beside(held, z), z, "%s %s", name, state())
	}
	if x == 0 {
		if l.Oil.Level.Given() {
			oil += fmt.Sprintf("; level %s compressed with the spring out", between(l.Oil.Level))
		}
		if l.Oil.Cartridge.Given() {
			oil += fmt.Sprintf("; cartridge %s", between(l.Oil.Cartridge))
		}
		z := min(level+0.15*(floor-level)+4, floor-2)
		d.note(f.beside(held, z), z, "%s", oil)
	}
}

// beside is a radius at which there is gas or oil at a depth: next to what the leg holds, or within its spring.
func (f *frame) beside(held *leg, z float64) float64 {
	widest, inner, wound := 0.0, f.bore, false
	for _, c := range held.coils {
		if !c.enclosed && c.top <= z && z < c.bottom {
			inner, wound = (c.mean-c.wire)/2, true
		}
	}
	for _, p := range held.parts {
		if !p.shell && p.top <= z && z < p.bottom {
			widest = max(widest, p.outer)
		}
	}
	if !wound && widest == 0 {
		return f.bore / 2
	}
	return (widest + inner) / 2
}

// bar is a gauge pressure as labels have it.
func bar(p units.GaugePressure) string {
	if p.In(units.Bar) < 0.005 && p.In(units.Bar) > -0.005 {
		return "0 bar"
	}
	if p.In(units.Bar) < 1 {
		return fmt.Sprintf("%.2f", p)
	}
	return fmt.Sprintf("%.1f", p)
}

func between[Q interface {
	comparable
	fmt.Stringer
}](r data.Range[Q]) string {
	if r.Lo == r.Hi {
		return r.Lo.String()
	}
	return r.Lo.String() + " to " + r.Hi.String()
}

// contents is what a leg holds besides gas over oil and oil.
func (f *frame) contents(m *model, side setup.Side, x float64) *leg {
	d := &leg{extended: x == 0}
	l := m.legs()[side]
	s, cylinder := newStack(m, side)
	switch {
	case cylinder:
		f.cylinder(d, s, l.Air, x)
	case l.Role.HasCoil() && f.inverted:
		f.springBelow(m, d, l, x)
	case l.Role.HasCoil():
		f.springAbove(m, d, l, x)
	default:
		f.damper(m, d, l, x)
	}
	f.room(m, side, d, x)
	return d
}

// room marks what a coil build could have, in an air fork's leg.
func (f *frame) room(m *model, side setup.Side, d *leg, x float64) {
	k := m.Kit
	legs := [2]bool{k.Legs.Left || k.Legs.Both, k.Legs.Right || k.Legs.Both}
	if x > 0 || !legs[side] || m.legs()[side].Role.HasCoil() || (side == setup.Right && m.Left == m.Right) {
		return
	}
	d.extents = append(d.extents, extent{1, capLength, capLength + mm(k.Room.Value),
		fmt.Sprintf("coil room %v", k.Room.Value), true})
}

// cylinder adds an air spring that hangs from the cap, its rod standing on the foot.
func (f *frame) cylinder(d *leg, s stack, a data.Air, x float64) {
	second, positive, c := s.at(x)
	top := capLength
	integral := !f.inverted && s.bore > f.bore-0.1
	if f.sealed { // the seal head closes the stanchion
		top = f.upperEnd - s.length()
	}
	head := top + s.length() - headLength
	wall := min(thinWall, f.bore-s.bore)
	if integral {
		wall = 0
	}
	d.add(thinTube, 0, s.bore+wall, capLength, head+headLength) // takes the room
	if !integral {
		d.inside(thinTube, s.bore, s.bore+wall, capLength, head+headLength)
	}
	d.inside(solidPart, 0, s.bore, capLength, top)
	z := top
	if second > 0 {
		d.inside(secondAir, 0, s.bore, z, z+second)
		d.note(0.5*s.bore, z+second/2, "behind the floating piston %.0f, %s", c.second, bar(c.secondGauge))
		d.extent(0, z, z+second, length(second))
		z += second
		d.inside(solidPart, 0, s.bore, z, z+pistonLength)
		d.label(0.5*s.bore, z+pistonLength/2, "floating piston")
		z += pistonLength
	}
	d.inside(positiveAir, 0, s.bore, z, z+positive)
	size := ""
	if x == 0 {
		size = fmt.Sprintf("Ø %v, ", a.Bore.Value)
	}
	d.note(0.5*s.bore, z+0.45*positive, "positive chamber %s%.0f, %s", size, c.positive, bar(c.positiveGauge))
	d.extent(0, z, z+positive, length(positive))
	z += positive
	d.inside(solidPart, 0, s.bore, z, z+pistonLength)
	piston := z + pistonLength
	d.label(0.6*s.bore, z+pistonLength/2, "air piston, rod Ø %v", a.Rod.Value)
	under := vacant
	if c.negative > 0 {
		under = negativeAir
		how := ", equal at the port"
		if a.NegativeRatio.Given() {
			how = ", own valve"
		}
		if x > 0 {
			how = ""
		}
		d.note(0.7*s.bore, (piston+head)/2, "negative chamber %.0f, %s%s", c.negative, bar(c.negativeGauge), how)
		d.extent(0, piston, head, length(head-piston))
	}
	d.inside(under, 0, s.bore, piston, head)
	d.inside(solidPart, 0, s.bore, head, head+headLength)
	d.inside(rodPart, 0, s.rod, piston, head+headLength)
	d.add(rodPart, 0, s.rod, head+headLength, f.floor(x))
	if s.balance > 0 {
		f.balance(d, a, s.bore, head, x)
	}
}

// balance adds a coil that pulls the fork down, standing on a seal head.
func (f *frame) balance(d *leg, a data.Air, bore, head, x float64) {
	l := balanceLength(a.BalanceLength.Value) + min(x, mm(a.BalanceLength.Value))
	d.coils = append(d.coils, coil{wire: 0.14 * bore, mean: 1.6 * bore, top: head - l, bottom: head, active: 5, dead: 1,
		enclosed: true})
	if x == 0 {
		d.note(0.8*bore, head-l/2, "balance coil %v, acts over the first %v", a.BalanceRate.Value,
			a.BalanceLength.Value)
	} else {
		d.note(0.8*bore, head-l/2, "balance coil, loose")
	}
}

func length(l float64) string { return fmt.Sprintf("%.0f mm", l) }

// wind adds the main spring between two depths.
func (f *frame) wind(m *model, d *leg, l data.Leg, top, bottom, x float64) {
	s := m.coils[l.Coil]
	dead := (s.TotalCoils() - s.ActiveCoils()) / 2
	d.coils = append(d.coils, coil{wire: mm(s.Wire()), mean: mm(s.MeanDiameter()), top: top, bottom: bottom,
		active: s.ActiveCoils(), dead: dead, metal: mm3(s.Volume())})
	d.extent(0, top, bottom, "spring "+length(bottom-top))
	if x == 0 {
		d.note(mm(s.MeanDiameter())/2, top+0.3*(bottom-top),
			"coil spring %v, wire Ø %v, outside Ø %v, free %v, preload %v",
			l.Coil.Rate.Value, l.Coil.Wire.Value, l.Coil.OuterDiameter.Value, l.Coil.FreeLength.Value,
			l.Coil.Preload.Value)
		return
	}
	y := l.Coil.Preload.Value + units.Length(x)*units.Millimeter
	d.note(mm(s.MeanDiameter())/2, top+0.5*(bottom-top), "coil spring, %.0f above solid", s.BindMargin(y))
}

// springBelow adds a spring that stands on the foot, under a cartridge or support tube that hangs from the cap.
func (f *frame) springBelow(m *model, d *leg, l data.Leg, x float64) {
	room := roomOf(m, l)
	installed := mm(l.Coil.FreeLength.Value - l.Coil.Preload.Value)
	seat := f.length - footLength - room
	outer := min(0.62*f.bore, f.bore-1)
	d.hollow(outer, capLength, seat)
	d.inside(solidPart, 0, outer, seat-perchLength, seat)
	if spacer := room - installed; spacer > 0.5 {
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
	f.wind(m, d, l, f.floor(x)-installed+x, f.floor(x), x)
}

// springAbove adds a spring that hangs under the cap, on a perch that stands on the foot.
func (f *frame) springAbove(m *model, d *leg, l data.Leg, x float64) {
	room := roomOf(m, l)
	installed := mm(l.Coil.FreeLength.Value - l.Coil.Preload.Value)
	spacer := room - installed
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

// underPiston is the room between damper piston and seal head at full extension.
func underPiston(l data.Leg) float64 {
	if l.Air.BalanceRate.Given() {
		return balanceLength(l.Air.BalanceLength.Value)
	}
	return 18
}

// damperLength is that of a damper without its seal head.
func damperLength(travel float64, l data.Leg) float64 {
	return travel + underPiston(l) + 2*pistonLength
}

// damper adds a damper that hangs from the cap; a leg that is an air spring as a whole has its balance coil in
// there.
func (f *frame) damper(m *model, d *leg, l data.Leg, x float64) {
	outer := max(0.5*f.bore, 7)
	rod := 0.3 * outer
	if m.Gap.Rod.Given() {
		rod = min(radius(m.Gap.Rod.Value), outer-2)
	}
	head := capLength + damperLength(f.travel, l)
	if f.sealed {
		head = f.upperEnd - headLength
		d.inside(solidPart, 0, f.bore, head, f.upperEnd)
	}
	bore := outer - thinWall
	d.hollow(outer, capLength, head+headLength)
	d.inside(solidPart, 0, bore, head, head+headLength)
	tip := head - underPiston(l) - x
	d.inside(rodPart, 0, rod, tip, head+headLength)
	d.add(rodPart, 0, rod, head+headLength, f.floor(x))
	d.inside(solidPart, 0, bore, tip-pistonLength, tip)
	if l.Air.BalanceRate.Given() {
		f.balance(d, l.Air, bore, head, x)
	}
	d.label(bore+thinWall/2, capLength+0.3*(head-capLength), "damper (schematic)")
}
