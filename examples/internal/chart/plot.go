package chart

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/examples/internal/picture"
)

// points are data on the paper.
func (p *page) points(x, y []float64) []vg.Point {
	pts := make([]vg.Point, len(x))
	for i := range x {
		pts[i] = vg.Point{X: p.x.at(x[i]), Y: p.y.at(y[i])}
	}
	return pts
}

// between is the polygon from one line to another over the same x.
func (p *page) between(x, low, high []float64) []vg.Point {
	back := p.points(x, high)
	slices.Reverse(back)
	return p.plot.ClipPolygonXY(append(p.points(x, low), back...))
}

func (p *page) regions() {
	for _, r := range p.fig.Regions {
		x, y := []float64{p.x.lo, p.x.hi}, [2]float64{p.y.lo, p.y.hi}
		if r.On == OnX {
			x = []float64{r.From, r.To}
		} else {
			y = [2]float64{r.From, r.To}
		}
		p.FillPolygon(shade, p.between(x, []float64{y[0], y[0]}, []float64{y[1], y[1]}))
	}
}

func (p *page) bands() {
	for _, b := range p.fig.Bands {
		p.FillPolygon(b.Color.tint(bandOpacity), p.between(b.X, b.Low, b.High))
	}
}

func (p *page) stack() {
	if p.fig.Stack == nil {
		return
	}
	edges := p.fig.Stack.edges()
	for i, l := range p.fig.Stack.Layers {
		p.FillPolygon(l.Color.next(i).tint(layerOpacity), p.between(p.fig.Stack.X, edges[i], edges[i+1]))
	}
	for _, e := range edges[1:] { // a white seam keeps neighbors apart
		p.plot.StrokeLines(draw.LineStyle{Color: color.White, Width: 1},
			p.plot.ClipLinesXY(p.points(p.fig.Stack.X, e))...)
	}
}

func (p *page) marks() {
	for _, m := range p.fig.Marks {
		x, y := []float64{m.At, m.At}, []float64{p.y.lo, p.y.hi}
		if m.On == OnY {
			x, y = []float64{p.x.lo, p.x.hi}, []float64{m.At, m.At}
		}
		p.plot.StrokeLines(m.look().LineStyle, p.plot.ClipLinesXY(p.points(x, y))...)
	}
}

func (p *page) line(l Line, k look) {
	pts := p.points(l.X, l.Y)
	if k.Width == 0 {
		for _, pt := range pts {
			p.plot.DrawGlyph(k.GlyphStyle, pt)
		}
		return
	}
	for _, part := range p.plot.ClipLinesXY(pts) {
		p.plot.StrokeLines(k.LineStyle, part)
		if k.Shape != nil {
			for _, pt := range along(part, 90) {
				p.plot.DrawGlyph(k.GlyphStyle, pt)
			}
		}
	}
}

// along are points on a line, every so far and first after half of that, none near its end, where a label's sample
// may follow.
func along(line []vg.Point, every vg.Length) []vg.Point {
	var found []vg.Point
	next := every / 2
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := dist(a, b)
		for ; next < length; next += every {
			found = append(found, vg.Point{X: a.X + (b.X-a.X)*next/length, Y: a.Y + (b.Y-a.Y)*next/length})
		}
		next -= length
	}
	if n := len(found); n > 0 && dist(found[n-1], line[len(line)-1]) < sample {
		found = found[:n-1]
	}
	return found
}

func dist(a, b vg.Point) vg.Length { return vg.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))) }

func (p *page) grid() {
	style := draw.LineStyle{Color: grid, Width: 0.6}
	for _, t := range p.x.ticks() {
		p.StrokeLine2(style, p.x.at(t.value), p.y.from, p.x.at(t.value), p.y.to)
	}
	for _, t := range p.y.ticks() {
		p.StrokeLine2(style, p.x.from, p.y.at(t.value), p.x.to, p.y.at(t.value))
	}
}

// axes are frame, ticks, numbers and labels.
func (p *page) axes() {
	const length = 4
	style := draw.LineStyle{Color: ink, Width: 0.8}
	p.StrokeLines(style, []vg.Point{{X: p.x.from, Y: p.y.to}, {X: p.x.from, Y: p.y.from}, {X: p.x.to, Y: p.y.from}})
	size := p.small.Font.Size
	for _, t := range p.x.ticks() {
		x := p.x.at(t.value)
		p.StrokeLine2(style, x, p.y.from, x, p.y.from-length)
		p.write(p.small, ink, []string{t.text}, x, p.y.from-length-2, 0.5)
	}
	for _, t := range p.y.ticks() {
		y := p.y.at(t.value)
		p.StrokeLine2(style, p.x.from, y, p.x.from-length, y)
		p.write(p.small, ink, []string{t.text}, p.x.from-length-3, y+size*0.6, 1)
	}
	label := picture.Wrap(p.body, p.fig.X.label(), p.x.to-p.x.from, 1)
	p.write(p.body, ink, label, (p.x.from+p.x.to)/2, p.y.from-length-2-size*1.4, 0.5)

	label = picture.Wrap(p.body, p.fig.Y.label(), p.y.to-p.y.from, 1)
	p.Push()
	p.Translate(vg.Point{X: margin, Y: (p.y.from + p.y.to) / 2})
	p.Rotate(math.Pi / 2)
	p.write(p.body, ink, label, 0, 0, 0.5)
	p.Pop()
}

// label is the axis's, as "Travel (mm)".
func (a Axis) label() string {
	if a.Unit == "" {
		return a.Label
	}
	return a.Label + " (" + a.Unit + ")"
}
