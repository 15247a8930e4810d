package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Color is one of the palette, dark to light. Each is 7 to 12 steps of CIE L* lighter than the one before, which
// gray print keeps, and bluish ones alternate with others, which the common kinds of color blindness tell apart.
type Color int

const (
	Auto   Color = iota // the next one for lines and layers
	Navy                // L* 13
	Wine                // L* 24
	Blue                // L* 34
	Green               // L* 43
	Violet              // L* 51
	Orange              // L* 60
	Sky                 // L* 68
	Yellow              // L* 77
)

var palette = [...]color.NRGBA{
	Auto:   {0x55, 0x55, 0x55, 0xFF},
	Navy:   {0x01, 0x21, 0x4A, 0xFF},
	Wine:   {0x79, 0x00, 0x1F, 0xFF},
	Blue:   {0x0E, 0x4B, 0xAB, 0xFF},
	Green:  {0x33, 0x73, 0x33, 0xFF},
	Violet: {0x95, 0x62, 0xC6, 0xFF},
	Orange: {0xE7, 0x6E, 0x1E, 0xFF},
	Sky:    {0x14, 0xB2, 0xEA, 0xFF},
	Yellow: {0xE9, 0xB7, 0x31, 0xFF},
}

const colors = len(palette) - 1 // without Auto

// next is the color of the i-th line or layer.
func (c Color) next(i int) Color {
	if c == Auto {
		return Color(i%colors) + 1
	}
	return c
}

// tint is the color as a see-through filling.
func (c Color) tint(opacity uint8) color.Color {
	t := palette[c]
	t.A = opacity
	return t
}

// Opacities of fillings.
const (
	bandOpacity  = 0x48
	layerOpacity = 0xA0
)

var (
	ink   = color.Gray{0x1A} // words and frame
	faint = color.Gray{0x50} // the note
	grid  = color.Gray{0xE0}
	shade = color.Gray{0xEE} // regions
)

// Dash is the pattern of a line.
type Dash int

const (
	AutoDash Dash = iota // the next one
	Solid
	Dashed
	Dotted
	DashDot
	LongDash
	DashDotDot
	ShortDash
	LongShort
	NoLine // markers only
)

var patterns = [NoLine][]vg.Length{
	Dashed:     {7, 4},
	Dotted:     {1.6, 2.6},
	DashDot:    {8, 3, 1.6, 3},
	LongDash:   {14, 4},
	DashDotDot: {8, 2.5, 1.6, 2.5, 1.6, 2.5},
	ShortDash:  {3.5, 3},
	LongShort:  {14, 3, 4, 3},
}

// next is the pattern of the i-th line. It goes out of step with the colors, so that a pair of them returns after
// 64 lines only.
func (d Dash) next(i int) Dash {
	if d == AutoDash {
		return Dash((i+i/colors)%int(NoLine-1)) + 1
	}
	return d
}

// look is how a line is drawn.
type look struct {
	draw.LineStyle
	draw.GlyphStyle
}

func (l Line) look(i int) look {
	c := palette[l.Color.next(i)]
	k := look{
		LineStyle:  draw.LineStyle{Color: c, Width: 1.6},
		GlyphStyle: draw.GlyphStyle{Color: c, Radius: 3.6, Shape: shapes[l.Marker]},
	}
	if l.Bold {
		k.Width = 2.6
	}
	if d := l.Dash.next(i); d == NoLine {
		k.Width = 0
	} else {
		k.Dashes = patterns[d]
	}
	return k
}

func (m Mark) look() look {
	d := m.Dash
	if d == AutoDash {
		d = ShortDash
	}
	return look{LineStyle: draw.LineStyle{Color: palette[m.Color], Width: 1, Dashes: patterns[d]}}
}
