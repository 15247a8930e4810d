package main

import (
	"fmt"
	"math"
	"strings"

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

// treatments are those that make a difference to the two forks.
func (s *study) treatments() []treatment {
	untouched := func(f *setup.Setup) *setup.Setup { return f }
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
			cells = append(cells, shown(t.sag(a), 1))
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
	p.head("Why the air fork rides higher on a hot day")
	p.paragraph("The gas is sealed in: its amount stays. Warmed at the same travel, its absolute pressure grows as the absolute temperature does, p/T = constant, while the air outside pushes back as before. At the old sag the fork now pushes up with more than the load, so it rises until the gas has room enough to carry just the load again. In the cold it sinks. A steel spring hardly knows: %s moves only by the gas closed in its legs. Letting the trapped gas out on the spot takes away its part and no more; the air spring has to be set to its reading again, cold and at the place where it is ridden.", p.coil.ID)
	p.head(fmt.Sprintf("By hand: from %.0f °C to %.0f °C at the sag of topic 1", p.here.Temperature.Celsius(), hotDay.Celsius()))
	ratio := p.calc("T'/T", fmt.Sprintf("%s/%s", num(kelvin(hotDay)), num(kelvin(p.here.Temperature))), kelvin(hotDay)/kelvin(p.here.Temperature), 4, "")
	h := p.onAir
	gauge := p.calc("gauge", fmt.Sprintf("%s·%s − %s", fixed(h.p0, 3), fixed(ratio, 4), fixed(h.pa, 3)), h.p0*ratio-h.pa, 2, "bar", "what the gauge shows hot")
	list := p.treatments()
	air := h.warmer(ratio)
	h.step(air)
	p.paragraph("%s, exactly %s mm.%s The step takes the rate k of topic 2 all the way; the true curve bends.", p.air.ID, signed(list[0].change(p.hot), 1), shares(air))
	if coil := p.onCoil.warmer(ratio); len(coil) > 0 {
		p.onCoil.step(coil)
		p.paragraph("%s, exactly %s mm.", p.coil.ID, signed(p.byCoil(p.hot), 1))
	}
	p.WriteByte('\n')
	p.paragraph("On the hot day the pump shows %s bar with nothing added: whoever then lets air out to %s bar has set the fork for that day only.", fixed(gauge, 2), num(h.gaugeFilled()))
}

// shares says what a gain of force comes from; nothing if it is all of one.
func shares(parts []part) string {
	if len(parts) < 2 {
		return ""
	}
	total := 0.0
	for _, p := range parts {
		total += p.value
	}
	var names []string
	for _, p := range parts {
		names = append(names, fmt.Sprintf("%.0f %% is %s", 100*p.value/total, p.name))
	}
	return " Of the gain in force " + strings.Join(names, " and ") + "."
}

// byCoil is by how much the untouched coil fork sits lower in other air, mm.
func (s *study) byCoil(a gas.Ambient) float64 {
	for _, t := range s.treatments() {
		if t.fork == &s.coil {
			return t.change(a)
		}
	}
	return math.NaN()
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
	h := p.onAir
	p.head("Why")
	p.paragraph("%s", p.whyAltitude())
	p.head("By hand: 3000 m, as warm as below, at the sag of topic 1")
	height := p.calc("H", "6356.766·3/(6356.766 + 3)", 6356.766*3/(6356.766+3), 4, "km", "geopotential altitude")
	pa := p.calc("p_a'", fmt.Sprintf("1.01325·(1 − 6.5·%s/288.15)^5.2559", fixed(height, 4)), 1.01325*math.Pow(1-6.5*height/288.15, 5.2559), 3, "bar", "standard atmosphere")
	fall := p.calc("p_a − p_a'", fixed(h.pa, 3)+" − "+fixed(pa, 3), h.pa-pa, 3, "bar")
	air := h.thinner(fall)
	h.step(air)
	p.paragraph("%s, exactly %s mm.%s", p.air.ID, signed(p.treatments()[0].change(p.up), 1), shares(air))
	if coil := p.onCoil.thinner(fall); len(coil) > 0 {
		p.onCoil.step(coil)
		p.paragraph("%s, exactly %s mm: the coil knows nothing of altitude, its legs do.%s", p.coil.ID, signed(p.byCoil(p.up), 1), shares(coil))
	}
	less := p.calc("p₀'/p₀", fmt.Sprintf("(%s + %s)/%s", num(h.gaugeFilled()), fixed(pa, 3), fixed(h.p0, 3)), (h.gaugeFilled()+pa)/h.p0, 4, "", "set again up there")
	p.paragraph("The same gauge reading up there is %s %% less gas, so the fork set again at altitude%s sits lower, %s mm against home, and is softer.", fixed(100*(1-less), 2), p.alsoVented(), signed(p.setAgain().change(p.up), 1))
}

func (s *study) setAgain() treatment {
	var last treatment
	for _, t := range s.treatments() {
		if t.fork == &s.air {
			last = t
		}
	}
	return last
}

// alsoVented reminds that setting again comes after venting.
func (p *pages) alsoVented() string {
	if p.air.trapped() {
		return ", its trapped gas vented,"
	}
	return ""
}

// whyAltitude says on what the thinner air outside acts in these forks.
func (p *pages) whyAltitude() string {
	h := p.onAir
	trapped, _, ok := h.trapped()
	var b strings.Builder
	b.WriteString("Sealed gas at the same travel and temperature keeps its pressure wherever it is carried; but the air outside, which pushes the fork together, gets thinner. Each closed space gains its section times the fall in pressure. ")
	switch {
	case h.annulus > 0 && ok:
		fmt.Fprintf(&b, "On the main spring the outside air acts only through the rod: the gas of the negative chamber, sealed too, stands behind the rest of the piston. That is %s cm². On the gas trapped in the legs it acts through the whole tube in the seal, %s cm² in each leg. So the sealed trapped gas, not the main spring, makes altitude matter, and a coil fork feels it too.",
			fixed(h.outside(), 3), fixed(trapped.area, 3))
	case ok:
		fmt.Fprintf(&b, "This air spring has no sealed negative chamber, so the outside air acts through its whole piston, %s cm². On the gas trapped in the legs it acts through the tube in the seal, %s cm² in each leg: here both count, and a coil fork has the trapped gas too.",
			fixed(h.outside(), 3), fixed(trapped.area, 3))
	default:
		fmt.Fprintf(&b, "In %s each whole leg is the air spring, a piston of %s cm², and no gas is trapped beside it: here the main spring itself feels altitude, and only setting it again helps. In other forks it is the gas trapped in the legs that does.",
			p.air.ID, fixed(h.outside(), 3))
	}
	b.WriteString(" It is colder up there as a rule; that comes on top (topic 6).")
	return b.String()
}

func (p *pages) venting() {
	p.topic("WHAT VENTING DOES, AND HOW IT GOES WRONG")
	p.paragraph("Venting opens the trapped gas to the air for a moment, wheel off the ground and fork fully extended. It then is at the pressure outside, pushes with nothing at full extension, and only starts to push as the fork goes in, as it did at home.")
	for _, h := range []*hand{p.onAir, p.onCoil} {
		c, at, ok := h.trapped()
		if !ok {
			p.paragraph("%s has no gas trapped beside its spring: there is nothing to vent.", h.f.ID)
			continue
		}
		p.vent(h, c, at)
		if c.p0 > h.pa {
			p.paragraph("The trapped gas of %s is meant to have %s bar at full extension. Venting lets that out as well, which is most of the change; pump it up to its reading again. Here and in topics 6 and 7 it was not.", h.f.ID, num(rounded(c.p0-h.pa, 3)))
		}
	}
	p.WriteByte('\n')
	p.paragraph("With the weight on the wheel it is wrong. The valve then lets gas out until the space, already small, is at the pressure outside; once the fork extends, the little gas left is stretched below it and pulls the fork together. It no longer reaches full extension, rides low and has lost the first part of its travel. Do not vent a bicycle or machine that stands on its wheels.")
}

// vent works out what venting at the mountain does right, and wrong here.
func (p *pages) vent(h *hand, c closed, rest content) {
	f := h.f
	pa := bars(p.up.Pressure)
	p.head(fmt.Sprintf("By hand: %s at its sag, 3000 m", f.ID))
	n := 10 * float64(c.legs)
	sealed := h.calc("F_gap", fmt.Sprintf("10·%s(%s − %s)·%s", times(c.legs), fixed(rest.pressure, 3), fixed(pa, 3), fixed(c.area, 3)), n*(rest.pressure-pa)*c.area, 1, "N", "sealed at home")
	vented := h.calc("F_gap", fmt.Sprintf("10·%s(%s·%s/%s − %s)·%s", times(c.legs), fixed(pa, 3), num(c.volume), fixed(rest.volume, 2), fixed(pa, 3), fixed(c.area, 3)),
		n*(pa*c.volume/rest.volume-pa)*c.area, 1, "N", "vented up there, extended")
	at := func(apply func(*setup.Setup) *setup.Setup) float64 {
		return treatment{fork: f, apply: apply}.change(p.up)
	}
	p.paragraph("%s N less: the fork goes from %s mm (sealed) to %s mm (vented) against home.", fixed(sealed-vented, 1),
		signed(at(func(s *setup.Setup) *setup.Setup { return s }), 1), signed(at((*setup.Setup).Vented), 1))
	left := h.calc("p_e", fmt.Sprintf("%s·%s/%s", fixed(h.pa, 3), fixed(rest.volume, 2), num(c.volume)), h.pa*rest.volume/c.volume, 3, "bar", "vented here, weight on the wheel")
	h.calc("F_gap", fmt.Sprintf("10·%s(%s − %s)·%s", times(c.legs), fixed(left, 3), fixed(h.pa, 3), fixed(c.area, 3)), n*(left-h.pa)*c.area, 1, "N", "then at full extension")
	if wrong, ok := f.sagOf(f.set.VentedAt(f.settled)); ok {
		p.paragraph("It pulls, and the sag goes from %s mm to %s mm.", fixed(f.sag.Middle.In(mm), 1), fixed(wrong.In(mm), 1))
	} else {
		p.paragraph("It pulls so much that the fork no longer carries the rider.")
	}
}
