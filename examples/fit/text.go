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

// sheet is what the program prints.
type sheet struct{ typeset.Sheet }

func (j *job) text() string {
	var s sheet
	s.WriteString("WHAT SPRING A FORCE-TRAVEL RECORD HOLDS\n" + strings.Repeat("=", typeset.Width) + "\n")
	if j.demo {
		s.Paragraph("", "A demo: the record is invented, made by this library with friction and noise. Give one of your own with -csv.")
		if !j.asMade() {
			s.Paragraph("", "It is that of a whole "+madeFork+" at sea level and no other fork: what follows is only a show.")
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

func (s *sheet) given(j *job) {
	s.Section("GIVEN")
	n, m := len(j.record.Loading), len(j.record.Unloading)
	top := j.record.Loading[n-1].Travel
	branches := fmt.Sprintf("%d readings compressing", n)
	if m > 0 {
		branches += fmt.Sprintf(", %d extending; the one at %s mm, where the sweep turns, is in both", m, number1(top.In(mm)))
	} else {
		branches += ", none extending"
	}
	s.Line("Record", j.name+": "+branches)
	s.Line("Fitted", fmt.Sprintf("%d of them; not those within %s mm of either end or where the sweep turns, where friction turns too", len(j.result.Residuals), number1(j.skip.In(mm))))
	what := "whole fork"
	if j.leg != both {
		what = j.leg + " leg alone"
	}
	s.Line("Measured", what+", of the dimensions of "+j.fork.ID+", "+j.fork.Name)
	s.Line("Model", strings.Join(j.terms(), " + ")+" ± friction")
	var known []string
	for _, l := range []setup.Leg{j.model.Fork.Left, j.model.Fork.Right} {
		if g := l.Gap; g != nil && !slices.ContainsFunc(known, func(k string) bool { return strings.HasPrefix(k, "gap") }) {
			closed := g.Gauge.Absolute(j.model.Fork.Closed.Pressure)
			known = append(known, fmt.Sprintf("gap: piston area %.1f cm²%s, closed at %.3f bar absolute, fork extended",
				g.Area.In(units.SquareCentimeter), j.each(), closed.In(units.Bar)))
		}
		if a := l.Air; a != nil {
			text := fmt.Sprintf("air: bore %.1f mm, rod %.1f mm, %.2f bar absolute, fork extended",
				a.Bore.In(mm), a.Rod.In(mm), a.Fill.Absolute().In(units.Bar))
			if a.NegativeVolume != 0 {
				text += fmt.Sprintf(", negative chamber %.0f mL", a.NegativeVolume.In(units.Milliliter))
			}
			known = append(known, text)
		}
	}
	if j.balanced() {
		known = append(known, "balance coil as in the fork's record")
	}
	if len(known) > 0 {
		s.Line("Taken as known", strings.Join(known, "; "))
	}
}

// has tells whether the model has a part.
func (j *job) has(part string) bool { return slices.Contains(strings.Split(j.parts, "+"), part) }

// balanced tells whether a coil helps the negative chamber of an air spring.
func (j *job) balanced() bool {
	return j.has("air") && len(j.model.Fork.Left.Springs)+len(j.model.Fork.Right.Springs) > 0
}

// each says what numbers of a leg are.
func (j *job) each() string {
	l, r := j.model.Fork.Left, j.model.Fork.Right
	if l.Gap != nil && r.Gap != nil || len(l.Springs) > 0 && len(r.Springs) > 0 {
		return " in each leg"
	}
	return ""
}

// terms are the parts of the model as formulas.
func (j *job) terms() []string {
	var terms []string
	for _, t := range []struct {
		part bool
		text string
	}{{j.has("coil"), "rate·(x + preload)"}, {j.has("gap"), "gas over the oil"}, {j.has("air"), "air spring"}, {j.balanced(), "balance coil"}} {
		if t.part {
			terms = append(terms, t.text)
		}
	}
	return terms
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
		v, _ := p.value(j.result.Model)
		e := p.stdErr(j.result)
		cells := []string{minus(fmt.Sprintf(p.format, v)), "held", ""}
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
			v, _ := p.value(j.model)
			recorded = minus(fmt.Sprintf(p.format, v))
		}
		cells = append(cells, recorded)
		if j.asMade() {
			cells = append(cells, minus(fmt.Sprintf(p.format, p.made)))
		}
		s.Row(name, 24, cells, 11)
	}
	for _, f := range j.free {
		show(named(f), true)
	}
	for _, h := range j.held {
		show(j.of(h), false)
	}
	var notes []string
	if j.has("coil") && j.each() != "" {
		notes = append(notes, "rate and preload are those of the spring in each leg")
	}
	for _, l := range []setup.Leg{j.result.Model.Fork.Right, j.result.Model.Fork.Left} {
		if l.Gap != nil {
			notes = append(notes, fmt.Sprintf("gap volume is the gas%s with the fork extended; %s mL of it are left at full travel",
				j.each(), number1(l.Gap.Residual.In(units.Milliliter))))
			break
		}
	}
	if j.has("air") {
		notes = append(notes, "chamber volume is the positive chamber with the fork extended")
	}
	notes = append(notes, "friction is half the width of the band")
	s.Paragraph("  ", capital(strings.Join(notes, "; "))+".")
}

// of is the parameter that was held.
func (j *job) of(h fit.Unidentified) *parameter {
	return parameters[slices.Index(names(), h.Parameter)]
}

func (s *sheet) goodness(j *job) {
	const fewest, exact = 20, 0.05 * units.Newton
	g, sigma := j.result.Goodness(), j.result.Sigma
	s.Section("GOODNESS OF FIT")
	s.Line("Scatter", fmt.Sprintf("%.1f N standard deviation of a reading about the fit", float64(sigma)))
	switch {
	case g.Explained < 0:
		s.Line("Explained", "nothing: a constant force would describe the readings better")
	case g.Explained <= 1:
		s.Line("Explained", fmt.Sprintf("%.3f %% of the variance of the force (R²); any rising curve gets above 90 %%, so look at the residuals instead", 100*g.Explained))
	}
	branch := "compressing"
	if g.Farthest.Unloading {
		branch = "extending"
	}
	times := ""
	if sigma >= exact {
		times = fmt.Sprintf(", %.1f standard deviations", math.Abs(float64(g.Farthest.Force/sigma)))
	}
	s.Line("Farthest off", fmt.Sprintf("%s N at %s mm %s%s", minus(fmt.Sprintf("%+.1f", float64(g.Farthest.Force))), number1(g.Farthest.Travel.In(mm)), branch, times))
	z := g.Runs.Z()
	verdict := "as independent noise has them"
	switch {
	case sigma < exact:
		verdict = "means nothing, there is no noise to speak of; a record of a bench has some"
	case len(j.result.Residuals) < fewest:
		verdict = fmt.Sprintf("too few readings to tell; %d or more can", fewest)
	case z < -3:
		verdict = "far too few: the residuals show a pattern, the model is wrong somewhere, and the standard errors above are not to be trusted"
	case z < -2:
		verdict = "few: look at the residuals for a pattern"
	case z > 3:
		verdict = "too many: the readings alternate, as with play or a ripple of the bench"
	}
	s.Line("Runs of one sign", fmt.Sprintf("%d, %.0f ± %.0f expected (Wald and Wolfowitz): %s", g.Runs.Count, g.Runs.Expected, g.Runs.StdDev, verdict))
}

func (s *sheet) unidentified(j *job) {
	s.Section("WHAT COULD NOT BE IDENTIFIED")
	said := false
	for _, h := range j.held {
		p := j.of(h)
		v, _ := p.value(j.result.Model)
		s.Line(capital(p.name), strings.TrimSpace(fmt.Sprintf("held at "+p.format+" %s", v, p.unit))+": "+h.Reason)
		said = true
	}
	for _, name := range j.result.Held {
		s.Line(capital(name), "ended on a bound of what is possible, which held it: the readings or the model are at odds with it")
		said = true
	}
	for _, p := range j.pairs {
		s.Line(capital(p.a.name)+" and", fmt.Sprintf("%v: correlation of their errors %s; the readings know a combination of both better than either%s",
			p.b, minus(fmt.Sprintf("%.3f", p.correlation)), p.instead()))
		said = true
	}
	if len(j.pairs) > 0 {
		s.Line("", "With one of them held the other's error looks small: it is only as good as the value held.")
	}
	if !said {
		s.Line("Nothing", "all that was free is determined, none by a bound")
	}
}

// instead says what the fit is with the second parameter held.
func (p pair) instead() string {
	if p.other == nil {
		return ""
	}
	held, _ := p.b.value(p.other.Model)
	v, _ := p.a.value(p.other.Model)
	text := fmt.Sprintf(". With %v held at "+p.b.format+", %v is "+p.a.format+" ± "+p.a.format, p.b, held, p.a, v, p.a.stdErr(p.other))
	return strings.TrimSpace(text+" "+p.a.unit) + fmt.Sprintf(" and the scatter %.1f N", float64(p.other.Sigma))
}

func (s *sheet) friction(j *job) {
	s.Section("FRICTION BAND, READING BY READING")
	m, err := spring.NewMeasured(j.record)
	if err != nil {
		s.Paragraph("  ", "Not drawn: "+reason(err)+".")
		return
	}
	if j.record.Unloading == nil {
		s.Paragraph("  ", "Not known: there is no stroke out.")
		return
	}
	s.Paragraph("  ", "Half the distance between compressing and extending, by interpolation: no model in it, and all the noise. A friction that grows with travel shows here.")
	var travel, force, friction []string
	const columns = 8
	for i := range columns {
		x := j.skip + (m.Stroke()-2*j.skip)*units.Length(i)/(columns-1)
		travel = append(travel, fmt.Sprintf("%.0f", x.In(mm)))
		force = append(force, fmt.Sprintf("%.0f", float64(m.Force(x))))
		friction = append(friction, minus(fmt.Sprintf("%.0f", float64(m.Friction(x)))))
	}
	s.Row("travel, mm", 24, travel, 7)
	s.Row("mean force, N", 24, force, 7)
	s.Row("friction, N", 24, friction, 7)
	s.Line("Loss of the loop", fmt.Sprintf("%.1f J of %.0f J put in; over the whole sweep that is %.0f N of friction on the mean", float64(m.Loss()), float64(m.Energy(m.Stroke()))+float64(m.Loss())/2, float64(m.Loss())/(2*float64(m.Stroke()))))
}

// reason is what an error says of the readings, without the names of the library.
func reason(err error) string {
	text, _, _ := strings.Cut(err.Error(), "\n")
	return strings.ReplaceAll(strings.TrimPrefix(text, "MeasuredSpec."), "Travel = ", "travel = ")
}

func (s *sheet) uncertainty() {
	s.Section("HOW SURE")
	s.Paragraph("  ", "Standard errors say how well such readings repeat, two of them in 95 of 100 cases. They know nothing of the bench: a load cell 1 % off puts every rate 1 % off, and play counts as preload. Nor do they know a wrong model; see the residuals. What is taken as known goes into the rest, so measure areas and pressure of the fork at hand.")
	s.Paragraph("  ", "A fork on a bench is stored energy: clamp it so that it cannot jump out, keep clear of its axis, and stop short of coil bind and hydraulic lock.")
}

// number1 has one decimal where there is one to show.
func number1(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

func minus(text string) string { return strings.ReplaceAll(text, "-", "−") }

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
