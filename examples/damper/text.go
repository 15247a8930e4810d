package main

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

// speeds of the tables, m/s.
var speeds = []units.Speed{0.05, 0.1, 0.25, 0.5, 1, 2, 3}

// ranges of speed along the axis and what makes them, from memory.
var ranges = []struct {
	name     string
	from, to units.Speed
}{
	{"rider, corner entry", 0.02, 0.15},
	{"braking dive", 0.1, 0.4},
	{"bumps", 0.4, 1.5},
	{"edges, landings", 1.5, 3},
}

// typicalForks are forces of a whole motocross fork, compression and rebound in N
// by speed in m/s; from memory, ±50 %.
var typicalForks = map[units.Speed][2]units.Force{0.1: {90, 190}, 0.5: {190, 480}, 1: {310, 760}, 3: {650, 1500}}

const typicalFork = "M06" // the kind of fork they are of

const typicalError = 0.5

func text(j *job) string {
	var s sheet
	s.WriteString("AN INVENTED DAMPER AND WHAT IT DOES IN A FORK\n" + strings.Repeat("=", typeset.Width) + "\n")
	s.Paragraph("", "The damper is no maker's. Forces of a damper of this kind are known from memory to ±50 %, and this one was tuned to lie in that range in a motocross fork. It shows what a change does; how strong a damper really is, a test bench tells.")
	s.given(j)
	s.forces(j)
	s.shares(j)
	s.ratios(j)
	s.limits(j)
	s.rebound(j)
	s.heat(j)
	s.cautions()
	return s.String()
}

func (s *sheet) given(j *job) {
	s.Section("GIVEN")
	s.Line("Fork", fmt.Sprintf("%s: %s", j.fork.ID, j.fork.Name))
	s.Line("Dampers", fmt.Sprintf("%s with one cartridge each; all forces are those of the whole fork, oil alone, without its friction of ±%.0f N", count(j.legs, "leg"), j.fork.Friction.Value.In(units.Newton)))
	s.Line("Cartridge", fmt.Sprintf("bore %.0f mm, rod %.1f mm: %.0f mm² drive oil through the piston, the rod's %.0f mm² through the base; %.1f bar absolute in the reservoir behind it",
		bore.In(mm), rod.In(mm), ring.In(mm2), rodArea.In(mm2), reservoir.In(units.Bar)))
	s.Line("Piston", "check plate for compression; shims, a needle and a hole for rebound")
	s.Line("Base", "shims, a bore with a needle and a blow-off for compression; check plate for the refill in rebound")
	needles := fmt.Sprintf("rebound %d, compression %d of %d clicks out from closed", j.rebound, j.compression, clicks)
	if min(j.rebound, j.compression) < 2 {
		needles += "; less than 2 out, real needles jam and a check plate may stick"
	}
	s.Line("Needles", needles)
	var oils []string
	for _, t := range j.states {
		oils = append(oils, fmt.Sprintf("%s mm²/s at %s °C", sig(t.viscosity.In(units.SquareMillimeterPerSecond)), degrees(t.celsius)))
	}
	s.Line("Oil", fmt.Sprintf("%s: %s (ASTM D341 through %.1f mm²/s at 40 °C, viscosity index %.0f)",
		j.fluid.ID, strings.Join(oils, ", "), j.fluid.Viscosity.Value.In(units.SquareMillimeterPerSecond), j.fluid.Index.Value))
}

func (s *sheet) forces(j *job) {
	s.Section("FORCE AGAINST SPEED, N")
	s.Paragraph("  ", "What resists the motion along the fork axis. Cold oil thickens what is laminar: the bore, and the film under shims that barely lift. Openings follow density only, so the fast end hardly fades.")
	typical := j.fork.ID == typicalFork
	heads := []string{"compression", "rebound"}
	s.Row("speed", 12, heads, 24, 24)
	var cells []string
	for range 2 {
		for _, t := range j.states {
			cells = append(cells, degrees(t.celsius)+" °C")
		}
	}
	if typical {
		cells = append(cells, "typical ±50 %")
	}
	s.Row("m/s", 12, cells, 8, 8, 8, 8, 8, 8, 18)
	for _, v := range speeds {
		cells = nil
		for _, sign := range []units.Speed{1, -1} {
			for _, t := range j.states {
				cells = append(cells, fmt.Sprintf("%.0f", math.Abs(t.fork.Force(sign*v).In(units.Newton))))
			}
		}
		if f, ok := typicalForks[v]; ok && typical {
			cells = append(cells, fmt.Sprintf("%.0f / %.0f", f[0].In(units.Newton), f[1].In(units.Newton)))
		}
		s.Row(fmt.Sprintf("%.2f", float64(v)), 12, cells, 8, 8, 8, 8, 8, 8, 18)
	}
	hot := j.states[len(j.states)-1]
	fade := func(v units.Speed) float64 {
		kelvins := hot.celsius - temperatures[warm]
		return -100 * math.Log(float64(hot.fork.Force(v)/j.states[warm].fork.Force(v))) / kelvins
	}
	s.Line("Fade", fmt.Sprintf("from %.0f to %.0f °C the damper loses %.2f %%/K of its rebound at 0.1 m/s and %.2f %%/K at 1 m/s (0.2 where valves do not care for viscosity, 2 at worst; from memory)",
		temperatures[warm], hot.celsius, fade(-0.1), fade(-1)))
}

