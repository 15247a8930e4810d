package main

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// The worked day and place.
var hotDay = units.Celsius(40)

const mountain = 3000 * units.Meter

// treatment is what is done to a fork that came to other air.
type treatment struct {
	fork  *fork
	name  string
	short string
	apply func(*setup.Setup) *setup.Setup
}

func untouched(s *setup.Setup) *setup.Setup { return s }

// treatments are those that make a difference to the two forks.
func (s *study) treatments() []treatment {
	set := func(f *setup.Setup) *setup.Setup { return f.Vented().Refilled() }
	list := []treatment{{&s.air, "nothing touched", "untouched", untouched}}
	if s.air.trapped() {
		list = append(list,
			treatment{&s.air, "trapped gas vented", "vented", (*setup.Setup).Vented},
			treatment{&s.air, "vented and set again", "vented, set again", set})
	} else {
		list = append(list, treatment{&s.air, "set again", "set again", set})
	}
	list = append(list, treatment{&s.coil, "nothing touched", "untouched", untouched})
	if s.coil.trapped() {
		list = append(list, treatment{&s.coil, "trapped gas vented", "vented", (*setup.Setup).Vented})
	}
	return list
}

// sag is the sag in other air, mm; NaN where the fork does not carry the rider.
func (t treatment) sag(a gas.Ambient) float64 {
	moved, err := t.fork.set.At(a)
	if err != nil {
		return math.NaN()
	}
	sag, ok := t.fork.sagOf(t.apply(moved), nil)
	if !ok {
		return math.NaN()
	}
	return sag.In(mm)
}

// change is by how much the fork sits lower than as set up, mm.
func (t treatment) change(a gas.Ambient) float64 { return t.sag(a) - t.fork.sag.Middle.In(mm) }

func (p *pages) sags(heads []string, airs []gas.Ambient) {
	const cell = 7
	for i, t := range p.treatments() {
		if i == 0 || t.fork != p.treatments()[i-1].fork {
			p.row(t.fork.ID+", sag in mm", cell, heads...)
		}
		var cells []string
		for _, a := range airs {
			cells = append(cells, fixed(t.sag(a), 1))
		}
		p.row("  "+t.name, cell, cells...)
	}
}

// warmed is the air here on another day.
func (s *study) warmed(t units.Temperature) gas.Ambient {
	return gas.Ambient{Temperature: t, Pressure: s.here.Pressure}
}

// lifted is the air at an altitude, as warm as here.
func (s *study) lifted(z units.Length) (gas.Ambient, error) {
	return gas.StandardAt(z, s.here.Temperature)
}

func (p *pages) temperature() {
	p.topic("SAG AGAINST TEMPERATURE (sag-temperature)")
	var heads []string
	var airs []gas.Ambient
	for _, t := range []float64{-20, -10, 0, 10, 20, 30, 40} {
		heads = append(heads, fixed(t, 0)+" °C")
		airs = append(airs, p.warmed(units.Celsius(t)))
	}
	p.sags(heads, airs)
	h, c := p.onAir, p.onCoil
	h.put("T", kelvin(p.here.Temperature), "T'", kelvin(hotDay), "t'", fmt.Sprintf("%.0f", hotDay.Celsius()))
	h.say("temperature")
	h.say("hot")
	h.put("ratio", h.symbols["T'/T"])
	c.put("ratio", h.symbols["T'/T"])
	h.gain("warm", "hot air", p.first(&p.air).change(p.hot))
	c.gain("warm", "hot coil", p.first(&p.coil).change(p.hot))
	h.say("hot gauge")
	h.back()
	c.back()
}

// first is the fork with nothing touched.
func (s *study) first(f *fork) treatment {
	list := s.treatments()
	return list[slices.IndexFunc(list, func(t treatment) bool { return t.fork == f })]
}

func (p *pages) altitude() {
	p.topic("SAG AGAINST ALTITUDE (sag-altitude)")
	var heads []string
	var airs []gas.Ambient
	for _, z := range []float64{0, 500, 1000, 1500, 2000, 3000, 4000} {
		a, err := p.lifted(units.Length(z) * units.Meter)
		if err != nil {
			continue
		}
		heads = append(heads, fixed(z, 0)+" m")
		airs = append(airs, a)
	}
	p.sags(heads, airs)
	h, c := p.onAir, p.onCoil
	where := "where piston" // on what the thinner air outside acts in these forks
	if _, ok := h.trapped(); !ok {
		where = "where leg"
	} else if h.negative() {
		where = "where negative"
	}
	h.put("where", h.part(where))
	h.say("altitude")
	h.say("up")
	h.put("fall", h.symbols["p_a − p_a'"])
	c.put("fall", h.symbols["p_a − p_a'"])
	h.gain("thin", "up air", p.first(&p.air).change(p.up))
	c.gain("thin", "up coil", p.first(&p.coil).change(p.up))
	h.say("up again")
	h.put("less", fixed(100*(1-h.value("p₀'/p₀")), 2), "again", signed(p.setAgain().change(p.up), 1), "vented", "")
	if p.air.trapped() {
		h.put("vented", ", its trapped gas vented,")
	}
	h.say("set again")
	h.back()
	c.back()
}

func (s *study) setAgain() treatment {
	list := s.treatments()
	return list[slices.IndexFunc(list, func(t treatment) bool { return t.fork == &s.coil })-1]
}

func (p *pages) venting() {
	p.topic("WHAT VENTING DOES, AND HOW IT GOES WRONG")
	p.say("venting")
	for _, h := range []*hand{p.onAir, p.onCoil} {
		c, ok := h.trapped()
		if !ok {
			h.say("nothing to vent")
			continue
		}
		p.vent(h, c)
		h.sayIf(h.value("gauge_g") > 0, "precharged")
	}
	p.say("vented wrong")
}

// vent works out what venting at the mountain does right, and wrong here.
func (p *pages) vent(h *hand, c closed) {
	f := h.f
	change := func(apply func(*setup.Setup) *setup.Setup) string {
		return signed(treatment{fork: f, apply: apply}.change(p.up), 1)
	}
	h.put("p_a'", bars(p.up.Pressure), "sealed", change(untouched), "vented", change((*setup.Setup).Vented))
	h.of(c, "sealed")
	sealed := h.value("F_gap")
	h.of(c, "vented")
	h.put("less", fixed(sealed-h.value("F_gap"), 1))
	h.of(c, "against home")
	wrong, ok := f.sagOf(f.set.VentedAt(f.settled))
	h.put("sag", fixed(f.sag.Middle.In(mm), 1), "wrong", fixed(wrong.In(mm), 1))
	h.sayIf(ok, "pulls together")
	h.sayIf(!ok, "pulls down")
	h.back()
}
