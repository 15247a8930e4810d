package main

import (
	"fmt"
	"math"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// pages are the parts of the text, with both forks worked out by hand.
type pages struct {
	*sheet
	*study
	onAir, onCoil *hand
}

func (s *study) text() string {
	var out sheet
	p := pages{&out, s, newHand(&out, &s.air, s.here.Pressure), newHand(&out, &s.coil, s.here.Pressure)}
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
	return out.String()
}

func (p *pages) title() {
	fmt.Fprintf(p, "AN AIR FORK BESIDE A COIL FORK\n%s\n", repeat("="))
	for _, f := range []*fork{&p.air, &p.coil} {
		p.line(f.flag[1:]+" "+f.ID, f.Name)
	}
	p.line("set up in", fmt.Sprintf("%.0f °C, %.3f bar, at sea level on a standard day", p.here.Temperature.Celsius(), p.here.Pressure.In(units.Bar)))
	p.WriteByte('\n')
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
	p.head("How to read it")
	p.paragraph("All forces are of the whole fork along its axis. Every line of arithmetic below can be typed into a pocket calculator as it stands and goes on with the number printed before. In brackets are remarks and what the library has. A change of sag below zero: the fork rises. Pressures are in bar, areas in cm², volumes in mL, travels in cm where they meet areas: 1 bar on 1 cm² is 10 N, and 1 bar·mL is 0.1 J. The load first:")
	p.WriteByte('\n')
	for _, f := range []*fork{&p.air, &p.coil} {
		c := f.Chassis
		mass, share, unsprung, rake := c.Mass.Value.In(units.Kilogram), float64(c.FrontShareRidden.Value), c.UnsprungMass.Value.In(units.Kilogram), c.Rake.Value
		p.calc("F "+f.ID, fmt.Sprintf("((%s + %s)·%s − %s)·9.80665·cos(%s°)", num(mass), num(f.rider.In(units.Kilogram)), num(share), num(unsprung), num(rake.In(units.Degree))),
			((mass+f.rider.In(units.Kilogram))*share-unsprung)*9.80665*math.Cos(float64(rake)), 1, "N", library(f.load.In(units.Newton), 1, "N"))
	}
	p.WriteByte('\n')
	p.paragraph("Machine and rider weigh on the front wheel by their share; what the fork does not carry (wheel, axle, lower tubes) comes off; the fork leans, so the cosine.")
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
			a = append(a, shown(of(spring.At(rest, at)), decimals))
			b = append(b, shown(of(spring.At(ridden, at)), decimals))
		}
		p.row(f.ID+" at mm", cell, x...)
		p.row("  rest, "+name, cell, a...)
		p.row("  ridden, "+name, cell, b...)
	}
}

func (p *pages) force() {
	p.topic("FORCE AGAINST TRAVEL (force-travel)")
	p.table("N", 0, func(pt spring.Point) float64 { return pt.Force.In(units.Newton) })
	p.head("Why")
	p.paragraph("Rest: moved so slowly that the gas stays as warm as the wall, p·V = constant (n = 1). Ridden: the fork has settled at its sag and moves fast from there; the gas warms when compressed and cools when let out, p·Vⁿ = constant with n = %s. That is why the ridden curve is steeper and both cross at the sag. A coil gives the same force slow or fast; what differs in %s is the gas closed in its legs.", num(p.ride), p.coil.ID)
	p.pulls()
	p.WriteByte('\n')
	p.formulas()
	p.head(fmt.Sprintf("By hand: %s at rest at its sag of %s mm", p.air.ID, num(p.air.settled.In(mm))))
	h := p.onAir
	h.given()
	h.rest = h.at(p.air.settled)
	h.forces(h.rest, p.air.rest().Force(p.air.settled))
	p.head(fmt.Sprintf("%s ridden, from there to %s mm", p.air.ID, num(p.air.deep().In(mm))))
	deep := h.moved(h.rest, p.air.deep(), p.ride)
	h.forces(deep, p.air.ridden(p.ride).Force(p.air.deep()))
	p.head(fmt.Sprintf("%s at rest at its sag of %s mm", p.coil.ID, num(p.coil.settled.In(mm))))
	c := p.onCoil
	c.given()
	c.rest = c.at(p.coil.settled)
	c.forces(c.rest, p.coil.rest().Force(p.coil.settled))
}

// pulls says what a ridden curve below zero means, where there is one.
func (p *pages) pulls() {
	if f := p.air.ridden(p.ride).Force(0).In(units.Newton); f < 0 {
		p.paragraph("Let out fast from its sag to full extension, %s ends at %s N: the gas has cooled, and the springs pull the fork together until it has warmed again.", p.air.ID, fixed(f, 0))
	}
}

