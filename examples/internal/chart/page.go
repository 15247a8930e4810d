package chart

import (
	"fmt"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/examples/internal/picture"
)

// Sizes in points; 96 dots per inch make 900 × 600 pixels of the page.
const (
	pageWidth  vg.Length = 675
	pageHeight vg.Length = 450
	margin     vg.Length = 12
	sample     vg.Length = 30  // length of a line's sample
	elbow      vg.Length = 14  // between the plot and the sample of a label
	columnMost vg.Length = 150 // width of the labels at the right edge
	markMost   vg.Length = 150 // width of the labels above the plot
	leastPlot  vg.Length = 120 // width and height left for the plot
)

// page is a figure being drawn.
type page struct {
	draw.Canvas
	fig                *Figure
	title, body, small font.Face

	x, y scale
	plot draw.Canvas // the area within the axes
}

// draw checks the figure, lays it out from the outside in and draws it.
func (f *Figure) draw(c vg.CanvasSizer) error {
	if err := f.check(); err != nil {
		return err
	}
	p := &page{Canvas: draw.New(c), fig: f,
		title: picture.Face(15, true), body: picture.Face(12, false), small: picture.Face(11, false)}
	xs, ys := f.extent()
	p.x = newScale(f.X, xs[0], xs[1], false, 8)
	p.y = newScale(f.Y, ys[0], ys[1], true, 6)

	top := pageHeight - margin
	top = p.head(top)
	top = p.legend(top)
	ends, columnWidth := p.ends()
	tops, strip := p.tops()

	left := margin + p.body.Font.Size*1.7 + picture.Widest(p.small, texts(p.y.ticks())) + 8
	bottom := margin + p.body.Font.Size*1.5 + p.small.Font.Size*1.5 + 4
	right := pageWidth - margin - columnWidth
	if columnWidth == 0 {
		right -= p.small.Font.Size // for half the last tick's number
	}
	top -= max(strip, 6)
	if right-left < leastPlot || top-bottom < leastPlot {
		return fmt.Errorf("words leave %.0f × %.0f points for the plot: want %.0f × %.0f", right-left, top-bottom,
			leastPlot, leastPlot)
	}
	p.x.from, p.x.to, p.y.from, p.y.to = left, right, bottom, top
	p.plot = draw.Canvas{Canvas: p.Canvas.Canvas, Rectangle: vg.Rectangle{Min: vg.Point{X: left, Y: bottom},
		Max: vg.Point{X: right, Y: top}}}

	p.regions()
	p.stack()
	p.grid()
	p.bands()
	p.marks()
	for i, l := range f.Lines {
		p.line(l, l.look(i))
	}
	p.axes()
	if err := p.writeEnds(ends); err != nil {
		return err
	}
	return p.writeTops(tops)
}

// head writes title and note and returns what is left below.
func (p *page) head(top vg.Length) vg.Length {
	width := pageWidth - 2*margin
	title := picture.Wrap(p.title, p.fig.Title, width, 2)
	p.write(p.title, ink, title, margin, top, 0)
	top -= picture.Height(p.title, title)
	note := picture.Wrap(p.small, p.fig.Note, width, 4)
	p.write(p.small, faint, note, margin, top-1, 0)
	return top - picture.Height(p.small, note) - 5
}

// legend writes what has a name in rows and returns what is left below.
func (p *page) legend(top vg.Length) vg.Length {
	type entry struct {
		name string
		draw func(x, y vg.Length)
	}
	var entries []entry
	for i, l := range p.fig.Lines {
		entries = append(entries, entry{l.Name, func(x, y vg.Length) { p.sample(l.look(i), x, y) }})
	}
	for _, b := range p.fig.Bands {
		entries = append(entries, entry{b.Name, func(x, y vg.Length) {
			p.FillPolygon(b.Color.tint(bandOpacity),
				swatch(x, y))
		}})
	}
	for _, r := range p.fig.Regions {
		entries = append(entries, entry{r.Name, func(x, y vg.Length) { p.FillPolygon(shade, swatch(x, y)) }})
	}
	x, row := margin, p.small.Font.Size*1.5
	begun := false
	for _, e := range entries {
		if e.name == "" {
			continue
		}
		name := picture.Wrap(p.small, e.name, pageWidth-2*margin-sample-5, 1)
		width := sample + 5 + picture.Widest(p.small, name)
		if begun && x+width > pageWidth-margin {
			x, top = margin, top-row
		}
		begun = true
		e.draw(x, top-row/2)
		p.write(p.small, ink, name, x+sample+5, top-(row-picture.Height(p.small, name))/2, 0)
		x += width + 16
	}
	if begun {
		top -= row
	}
	return top
}

// sample is a piece of a line with its middle left at x, y.
func (p *page) sample(k look, x, y vg.Length) {
	if k.Width > 0 {
		p.StrokeLine2(k.LineStyle, x, y, x+sample, y)
	}
	if k.Shape != nil {
		p.DrawGlyphNoClip(k.GlyphStyle, vg.Point{X: x + sample/2, Y: y})
	}
}

func swatch(x, y vg.Length) []vg.Point {
	const half = 4.5
	return []vg.Point{{X: x, Y: y - half}, {X: x + sample, Y: y - half}, {X: x + sample, Y: y + half},
		{X: x, Y: y + half}}
}

func texts(ticks []tick) []string {
	t := make([]string, len(ticks))
	for i := range ticks {
		t[i] = ticks[i].text
	}
	return t
}
