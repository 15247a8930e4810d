package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// fill says how to fill a fork with air.
func fill(p *program.Program, job conversion.AirJob, asJSON, asCSV bool, plots program.Folder) error {
	report, err := conversion.PlanAir(job)
	if err != nil {
		return err
	}
	write := sheet.WriteAirText
	switch {
	case asJSON:
		write = sheet.WriteAirJSON
	case asCSV:
		write = sheet.WriteAirCSV
	}
	if err := errors.Join(write(p.Out, report), plotFill(plots, report)); err != nil {
		return err
	}
	if !report.Safe() {
		return program.ErrNoAnswer
	}
	return nil
}

// plotFill draws the fork as filled, and the one it takes after.
func plotFill(folder program.Folder, r *conversion.AirReport) error {
	newtons := func(pt spring.Point) float64 { return pt.Force.In(units.Newton) }
	gauge := r.Gauges[0].Positive.In(units.Bar)
	f := &chart.Figure{
		Title: fmt.Sprintf("Force against travel: filled to %.1f bar", gauge),
		Note:  conditions + "Fork as a whole, along its axis.",
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     chart.Axis{Label: "Force on the fork axis", Unit: "N", Zero: true},
		Marks: []chart.Mark{{On: chart.OnY, At: r.Rider.Axial.In(units.Newton),
			Label: fmt.Sprintf("load with rider, %.0f N", r.Rider.Axial.In(units.Newton))}},
	}
	if !r.Safe() {
		f.Title = "NOT AS WANTED: see the sheet\n" + f.Title
	}
	add := func(name string, b *conversion.Behavior, color chart.Color, bold bool) {
		for _, n := range []float64{gas.Isothermal, r.Job.RideExponent} {
			l := sampled(name+", at rest", b.Setup.Curve(n), newtons)
			l.Color, l.Bold, l.Dash = color, bold, chart.Dashed
			if n != gas.Isothermal {
				l.Label, l.Dash = fmt.Sprintf("%s, landing, n = %.2f", name, n), chart.Solid
			}
			f.Lines = append(f.Lines, l)
		}
	}
	if r.Match != nil {
		f.Title += " and the fork it takes after"
		add("before", r.Match, presentColor, false)
	}
	add("as filled", &r.Behavior, chosenColor, true)
	f, err := drawable(f)
	if err != nil {
		return err
	}
	return folder.Draw("force-travel", f)
}
