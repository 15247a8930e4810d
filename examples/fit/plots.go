package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Colors tell the strokes, and what is fitted from what is measured.
const (
	inColor  = chart.Blue
	outColor = chart.Orange
	fitColor = chart.Navy
)

// draw draws record and residuals.
func (j *job) draw(folder program.Folder) error {
	return errors.Join(folder.Draw("force-travel", j.force()), folder.Draw("friction-band", j.band()),
		folder.Draw("residuals", j.residuals()))
}

func (j *job) force() *chart.Figure {
	r := j.result
	friction := r.Model.Fork.Friction.In(units.Newton)
	curve, bare := r.Curve(), r.Model
	bare.Fork.Left.Gap, bare.Fork.Right.Gap = nil, nil
	alone := bare.Curve()
	line := chart.Line{Label: "fit, without friction", Color: fitColor, Dash: chart.Solid}
	band := chart.Band{Name: fmt.Sprintf("fit ± friction of %.0f N", friction), Color: fitColor}
	coil := chart.Line{Label: "coil alone", Color: chart.Green, Dash: chart.DashDot}
	top := min(j.record.Loading[len(j.record.Loading)-1].Travel, curve.Stroke())
	const n = 200
	for i := range n + 1 {
		x := top * units.Length(i) / n
		f := curve.Force(x).In(units.Newton)
		line.X, line.Y = append(line.X, x.In(mm)), append(line.Y, f)
		band.X = append(band.X, x.In(mm))
		band.Low, band.High = append(band.Low, f-friction), append(band.High, f+friction)
		coil.X, coil.Y = append(coil.X, x.In(mm)), append(coil.Y, alone.Force(x).In(units.Newton))
	}
	f := &chart.Figure{
		Title: "Force against travel: readings and fit",
		Note:  j.subject + j.found(),
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     chart.Axis{Label: "Force", Unit: "N", Zero: true},
		Bands: []chart.Band{band},
		Lines: []chart.Line{line},
	}
	if j.parts == "coil+gap" {
		f.Lines = append(f.Lines, coil)
	}
	points(f, "compressing", j.kept.Loading, inColor, chart.Plus)
	points(f, "extending", j.kept.Unloading, outColor, chart.Cross)
	points(f, "not fitted", slices.Concat(j.rest.Loading, j.rest.Unloading), chart.Violet, chart.OpenSquare)
	return f
}

// band is the readings less the fit without friction, in which friction shows as
// two rows of points.
func (j *job) band() *chart.Figure {
	friction := j.result.Model.Fork.Friction.In(units.Newton)
	curve := j.result.Curve()
	less := func(readings []spring.Reading) []spring.Reading {
		var some []spring.Reading
		for _, r := range readings {
			if r.Travel >= 0 && r.Travel <= curve.Stroke() {
				some = append(some, spring.Reading{Travel: r.Travel, Force: r.Force - curve.Force(r.Travel)})
			}
		}
		return some
	}
	top := j.record.Loading[len(j.record.Loading)-1].Travel.In(mm)
	f := &chart.Figure{
		Title: "Friction: readings less the fitted spring",
		Note: j.subject + "Compressing adds friction, extending takes it off. Rows that part or close with travel are a " +
			"friction that depends on it; near the ends, where it turns, it is not fitted.",
		X: chart.Axis{Label: "Travel", Unit: "mm", Zero: true},
		Y: chart.Axis{Label: "Measured less fitted spring", Unit: "N", Zero: true},
		Bands: []chart.Band{{Name: fmt.Sprintf("± friction of %.0f N", friction), Color: chart.Sky, X: []float64{0, top},
			Low: []float64{-friction, -friction}, High: []float64{friction, friction}}},
		Marks: []chart.Mark{{On: chart.OnY, At: 0, Dash: chart.Solid}},
	}
	points(f, "compressing", less(j.kept.Loading), inColor, chart.Disk)
	points(f, "extending", less(j.kept.Unloading), outColor, chart.OpenSquare)
	points(f, "not fitted", less(slices.Concat(j.rest.Loading, j.rest.Unloading)), chart.Violet, chart.Cross)
	return f
}

// found is the result in a line.
func (j *job) found() string {
	var list []string
	for _, f := range j.free {
		p := named(f.String())
		v, e := p.estimate(j.result)
		text := fmt.Sprintf("%s "+p.format+" ± "+p.format+" %s", p.name, v, e, p.unit)
		list = append(list, typeset.Numbers(strings.TrimSpace(text)))
	}
	return "Fitted, with standard errors: " + strings.Join(list, ", ") + "."
}

// points adds readings to a figure, if there are any.
func points(f *chart.Figure, name string, readings []spring.Reading, c chart.Color, m chart.Marker) {
	l := chart.Line{Name: name, Color: c, Dash: chart.NoLine, Marker: m}
	for _, r := range readings {
		l.X, l.Y = append(l.X, r.Travel.In(mm)), append(l.Y, r.Force.In(units.Newton))
	}
	if len(readings) > 0 {
		f.Lines = append(f.Lines, l)
	}
}

// residuals are readings less fit against travel.
func (j *job) residuals() *chart.Figure {
	var in, out []spring.Reading
	for _, r := range j.result.Residuals {
		off := spring.Reading{Travel: r.Travel, Force: r.Force}
		if r.Unloading {
			out = append(out, off)
		} else {
			in = append(in, off)
		}
	}
	sigma := j.result.Sigma.In(units.Newton)
	f := &chart.Figure{
		Title: "Residuals: readings less fit",
		Note: j.subject + "Independent noise scatters about zero without a pattern, and 95 of 100 points lie within two " +
			"standard deviations. A bow or a step is something the model does not know.",
		X:     chart.Axis{Label: "Travel", Unit: "mm", Zero: true},
		Y:     chart.Axis{Label: "Measured less fitted force", Unit: "N", Zero: true},
		Marks: []chart.Mark{{On: chart.OnY, At: 0, Dash: chart.Solid}},
	}
	points(f, "compressing", in, inColor, chart.Disk)
	points(f, "extending", out, outColor, chart.OpenSquare)
	if sigma > 0 {
		f.Regions = []chart.Region{{On: chart.OnY, From: -2 * sigma, To: 2 * sigma,
			Name: fmt.Sprintf("within two standard deviations, ±%.0f N", 2*sigma)}}
	}
	return f
}
