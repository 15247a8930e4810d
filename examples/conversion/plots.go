package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What each line shows is told by its color and weight, in what state by its
// dashes.
const (
	presentColor = chart.Orange
	chosenColor  = chart.Navy
	coilColor    = chart.Sky
)

// plotter draws one report.
type plotter struct {
	*conversion.Report
	chosen  conversion.Candidate
	coil    string // its name in labels
	warning string // before every title, when nothing is safe
}

// plot draws what the report says into a folder, as SVG and PNG. Without a safe
// candidate it draws the best one and every title says so.
func plot(folder program.Folder, r *conversion.Report) error {
	p := plotter{Report: r, chosen: r.Candidates[0], coil: "coil " + typeset.Plain(r.Candidates[0].Coil, 20)}
	if !p.chosen.Safe() {
		p.warning = "NO SAFE COIL: do not build this, the best of the shelf\n"
	}
	for _, plot := range []struct {
		name string
		draw func() (*chart.Figure, error)
	}{
		{"force-travel", p.force}, {"rate-travel", p.rate},
		{"drift-temperature", p.temperature}, {"drift-altitude", p.altitude},
	} {
		f, err := plot.draw()
		if err != nil {
			return fmt.Errorf("plot %s: %w", plot.name, err)
		}
		if err := folder.Draw(plot.name, f); err != nil {
			return err
		}
	}
	return nil
}

// before names the fork that the coil takes after.
func (p *plotter) before() string {
	if p.Job.From == conversion.RiderAlone {
		return "asked-for"
	}
	return "present"
}

// curves are the forks at rest and in a landing; y picks what is drawn of a point.
func (p *plotter) curves(y func(spring.Point) float64) []chart.Line {
	landing := fmt.Sprintf("landing, n = %.2f", p.Job.RideExponent)
	line := func(label string, s *setup.Setup, n float64) chart.Line {
		return sampled(label, s.Curve(n), y)
	}
	lines := []chart.Line{
		line(p.before()+", at rest", p.Present.Setup, gas.Isothermal),
		line(p.before()+", "+landing, p.Present.Setup, p.Job.RideExponent),
		line(p.coil+", at rest", p.chosen.Behavior.Setup, gas.Isothermal),
		line(p.coil+", "+landing, p.chosen.Behavior.Setup, p.Job.RideExponent),
	}
	for i := range lines {
		lines[i].Color, lines[i].Dash = presentColor, chart.Dashed
		lines[i].Marker = chart.Disk
		if i >= 2 {
			lines[i].Color, lines[i].Marker, lines[i].Bold = chosenColor, chart.NoMarker, true
		}
		if i%2 == 1 {
			lines[i].Dash = chart.Solid
		}
	}
	return lines
}

// sampled is a curve read at equal steps of travel. A curve without stroke has
// no points.
func sampled(label string, c spring.Curve, y func(spring.Point) float64) chart.Line {
	l := chart.Line{Label: label}
	for _, pt := range spring.Sample(c, 401) {
		l.X = append(l.X, pt.Travel.In(units.Millimeter))
		l.Y = append(l.Y, y(pt))
	}
	return l
}

const conditions = "At rest: moved slowly, n = 1. Landing: gas compressed fast from full extension. "

func (p *plotter) force() (*chart.Figure, error) {
	newtons := func(pt spring.Point) float64 { return pt.Force.In(units.Newton) }
	lines := p.curves(newtons)
	rest := lines[2]
	friction := p.chosen.Behavior.Setup.Friction().In(units.Newton)
	f := &chart.Figure{
		Title: p.warning + "Force against travel: " + p.before() + " fork and " + p.coil,
		Note: conditions + fmt.Sprintf("Fork as a whole, along its axis, with preload %.1f mm and %.0f mL of oil in "+
			"each leg with a coil.",
			p.chosen.Preload.In(units.Millimeter), p.chosen.OilVolume.In(units.Milliliter)),
		X: chart.Axis{Label: "Travel", Unit: "mm"},
		Y: chart.Axis{Label: "Force on the fork axis", Unit: "N", Zero: true},
		Bands: []chart.Band{{Name: fmt.Sprintf("friction band of %s at rest, ±%.0f N", p.coil, friction),
			X: rest.X, Low: shifted(rest.Y, -friction), High: shifted(rest.Y, friction), Color: chosenColor}},
		Marks: append(p.sags(), chart.Mark{On: chart.OnY, At: p.Rider.Axial.In(units.Newton),
			Label: fmt.Sprintf("load with rider, %.0f N", p.Rider.Axial.In(units.Newton))}),
	}
	coil := chart.Line{Label: p.coil + " alone", Color: coilColor, Dash: chart.DashDot}
	for _, x := range rest.X {
		coil.X = append(coil.X, x)
		coil.Y = append(coil.Y, p.chosen.Rate.In(units.NewtonPerMillimeter)*(x+p.chosen.Preload.In(units.Millimeter)))
	}
	f.Lines = append(lines, coil)
	// Near hydraulic lock the force has no bound.
	p.limit(f, 1.5*p.Present.ForceFull.In(units.Newton))
	return drawable(f)
}

