package main

import (
	"strings"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/units"
)

// line is a run as a line of a plot.
func line(name string, r *ride.Run, color chart.Color, bold bool, x, y func(ride.Sample) float64) chart.Line {
	l := chart.Line{Name: name, Color: color, Bold: bold, Dash: chart.Solid}
	if !bold {
		l.Dash = chart.Dashed
	}
	every := max(1, len(r.Samples)/3000)
	for i := 0; i < len(r.Samples); i += every {
		l.X, l.Y = append(l.X, x(r.Samples[i])), append(l.Y, y(r.Samples[i]))
	}
	return l
}

func (o *outing) both(x, y func(ride.Sample) float64) []chart.Line {
	return []chart.Line{line("present, air", o.air, chart.Orange, false, x, y),
		line("coil", o.steel, chart.Navy, true, x, y)}
}

func seconds(s ride.Sample) float64 { return float64(s.Time) }
func travel(s ride.Sample) float64  { return s.Travel.In(units.Millimeter) }

// travel against time.
func (o *outing) travel() *chart.Figure {
	return &chart.Figure{Title: "Travel: " + strings.ToLower(o.Name), Note: "same body, tire and damper",
		X: chart.Axis{Label: "Time", Unit: "s"}, Y: chart.Axis{Label: "Travel", Unit: "mm"}, Lines: o.both(seconds, travel)}
}

// force of springs and gas against travel.
func (o *outing) force() *chart.Figure {
	return &chart.Figure{Title: "Springs and gas: " + strings.ToLower(o.Name),
		Note: "the loop is heat that the gas loses; stops beyond both ends",
		X:    chart.Axis{Label: "Travel", Unit: "mm"}, Y: chart.Axis{Label: "Force along the axis", Unit: "N"},
		Lines: o.both(travel, func(s ride.Sample) float64 { return float64(s.Springs) })}
}
