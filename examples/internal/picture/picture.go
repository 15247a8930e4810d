// Package picture makes files of what is drawn on a canvas of gonum's plot, and has the font for it. It is safe for
// concurrent use.
package picture

import (
	"bytes"
	"sync"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// SVG is the file of what a function draws on a canvas of width and height.
func SVG(width, height vg.Length, draw func(vg.CanvasSizer) error) ([]byte, error) {
	c := vgsvg.New(width, height)
	if err := draw(c); err != nil {
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

// PNG is the same at 96 dots per inch.
func PNG(width, height vg.Length, draw func(vg.CanvasSizer) error) ([]byte, error) {
	c := vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(96))
	if err := draw(c); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(&b)
	return b.Bytes(), err
}

// fonts are parsed with the first picture, not by programs that draw none.
var fonts = sync.OnceValue(func() *font.Cache { return font.NewCache(liberation.Collection()) })

// Face is the sans serif all pictures are lettered in.
func Face(size vg.Length, bold bool) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	if bold {
		f.Weight = 3 // that of a bold face on gonum's scale, −3 to 5
	}
	return fonts().Lookup(f, size)
}
