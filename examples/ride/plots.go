package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/units"
)

// window is the most of a run that is still read on paper.
const window = 5 * units.Second

// line is a run from a time on as a line of a plot.
func line(name string, r *ride.Run, from units.Time, color chart.Color, bold bool,
	x, y func(ride.Sample) float64) chart.Line {
	l := chart.Line{Name: name, Color: color, Bold: bold, Dash: chart.Solid}
	every := max(1, len(r.Samples)/3000)
	for i := 0; i < len(r.Samples); i += every {
		if s := r.Samples[i]; s.Time >= from && s.Time <= from+window {
			l.X, l.Y = append(l.X, x(s)), append(l.Y, y(s))
		}
	}
	return l
}

func (o *outing) both(x, y func(ride.Sample) float64) []chart.Line {
	from := o.from()
	return []chart.Line{line("coil", o.steel, from, chart.Navy, true, x, y),
		line("present, air", o.air, from, chart.Orange, false, x, y)}
}

// from is where the window begins that has the deepest travel of the air fork in its middle.
func (o *outing) from() units.Time {
	deepest := slices.MaxFunc(o.air.Samples, func(a, b ride.Sample) int { return cmp.Compare(a.Travel, b.Travel) })
	end := o.air.Samples[len(o.air.Samples)-1].Time
	return max(0, min(deepest.Time-window/2, end-window))
}

// note says what is drawn.
func (o *outing) note(what string) string {
	if end := o.air.Samples[len(o.air.Samples)-1].Time; end > window {
		return fmt.Sprintf("%s; %.0f around the deepest travel, of %.0f", what, window, end)
	}
	return what
}

func seconds(s ride.Sample) float64 { return float64(s.Time) }
func travel(s ride.Sample) float64  { return s.Travel.In(units.Millimeter) }

// travel against time.
func (o *outing) travel() *chart.Figure {
	return &chart.Figure{Title: "Travel: " + strings.ToLower(o.Name), Note: o.note("same body, tire and damper"),
		X: chart.Axis{Label: "Time", Unit: "s"}, Y: chart.Axis{Label: "Travel", Unit: "mm"}, Lines: o.both(seconds, travel)}
}

// force of springs and gas against travel.
func (o *outing) force() *chart.Figure {
	return &chart.Figure{Title: "Springs and gas: " + strings.ToLower(o.Name),
		Note: o.note("a loop is heat that the gas loses; stops beyond both ends"),
		X:    chart.Axis{Label: "Travel", Unit: "mm"}, Y: chart.Axis{Label: "Force along the axis", Unit: "N"},
		Lines: o.both(travel, func(s ride.Sample) float64 { return float64(s.Springs) })}
}
