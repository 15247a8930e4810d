package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

const topRatio = 20 // of the plots

var (
	asFilled = chart.Line{Name: "as filled", Color: chart.Navy, Dash: chart.Solid, Bold: true}
	onceWarm = chart.Line{Name: "warm", Color: chart.Orange, Dash: chart.Dashed, Bold: true}
)

// plot draws the fork's figures.
func (s *study) plot(folder program.Folder) error {
	if !folder.Given() {
		return nil
	}
	figures := map[string]func() (*chart.Figure, error){"force": s.forces, "ratio": s.ratios}
	names := []string{"force", "ratio"}
	if s.fork.Spring() == data.AirLeg {
		figures["refit"], names = s.refits, append(names, "refit")
	}
	for _, name := range names {
		f, err := figures[name]()
		if err != nil {
			return fmt.Errorf("plot %s: %w", name, err)
		}
		if err := folder.Draw(s.fork.ID+"-"+name, f); err != nil {
			return err
		}
	}
	return nil
}

// draw adds a line of what is read of the fork over the fills that do not lock it.
func (s *study) draw(f *chart.Figure, l chart.Line, air gas.Ambient, y func(p bath.End) float64) error {
	least, lock := s.columns()[0], s.x(s.Room(oil.LockRatio, air))
	const steps = 240
	for i := range steps {
		x := least + (lock-least)*float64(i)/steps
		p, err := s.At(s.moreAt(x), air)
		if err != nil {
			return err
		}
		l.X, l.Y = append(l.X, x), append(l.Y, y(p))
	}
	f.Lines = append(f.Lines, l)
	return nil
}

// base is a figure over the fill up to somewhat more than locks, with the regions of lock.
func (s *study) base(title string, y chart.Axis) *chart.Figure {
	least, cold, warm := s.columns()[0], s.x(s.Room(oil.LockRatio, s.cold)), s.x(s.Room(oil.LockRatio, s.warm))
	most := cold + 0.08*(cold-least)
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: %s", s.fork.ID, title),
		Note: fmt.Sprintf("Fork: %s, ridden (n = %.1f). Filled and closed at %.0f; warm: oil and gas at %.0f. Cut "+
			"off at %s.",
			s.fork.Name, s.exponent, s.cold.Temperature, s.warm.Temperature, strings.TrimSpace(fmt.Sprintf("%.0f %s",
				y.Max, y.Unit))),
		X: chart.Axis{Label: "Oil in " + s.where(), Unit: "mL", Min: least, Max: most}, Y: y,
		Marks: []chart.Mark{{At: s.x(0), Label: "as set\n" + s.axis(s.x(0)), Color: chart.Green}},
	}
	if s.fills[0] != s.fills[1] {
		f.Note += " The other leg's oil is changed as much."
	}
	if s.byLevel {
		f.X = chart.Axis{Label: "Oil level in each leg; more oil to the left", Unit: "mm", Min: most, Max: least}
		f.Note += " Level: air over the oil, fork compressed, spring out."
	}
	f.Bands = []chart.Band{lockBand("hydraulic lock as filled", cold, most, y, chart.Wine),
		lockBand("hydraulic lock once warm", warm, cold, y, chart.Auto)}
	return f
}

func lockBand(name string, from, to float64, y chart.Axis, color chart.Color) chart.Band {
	return chart.Band{Name: name, X: []float64{min(from, to), max(from, to)}, Low: []float64{y.Min, y.Min},
		High: []float64{y.Max, y.Max}, Color: color}
}

// forces is the force at the end of the stroke.
func (s *study) forces() (*chart.Figure, error) {
	now, err := s.At(0, s.cold)
	if err != nil {
		return nil, err
	}
	end, deepIn := func(p bath.End) float64 { return float64(s.end(p)) },
		func(p bath.End) float64 { return float64(s.deep(p)) }
	step := math.Pow(10, math.Floor(math.Log10(3*end(now))))
	f := s.base("force at the end of the stroke against the oil",
		chart.Axis{Label: "Force of the whole fork", Unit: "N", Max: step * math.Ceil(3*end(now)/step)})
	for _, r := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio} {
		x := s.x(s.Room(r, s.cold))
		f.Marks = append(f.Marks, chart.Mark{At: x, Label: fmt.Sprintf("ratio %.0f, as filled\n%s", r, s.axis(x)),
			Dash: chart.Dotted})
	}
	cold, warm := asFilled, onceWarm
	cold.Name, warm.Name = "at the end, as filled", "at the end, warm"
	supple := chart.Line{Name: fmt.Sprintf("at %.0f %% of travel, as filled", 100*deep), Color: chart.Sky,
		Dash: chart.DashDot}
	return f, errors.Join(s.draw(f, cold, s.cold, end), s.draw(f, warm, s.warm, end), s.draw(f, supple, s.cold, deepIn))
}

