package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// leg is what is done to one leg, in words.
type leg struct {
	Name, Out, Measure, Oil, Spacer string
}

// Legs are the left leg and the right one: what comes out, what stays, what goes in.
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
		list = append(list, leg{Name: name, Out: comesOut(present, l), Measure: measure(name, l), Oil: f.oil(l, b),
			Spacer: f.spacer(b)})
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
func comesOut(present setup.Leg, l conversion.ConvertedLeg) string {
	out := held(setup.Leg{Springs: present.Springs, Air: present.Air})
	if out == "" {
		out = "nothing but oil"
	}
	out = "out: " + out
	out += "; old oil"
	if l.Drained != ([2]units.Volume{}) {
		out += fmt.Sprintf(", %.0f to %.0f", l.Drained[0], l.Drained[1])
	}
	out += ": drained ____ mL."
	if l.Damper {
		out += " The damper stays."
	}
	return out
}

// measure tells how to find what nobody measured: the inside of the leg.
func measure(name string, l conversion.ConvertedLeg) string {
	if l.Bath.Spread <= conversion.LeastInteriorSpread {
		return ""
	}
	return fmt.Sprintf("%s: its inside is not measured (%.0f, give or take %.0f). Fork compressed, springs out, fill it "+
		"to the brim from a cylinder: ____ mL; put it into the job.", name, l.Bath.Interior, l.Bath.Spread)
}

// oil is what goes in: to a level, and by volume where none is read.
func (f facts) oil(l conversion.ConvertedLeg, b conversion.LegBuild) string {
	if b.OilVolume == 0 {
		return "no oil, it runs on grease."
	}
	of := ""
	if l.Side == f.Job.Legs[0].Side {
		of = fmt.Sprintf(" (allowed %.0f to %.0f)", f.Job.OilVolume.Min, f.Job.OilVolume.Max)
	}
	if b.OilLevel == nil {
		return fmt.Sprintf("oil %.0f%s, never more than %.0f. Poured ____ mL.", b.OilVolume, of, b.OilMost)
	}
	return fmt.Sprintf("oil to %.0f of air over it, fork fully compressed, spring out, damper bled: ____ mm, never less "+
		"than %.0f. It takes about %.0f%s; by volume alone never more than %.0f.", *b.OilLevel, *b.LevelLeast,
		b.OilVolume, of, b.OilMost)
}

// spacer that gives the preload.
func (f facts) spacer(b conversion.LegBuild) string {
	spacer := b.Spacer
	if collar := spacer - f.Best.Preload; collar >= -0.05*units.Millimeter {
		return fmt.Sprintf("spacer %.1f where a collar sets the preload, %.1f where the spacer does.", max(0, collar),
			max(0, spacer))
	}
	return fmt.Sprintf("spacer %.1f, which sets the preload; the spring is too long for a collar to do so.",
		max(0, spacer))
}

// Warmth sets the fork in the workshop beside the same fork warm.
func (f facts) Warmth() [][]string {
	degrees := func(t units.Temperature) string { return fmt.Sprintf("%.0f °C", t.Celsius()) }
	row := func(name, format string, cold, warm, limit any) []string {
		cells := []string{name, fmt.Sprintf(format, cold), fmt.Sprintf(format, warm)}
		if limit != nil {
			cells = append(cells, fmt.Sprintf(format, limit))
		}
		return cells
	}
	c, rows := f.Best, [][]string(nil)
	for i, b := range c.Builds {
		if i == 0 {
			rows = append(rows, []string{"Oil and gas at", degrees(b.Cold.Temperature), degrees(b.Warm.Temperature)})
		} else if b.Cold == c.Builds[0].Cold && b.Warm == c.Builds[0].Warm {
			continue
		}
		of := ""
		if len(c.Builds) > 1 && b.Cold != c.Builds[1-i].Cold {
			of = fmt.Sprintf(", %v leg", b.Side)
		}
		rows = append(rows, row("Gas compressed"+of, "%.1f", b.Cold.Ratio, b.Warm.Ratio, conversion.StopGapRatio),
			row("  at the worst of what is known", "%.1f", 0.0, b.Worst.Ratio, conversion.StopGapRatio),
			row("Peak pressure, bar"+of, "%.1f", b.Cold.Peak.In(units.Bar), b.Warm.Peak.In(units.Bar),
				units.Pressure(conversion.StopGapPressure).In(units.Bar)))
		rows[len(rows)-2][1] = ""
	}
	if warm := c.Behavior.Running; warm != nil {
		cold := c.Behavior
		const mm = units.Millimeter
		rows = append(rows, row("Travel to bind or lock, mm", "%.0f", cold.Stroke.In(mm), warm.Stroke.In(mm), nil),
			row("Sag with rider, mm", "%.0f", cold.Sag.Middle.In(mm), warm.Sag.Middle.In(mm), nil),
			row("Energy to the end, J", "%.0f", float64(cold.EnergyFull), float64(warm.EnergyFull), nil))
	}
	if now := f.Present.Running; now != nil {
		rows = append(rows, row("  present fork, J", "%.0f", float64(f.Present.EnergyFull), float64(now.EnergyFull), nil))
	}
	return rows
}
