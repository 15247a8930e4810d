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
func (b *bath) plot(folder program.Folder) error {
	if !folder.Given() {
		return nil
	}
	figures := map[string]func() (*chart.Figure, error){"force": b.forces, "ratio": b.ratios}
	names := []string{"force", "ratio"}
	if b.fork.Spring() == data.AirLeg {
		figures["refit"], names = b.refits, append(names, "refit")
	}
	for _, name := range names {
		f, err := figures[name]()
		if err != nil {
			return fmt.Errorf("plot %s: %w", name, err)
		}
		if err := folder.Draw(b.fork.ID+"-"+name, f); err != nil {
			return err
		}
	}
	return nil
}

// draw adds a line of what is read of the fork over the fills that do not lock it.
func (b *bath) draw(f *chart.Figure, l chart.Line, air gas.Ambient, y func(p point) float64) error {
	least, lock := b.fills()[0], b.x(b.moreFor(oil.LockRatio, air))
	const steps = 240
	for i := range steps {
		x := least + (lock-least)*float64(i)/steps
		p, err := b.at(b.moreAt(x), air)
		if err != nil {
			return err
		}
		l.X, l.Y = append(l.X, x), append(l.Y, y(p))
	}
	f.Lines = append(f.Lines, l)
	return nil
}

// base is a figure over the fill up to somewhat more than locks, with the regions of lock.
func (b *bath) base(title string, y chart.Axis) *chart.Figure {
	least, cold, warm := b.fills()[0], b.x(b.moreFor(oil.LockRatio, b.cold)), b.x(b.moreFor(oil.LockRatio, b.warm))
	most := cold + 0.08*(cold-least)
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: %s", b.fork.ID, title),
		Note: fmt.Sprintf("Fork: %s, ridden (n = %.1f). Filled and closed at %.0f; warm: oil and gas at %.0f. Cut off at %s.",
			b.fork.Name, b.told().gap.Exponent, b.cold.Temperature, b.warm.Temperature, strings.TrimSpace(fmt.Sprintf("%.0f %s", y.Max, y.Unit))),
		X: chart.Axis{Label: "Oil in " + b.where(), Unit: "mL", Min: least, Max: most}, Y: y,
		Marks: []chart.Mark{{At: b.x(0), Label: "as set\n" + b.axis(b.x(0)), Color: chart.Green}},
	}
	if b.legs[0] != b.legs[1] {
		f.Note += " The other leg's oil is changed as much."
	}
	if b.byLevel {
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
func (b *bath) forces() (*chart.Figure, error) {
	now, err := b.at(0, b.cold)
	if err != nil {
		return nil, err
	}
	end, deepIn := func(p point) float64 { return float64(p.Force) }, func(p point) float64 { return float64(p.Deep) }
	step := math.Pow(10, math.Floor(math.Log10(3*end(now))))
	f := b.base("force at the end of the stroke against the oil",
		chart.Axis{Label: "Force of the whole fork", Unit: "N", Max: step * math.Ceil(3*end(now)/step)})
	for _, r := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio} {
		x := b.x(b.moreFor(r, b.cold))
		f.Marks = append(f.Marks, chart.Mark{At: x, Label: fmt.Sprintf("ratio %.0f, as filled\n%s", r, b.axis(x)), Dash: chart.Dotted})
	}
	cold, warm := asFilled, onceWarm
	cold.Name, warm.Name = "at the end, as filled", "at the end, warm"
	supple := chart.Line{Name: fmt.Sprintf("at %.0f %% of travel, as filled", 100*deep), Color: chart.Sky, Dash: chart.DashDot}
	return f, errors.Join(b.draw(f, cold, b.cold, end), b.draw(f, warm, b.warm, end), b.draw(f, supple, b.cold, deepIn))
}

var ratioAxis = chart.Axis{Label: "Gas extended over gas at full travel", Max: topRatio}

