package main

import (
	"example.org/forkcurve/spring"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// hand works a fork out on paper, independently of the library: pressures in bar,
// areas in cm², volumes in mL, travels in cm where they meet areas. Each step goes
// on with the number printed before, so that a pocket calculator gives the same.
type hand struct {
	*sheet
	f  *fork
	pa float64 // of the ambient

	spring                 setup.Air
	airs                   int // legs with an air spring
	area, annulus          float64
	volume                 float64 // main chamber at full extension
	p0, negative0, second0 float64 // at full extension, absolute

	closed []closed

	coils, balances            int
	rate, preload              float64 // N/mm, mm
	balanceRate, balanceLength float64

	rest point   // at the sag
	k    float64 // there, at rest
}

// closed is a gas space beside the springs: what is trapped in the legs, and what a
// pressurized damper holds.
type closed struct {
	sign             string // index of its symbols
	force            string // symbol of its force, after "F_" or "k_"
	word             string
	legs             int
	area, volume, p0 float64 // at full extension
}

const (
	trappedSign = "g"
	damperSign  = "d"
)

// point is the gas at a travel.
type point struct {
	x        float64 // cm
	main     content
	negative content
	closed   []content
	joint    bool // the floating piston has left its stop: main is both chambers
	apart    bool // the linked volume is cut off
}

type content struct{ volume, pressure float64 }

func newHand(s *sheet, f *fork, here units.AbsolutePressure) *hand {
	h := &hand{sheet: s, f: f, pa: bars(here)}
	h.spring, h.airs = f.airSpring()
	for _, l := range f.legs() {
		if c, ok := setup.Find[spring.CoilSpec](l); ok {
			h.coils++
			h.rate, h.preload = c.Rate.In(npm), c.Preload.In(mm)
		}
		if t, ok := setup.Find[spring.TopOutSpec](l); ok {
			h.balances++
			h.balanceRate, h.balanceLength = t.Rate.In(npm), t.Length.In(mm)
		}
	}
	return h
}

func (h *hand) linked() float64      { return h.spring.Linked.In(mL) }
func (h *hand) second() float64      { return h.spring.SecondVolume.In(mL) }
func (h *hand) negVolume() float64   { return h.spring.NegativeVolume.In(mL) }
func (h *hand) travel() float64      { return h.f.set.Travel().In(cm) }
func (h *hand) gaugeFilled() float64 { return h.spring.Fill.Gauge.In(units.Bar) }

// trapped is the gas trapped in the legs; false if there is none.
func (h *hand) trapped() (c closed, at content, ok bool) {
	for i, c := range h.closed {
		if c.sign == trappedSign {
			return c, h.rest.closed[i], true
		}
	}
	return closed{}, content{}, false
}

// pressurized reports whether the dampers hold gas.
func (h *hand) pressurized() bool {
	return h.f.spec.Left.Damper != nil || h.f.spec.Right.Damper != nil
}

// given prints what the record says and what follows from it alone.
func (h *hand) given() {
	if h.airs > 0 {
		h.givenAir()
	}
	var gaps, dampers int
	var gap setup.Gap
	var damper setup.Damper
	for _, l := range h.f.legs() {
		if l.Gap != nil {
			gap, gaps = *l.Gap, gaps+1
		}
		if l.Damper != nil {
			damper, dampers = *l.Damper, dampers+1
		}
	}
	if gaps > 0 {
		area, residual := h.gapSection(), gap.Residual.In(mL)
		c := closed{sign: trappedSign, force: "gap", word: "the trapped gas", legs: gaps, area: area, p0: h.pa,
			volume: h.calc("V_e", num(residual)+" + "+fixed(area, 3)+"·"+num(h.travel()), residual+area*h.travel(), 2, "mL", "trapped gas of a leg, extended")}
		if pre := gap.Gauge.In(units.Bar); pre > 0 {
			c.p0 = h.calc("p_e", num(pre)+" + "+fixed(h.pa, 3), pre+h.pa, 3, "bar", "precharged")
		}
		h.closed = append(h.closed, c)
	}
	if dampers > 0 {
		rod, gauge := damper.Rod.In(cm), damper.Fill.Gauge.In(units.Bar)
		h.closed = append(h.closed, closed{sign: damperSign, force: "d", word: "the gas of the dampers", legs: dampers, volume: damper.Volume.In(mL),
			area: h.calc("A_d", "π/4·"+num(rod)+"²", math.Pi/4*rod*rod, 3, "cm²", "damper rod, "+num(rod)+" cm"),
			p0:   h.calc("p_d0", num(gauge)+" + "+fixed(h.pa, 3), gauge+h.pa, 3, "bar", "damper, as filled")})
	}
}

func (h *hand) givenAir() {
	bore, rod := h.spring.Bore.In(cm), h.spring.Rod.In(cm)
	h.area = h.calc("A", "π/4·"+num(bore)+"²", math.Pi/4*bore*bore, 3, "cm²", "piston, diameter "+num(bore)+" cm")
	h.volume = h.spring.Volume.In(mL)
	if r := h.spring.Reducers.In(mL); r > 0 {
		h.volume = h.calc("V₀", num(h.volume)+" − "+num(r), h.volume-r, 2, "mL", "less the volume reducers")
	}
	absolute := func(name string, gauge units.GaugePressure, remark string) float64 {
		g := gauge.In(units.Bar)
		return h.calc(name, num(g)+" + "+fixed(h.pa, 3), g+h.pa, 3, "bar", remark)
	}
	h.p0 = absolute("p₀", h.spring.Fill.Gauge, "absolute = gauge + ambient")
	if h.negVolume() > 0 {
		h.annulus = h.calc("A₋", fixed(h.area, 3)+" − π/4·"+num(rod)+"²", h.area-math.Pi/4*rod*rod, 3, "cm²", "less the rod, "+num(rod)+" cm")
		h.negative0 = h.p0
		if h.spring.NegativeGauge != (units.GaugePressure{}) {
			h.negative0 = absolute("p₋₀", h.spring.NegativeGauge, "negative, own valve")
		} else if port := h.spring.Port.In(cm); port > 0 {
			h.negative0 = h.ported(port)
		}
	}
	if h.second() > 0 {
		h.second0 = absolute("p₂", h.spring.SecondGauge, "behind the floating piston")
	}
}

// ported prints the pressure that the transfer port leaves in the negative chamber at
// full extension: both chambers are equal at the port, and from there it shrinks back.
func (h *hand) ported(port float64) float64 {
	filled := h.volume + h.linked()
	main, negative := num(filled)+" − "+fixed(h.area, 3)+"·"+num(port), num(h.negVolume())+" + "+fixed(h.annulus, 3)+"·"+num(port)
	return h.calc("p₋₀", fixed(h.p0, 3)+"·"+num(filled)+"/("+main+")·("+negative+")/"+num(h.negVolume()),
		h.p0*filled/(filled-h.area*port)*(h.negVolume()+h.annulus*port)/h.negVolume(), 3, "bar")
}

// gapSection is the section that drives the trapped gas: of the tube in the seal,
// less a rod that leaves as much room as the tube takes.
func (h *hand) gapSection() float64 {
	d, rod := h.f.Stanchion.Value.In(cm), h.f.Gap.Rod.Value.In(cm)
	if rod == 0 {
		return h.calc("A_g", "π/4·"+num(d)+"²", math.Pi/4*d*d, 3, "cm²", "tube in the seal, "+num(d)+" cm")
	}
	return h.calc("A_g", "π/4·("+num(d)+"² − "+num(rod)+"²)", math.Pi/4*(d*d-rod*rod), 3, "cm²", "tube in the seal, "+num(d)+" cm, less rod")
}

// room prints the volume of the main chamber with what shares its pressure.
func (h *hand) room(p *point, remark ...string) {
	expression, v := num(h.volume), h.volume
	if p.joint {
		expression, v = expression+" + "+num(h.second()), v+h.second()
	}
	if h.linked() > 0 && !p.apart {
		expression, v = expression+" + "+num(h.linked()), v+h.linked()
	}
	p.main.volume = h.calc("V₊", expression+" − "+fixed(h.area, 3)+"·"+num(p.x), v-h.area*p.x, 2, "mL", remark...)
}

// at prints the gas at rest at a travel: p·V as at full extension.
func (h *hand) at(x units.Length) point {
	p := point{x: rounded(x.In(cm), 3)}
	if h.airs > 0 {
		filled, amount := num(h.volume), h.volume
		if h.linked() > 0 {
			filled, amount = "("+filled+" + "+num(h.linked())+")", amount+h.linked()
			h.room(&p, "with the linked volume")
		} else {
			h.room(&p)
		}
		p.main.pressure = h.calc("p₊", fixed(h.p0, 3)+"·"+filled+"/"+fixed(p.main.volume, 2), h.p0*amount/p.main.volume, 3, "bar")
		if h.second() > 0 && p.main.pressure > h.second0 {
			p.joint = true
			h.room(&p, "above p₂: both")
			p.main.pressure = h.calc("p₊", "("+fixed(h.p0, 3)+"·"+num(h.volume)+" + "+fixed(h.second0, 3)+"·"+num(h.second())+")/"+fixed(p.main.volume, 2),
				(h.p0*h.volume+h.second0*h.second())/p.main.volume, 3, "bar")
		}
		if h.negVolume() > 0 {
			p.negative = h.grown(p.x)
			p.negative.pressure = h.calc("p₋", fixed(h.negative0, 3)+"·"+num(h.negVolume())+"/"+fixed(p.negative.volume, 2), h.negative0*h.negVolume()/p.negative.volume, 3, "bar")
		}
	}
	for _, c := range h.closed {
		at := h.shrunk(c, p.x)
		at.pressure = h.calc("p_"+c.sign, fixed(c.p0, 3)+"·"+num(c.volume)+"/"+fixed(at.volume, 2), c.p0*c.volume/at.volume, 3, "bar")
		p.closed = append(p.closed, at)
	}
	return p
}

// grown prints the volume of the negative chamber, shrunk that of a closed space.
func (h *hand) grown(x float64) content {
	return content{volume: h.calc("V₋", num(h.negVolume())+" + "+fixed(h.annulus, 3)+"·"+num(x), h.negVolume()+h.annulus*x, 2, "mL")}
}

func (h *hand) shrunk(c closed, x float64) content {
	return content{volume: h.calc("V_"+c.sign, num(c.volume)+" − "+fixed(c.area, 3)+"·"+num(x), c.volume-c.area*x, 2, "mL")}
}

// moved prints the gas after a fast movement from one point to a travel: p·Vⁿ as
// there.
func (h *hand) moved(from point, x units.Length, n float64) point {
	p := point{x: rounded(x.In(cm), 3), joint: from.joint}
	fast := func(name string, from, to content) float64 {
		return h.calc(name, fixed(from.pressure, 3)+"·("+fixed(from.volume, 2)+"/"+fixed(to.volume, 2)+")^"+num(n), from.pressure*math.Pow(from.volume/to.volume, n), 3, "bar")
	}
	if h.airs > 0 {
		if h.linked() > 0 {
			from, p.apart = h.cutOff(from), true
		}
		h.room(&p)
		p.main.pressure = fast("p₊", from.main, p.main)
		if h.second() > 0 && !p.joint && p.main.pressure > h.second0 {
			p.joint = true
			h.room(&p, "above p₂: both")
			root := "^(1/" + num(n) + ")"
			p.main.pressure = h.calc("p₊", "(("+fixed(from.main.volume, 2)+"·"+fixed(from.main.pressure, 3)+root+" + "+num(h.second())+"·"+fixed(h.second0, 3)+root+")/"+fixed(p.main.volume, 2)+")^"+num(n),
				math.Pow((from.main.volume*math.Pow(from.main.pressure, 1/n)+h.second()*math.Pow(h.second0, 1/n))/p.main.volume, n), 3, "bar")
		}
		if h.negVolume() > 0 {
			p.negative = h.grown(p.x)
			p.negative.pressure = fast("p₋", from.negative, p.negative)
		}
	}
	for i, c := range h.closed {
		at := h.shrunk(c, p.x)
		at.pressure = fast("p_"+c.sign, from.closed[i], at)
		p.closed = append(p.closed, at)
	}
	return p
}

// cutOff prints the main chamber without its linked volume, at the same pressure.
func (h *hand) cutOff(p point) point {
	p.apart = true
	pressure := p.main.pressure
	h.room(&p, "settled, linked volume cut off")
	p.main.pressure = pressure
	return p
}

// forces adds up the parts at a point; the library's force stands beside.
func (h *hand) forces(p point, known units.Force) {
	var parts []part
	add := func(name, expression string, value float64, remark ...string) {
		parts = append(parts, part{name, h.calc(name, expression, value, 1, "N", remark...)})
	}
	x := rounded(p.x*10, 2)
	if h.airs > 0 {
		n, value := 10*float64(h.airs), (p.main.pressure-h.pa)*h.area
		main := "(" + fixed(p.main.pressure, 3) + " − " + fixed(h.pa, 3) + ")·" + fixed(h.area, 3)
		if h.negVolume() > 0 {
			main = "(" + main + " − (" + fixed(p.negative.pressure, 3) + " − " + fixed(h.pa, 3) + ")·" + fixed(h.annulus, 3) + ")"
			value -= (p.negative.pressure - h.pa) * h.annulus
		}
		add("F_air", "10·"+times(h.airs)+main, n*value)
	}
	if h.coils > 0 {
		add("F_coil", times(h.coils)+num(h.rate)+"·("+num(x)+" + "+num(h.preload)+")", float64(h.coils)*h.rate*(x+h.preload), "rate·(travel + preload), mm")
	}
	if left := h.balanceLength - x; h.balances > 0 && left > 0 {
		add("F_b", "−"+times(h.balances)+num(h.balanceRate)+"·("+num(h.balanceLength)+" − "+num(x)+")", -float64(h.balances)*h.balanceRate*left, "balance coil, mm")
	}
	for i, c := range h.closed {
		add("F_"+c.force, "10·"+times(c.legs)+"("+fixed(p.closed[i].pressure, 3)+" − "+fixed(h.pa, 3)+")·"+fixed(c.area, 3), 10*float64(c.legs)*(p.closed[i].pressure-h.pa)*c.area, c.word)
	}
	h.sum("F", parts, 1, "N", library(known.In(units.Newton), 1, "N"))
}

// part is a named share of a sum.
type part struct {
	name  string
	value float64
}

// sum prints the parts added up.
func (h *hand) sum(name string, parts []part, decimals int, unit string, remark ...string) float64 {
	total := 0.0
	var b strings.Builder
	for i, p := range parts {
		switch {
		case i == 0:
			b.WriteString(fixed(p.value, decimals))
		case p.value < 0:
			b.WriteString(" − " + fixed(-p.value, decimals))
		default:
			b.WriteString(" + " + fixed(p.value, decimals))
		}
		total += p.value
	}
	return h.calc(name, b.String(), total, decimals, unit, remark...)
}

// rates prints the slope at a point; moved fast with n, gas is n times as steep.
func (h *hand) rates(p point, n float64, known units.Stiffness) float64 {
	var parts []part
	add := func(name, expression string, value float64, remark ...string) {
		parts = append(parts, part{name, h.calc(name, expression, value, 3, "N/mm", remark...)})
	}
	factor := ""
	if n != 1 {
		factor = num(n) + "·"
	}
	slope := func(at content, area float64) (string, float64) {
		return fixed(at.pressure, 3) + "·" + fixed(area, 3) + "²/" + fixed(at.volume, 2), at.pressure * area * area / at.volume
	}
	if h.airs > 0 {
		expression, value := slope(p.main, h.area)
		if h.negVolume() > 0 {
			e, v := slope(p.negative, h.annulus)
			expression, value = expression+" + "+e, value+v
			if factor != "" || h.airs > 1 {
				expression = "(" + expression + ")"
			}
		}
		add("k_air", factor+times(h.airs)+expression, n*float64(h.airs)*value)
	}
	if h.coils > 0 {
		add("k_coil", times(h.coils)+num(h.rate), float64(h.coils)*h.rate, "at any travel")
	}
	if h.balances > 0 && p.x*10 < h.balanceLength {
		add("k_b", times(h.balances)+num(h.balanceRate), float64(h.balances)*h.balanceRate, "balance coil")
	}
	for i, c := range h.closed {
		expression, value := slope(p.closed[i], c.area)
		add("k_"+c.force, factor+times(c.legs)+expression, n*float64(c.legs)*value)
	}
	return h.sum("k", parts, 3, "N/mm", library(known.In(npm), 3, "N/mm"))
}

// energies prints what a slow stroke from full extension to a point stores.
func (h *hand) energies(p point, known units.Energy) {
	var parts []part
	add := func(name, expression string, value float64, remark ...string) {
		parts = append(parts, part{name, h.calc(name, expression, value, 2, "J", remark...)})
	}
	x := rounded(p.x*10, 2)
	if h.airs > 0 {
		expression, value := h.airEnergy(p)
		add("E_air", expression, value)
	}
	if h.coils > 0 {
		k := rounded(float64(h.coils)*h.rate, 3)
		add("E_coil", num(k)+"/2·(("+num(x)+" + "+num(h.preload)+")² − "+num(h.preload)+"²)/1000", k/2*((x+h.preload)*(x+h.preload)-h.preload*h.preload)/1000, "mm")
	}
	if h.balances > 0 {
		k, left := rounded(float64(h.balances)*h.balanceRate, 3), max(h.balanceLength-x, 0)
		add("E_b", "−"+num(k)+"/2·("+num(h.balanceLength)+"² − "+num(left)+"²)/1000", -k/2*(h.balanceLength*h.balanceLength-left*left)/1000, "balance coil, mm")
	}
	for i, c := range h.closed {
		v := p.closed[i].volume
		add("E_"+c.force, times(c.legs)+"("+fixed(c.p0, 3)+"·"+num(c.volume)+"·ln("+num(c.volume)+"/"+fixed(v, 2)+") − "+fixed(h.pa, 3)+"·"+fixed(c.area, 3)+"·"+num(p.x)+")/10",
			float64(c.legs)*(c.p0*c.volume*math.Log(c.volume/v)-h.pa*c.area*p.x)/10)
	}
	h.sum("E", parts, 2, "J", library(known.In(units.Joule), 2, "J"))
}

// airEnergy is the work on both chambers less that of the ambient, which pushes on
// what the negative chamber leaves of the piston.
func (h *hand) airEnergy(p point) (string, float64) {
	v0 := h.volume + h.linked()
	gas := h.p0 * v0
	value := gas * math.Log(v0/p.main.volume)
	expression := fixed(h.p0, 3) + "·" + num(v0) + "·ln(" + num(v0) + "/" + fixed(p.main.volume, 2) + ")"
	if p.joint {
		left := h.calc("V_f", fixed(h.p0, 3)+"·"+num(v0)+"/"+fixed(h.second0, 3), gas/h.second0, 2, "mL", "main chamber as p₂ is reached")
		value = gas*math.Log(v0/left) + (gas+h.second0*h.second())*math.Log((left+h.second())/p.main.volume)
		expression = fixed(h.p0, 3) + "·" + num(v0) + "·ln(" + num(v0) + "/" + fixed(left, 2) + ") + (" +
			fixed(h.p0, 3) + "·" + num(v0) + " + " + fixed(h.second0, 3) + "·" + num(h.second()) + ")·ln((" + fixed(left, 2) + " + " + num(h.second()) + ")/" + fixed(p.main.volume, 2) + ")"
	}
	if h.negVolume() > 0 {
		expression += " − " + fixed(h.negative0, 3) + "·" + num(h.negVolume()) + "·ln(" + fixed(p.negative.volume, 2) + "/" + num(h.negVolume()) + ")"
		value -= h.negative0 * h.negVolume() * math.Log(p.negative.volume/h.negVolume())
	}
	expression += " − " + fixed(h.pa, 3) + "·" + fixed(h.outside(), 3) + "·" + num(p.x)
	value -= h.pa * h.outside() * p.x
	return fmt.Sprintf("%s(%s)/10", times(h.airs), expression), float64(h.airs) * value / 10
}

// outside is the section on which the ambient pushes: what the negative chamber
// leaves of the piston.
func (h *hand) outside() float64 { return rounded(h.area-h.annulus, 3) }

// warmer prints how much more force the gas has at the sag when every absolute
// pressure in it grows by a ratio.
func (h *hand) warmer(ratio float64) []part {
	var parts []part
	if h.airs > 0 {
		parts = append(parts, part{"the air spring", h.warmerSpring(ratio)})
	}
	for i, c := range h.closed {
		p := h.rest.closed[i].pressure
		parts = append(parts, part{c.word, h.calc("ΔF_"+c.force, "10·"+times(c.legs)+"("+fixed(ratio, 4)+" − 1)·"+fixed(p, 3)+"·"+fixed(c.area, 3),
			10*float64(c.legs)*(ratio-1)*p*c.area, 1, "N")})
	}
	return parts
}

// warmerSpring is that of the air spring, which a loss of gas makes less of.
func (h *hand) warmerSpring(ratio float64) float64 {
	p := h.rest.main.pressure
	expression, value := fixed(p, 3)+"·"+fixed(h.area, 3), p*h.area
	if h.negVolume() > 0 {
		p := h.rest.negative.pressure
		expression, value = "("+expression+" − "+fixed(p, 3)+"·"+fixed(h.annulus, 3)+")", value-p*h.annulus
	}
	return h.calc("ΔF_air", "10·"+times(h.airs)+"("+fixed(ratio, 4)+" − 1)·"+expression, 10*float64(h.airs)*(ratio-1)*value, 1, "N")
}

// thinner prints how much more force the fork has at the sag when the ambient
// pressure falls.
func (h *hand) thinner(fall float64) []part {
	var parts []part
	push := func(name, word string, legs int, area float64) {
		parts = append(parts, part{word, h.calc("ΔF_"+name, "10·"+times(legs)+fixed(fall, 3)+"·"+fixed(area, 3), 10*float64(legs)*fall*area, 1, "N")})
	}
	if h.airs > 0 {
		push("air", "the air spring", h.airs, h.outside())
	}
	for _, c := range h.closed {
		push(c.force, c.word, c.legs, c.area)
	}
	return parts
}

// step prints how far the fork moves to take up a gain of force.
func (h *hand) step(parts []part) {
	gain := parts[0].value
	if len(parts) > 1 {
		gain = h.sum("ΔF", parts, 1, "N")
	}
	h.move(gain)
}

// move prints the same for a gain already printed.
func (h *hand) move(gain float64) {
	h.calc("Δx", fixed(-gain, 1)+"/"+fixed(h.k, 3), -gain/h.k, 1, "mm", "−ΔF/k, about")
}
