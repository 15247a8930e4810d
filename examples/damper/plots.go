package main

import (
	"fmt"
	"io"
	"maps"
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

// plot draws the damper into dir and names the files.
func (j *job) plot(dir string, problems io.Writer) error {
	for _, p := range []struct {
		name string
		draw func() *chart.Figure
	}{
		{"force", func() *chart.Figure { return j.force(3) }},
		{"force-slow", func() *chart.Figure { return j.force(0.3) }},
		{"shares-compression", func() *chart.Figure { return j.stacked("compression", 1) }},
		{"shares-rebound", func() *chart.Figure { return j.stacked("rebound", -1) }},
		{"ratio", j.ratio},
	} {
		paths, err := p.draw().Write(dir, p.name)
		if err != nil {
			return err
		}
		for _, path := range paths {
			fmt.Fprintln(problems, "wrote", path)
		}
	}
	return nil
}

func (j *job) setting() string {
	return fmt.Sprintf("Invented damper, needles %d (rebound) and %d (compression) of %d clicks out, oil %s, fork %s with %s.",
		j.rebound, j.compression, clicks, j.fluid.ID, j.fork.ID, count(j.legs, "damper"))
}

func (t state) label(i int) string {
	return fmt.Sprintf("%s, %s °C", stateNames[i], degrees(t.celsius))
}

// force is what resists, up to a speed in both directions.
func (j *job) force(top float64) *chart.Figure {
	f := &chart.Figure{
		Title: "Damping force against speed: cold, warm and hot",
		Note:  j.setting() + " Oil alone, without friction.",
		X:     chart.Axis{Label: "Speed along the fork axis, − is rebound, + compression", Unit: "m/s", Min: -top, Max: top},
		Y:     chart.Axis{Label: "Force of the whole fork on the motion", Unit: "N"},
		Marks: []chart.Mark{{On: chart.OnX, At: 0, Dash: chart.Solid}, {On: chart.OnY, At: 0, Dash: chart.Solid}},
	}
	if top < 1 {
		f.Title += ", slow"
	}
	const n = 300
	for i, t := range j.states {
		l := chart.Line{Label: t.label(i), Color: stateColors[i], Dash: stateDashes[i], Bold: i == warm}
		for k := range 2*n + 1 {
			v := top * float64(k-n) / n
			l.X, l.Y = append(l.X, v), append(l.Y, t.fork.Force(units.Speed(v)).In(units.Newton))
		}
		f.Lines = append(f.Lines, l)
	}
	if j.fork.ID == typicalFork {
		f.Bands = []chart.Band{typicalBand(0, 1, top), typicalBand(1, -1, top)}
		f.Bands[0].Name = fmt.Sprintf("typical of such a fork, from memory, ±%.0f %%", 100*typicalError)
	}
	return f
}

// typicalBand is the range of typical forces in one stroke, with straight lines
// between the speeds they are given for.
func typicalBand(stroke int, sign, top float64) chart.Band {
	b := chart.Band{Color: chart.Yellow}
	known := slices.Sorted(maps.Keys(typicalForks))
	const n = 100
	first := float64(known[0])
	for i := range n + 1 {
		v := first + (top-first)*float64(i)/n
		k := 1
		for k < len(known)-1 && float64(known[k]) < v {
			k++
		}
		v0, v1 := float64(known[k-1]), float64(known[k])
		f0, f1 := float64(typicalForks[known[k-1]][stroke]), float64(typicalForks[known[k]][stroke])
		f := sign * (f0 + (f1-f0)*(v-v0)/(v1-v0))
		b.X, b.Low, b.High = append(b.X, sign*v), append(b.Low, f*(1-typicalError)), append(b.High, f*(1+typicalError))
	}
	if sign < 0 { // X rises
		slices.Reverse(b.X)
		slices.Reverse(b.Low)
		slices.Reverse(b.High)
	}
	return b
}

// stacked is which part makes the force in one stroke, with the warm oil.
func (j *job) stacked(stroke string, sign units.Speed) *chart.Figure {
	t := j.states[warm]
	top := 3.0
	cavitates := ""
	if v, ok := t.leg.cavitation(sign); ok && float64(v) < top {
		top = 0.99 * float64(v)
		cavitates = fmt.Sprintf(" Ends where the oil cavitates, at %.1f m/s.", float64(v))
	}
	const n = 300
	var x []float64
	var layers []chart.Layer
	for i := range n {
		v := top * (float64(i) + 1) / n
		x = append(x, v)
		for k, s := range t.leg.shares(sign * units.Speed(v)) {
			if len(layers) <= k {
				layers = append(layers, chart.Layer{Label: s.name, Color: partColors[k]})
			}
			layers[k].Y = append(layers[k].Y, float64(s.force)*float64(j.legs))
		}
	}
	layers = gathered(layers)
	return &chart.Figure{
		Title: fmt.Sprintf("Which part makes the %s force, %s °C", stroke, degrees(t.celsius)),
		Note: j.setting() + " Stacked: each part's share of the force is Δp·q/v, the heat it makes over the speed; " +
			"together they are the force of the damper." + cavitates,
		X:     chart.Axis{Label: "Speed of " + stroke, Unit: "m/s", Zero: true},
		Y:     chart.Axis{Label: "Force of the whole fork", Unit: "N", Zero: true},
		Stack: &chart.Stack{X: x, Layers: layers},
	}
}

// gathered puts layers too thin to be seen into one, on top.
func gathered(layers []chart.Layer) []chart.Layer {
	const thin = 0.02 // of the thickest
	most := 0.0
	for _, l := range layers {
		most = max(most, slices.Max(l.Y))
	}
	var thick []chart.Layer
	rest := chart.Layer{Label: "the rest", Color: chart.Navy, Y: make([]float64, len(layers[0].Y))}
	for _, l := range layers {
		if slices.Max(l.Y) >= thin*most {
			thick = append(thick, l)
			continue
		}
		for i, y := range l.Y {
			rest.Y[i] += y
		}
	}
	if slices.Max(rest.Y) > 0 {
		thick = append(thick, rest)
	}
	return thick
}

// partColors go with the order of shares, neighbors far apart.
var partColors = []chart.Color{chart.Blue, chart.Orange, chart.Wine, chart.Sky, chart.Yellow, chart.Green, chart.Violet, chart.Orange}

// ratio is the damping ratio against speed.
func (j *job) ratio() *chart.Figure {
	const from, top, n = 0.02, 1.5, 200
	f := &chart.Figure{
		Title: "Damping ratio about the sag against speed",
		Note: j.setting() + fmt.Sprintf(" Force over speed over the critical damping of %.0f N·s/m: %.0f kg on %.1f N/mm.",
			float64(j.body.Critical()), float64(j.mass), j.rate.In(units.NewtonPerMillimeter)),
		X:       chart.Axis{Label: "Speed along the fork axis", Unit: "m/s", Zero: true},
		Y:       chart.Axis{Label: "Damping ratio ζ", Zero: true},
		Regions: []chart.Region{{On: chart.OnY, From: 0.3, To: 0.7, Name: "usual as the mean of both strokes, from memory"}},
		Marks:   []chart.Mark{{On: chart.OnY, At: 1, Label: "critical"}},
	}
	for _, stroke := range []struct {
		name   string
		sign   float64
		marker chart.Marker
	}{{"rebound", -1, chart.NoMarker}, {"compression", 1, chart.OpenDisk}} {
		for i, t := range j.states {
			l := chart.Line{Label: stroke.name + ", " + t.label(i), Color: stateColors[i], Dash: stateDashes[i], Marker: stroke.marker}
			for k := range n + 1 {
				v := from * math.Pow(top/from, float64(k)/n) // dense where it is steep
				l.X, l.Y = append(l.X, v), append(l.Y, j.body.Ratio(t.fork, units.Speed(stroke.sign*v)))
			}
			f.Lines = append(f.Lines, l)
		}
	}
	return f
}
