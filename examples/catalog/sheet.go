package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/examples/internal/picture"
)

// Sizes in points; 96 dots per inch make 1200 pixels of the width.
const (
	pageWidth  vg.Length = 900
	margin     vg.Length = 16
	lanes      vg.Length = 44 // left of a leg, for its dimensions
	gutter     vg.Length = 12 // between a leg and its labels
	mostHeight vg.Length = 640
	mostScale  vg.Length = 1.35 // points a millimeter
)

// sheet is a drawing being laid out.
type sheet struct {
	*drawing
	draw.Canvas
	scale                    vg.Length // points a millimeter
	height                   vg.Length
	top                      vg.Length // of the legs on the page
	title, head, body, small font.Face
	caption                  []string
}

func (d *drawing) layout() *sheet {
	s := &sheet{drawing: d, title: picture.Face(15, true), head: picture.Face(11, true),
		body: picture.Face(9.5, false), small: picture.Face(8.5, false)}
	s.scale = min(mostHeight/vg.Length(d.frame.length), mostScale)
	s.caption = picture.Wrap(s.small, strings.ReplaceAll(caption, "\n", " "), pageWidth-2*margin, 0)
	below := 24 + 2*16 + 26 + vg.Length(len(s.caption))*s.small.Font.Size*picture.Leading + margin
	above := margin + 20 + 16 + 34
	s.height = above + s.scale*vg.Length(d.frame.length) + below
	s.top = s.height - above
	return s
}

const caption = `Drawn to scale, across and along alike: bores, diameters of stanchion, piston, rod, wire and spring,
travel, length and room of the spring (coil room: seat to seat for a coil build, its place schematic), lengths of air
chambers (volume over section) and the height of the gas over the oil or under the stanchion (its volume in the room the
drawn parts leave). Schematic: walls of outer tube and cylinder, lengths of tubes and overlap, caps, seals, pistons,
seats, damper, how far the oil reaches down, and a balance coil. Pressures are gauge readings at rest, at sea level and
15 °C, set up as typical. Values are typical of a kind of fork; no fork was measured.`

// draw puts the sheet on a canvas.
func (s *sheet) draw(c vg.CanvasSizer) error {
	s.Canvas = draw.New(c)
	s.FillPolygon(paper, box(0, pageWidth, 0, s.height))
	y := s.height - margin
	s.write(s.title, ink, s.m.ID+": "+s.m.Name, margin, y-14, 0)
	s.write(s.body, faint, fmt.Sprintf("%s fork, travel %v; section through the legs, each as the rider sees it",
		s.m.Layout, s.m.Travel.Value), margin, y-30, 0)

	same := s.m.Left == s.m.Right
	half := (pageWidth - 2*margin) / 2
	split := half / 2
	if same { // the second leg has no labels
		split = half - lanes - 2*s.scale*vg.Length(s.frame.outside()+2) - 66
	}
	reach := vg.Length(s.frame.outside()+2) * s.scale
	for state, x := range []float64{0, s.frame.travel} {
		from := margin + vg.Length(state)*half
		heading := "FULLY EXTENDED"
		if state == 1 {
			heading = fmt.Sprintf("FULLY COMPRESSED, by %v", s.m.Travel.Value)
		}
		s.write(s.head, ink, heading, from, s.top+24, 0)
		for side := range 2 {
			left := from + vg.Length(side)*split
			right := from + split
			if side == 1 {
				right = from + half - 14
			}
			axis := left + lanes + reach
			name := [2]string{"left leg: ", "right leg: "}[side] + strings.ReplaceAll(string(s.m.legs()[side].Role),
				"+", " and ")
			if same && side == 1 {
				name = "right leg: the same"
			}
			s.write(s.body, ink, name, axis-reach, s.top+9, 0)
			s.leg(s.legs[state][side], axis, x)
			if same && side == 1 {
				continue
			}
			s.extents(s.legs[state][side], axis, reach)
			if err := s.notes(s.legs[state][side], axis, axis+reach+gutter, right); err != nil {
				return err
			}
		}
	}
	s.stroke(hair, margin+half-7, s.top+34, margin+half-7, s.top-s.scale*vg.Length(s.frame.length)-4)
	s.travel(margin+half, margin+half+split, reach)
	s.foot()
	return nil
}

