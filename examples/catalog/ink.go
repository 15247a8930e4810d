package main

import (
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var (
	paper      color.Color = color.Gray{0xFF}
	ink        color.Color = color.Gray{0x1A}
	faint      color.Color = color.Gray{0x50}
	steel      color.Color = color.Gray{0xF2}
	behind     color.Color = color.Gray{0xC4}
	behindEdge color.Color = color.Gray{0x84}

	hair = draw.LineStyle{Color: faint, Width: 0.5}
	tie  = draw.LineStyle{Color: faint, Width: 0.5}
	edge = draw.LineStyle{Color: ink, Width: 0.6}
)

// fillNames are the words of the legend; what needs none has labels of its own.
var fillNames = [...]string{
	trappedGas:    "gas over the oil or in the lower leg",
	oilFill:       "oil",
	positiveAir:   "positive air chamber",
	negativeAir:   "negative air chamber",
	secondAir:     "air behind the floating piston",
	vacant:        "",
	outerTube:     "outer tube or slider",
	stanchionTube: "stanchion",
	thinTube:      "cylinder, cartridge, spacer",
	solidPart:     "cap, foot, piston, seal head, seat",
	rodPart:       "rod",
}

// Fills are told apart by lightness and by pattern, not by hue alone.
var fillColors = [...]color.Color{
	trappedGas:    color.NRGBA{0xFB, 0xF9, 0xEC, 0xFF},
	oilFill:       color.NRGBA{0xD9, 0xB9, 0x6A, 0xFF},
	positiveAir:   color.NRGBA{0xD3, 0xEA, 0xF7, 0xFF},
	negativeAir:   color.NRGBA{0xF6, 0xDC, 0xC4, 0xFF},
	secondAir:     color.NRGBA{0xBF, 0xCB, 0xE6, 0xFF},
	vacant:        color.Gray{0xFF},
	outerTube:     color.Gray{0xA4},
	stanchionTube: color.Gray{0x3C},
	thinTube:      color.Gray{0x78},
	solidPart:     color.Gray{0xCE},
	rodPart:       color.Gray{0xEC},
}

func box(x0, x1, y0, y1 vg.Length) []vg.Point {
	return []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// fill paints a rectangle in the manner of its part.
func (s *sheet) fill(k fill, x0, x1, y0, y1 vg.Length) {
	s.FillPolygon(fillColors[k], box(x0, x1, y0, y1))
	switch k {
	case trappedGas:
		s.dots(x0, x1, y0, y1, 7, 0.45)
	case positiveAir:
		s.dots(x0, x1, y0, y1, 4.2, 0.6)
	case oilFill:
		s.dashes(x0, x1, y0, y1)
	case negativeAir:
		s.hatch(x0, x1, y0, y1, 1)
	case secondAir:
		s.hatch(x0, x1, y0, y1, 1)
		s.hatch(x0, x1, y0, y1, -1)
	}
	if k > oilFill {
		s.outline(x0, x1, y0, y1)
	}
}

var grain = draw.LineStyle{Color: color.Gray{0x55}, Width: 0.45}

// dots are rows of dots, every other one shifted.
func (s *sheet) dots(x0, x1, y0, y1, step, r vg.Length) {
	var p vg.Path
	for row, y := 0, y1-step/2; y > y0+r; row, y = row+1, y-step*0.8 {
		for x := x0 + step/2*vg.Length(1+row%2); x < x1-r; x += step {
			p.Move(vg.Point{X: x - r, Y: y})
			p.Line(vg.Point{X: x + r, Y: y})
		}
	}
	s.SetLineStyle(draw.LineStyle{Color: color.Gray{0x48}, Width: 2 * r})
	s.Stroke(p)
}

// dashes are the broken lines of a liquid.
func (s *sheet) dashes(x0, x1, y0, y1 vg.Length) {
	var p vg.Path
	for row, y := 0, y1-1.5; y > y0+0.5; row, y = row+1, y-4.5 {
		for x := x0 + 1 - vg.Length(row%2)*4; x < x1-1; x += 8 {
			p.Move(vg.Point{X: max(x, x0), Y: y})
			p.Line(vg.Point{X: max(x0, min(x+5, x1)), Y: y})
		}
	}
	s.SetLineStyle(grain)
	s.Stroke(p)
	s.stroke(edge, x0, y1, x1, y1)
}

// hatch are slanted lines, up to the right with slant 1 and down with −1.
func (s *sheet) hatch(x0, x1, y0, y1, slant vg.Length) {
	var p vg.Path
	const step = 5
	wide, high := x1-x0, y1-y0
	for at := -high; at < wide; at += step { // where the line meets the bottom
		from, to := max(0, at), min(wide, at+high)
		if to <= from {
			continue
		}
		a, b := vg.Point{X: x0 + from, Y: y0 + from - at}, vg.Point{X: x0 + to, Y: y0 + to - at}
		if slant < 0 {
			a.X, b.X = x0+x1-a.X, x0+x1-b.X
		}
		p.Move(a)
		p.Line(b)
	}
	s.SetLineStyle(grain)
	s.Stroke(p)
}

func (s *sheet) outline(x0, x1, y0, y1 vg.Length) {
	p := box(x0, x1, y0, y1)
	s.StrokeLines(edge, append(p, p[0]))
}

func (s *sheet) stroke(l draw.LineStyle, x0, y0, x1, y1 vg.Length) {
	s.StrokeLine2(l, x0, y0, x1, y1)
}

// strand is a piece of wire with round ends.
func (s *sheet) strand(a, b vg.Point, c color.Color, w vg.Length) {
	s.stroke(draw.LineStyle{Color: c, Width: w}, a.X, a.Y, b.X, b.Y)
	for _, p := range []vg.Point{a, b} {
		s.DrawGlyphNoClip(draw.GlyphStyle{Color: c, Radius: w / 2, Shape: draw.CircleGlyph{}}, p)
	}
}

// write sets a text with its baseline at y. Align 0 has x at its left, 1 at its right.
func (s *sheet) write(f font.Face, c color.Color, text string, x, y, align vg.Length) {
	s.SetColor(c)
	s.FillString(f, vg.Point{X: x - align*f.Width(text), Y: y}, text)
}