func (s *sheet) shares(j *job) {
	t := j.states[warm]
	s.Section(fmt.Sprintf("WHICH PART MAKES THE FORCE, %% at %s °C", degrees(t.celsius)))
	s.Paragraph("  ", "A part that passes the flow q at the pressure drop Δp turns Δp·q into heat, and all of them together turn F·v into heat. So Δp·q/v is the part's share of the force.")
	for _, sign := range []units.Speed{1, -1} {
		var cells []string
		for _, v := range speeds {
			cells = append(cells, fmt.Sprintf("%.2f", float64(v)))
		}
		s.Row(map[units.Speed]string{1: "compression, m/s", -1: "rebound, m/s"}[sign], 24, cells, 8)
		var rows [][]string
		var names []string
		for _, v := range speeds {
			all := t.leg.shares(sign * v)
			var sum units.Force
			for _, p := range all {
				sum += p.force
			}
			for i, p := range all {
				if len(rows) <= i {
					rows, names = append(rows, nil), append(names, p.name)
				}
				rows[i] = append(rows[i], fmt.Sprintf("%.0f", 100*float64(p.force/sum)))
			}
		}
		for i, r := range rows {
			if strings.Trim(strings.Join(r, ""), "0") == "" { // it never opens
				continue
			}
			s.Row("  "+names[i], 24, r, 8)
		}
	}
	q := t.leg.bleedFlow(slow)
	s.Line("Is the bore laminar?", fmt.Sprintf("its Reynolds number is %.0f at %.1f m/s and %.0f at %.0f m/s; the law holds below %d",
		t.leg.bleed.Reynolds(q, t.leg.oil), float64(slow), t.leg.bleed.Reynolds(t.leg.bleedFlow(3), t.leg.oil), 3.0, damping.TransitionReynolds))
}

func (s *sheet) ratios(j *job) {
	s.Section("DAMPING RATIO ABOUT THE SAG")
	s.Line("Body", fmt.Sprintf("%.0f kg sprung on the fork, along its axis (m·cos² rake), on %.1f N/mm at %.0f mm of sag: %.1f Hz undamped, critical damping %.0f N·s/m",
		float64(j.mass), j.rate.In(units.NewtonPerMillimeter), j.sag.Middle.In(mm), j.body.Frequency().In(units.Hertz), float64(j.body.Critical())))
	s.Paragraph("  ", "Force over speed, as a part of the critical damping, averaged over each range. Below 1 the body swings past its rest; usual are 0.3 to 0.7 as the mean of both strokes, lower at speed, and rebound 2 to 3 times compression (from memory).")
	s.Row("range, m/s", 34, []string{"compression", "rebound"}, 21, 21)
	var cells []string
	for range 2 {
		for _, t := range j.states {
			cells = append(cells, degrees(t.celsius)+" °C")
		}
	}
	s.Row("", 34, cells, 7)
	for _, r := range ranges {
		cells = nil
		for _, sign := range []units.Speed{1, -1} {
			for _, t := range j.states {
				cells = append(cells, fmt.Sprintf("%.2f", j.meanRatio(t.fork, sign*r.from, sign*r.to)))
			}
		}
		s.Row(fmt.Sprintf("%.2f to %.2f  %s", float64(r.from), float64(r.to), r.name), 34, cells, 7)
	}
	f := j.fork.Friction.Value
	s.Line("Friction", fmt.Sprintf("±%.0f N of the fork hold the body anywhere within ±%.1f mm of its rest, and outweigh the oil up to %.2f m/s in compression",
		f.In(units.Newton), j.body.Held(f).In(mm), float64(j.overFriction())))
	s.Line("Does it suit?", j.suits())
}

