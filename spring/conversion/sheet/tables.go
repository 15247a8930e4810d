package sheet

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// EventDay is the change of sag of the present fork and of the converted one.
func (f facts) EventDay() [][]string {
	row := func(name string, d setup.Drift, refilled bool) []string {
		change := func(g setup.Sag) string { return f.signed(d.Change(g), 1) }
		row := []string{f.sprintf("%s, %.0f as set", name, d.Here.Middle), change(d.There), change(d.Vented), "-"}
		if refilled {
			row[3] = change(d.Refilled)
		}
		return row
	}
	var rows [][]string
	if f.Job.From == conversion.PresentFork {
		rows = append(rows, row("present fork", f.Event, f.Fill() != nil || f.Job.Precharged()))
	}
	if c := f.Best; c != nil {
		rows = append(rows, row(typeset.Plain(c.Coil, 15), c.Event, f.stays() != (units.GaugePressure{})))
	}
	return rows
}

// Loads are how the load on the axis comes about, with rider and of the machine alone.
func (f facts) Loads() [][]string {
	r, m, c := f.Rider, f.Machine, f.Job.Chassis
	row := func(name, format string, rider, machine any) []string {
		return []string{name, f.sprintf(format, rider), f.sprintf(format, machine)}
	}
	return [][]string{
		row("Mass", "%.1f", r.Mass, m.Mass),
		row("Share on the front wheel", "%.1f", c.FrontShareRidden, c.FrontShare),
		row("Front wheel load", "%.0f", r.Wheel, m.Wheel),
		row(f.sprintf("less %.1f unsprung", c.UnsprungMass), "-%.0f", r.Unsprung, m.Unsprung),
		row(f.sprintf("times cos %.1f°: axis", c.Rake.In(units.Degree)), "%.0f", r.Axial, m.Axial),
	}
}

// Forces of the present fork along its stroke.
func (f facts) Forces() [][]string {
	rest, landing := f.Present.Setup.Curve(gas.Isothermal), f.Present.Setup.Curve(f.Job.RideExponent)
	rows := [][]string{{"Travel, " + f.Length()}, {"Force at rest, " + f.symbol(units.Force(0))},
		{"Force landing, " + f.symbol(units.Force(0))}}
	for i := range 9 {
		x := rest.Stroke() * units.Length(i) / 8
		for j, v := range []any{x, rest.Force(x), landing.Force(x)} {
			rows[j] = append(rows[j], f.number(v, 0))
		}
	}
	return rows
}

// Asked are the rates by each criterion, the job's marked.
func (f facts) Asked() [][]string {
	names := [...]string{conversion.SagForce: "same force at the sag", conversion.Energy: "same energy to 90 %",
		conversion.LeastSquares: "least squares, 10-85 %"}
	var rows [][]string
	for _, t := range f.Targets {
		mark := "  "
		if t.Criterion == f.Job.Criterion {
			mark = "* "
		}
		rows = append(rows, []string{mark + names[t.Criterion], f.sprintf("%.2f", t.Rate),
			f.sprintf("%.2f", t.Each)})
	}
	return rows
}

// most candidates side by side.
const most = 5

// Hidden is how many candidates there are beyond.
func (f facts) Hidden() int { return max(0, len(f.Candidates)-most) }

