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
		rows = append(rows, leakRow{&s.coil, "leg seal gone",
			func(float64) (units.Length, bool) { return s.coil.sagOf(s.coil.set.Open()) }})
	}
	return rows
}

// across is where the air fork comes to rest under its rider while gas leaks from the main chamber into the
// negative one: at once at the old sag, and in the end.
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
		gauges = append(gauges, fixed(h.value("p₀")*r-h.value("p_a"), 2))
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
			cells = append(cells, fixed(v, 1))
		}
		p.row(row.fork.ID+", "+row.name+", mm", cell, cells...)
	}
	h.say("leak")
	h.say("leaked")
	h.put("ratio", fixed(0.9, 4))
	x, _ := p.leaks()[0].sag(0.9)
	h.gain("lose", "leaked exactly", (x - p.air.sag.Middle).In(mm))
	p.leakTime()
	p.leakAcross()
}

// leakTime prints how long a loss takes.
func (p *pages) leakTime() {
	const day = 24 * units.Hour
	reading := p.onAir.spring.Fill.Gauge
	leak, err := gas.LeakOf(reading, units.Gauge(0.97*units.Pressure(reading.In(units.Bar))*units.Bar), 7*day)
	if err == nil {
		p.onAir.put("library", library(leak.TimeConstant.In(day), 1, "d"))
		p.onAir.say("leak time")
	}
}

// leakAcross prints what a leak from the main into the negative chamber does.
func (p *pages) leakAcross() {
	h := p.onAir
	h.say("to negative")
	h.put("down", "The fork is sucked down", "stop", "its stop")
	first, last, ok := p.across()
	if ok {
		h.put("stop", fixed(last.In(mm), 1)+" mm")
	}
	if first > 0 {
		h.put("down", fmt.Sprintf("The fork is sucked down from %s mm to %s mm", fixed(p.air.sag.Middle.In(mm), 1),
			fixed(first.In(mm), 1)))
	}
	h.sayIf(h.negative(), "across")
	h.sayIf(!h.negative(), "no negative")
}
