package main

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func (p *pages) idealGas() {
	p.topic("HOW WRONG THE IDEAL GAS LAW IS FOR THIS FORK")
	h, a := p.onAir, p.onAir.spring
	full := rounded(h.area*h.travel(), 2)
	volume := a.Volume - a.Reducers
	end := volume - units.Volume(full)*mL
	p.paragraph("All above takes the air for an ideal gas, p·V = N·R·T. Real molecules attract each other a little and take up room. Z = p·V/(N·R·T) says by how much, here from the virial equation of dry air; package spring/gas names its sources.")
	state, err := a.Fill.State(volume)
	d, departureErr := gas.DryAir.Departure(state, end)
	z, zErr := gas.DryAir.Compressibility(state.Pressure, state.Temperature)
	if errors.Join(err, departureErr, zErr) != nil {
		p.paragraph("At full travel the main chamber is beyond the range of those data (100 bar, 427 °C).")
		return
	}
	p.WriteByte('\n')
	p.line("Z as filled", fmt.Sprintf("%.4f at %s bar abs: %s %% in the amount of gas", z, fixed(state.Pressure.In(units.Bar), 2), signed(100*d.Amount, 2)))
	p.line("At full travel, slow", fmt.Sprintf("%s %% in the pressure", signed(100*d.Slow, 2)))
	p.line("At full travel, fast", fmt.Sprintf("%s %% in the pressure, %s K in the temperature", signed(100*d.Fast, 2), signed(d.Temperature.In(units.KelvinDifference), 1)))
	p.paragraph("Plus: the ideal law has too much. Minus: too little; compressed air is a little stiffer in a fast stroke than n = 1.4 has it. (Main chamber alone, from full extension; fast is without any heat exchange.)")
	p.head("By hand: the slow force at full travel")
	left := h.calc("V₊", fmt.Sprintf("%s − %s·%s", num(h.volume), fixed(h.area, 3), num(h.travel())), h.volume-h.area*h.travel(), 2, "mL")
	pressure := h.calc("p₊", fmt.Sprintf("%s·%s/%s", fixed(h.p0, 3), num(h.volume), fixed(left, 2)), h.p0*h.volume/left, 3, "bar", "ideal")
	h.calc("ΔF", fmt.Sprintf("10·%s%s·%s·%s/100", times(h.airs), fixed(pressure, 3), fixed(h.area, 3), fixed(100*d.Slow, 2)), 10*float64(h.airs)*pressure*h.area*rounded(100*d.Slow, 2)/100, 1, "N", "too much")
	p.WriteByte('\n')
	p.paragraph("Beside friction of ±%.0f N, a gauge read to 0.1 bar (%.0f N here) and an exponent known to ±0.1 that is little: for a fork the ideal law will do, and this is by how much it does not.",
		p.air.set.Friction().In(units.Newton), 10*float64(h.airs)*0.1*h.volume/left*h.area)
}

func (p *pages) stored() {
	h := p.onAir
	p.topic("STORED ENERGY, AND CAUTIONS")
	p.paragraph("What the charged chambers can give up if they burst or a cap flies off: E = p·V/0.4·(1 − (p_a/p)^(0.4/1.4)), here fully extended.")
	p.WriteByte('\n')
	total := 0.0
	for _, c := range p.vessels() {
		state := gas.State{Pressure: units.Absolute(units.Pressure(c.pressure) * units.Bar), Volume: units.Volume(c.volume) * mL, Temperature: p.here.Temperature}
		n := float64(c.legs)
		remark := c.name
		if known, err := state.StoredEnergy(p.here); err == nil {
			remark += ", " + library(n*known.In(units.Joule), 1, "J")
		}
		total += p.calc("E", fmt.Sprintf("0.1·%s%s·%s/0.4·(1 − (%s/%s)^(0.4/1.4))", times(c.legs), fixed(c.pressure, 3), num(c.volume), fixed(h.pa, 3), fixed(c.pressure, 3)),
			0.1*n*c.pressure*c.volume/0.4*(1-math.Pow(h.pa/c.pressure, 0.4/1.4)), 1, "J", remark)
	}
	p.paragraph("In all %.0f J, as a hammer of 1 kg that fell %.0f m. The coil of %s stores %.2f J in its preload.", total, total/9.80665, p.coil.ID, p.preloadEnergy())
	p.WriteByte('\n')
	for _, c := range []string{
		"Before any cap, valve body or circlip is loosened: wheel off the ground, let all pressure out of every chamber at its valve, slowly, then take the cores out. A fork that stays down may still hold pressure in a chamber without a valve of its own: do not open it; pump it up until it extends past its transfer port, and let out again, slowly.",
		"Face, hands and bystanders off the axis of cap and valve; eye protection. Oil comes out with the gas.",
		"Fill with air or nitrogen by a fork pump with a gauge, never from a cylinder without regulator and relief, never above the mark on the fork. Never oxygen: with oil it explodes.",
		"A full fork left in the sun or a hot car gains pressure (topic 6). Do not heat, drill, weld or straighten a charged leg.",
		"A coil under preload is stored energy too: hold the cap, lower it slowly, use the proper holder.",
		"Vent trapped gas only with the wheel off the ground and the fork extended (topic 8). Support the machine so that it cannot fall.",
		"Changed sag changes the steering. First ride slow, flat and near; check sag, leaks and fasteners after it.",
		"Computed values are those of generic forks and starting points only. The manual of the fork, local codes and licensed practice prevail.",
	} {
		p.hang("  - ", c)
	}
}

// vessel is a chamber charged by a valve.
type vessel struct {
	name             string
	legs             int
	pressure, volume float64
}

// vessels are those of both forks, fully extended.
func (p *pages) vessels() []vessel {
	h := p.onAir
	list := []vessel{{"main chamber", h.airs, h.p0, h.volume + h.linked()}}
	if h.negVolume() > 0 {
		list = append(list, vessel{"negative", h.airs, h.negative0, h.negVolume()})
	}
	if h.second() > 0 {
		list = append(list, vessel{"second", h.airs, h.second0, h.second()})
	}
	for _, h := range []*hand{p.onAir, p.onCoil} {
		for _, c := range h.closed {
			if c.p0 > h.pa {
				list = append(list, vessel{c.word + " in " + h.f.ID, c.legs, c.p0, c.volume})
			}
		}
	}
	return list
}

// preloadEnergy is in the coils at full extension, J.
func (p *pages) preloadEnergy() float64 {
	c := p.onCoil
	return float64(c.coils) * c.rate / 2 * c.preload * c.preload / 1000
}
