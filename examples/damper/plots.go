package main

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/units"
)

// States of the oil are told by color and dashes.
var (
	stateColors = []chart.Color{chart.Navy, chart.Green, chart.Orange}
	stateDashes = []chart.Dash{chart.Dashed, chart.Solid, chart.DashDot}
	stateNames  = []string{"cold", "warm", "hot"}
)

func (s *study) setting() string {
	return fmt.Sprintf("Invented damper, needles %d (rebound) and %d (compression) of %d clicks out, oil %s, fork %s "+
		"with %s.",
		s.rebound, s.compression, clicks, s.fluid.ID, s.fork.ID, count(s.legs, "damper"))
}

// line is one that tells what the damper does in a state.
func (s *study) line(i int, stroke string) chart.Line {
	return chart.Line{Label: fmt.Sprintf("%s%s, %v", stroke, stateNames[i], s.states[i]), Color: stateColors[i],
		Dash: stateDashes[i]}
}

// forces is what resists, up to a speed in both directions.
func (s *study) forces(top float64) *chart.Figure {
	f := &chart.Figure{
		Title: "Damping force against speed: cold, warm and hot",
		Note:  s.setting() + " Oil alone, without friction.",
		X: chart.Axis{Label: "Speed along the fork axis, − is rebound, + compression", Unit: "m/s", Min: -top,
			Max: top},
		Y:     chart.Axis{Label: "Force of the whole fork on the motion", Unit: "N"},
		Marks: []chart.Mark{{On: chart.OnX, At: 0, Dash: chart.Solid}, {On: chart.OnY, At: 0, Dash: chart.Solid}},
	}
	const n = 300
	for i, t := range s.states {
		l := s.line(i, "")
		l.Bold = i == 1
		for k := range 2*n + 1 {
			v := top * float64(k-n) / n
			l.X, l.Y = append(l.X, v), append(l.Y, t.fork.Force(units.Speed(v)).In(units.Newton))
		}
		f.Lines = append(f.Lines, l)
	}
	if s.fork.ID == typicalFork {
		typical := chart.Line{Name: "typical of such a fork, from memory, ±50 %", Dash: chart.NoLine,
			Marker: chart.Cross}
		for _, v := range speeds {
			if f, ok := typicalForks[v]; ok && float64(v) <= top {
				x := float64(v)
				typical.X, typical.Y = append(typical.X, x, -x), append(typical.Y, float64(f[0]), -float64(f[1]))
			}
		}
		f.Lines = append(f.Lines, typical)
	}
	return f
}

// stacked is which part makes the force in one stroke, with the warm oil.
func (s *study) stacked(stroke string, sign units.Speed) *chart.Figure {
	top, cavitates := units.Speed(3), ""
	compression, rebound := s.warm.leg.Cavitation()
	if v := map[units.Speed]units.Speed{1: compression, -1: rebound}[sign]; v < top {
		top, cavitates = 0.99*v, fmt.Sprintf(" Ends where the oil cavitates, at %.1f.", v)
	}
	const n = 300
	var x []float64
	layers := make([]chart.Layer, len(parts))
	for i := range n {
		v := top * (units.Speed(i) + 1) / n
		x = append(x, float64(v))
		for k, f := range s.warm.leg.shares(sign * v) {
			layers[k].Label, layers[k].Color = parts[k], partColors[k]
			layers[k].Y = append(layers[k].Y, math.Abs(float64(f))*float64(s.legs))
		}
	}
	layers = slices.DeleteFunc(layers, func(l chart.Layer) bool { return slices.Max(l.Y) < 1 }) // N
	return &chart.Figure{
		Title: fmt.Sprintf("Which part makes the %s force, %v", stroke, s.warm),
		Note: s.setting() + " Stacked: each part's share of the force is Δp·q/v, the heat it makes over the speed; " +
			"together they are the force of the damper, but for parts that make less than 1 N." + cavitates,
		X:     chart.Axis{Label: "Speed of " + stroke, Unit: "m/s", Zero: true},
		Y:     chart.Axis{Label: "Force of the whole fork", Unit: "N", Zero: true},
		Stack: &chart.Stack{X: x, Layers: layers},
	}
}

// partColors go with the order of shares, neighbors far apart.
var partColors = []chart.Color{chart.Blue, chart.Orange, chart.Wine, chart.Sky, chart.Yellow, chart.Green, chart.Violet,
	chart.Orange}

// ratios is the damping ratio against speed.
func (s *study) ratios() *chart.Figure {
	const from, top, n = 0.02, 1.5, 200
	f := &chart.Figure{
		Title: "Damping ratio about the sag against speed",
		Note: s.setting() + fmt.Sprintf(" Force over speed over the critical damping of %.0f: %.0f on %.1f.",
			s.body.Critical(), s.mass, s.rate),
		X: chart.Axis{Label: "Speed along the fork axis", Unit: "m/s", Zero: true},
		Y: chart.Axis{Label: "Damping ratio ζ", Zero: true},
		Regions: []chart.Region{{On: chart.OnY, From: 0.3, To: 0.7,
			Name: "usual as the mean of both strokes, from memory"}},
		Marks: []chart.Mark{{On: chart.OnY, At: 1, Label: "critical"}},
	}
	for _, stroke := range []struct {
		name   string
		sign   float64
		marker chart.Marker
	}{{"rebound, ", -1, chart.NoMarker}, {"compression, ", 1, chart.OpenDisk}} {
		for i, t := range s.states {
			l := s.line(i, stroke.name)
			l.Marker = stroke.marker
			for k := range n + 1 {
				v := from * math.Pow(top/from, float64(k)/n) // dense where it is steep
				l.X, l.Y = append(l.X, v), append(l.Y, s.body.Ratio(t.fork, units.Speed(stroke.sign*v)))
			}
			f.Lines = append(f.Lines, l)
		}
	}
	return f
}