var ratioAxis = chart.Axis{Label: "Gas extended over gas at full travel", Max: topRatio}

var ratioLimits = []chart.Mark{
	{On: chart.OnY, At: conversion.GoodGapRatio, Label: fmt.Sprintf("good up to %.0f", conversion.GoodGapRatio),
		Dash: chart.Dotted},
	{On: chart.OnY, At: conversion.StopGapRatio, Label: fmt.Sprintf("refused over %.0f", conversion.StopGapRatio),
		Dash: chart.Dotted},
}

// ratios is the compression ratio of the gas.
func (s *study) ratios() (*chart.Figure, error) {
	f := s.base("compression ratio of the gas against the oil", ratioAxis)
	f.Note += fmt.Sprintf(" Locked at %d.", int(oil.LockRatio))
	f.Marks = append(f.Marks, ratioLimits...)
	ratio := func(p bath.End) float64 { return p.Ratio }
	return f, errors.Join(s.draw(f, asFilled, s.cold, ratio), s.draw(f, onceWarm, s.warm, ratio))
}

// refits draws the ratio of the converted leg against its oil, before and after.
func (s *study) refits() (*chart.Figure, error) {
	r, err := s.refit()
	if err != nil {
		return nil, err
	}
	was, kit := r.states[0], r.states[2]
	lock := kit.fill.OilFor(oil.LockRatio, r.kit.Area, r.kit.Travel).In(ml)
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: air spring out, coil kit in", s.fork.ID),
		Note: fmt.Sprintf("Fork: %s. Gas over the oil of %s: out come %.0f, in go %.0f. Filled at %.0f; warm: at %.0f. "+
			"Cut off at %d; locked at %d.", s.fork.Name, r.Where, was.fill.Metal(), r.Metal, s.cold.Temperature,
			s.warm.Temperature, topRatio, int(oil.LockRatio)),
		X: chart.Axis{Label: "Oil in " + r.Where, Unit: "mL", Max: 1.05 * lock}, Y: ratioAxis, Marks: ratioLimits,
		Bands: []chart.Band{lockBand("hydraulic lock with the kit", lock, 1.05*lock, ratioAxis, chart.Wine)},
	}
	for _, c := range []struct {
		chart.Line
		name string
		fill oil.Fill
		gap  oil.AirGapSpec
		air  gas.Ambient
	}{
		{chart.Line{Color: chart.Sky, Dash: chart.DashDot}, "as it is now", was.fill, r.shut, s.cold},
		{asFilled, "kit in, as filled", kit.fill, r.kit, s.cold}, {onceWarm, "kit in, warm", kit.fill, r.kit, s.warm},
	} {
		c.Name = c.name
		const steps = 200
		for i := 1; i <= steps; i++ {
			full := c.fill.OilFor(topRatio, c.gap.Area, c.gap.Travel) * units.Volume(i) / steps
			fill, err1 := c.fill.With(c.fill.Metal(), full)
			g, err2 := s.sealed(fill, c.gap, c.air)
			if err := errors.Join(err1, err2); err != nil {
				return nil, err
			}
			if g.CompressionRatio() > 2*topRatio {
				break
			}
			c.X, c.Y = append(c.X, full.In(ml)), append(c.Y, g.CompressionRatio())
		}
		f.Lines = append(f.Lines, c.Line)
	}
	now, aim := was.fill.Volume().In(ml), r.Aim.In(ml)
	marks := []chart.Mark{{At: now, Label: fmt.Sprintf("now\n%.0f mL", now), Color: chart.Green},
		{At: aim, Label: fmt.Sprintf("with the kit\n%.0f mL", aim), Color: chart.Green, Dash: chart.LongDash}}
	if math.Abs(now-aim) < 1 {
		marks = []chart.Mark{{At: now, Label: fmt.Sprintf("now and with the kit\n%.0f mL", now), Color: chart.Green}}
	}
	f.Marks = append(marks, f.Marks...)
	return f, nil
}
