package main

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/units"
)

func (s *study) setting() string {
	return fmt.Sprintf("Invented damper, needles %d (rebound) and %d (compression) of %d clicks out, oil %s, fork %s "+
		"with dampers: %d.", s.Rebound, s.Compression, clicks, s.Fluid.ID, s.Fork.ID, s.Fork.Dampers())
}

// lines tell what the damper does in each state, by color and dashes.
func (s *study) lines(stroke string, marker chart.Marker, from, to float64,
	y func(t state, v units.Speed) float64) (lines []chart.Line) {
	for i, t := range []state{s.Cold, s.Warm, s.Hot} {
		l := chart.Line{Label: fmt.Sprintf("%s%s, %.0f", stroke, []string{"cold", "warm", "hot"}[i], t), Bold: i == 1,
			Marker: marker, Color: []chart.Color{chart.Navy, chart.Green, chart.Orange}[i],
			Dash: []chart.Dash{chart.Dashed, chart.Solid, chart.DashDot}[i]}
		lines = append(lines, l.Through(from, to, 600, func(v float64) float64 { return y(t, units.Speed(v)) }))
	}
	return lines
}

// forces is what resists, up to a speed in both directions.
func (s *study) forces(top float64) *chart.Figure {
	f := &chart.Figure{Title: "Damping force against speed: cold, warm and hot",
		Note:  s.setting() + " Oil alone, without friction.",
		X:     chart.Axis{Label: "Speed along the fork axis, − rebound, + compression", Unit: "m/s", Min: -top, Max: top},
		Y:     chart.Axis{Label: "Force of the whole fork on the motion", Unit: "N"},
		Marks: []chart.Mark{{On: chart.OnX, At: 0, Dash: chart.Solid}, {On: chart.OnY, At: 0, Dash: chart.Solid}},
		Lines: s.lines("", 0, -top, top, state.In),
	}
	if s.Fork.ID == typicalFork {
		l := chart.Line{Name: "typical of such a fork, from memory, ±50 %", Dash: chart.NoLine, Marker: chart.Cross}
		for _, p := range typical {
			if p.Speed <= top {
				l.X, l.Y = append(l.X, p.Speed, -p.Speed), append(l.Y, p.In, -p.Out)
			}
		}
		f.Lines = append(f.Lines, l)
	}
	return f
}

// stacked is which part makes the force in one stroke, with the warm oil, up to where that cavitates.
func (s *study) stacked(stroke string, sign, cavitates units.Speed) *chart.Figure {
	stack := new(chart.Stack)
	top := float64(min(3, 0.99*cavitates))
	for i, part := range parts {
		l := chart.Line{}.Through(top/300, top, 299, func(v float64) float64 {
			v *= float64(sign)
			return s.Warm.Leg.Percent(i, units.Speed(v)) / 100 * math.Abs(s.Warm.In(units.Speed(v)))
		})
		if stack.X = l.X; slices.Max(l.Y) >= 1 { // N
			stack.Layers = append(stack.Layers, chart.Layer{Label: part, Color: chart.Color(i + 1), Y: l.Y})
		}
	}
	return &chart.Figure{Title: fmt.Sprintf("Which part makes the %s force, %.0f", stroke, s.Warm),
		Note: s.setting() + " Stacked: each part's share of the force is Δp·q/v, the heat it makes over the speed; " +
			"together they are the force of the damper, but for parts that make less than 1 N.",
		X: chart.Axis{Label: "Speed of " + stroke, Unit: "m/s", Zero: true},
		Y: chart.Axis{Label: "Force of the whole fork", Unit: "N", Zero: true}, Stack: stack,
	}
}

// ratios is the damping ratio against speed.
func (s *study) ratios() *chart.Figure {
	in := func(t state, v units.Speed) float64 { return s.Ratio(t.All, v) }
	out := func(t state, v units.Speed) float64 { return s.Ratio(t.All, -v) }
	return &chart.Figure{Title: "Damping ratio about the sag against speed",
		Note: s.setting() + fmt.Sprintf(" Force over speed over the critical damping of %.0f: %.0f on %.1f.",
			s.Critical(), s.Body().Mass, s.Body().Stiffness),
		X: chart.Axis{Label: "Speed along the fork axis", Unit: "m/s", Zero: true},
		Y: chart.Axis{Label: "Damping ratio ζ", Zero: true},
		Regions: []chart.Region{{On: chart.OnY, From: 0.3, To: 0.7,
			Name: "usual as the mean of both strokes, from memory"}},
		Marks: []chart.Mark{{On: chart.OnY, At: 1, Label: "critical"}},
		Lines: append(s.lines("rebound, ", chart.NoMarker, 0.02, 1.5, out),
			s.lines("compression, ", chart.OpenDisk, 0.02, 1.5, in)...),
	}
}
