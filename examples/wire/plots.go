package main

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// plots draw which wires fit the leg, and what the free length of the shortest spring
// is made of, against the rate of one spring: from below half the fork's rate to above it.
func (s *study) plots() (wires, lengths *chart.Figure) {
	spec := s.Answer().Spec
	best := chart.Line{Name: "wire of the shortest spring", Color: chart.Blue, Dash: chart.Dotted}
	fits := chart.Band{Name: "fits with 1.5·S_a left to solid", Color: chart.Green}
	layers := []chart.Layer{{Label: "coils when closed", Color: chart.Navy},
		{Label: "1.5·S_a left to solid", Color: chart.Orange}, {Label: "preload and travel", Color: chart.Sky}}
	stroke := spec.Stroke + spec.Preload
	from, to := max(0.4*s.Rate, 1*npm), min(1.2*s.Rate, 100*npm)
	for i := range 61 {
		spec.Rate = from + (to-from)*units.Stiffness(i)/60
		all, err := helical.DesignByWire(spec)
		if err != nil || len(all) == 0 {
			continue
		}
		shortest := slices.MinFunc(all, func(a, b helical.Spring) int { return cmp.Compare(a.FreeLength(), b.FreeLength()) })
		best.X, best.Y = append(best.X, spec.Rate.In(npm)), append(best.Y, shortest.Wire().In(mm))
		for i, part := range []units.Length{shortest.SolidLength(), shortest.DynamicMinimumGap(), stroke} {
			layers[i].Y = append(layers[i].Y, part.In(mm))
		}
		all = slices.DeleteFunc(all, func(s helical.Spring) bool { return s.FreeLength() > spec.FreeLength })
		if len(all) > 0 {
			fits.X, fits.Low = append(fits.X, spec.Rate.In(npm)), append(fits.Low, all[0].Wire().In(mm))
			fits.High = append(fits.High, all[len(all)-1].Wire().In(mm))
		}
	}
	room, rate := spec.FreeLength, chart.Axis{Label: "Rate of one spring", Unit: "N/mm"}
	conditions := fmt.Sprintf("%s. Wire %s, preload %.0f, bore %.1f.", s.Fork.Name, s.Wire.ID(), spec.Preload, spec.Bore)
	wires = &chart.Figure{
		Title: s.Fork.ID + ": wire that fits the leg against the rate of one spring",
		Note: fmt.Sprintf("%s Room %.0f. Of each wire the widest coil that keeps the stress limit and clears the bore. "+
			"Thinner wire: the stress asks for so small a coil that it takes too many. Thicker: the coils themselves are "+
			"too long. Steps are those of wire and of the table of its strength.", conditions, room),
		X: rate, Y: chart.Axis{Label: "Wire diameter", Unit: "mm"},
		Lines: []chart.Line{best},
	}
	if len(fits.X) >= 2 {
		wires.Bands = []chart.Band{fits}
	}
	lengths = &chart.Figure{
		Title: s.Fork.ID + ": free length that the shortest spring needs against its rate",
		Note: conditions + " Each rate with the wire that makes it shortest. Twice the rate costs coils; travel costs the " +
			"same at any rate. Uneven by the steps of wire and of its strength.",
		X: rate, Y: chart.Axis{Label: "Free length", Unit: "mm", Zero: true},
		Stack: &chart.Stack{X: best.X, Layers: layers},
		Marks: []chart.Mark{{On: chart.OnY, At: room.In(mm), Dash: chart.Dashed, Label: fmt.Sprintf("room,\n%.0f", room)}},
	}
	for _, b := range []build{s.Two, s.One} {
		name, color, marker := "one spring", chart.Navy, chart.Disk
		if b.Legs == 2 {
			name, color, marker = "each of two", chart.Orange, chart.Square
		}
		lengths.Marks = append(lengths.Marks, chart.Mark{At: b.Spec.Rate.In(npm), Dash: chart.Dotted,
			Label: fmt.Sprintf("%s\n%.2f", name, b.Spec.Rate)})
		if b.Exists() {
			wires.Lines = append(wires.Lines, chart.Line{
				Name: fmt.Sprintf("%s, %.2f, wire %.1f: %s", name, b.Spec.Rate, b.Spring.Wire(), b.verdict()),
				X:    []float64{b.Spec.Rate.In(npm)}, Y: []float64{b.Spring.Wire().In(mm)},
				Dash: chart.NoLine, Color: color, Marker: marker})
		}
	}
	return wires, lengths
}
