package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// loop is the main chamber of the air fork swinging about the sag.
type loop struct {
	main      space
	amplitude units.Length // half the stroke
	cycles    []cycle      // slow, of the most loss, ridden
}

type cycle struct {
	*gas.Cycle
	frequency units.Frequency
}

// space is gas of one leg at rest at some travel that moves together in a fast stroke.
type space struct {
	setup.Space
	State    gas.State    // with that behind a floating piston off its stop
	Shared   units.Volume // of all that shares its pressure at rest, behind an orifice too
	exchange gas.Exchange
}

// warmth is the usual difference between gas and wall for the estimate of heat exchange; the estimate goes with its
// fourth root.
const warmth = 30 * units.KelvinDifference

const rideFrequency = 2 * units.Hertz

// rate is the stiffness the space would have with that volume at n = 1, N/mm.
func (s space) rate(v units.Volume) float64 {
	return s.State.Pressure.In(units.Bar) * s.Area.In(cm2) * s.Area.In(cm2) / v.In(mL)
}

// breathe finds the gas spaces of the fork at rest at its sag, the main chamber of an air spring first, and how
// fast they lose heat.
func (f *fork) breathe() error {
	all, err := f.set.Spaces(f.settled, gas.Isothermal)
	if err != nil {
		return err
	}
	var main int // the positive chamber of the leg
	for _, c := range all {
		switch v := c.Gas.Volume; c.Chamber {
		case setup.Linked:
			f.spaces[main].Shared += v
			continue
		case setup.Second:
			if c.Gas.Pressure == f.spaces[main].State.Pressure {
				f.spaces[main].State.Volume += v
				f.spaces[main].Shared += v
			}
			continue
		}
		main = len(f.spaces)
		f.spaces = append(f.spaces, space{Space: c, State: c.Gas, Shared: c.Gas.Volume})
	}
	for i := range f.spaces {
		s := &f.spaces[i]
		bore := f.StanchionBore.Value // the vessel of a damper is taken as wide as the leg is inside
		if s.ofAir() {
			bore = f.legs()[s.Side].Air.Bore
		}
		if s.exchange, err = gas.EstimateExchange(s.State, bore, warmth); err != nil {
			return err
		}
		s.exchange.TimeConstant = units.Time(digits(float64(s.exchange.TimeConstant), 2)) // no more is known
	}
	// Air springs before the others.
	slices.SortStableFunc(f.spaces, func(a, b space) int { return cmp.Compare(a.place(), b.place()) })
	return nil
}

func (s space) ofAir() bool { return s.Chamber == setup.Positive || s.Chamber == setup.Negative }

func (s space) place() int {
	switch {
	case s.ofAir():
		return 0
	case s.Chamber == setup.Reservoir:
		return 1
	}
	return 2
}

func swept(a units.Area, x units.Length) units.Volume { return units.Volume(float64(a) * float64(x)) }

// digits rounds to that many significant digits.
func digits(v float64, n int) float64 {
	return rounded(v, n-1-int(math.Floor(math.Log10(v))))
}

func (s *study) newLoop() (loop, error) {
	l := loop{main: s.air.spaces[0]}
	room := min(s.air.settled, s.air.set.Travel()-s.air.settled)
	l.amplitude = units.Length(max(math.Floor(0.8*room.In(mm)), 0.5)) * mm
	most := digits(1/(2*math.Pi*float64(l.main.exchange.TimeConstant)*math.Sqrt(gas.Adiabatic)), 2)
	for _, f := range []units.Frequency{units.Frequency(most) / 10, units.Frequency(most), rideFrequency} {
		c, err := gas.NewCycle(gas.CycleSpec{Rest: l.main.State, Amplitude: swept(l.main.Area, l.amplitude),
			Frequency: f, Exchange: l.main.exchange})
		if err != nil {
			return loop{}, fmt.Errorf("-air: %s: %w", s.air.ID, err)
		}
		l.cycles = append(l.cycles, cycle{c, f})
	}
	return l, nil
}

// dynamic is the stiffness of the fork in small movements about its sag, in phase with the movement and ahead of
// it, N/mm.
func (f *fork) dynamic(at units.Frequency) (inPhase, ahead float64) {
	inPhase = f.rest().Rate(f.settled).In(npm)
	for _, g := range f.spaces {
		k := g.rate(g.State.Volume) * g.exchange.Exponent(at)
		inPhase += k - g.rate(g.Shared)
		ahead += k * g.exchange.LossFactor(at)
	}
	return inPhase, ahead
}

