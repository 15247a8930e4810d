package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

type sheet struct{ typeset.Sheet }

func (j *job) text() string {
	var s sheet
	s.WriteString("WHAT SPRING A FORCE-TRAVEL RECORD HOLDS\n" + strings.Repeat("=", typeset.Width) + "\n")
	if j.demo {
		s.Paragraph("", "A demo: the record is invented, made by this library with friction and noise. Give one of your "+
			"own with -csv.")
		if !j.asMade() {
			s.Paragraph("", "It is that of a whole "+madeFork+" at sea level and no other fork: what follows is only "+
				"a show.")
		}
	}
	s.given(j)
	s.parameters(j)
	s.goodness(j)
	s.unidentified(j)
	s.friction(j)
	s.uncertainty()
	return s.String()
}

func (s *sheet) line(name, format string, args ...any) { s.Line(name, fmt.Sprintf(format, args...)) }

func (s *sheet) given(j *job) {
	s.Section("GIVEN")
	n, m := len(j.record.Loading), len(j.record.Unloading)
	branches := "none extending"
	if m > 0 {
		branches = fmt.Sprintf("%d extending; the one at %s mm, where the sweep turns, is in both",
			m, number1(j.record.Loading[n-1].Travel.In(mm)))
	}
	s.line("Record", "%s: %d readings compressing, %s", j.name, n, branches)
	s.line("Fitted", "%d of them; not those within %s mm of either end or where the sweep turns, where friction turns too",
		len(j.result.Residuals), number1(j.skip.In(mm)))
	what := "whole fork"
	if j.leg != both {
		what = j.leg + " leg alone"
	}
	s.line("Measured", "%s, of the dimensions of %s, %s", what, j.fork.ID, j.fork.Name)
	var terms, known []string
	formulas := map[string]string{"coil": "rate·(x + preload)", "gap": "gas over the oil", "air": "air spring"}
	for _, part := range strings.Split(j.parts, "+") {
		terms = append(terms, formulas[part])
	}
	if area, _ := j.gap(j.model); area != 0 {
		known = append(known, fmt.Sprintf("gap: piston area %.1f cm², closed at %.3f bar absolute, fork extended",
			area.In(units.SquareCentimeter), j.model.Fork.Closed.Pressure.In(units.Bar)))
	}
	for _, l := range []setup.Leg{j.model.Fork.Left, j.model.Fork.Right} {
		a := l.Air
		if a == nil {
			continue
		}
		text := fmt.Sprintf("air: bore %.1f mm, rod %.1f mm, %.2f bar absolute, fork extended",
			a.Bore.In(mm), a.Rod.In(mm), a.Fill.Absolute().In(units.Bar))
		if a.NegativeVolume != 0 {
			text += fmt.Sprintf(", negative chamber %.0f mL", a.NegativeVolume.In(units.Milliliter))
		}
		if known = append(known, text); len(l.Springs) > 0 {
			terms, known = append(terms, "balance coil"), append(known, "balance coil as in the fork's record")
		}
	}
	s.Line("Model", strings.Join(terms, " + ")+" ± friction")
	if len(known) > 0 {
		s.Line("Taken as known", strings.Join(known, "; "))
	}
}

// has tells whether the model has a part.
func (j *job) has(part string) bool { return slices.Contains(strings.Split(j.parts, "+"), part) }

// gap is the gas over the oil of all legs: its area, and what is left of it at full
// travel.
func (j *job) gap(m fit.Model) (area units.Area, rest units.Volume) {
	for _, l := range []setup.Leg{m.Fork.Left, m.Fork.Right} {
		if l.Gap != nil {
			area, rest = area+l.Gap.Area, rest+l.Gap.Residual
		}
	}
	return area, rest
}

func (s *sheet) parameters(j *job) {
	s.Section("PARAMETERS")
	heads := []string{"fitted", "std error", "of it", "record " + j.fork.ID}
	if j.asMade() {
		heads = append(heads, "made with")
	}
	s.Row("", 24, heads, 11)
	show := func(p *parameter, fitted bool) {
		name := p.name
		if p.unit != "" {
			name += ", " + p.unit
		}
		v, e := p.estimate(j.result)
		cells := []string{fmt.Sprintf(p.format, v), "held", ""}
		switch {
		case slices.Contains(j.result.Held, p.name):
			cells[1] = "on bound"
		case fitted:
			cells[1] = "± " + fmt.Sprintf(p.format, e)
			if math.Abs(e) < 10*math.Abs(v) {
				cells[2] = fmt.Sprintf("%.1f %%", 100*math.Abs(e/v))
			}
		}
		recorded := "-"
		if p.name != fit.Exponent().String() {
			recorded = fmt.Sprintf(p.format, p.value(j.model))
		}
		cells = append(cells, recorded)
		if j.asMade() {
			cells = append(cells, fmt.Sprintf(p.format, p.made))
		}
		s.Row(name, 24, cells, 11)
	}
	for _, f := range j.free {
		show(named(f.String()), true)
	}
	for _, h := range j.held {
		show(named(h.Parameter), false)
	}
	var notes []string
	if j.has("coil") && j.leg == both {
		notes = append(notes, "rate is that of both legs together")
	}
	if j.has("gap") {
		each := ""
		if j.model.Fork.Left.Gap != nil && j.model.Fork.Right.Gap != nil {
			each = " in both legs together"
		}
		_, rest := j.gap(j.result.Model)
		notes = append(notes, fmt.Sprintf("gap volume is the gas%s with the fork extended; %s mL of it are left at full "+
			"travel", each, number1(rest.In(units.Milliliter))))
	}
	if j.has("air") {
		notes = append(notes, "chamber volume is the positive chamber with the fork extended")
	}
	notes = append(notes, "friction is half the width of the band")
	s.Paragraph("  ", capital(strings.Join(notes, "; "))+".")
}

