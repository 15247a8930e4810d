package chart

import (
	"bytes"
	"errors"
	"image/png"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/units"
)

// full is a figure with everything a figure may have.
func full() Figure {
	x := []float64{0, 100, 200, 300}
	return Figure{
		Title: "All <kinds> & \"marks\"", Note: "A note below the title.",
		X:       Axis{Label: "Travel", Unit: "mm"},
		Y:       Axis{Label: "Force", Unit: "N"},
		Regions: []Region{{OnX, 50, 80, "strip"}, {OnY, 100, 200, ""}},
		Bands:   []Band{{"band", x, []float64{0, 50, 100, 150}, []float64{20, 80, 150, 250}, Blue}},
		Stack: &Stack{x, []Layer{
			{Label: "coil", Y: []float64{0, 800, 1600, 2400}, Color: Sky},
			{Label: "gas", Y: []float64{0, 80, 300, 900}, Color: Yellow}}},
		Marks: []Mark{
			{On: OnX, At: 70, Label: "sag 70 mm"}, {On: OnX, At: 75, Label: "other sag 75 mm", Color: Wine},
			{On: OnY, At: 700, Label: "load 700 N"}, {On: OnY, At: 650}},
		Lines: []Line{
			{Label: "measured", X: []float64{10, 150}, Y: []float64{90, 1300}, Dash: NoLine, Marker: Cross},
			{Label: "ends within", X: x[:3], Y: []float64{300, 1200, 2100}, Marker: OpenSquare},
			{Name: "in the legend", X: x, Y: []float64{100, 900, 1800, 3000}, Bold: true},
			{Name: "a loop", X: []float64{100, 200, 200, 100}, Y: []float64{2500, 2600, 2900, 2500}}},
	}
}

func TestFiles(t *testing.T) {
	f, again := full(), full()
	svg, err := f.SVG()
	if err != nil {
		t.Fatal(err)
	}
	words, err := golden.Words(svg)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{f.Title, f.Note, "Travel (mm)", "Force (N)", "strip", "band", "coil", "gas",
		"sag 70 mm",
		"other sag 75 mm", "load 700 N", "measured", "ends within", "in the legend", "a loop", "3000"} {
		if !strings.Contains(words, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
	raster, err := f.PNG()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(raster))
	if err != nil {
		t.Fatal(err)
	}
	if size := img.Bounds().Size(); size.X != 900 || size.Y != 600 {
		t.Errorf("image of %v pixels, want 900 × 600", size)
	}
	svg2, err := again.SVG()
	if err != nil || !bytes.Equal(svg, svg2) {
		t.Errorf("the same figure gives other bytes, %v", err)
	}
}

func TestBadFigures(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		field string
		spoil func(*Figure)
	}{
		{"Y[0]", func(f *Figure) { f.Y.Min = nan }},
		{"Y[1]", func(f *Figure) { f.Y.Max = inf }},
		{"Y.Max", func(f *Figure) { f.Y.Min, f.Y.Max = 5, 5 }},
		{"X.Max", func(f *Figure) { f.X.Min, f.X.Max = 1, 1+1e-12 }},
		{"X.Max", func(f *Figure) { f.X.Max = 1e-300 }},
		{"Lines", func(f *Figure) { f.Lines, f.Stack = nil, nil }},
		{"Lines[2].Name", func(f *Figure) { f.Lines[2].Name = "" }},
		{"Lines[2].X", func(f *Figure) { f.Lines[2].X = nil }},
		{"Lines[2].Y", func(f *Figure) { f.Lines[2].Y = f.Lines[2].Y[:3] }},
		{"Lines[2].X", func(f *Figure) { f.Lines[2].X, f.Lines[2].Y = []float64{1}, []float64{1} }},
		{"Lines[2].X", func(f *Figure) { f.Lines[2].X, f.Lines[2].Y = make([]float64, 1e6), make([]float64, 1e6) }},
		{"Lines[2].Y[1]", func(f *Figure) { f.Lines[2].Y[1] = nan }},
		{"Lines[2].X[0]", func(f *Figure) { f.Lines[2].X = []float64{-inf, 0, 1, 2} }},
		{"Lines[2].Y[3]", func(f *Figure) { f.Lines[2].Y[3] = 1e300 }},
		{"Lines[0].X", func(f *Figure) { f.Lines[0].X, f.Lines[0].Y = nil, nil }},
		{"Bands[0].X", func(f *Figure) { f.Bands[0].X = []float64{0, 2, 1, 3} }},
		{"Bands[0].Low", func(f *Figure) { f.Bands[0].Low = nil }},
		{"Bands[0].High[0]", func(f *Figure) { f.Bands[0].High[0] = nan }},
		{"Stack.X", func(f *Figure) { f.Stack.X = nil }},
		{"Stack.Layers[1].Y", func(f *Figure) { f.Stack.Layers[1].Y = []float64{1} }},
		{"Marks[0].At[0]", func(f *Figure) { f.Marks[0].At = nan }},
		{"Regions[0]", func(f *Figure) { f.Regions[0].To = 10 }},
		{"Regions[0][0]", func(f *Figure) { f.Regions[0].From = nan }},
	} {
		t.Run(c.field, func(t *testing.T) {
			f := full()
			c.spoil(&f)
			_, err := f.SVG()
			var fault *units.RangeError
			if !errors.As(err, &fault) || !strings.Contains(err.Error(), "Figure."+c.field+" =") {
				t.Errorf("got %v, want a fault of %s", err, c.field)
			}
		})
	}
}