var ratioLimits = []chart.Mark{
	{On: chart.OnY, At: conversion.GoodGapRatio, Label: fmt.Sprintf("good up to %.0f", conversion.GoodGapRatio), Dash: chart.Dotted},
	{On: chart.OnY, At: conversion.StopGapRatio, Label: fmt.Sprintf("refused over %.0f", conversion.StopGapRatio), Dash: chart.Dotted},
}

// ratios is the compression ratio of the gas.
func (b *bath) ratios() (*chart.Figure, error) {
	f := b.base("compression ratio of the gas against the oil", ratioAxis)
	f.Note += fmt.Sprintf(" Locked at %d.", int(oil.LockRatio))
	f.Marks = append(f.Marks, ratioLimits...)
	ratio := func(p point) float64 { return p.Ratio }
	return f, errors.Join(b.draw(f, asFilled, b.cold, ratio), b.draw(f, onceWarm, b.warm, ratio))
}

// refits draws the ratio of the converted leg against its oil, before and after.
func (b *bath) refits() (*chart.Figure, error) {
	r, err := b.refit()
	if err != nil {
		return nil, err
	}
	was, kit := r.states[0], r.states[2]
	lock := kit.fill.OilFor(oil.LockRatio, r.area, b.fork.Travel.Value).In(ml)
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: air spring out, coil kit in", b.fork.ID),
		Note: fmt.Sprintf("Fork: %s. Gas over the oil of %s: out come %.0f, in go %.0f. Filled at %.0f; warm: at %.0f. "+
			"Cut off at %d; locked at %d.", b.fork.Name, r.where, was.fill.Metal(), r.metal, b.cold.Temperature,
			b.warm.Temperature, topRatio, int(oil.LockRatio)),
		X: chart.Axis{Label: "Oil in " + r.where, Unit: "mL", Max: 1.05 * lock}, Y: ratioAxis, Marks: ratioLimits,
		Bands: []chart.Band{lockBand("hydraulic lock with the kit", lock, 1.05*lock, ratioAxis, chart.Wine)},
	}
	for _, c := range []struct {
		chart.Line
		name string
		state
		area units.Area
		at   units.Temperature
	}{
		{chart.Line{Color: chart.Sky, Dash: chart.DashDot}, "as it is now", was, r.was.gap.Area, b.cold.Temperature},
		{asFilled, "kit in, as filled", kit, r.area, b.cold.Temperature},
		{onceWarm, "kit in, warm", kit, r.area, b.warm.Temperature},
	} {
		c.Name = c.name
		gap := r.was.gap
		gap.Area = c.area
		const steps = 200
		for i := 1; i <= steps; i++ {
			fill, err := c.fill.With(c.fill.Metal(), c.fill.OilFor(topRatio, c.area, gap.Travel)*units.Volume(i)/steps)
			if err != nil {
				return nil, err
			}
			g, err := oil.NewAirGap(fill.Sealed(gap, b.fluid, b.cold.Temperature, c.at))
			if err != nil {
				return nil, err
			}
			if g.CompressionRatio() > 2*topRatio {
				break
			}
			c.X, c.Y = append(c.X, fill.Volume().In(ml)), append(c.Y, g.CompressionRatio())
		}
		f.Lines = append(f.Lines, c.Line)
	}
	now, aim := was.fill.Volume().In(ml), r.aim.In(ml)
	marks := []chart.Mark{{At: now, Label: fmt.Sprintf("now\n%.0f mL", now), Color: chart.Green},
		{At: aim, Label: fmt.Sprintf("with the kit\n%.0f mL", aim), Color: chart.Green, Dash: chart.LongDash}}
	if math.Abs(now-aim) < 1 {
		marks = []chart.Mark{{At: now, Label: fmt.Sprintf("now and with the kit\n%.0f mL", now), Color: chart.Green}}
	}
	f.Marks = append(marks, f.Marks...)
	return f, nil
}
