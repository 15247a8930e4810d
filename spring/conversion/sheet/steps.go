package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Preload is where the collar goes.
func (f facts) Preload() string {
	c, p := f.Best, f.Job.Preload
	text := f.sprintf("Preload %.1f (aim %.1f, allowed %.1f to %.1f). ", c.Preload, p.Aim, p.Min, p.Max)
	if k := f.Job.Caliper; k != nil && c.CaliperReading != nil {
		text += f.sprintf("Caliper, reference edge to collar: %.1f, reading ____ %s; loose %.1f, allowed %.1f to %.1f.",
			*c.CaliperReading, f.Length(), k.Loose, k.Reading(p.Min), k.Reading(p.Max))
	} else if c.Spacer < c.Preload-0.05*units.Millimeter {
		text += f.sprintf("The spacer gives it: the cap is pressed down so far, ____ %s, until it is home.", f.Length())
	} else {
		text += f.sprintf("Collar with the spring just touching ____ %s; set it %.1f deeper, ____ %s.",
			f.Length(), c.Preload, f.Length())
	}
	if turns := c.Collar; turns != nil {
		text += fmt.Sprintf(" From just touching turn it in %d turns and %d of %d flats.", turns.Turns, turns.Flats,
			f.Job.Collar.Sides)
	}
	return text
}

// Torques of the job, to be repeated where things are closed: as written, in the other system,
// and what a wrench with an adapter is set to.
func (f facts) Torques() string {
	if len(f.Job.Torques) == 0 {
		return "Torques by the maker's manual."
	}
	shown := func(v units.Torque, unit string) string {
		return fmt.Sprintf("%.1f", units.Style{Torque: unit}.Shown(v))
	}
	var list []string
	for _, t := range f.Job.Torques {
		other := "N·m"
		if t.Unit == "" || t.Unit == other {
			other = "lbf·ft"
		}
		text := t.Name + " " + shown(t.Value, t.Unit) + " (" + shown(t.Value, other)
		if w := f.Job.Wrench; w != nil {
			text += "; wrench with its adapter at " + shown(w.Setting(t.Value), t.Unit)
		}
		list = append(list, text+")")
	}
	return "Torques as the job gives them, the maker's manual prevails: " + strings.Join(list, ", ") + "."
}

// BandWidth is how far the sags from above and from below lie apart by friction.
func (f facts) BandWidth() units.Length { return f.Best.Behavior.Sag.Low - f.Best.Behavior.Sag.High }

// Bound is how far they lie apart where the fork binds.
func (f facts) Bound() units.Length { return 2 * f.BandWidth() }

// Correct says what to do when the sag is not as planned, and how far that goes.
func (f facts) Correct() string {
	c, p := f.Best, f.Job.Preload
	sag := c.Behavior.Sag.Middle
	per := units.Length(float64(c.Rate) / float64(c.Behavior.Setup.Curve(gas.Isothermal).Rate(sag))) // preload
	text, least := "", min(max(p.Min, conversion.LeastPreload), p.Max)
	if u := c.Behavior.Uncertainty; u != nil {
		text = f.sprintf("%s to %.0f is as planned; beyond, ", f.number(sag-k95*u.Sag, 0), sag+k95*u.Sag)
	}
	text += f.sprintf("%.0f more preload lifts the front by %.1f: %s to %.1f of it reach %s to %.0f", 1*units.Millimeter,
		per*units.Millimeter, f.number(least, 1), p.Max, f.number(sag-(p.Max-c.Preload)*per, 0), sag+(c.Preload-least)*per)
	if others := f.Next(); others != "" {
		text += "; for more another coil: " + others
	}
	return text + "."
}

// Next are the next safe coils either way and the sag they give at the same preload, by the rate about it.
func (f facts) Next() string {
	var softer, stiffer *conversion.Candidate
	for i := range f.Candidates {
		switch c := &f.Candidates[i]; {
		case !c.Safe():
		case c.Rate < f.Best.Rate && (softer == nil || c.Rate > softer.Rate):
			softer = c
		case c.Rate > f.Best.Rate && (stiffer == nil || c.Rate < stiffer.Rate):
			stiffer = c
		}
	}
	sag := f.Best.Behavior.Sag.Middle
	rate := f.Best.Behavior.Setup.Curve(gas.Isothermal).Rate(sag)
	var list []string
	for _, c := range []*conversion.Candidate{softer, stiffer} {
		if c != nil {
			more := units.Length((c.Rate - f.Best.Rate) / (rate + c.Rate - f.Best.Rate))
			list = append(list, f.sprintf("%s some %.0f", typeset.Plain(c.Coil, 15), sag-more*(sag+f.Best.Preload)))
		}
	}
	return strings.Join(list, ", ")
}

// Recheck says when to look again, and what a spring looks like that has set.
func (f facts) Recheck() string {
	text := fmt.Sprintf("Sag and marker again after %d hours, then at every oil service", conversion.RecheckHours)
	for _, coil := range f.Job.Shelf {
		if coil.Name == f.Best.Coil && coil.Spring == nil {
			text += f.sprintf("; a spring shorter than %.1f has set and goes", coil.Wire.FreeLength*(1-conversion.SetShare))
		}
	}
	return text + "."
}

// Compression tells what the piston seals of an air spring did for it.
func (f facts) Compression() string {
	if f.Fill() == nil {
		return ""
	}
	return " Compression as it was or 1 to 2 clicks firmer at low speed: fewer seals."
}

