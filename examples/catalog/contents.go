package main

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/setup"
)

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
