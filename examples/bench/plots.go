package main

import (
	"math"
	"slices"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/units"
)

// values is each number after the readings against what it was before, in standard uncertainties of that.
func (s *study) values() *chart.Figure {
	f := &chart.Figure{Title: "Each number before and after the readings",
		Note:    "in standard uncertainties from forks of its kind; lines and the strip hold 95 %; dark: pinned down",
		Regions: []chart.Region{{On: chart.OnX, From: -1.96, To: 1.96, Name: "before"}}, Marks: []chart.Mark{{On: chart.OnX}},
		X: chart.Axis{Label: "From what its kind has", Unit: "σ", Min: -4, Max: 4},
		Y: chart.Axis{Max: float64(len(s.Known.Values)) + 1, Bare: true}}
	for i, v := range s.Known.Values {
		color := chart.Sky
		if v.Known() {
			color = chart.Navy
		}
		y, half := float64(len(s.Known.Values)-i), 1.96*(1-v.Learned)
		f.Lines = append(f.Lines, chart.Line{Label: spoken(v.Name), Color: color, Bold: true, Dash: chart.Solid,
			X: []float64{max(-4, v.Moved-half), min(4, v.Moved+half)}, Y: []float64{y, y}})
		f.X.Min, f.X.Max = min(f.X.Min, -math.Abs(v.Moved)-1), max(f.X.Max, math.Abs(v.Moved)+1)
	}
	return f
}

// residuals of the readings, in standard uncertainties of each.
func (s *study) residuals() *chart.Figure {
	f := &chart.Figure{Title: "How the readings fit",
		Note:    "against what all the rest says; outside the strip a reading contradicts it",
		Regions: []chart.Region{{On: chart.OnX, From: -3, To: 3, Name: "as chance has it"}},
		Marks:   []chart.Mark{{On: chart.OnX}},
		X:       chart.Axis{Label: "Off by", Unit: "σ", Min: -6, Max: 6},
		Y:       chart.Axis{Max: float64(len(s.Known.Residual)) + 1, Bare: true}}
	for i, r := range s.Known.Residual {
		color := chart.Navy
		if r.Contradicts() {
			color = chart.Orange
		}
		f.Lines = append(f.Lines, chart.Line{Label: s.Names[i] + ", " + r.Read, X: []float64{max(-6, min(6, r.Standardized))},
			Y: []float64{float64(len(s.Known.Residual) - i)}, Color: color, Dash: chart.NoLine, Marker: chart.Disk})
	}
	return f
}

// band is the force at rest of forks of its kind, and of those that fit the readings.
func (s *study) band(folder program.Folder) error {
	f := &chart.Figure{Title: "Force at rest, 90 % of the forks",
		Note: "wide: forks of its kind; narrow: those that fit the readings",
		X:    chart.Axis{Label: "Travel", Unit: "mm"}, Y: chart.Axis{Label: "Force along the axis", Unit: "N", Zero: true}}
	for i, name := range []string{"forks of its kind", "this fork"} {
		forks, err := s.sampled(400, i == 0)
		if err != nil {
			return err
		}
		band := chart.Band{Name: name, Color: [...]chart.Color{chart.Auto, chart.Sky}[i]}
		const points = 60
		var middle []float64
		for j := range points {
			x := s.Record.Travel.Value * 97 / 100 * units.Length(j) / (points - 1)
			var forces []float64
			for _, fork := range forks {
				if c := fork.Curve(1); x <= c.Stroke() {
					forces = append(forces, float64(c.Force(x)))
				}
			}
			if len(forces) == 0 {
				break // no fork goes so deep
			}
			slices.Sort(forces)
			band.X = append(band.X, x.In(units.Millimeter))
			below := func(share float64) float64 { return forces[int(math.Ceil(share*float64(len(forces))))-1] }
			middle = append(middle, below(0.5))
			band.Low, band.High = append(band.Low, below(0.05)), append(band.High, below(0.95))
		}
		f.Bands = append(f.Bands, band)
		f.Lines = append(f.Lines, chart.Line{Name: "middle of " + name, X: band.X, Y: middle,
			Dash:  [...]chart.Dash{chart.Dashed, chart.Solid}[i],
			Color: [...]chart.Color{chart.Orange, chart.Navy}[i]})
	}
	return folder.Draw("force", f)
}