func (p *plotter) rate() (*chart.Figure, error) {
	lines := p.curves(func(pt spring.Point) float64 { return pt.Rate.In(units.NewtonPerMillimeter) })
	k := p.chosen.Rate.In(units.NewtonPerMillimeter)
	coil := chart.Line{Label: p.coil + " alone", Color: coilColor, Dash: chart.DashDot}
	for _, x := range lines[2].X {
		coil.X, coil.Y = append(coil.X, x), append(coil.Y, k)
	}
	f := &chart.Figure{
		Title: p.warning + "Spring rate against travel: " + p.before() + " fork and " + p.coil,
		Note:  conditions + "Fork as a whole, along its axis.",
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     chart.Axis{Label: "Rate dF/dx", Unit: "N/mm", Zero: true},
		Lines: append(lines, coil),
		Marks: p.sags(),
	}
	p.limit(f, 5*k)
	return drawable(f)
}

// limit cuts the Y axis at a round value near most, and says so, where lines go beyond.
func (p *plotter) limit(f *chart.Figure, most float64) {
	highest := 0.0
	for _, l := range f.Lines {
		for _, y := range l.Y {
			highest = max(highest, y)
		}
	}
	if highest <= most {
		return
	}
	step := math.Pow(10, math.Floor(math.Log10(most)))
	f.Y.Max = step * math.Ceil(most/step)
	f.Note += fmt.Sprintf(" Cut off at %.0f %s; the highest value is %.0f %s.", f.Y.Max, f.Y.Unit, highest, f.Y.Unit)
}

// sags marks where the forks settle with the rider, as one where they agree.
func (p *plotter) sags() []chart.Mark {
	present := p.Present.Sag.Middle.In(units.Millimeter)
	marks := []chart.Mark{{At: present, Label: fmt.Sprintf("%s: sag %.1f mm", p.before(), present), Color: presentColor}}
	if p.chosen.Behavior.Sag.Load == 0 { // it does not carry the rider
		return marks
	}
	chosen := p.chosen.Behavior.Sag.Middle.In(units.Millimeter)
	label := fmt.Sprintf("%s: sag %.1f mm", p.coil, chosen)
	if math.Abs(chosen-present) < 0.05 {
		marks[0].Label = fmt.Sprintf("sag %.1f mm\n%s and %s", present, p.before(), p.coil)
		return marks
	}
	return append(marks, chart.Mark{At: chosen, Label: label, Color: chosenColor})
}

// shifted adds to each force; friction holds a fork extended, but does not pull at it.
func shifted(forces []float64, by float64) []float64 {
	s := make([]float64, len(forces))
	for i, v := range forces {
		s[i] = max(v+by, 0)
	}
	return s
}

// drawable leaves out lines and bands with less than two points.
func drawable(f *chart.Figure) (*chart.Figure, error) {
	var lines []chart.Line
	for _, l := range f.Lines {
		if len(l.X) >= 2 {
			lines = append(lines, l)
		}
	}
	var bands []chart.Band
	for _, b := range f.Bands {
		if len(b.X) >= 2 {
			bands = append(bands, b)
		}
	}
	if len(lines) == 0 {
		return nil, errors.New("neither fork has a curve to draw")
	}
	f.Lines, f.Bands = lines, bands
	return f, nil
}

func (p *plotter) temperature() (*chart.Figure, error) {
	here, there := p.Job.Workshop.Temperature.Celsius(), p.Job.Event.Temperature.Celsius()
	f := p.drift("temperature", "at the workshop's pressure",
		math.Min(-20, math.Floor(min(here, there)/5)*5), math.Max(45, math.Ceil(max(here, there)/5)*5),
		func(t float64) (gas.Ambient, error) {
			return gas.Ambient{Temperature: units.Celsius(t), Pressure: p.Job.Workshop.Pressure}, nil
		})
	f.X = chart.Axis{Label: "Temperature of air and fork", Unit: "°C"}
	f.Marks = append(f.Marks,
		chart.Mark{At: here, Label: fmt.Sprintf("workshop %.0f °C", here), Color: chart.Green},
		chart.Mark{At: there, Label: fmt.Sprintf("event %.0f °C", there), Color: chart.Wine, Dash: chart.LongDash})
	return drawable(f)
}

