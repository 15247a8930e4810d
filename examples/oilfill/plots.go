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
	"example.org/forkcurve/units"
)

const topRatio = 20 // of the plots

var (
	asFilled = chart.Line{Name: "as filled", Color: chart.Navy, Dash: chart.Solid, Bold: true}
	onceWarm = chart.Line{Name: "warm", Color: chart.Orange, Dash: chart.Dashed, Bold: true}
	supple   = chart.Line{Name: "at 66 % of travel, as filled", Color: chart.Sky, Dash: chart.DashDot}

	ratioAxis   = chart.Axis{Label: "Gas extended over gas at full travel", Max: topRatio}
	ratioLimits = []chart.Mark{
		{On: chart.OnY, At: oil.GoodRatio, Label: fmt.Sprintf("good up to %.0f", oil.GoodRatio), Dash: chart.Dotted},
		{On: chart.OnY, At: oil.MostRatio, Label: fmt.Sprintf("refused over %.0f", oil.MostRatio), Dash: chart.Dotted},
	}
)

// plot draws the fork's figures.
func (s *study) plot(folder program.Folder) error {
	err := errors.Join(folder.Draw(s.Fork.ID+"-force", s.forces()), folder.Draw(s.Fork.ID+"-ratio", s.ratios()))
	if s.Refit != nil {
		err = errors.Join(err, folder.Draw(s.Fork.ID+"-refit", s.refits(s.Refit)))
	}
	return err
}

// over is a line of what is read of the fork over the fills that do not lock it.
func (s *study) over(l chart.Line, air gas.Ambient, y func(p bath.End) float64) chart.Line {
	least, lock := s.columns()[0], s.x(s.Room(oil.LockRatio, air))
	return l.Through(least, least+(lock-least)*0.995, 240, func(x float64) float64 {
		p, err := s.At(s.moreAt(x), air)
		if err != nil {
			return math.NaN() // which no figure takes
		}
		return y(p)
	})
}

// base is a figure over the fill up to somewhat more than locks, with the regions of lock.
func (s *study) base(title string, y chart.Axis) *chart.Figure {
	least, cold, warm := s.columns()[0], s.x(s.Room(oil.LockRatio, s.Cold)), s.x(s.Room(oil.LockRatio, s.Warm))
	most := cold + 0.08*(cold-least)
	f := &chart.Figure{Title: fmt.Sprintf("%s: %s", s.Fork.ID, title),
		Note: fmt.Sprintf("Fork: %s, in a landing (n = %.1f). Filled and closed at %.0f; warm: oil and gas at %.0f. Cut off at "+
			"%.0f on the axis. Where both legs have oil it is changed as much in each.", s.Fork.Name, gas.Ridden,
			s.Cold.Temperature, s.Warm.Temperature, y.Max),
		X: chart.Axis{Label: "Oil in " + s.Where, Unit: "mL", Min: least, Max: most}, Y: y,
		Marks: []chart.Mark{{At: s.x(0), Label: "as set\n" + s.Axis(0), Color: chart.Green}},
		Bands: []chart.Band{lockBand("hydraulic lock as filled", cold, most, y, chart.Wine),
			lockBand("hydraulic lock once warm", warm, cold, y, chart.Auto)},
	}
	if s.ByLevel {
		f.X = chart.Axis{Label: "Oil level in each leg; more oil to the left", Unit: "mm", Min: most, Max: least}
		f.Note += " Level: air over the oil, fork compressed, spring out."
	}
	return f
}

func lockBand(name string, from, to float64, y chart.Axis, color chart.Color) chart.Band {
	return chart.Band{Name: name, X: []float64{min(from, to), max(from, to)}, Low: []float64{y.Min, y.Min},
		High: []float64{y.Max, y.Max}, Color: color}
}

// forces is the force at the end of the stroke.
func (s *study) forces() *chart.Figure {
	end := func(p bath.End) float64 { return float64(s.End(p)) }
	step := math.Pow(10, math.Floor(math.Log10(3*end(s.Now))))
	f := s.base("force at the end of the stroke against the oil",
		chart.Axis{Label: "Force of the whole fork", Unit: "N", Max: step * math.Ceil(3*end(s.Now)/step)})
	for _, r := range []float64{oil.GoodRatio, oil.MostRatio} {
		room := s.Room(r, s.Cold)
		f.Marks = append(f.Marks, chart.Mark{At: s.x(room), Dash: chart.Dotted,
			Label: fmt.Sprintf("ratio %.0f, as filled\n%s", r, s.Axis(room))})
	}
	f.Lines = []chart.Line{s.over(asFilled, s.Cold, end), s.over(onceWarm, s.Warm, end),
		s.over(supple, s.Cold, func(p bath.End) float64 { return float64(s.Deep(p)) })}
	f.Lines[0].Name, f.Lines[1].Name = "at the end, as filled", "at the end, warm"
	return f
}

// ratios is the compression ratio of the gas.
func (s *study) ratios() *chart.Figure {
	f := s.base("compression ratio of the gas against the oil", ratioAxis)
	f.Marks = append(f.Marks, ratioLimits...)
	ratio := func(p bath.End) float64 { return p.Ratio }
	f.Lines = []chart.Line{s.over(asFilled, s.Cold, ratio), s.over(onceWarm, s.Warm, ratio)}
	return f
}

// refits draws the ratio of the converted leg against its oil, before and after.
func (s *study) refits(r *refit) *chart.Figure {
	now, aim, lock := r.Was.Volume().In(ml), r.Aim.In(ml), r.OilFor(oil.LockRatio).In(ml)
	line := func(name string, l chart.Line, full units.Volume, ratio func(units.Volume) (float64, error)) chart.Line {
		l.Name = name
		return l.Through(full.In(ml)/200, full.In(ml), 199, func(x float64) float64 {
			ratio, err := ratio(units.Volume(x) * ml)
			if err != nil {
				return math.NaN()
			}
			return min(ratio, 2*topRatio)
		})
	}
	full := r.OilFor(topRatio)
	f := &chart.Figure{Title: fmt.Sprintf("%s: air spring out, coil kit in", s.Fork.ID),
		Note: fmt.Sprintf("Fork: %s. Gas over the oil of %s: out come %.0f, in go %.0f. Filled at %.0f; warm: at %.0f. "+
			"Cut off at %d; locked at %d.", s.Fork.Name, r.Where, r.Was.Metal(), r.Metal, r.Refit.Cold, r.Refit.Warm,
			topRatio, oil.LockRatio),
		X: chart.Axis{Label: "Oil in " + r.Where, Unit: "mL", Max: 1.05 * lock}, Y: ratioAxis,
		Marks: append([]chart.Mark{{At: now, Label: fmt.Sprintf("now\n%.0f mL", now), Color: chart.Green}}, ratioLimits...),
		Bands: []chart.Band{lockBand("hydraulic lock with the kit", lock, 1.05*lock, ratioAxis, chart.Wine)},
		Lines: []chart.Line{
			line("as it is now", supple, r.Was.OilFor(topRatio, r.Shut.Area, r.Shut.Travel), r.Unchanged),
			line("kit in, as filled", asFilled, full, r.Ratio), line("kit in, warm", onceWarm, full, r.WarmRatio)},
	}
	if math.Abs(now-aim) < 1 {
		f.Marks[0].Label = fmt.Sprintf("now and with the kit\n%.0f mL", now)
		return f
	}
	f.Marks = append(f.Marks, chart.Mark{At: aim, Label: fmt.Sprintf("with the kit\n%.0f mL", aim), Color: chart.Green,
		Dash: chart.LongDash})
	return f
}