func TestTooManyLabels(t *testing.T) {
	f := full()
	f.Lines = nil
	for range 40 {
		f.Lines = append(f.Lines, Line{Label: "one of many", X: []float64{0, 1}, Y: []float64{0, 1}})
	}
	if _, err := f.SVG(); err == nil || !strings.Contains(err.Error(), "right edge") {
		t.Errorf("got %v, want an error about the right edge", err)
	}
	f.Lines = full().Lines
	for range 40 {
		f.Marks = append(f.Marks, Mark{At: 10, Label: "one of many"})
	}
	if _, err := f.SVG(); err == nil || !strings.Contains(err.Error(), "above the plot") {
		t.Errorf("got %v, want an error about the top", err)
	}
	f = full()
	for range 80 {
		f.Regions = append(f.Regions, Region{OnX, 0, 1, "a name that takes a good part of a row of the legend"})
	}
	if _, err := f.SVG(); err == nil || !strings.Contains(err.Error(), "words leave") {
		t.Errorf("got %v, want an error about the space left", err)
	}
}

// A figure of any values and words is drawn or refused, and what is drawn is well-formed.
func FuzzFigure(f *testing.F) {
	f.Add("Title", "label", 0.0, 1.0, -1e12, 1e12, 0.0, 0.0, 0.5, 3)
	f.Add("\x00\xff\u200b", strings.Repeat("word ", 300), 1e-9, 2e-9, 0.0, 0.0, 1.0, 2.0, -5.0, 7)
	f.Add("", strings.Repeat("x", 3000), 5.0, 5.0, 7.0, 7.0, -1e12, 1e12, math.NaN(), 9)
	f.Fuzz(func(t *testing.T, title, label string, x0, x1, y0, y1, lo, hi, at float64, style int) {
		fig := Figure{
			Title: title, Note: label,
			X: Axis{Label: label, Unit: title}, Y: Axis{Label: "y", Min: lo, Max: hi},
			Marks:   []Mark{{On: OnX, At: at, Label: label}, {On: OnY, At: at, Label: title}},
			Regions: []Region{{OnY, min(at, y0), max(at, y0), title}},
			Lines: []Line{{Name: title, Label: label, X: []float64{x0, x1, x0}, Y: []float64{y0, y1, y1},
				Color: Color(style) & 7, Dash: Dash(style) & 7, Marker: Marker(style) & 3}},
		}
		svg, err := fig.SVG()
		if err == nil {
			if _, err := golden.Words(svg); err != nil {
				t.Error(err)
			}
		}
	})
}
