package main

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/gas"
)

var (
	asFilled = chart.Line{Color: chart.Navy, Dash: chart.Solid, Bold: true}
	onceWarm = chart.Line{Color: chart.Orange, Dash: chart.Dashed, Bold: true}
	supple   = chart.Line{Color: chart.Sky, Dash: chart.DashDot}

	ratioAxis   = chart.Axis{Label: "Gas extended over gas at full travel", Max: topRatio}
	ratioLimits = []chart.Mark{
		{On: chart.OnY, At: oil.GoodRatio, Label: fmt.Sprintf("good up to %.0f", oil.GoodRatio), Dash: chart.Dotted},
		{On: chart.OnY, At: oil.MostRatio, Label: fmt.Sprintf("refused over %.0f", oil.MostRatio), Dash: chart.Dotted},
	}
)

// plot draws the fork's figures.
func (s *study) plot(folder program.Folder) error {
	force := func(e bath.End) float64 { return s.Force(e, 1) }
	step := math.Pow(10, math.Floor(math.Log10(3*force(s.Now))))
	forces := s.figure("force at the end of the stroke", chart.Axis{Label: "Force of the whole fork", Unit: "N",
		Max: step * math.Ceil(3*force(s.Now)/step)},
		s.over("at the end, as filled", asFilled, s.Cold, force), s.over("at the end, warm", onceWarm, s.Warm, force),
		s.over("at 66 % of travel, as filled", supple, s.Cold, func(e bath.End) float64 { return s.Force(e, deep) }))
	for _, r := range []float64{oil.GoodRatio, oil.MostRatio} {
		room := s.Room(r, s.Cold)
		forces.Marks = append(forces.Marks, chart.Mark{At: s.X(room), Dash: chart.Dotted,
			Label: fmt.Sprintf("ratio %.0f, as filled\n%s", r, s.Axis(room))})
	}
	ratios := s.figure("compression ratio of the gas", ratioAxis,
		byRatio("as filled", asFilled, func(ratio float64) float64 { return s.X(s.Room(ratio, s.Cold)) }),
		byRatio("warm", onceWarm, func(ratio float64) float64 { return s.X(s.Room(ratio, s.Warm)) }))
	ratios.Marks = append(ratios.Marks, ratioLimits...)
	err := errors.Join(folder.Draw(s.Fork.ID+"-force", forces), folder.Draw(s.Fork.ID+"-ratio", ratios))
	if s.Refit != nil {
		err = errors.Join(err, folder.Draw(s.Fork.ID+"-refit", s.refits()))
	}
	return err
}

// byRatio is a line of the compression ratio over the fill that has it.
func byRatio(name string, l chart.Line, fill func(to float64) float64) chart.Line {
	l = l.Through(1.2, 2*topRatio, 800, fill)
	l.Name, l.X, l.Y = name, l.Y, l.X
	return l
}

// over is a line of what is read of the fork over the fills that do not lock it.
func (s *study) over(name string, l chart.Line, air gas.Ambient, y func(bath.End) float64) chart.Line {
	least, lock := s.X(s.Fills()[0]), s.X(s.Room(oil.LockRatio, air))
	l.Name = name
	return l.Through(least, least+(lock-least)*0.995, 240, func(x float64) float64 {
		e, err := s.End(s.moreAt(x), air)
		if err != nil {
			return math.NaN() // which no figure takes
		}
		return y(e)
	})
}

// figure shows the end of the stroke over the fill up to somewhat more than locks, with the regions of lock.
func (s *study) figure(what string, y chart.Axis, lines ...chart.Line) *chart.Figure {
	least, cold, warm := s.X(s.Fills()[0]), s.X(s.Room(oil.LockRatio, s.Cold)), s.X(s.Room(oil.LockRatio, s.Warm))
	most := cold + 0.08*(cold-least)
	f := &chart.Figure{Title: fmt.Sprintf("%s: %s against the oil", s.Fork.ID, what),
		Note: fmt.Sprintf("Fork: %s, in a landing (n = %.1f). Filled and closed at %.0f; warm: oil and gas at %.0f. Cut off "+
			"at %.0f on the axis. Where both legs have oil it is changed as much in each.", s.Fork.Name, gas.Ridden,
			s.Cold.Temperature, s.Warm.Temperature, y.Max),
		X: chart.Axis{Label: "Oil in " + s.Where, Unit: "mL", Min: least, Max: most}, Y: y,
		Marks: []chart.Mark{{At: s.X(0), Label: "as set\n" + s.Axis(0), Color: chart.Green}},
		Bands: []chart.Band{locked("hydraulic lock as filled", cold, most, y, chart.Wine),
			locked("hydraulic lock once warm", warm, cold, y, chart.Auto)},
		Lines: lines,
	}
	if s.ByLevel {
		f.X = chart.Axis{Label: "Oil level in each leg; more oil to the left", Unit: "mm", Min: most, Max: least}
		f.Note += " Level: air over the oil, fork compressed, spring out."
	}
	return f
}

func locked(name string, from, to float64, y chart.Axis, color chart.Color) chart.Band {
	return chart.Band{Name: name, X: []float64{min(from, to), max(from, to)}, Low: []float64{y.Min, y.Min},
		High: []float64{y.Max, y.Max}, Color: color}
}

// refits draws the ratio of the converted leg against its oil, before and after.
func (s *study) refits() *chart.Figure {
	r := s.Refit
	now, aim, lock := r.Was.Volume().In(ml), s.Fork.Kit.OilAim.Value.In(ml), r.OilFor(oil.LockRatio).In(ml)
	return &chart.Figure{Title: fmt.Sprintf("%s: air spring out, coil kit in", s.Fork.ID),
		Note: fmt.Sprintf("Fork: %s. Gas over the oil of %s: out come %.0f, in go %.0f. Filled at %.0f; warm: at %.0f. "+
			"Cut off at %d; locked at %d.", s.Fork.Name, s.KitIn, r.Was.Metal(), r.Metal, r.Cold, r.Warm,
			topRatio, oil.LockRatio),
		X: chart.Axis{Label: "Oil in " + s.KitIn, Unit: "mL", Max: 1.05 * lock}, Y: ratioAxis,
		Marks: append([]chart.Mark{{At: now, Label: fmt.Sprintf("now\n%.0f mL", now), Color: chart.Green},
			{At: aim, Label: fmt.Sprintf("with the kit\n%.0f mL", aim), Color: chart.Green, Dash: chart.LongDash}},
			ratioLimits...),
		Bands: []chart.Band{locked("hydraulic lock with the kit", lock, 1.05*lock, ratioAxis, chart.Wine)},
		Lines: []chart.Line{
			byRatio("as it is now", supple, func(to float64) float64 {
				return r.Was.OilFor(to, r.Shut.Area, r.Shut.Travel).In(ml)
			}),
			byRatio("kit in, as filled", asFilled, func(to float64) float64 { return r.OilFor(to).In(ml) }),
			byRatio("kit in, warm", onceWarm, func(to float64) float64 {
				return r.Oil.Expand(r.OilFor(to), r.Warm, r.Cold).In(ml)
			})},
	}
}
