package main

import (
	"fmt"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// pages are the parts of the text, with both forks worked out by hand.
type pages struct {
	worksheet
	*study
	onAir, onCoil *hand
	topics        int
}

func (s *study) text() string {
	w := worksheet{Sheet: new(typeset.Sheet), symbols: map[string]string{}}
	w.put("p_a", bars(s.here.Pressure), "n", num(s.ride), "air", s.air.ID, "coil", s.coil.ID,
		"x₁", num(s.air.settled.In(mm)), "x₂", num(s.coil.settled.In(mm)),
		"deep₁", num(s.air.deep().In(mm)), "deep₂", num(s.coil.deep().In(mm)),
		"t", fmt.Sprintf("%.0f", s.here.Temperature.Celsius()), "F_r",
		fmt.Sprintf("%.0f", s.air.set.Friction().In(units.Newton)))
	p := pages{w, s, newHand(w, &s.air), newHand(w, &s.coil), 0}
	p.title()
	p.force()
	p.rate()
	p.energy()
	p.loopPage()
	p.exchangePage()
	p.temperature()
	p.altitude()
	p.venting()
	p.leak()
	p.idealGas()
	p.stored()
	return p.String()
}

// topic starts the next numbered part.
func (p *pages) topic(title string) {
	p.topics++
	fmt.Fprintf(p, "\n%d. %s\n%s\n", p.topics, title, strings.Repeat("-", width))
}

func (p *pages) title() {
	fmt.Fprintf(p, "AN AIR FORK BESIDE A COIL FORK\n%s\n", strings.Repeat("=", width))
	for _, f := range []*fork{&p.air, &p.coil} {
		p.line(f.flag[1:]+" "+f.ID, f.Name)
	}
	p.line("set up in", "{t} °C, {p_a} bar, at sea level on a standard day")
	p.say("blank")
	row := func(name string, decimals int, of func(f *fork) float64) {
		p.row(name, 12, fixed(of(&p.air), decimals), fixed(of(&p.coil), decimals))
	}
	p.row("", 12, p.air.ID, p.coil.ID)
	row("Travel, mm", 0, func(f *fork) float64 { return f.set.Travel().In(mm) })
	row("Rider with kit, kg", 0, func(f *fork) float64 { return f.rider.In(units.Kilogram) })
	row("Load on the axis of the fork, N", 1, func(f *fork) float64 { return f.load.In(units.Newton) })
	row("Sag with the rider, no friction, mm", 1, func(f *fork) float64 { return f.sag.Middle.In(mm) })
	row("  let down from above, mm", 1, func(f *fork) float64 { return f.sag.High.In(mm) })
	row("  let up from below, mm", 1, func(f *fork) float64 { return f.sag.Low.In(mm) })
	row("Friction of the whole fork, ±N", 0, func(f *fork) float64 { return f.set.Friction().In(units.Newton) })
	p.say("read")
	for _, f := range []*fork{&p.air, &p.coil} {
		c := f.Chassis
		p.put("id", f.ID, "m", num(c.Mass.Value.In(units.Kilogram)), "rider", num(f.rider.In(units.Kilogram)),
			"share", num(float64(c.FrontShareRidden.Value)), "m_u", num(c.UnsprungMass.Value.In(units.Kilogram)),
			"rake", num(c.Rake.Value.In(units.Degree)), "library", library(f.load.In(units.Newton), 1, "N"))
		p.say("load")
	}
	p.say("loads")
}

// table prints a value of both curves of both forks over travel.
func (p *pages) table(name string, decimals int, of func(spring.Point) float64) {
	const cells, cell = 9, 7
	for _, f := range []*fork{&p.air, &p.coil} {
		rest, ridden := f.rest(), f.ridden(p.ride)
		var x, a, b []string
		for i := range cells {
			at := f.set.Travel() * units.Length(i) / (cells - 1)
			x = append(x, fixed(at.In(mm), 0))
			a = append(a, fixed(of(spring.At(rest, at)), decimals))
			b = append(b, fixed(of(spring.At(ridden, at)), decimals))
		}
		p.row(f.ID+" at mm", cell, x...)
		p.row("  rest, "+name, cell, a...)
		p.row("  ridden, "+name, cell, b...)
	}
}

func (p *pages) force() {
	p.topic("FORCE AGAINST TRAVEL (force-travel)")
	p.table("N", 0, func(pt spring.Point) float64 { return pt.Force.In(units.Newton) })
	p.say("force")
	h, c := p.onAir, p.onCoil
	out := p.air.ridden(p.ride).Force(0).In(units.Newton)
	h.put("F_out", fixed(out, 0))
	h.sayIf(out < 0, "pulls")
	h.sayIf(!h.negative(), "formulas")
	h.sayIf(h.negative(), "formulas negative")
	h.sayIf(h.second(), "floating")
	h.sayIf(h.linked(), "linked")
	h.sayIf(h.balances > 0, "formulas balance")
	h.say("formulas coil")
	h.sayIf(c.pressurized() || h.pressurized(), "formulas damper")
	p.say("force by hand")
	h.given()
	h.at(p.air.settled)
	h.forces(p.air.rest().Force(p.air.settled))
	h.settle()
	p.say("force deep")
	h.moved(p.air.deep())
	h.forces(p.air.ridden(p.ride).Force(p.air.deep()))
	p.say("force coil")
	c.given()
	c.at(p.coil.settled)
	c.forces(p.coil.rest().Force(p.coil.settled))
	c.settle()
}

func (p *pages) rate() {
	p.topic("RATE AGAINST TRAVEL (rate-travel)")
	p.table("N/mm", 1, func(pt spring.Point) float64 { return pt.Rate.In(npm) })
	h, c := p.onAir, p.onCoil
	p.put("start", "", "stiffer", "", "F/x", fmt.Sprintf("%.1f", p.air.load.In(units.Newton)/p.air.settled.In(mm)))
	switch {
	case h.negative():
		p.put("start", p.part("start negative"))
	case h.balances > 0:
		p.put("start", p.part("start balance"))
	}
	if h.linked() {
		p.put("stiffer", p.part("stiffer"))
	}
	p.say("rate")
	h.back()
	h.rates("", p.air.rest().Rate(p.air.settled))
	h.settle()
	if h.linked() {
		h.cutOff()
	}
	h.rates("{n}·", p.air.ridden(p.ride).Rate(p.air.settled))
	p.say("rate coil")
	c.rates("", p.coil.rest().Rate(p.coil.settled))
	c.settle()
	p.say("replaced")
}

func (p *pages) energy() {
	p.topic("ENERGY AGAINST TRAVEL (energy-travel)")
	p.table("J", 1, func(pt spring.Point) float64 { return pt.Energy.In(units.Joule) })
	p.say("energy")
	for _, h := range []*hand{p.onAir, p.onCoil} {
		x := h.f.deep()
		h.put("deep", num(x.In(mm)))
		h.say("energy by hand")
		h.at(x)
		h.energies(h.f.rest().Energy(x))
		h.back()
	}
}
