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
	Name, Out, Level, Oil, Most, Spacer string
}

// Legs are the left leg and the right one: what comes out, what stays, what goes in.
func (f facts) Legs() []leg {
	var list []leg
	for side, present := range []setup.Leg{f.Job.Present.Left, f.Job.Present.Right} {
		name := strings.ToUpper(setup.Side(side).String()[:1]) + setup.Side(side).String()[1:] + " leg"
		at := slices.IndexFunc(f.Job.Legs, func(l conversion.ConvertedLeg) bool { return l.Side == setup.Side(side) })
		if at < 0 || at >= len(f.Best.Builds) {
			list = append(list, leg{Name: name, Out: f.untouched(setup.Side(side), present)})
			continue
		}
		l, b := f.Job.Legs[at], f.Best.Builds[at]
		list = append(list, leg{Name: name, Out: comesOut(present, l), Level: level(b), Oil: f.oil(l, b), Most: poured(l, b),
			Spacer: f.spacer(b)})
	}
	return list
}

// untouched is a leg that gets no spring.
func (f facts) untouched(side setup.Side, l setup.Leg) string {
	switch {
	case l.Air != nil:
		return "its air spring comes out; no spring goes in. It must not pump: take the piston out or leave the valve open"
	case len(l.Springs) > 0:
		return "its spring comes out; the rest and the oil stay as they are"
	}
	return "stays as it is, with its damper and its oil; look at its level"
}

// comesOut is what leaves a leg, and what stays in it.
func comesOut(present setup.Leg, l conversion.ConvertedLeg) string {
	out := held(setup.Leg{Springs: present.Springs, Air: present.Air})
	if out == "" {
		out = "nothing but oil"
	}
	out = "out: " + out
	if l.Drained != ([2]units.Volume{}) {
		out += fmt.Sprintf("; old oil, %.0f to %.0f: drain and measure", l.Drained[0], l.Drained[1])
	} else {
		out += "; old oil: drain and measure"
	}
	if l.Damper {
		out += "; the damper stays"
	}
	return out
}

// level is what to set, where a level is read.
func level(b conversion.LegBuild) string {
	if b.OilLevel == nil {
		return ""
	}
	return fmt.Sprintf("oil to %.0f of air over it; fork fully compressed, spring out, damper bled. Least air %.0f",
		*b.OilLevel, *b.LevelLeast)
}

// oil is the volume that goes in.
func (f facts) oil(l conversion.ConvertedLeg, b conversion.LegBuild) string {
	if b.OilVolume == 0 {
		return "no oil: the leg runs on grease"
	}
	of := ""
	if l.Side == f.Job.Legs[0].Side {
		of = fmt.Sprintf(", of %.0f to %.0f allowed", f.Job.OilVolume.Min, f.Job.OilVolume.Max)
	}
	if b.OilLevel == nil {
		return fmt.Sprintf("oil %.0f%s", b.OilVolume, of)
	}
	return fmt.Sprintf("which takes about %.0f%s", b.OilVolume, of)
}

// poured is the safe volume, and how well the inside of the leg is known.
func poured(l conversion.ConvertedLeg, b conversion.LegBuild) string {
	if b.OilVolume == 0 {
		return ""
	}
	text := fmt.Sprintf("poured by volume, never more than %.0f", b.OilMost)
	if l.Bath.Spread > conversion.LeastInteriorSpread {
		text += fmt.Sprintf(": the inside of the leg, %.0f ±%.0f, is not measured. Fork compressed, spring out, fill it "+
			"to the brim from a cylinder and note what goes in", l.Bath.Interior, l.Bath.Spread)
	}
	return text
}

// spacer that gives the preload.
func (f facts) spacer(b conversion.LegBuild) string {
	spacer := b.Spacer
	if collar := spacer - f.Best.Preload; collar >= -0.05*units.Millimeter {
		return fmt.Sprintf("spacer %.1f where a collar sets the preload, %.1f where the spacer does", max(0, collar),
			max(0, spacer))
	}
	return fmt.Sprintf("spacer %.1f, which sets the preload; the spring is too long for a collar to do so",
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
			rows = append(rows, []string{"", degrees(b.Cold.Temperature), degrees(b.Warm.Temperature), "limit"})
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
