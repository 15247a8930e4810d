package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func (p *pages) idealGas() {
	p.topic("HOW WRONG THE IDEAL GAS LAW IS FOR THIS FORK")
	h, a := p.onAir, p.onAir.spring
	volume := a.Volume - a.Reducers
	swept := units.Volume(rounded(h.value("A")*h.value("L"), 2)) * mL
	p.say("ideal")
	state, err := a.Fill.State(volume)
	d, departureErr := gas.DryAir.Departure(state, volume-swept)
	z, zErr := gas.DryAir.Compressibility(state.Pressure, state.Temperature)
	if errors.Join(err, departureErr, zErr) != nil {
		p.say("ideal beyond")
		return
	}
	h.put("Z", fixed(z, 4), "p", fixed(state.Pressure.In(units.Bar), 2), "amount", signed(100*d.Amount, 2), "slow",
		signed(100*d.Slow, 2),
		"fast", signed(100*d.Fast, 2), "kelvins", signed(d.Temperature.In(units.KelvinDifference), 1), "share",
		fixed(100*d.Slow, 2))
	h.say("blank")
	h.line("Z as filled", "{Z} at {p} bar abs: {amount} % in the amount of gas")
	h.line("At full travel, slow", "{slow} % in the pressure")
	h.line("At full travel, fast", "{fast} % in the pressure, {kelvins} K in the temperature")
	h.say("ideal signs")
	h.put("F_gauge", fmt.Sprintf("%.0f", 10*float64(h.airs)*0.1*h.value("V₀")/h.value("V₊")*h.value("A")))
	h.say("ideal enough")
}

func (p *pages) stored() {
	p.topic("STORED ENERGY, AND CAUTIONS")
	p.say("stored")
	total := 0.0
	for _, c := range p.vessels() {
		p.put("legs", times(c.legs), "p", c.pressure, "V", c.volume)
		state := gas.State{Pressure: units.Absolute(units.Pressure(p.value("p")) * units.Bar),
			Volume: units.Volume(p.value("V")) * mL, Temperature: p.here.Temperature}
		p.put("name", c.name, "library", "")
		if known, err := state.StoredEnergy(p.here); err == nil {
			p.put("library", ", "+library(float64(c.legs)*known.In(units.Joule), 1, "J"))
		}
		p.say("vessel")
		total += p.value("E")
	}
	c := p.onCoil // with what its coils hold at full extension
	preload := c.value("preload")
	p.put("E_all", fmt.Sprintf("%.0f", total), "fell", fmt.Sprintf("%.0f", total/9.80665),
		"E_coil", fmt.Sprintf("%.2f", float64(c.coils)*c.value("k_c")/2*preload*preload/1000))
	p.say("hammer")
	p.say("cautions")
}

// vessel is a chamber charged by a valve, with the numbers printed for it.
type vessel struct {
	name             string
	legs             int
	pressure, volume string
}

// vessels are those of both forks, fully extended.
func (p *pages) vessels() []vessel {
	h := p.onAir
	list := []vessel{{"main chamber", h.airs, h.symbols["p₀"], num(h.value("V₀") + h.value("V_l"))}}
	if h.negative() {
		list = append(list, vessel{"negative", h.airs, h.symbols["p₋₀"], h.symbols["V₋₀"]})
	}
	if h.second() {
		list = append(list, vessel{"second", h.airs, h.symbols["p₂"], h.symbols["V₂"]})
	}
	for _, h := range []*hand{p.onAir, p.onCoil} {
		for _, c := range h.closed {
			if p0 := h.symbols["p_"+c.sign+"0"]; h.value("p_"+c.sign+"0") > h.value("p_a") {
				list = append(list, vessel{c.word + " in " + h.f.ID, c.legs, p0, h.symbols["V_"+c.sign+"0"]})
			}
		}
	}
	return list
}
