package sheet

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// EventDay is the change of sag of the present fork and of the converted one.
func (f facts) EventDay() [][]string {
	row := func(name string, d setup.Drift, refilled bool) []string {
		change := func(g setup.Sag) string { return signed(d.Change(g).In(units.Millimeter)) }
		row := []string{fmt.Sprintf("%s, %.0f as set", name, d.Here.Middle), change(d.There), change(d.Vented), "-"}
		if refilled {
			row[3] = change(d.Refilled)
		}
		return row
	}
	rows := [][]string{row("present fork", f.Event, f.Fill() != nil || f.Job.Precharged())}
	if c := f.Best; c != nil {
		rows = append(rows, row(typeset.Plain(c.Coil, 15), c.Event, f.stays() != (units.GaugePressure{})))
	}
	return rows
}

// Loads are how the load on the axis comes about, with rider and of the machine alone.
func (f facts) Loads() [][]string {
	r, m, c := f.Rider, f.Machine, f.Job.Chassis
	row := func(name, format string, rider, machine any) []string {
		return []string{name, fmt.Sprintf(format, rider), fmt.Sprintf(format, machine)}
	}
	return [][]string{
		row("Mass", "%.1f", r.Mass, m.Mass),
		row("Share on the front wheel", "%.1f", c.FrontShareRidden, c.FrontShare),
		row("Front wheel load", "%.0f", r.Wheel, m.Wheel),
		row(fmt.Sprintf("less %.1f unsprung", c.UnsprungMass), "-%.0f", r.Unsprung, m.Unsprung),
		row(fmt.Sprintf("times cos %.1f°: axis", c.Rake.In(units.Degree)), "%.0f", r.Axial, m.Axial),
	}
}

