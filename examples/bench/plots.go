package main

import (
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/units"
)

// learned is how much of each uncertainty is left, before it was 1.
func (s *study) learned() *chart.Figure {
	f := &chart.Figure{Title: "What the readings taught", Note: "uncertainty left of each number, 100 % before; 0: known",
		X: chart.Axis{Label: "Left of the uncertainty", Unit: "%", Min: 0, Max: 110},
		Y: chart.Axis{Label: "Number, from the top as on the sheet"}}
	for i, v := range s.Known.Values {
		y := float64(len(s.Known.Values) - i)
		f.Lines = append(f.Lines, chart.Line{Label: strings.ReplaceAll(v.Name, ".", " "),
			X: []float64{0, 100 * (1 - v.Learned)}, Y: []float64{y, y},
			Color: chart.Navy, Bold: true, Dash: chart.Solid})
	}
	return f
}

// residuals of the readings, in standard uncertainties.
func (s *study) residuals() *chart.Figure {
	f := &chart.Figure{Title: "How the readings fit", Note: "beyond ±3 a reading contradicts the rest",
		X: chart.Axis{Label: "Off by, standard uncertainties", Min: -6, Max: 6},
		Y: chart.Axis{Label: "Reading, from the top as on the sheet"}}
	for i, r := range s.Known.Residual {
		y := float64(len(s.Known.Residual) - i)
		f.Lines = append(f.Lines, chart.Line{Label: s.Names[i], X: []float64{max(-6, min(6, r.Standardized))},
			Y: []float64{y}, Color: chart.Navy,
			Dash: chart.NoLine, Marker: chart.Disk})
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
			slices.Sort(forces)
			band.X = append(band.X, x.In(units.Millimeter))
			middle = append(middle, stat.Quantile(0.5, stat.Empirical, forces, nil))
			band.Low = append(band.Low, stat.Quantile(0.05, stat.Empirical, forces, nil))
			band.High = append(band.High, stat.Quantile(0.95, stat.Empirical, forces, nil))
		}
		f.Bands = append(f.Bands, band)
		f.Lines = append(f.Lines, chart.Line{Name: "middle of " + name, X: band.X, Y: middle,
			Dash:  [...]chart.Dash{chart.Dashed, chart.Solid}[i],
			Color: [...]chart.Color{chart.Orange, chart.Navy}[i]})
	}
	return folder.Draw("force", f)
}
