package chart

import (
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"example.org/forkcurve/examples/internal/picture"
)

// write sets lines with their block's top at y. Align 0 has x at their left, 0.5 at their middle, 1 at their right.
func (p *page) write(f font.Face, c color.Color, lines []string, x, y, align vg.Length) {
	p.SetColor(c)
	for i, l := range lines {
		baseline := y - f.Font.Size*(picture.Leading*vg.Length(i)+0.95)
		p.FillString(f, vg.Point{X: x - align*f.Width(l), Y: baseline}, l)
	}
}
