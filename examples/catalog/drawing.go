package main

import (
	"example.org/forkcurve/examples/internal/picture"
	"example.org/forkcurve/spring/setup"
)

// drawing is a fork extended and compressed, side by side.
type drawing struct {
	m     *model
	frame *frame
	legs  [2][2]*leg // by state, then by side
}

func newDrawing(m *model) *drawing {
	d := &drawing{m: m, frame: newFrame(m)}
	for state, x := range []float64{0, d.frame.travel} {
		for side := range 2 {
			d.legs[state][side] = d.frame.drawLeg(m, setup.Side(side), x)
		}
	}
	return d
}

// SVG is the drawing as such a file.
func (d *drawing) SVG() ([]byte, error) {
	s := d.layout()
	return picture.SVG(pageWidth, s.height, s.draw)
}

// PNG is the drawing as such a file, 1200 pixels wide.
func (d *drawing) PNG() ([]byte, error) {
	s := d.layout()
	return picture.PNG(pageWidth, s.height, s.draw)
}