// suits says whether the damper is of the size of the fork.
func (j *job) suits() string {
	d := j.states[warm].fork
	mean := (j.meanRatio(d, 0.1, 1) + j.meanRatio(d, -0.1, -1)) / 2
	text := fmt.Sprintf("the mean of both strokes from 0.1 to 1 m/s at %s °C is %.2f: ", degrees(j.states[warm].celsius), mean)
	switch {
	case mean < 0.2:
		return text + "far too little for this fork, which takes a larger damper or other shims"
	case mean > 1:
		return text + "far too much for this fork, which takes a smaller damper or other shims"
	case mean < 0.3 || mean > 0.7:
		return text + "at the edge of what is usual; other shims would bring it in"
	}
	return text + "within what is usual"
}

// overFriction is the speed at which the warm oil resists compression as much as
// friction does.
func (j *job) overFriction() units.Speed {
	v, _ := onset(func(v units.Speed) bool { return j.states[warm].fork.Force(v) > j.fork.Friction.Value })
	return v
}

func (s *sheet) limits(j *job) {
	s.Section("WHERE THE MODEL ENDS")
	s.Line("Cavitation", "a room of the cartridge falls to vacuum when the oil cannot follow, and the damper goes soft and knocks. Air leaves real oil earlier.")
	low := units.Absolute(1 * units.Bar)
	for _, t := range j.states {
		weak, err := t.leg.discharged(low)
		if err != nil {
			continue
		}
		s.Line(fmt.Sprintf("  at %s °C", degrees(t.celsius)), fmt.Sprintf("compression %s, rebound %s; with the reservoir down to %.0f bar %s and %s",
			from(t.leg.cavitation(1)), from(t.leg.cavitation(-1)), low.In(units.Bar), from(weak.cavitation(1)), from(weak.cavitation(-1))))
	}
	t := j.states[warm]
	for _, stack := range t.leg.stacks {
		v, ok := t.leg.overLift(stack)
		if !ok {
			s.Line("Shims, "+stack.name, "never lift by their own thickness: plate theory holds")
			continue
		}
		s.Line("Shims, "+stack.name, fmt.Sprintf("lift off at %.1f bar and by their own thickness of %.2f mm at %.1f m/s; beyond, real shims are stiffer than these",
			stack.shims.Crack().In(units.Bar), stack.thickness.In(mm), float64(v)))
	}
	s.Line("Also left out", "foam, the oil's compression and inertia, turbulence in the bore, and wear: all that is not in the formulas of package damping")
}

// from is the speed of an onset in words.
func from(v units.Speed, ok bool) string {
	if !ok {
		return fmt.Sprintf("none up to %.0f m/s", float64(v))
	}
	return fmt.Sprintf("from %.1f m/s", float64(v))
}

func (s *sheet) rebound(j *job) {
	c := &j.change
	npm := units.NewtonPerMillimeter
	s.Section(minus(fmt.Sprintf("WHAT OTHER SPRINGS ASK OF REBOUND: %s %+.0f %%", c.what, c.percent)))
	s.Line("Same damping ratio", fmt.Sprintf("rate about the sag %.2f to %.2f N/mm: √ of their ratio, %.3f times the rebound; what small bumps ask for",
		c.oldRate.In(npm), c.newRate.In(npm), c.common.Ratio))
	s.Line("Same return speed", fmt.Sprintf("force at %.0f mm, three quarters of the travel, %.0f to %.0f N: their ratio, %.3f times; what big ones ask for",
		c.depth.In(mm), c.oldForce.In(units.Newton), c.newForce.In(units.Newton), c.common.Return))
	s.Line("A usual click", fmt.Sprintf("of %.0f %% (common practice): %s", 100*damping.CommonClick, inClicks(c.common)))
	s.Line("A click of this one", fmt.Sprintf("changes rebound by %.1f %% at %.1f m/s about %d out, by %.1f %% at %.1f m/s: %s", 100*math.Expm1(c.slow), float64(slow), j.rebound, 100*math.Expm1(c.fast), float64(fast), inClicks(c.own)))
	var reached []string
	for _, set := range c.settings {
		reached = append(reached, fmt.Sprintf("%d out gives %.3f for %.3f", set.out, set.reached, set.factor))
	}
	s.Line("On the needle", fmt.Sprintf("at %.1f m/s from %d out: %s", float64(slow), j.rebound, strings.Join(reached, ", ")))
	s.Line("To do", c.own.Advice())
	if c.fast < c.slow/2 {
		s.Line("", "This needle hardly reaches the shims' range: for another rebound at speed the stack has to be changed.")
	}
	s.Line("Compression", "a stiffer spring needs the same or slightly less of it (common practice)")
}