// formulas prints the laws that the arithmetic below goes by.
func (p *pages) formulas() {
	if p.onAir.negVolume() > 0 {
		p.paragraph("F_air  = (p₊ − p_a)·A − (p₋ − p_a)·A₋   main and negative chamber")
	} else {
		p.paragraph("F_air  = (p₊ − p_a)·A                   main chamber")
	}
	if second := p.onAir.second(); second > 0 {
		p.paragraph("Once p₊ reaches p₂ the floating piston leaves its stop, and the %s mL behind it share one pressure with the main chamber.", num(second))
	}
	if p.onAir.linked() > 0 {
		p.paragraph("The linked volume of %s mL shares the pressure at rest; ridden it is cut off.", num(p.onAir.linked()))
	}
	if p.onAir.balances > 0 {
		p.paragraph("F_b    = −k_b·(L − x)                   balance coil, up to x = L")
	}
	p.paragraph("F_coil = k·(x + preload)                coil")
	p.paragraph("F_gap  = (p_g − p_a)·A_g                gas trapped in a leg")
	if p.onCoil.pressurized() || p.onAir.pressurized() {
		p.paragraph("F_d    = (p_d − p_a)·A_d                gas of a damper, on its rod")
	}
}

func (p *pages) rate() {
	p.topic("RATE AGAINST TRAVEL (rate-travel)")
	p.table("N/mm", 1, func(pt spring.Point) float64 { return pt.Rate.In(npm) })
	p.head("Why")
	p.paragraph("The rate is the slope of the force. Of a gas space it is n·p·A²/V: with the units above, bar·cm⁴/mL is N/mm at once. It grows with pressure and much faster as the volume runs out. %s A coil has one rate at any travel. Ridden, the gas is n times as stiff at the sag%s; the coil is not.", p.negativeReason(), p.stiffer())
	p.head(fmt.Sprintf("By hand: %s at its sag, at rest, then ridden", p.air.ID))
	h, c := p.onAir, p.onCoil
	h.k = h.rates(h.rest, 1, p.air.rest().Rate(p.air.settled))
	fast := h.rest
	if h.linked() > 0 {
		fast = h.cutOff(fast)
	}
	h.rates(fast, p.ride, p.air.ridden(p.ride).Rate(p.air.settled))
	p.head(fmt.Sprintf("%s at its sag, at rest", p.coil.ID))
	c.k = c.rates(c.rest, 1, p.coil.rest().Rate(p.coil.settled))
	p.WriteByte('\n')
	p.paragraph("The slope at the sag is not the rate of the coil that would replace the air: to carry the same load at the same travel that takes F/x = %.1f N/mm (preload and trapped gas left aside).", p.air.load.In(units.Newton)/p.air.settled.In(mm))
}

// stiffer is what cutting off a linked volume adds.
func (p *pages) stiffer() string {
	if p.onAir.linked() > 0 {
		return ", and stiffer still without its linked volume"
	}
	return ""
}

// negativeReason is what the negative chamber or balance coil does to the start.
func (p *pages) negativeReason() string {
	switch {
	case p.onAir.negVolume() > 0:
		return "Near full extension the small negative chamber adds its own slope, so an air fork is steep, then softer in the middle, then steep again."
	case p.onAir.balances > 0:
		return "Near full extension the balance coil adds its rate; where it runs out the slope drops."
	}
	return ""
}

func (p *pages) energy() {
	p.topic("ENERGY AGAINST TRAVEL (energy-travel)")
	p.table("J", 1, func(pt spring.Point) float64 { return pt.Energy.In(units.Joule) })
	p.head("Why")
	p.paragraph("Energy is the area under the force curve from full extension: what a landing has to put in before that travel is reached. Slow, the work on a gas space is p·V·ln(V/V'), and the ambient outside helps with p_a times the section it pushes on. The ridden curve is read from full extension too; what a landing puts in from the sag on is the difference to the value there. A coil stores k/2·((x + preload)² − preload²). Two forks that take the same energy to the same travel stand the same landing, although one may be firmer in the middle and the other at the end.")
	for _, h := range []*hand{p.onAir, p.onCoil} {
		x := h.f.deep()
		p.head(fmt.Sprintf("By hand: %s from full extension to %s mm, slow", h.f.ID, num(x.In(mm))))
		h.energies(h.at(x), h.f.rest().Energy(x))
	}
}
