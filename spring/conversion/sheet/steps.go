package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Preload is where the collar goes.
func (f facts) Preload() string {
	c, p := f.Best, f.Job.Preload
	text := fmt.Sprintf("Preload %.1f (aim %.1f, allowed %.1f to %.1f). ", c.Preload, p.Aim, p.Min, p.Max)
	if k := f.Job.Caliper; k != nil && c.CaliperReading != nil {
		return text + fmt.Sprintf("Caliper, reference edge to collar: %.1f, reading ____ mm; loose %.1f, allowed %.1f to "+
			"%.1f.", *c.CaliperReading, k.Loose, k.Reading(p.Min), k.Reading(p.Max))
	}
	return text + fmt.Sprintf("Read the collar with the spring just touching, ____ mm, then set it %.1f deeper, ____ mm.",
		c.Preload)
}

// Torques of the job, to be repeated where things are closed.
func (f facts) Torques() string {
	if len(f.Job.Torques) == 0 {
		return "Torques by the maker's manual."
	}
	var list []string
	for _, t := range f.Job.Torques {
		list = append(list, fmt.Sprintf("%s %.1f (%.1f lbf·ft)", t.Name, t.Value, t.Value.In(units.PoundForceFoot)))
	}
	return "Torques as the job gives them, the maker's manual prevails: " + strings.Join(list, ", ") + "."
}

// BandWidth is how far the sags from above and from below lie apart by friction.
func (f facts) BandWidth() units.Length { return f.Best.Behavior.Sag.Low - f.Best.Behavior.Sag.High }

// Correct says what to do when the sag is not as planned.
func (f facts) Correct() string {
	c := f.Best
	k := float64(c.Behavior.Setup.Curve(gas.Isothermal).Rate(c.Behavior.Sag.Middle))
	per := float64(c.Rate) / k
	lo, hi := f.Job.SagWindow[0], f.Job.SagWindow[1]
	travel := f.Job.Fork.Travel
	return fmt.Sprintf("1 mm more preload lifts the front by %.1f mm; beyond %.0f to %.0f, or beyond the preload allowed, "+
		"another coil.", per, travel*units.Length(lo), travel*units.Length(hi))
}

// Compression tells what the piston seals of an air spring did for it.
func (f facts) Compression() string {
	if f.Fill() == nil {
		return ""
	}
	return " Compression as it was or 1 to 2 clicks firmer at low speed: the seals of the air piston no longer help."
}

// Kept are the parts that a way back needs.
func (f facts) Kept() string {
	var parts []string
	for _, l := range f.Job.Legs {
		if h := held([...]setup.Leg{f.Job.Present.Left, f.Job.Present.Right}[l.Side]); h != "" && !slices.Contains(parts, h) {
			parts = append(parts, h)
		}
	}
	if len(parts) == 0 {
		return "spacers and washers"
	}
	return strings.Join(parts, "; ")
}

// Band is the rate asked for with what is not known of it.
func (f facts) Band() string {
	b := f.Report.Band
	text := fmt.Sprintf("%.1f for the whole fork, from %.1f to %.1f by what is not known", b.Asked, b.Least, b.Most)
	switch n := len(b.Inside); {
	case n == 0:
		return text + "; no coil of the shelf lies inside"
	case n > 8:
		return text + fmt.Sprintf("; %d coils of the shelf lie inside", n)
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
	const k95 = 1.96
	line := func(format string, value, sure float64, of func(setup.Contribution) float64) string {
		parts := slices.Clone(b.Parts)
		slices.SortStableFunc(parts, func(a, b setup.Contribution) int {
			return cmp.Compare(math.Abs(of(b)), math.Abs(of(a)))
		})
		var names []string
		for _, p := range parts[:min(named, len(parts))] {
			if math.Abs(of(p)) > 0.05*sure {
				names = append(names, p.Input)
			}
		}
		return fmt.Sprintf(format, sure, value-k95*sure, value+k95*sure) + ": " + strings.Join(names, ", ")
	}
	const mm = float64(units.Millimeter)
	return [][2]string{
		{"How sure: sag", line("±%.0f mm, 95 %% %.0f to %.0f mm", float64(b.Sag.Middle)/mm, float64(u.Sag)/mm,
			func(c setup.Contribution) float64 { return float64(c.Sag) / mm })},
		{"  energy to the end", line("±%.0f J, 95 %% %.0f to %.0f J", float64(b.EnergyFull), float64(u.Energy),
			func(c setup.Contribution) float64 { return float64(c.Energy) })},
		{"  change at the event", line("±%.1f mm, 95 %% %.1f to %.1f mm", float64(f.Best.Event.Change(f.Best.Event.There))/mm,
			float64(u.Drift)/mm, func(c setup.Contribution) float64 { return float64(c.Drift) / mm })},
	}
}

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
		text = fmt.Sprintf("sag within %.0f to %.0f: %s; ", f.Job.Fork.Travel*units.Length(f.Job.SagWindow[0]),
			f.Job.Fork.Travel*units.Length(f.Job.SagWindow[1]), odds(c.SagInWindow))
	}
	limit := units.Pressure(conversion.StopGapPressure).In(units.Bar)
	if max(c.Bind, c.Lock, c.OverPressure) < 0.001 {
		return text + fmt.Sprintf("binds, no room over the oil or over %.0f bar warm: under 0.1 %% each", limit)
	}
	return text + fmt.Sprintf("binds: %s; no room over the oil warm: %s; over %.0f bar warm: %s", odds(c.Bind),
		odds(c.Lock), limit, odds(c.OverPressure))
}

// BandRows sets every choice behind the band beside its rate.
func (f facts) BandRows() [][]string {
	rows := [][]string{{"", "from mm", "exponent", "°C", "N/mm"}}
	for _, r := range f.Report.Band.Rows {
		rows = append(rows, []string{r.Criterion.String(), fmt.Sprintf("%.0f", r.Start.In(units.Millimeter)),
			fmt.Sprintf("%.2f", r.Exponent), fmt.Sprintf("%.0f", r.Temperature.Celsius()),
			fmt.Sprintf("%.2f", r.Rate.In(units.NewtonPerMillimeter))})
	}
	return rows
}

// Sources is what each input adds to the uncertainty of both forks.
func (f facts) Sources() [][]string {
	rows := [][]string{{"", "sag, mm", "energy, J", "event, mm"}}
	add := func(of string, b conversion.Behavior) {
		for _, p := range b.Parts {
			rows = append(rows, []string{of + p.Input, fmt.Sprintf("%+.2f", p.Sag.In(units.Millimeter)),
				fmt.Sprintf("%+.1f", float64(p.Energy)), fmt.Sprintf("%+.2f", p.Drift.In(units.Millimeter))})
		}
	}
	add("", f.Present)
	if f.Best != nil {
		rows = append(rows, []string{"with the coil", "sag, mm", "energy, J", "event, mm"})
		add("  ", f.Best.Behavior)
	}
	return rows
}
