package chart

import "example.org/forkcurve/examples/internal/picture"

// Figure is one chart.
type Figure struct {
	Title string
	Note  string // below the title, smaller: the conditions
	X, Y  Axis

	Regions []Region
	Bands   []Band
	Stack   *Stack
	Marks   []Mark
	Lines   []Line
}

// Axis is one axis. Its limits come from the data if Min and Max are both zero; what lies beyond given limits is
// cut off.
type Axis struct {
	Label    string
	Unit     string // "mm"; empty for a pure number
	Min, Max float64
	Zero     bool // limits from the data include zero
	Bare     bool // without ticks and numbers: places in a list
}

// Line joins points by straight lines. It needs a Name or a Label.
type Line struct {
	Name  string // in the legend
	Label string // where the line ends
	X, Y  []float64

	Color  Color
	Dash   Dash
	Marker Marker // at some places along the line; without a line, at every point
	Bold   bool
}

// Through is the line with a function from one x to another, in that many steps.
func (l Line) Through(from, to float64, steps int, y func(x float64) float64) Line {
	l.X, l.Y = make([]float64, steps+1), make([]float64, steps+1)
	for i := range l.X {
		l.X[i] = from + (to-from)*float64(i)/float64(steps)
		l.Y[i] = y(l.X[i])
	}
	return l
}

// Band fills the space between two lines over rising X.
type Band struct {
	Name         string // in the legend
	X, Low, High []float64
	Color        Color // Auto: gray
}

// Stack is areas that add up, over rising X, the first at the bottom.
type Stack struct {
	X      []float64
	Layers []Layer
}

// Layer is one area of a stack.
type Layer struct {
	Label string // at the right edge
	Y     []float64
	Color Color
}

// Direction says on which axis a position lies.
type Direction int

const (
	OnX Direction = iota // a vertical line or strip
	OnY                  // a horizontal one
)

// Mark is a reference line across the plot.
type Mark struct {
	On    Direction
	At    float64
	Label string // at its end; may be empty
	Color Color  // Auto: dark gray
	Dash  Dash   // Auto: short dashes
}

// Region shades a strip across the plot in light gray.
type Region struct {
	On       Direction
	From, To float64
	Name     string // in the legend
}

// SVG is the figure as such a file.
func (f *Figure) SVG() ([]byte, error) { return picture.SVG(pageWidth, pageHeight, f.draw) }

// PNG is the figure as such a file, of 900 × 600 pixels.
func (f *Figure) PNG() ([]byte, error) { return picture.PNG(pageWidth, pageHeight, f.draw) }
