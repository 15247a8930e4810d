package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

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

func TestWrite(t *testing.T) {
	f := full()
	dir := filepath.Join(t.TempDir(), "made")
	paths, err := f.Write(dir, "all")
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) != 2 || paths[0] != filepath.Join(dir, "all.svg") || paths[1] != filepath.Join(dir, "all.png") {
		t.Fatalf("wrote %v", paths)
	}
	svg, err := os.ReadFile(paths[0])
	if err != nil {
		t.Fatal(err)
	}
	words := readSVG(t, svg)
	for _, want := range []string{f.Title, f.Note, "Travel (mm)", "Force (N)", "strip", "band", "coil", "gas",
		"sag 70 mm",
		"other sag 75 mm", "load 700 N", "measured", "ends within", "in the legend", "a loop", "3000"} {
		if !strings.Contains(words, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
	raster, err := os.ReadFile(paths[1])
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
	again := full()
	svg2, err := again.SVG()
	if err != nil {
		t.Fatal(err)
	}
	png2, err := again.PNG()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(svg, svg2) || !bytes.Equal(raster, png2) {
		t.Error("the same figure gives other bytes")
	}
}

// readSVG fails on a drawing that is not well-formed and returns its words.
func readSVG(t *testing.T, svg []byte) string {
	t.Helper()
	var b strings.Builder
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return b.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		if text, ok := token.(xml.CharData); ok {
			b.Write(text)
		}
	}
}

func TestWriteErrors(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(dir, "taken.svg"), 0o777); err != nil {
		t.Fatal(err)
	}
	bad := Figure{}
	good := full()
	for _, c := range []struct {
		name, dir, file string
		figure          *Figure
		want            string
	}{
		{"no name", dir, "", &good, `""`},
		{"folder in the name", dir, "../out", &good, `"../out"`},
		{"bad figure", dir, "bad", &bad, filepath.Join(dir, "bad")},
		{"file for a folder", file, "plot", &good, filepath.Join(file, "plot")},
		{"folder for a file", dir, "taken", &good, filepath.Join(dir, "taken.svg")},
	} {
		t.Run(c.name, func(t *testing.T) {
			paths, err := c.figure.Write(c.dir, c.file)
			if err == nil || paths != nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("Write = %v, %v; want an error that names %s", paths, err, c.want)
			}
		})
	}
}

func TestBadFigures(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		field string
		spoil func(*Figure)
	}{
		{"X.Label", func(f *Figure) { f.X.Label = "" }},
		{"Y.Min", func(f *Figure) { f.Y.Min = nan }},
		{"Y.Max", func(f *Figure) { f.Y.Max = inf }},
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
		{"Lines[0].Marker", func(f *Figure) { f.Lines[0].Marker = NoMarker }},
		{"Lines[1].Color", func(f *Figure) { f.Lines[1].Color = Yellow + 1 }},
		{"Lines[1].Dash", func(f *Figure) { f.Lines[1].Dash = -1 }},
		{"Lines[1].Marker", func(f *Figure) { f.Lines[1].Marker = 99 }},
		{"Bands[0].X[2]", func(f *Figure) { f.Bands[0].X = []float64{0, 2, 1, 3} }},
		{"Bands[0].Low", func(f *Figure) { f.Bands[0].Low = nil }},
		{"Bands[0].High[0]", func(f *Figure) { f.Bands[0].High[0] = nan }},
		{"Stack.X", func(f *Figure) { f.Stack.X = nil }},
		{"Stack.Layers", func(f *Figure) { f.Stack.Layers = nil }},
		{"Stack.Layers[1].Y", func(f *Figure) { f.Stack.Layers[1].Y = []float64{1} }},
		{"Stack.Layers[1].Y[2]", func(f *Figure) { f.Stack.Layers[1].Y[2] = -1 }},
		{"Marks[0].At", func(f *Figure) { f.Marks[0].At = nan }},
		{"Marks[0].On", func(f *Figure) { f.Marks[0].On = 2 }},
		{"Marks[0].Dash", func(f *Figure) { f.Marks[0].Dash = NoLine }},
		{"Regions[0].To", func(f *Figure) { f.Regions[0].To = 10 }},
		{"Regions[0].From", func(f *Figure) { f.Regions[0].From = nan }},
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

// A figure of any values and words is drawn or refused, and what is drawn is
// well-formed.
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
				Color: Color(style), Dash: Dash(style), Marker: Marker(style)}},
		}
		svg, err := fig.SVG()
		if err == nil {
			readSVG(t, svg)
		}
	})
}
