package main

import (
	"fmt"
	"io"
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

const (
	coldColor = chart.Navy
	warmColor = chart.Orange
	lockColor = chart.Wine
)

// plot draws one fork's figures and names the files.
func (b *bath) plot(folder string, problems io.Writer) error {
	type figure struct {
		name string
		draw func() (*chart.Figure, error)
	}
	figures := []figure{{"force", b.forces}, {"ratio", b.ratios}}
	if b.fork.Spring() == data.AirLeg {
		figures = append(figures, figure{"refit", b.refits})
	}
	for _, f := range figures {
		drawn, err := f.draw()
		if err != nil {
			return fmt.Errorf("fork %s: plot %s: %w", b.fork.ID, f.name, err)
		}
		names, err := drawn.Write(folder, b.fork.ID+"-"+f.name)
		if err != nil {
			return err
		}
		for _, name := range names {
			fmt.Fprintln(problems, "wrote", name)
		}
	}
	return nil
}

// ends are the least oil and some more than locks the leg cold, on the axis.
func (b *bath) ends() (least, most float64) {
	least = b.steps()[0]
	lock := b.x(b.moreFor(oil.LockRatio, b.cold))
	return least, lock + 0.08*(lock-least)
}

// curve is what is read of the fork over the fills that do not lock it.
func (b *bath) curve(air gas.Ambient, y func(p point) float64) (xs, ys []float64, err error) {
	least, _ := b.ends()
	lock := b.x(b.moreFor(oil.LockRatio, air))
	const steps = 240
	for i := range steps {
		x := least + (lock-least)*float64(i)/steps
		p, err := b.at(b.moreAt(x), air)
		if err != nil {
			return nil, nil, err
		}
		xs, ys = append(xs, x), append(ys, y(p))
	}
	return xs, ys, nil
}

// base is a figure over the fill, with the regions of lock.
func (b *bath) base(title string, y chart.Axis) *chart.Figure {
	least, most := b.ends()
	cold, warm := b.x(b.moreFor(oil.LockRatio, b.cold)), b.x(b.moreFor(oil.LockRatio, b.warm))
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: %s", b.fork.ID, title),
		Note: fmt.Sprintf("Fork: %s, ridden (n = %.1f). Filled and closed at %.0f °C; warm: oil and gas at %.0f °C.",
			b.fork.Name, b.exponent, b.cold.Temperature.Celsius(), b.warm.Temperature.Celsius()),
		X: chart.Axis{Label: "Oil in " + b.where(), Unit: "mL", Min: least, Max: most},
		Y: y,
	}
	if !b.alike() {
		f.Note += " The other leg's oil is changed as much."
	}
	if b.byLevel {
		f.X = chart.Axis{Label: "Oil level in each leg; more oil to the left", Unit: "mm", Min: most, Max: least}
		f.Note += " Level: air over the oil, fork compressed, spring out."
	}
	region := func(name string, from, to float64, color chart.Color) {
		f.Bands = append(f.Bands, chart.Band{Name: name, X: []float64{min(from, to), max(from, to)}, Low: []float64{y.Min, y.Min}, High: []float64{y.Max, y.Max}, Color: color})
	}
	region("hydraulic lock as filled", cold, most, lockColor)
	region("hydraulic lock once warm", warm, cold, chart.Auto)
	if !b.byLevel {
		f.Marks = append(f.Marks, chart.Mark{At: b.x(0), Label: fmt.Sprintf("as set\n%.0f mL", b.x(0)), Color: chart.Green})
	} else {
		f.Marks = append(f.Marks, chart.Mark{At: b.x(0), Label: fmt.Sprintf("as set\n%.0f mm", b.x(0)), Color: chart.Green})
	}
	return f
}

// limitMarks are the fills at which the limits of the ratio lie.
func (b *bath) limitMarks() []chart.Mark {
	var marks []chart.Mark
	for _, r := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio} {
		x := b.x(b.moreFor(r, b.cold))
		marks = append(marks, chart.Mark{At: x, Label: fmt.Sprintf("ratio %.0f, as filled\n%.0f %s", r, x, b.unit()), Dash: chart.Dotted})
	}
	return marks
}

func (b *bath) forces() (*chart.Figure, error) {
	newtons := func(p point) float64 { return p.force.In(units.Newton) }
	now, err := b.at(0, b.cold)
	if err != nil {
		return nil, err
	}
	top := 3 * newtons(now)
	step := math.Pow(10, math.Floor(math.Log10(top)))
	top = step * math.Ceil(top/step)
	f := b.base("force at the end of the stroke against the oil", chart.Axis{Label: "Force of the whole fork", Unit: "N", Min: 0, Max: top})
	f.Note += fmt.Sprintf(" Cut off at %.0f N.", top)
	f.Marks = append(f.Marks, b.limitMarks()...)
	for _, l := range []struct {
		chart.Line
		air gas.Ambient
		y   func(p point) float64
	}{
		{chart.Line{Name: "at the end, as filled", Color: coldColor, Dash: chart.Solid, Bold: true}, b.cold, newtons},
		{chart.Line{Name: "at the end, warm", Color: warmColor, Dash: chart.Dashed, Bold: true}, b.warm, newtons},
		{chart.Line{Name: fmt.Sprintf("at %.0f %% of travel, as filled", 100*deep), Color: chart.Sky, Dash: chart.DashDot}, b.cold, func(p point) float64 { return p.deep.In(units.Newton) }},
	} {
		if l.X, l.Y, err = b.curve(l.air, l.y); err != nil {
			return nil, err
		}
		f.Lines = append(f.Lines, l.Line)
	}
	return f, nil
}