// at is the height of a depth on the page.
func (s *sheet) at(z float64) vg.Length { return s.top - s.scale*vg.Length(z) }

// leg draws the parts of a leg.
func (s *sheet) leg(d *leg, axis vg.Length, x float64) {
	for _, p := range d.parts {
		if p.bottom-p.top < 0.05 || p.outer-p.inner < 0.05 {
			continue
		}
		y0, y1 := s.at(p.bottom), s.at(p.top)
		in, out := s.scale*vg.Length(p.inner), s.scale*vg.Length(p.outer)
		if p.inner == 0 {
			s.fill(p.fill, axis-out, axis+out, y0, y1)
			continue
		}
		s.fill(p.fill, axis-out, axis-in, y0, y1)
		s.fill(p.fill, axis+in, axis+out, y0, y1)
	}
	for _, c := range d.coils {
		s.coil(c, axis)
	}
	axle := s.at(s.frame.length - x - footLength/2)
	s.stroke(draw.LineStyle{Color: ink, Width: 0.6, Dashes: []vg.Length{9, 2, 2, 2}}, axis, s.at(-4), axis,
		s.at(s.frame.length-x+4))
	s.stroke(hair, axis-6, axle, axis+6, axle)
}

// coil draws a spring in side view: the strands behind, then those in front.
func (s *sheet) coil(c coil, axis vg.Length) {
	heights := c.turns()
	r, w := s.scale*vg.Length(c.mean/2), s.scale*vg.Length(c.wire)
	strand := func(i int) (from, to vg.Point) {
		sign := vg.Length(1 - 2*(i%2))
		return vg.Point{X: axis - sign*r, Y: s.at(heights[i])}, vg.Point{X: axis + sign*r, Y: s.at(heights[i+1])}
	}
	for _, front := range []bool{false, true} {
		for i := range len(heights) - 1 {
			if (i%2 == 0) != front {
				continue
			}
			a, b := strand(i)
			outline, body := ink, steel
			if !front {
				outline, body = behindEdge, behind
			}
			s.strand(a, b, outline, w)
			if w > 2.2 {
				s.strand(a, b, body, w-1.3)
			}
		}
	}
}

// turns is the depth of the wire's middle at each half turn, coils rounded to halves.
func (c coil) turns() []float64 {
	total := c.active + 2*c.dead
	pitch := (c.bottom - c.top - c.wire - 2*c.dead*c.wire) / c.active
	at := func(turn float64) float64 {
		first, last := min(turn, c.dead), max(0, turn-c.dead-c.active)
		return c.top + c.wire/2 + (first+last)*c.wire + (turn-first-last)*pitch
	}
	halves := int(math.Round(2 * total))
	depths := make([]float64, halves+1)
	for i := range depths {
		depths[i] = at(total * float64(i) / float64(halves))
	}
	return depths
}

// extents draws the dimensions left of a leg.
func (s *sheet) extents(d *leg, axis, reach vg.Length) {
	extents := slices.Clone(d.extents) // the outer lane first: words of the inner one may lie on it
	slices.SortStableFunc(extents, func(a, b extent) int { return b.lane - a.lane })
	for _, e := range extents {
		x := axis - reach - 9 - 17*vg.Length(e.lane)
		y0, y1 := s.at(e.bottom), s.at(e.top)
		line := hair
		if e.loose {
			line.Dashes = []vg.Length{3, 2}
		}
		s.stroke(hair, x-3, y0, axis-reach+2, y0)
		s.stroke(hair, x-3, y1, axis-reach+2, y1)
		s.arrow(line, x, y0, y1)
		wide := s.small.Width(e.text)
		if wide+4 < y1-y0 {
			s.Push()
			s.Translate(vg.Point{X: x + 3, Y: (y0 + y1 - wide) / 2})
			s.Rotate(1.5707963267948966)
			s.FillPolygon(paper, box(-2, wide+2, -2, 8))
			s.write(s.small, ink, e.text, 0, 0, 0)
			s.Pop()
			continue
		}
		y := (y0+y1)/2 - 3
		s.FillPolygon(paper, box(x-6-wide, x-4, y-1, y+7))
		s.write(s.small, ink, e.text, x-5, y, 1)
	}
}

