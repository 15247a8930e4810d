package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

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

// writeDrawing draws a fork into dir, a file named after its id for each kind of file,
// and returns the paths.
func writeDrawing(m *model, dir string, kinds ...string) ([]string, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("drawing: %w", err)
	}
	d := newDrawing(m)
	var paths []string
	for _, kind := range kinds {
		draw := d.svg
		if kind == ".png" {
			draw = d.png
		}
		data, err := draw()
		path := filepath.Join(dir, m.ID+kind)
		if err != nil {
			return paths, fmt.Errorf("drawing %s: %w", path, err)
		}
		if err := os.WriteFile(path, data, 0o666); err != nil {
			return paths, fmt.Errorf("drawing: %w", err)
		}
		paths = append(paths, path)
	}
	return paths, nil
}

func (d *drawing) svg() ([]byte, error) {
	s := d.layout()
	c := vgsvg.New(pageWidth, s.height)
	if err := s.draw(c); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, err
	}
	// A viewer without the font takes one of the same widths.
	return bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")), nil
}

func (d *drawing) png() ([]byte, error) {
	s := d.layout()
	c := vgimg.NewWith(vgimg.UseWH(pageWidth, s.height), vgimg.UseDPI(96))
	if err := s.draw(c); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(&b)
	return b.Bytes(), err
}

// fonts are parsed with the first drawing, not by programs that draw none.
var fonts = sync.OnceValue(func() *font.Cache { return font.NewCache(liberation.Collection()) })

func face(size vg.Length, bold bool) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	if bold {
		f.Weight = 3 // that of a bold face on gonum's scale, −3 to 5
	}
	return fonts().Lookup(f, size)
}