// inClicks are the bounds of a change in clicks.
func inClicks(r damping.Rebound) string {
	lo, hi := r.Clicks()
	return minus(fmt.Sprintf("%+.1f to %+.1f clicks, + is firmer", lo, hi))
}

func (s *sheet) heat(j *job) {
	s.Section(fmt.Sprintf("HEAT, AT %.0f W IN THE WHOLE FORK", float64(j.power)))
	each := j.power / units.Power(j.legs)
	rise := float64(j.warming.Rise(each, lap))
	s.Line("Typical", "rough motocross lap 100 to 250 W a fork, downhill bicycle 30 to 80 W, rough road 20 to 40 W; from memory, within a factor of 2")
	const amplitude, frequency = 40 * mm, 2 * units.Hertz
	if p, err := damping.MeanPower(j.states[warm].fork, amplitude, frequency); err == nil {
		s.Line("For comparison", fmt.Sprintf("%.0f mm up and down, %.0f times a second, make %.0f W in this fork", amplitude.In(mm), frequency.In(units.Hertz), float64(p)))
	}
	s.Line("Leg", fmt.Sprintf("%.2f kg of oil and %.2f kg of aluminum lose %d W/K to the air that moves past: time constant %.0f min; from memory, good to a factor of 1.5",
		float64(oilMass), float64(tubeMass), loss, j.warming.TimeConstant().In(units.Minute)))
	s.Line("Rise above the air", fmt.Sprintf("%.0f K after %.0f min from cold, %.0f K at last", rise, lap.In(units.Minute), float64(j.warming.Steady(each))))
	s.Line("What it does", j.faded(rise))
	t := j.states[warm]
	pressure := math.Abs(float64(network(t.leg.piston).Drop(units.Flow(-1*float64(ring)), t.leg.oil)))
	s.Line("In the valve", fmt.Sprintf("oil through the piston at 1 m/s of rebound drops %.1f bar and leaves %.1f K warmer, Δp/(ρ·c)",
		units.Pressure(pressure).In(units.Bar), float64(damping.Throttled(units.Pressure(pressure), t.leg.oil, damping.OilHeat))))
}

// faded is what the rise does to the force, starting from the warm state.
func (j *job) faded(rise float64) string {
	t := j.states[warm]
	hot, err := j.at(t.celsius + rise)
	if err != nil {
		return fmt.Sprintf("in air of %s °C the oil would be at %.0f °C, where it is not known: so much heat boils and breaks down oil", degrees(t.celsius), t.celsius+rise)
	}
	left := func(v units.Speed) float64 { return 100 * float64(hot.fork.Force(v)/t.fork.Force(v)) }
	return fmt.Sprintf("in air of %s °C the oil is at %.0f °C; %.0f %% of the rebound is left at %.1f m/s and %.0f %% at %.1f m/s, as if the needle were %s out",
		degrees(t.celsius), hot.celsius, left(-slow), float64(slow), left(-fast), float64(fast), count(int(math.Round(-math.Log(left(-slow)/100)/j.change.slow)), "more click"))
}

func (s *sheet) cautions() {
	s.Section("CAUTIONS")
	for _, c := range []string{
		"A cartridge holds gas and oil under pressure: release it before opening, as the manual of the fork says. Hot oil burns.",
		"Change one thing at a time, two clicks at most, and note the setting; stay 2 clicks off closed. Test carefully at low speed after every change of oil, shims or springs.",
		"Computed damping is a starting point. The manual of the fork and its maker's limits prevail.",
	} {
		s.Paragraph("  - ", c)
	}
}

// count is a number of things.
func count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// degrees is a temperature, minus a text with true minuses.
func degrees(c float64) string { return minus(fmt.Sprintf("%.0f", c)) }

func minus(text string) string { return strings.ReplaceAll(text, "-", "−") }

// sig is a number to three figures.
func sig(v float64) string { return fmt.Sprintf("%.*f", max(0, 2-int(math.Floor(math.Log10(v)))), v) }
