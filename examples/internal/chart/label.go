package chart

import (
	"fmt"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/examples/internal/picture"
)

// leader ties a label to what it names.
var leader = draw.LineStyle{Color: faint, Width: 0.7}

// end is a label in the column at the right edge.
type end struct {
	lines  []string
	at     func() vg.Point      // what it names, once the plot has its place
	sample func(x, y vg.Length) // draws its sample from x on at height y
}

// ends collects the labels at the right edge, and the width they need.
func (p *page) ends() ([]end, vg.Length) {
	var ends []end
	var width vg.Length
	add := func(label string, at func() vg.Point, sampled func(x, y vg.Length)) {
		if label == "" {
			return
		}
		lines := picture.Wrap(p.small, label, columnMost, 3)
		width = max(width, elbow+sample+5+picture.Widest(p.small, lines))
		ends = append(ends, end{lines, at, sampled})
	}
	for i, l := range p.fig.Lines {
		add(l.Label, func() vg.Point { return p.last(l.X, l.Y) }, func(x, y vg.Length) { p.sample(l.look(i), x, y) })
	}
	for _, m := range p.fig.Marks {
		if m.On == OnY {
			add(m.Label, func() vg.Point { return p.last([]float64{p.x.hi}, []float64{m.At}) },
				func(x, y vg.Length) { p.sample(m.look(), x, y) })
		}
	}
	if s := p.fig.Stack; s != nil {
		edges, last := s.edges(), len(s.X)-1
		for i, l := range s.Layers {
			middle := (edges[i][last] + edges[i+1][last]) / 2
			add(l.Label, func() vg.Point { return p.last(s.X[last:], []float64{middle}) },
				func(x, y vg.Length) { p.FillPolygon(l.Color.next(i).tint(layerOpacity), swatch(x, y)) })
		}
	}
	return ends, width
}

// last is where a line leaves the plot or ends, or the nearest place within.
func (p *page) last(x, y []float64) vg.Point {
	pts := p.points(x, y)
	pt := pts[len(pts)-1]
	if parts := p.plot.ClipLinesXY(pts); len(parts) > 0 {
		part := parts[len(parts)-1]
		pt = part[len(part)-1]
	}
	return vg.Point{X: max(p.x.from, min(pt.X, p.x.to)), Y: max(p.y.from, min(pt.Y, p.y.to))}
}

func (p *page) writeEnds(ends []end) error {
	from := make([]vg.Point, len(ends))
	want, size := make([]vg.Length, len(ends)), make([]vg.Length, len(ends))
	for i, e := range ends {
		from[i] = e.at()
		want[i], size[i] = from[i].Y, picture.Height(p.small, e.lines)+4
	}
	y, ok := picture.Separate(want, size, p.y.from-20, p.y.to+8)
	if !ok {
		return fmt.Errorf("%d labels do not fit at the right edge: give some of them as Name", len(ends))
	}
	for i, e := range ends {
		p.StrokeLine2(leader, from[i].X+2, from[i].Y, p.x.to+elbow-2, y[i])
		e.sample(p.x.to+elbow, y[i])
		p.write(p.small, ink, e.lines, p.x.to+elbow+sample+5, y[i]+picture.Height(p.small, e.lines)/2, 0)
	}
	return nil
}

// top is a label above the plot.
type top struct {
	lines []string
	at    float64
}

const rise vg.Length = 12 // height between a label above the plot and the plot

// tops collects the labels above the plot, and the height they need.
func (p *page) tops() ([]top, vg.Length) {
	var tops []top
	var strip vg.Length
	for _, m := range p.fig.Marks {
		if m.On != OnX || m.Label == "" || m.At < p.x.lo || m.At > p.x.hi {
			continue
		}
		t := top{picture.Wrap(p.small, m.Label, markMost, 3), m.At}
		tops = append(tops, t)
		strip = max(strip, picture.Height(p.small, t.lines)+rise)
	}
	return tops, strip
}

func (p *page) writeTops(tops []top) error {
	want, size := make([]vg.Length, len(tops)), make([]vg.Length, len(tops))
	for i, t := range tops {
		want[i], size[i] = p.x.at(t.at), picture.Widest(p.small, t.lines)+12
	}
	x, ok := picture.Separate(want, size, margin, pageWidth-margin)
	if !ok {
		return fmt.Errorf("%d labels do not fit above the plot", len(tops))
	}
	for i, t := range tops {
		p.StrokeLine2(leader, want[i], p.y.to, x[i], p.y.to+rise-4)
		p.write(p.small, ink, t.lines, x[i], p.y.to+rise+picture.Height(p.small, t.lines)-2, 0.5)
	}
	return nil
}