// Shelf sets the candidates side by side.
func (f facts) Shelf() [][]string {
	shown := f.Candidates[:min(most, len(f.Candidates))]
	var rows [][]string
	row := func(name string, text func(c conversion.Candidate) string) {
		cells := []string{name}
		for _, c := range shown {
			cells = append(cells, text(c))
		}
		rows = append(rows, cells)
	}
	value := func(name string, decimals int, of func(c conversion.Candidate) any) {
		row(name+", "+f.symbol(of(shown[0])), func(c conversion.Candidate) string { return f.number(of(c), decimals) })
	}
	// What a fork does that does not carry the rider, there is nothing to tell of.
	ridden := func(name string, text func(c conversion.Candidate) string) {
		row(name, func(c conversion.Candidate) string {
			if c.Behavior.Sag.Load == 0 {
				return "-"
			}
			return text(c)
		})
	}
	behavior := func(name string, of func(b conversion.Behavior) any) {
		ridden(fmt.Sprintf("%s (now %s), %s", name, f.number(of(f.Present), 0), f.symbol(of(f.Present))),
			func(c conversion.Candidate) string { return f.number(of(c.Behavior), 0) })
	}
	stress := func(name string, of func(c conversion.Candidate) units.Stress) {
		row(name+", "+f.symbol(units.Stress(0)), func(c conversion.Candidate) string {
			if of(c) == 0 {
				return "?" // the wire is not known
			}
			return f.number(of(c), 0)
		})
	}
	row("", func(c conversion.Candidate) string { return typeset.Plain(c.Coil, 9) })
	value("Rate of a spring", 2, func(c conversion.Candidate) any { return c.Each })
	row("Fork rate against target, %", func(c conversion.Candidate) string {
		return fmt.Sprintf("%+.0f", 100*c.RateDeviation)
	})
	value("Preload", 1, func(c conversion.Candidate) any { return c.Preload })
	row("Spacer, "+f.Length(), func(c conversion.Candidate) string {
		if c.Spacer < -0.05*units.Millimeter {
			return "too long"
		}
		return f.number(max(0, c.Spacer), 1)
	})
	value("Oil a leg", 0, func(c conversion.Candidate) any { return c.OilVolume })
	if shown[0].OilLevel != nil {
		value("Oil level", 0, func(c conversion.Candidate) any { return *c.OilLevel })
	}
	behavior("Sag with rider", func(b conversion.Behavior) any { return b.Sag.Middle })
	ridden("  band, "+f.Length(), func(c conversion.Candidate) string {
		return f.number(c.Behavior.Sag.High, 0) + "-" + f.number(c.Behavior.Sag.Low, 0)
	})
	behavior("Sag of machine", func(b conversion.Behavior) any { return b.MachineSag.Middle })
	ridden("Front lower by, "+f.Length(), func(c conversion.Candidate) string { return f.signed(c.SagChange, 1) })
	behavior("Energy to 90 %", func(b conversion.Behavior) any { return b.Energy90 })
	behavior("Energy to end", func(b conversion.Behavior) any { return b.EnergyFull })
	value("Bind margin", 0, func(c conversion.Candidate) any { return c.BindMargin })
	value("  advised", 0, func(c conversion.Candidate) any { return c.BindMarginAdvised })
	stress("Wire stress", func(c conversion.Candidate) units.Stress { return c.Stress })
	stress("  limit", func(c conversion.Candidate) units.Stress { return c.StressLimit })
	row("Gas compression ratio", func(c conversion.Candidate) string { return ratio(c.GapRatio) })
	row("  once warm", func(c conversion.Candidate) string { return ratio(c.GapRatioWarm) })
	value("Peak gas pressure", 1, func(c conversion.Candidate) any { return c.GapPeak })
	value("Mass of a spring", 2, func(c conversion.Candidate) any { return c.Mass })
	row("Verdict", func(c conversion.Candidate) string {
		if !c.Safe() {
			return "NO"
		}
		return c.Verdict.String()
	})
	return rows
}

// signed is a change in the unit of the job, without the sign of a negative 0.
func (f facts) signed(v any, decimals int) string {
	text := f.number(v, decimals)
	if strings.HasPrefix(text, "-") || !strings.ContainsAny(text, "123456789") {
		return text
	}
	return "+" + text
}

// score is a number of steps with its sign.
func score(v float64) string {
	if math.Abs(v) < 0.05 {
		return "0.0"
	}
	return fmt.Sprintf("%+.1f", v)
}

func ratio(r float64) string {
	if r == 0 {
		return "lock"
	}
	return fmt.Sprintf("%.1f", r)
}

// WouldFitText says what to look for, or to have made.
func (f facts) WouldFitText() string {
	w := f.WouldFit
	if w == nil {
		return ""
	}
	text := f.sprintf("in each converted leg a spring of %.2f to %.2f, outside %.1f at most when closed, free length "+
		"%.0f at most", w.RateLeast, w.RateMost, w.OuterMost, w.LengthMost)
	if w.InnerLeast > 0 {
		text += f.sprintf(", inside %.1f at least", w.InnerLeast)
	}
	if !w.Designed {
		return text + ". None was found in the wire of the shelf."
	}
	return text + f.sprintf(". Made of the wire of the shelf: %.2f, wire %.1f, outside %.1f, %.1f active coils, free "+
		"length %.0f, with %.0f to spare at full travel.", w.Rate, w.Wire, w.OuterDiameter, w.ActiveCoils, w.FreeLength,
		w.BindMargin)
}

// WeightsText names the weights by which the shelf is ranked.
func (f facts) WeightsText() string {
	w := f.Job.Weights
	if w == (conversion.Weights{}) {
		w = conversion.UsualWeights()
	}
	return f.sprintf("weights: support %g, comfort %g, bottoming %g, robust %g, cautions %g", w.Support, w.Comfort,
		w.Bottoming, w.Robustness, w.Cautions)
}

// TradeOffs are what each coil costs by each weight.
func (f facts) TradeOffs() [][]string {
	rows := [][]string{{"", "support", "comfort", "bottoming", "robustness", "cautions", "total"}}
	for _, c := range f.Candidates[:min(maxTradeOffs, len(f.Candidates))] {
		name := "  "
		if c.Scores.Pareto {
			name = "* "
		}
		row := []string{name + typeset.Plain(c.Coil, 18)}
		for _, v := range []float64{c.Scores.Support, c.Scores.Comfort, c.Scores.Bottoming, c.Scores.Robustness,
			c.Scores.Cautions, c.Scores.Total} {
			row = append(row, score(v))
		}
		if !c.Safe() {
			row[len(row)-1] = "NO"
		}
		rows = append(rows, row)
	}
	return rows
}

// maxTradeOffs is how many coils are set against each other.
const maxTradeOffs = 12