func (s *sheet) goodness(j *job) {
	g := j.result.Goodness()
	s.Section("GOODNESS OF FIT")
	s.line("Scatter", "%.1f N standard deviation of a reading about the fit", float64(j.result.Sigma))
	switch {
	case g.Explained < 0:
		s.line("Explained", "nothing: a constant force would describe the readings better")
	case g.Explained <= 1:
		s.line("Explained", "%.3f %% of the variance of the force (R²); any rising curve gets above 90 %%, "+
			"so look at the residuals instead", 100*g.Explained)
	}
	text := "compressing"
	if g.Farthest.Unloading {
		text = "extending"
	}
	if !g.Noiseless {
		text += fmt.Sprintf(", %.1f standard deviations", math.Abs(float64(g.Farthest.Force/j.result.Sigma)))
	}
	s.line("Farthest off", "%+.1f N at %s mm %s", float64(g.Farthest.Force),
		number1(g.Farthest.Travel.In(mm)), text)
	s.line("Runs of one sign", "%d, %.0f ± %.0f expected (Wald and Wolfowitz): %s",
		g.Runs.Count, g.Runs.Expected, g.Runs.StdDev, g.Verdict)
}

func (s *sheet) unidentified(j *job) {
	s.Section("WHAT COULD NOT BE IDENTIFIED")
	for _, h := range j.held {
		p := named(h.Parameter)
		v := p.value(j.model)
		s.line(capital(p.name), "held at %s: %s", strings.TrimSpace(fmt.Sprintf(p.format+" %s", v, p.unit)), h.Reason)
	}
	for _, name := range j.result.Held {
		s.line(capital(name), "ended on a bound of what is possible, which held it: the readings or the model are at "+
			"odds with it")
	}
	for _, p := range j.pairs {
		s.line(capital(p.a.name)+" and", "%s: correlation of their errors %s; the readings know a combination of both "+
			"better than either%s", p.b.name, fmt.Sprintf("%.3f", p.correlation), p.instead())
	}
	switch {
	case len(j.pairs) > 0:
		s.line("", "With one of them held the other's error looks small: it is only as good as the value held.")
	case len(j.held)+len(j.result.Held) == 0:
		s.line("Nothing", "all that was free is determined, none by a bound")
	}
}

// instead says what the fit is with the second parameter held.
func (p pair) instead() string {
	if p.other == nil {
		return ""
	}
	v, e := p.a.estimate(p.other)
	text := fmt.Sprintf(". With %s held at "+p.b.format+", %s is "+p.a.format+" ± "+p.a.format,
		p.b.name, p.b.value(p.other.Model), p.a.name, v, e)
	return strings.TrimSpace(text+" "+p.a.unit) + fmt.Sprintf(" and the scatter %.1f N", float64(p.other.Sigma))
}

func (s *sheet) friction(j *job) {
	s.Section("FRICTION BAND, READING BY READING")
	m, err := spring.NewMeasured(j.record)
	if err != nil {
		text, _, _ := strings.Cut(strings.TrimPrefix(err.Error(), "MeasuredSpec."), "\n") // the first fault
		s.Paragraph("  ", "Not drawn: "+strings.ReplaceAll(text, "Travel = ", "travel = ")+".")
		return
	}
	if j.record.Unloading == nil {
		s.Paragraph("  ", "Not known: there is no stroke out.")
		return
	}
	s.Paragraph("  ", "Half the distance between compressing and extending, by interpolation: no model in it, and all "+
		"the noise. A friction that grows with travel shows here.")
	var travel, force, friction []string
	const columns = 8
	for i := range columns {
		x := j.skip + (m.Stroke()-2*j.skip)*units.Length(i)/(columns-1)
		travel = append(travel, fmt.Sprintf("%.0f", x.In(mm)))
		force = append(force, fmt.Sprintf("%.0f", float64(m.Force(x))))
		friction = append(friction, fmt.Sprintf("%.0f", float64(m.Friction(x))))
	}
	s.Row("travel, mm", 24, travel, 7)
	s.Row("mean force, N", 24, force, 7)
	s.Row("friction, N", 24, friction, 7)
	lost, kept := float64(m.Loss()), float64(m.Energy(m.Stroke()))
	s.line("Loss of the loop", "%.1f J of %.0f J put in; over the whole sweep that is %.0f N of friction on the mean",
		lost, kept+lost/2, lost/(2*float64(m.Stroke())))
}

func (s *sheet) uncertainty() {
	s.Section("HOW SURE")
	s.Paragraph("  ", "Standard errors say how well such readings repeat, two of them in 95 of 100 cases. They know "+
		"nothing of the bench: a load cell 1 % off puts every rate 1 % off, and play counts as preload. Nor do they know "+
		"a wrong model; see the residuals. What is taken as known goes into the rest, so measure areas and pressure of "+
		"the fork at hand.")
	s.Paragraph("  ", "A fork on a bench is stored energy: clamp it so that it cannot jump out, keep clear of its axis, "+
		"and stop short of coil bind and hydraulic lock.")
}

// number1 has one decimal where there is one to show.
func number1(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