// Kept are the parts and settings that a way back needs.
func (f facts) Kept() string {
	var parts []string
	for _, l := range f.Job.Legs {
		leg := [...]setup.Leg{f.Job.Present.Left, f.Job.Present.Right}[l.Side]
		if leg.Air != nil && len(parts) == 0 {
			parts = append(parts, "piston, rod, valves, volume reducers")
		}
		if h := f.kept(leg); h != "" && leg.Air == nil && !slices.Contains(parts, h) {
			parts = append(parts, h)
		}
	}
	return strings.Join(append(parts, "spacers"), "; ")
}

// Band is the rate asked for with what is not known of it.
func (f facts) Band() string {
	b := f.Report.Band
	text := f.sprintf("%.1f, from %s to %.1f by what is not known", b.Asked, f.number(b.Least, 1), b.Most)
	switch n := len(b.Inside); {
	case n == 0:
		return text + "; no coil of the shelf lies inside"
	case n > 8 || !f.Full:
		return text + fmt.Sprintf("; %d of %d coils lie inside", n, len(f.Candidates))
	}
	return text + "; inside: " + strings.Join(b.Inside, ", ")
}

// named: so many of the largest contributions are named.
const named = 3

// Sure is each answer with its standard uncertainty, the interval of 95 %, and what makes most of it.
func (f facts) Sure() [][2]string {
	b := f.Best.Behavior
	u := b.Uncertainty
	if u == nil {
		return nil
	}
	line := func(decimals int, value, sure float64, quantity func(float64) any,
		of func(setup.Contribution) float64) string {
		parts := slices.Clone(b.Parts)
		size := func(c setup.Contribution) float64 { // two equal ones keep their order however a processor rounds
			return math.Round(1e6 * math.Abs(of(c)) / sure)
		}
		slices.SortStableFunc(parts, func(a, b setup.Contribution) int { return cmp.Compare(size(b), size(a)) })
		var names []string
		for _, p := range parts[:min(named, len(parts))] {
			if math.Abs(of(p)) > 0.05*sure {
				names = append(names, p.Input)
			}
		}
		return f.sprintf("±%.*f, 95 %% %s to %.*f: %s", decimals, quantity(sure),
			f.number(quantity(value-k95*sure), decimals), decimals, quantity(value+k95*sure), strings.Join(names, ", "))
	}
	length := func(v float64) any { return units.Length(v) }
	return [][2]string{
		{"How sure: sag", line(0, float64(b.Sag.Middle), float64(u.Sag), length,
			func(c setup.Contribution) float64 { return float64(c.Sag) })},
		{"  energy to the end", line(0, float64(b.EnergyFull), float64(u.Energy),
			func(v float64) any { return units.Energy(v) },
			func(c setup.Contribution) float64 { return float64(c.Energy) })},
		{"  change at the event", line(1, float64(f.Best.Event.Change(f.Best.Event.There)), float64(u.Drift), length,
			func(c setup.Contribution) float64 { return float64(c.Drift) })},
	}
}

// k95 standard deviations of a normal distribution hold 95 %.
const k95 = 1.96

// Odds of what matters.
func (f facts) Odds() string {
	odds := func(p units.Share) string {
		switch v := p.In(units.Percent); {
		case v < 0.1:
			return "under 0.1 %"
		case v > 99.9:
			return "over 99.9 %"
		case v < 10:
			return fmt.Sprintf("%.1f %%", v)
		default:
			return fmt.Sprintf("%.0f %%", v)
		}
	}
	c := f.Best.Chances
	text := ""
	if f.Best.Behavior.Uncertainty != nil {
		text = f.sprintf("sag within %.0f to %.0f: %s; ", f.Job.Fork.Travel*units.Length(f.Job.SagWindow[0]),
			f.Job.Fork.Travel*units.Length(f.Job.SagWindow[1]), odds(c.SagInWindow))
	}
	limit := units.Pressure(conversion.StopGapPressure)
	if max(c.Bind, c.Lock, c.OverPressure) < 0.001 {
		return text + f.sprintf("binds, no room over the oil or over %.0f warm: under 0.1 %% each", limit)
	}
	return text + f.sprintf("binds: %s; no room over the oil warm: %s; over %.0f warm: %s", odds(c.Bind),
		odds(c.Lock), limit, odds(c.OverPressure))
}

// BandRows sets every choice behind the band beside its rate.
func (f facts) BandRows() [][]string {
	rows := [][]string{{"", "from " + f.Length(), "exponent", f.symbol(units.Temperature{}),
		f.symbol(units.Stiffness(0))}}
	for _, r := range f.Report.Band.Rows {
		rows = append(rows, []string{r.Criterion.String(), f.number(r.Start, 0), fmt.Sprintf("%.2f", r.Exponent),
			f.number(r.Temperature, 0), f.number(r.Rate, 2)})
	}
	return rows
}

// Sources is what each input adds to the uncertainty of both forks.
func (f facts) Sources() [][]string {
	heads := func(name string) []string {
		return []string{name, "sag, " + f.Length(), "energy, " + f.symbol(units.Energy(0)), "event, " + f.Length()}
	}
	rows := [][]string{heads("")}
	add := func(of string, b conversion.Behavior) {
		for _, p := range b.Parts {
			rows = append(rows, []string{of + p.Input, f.signed(p.Sag, 2), f.signed(p.Energy, 1), f.signed(p.Drift, 2)})
		}
	}
	add("", f.Present)
	if f.Best != nil {
		rows = append(rows, heads("with the coil"))
		add("  ", f.Best.Behavior)
	}
	return rows
}
