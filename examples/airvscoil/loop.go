package main

import (
	"fmt"
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
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

// space is a gas space of one leg at rest at some travel.
type space struct {
	gas.State
	area     units.Area   // of the piston that moves it
	joint    units.Volume // with what shares its pressure at rest only
	exchange gas.Exchange
}

// warmth is the usual difference between gas and wall for the estimate of heat
// exchange; the estimate goes with its fourth root.
const warmth = 30 * units.KelvinDifference

const rideFrequency = 2 * units.Hertz

// rate is the stiffness the space would have with that volume at n = 1, N/mm.
func (s space) rate(v units.Volume) float64 {
	return s.Pressure.In(units.Bar) * s.area.In(cm2) * s.area.In(cm2) / v.In(mL)
}

// spacesAt are the gas spaces of both legs at rest at a travel, the main chamber of
// an air spring first.
func (s *study) spacesAt(f *fork, x units.Length) ([]space, error) {
	var list []space
	// add takes a space filled to a pressure at one volume and compressed slowly to
	// another, of which a part is cut off when it moves fast.
	add := func(p units.AbsolutePressure, from, to, cutOff units.Volume, area units.Area, bore units.Length) error {
		here := space{area: area, joint: to, State: gas.State{Volume: to - cutOff, Temperature: s.here.Temperature,
			Pressure: units.Absolute(units.Pressure(p.In(units.Pascal) * float64(from/to)))}}
		e, err := gas.EstimateExchange(here.State, bore, warmth)
		if err != nil {
			return err
		}
		e.TimeConstant = units.Time(digits(float64(e.TimeConstant), 2)) // no more is known
		here.exchange = e
		list = append(list, here)
		return nil
	}
	for _, l := range f.legs() {
		if a := l.Air; a != nil {
			filled := spring.AirSpec{Bore: a.Bore, Rod: a.Rod, Volume: a.Volume - a.Reducers + a.Linked, Pressure: a.Fill.Absolute(), NegativeVolume: a.NegativeVolume, Port: a.Port}
			if a.NegativeGauge != (units.GaugePressure{}) {
				filled.NegativePressure = a.NegativeGauge.Absolute(s.here.Pressure)
			}
			filled = filled.Equalized()
			piston := geometry.Circle(a.Bore)
			p, from, to := filled.Pressure, filled.Volume, filled.Volume-swept(piston, x)
			if second := a.SecondGauge.Absolute(s.here.Pressure); a.SecondVolume > 0 && p.In(units.Pascal)*float64(from/to) > second.In(units.Pascal) {
				// The floating piston has left its stop: both chambers are one.
				amount := p.In(units.Pascal)*float64(from) + second.In(units.Pascal)*float64(a.SecondVolume)
				from, to = from+a.SecondVolume, to+a.SecondVolume
				p = units.Absolute(units.Pressure(amount / float64(from)))
			}
			if err := add(p, from, to, a.Linked, piston, a.Bore); err != nil {
				return nil, err
			}
			if a.NegativeVolume > 0 {
				ring := piston - geometry.Circle(a.Rod)
				if err := add(filled.NegativePressure, a.NegativeVolume, a.NegativeVolume+swept(ring, x), 0, ring, a.Bore); err != nil {
					return nil, err
				}
			}
		}
	}
	for _, l := range f.legs() {
		if g := l.Gap; g != nil {
			extended := g.Residual + swept(g.Area, f.set.Travel())
			if err := add(g.Gauge.Absolute(s.here.Pressure), extended, extended-swept(g.Area, x), 0, g.Area, f.StanchionBore.Value); err != nil {
				return nil, err
			}
		}
		if d := l.Damper; d != nil {
			rod := geometry.Circle(d.Rod)
			// Its vessel is taken as wide as the leg is inside.
			if err := add(d.Fill.Absolute(), d.Volume, d.Volume-swept(rod, x), 0, rod, f.StanchionBore.Value); err != nil {
				return nil, err
			}
		}
	}
	return list, nil
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
		c, err := gas.NewCycle(gas.CycleSpec{Rest: l.main.State, Amplitude: swept(l.main.area, l.amplitude), Frequency: f, Exchange: l.main.exchange})
		if err != nil {
			return loop{}, fmt.Errorf("-air: %s: %w", s.air.ID, err)
		}
		l.cycles = append(l.cycles, cycle{c, f})
	}
	return l, nil
}

