package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// leg is what is done to one leg, in words.
type leg struct {
	Name, Out, Measure, Oil, Spacer string
}

// Legs are the left leg and the right one: what comes out, what stays, what goes in. Two alike are told once.
func (f facts) Legs() []leg {
	var list []leg
	for side, present := range []setup.Leg{f.Job.Present.Left, f.Job.Present.Right} {
		name := strings.ToUpper(setup.Side(side).String()[:1]) + setup.Side(side).String()[1:] + " leg"
		at := slices.IndexFunc(f.Job.Legs, func(l conversion.ConvertedLeg) bool { return l.Side == setup.Side(side) })
		if at < 0 || at >= len(f.Best.Builds) {
			list = append(list, leg{Name: name, Out: untouched(present)})
			continue
		}
		l, b := f.Job.Legs[at], f.Best.Builds[at]
		list = append(list, leg{Name: name, Out: f.comesOut(f.taken(present), l), Measure: f.measure(l),
			Oil:    f.oil(l, b),
			Spacer: f.spacer(b)})
	}
	if left, right := list[0], list[1]; len(f.Job.Legs) == 2 {
		left.Name, right.Name = "Each leg", "Each leg"
		if left == right {
			blank := strings.NewReplacer("____", "____, ____") // left, right
			left.Out, left.Measure, left.Oil = blank.Replace(left.Out), blank.Replace(left.Measure), blank.Replace(left.Oil)
			return []leg{left}
		}
	}
	return list
}

// untouched is a leg that gets no spring.
func untouched(l setup.Leg) string {
	switch {
	case l.Air != nil:
		return "its air spring comes out, nothing goes in; it must not pump: piston out or valve open."
	case len(l.Springs) > 0:
		return "its spring comes out; the rest and the oil stay as they are."
	}
	return "stays as it is, damper and oil; look at its level."
}

// comesOut is what leaves a leg, and what stays in it.
func (f facts) comesOut(out string, l conversion.ConvertedLeg) string {
	out = "out: " + joined("; ", out, "old oil")
	if l.Drained != ([2]units.Volume{}) {
		out += f.sprintf(", %.0f to %.0f", l.Drained[0], l.Drained[1])
	}
	out += ": drained ____ " + f.Volume() + "."
	if l.Damper {
		out += " The damper stays."
	}
	return out
}

// measure tells how to find what nobody measured: the inside of the leg.
func (f facts) measure(l conversion.ConvertedLeg) string {
	if l.Bath.Spread <= max(conversion.LeastInteriorSpread, l.Bath.Interior/50) { // measured
		return ""
	}
	return f.sprintf("inside not measured, %.0f, give or take %.0f. Fork compressed, springs out, fill to the brim from "+
		"a cylinder: ____ %s.", l.Bath.Interior, l.Bath.Spread, f.Volume())
}

// oil is what goes in: to a level, and by volume where none is read.
func (f facts) oil(l conversion.ConvertedLeg, b conversion.LegBuild) string {
	if b.OilVolume == 0 {
		return "no oil, it runs on grease."
	}
	of := ""
	if l.Side == f.Job.Legs[0].Side || b.OilVolume == f.Best.Builds[0].OilVolume {
		of = f.sprintf(" (allowed %.0f to %.0f)", f.Job.OilVolume.Min, f.Job.OilVolume.Max)
	}
	if b.OilLevel == nil {
		return f.sprintf("oil %.0f%s, never more than %.0f. Poured ____ %s.", b.OilVolume, of, b.OilMost, f.Volume())
	}
	return f.sprintf("oil to %.0f of air over it, fork fully compressed, spring out, damper bled: ____ %s, never less "+
		"than %.0f. It takes about %.0f%s; by volume alone never more than %.0f.", *b.OilLevel, f.Length(), *b.LevelLeast,
		b.OilVolume, of, b.OilMost)
}

// spacer that gives the preload: with a collar where one is known.
func (f facts) spacer(b conversion.LegBuild) string {
	spacer, collar := max(0, b.Spacer), b.Spacer-f.Best.Preload
	switch known := f.Job.Caliper != nil || f.Job.Collar != nil; {
	case collar < -0.05*units.Millimeter:
		return f.sprintf("spacer %.1f in place of a collar.", spacer)
	case known:
		return f.sprintf("spacer %.1f; the collar sets the preload. Washer at each end, cuts square and deburred.",
			max(0, collar))
	}
	return f.sprintf("spacer %.1f where a collar sets the preload, %.1f where the spacer does.", max(0, collar), spacer)
}

// WarmthTitle is the head of the table of Warmth: how warm oil and gas are.
func (f facts) WarmthTitle() string {
	b := f.Best.Builds[0]
	return typeset.Pad("COLD AND WARM", 40) + typeset.Lead(f.sprintf("%.0f", b.Cold.Temperature), 12) +
		typeset.Lead(f.sprintf("%.0f", b.Warm.Temperature), 12) + typeset.Lead("limit", 12)
}

// Warmth sets the fork in the workshop beside the same fork warm.
func (f facts) Warmth() [][]string {
	row := func(name string, decimals int, cells ...any) []string {
		unit := ""
		for _, c := range cells {
			if symbol := f.Job.Heading.Units.Symbol(c); symbol != "" {
				unit = ", " + symbol
			}
		}
		row := []string{name + unit}
		for _, c := range cells {
			switch c := c.(type) {
			case nil:
				row = append(row, "")
			case float64:
				row = append(row, fmt.Sprintf("%.*f", decimals, c))
			default:
				row = append(row, f.number(c, decimals))
			}
		}
		return row
	}
	c, rows := f.Best, [][]string(nil)
	for i, b := range c.Builds {
		if i > 0 && b.Cold == c.Builds[0].Cold && b.Warm == c.Builds[0].Warm {
			continue
		}
		of := ""
		if len(c.Builds) > 1 && b.Cold != c.Builds[1-i].Cold {
			of = fmt.Sprintf(", %v leg", b.Side)
		}
		rows = append(rows, row("Gas compressed, times"+of, 1, b.Cold.Ratio, b.Warm.Ratio, conversion.StopGapRatio),
			row("  at the worst of what is known", 1, nil, b.Worst.Ratio, conversion.StopGapRatio),
			row("Peak pressure"+of, 1, b.Cold.Peak, b.Warm.Peak, units.Gauge(conversion.StopGapPressure)))
	}
	if warm := c.Behavior.Running; warm != nil {
		cold := c.Behavior
		if f.Full || min(cold.Stroke, warm.Stroke) < f.Job.Fork.Travel {
			rows = append(rows, row("Travel to bind or lock", 0, cold.Stroke, warm.Stroke))
		}
		rows = append(rows, row("Sag with rider", 0, cold.Sag.Middle, warm.Sag.Middle),
			row("Energy to the end", 0, cold.EnergyFull, warm.EnergyFull))
	}
	if now := f.Present.Running; now != nil && f.Job.From == conversion.PresentFork {
		rows = append(rows, row("  present fork", 0, f.Present.EnergyFull, now.EnergyFull))
	}
	return rows
}
