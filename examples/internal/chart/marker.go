package chart

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Marker is the shape of points.
type Marker int

const (
	NoMarker Marker = iota
	Disk
	Square
	Triangle
	OpenDisk
	OpenSquare
	OpenTriangle
	Plus
	Cross
)

var shapes = [...]draw.GlyphDrawer{
	NoMarker:     nil,
	Disk:         polygon{corners: 24},
	Square:       polygon{corners: 4},
	Triangle:     polygon{corners: 3},
	OpenDisk:     polygon{corners: 24, open: true},
	OpenSquare:   polygon{corners: 4, open: true},
	OpenTriangle: polygon{corners: 3, open: true},
	Plus:         star{0},
	Cross:        star{math.Pi / 4},
}

// polygon is regular, on a flat base.
type polygon struct {
	corners int
	open    bool // white inside
}

// DrawGlyph implements [draw.GlyphDrawer].
func (g polygon) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	radius := style.Radius * (1 + vg.Length(1/float64(g.corners))) // fewer corners fill less
	corners := make([]vg.Point, g.corners+1)
	for i := range corners {
		corners[i] = around(at, radius, math.Pi*(float64(2*i+1)/float64(g.corners)-0.5))
	}
	if g.open {
		c.FillPolygon(color.White, corners)
		c.StrokeLines(stroke(style), append(corners, corners[1])) // beyond the first corner closes it without a notch
	} else {
		c.FillPolygon(style.Color, corners)
	}
}

// star is two strokes that cross.
type star struct{ turn float64 }

// DrawGlyph implements [draw.GlyphDrawer].
func (g star) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	for _, angle := range []float64{g.turn, g.turn + math.Pi/2} {
		c.StrokeLines(stroke(style), []vg.Point{around(at, style.Radius, angle), around(at, -style.Radius, angle)})
	}
}

func around(at vg.Point, radius vg.Length, angle float64) vg.Point {
	sin, cos := math.Sincos(angle)
	return vg.Point{X: at.X + radius*vg.Length(cos), Y: at.Y + radius*vg.Length(sin)}
}

func stroke(style draw.GlyphStyle) draw.LineStyle {
	return draw.LineStyle{Color: style.Color, Width: 1.3}
}