func (p *plotter) altitude() (*chart.Figure, error) {
	lo, hi := 0.0, 3000.0
	var marks []chart.Mark
	for _, m := range []struct {
		name string
		air  gas.Ambient
		chart.Mark
	}{
		{"workshop", p.Job.Workshop, chart.Mark{Color: chart.Green}},
		{"event", p.Job.Event, chart.Mark{Color: chart.Wine, Dash: chart.LongDash}},
	} {
		altitude, err := gas.PressureAltitude(m.air.Pressure)
		if err != nil {
			continue
		}
		z := float64(altitude)
		lo, hi = min(lo, math.Floor(z/500)*500), max(hi, math.Ceil(z/500)*500)
		m.Mark.At, m.Mark.Label = z, fmt.Sprintf("%s %.0f m, %.0f mbar", m.name, z, m.air.Pressure.In(units.Millibar))
		marks = append(marks, m.Mark)
	}
	f := p.drift("altitude", "at the workshop's temperature", lo, hi, func(z float64) (gas.Ambient, error) {
		return gas.StandardAt(units.Length(z)*units.Meter, p.Job.Workshop.Temperature)
	})
	f.X = chart.Axis{Label: "Altitude at which the standard atmosphere has the pressure", Unit: "m"}
	f.Marks = append(f.Marks, marks...)
	return drawable(f)
}

// drift draws the change of sag over what changes from lo to hi.
func (p *plotter) drift(what, held string, lo, hi float64, air func(float64) (gas.Ambient, error)) *chart.Figure {
	f := &chart.Figure{
		Title: p.warning + "Change of sag with " + what + ": " + p.before() + " fork and " + p.coil,
		Note: fmt.Sprintf("With rider, %s. Sealed: nothing touched since the fork was set up. Vented: gas over the "+
			"oil let out, fork extended. Zero is the fork as set up: %s %s, %s %s. %s",
			held, p.before(), conditionsOf(p.Present.Setup), p.coil, conditionsOf(p.chosen.Behavior.Setup), p.atEvent()),
		Y:     chart.Axis{Label: "Change of sag, + is lower", Unit: "mm", Zero: true},
		Marks: []chart.Mark{{On: chart.OnY, At: 0, Dash: chart.Solid}},
		Regions: []chart.Region{{On: chart.OnY, From: -conversion.DriftStep.In(units.Millimeter),
			To: conversion.DriftStep.In(units.Millimeter),
			Name: fmt.Sprintf("less than ±%.0f mm: hardly noticed by the rider",
				conversion.DriftStep.In(units.Millimeter))}},
	}
	sealed := func(s *setup.Setup) *setup.Setup { return s }
	for _, l := range []struct {
		chart.Line
		fork  conversion.Behavior
		state func(*setup.Setup) *setup.Setup
	}{
		{chart.Line{Label: p.before() + ", sealed", Color: presentColor, Dash: chart.Solid, Marker: chart.Disk}, p.Present,
			sealed},
		{chart.Line{Label: p.before() + ", vented", Color: presentColor, Dash: chart.Dashed, Marker: chart.Disk}, p.Present,
			(*setup.Setup).Vented},
		{chart.Line{Label: p.coil + ", sealed", Color: chosenColor, Dash: chart.Solid, Bold: true}, p.chosen.Behavior,
			sealed},
		{chart.Line{Label: p.coil + ", vented", Color: chosenColor, Dash: chart.Dashed, Bold: true},
			p.chosen.Behavior, (*setup.Setup).Vented},
	} {
		if l.fork.Sag.Load == 0 { // it does not carry the rider
			continue
		}
		const steps = 65
		for i := range steps + 1 {
			x := lo + (hi-lo)*float64(i)/steps
			a, err := air(x)
			if err != nil {
				continue
			}
			moved, err := l.fork.Setup.At(a)
			if err != nil {
				continue
			}
			sag, err := l.state(moved).Sag(l.fork.Sag.Load)
			if err != nil { // in that air it does not carry the rider
				continue
			}
			l.X = append(l.X, x)
			l.Y = append(l.Y, (sag.Middle - l.fork.Sag.Middle).In(units.Millimeter))
		}
		f.Lines = append(f.Lines, l.Line)
	}
	return f
}

// conditionsOf is the air a fork was set up in.
func conditionsOf(s *setup.Setup) string {
	return fmt.Sprintf("at %.0f °C and %.0f mbar", s.Ambient().Temperature.Celsius(),
		s.Ambient().Pressure.In(units.Millibar))
}

// atEvent is what temperature and altitude of the event do together.
func (p *plotter) atEvent() string {
	changes := func(name string, d setup.Drift) string {
		return name + ": " + strings.ReplaceAll(fmt.Sprintf("%+.1f mm sealed, %+.1f mm vented",
			d.Change(d.There).In(units.Millimeter), d.Change(d.Vented).In(units.Millimeter)), "-", "−")
	}
	text := "At the event, temperature and altitude together: " + changes(p.before(), p.Event)
	if p.chosen.Behavior.Sag.Load != 0 {
		text += "; " + changes(p.coil, p.chosen.Event)
	}
	return text + "."
}