// arrow is a dimension line with a head at each end.
func (s *sheet) arrow(line draw.LineStyle, x, y0, y1 vg.Length) {
	s.stroke(line, x, y0, x, y1)
	n := min(5, (y1-y0)/3)
	s.FillPolygon(ink, []vg.Point{{X: x, Y: y0}, {X: x - 1.8, Y: y0 + n}, {X: x + 1.8, Y: y0 + n}})
	s.FillPolygon(ink, []vg.Point{{X: x, Y: y1}, {X: x - 1.8, Y: y1 - n}, {X: x + 1.8, Y: y1 - n}})
}

// notes writes the labels of a leg from x to right, each tied to what it names.
func (s *sheet) notes(d *leg, axis, x, right vg.Length) error {
	rise := s.small.Font.Size * picture.Leading
	lines := make([][]string, len(d.notes))
	want, size := make([]vg.Length, len(d.notes)), make([]vg.Length, len(d.notes))
	for i, n := range d.notes {
		lines[i] = picture.Wrap(s.small, n.text, right-x, 0)
		want[i], size[i] = s.at(n.z), vg.Length(len(lines[i]))*rise+4
	}
	y, ok := picture.Separate(want, size, s.at(s.frame.length)-20, s.top+4)
	if !ok {
		return fmt.Errorf("%d labels do not fit beside a leg", len(d.notes))
	}
	for i, n := range d.notes {
		p := vg.Point{X: axis + s.scale*vg.Length(n.r), Y: want[i]}
		s.StrokeLines(tie, []vg.Point{p, {X: x - gutter + 4, Y: p.Y}, {X: x - 2, Y: y[i]}})
		s.DrawGlyphNoClip(draw.GlyphStyle{Color: paper, Radius: 2.1, Shape: draw.CircleGlyph{}}, p)
		s.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 1.4, Shape: draw.CircleGlyph{}}, p)
		for j, l := range lines[i] {
			s.write(s.small, ink, l, x, y[i]+size[i]/2-2-rise*(vg.Length(j)+0.8), 0)
		}
	}
	return nil
}

// travel dimensions how far the axle has come up.
func (s *sheet) travel(from, right, reach vg.Length) {
	extended, compressed := s.at(s.frame.length), s.at(s.frame.length-s.frame.travel)
	x := from + lanes + 2*reach + 26
	line := hair
	line.Dashes = []vg.Length{3, 2}
	s.stroke(line, from-2, extended, x+6, extended)
	s.stroke(hair, from+lanes+2*reach, compressed, x+6, compressed)
	s.arrow(hair, x, extended, compressed)
	s.write(s.body, ink, fmt.Sprintf("travel %v", s.m.Travel.Value), x+6, (extended+compressed)/2-3, 0)
}

// foot draws legend, scale bar and caption.
func (s *sheet) foot() {
	y := s.at(s.frame.length) - 34
	x := margin
	for _, k := range s.shown() {
		wide := 24 + s.small.Width(fillNames[k]) + 14
		if x+wide > pageWidth-margin {
			x, y = margin, y-16
		}
		s.fill(k, x, x+18, y-2, y+9)
		s.write(s.small, ink, fillNames[k], x+23, y, 0)
		x += wide
	}
	y -= 24
	bar := s.scale * 100
	for i := range 4 { // quarters of 100 mm
		f := paper
		if i%2 == 0 {
			f = ink
		}
		from := margin + bar*vg.Length(i)/4
		s.FillPolygon(f, box(from, from+bar/4, y, y+4))
		s.outline(from, from+bar/4, y, y+4)
	}
	s.write(s.small, ink, "0", margin, y+7, 0.5)
	s.write(s.small, ink, "100 mm", margin+bar, y+7, 0.5)
	y -= 12
	for _, l := range s.caption {
		s.write(s.small, faint, l, margin, y, 0)
		y -= s.small.Font.Size * picture.Leading
	}
}

// shown are the fills of this drawing that the legend names.
func (s *sheet) shown() []fill {
	var seen [len(fillNames)]bool
	for _, state := range s.legs {
		for _, d := range state {
			for _, p := range d.parts {
				seen[p.fill] = true
			}
		}
	}
	var list []fill
	for k, name := range fillNames {
		if seen[k] && name != "" {
			list = append(list, fill(k))
		}
	}
	return list
}
