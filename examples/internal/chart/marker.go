package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Marker is the shape of points.
type Marker int

const (
	NoMarker Marker = iota
	Disk
	Square
	OpenDisk
	OpenSquare
	Plus
	Cross
)

const rim = 1.3 // width of what is no filling

var shapes = [...]draw.GlyphDrawer{
	NoMarker:   nil,
	Disk:       draw.CircleGlyph{},
	Square:     draw.BoxGlyph{},
	OpenDisk:   open{draw.CircleGlyph{}},
	OpenSquare: open{draw.BoxGlyph{}},
	Plus:       star{{1, 0}, {0, 1}},
	Cross:      star{{0.7, 0.7}, {0.7, -0.7}},
}

// open is a shape with a white middle, over what lies behind.
type open struct{ draw.GlyphDrawer }

// DrawGlyph implements [draw.GlyphDrawer].
func (g open) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	g.GlyphDrawer.DrawGlyph(c, style, at)
	style.Radius -= rim
	c.SetColor(color.White)
	g.GlyphDrawer.DrawGlyph(c, style, at)
}

// star is two strokes that cross, by their directions.
type star [2]struct{ x, y vg.Length }

// DrawGlyph implements [draw.GlyphDrawer].
func (g star) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	for _, d := range g {
		x, y := d.x*style.Radius, d.y*style.Radius
		c.StrokeLine2(draw.LineStyle{Color: style.Color, Width: rim}, at.X-x, at.Y-y, at.X+x, at.Y+y)
	}
}
