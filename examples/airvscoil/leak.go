package main

import (
	"fmt"
	"math"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// leakRow is the sag at shares of the gas left.
type leakRow struct {
	fork *fork
	name string
	sag  func(remaining float64) (units.Length, bool)
}

// leaks are the forks with their gas leaking.
func (s *study) leaks() []leakRow {
	rows := []leakRow{
		{&s.air, "left alone", func(r float64) (units.Length, bool) { return s.air.sagOf(s.air.set.Leaked(r)) }},
		{&s.air, "pumped up again", func(r float64) (units.Length, bool) {
			leaked, err := s.air.set.Leaked(r)
			if err != nil {
				return 0, false
			}
			return s.air.sagOf(leaked.Refilled(), nil)
		}},
		{&s.coil, "nothing to leak", func(float64) (units.Length, bool) { return s.coil.sag.Middle, true }},
	}
	if s.coil.trapped() {
		rows = append(rows, leakRow{&s.coil, "leg seal gone", func(float64) (units.Length, bool) { return s.coil.sagOf(s.coil.set.Open()) }})
	}
	return rows
}

// across is where the air fork comes to rest under its rider while gas leaks from
// the main chamber into the negative one: at once at the old sag, and in the end.
func (s *study) across() (first, last units.Length, ok bool) {
	const steps = 200
	first, ok = s.air.sagOf(s.air.set.Equalized(s.air.settled))
	last = first
	for i := 0; ok && i < steps; i++ {
		last, ok = s.air.sagOf(s.air.set.Equalized(last))
	}
	return first, last, ok
}

func (p *pages) leak() {
	h := p.onAir
	p.topic("SAG AGAINST LEAK-DOWN (sag-leak)")
	const cell = 7
	shares := []float64{1, 0.95, 0.9, 0.85, 0.8, 0.7, 0.6}
	var heads, gauges []string
	for _, r := range shares {
		heads = append(heads, fixed(100*r, 0)+" %")
		gauges = append(gauges, fixed(h.p0*r-h.pa, 2))
	}
	p.row("Gas left in the air spring", cell, heads...)
	p.row("  gauge reading, bar", cell, gauges...)
	for _, row := range p.leaks() {
		var cells []string
		for _, r := range shares {
			x, ok := row.sag(r)
			v := x.In(mm)
			if !ok {
				v = math.NaN()
			}
			cells = append(cells, shown(v, 1))
		}
		p.row(row.fork.ID+", "+row.name+", mm", cell, cells...)
	}
	p.head("Why")
	p.paragraph("Gas that leaks out takes pressure with it in proportion, absolute: 10 %% of the gas is more than 10 %% of the reading, since the gauge starts at the ambient. Pumped up again all is as before (a leak is not cured by it). A coil cannot leak; when a leg seal goes, its trapped gas comes and goes freely and the fork loses only that part of its force, mostly deep in the travel.")
	p.head("By hand: 10 % of the gas gone")
	p.calc("gauge", fmt.Sprintf("0.9·%s − %s", fixed(h.p0, 3), fixed(h.pa, 3)), 0.9*h.p0-h.pa, 3, "bar")
	gain := h.warmerSpring(0.9)
	h.move(gain)
	if x, ok := p.leaks()[0].sag(0.9); ok {
		p.paragraph("Exactly %s mm.", signed((x-p.air.sag.Middle).In(mm), 1))
	}
	p.leakTime()
	p.leakAcross()
}

// leakTime prints how long a loss takes.
func (p *pages) leakTime() {
	h := p.onAir
	full := h.gaugeFilled()
	low := rounded(0.9*h.p0-h.pa, 3)
	const day = 24 * units.Hour
	leak, err := gas.LeakOf(h.spring.Fill.Gauge, units.Gauge(units.Pressure(0.97*full)*units.Bar), 7*day)
	if err != nil {
		return
	}
	p.head("How long that takes, if the reading falls by 3 % in a week (7 days)")
	tau := p.calc("τ_L", "7/ln(1/0.97)", 7/math.Log(1/0.97), 1, "d", library(leak.TimeConstant.In(day), 1, "d"))
	p.calc("t", fmt.Sprintf("%s·ln(%s/%s)", fixed(tau, 1), num(full), fixed(low, 3)), tau*math.Log(full/low), 0, "d")
	p.paragraph("Sound forks lose 1 to 3 %% a week off road and 2 to 5 %% a month on a bicycle (from memory). More than 0.3 bar in a day is a repair.")
}

// leakAcross prints what a leak from the main into the negative chamber does.
func (p *pages) leakAcross() {
	h := p.onAir
	p.head("From the main chamber into the negative one")
	if h.negVolume() == 0 {
		p.paragraph("%s has no negative chamber that gas could leak into.", p.air.ID)
		return
	}
	main, negative := h.rest.main, h.rest.negative
	shared := h.calc("p", fmt.Sprintf("(%s·%s + %s·%s)/(%s + %s)", fixed(main.pressure, 3), fixed(main.volume, 2), fixed(negative.pressure, 3), fixed(negative.volume, 2), fixed(main.volume, 2), fixed(negative.volume, 2)),
		(main.pressure*main.volume+negative.pressure*negative.volume)/(main.volume+negative.volume), 3, "bar", "both chambers")
	h.calc("F_air", fmt.Sprintf("10·%s(%s − %s)·%s", times(h.airs), fixed(shared, 3), fixed(h.pa, 3), fixed(h.outside(), 3)), 10*float64(h.airs)*(shared-h.pa)*h.outside(), 1, "N", "on the rod only")
	end := "and, as the leak goes on, in the end to its stop"
	first, last, ok := p.across()
	if ok {
		end = fmt.Sprintf("and, as the leak goes on, in the end to %s mm", fixed(last.In(mm), 1))
	}
	start := "The fork is sucked down"
	if first > 0 {
		start = fmt.Sprintf("The fork is sucked down from %s mm to %s mm", fixed(p.air.sag.Middle.In(mm), 1), fixed(first.In(mm), 1))
	}
	p.paragraph("No gas is lost and the pump may still show a fair reading, but at one pressure only the rod's section still carries. %s, %s. Pulled to full extension past its transfer port the fork is cured, until the piston has leaked again: it needs its seals.", start, end)
}