func (b *bath) ratios() (*chart.Figure, error) {
	const top = 20
	f := b.base("compression ratio of the gas against the oil", chart.Axis{Label: "Gas extended over gas at full travel", Min: 0, Max: top})
	f.Note += fmt.Sprintf(" Cut off at %d; locked at %d.", top, int(oil.LockRatio))
	f.Marks = append(f.Marks, ratioLimits()...)
	for _, l := range []struct {
		chart.Line
		air gas.Ambient
	}{
		{chart.Line{Name: "as filled", Color: coldColor, Dash: chart.Solid, Bold: true}, b.cold},
		{chart.Line{Name: "warm", Color: warmColor, Dash: chart.Dashed, Bold: true}, b.warm},
	} {
		var err error
		if l.X, l.Y, err = b.curve(l.air, func(p point) float64 { return p.ratio }); err != nil {
			return nil, err
		}
		f.Lines = append(f.Lines, l.Line)
	}
	return f, nil
}

func ratioLimits() []chart.Mark {
	return []chart.Mark{
		{On: chart.OnY, At: conversion.GoodGapRatio, Label: fmt.Sprintf("good up to %.0f", conversion.GoodGapRatio), Dash: chart.Dotted},
		{On: chart.OnY, At: conversion.StopGapRatio, Label: fmt.Sprintf("refused over %.0f", conversion.StopGapRatio), Dash: chart.Dotted},
	}
}

// refits draws the ratio of the converted leg against its oil, before and after.
func (b *bath) refits() (*chart.Figure, error) {
	r, err := newRefit(b)
	if err != nil {
		return nil, err
	}
	states, err := r.states()
	if err != nil {
		return nil, err
	}
	const top = 20
	travel := b.fork.Travel.Value
	f := &chart.Figure{
		Title: fmt.Sprintf("%s: air spring out, coil kit in", b.fork.ID),
		Note: fmt.Sprintf("Fork: %s. Gas over the oil of %s: out come %.0f mL, in go %.0f mL. Filled at %.0f °C; warm: at %.0f °C. Cut off at %d; locked at %d.",
			b.fork.Name, r.where, r.out.In(ml), r.metal.In(ml), b.cold.Temperature.Celsius(), b.warm.Temperature.Celsius(), top, int(oil.LockRatio)),
		X:     chart.Axis{Label: "Oil in " + r.where, Unit: "mL"},
		Y:     chart.Axis{Label: "Gas extended over gas at full travel", Min: 0, Max: top},
		Marks: ratioLimits(),
	}
	curve := func(l chart.Line, s state, metal units.Volume, warm bool) error {
		spec := r.was.spec
		spec.Metal = metal
		room := spec.Interior - metal - oil.ResidualFor(top, s.area, travel)
		const steps = 200
		for i := 1; i <= steps; i++ {
			spec.Volume = room * units.Volume(i) / steps
			fill, err := oil.NewFill(spec)
			if err != nil {
				return err
			}
			read := fill
			if warm {
				read = fill.Warmed(b.fluid, b.cold.Temperature, b.warm.Temperature)
			}
			ratio, err := r.ratio(s, read)
			if err != nil {
				return err
			}
			if ratio > 2*top {
				break
			}
			l.X, l.Y = append(l.X, spec.Volume.In(ml)), append(l.Y, ratio)
		}
		f.Lines = append(f.Lines, l)
		return nil
	}
	for _, c := range []struct {
		chart.Line
		state
		metal units.Volume
		warm  bool
	}{
		{chart.Line{Name: "as it is now", Color: chart.Sky, Dash: chart.DashDot}, states[0], r.out, false},
		{chart.Line{Name: "kit in, as filled", Color: coldColor, Dash: chart.Solid, Bold: true}, states[2], r.metal, false},
		{chart.Line{Name: "kit in, warm", Color: warmColor, Dash: chart.Dashed, Bold: true}, states[2], r.metal, true},
	} {
		if err := curve(c.Line, c.state, c.metal, c.warm); err != nil {
			return nil, err
		}
	}
	lock := (r.was.spec.Interior - r.metal - oil.ResidualFor(oil.LockRatio, r.area, travel)).In(ml)
	f.X.Min, f.X.Max = 0, 1.05*lock
	f.Bands = []chart.Band{{Name: "hydraulic lock with the kit", X: []float64{lock, f.X.Max}, Low: []float64{0, 0}, High: []float64{top, top}, Color: lockColor}}
	now, aim := r.was.fill.Volume().In(ml), r.aim.In(ml)
	if math.Abs(now-aim) < 1 {
		f.Marks = append(f.Marks, chart.Mark{At: now, Label: fmt.Sprintf("now and with the kit\n%.0f mL", now), Color: chart.Green})
		return f, nil
	}
	f.Marks = append(f.Marks, chart.Mark{At: now, Label: fmt.Sprintf("now\n%.0f mL", now), Color: chart.Green},
		chart.Mark{At: aim, Label: fmt.Sprintf("with the kit\n%.0f mL", aim), Color: chart.Green, Dash: chart.LongDash})
	return f, nil
}