// dynamic is the stiffness of the fork in small movements about its sag, in phase
// with the movement and ahead of it, N/mm.
func (f *fork) dynamic(at units.Frequency) (inPhase, ahead float64) {
	inPhase = f.rest().Rate(f.settled).In(npm)
	for _, g := range f.spaces {
		k := g.rate(g.Volume) * g.exchange.Exponent(at)
		inPhase += k - g.rate(g.joint)
		ahead += k * g.exchange.LossFactor(at)
	}
	return inPhase, ahead
}

func (p *pages) loopPage() {
	l := p.loop
	p.topic("THE p–V LOOP OF THE MAIN CHAMBER (pv-loop)")
	name := "Frequency, Hz"
	var f, n, loss, power, cold, hot []string
	for _, c := range l.cycles {
		f = append(f, num(float64(c.frequency)))
		n = append(n, fixed(c.Exponent(), 2))
		loss = append(loss, fixed(c.Loss().In(units.Joule), 2))
		power = append(power, fixed(c.Loss().In(units.Joule)*float64(c.frequency), 2))
		lowest, highest := c.temperatures()
		cold, hot = append(cold, fixed(lowest, 0)), append(hot, fixed(highest, 0))
	}
	p.row(name, 10, f...)
	p.row("Exponent between the ends of the stroke", 10, n...)
	p.row("Heat left in the wall each cycle, J", 10, loss...)
	p.row("  on average, W", 10, power...)
	p.row("Coldest gas, °C", 10, cold...)
	p.row("Hottest gas, °C", 10, hot...)
	p.head("Why")
	p.paragraph("Compressed, the gas warms; expanded, it cools; all the time heat runs to or from the wall, with a time constant τ of about %s s (an estimate, ±50 %%). Very slow, the gas stays as warm as the wall and goes up and down on one line, p·V = constant. Very fast, no heat has time to pass: one line again, steeper, p·V^1.4. In between the gas gives heat away at high pressure and takes it back at low pressure, so it pushes less on the way out than on the way in. The area of that loop is work turned to heat in the wall, each cycle.", num(float64(l.main.exchange.TimeConstant)))
	p.paragraph("The loop is that of one leg, ±%s mm about the sag. Beside it stands friction: ±%.0f N over four times %s mm take %.1f J a cycle, at any frequency.",
		num(l.amplitude.In(mm)), p.air.set.Friction().In(units.Newton), num(l.amplitude.In(mm)), 4*float64(p.air.set.Friction())*float64(l.amplitude))
	h := p.onAir
	rest := h.rest
	p.head("By hand: corners of the stroke, and the loss at " + num(float64(l.cycles[1].frequency)) + " Hz as for a small one")
	if h.linked() > 0 {
		rest = h.cutOff(rest)
	}
	swing := p.calc("V̂", fixed(h.area, 3)+"·"+num(l.amplitude.In(cm)), h.area*l.amplitude.In(cm), 2, "mL", "swing of the volume")
	for _, n := range []float64{gas.Isothermal, gas.Adiabatic} {
		p.calc("p", fmt.Sprintf("%s·(%s/(%s − %s))^%s", fixed(rest.main.pressure, 3), fixed(rest.main.volume, 2), fixed(rest.main.volume, 2), fixed(swing, 2), num(n)),
			rest.main.pressure*math.Pow(rest.main.volume/(rest.main.volume-swing), n), 2, "bar", "fully in, "+map[bool]string{true: "very slow", false: "very fast"}[n == gas.Isothermal])
	}
	k := p.calc("k", fixed(rest.main.pressure, 3)+"·"+fixed(h.area, 3)+"²/"+fixed(rest.main.volume, 2), rest.main.pressure*h.area*h.area/rest.main.volume, 3, "N/mm", "main chamber, at rest")
	exponent, lossFactor := p.heat(l.cycles[1].frequency)
	x := num(l.amplitude.In(mm))
	p.calc("E", fmt.Sprintf("π·%s·%s·%s·%s²/1000", fixed(k, 3), fixed(exponent, 3), fixed(lossFactor, 4), x),
		math.Pi*k*exponent*lossFactor*l.amplitude.In(mm)*l.amplitude.In(mm)/1000, 2, "J")
	p.WriteByte('\n')
	p.paragraph("The three lines before E are the formulas of topic 5. They are for small strokes; the loop integrated over this one has %s J.", fixed(l.cycles[1].Loss().In(units.Joule), 2))
}