// Forces of the present fork along its stroke.
func (f facts) Forces() [][]string {
	rest, ridden := f.Present.Setup.Curve(gas.Isothermal), f.Present.Setup.Curve(f.Job.RideExponent)
	rows := [][]string{{"Travel, mm"}, {"Force at rest, N"}, {"Force ridden, N"}}
	for i := range 9 {
		x := rest.Stroke() * units.Length(i) / 8
		for j, v := range []float64{x.In(units.Millimeter), float64(rest.Force(x)), float64(ridden.Force(x))} {
			rows[j] = append(rows[j], fmt.Sprintf("%.0f", v))
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
		rows = append(rows, []string{mark + names[t.Criterion], fmt.Sprintf("%.2f", t.Rate),
			fmt.Sprintf("%.2f", t.Each)})
	}
	return rows
}

// most candidates side by side.
const most = 5

// Hidden is how many candidates there are beyond.
func (f facts) Hidden() int { return max(0, len(f.Candidates)-most) }

// Shelf sets the candidates side by side.
func (f facts) Shelf() [][]string {
	const mm = units.Millimeter
	shown := f.Candidates[:min(most, len(f.Candidates))]
	var rows [][]string
	row := func(name string, text func(c conversion.Candidate) string) {
		cells := []string{name}
		for _, c := range shown {
			cells = append(cells, text(c))
		}
		rows = append(rows, cells)
	}
	value := func(name, format string, of func(c conversion.Candidate) float64) {
		row(name, func(c conversion.Candidate) string { return fmt.Sprintf(format, of(c)) })
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
	behavior := func(name, unit string, of func(b conversion.Behavior) float64) {
		ridden(fmt.Sprintf("%s (now %.0f), %s", name, of(f.Present), unit),
			func(c conversion.Candidate) string { return fmt.Sprintf("%.0f", of(c.Behavior)) })
	}
	stress := func(name string, of func(c conversion.Candidate) units.Stress) {
		row(name, func(c conversion.Candidate) string {
			if of(c) == 0 {
				return "?" // the wire is not known
			}
			return fmt.Sprintf("%.0f", of(c).In(units.Megapascal))
		})
	}
	row("", func(c conversion.Candidate) string { return typeset.Plain(c.Coil, 9) })
	value("Rate of a spring, N/mm", "%.2f",
		func(c conversion.Candidate) float64 { return c.Each.In(units.NewtonPerMillimeter) })
	value("Fork rate against target, %", "%+.0f", func(c conversion.Candidate) float64 { return 100 * c.RateDeviation })
	value("Preload, mm", "%.1f", func(c conversion.Candidate) float64 { return c.Preload.In(mm) })
	row("Spacer, mm", func(c conversion.Candidate) string {
		if c.Spacer < -0.05*mm {
			return "too long"
		}
		return fmt.Sprintf("%.1f", max(0, c.Spacer.In(mm)))
	})
	value("Oil a leg, mL", "%.0f", func(c conversion.Candidate) float64 { return c.OilVolume.In(units.Milliliter) })
	if shown[0].OilLevel != nil {
		value("Oil level, mm", "%.0f", func(c conversion.Candidate) float64 { return c.OilLevel.In(mm) })
	}
	behavior("Sag with rider", "mm", func(b conversion.Behavior) float64 { return b.Sag.Middle.In(mm) })
	ridden("  band, mm", func(c conversion.Candidate) string {
		return fmt.Sprintf("%.0f-%.0f", c.Behavior.Sag.High.In(mm), c.Behavior.Sag.Low.In(mm))
	})
	behavior("Sag of machine", "mm", func(b conversion.Behavior) float64 { return b.MachineSag.Middle.In(mm) })
	ridden("Front lower by, mm", func(c conversion.Candidate) string { return signed(c.SagChange.In(mm)) })
	behavior("Energy to 90 %", "J", func(b conversion.Behavior) float64 { return float64(b.Energy90) })
	behavior("Energy to end", "J", func(b conversion.Behavior) float64 { return float64(b.EnergyFull) })
	value("Bind margin, mm", "%.0f", func(c conversion.Candidate) float64 { return c.BindMargin.In(mm) })
	value("  advised, mm", "%.0f", func(c conversion.Candidate) float64 { return c.BindMarginAdvised.In(mm) })
	stress("Wire stress, MPa", func(c conversion.Candidate) units.Stress { return c.Stress })
	stress("  limit, MPa", func(c conversion.Candidate) units.Stress { return c.StressLimit })
	row("Gas compression ratio", func(c conversion.Candidate) string { return ratio(c.GapRatio) })
	row("  with the oil 40 K warmer", func(c conversion.Candidate) string { return ratio(c.GapRatioWarm) })
	value("Peak gas pressure, bar", "%.1f", func(c conversion.Candidate) float64 { return c.GapPeak.In(units.Bar) })
	value("Mass of a spring, kg", "%.2f", func(c conversion.Candidate) float64 { return c.Mass.In(units.Kilogram) })
	row("Verdict", func(c conversion.Candidate) string {
		if !c.Safe() {
			return "NO"
		}
		return c.Verdict.String()
	})
	return rows
}

// signed is a change to a tenth, without the sign of a negative 0.
func signed(v float64) string {
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
	text := fmt.Sprintf("in each converted leg a spring of %.2f to %.2f, outside %.1f at most when closed, free length "+
		"%.0f at most", w.RateLeast, w.RateMost, w.OuterMost, w.LengthMost)
	if w.InnerLeast > 0 {
		text += fmt.Sprintf(", inside %.1f at least", w.InnerLeast)
	}
	if !w.Designed {
		return text + ". None was found in the wire of the shelf."
	}
	return text + fmt.Sprintf(". Made of the wire of the shelf: %.2f, wire %.1f, outside %.1f, %.1f active coils, free "+
		"length %.0f, with %.0f to spare at full travel.", w.Rate, w.Wire, w.OuterDiameter, w.ActiveCoils, w.FreeLength,
		w.BindMargin)
}

// WeightsText names the weights by which the shelf is ranked.
func (f facts) WeightsText() string {
	w := f.Job.Weights
	if w == (conversion.Weights{}) {
		w = conversion.UsualWeights()
	}
	return fmt.Sprintf("weights: support %g, comfort %g, bottoming %g, robust %g, cautions %g", w.Support, w.Comfort,
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
			row = append(row, signed(v))
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