func (p *pages) loopPage() {
	l := p.loop
	p.topic("THE p–V LOOP OF THE MAIN CHAMBER (pv-loop)")
	var f, n, loss, power, cold, hot []string
	for _, c := range l.cycles {
		f = append(f, num(float64(c.frequency)))
		n = append(n, fixed(c.Exponent(), 2))
		loss = append(loss, fixed(c.Loss().In(units.Joule), 2))
		power = append(power, fixed(c.Loss().In(units.Joule)*float64(c.frequency), 2))
		lowest, highest := c.temperatures()
		cold, hot = append(cold, fixed(lowest, 0)), append(hot, fixed(highest, 0))
	}
	p.row("Frequency, Hz", 10, f...)
	p.row("Exponent between the ends of the stroke", 10, n...)
	p.row("Heat left in the wall each cycle, J", 10, loss...)
	p.row("  on average, W", 10, power...)
	p.row("Coldest gas, °C", 10, cold...)
	p.row("Hottest gas, °C", 10, hot...)
	h, peak := p.onAir, l.cycles[1]
	symbols := []string{"τ", num(float64(l.main.exchange.TimeConstant)), "X", num(l.amplitude.In(cm)), "X_mm",
		num(l.amplitude.In(mm)),
		"E_r", fmt.Sprintf("%.1f", 4*float64(p.air.set.Friction())*float64(l.amplitude)),
		"f", num(float64(peak.frequency)), "loss", fixed(peak.Loss().In(units.Joule), 2)}
	h.put(symbols...)
	h.say("loop")
	if h.linked() {
		h.cutOff()
	}
	h.say("loop by hand")
	h.heat(l.main.exchange, peak.frequency)
	h.say("loop loss")
	h.back()
}

// heat prints exponent and loss factor of a gas space at a frequency.
func (h *hand) heat(e gas.Exchange, f units.Frequency) {
	n := h.symbols["n"]
	h.put("f", num(float64(f)), "τ", num(float64(e.TimeConstant)), "n_lib", fixed(e.Exponent(f), 3), "tan_lib",
		fixed(e.LossFactor(f), 4))
	h.say("heat")
	h.put("n_ω", h.symbols["n"], "n", n)
}

// temperatures are the least and the most in the cycle, °C.
func (c cycle) temperatures() (lowest, highest float64) {
	lowest, highest = math.Inf(1), math.Inf(-1)
	for s := range c.Loop() {
		t := s.Temperature.Celsius()
		lowest, highest = min(lowest, t), max(highest, t)
	}
	return lowest, highest
}

func (p *pages) exchangePage() {
	p.topic("EXPONENT AND LOSS AGAINST FREQUENCY (exponent, loss-factor)")
	m := p.loop.main
	var heads, n, tan, air, coil, stiff []string
	for _, f := range []units.Frequency{0.01, 0.03, 0.1, 0.3, 1, 3, 10} {
		heads = append(heads, num(float64(f)))
		n = append(n, fixed(m.exchange.Exponent(f), 2))
		tan = append(tan, fixed(m.exchange.LossFactor(f), 3))
		k, ahead := p.air.dynamic(f)
		air = append(air, fixed(ahead/k, 3))
		stiff = append(stiff, fixed(k, 2))
		k, ahead = p.coil.dynamic(f)
		coil = append(coil, fixed(ahead/k, 3))
	}
	const cell = 7
	p.row("Frequency, Hz", cell, heads...)
	p.row("Exponent, main chamber", cell, n...)
	p.row("Loss factor of it", cell, tan...)
	p.row("Rate of "+p.air.ID+", N/mm", cell, stiff...)
	p.row("Loss factor of "+p.air.ID, cell, air...)
	p.row("Loss factor of "+p.coil.ID, cell, coil...)
	h := p.onAir
	h.say("exchange")
	h.sayIf(h.linked(), "exchange linked")
	h.say("exchange by hand")
	h.heat(m.exchange, 0.1)
	h.put("p", bars(m.State.Pressure), "V", fixed(m.State.Volume.In(mL), 2), "T", kelvin(m.State.Temperature), "warmth",
		num(warmth.In(units.KelvinDifference)))
	h.say("film")
	h.back()
}