// heat prints exponent and loss factor of the main chamber at a frequency.
func (p *pages) heat(f units.Frequency) (exponent, lossFactor float64) {
	e := p.loop.main.exchange
	lag := p.calc("ωτ", "2·π·"+num(float64(f))+"·"+num(float64(e.TimeConstant)), 2*math.Pi*float64(f)*float64(e.TimeConstant), 4, "")
	w := fixed(lag, 4)
	exponent = p.calc("n", "(1 + 1.4·"+w+"²)/(1 + "+w+"²)", (1+1.4*lag*lag)/(1+lag*lag), 3, "", "library "+fixed(e.Exponent(f), 3))
	lossFactor = p.calc("tan δ", "0.4·"+w+"/(1 + 1.4·"+w+"²)", 0.4*lag/(1+1.4*lag*lag), 4, "", "library "+fixed(e.LossFactor(f), 4))
	return exponent, lossFactor
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
	var heads, n, tan, air, coil, stiff []string
	for _, f := range []units.Frequency{0.01, 0.03, 0.1, 0.3, 1, 3, 10} {
		heads = append(heads, num(float64(f)))
		n = append(n, fixed(p.loop.main.exchange.Exponent(f), 2))
		tan = append(tan, fixed(p.loop.main.exchange.LossFactor(f), 3))
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
	p.head("Why")
	p.paragraph("How much heat gets through in one cycle depends on frequency times τ alone. n goes from 1 (slow) to 1.4 (fast); the loss factor tan δ, by how much the force leads the movement, is largest at ωτ = 1/√1.4 = 0.845, where it is 0.169, and nothing at both ends. For small movements:")
	p.paragraph("n = (1 + 1.4·ω²τ²)/(1 + ω²τ²), tan δ = 0.4·ωτ/(1 + 1.4·ω²τ²).")
	p.paragraph("Long braking and corners are at 0.05 to 0.2 Hz, where the air spring creeps and loses most. The body moves at 1 to 3 Hz and the wheel at 8 to 15 Hz (typical, from memory): there the gas is fast, n is near 1.4 and there is hardly any loss. The table of force uses n = %s, the habit of the trade between the two. A coil has no such loss; %s has only that of the gas closed in its legs.", num(p.ride), p.coil.ID)
	if p.onAir.linked() > 0 {
		p.paragraph("The linked volume of %s is taken as cut off at every frequency, although the orifice lets gas through at the lowest.", p.air.ID)
	}
	p.head("By hand: the main chamber at 0.1 Hz")
	p.heat(0.1)
	m := p.loop.main
	amount := p.calc("m", fmt.Sprintf("28.96·%s·100000·%s·0.000001/(8.3145·%s)", fixed(bars(m.Pressure), 3), fixed(m.Volume.In(mL), 2), num(kelvin(m.Temperature))),
		28.96*bars(m.Pressure)*0.1*rounded(m.Volume.In(mL), 2)/(8.3145*kelvin(m.Temperature)), 2, "g", "air in it, M·p·V/(R·T)")
	bore := p.onAir.spring.Bore.In(cm)
	wall := p.calc("S", fmt.Sprintf("4·%s/%s + 2·%s", fixed(m.Volume.In(mL), 2), num(bore), fixed(p.onAir.area, 3)), 4*rounded(m.Volume.In(mL), 2)/bore+2*p.onAir.area, 1, "cm²", "its walls")
	p.calc("h", fmt.Sprintf("%s·0.718/(%s·%s)·10000", fixed(amount, 2), num(float64(m.exchange.TimeConstant)), fixed(wall, 1)),
		amount*0.718/(float64(m.exchange.TimeConstant)*wall)*10000, 0, "W/(m²·K)", "that the τ above stands for")
	p.WriteByte('\n')
	p.paragraph("τ = m·c_v/(h·S), with c_v = 0.718 J/(g·K). The library takes h from natural convection at a vertical wall with the gas %.0f K off the wall. Oil mist and splash make τ shorter; no measurement in a fork is known.", warmth.In(units.KelvinDifference))
}
