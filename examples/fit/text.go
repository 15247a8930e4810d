package main

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

func text(j *job) string {
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

// quantity shows a parameter in its unit.
func quantity(p fit.Parameter) (unit string, in float64, format string) {
	switch p {
	case fit.Rate:
		return "N/mm", float64(units.NewtonPerMillimeter), "%.3f"
	case fit.Preload:
		return "mm", float64(mm), "%.2f"
	case fit.GapVolume, fit.ChamberVolume:
		return "mL", float64(units.Milliliter), "%.1f"
	case fit.Exponent:
		return "", 1, "%.3f"
	}
	return "N", float64(units.Newton), "%.1f"
}

// value is a parameter of a model in SI.
func value(m fit.Model, p fit.Parameter) float64 {
	switch p {
	case fit.Rate:
		return float64(m.Coil.Rate)
	case fit.Preload:
		return float64(m.Coil.Preload)
	case fit.GapVolume:
		return float64(m.Gap.Volume)
	case fit.ChamberVolume:
		return float64(m.Air.Volume)
	case fit.Exponent:
		return max(m.Gap.Exponent, m.Air.Exponent)
	}
	return float64(m.Friction)
}

// stdErr is the standard error of a parameter in SI.
func stdErr(e fit.StdErr, p fit.Parameter) float64 {
	switch p {
	case fit.Rate:
		return float64(e.Rate)
	case fit.Preload:
		return float64(e.Preload)
	case fit.GapVolume:
		return float64(e.GapVolume)
	case fit.ChamberVolume:
		return float64(e.ChamberVolume)
	case fit.Exponent:
		return e.Exponent
	}
	return float64(e.Friction)
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
	if j.leg != "both" {
		what = j.leg + " leg alone"
	}
	s.Line("Measured", what+", of the dimensions of "+j.fork.ID+", "+j.fork.Name)
	s.Line("Model", strings.Join(j.terms(), " + ")+" ± friction")
	var known []string
	if a := j.model.Gap.Area; a != 0 {
		known = append(known, fmt.Sprintf("gap: piston area %.1f cm², closed at %.3f bar absolute, fork extended", a.In(units.SquareCentimeter), j.model.Gap.Pressure.In(units.Bar)))
	}
	if a := j.model.Air; a.Volume != 0 {
		text := fmt.Sprintf("air: bore %.1f mm, rod %.1f mm, %.2f bar absolute, fork extended", a.Bore.In(mm), a.Rod.In(mm), a.Pressure.In(units.Bar))
		if a.NegativeVolume != 0 {
			text += fmt.Sprintf(", negative chamber %.0f mL", a.NegativeVolume.In(units.Milliliter))
		}
		known = append(known, text)
	}
	if j.model.Rest != nil {
		known = append(known, "balance coil as in the fork's record")
	}
	if len(known) > 0 {
		s.Line("Taken as known", strings.Join(known, "; "))
	}
}

// terms are the parts of the model as formulas.
func (j *job) terms() []string {
	var terms []string
	if j.model.Coil.Travel != 0 {
		terms = append(terms, "rate·(x + preload)")
	}
	if j.model.Gap.Area != 0 {
		terms = append(terms, "gas over the oil")
	}
	if j.model.Air.Volume != 0 {
		terms = append(terms, "air spring")
	}
	if j.model.Rest != nil {
		terms = append(terms, "balance coil")
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
	onBound := map[fit.Parameter]bool{}
	for _, p := range j.result.Held {
		onBound[p] = true
	}
	show := func(p fit.Parameter, fitted bool) {
		unit, in, format := quantity(p)
		name := p.String()
		if unit != "" {
			name += ", " + unit
		}
		v, e := value(j.result.Model, p)/in, stdErr(j.result.StdErr, p)/in
		cells := []string{minus(fmt.Sprintf(format, v)), "held", ""}
		switch {
		case onBound[p]:
			cells[1] = "on bound"
		case fitted:
			cells[1] = "± " + fmt.Sprintf(format, e)
			if math.Abs(e) < 10*math.Abs(v) {
				cells[2] = fmt.Sprintf("%.1f %%", 100*math.Abs(e/v))
			}
		}
		recorded := "-"
		if p != fit.Exponent {
			recorded = minus(fmt.Sprintf(format, value(j.model, p)/in))
		}
		cells = append(cells, recorded)
		if j.asMade() {
			cells = append(cells, minus(fmt.Sprintf(format, made(p)/in)))
		}
		s.Row(name, 24, cells, 11)
	}
	for _, f := range j.free {
		show(f.parameter, true)
	}
	for _, h := range j.held {
		show(h.parameter, false)
	}
	var notes []string
	if j.model.Coil.Travel != 0 && j.leg == "both" {
		notes = append(notes, "rate is that of both legs together")
	}
	if j.model.Gap.Area != 0 {
		each := ""
		if len(j.legs) == 2 {
			each = " in both legs together"
		}
		notes = append(notes, fmt.Sprintf("gap volume is the gas%s with the fork extended; %s mL of it are left at full travel", each,
			number1((j.result.Model.Gap.Volume-units.Volume(float64(j.model.Gap.Area)*float64(j.fork.Travel.Value))).In(units.Milliliter))))
	}
	if j.model.Air.Volume != 0 {
		notes = append(notes, "chamber volume is the positive chamber with the fork extended")
	}
	notes = append(notes, "friction is half the width of the band")
	s.Paragraph("  ", capital(strings.Join(notes, "; "))+".")
}

func (s *sheet) goodness(j *job) {
	const fewest, exact = 20, 0.05 * units.Newton
	g := j.goodness()
	s.Section("GOODNESS OF FIT")
	s.Line("Scatter", fmt.Sprintf("%.1f N standard deviation of a reading about the fit", float64(g.sigma)))
	switch {
	case g.varies && g.share < 0:
		s.Line("Explained", "nothing: a constant force would describe the readings better")
	case g.varies:
		s.Line("Explained", fmt.Sprintf("%.3f %% of the variance of the force (R²); any rising curve gets above 90 %%, so look at the residuals instead", 100*g.share))
	}
	branch := "compressing"
	if g.largest.Unloading {
		branch = "extending"
	}
	times := ""
	if g.sigma >= exact {
		times = fmt.Sprintf(", %.1f standard deviations", math.Abs(float64(g.largest.Force/g.sigma)))
	}
	s.Line("Farthest off", fmt.Sprintf("%s N at %s mm %s%s", minus(fmt.Sprintf("%+.1f", float64(g.largest.Force))), number1(g.largest.Travel.In(mm)), branch, times))
	z := g.runs.z()
	verdict := "as independent noise has them"
	switch {
	case g.sigma < exact:
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
	s.Line("Runs of one sign", fmt.Sprintf("%d, %.0f ± %.0f expected (Wald and Wolfowitz): %s", g.runs.count, g.runs.expected, math.Sqrt(g.runs.variance), verdict))
}

func (s *sheet) unidentified(j *job) {
	s.Section("WHAT COULD NOT BE IDENTIFIED")
	said := false
	for _, h := range j.held {
		unit, in, format := quantity(h.parameter)
		s.Line(capital(h.parameter.String()), strings.TrimSpace(fmt.Sprintf("held at "+format+" %s", value(j.result.Model, h.parameter)/in, unit))+": "+h.why)
		said = true
	}
	for _, p := range j.result.Held {
		s.Line(capital(p.String()), "ended on a bound of what is possible, which held it: the readings or the model are at odds with it")
		said = true
	}
	for _, p := range j.pairs {
		s.Line(capital(p.a.String())+" and", fmt.Sprintf("%v: correlation of their errors %s; the readings know a combination of both better than either%s",
			p.b, minus(fmt.Sprintf("%.3f", p.correlation)), p.instead(j)))
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
func (p pair) instead(j *job) string {
	if p.other == nil {
		return ""
	}
	_, inB, formatB := quantity(p.b)
	unit, in, format := quantity(p.a)
	text := fmt.Sprintf(". With %v held at "+formatB+", %v is "+format+" ± "+format, p.b, value(p.other.Model, p.b)/inB, p.a, value(p.other.Model, p.a)/in, stdErr(p.other.StdErr, p.a)/in)
	if unit != "" {
		text += " " + unit
	}
	return text + fmt.Sprintf(" and the scatter %.1f N", float64(p.other.Sigma))
}

func (s *sheet) friction(j *job) {
	s.Section("FRICTION BAND, READING BY READING")
	m, err := j.curve()
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
