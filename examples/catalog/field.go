package main

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/picture"
	"example.org/forkcurve/internal/typeset"
)

// field is one field over all forks: a row for each, by class or use, with its spread, and
// the evidence behind it.
type field struct {
	key, unit string
	rows      []fieldRow
}

// fieldRow is the value of one record.
type fieldRow struct {
	group, label    string
	value, low, top float64
	kind            fieldKind
}

type fieldKind int

const (
	ofFork     fieldKind = iota
	ofClass              // 5th to 95th percentile
	ofSpecimen           // measured or published
)

// field collects the values of a key, as chassis.rake, or of a leg, as air.volume.
func (c *catalog) field(key string, filters []data.Filter) (*field, error) {
	f := &field{key: key}
	known := map[string]bool{}
	add := func(kind fieldKind, group string, r data.Fork, values []data.Entry) {
		for _, e := range values {
			name := strings.TrimPrefix(strings.TrimPrefix(e.Key, "left."), "right.")
			if value, unit, ok := amount(e.Text); ok && e.Source != "" {
				if known[name] = true; name == key || e.Key == key {
					row := fieldRow{group: group, label: r.ID + "  " + r.Name, value: value, kind: kind, low: value, top: value}
					if sd, _, ok := amount(e.SD); ok {
						row.low, row.top = value-sd, value+sd
					}
					if kind == ofClass && e.Means == data.BetweenForks {
						row.low, _, _ = amount(e.Low)
						row.top, _, _ = amount(e.High)
					}
					f.unit, f.rows = unit, append(f.rows, row)
					return
				}
			}
		}
	}
	for r := range c.Forks(filters...) {
		add(ofFork, cmp.Or(r.Class, r.Use), r, r.Values())
	}
	if len(f.rows) > 0 {
		for r := range c.Classes() {
			if slices.ContainsFunc(f.rows, func(row fieldRow) bool { return row.group == r.ID }) {
				add(ofClass, r.ID, r, r.Evidence())
			}
		}
		for r := range c.Specimens() {
			add(ofSpecimen, "specimens", r, r.Evidence())
		}
		slices.SortStableFunc(f.rows, func(a, b fieldRow) int {
			return cmp.Or(cmp.Compare(a.kind/ofSpecimen, b.kind/ofSpecimen), cmp.Compare(a.group, b.group),
				cmp.Compare(b.kind, a.kind))
		})
		return f, nil
	}
	names := make([]string, 0, len(known))
	for name := range known {
		names = append(names, name)
	}
	slices.Sort(names)
	return nil, fmt.Errorf("-field: no fork has %q; there is %s", key, strings.Join(names, ", "))
}

// amount is the number and the unit of a value.
func amount(text string) (float64, string, bool) {
	number, unit, _ := strings.Cut(strings.Trim(text, `"`), " ")
	x, err := strconv.ParseFloat(number, 64)
	return x, unit, err == nil
}

const fieldCaption = "Dot and bar: value of a typical fork with one standard uncertainty. Gray band: 5th to 95th " +
	"percentile of its class, in open data or published sets, line in it: the median. Triangle: a measured or published " +
	"vehicle. Forks without a class stand by their use."

const (
	fieldRowHeight vg.Length = 11
	fieldLeft      vg.Length = 330 // of the axis
)

func (f *field) height() vg.Length {
	groups := 0
	for i, r := range f.rows {
		if i == 0 || r.group != f.rows[i-1].group {
			groups++
		}
	}
	return 110 + fieldRowHeight*vg.Length(len(f.rows)+groups) + 0.4*fieldRowHeight*vg.Length(groups)
}

// SVG is the picture as such a file.
func (f *field) SVG() ([]byte, error) { return picture.SVG(pageWidth, f.height(), f.draw) }

// PNG is the picture as such a file.
func (f *field) PNG() ([]byte, error) { return picture.PNG(pageWidth, f.height(), f.draw) }

func (f *field) draw(canvas vg.CanvasSizer) error {
	s := &sheet{Canvas: draw.New(canvas), title: picture.Face(15, true), head: picture.Face(9.5, true),
		body: picture.Face(9.5, false), small: picture.Face(8.5, false)}
	s.FillPolygon(paper, box(0, pageWidth, 0, f.height()))
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range f.rows {
		lo, hi = min(lo, r.low), max(hi, r.top)
	}
	step := niceStep((hi - lo) / 7)
	lo, hi = step*math.Floor(lo/step-0.2), step*math.Ceil(hi/step+0.2)
	x := func(v float64) vg.Length {
		return fieldLeft + vg.Length((v-lo)/(hi-lo))*(pageWidth-margin-10-fieldLeft)
	}
	y := f.height() - margin
	title := fmt.Sprintf("%s of %d records, %s", f.key, len(f.rows), cmp.Or(f.unit, "a number"))
	s.write(s.title, ink, title, margin, y-14, 0)
	for i, line := range picture.Wrap(s.body, fieldCaption, pageWidth-2*margin, 0) {
		s.write(s.body, faint, line, margin, y-30-12*vg.Length(i), 0)
	}
	y -= 58
	bottom := vg.Length(26)
	for v := lo; v <= hi+step/2; v += step {
		s.stroke(draw.LineStyle{Color: color.Gray{0xDA}, Width: 0.5}, x(v), bottom, x(v), y)
		text := strconv.FormatFloat(math.Round(v/step)*step, 'g', 6, 64)
		s.write(s.small, ink, text, x(v), bottom-11, 0.5)
	}
	for i, r := range f.rows {
		if i == 0 || r.group != f.rows[i-1].group {
			y -= 1.4 * fieldRowHeight
			s.write(s.head, ink, r.group, margin, y+3, 0)
			n := len(f.rows[i:])
			if end := slices.IndexFunc(f.rows[i:], func(o fieldRow) bool { return o.group != r.group }); end >= 0 {
				n = end
			}
			if r.kind == ofClass {
				s.FillPolygon(color.Gray{0xE2}, box(x(r.low), x(r.top), y-fieldRowHeight*vg.Length(n), y))
				s.stroke(draw.LineStyle{Color: ink, Width: 0.7}, x(r.value), y-fieldRowHeight*vg.Length(n), x(r.value), y)
			}
		}
		y -= fieldRowHeight
		mid := vg.Point{X: x(r.value), Y: y + 4}
		label := r.label
		if r.kind == ofClass {
			label = "class: " + strings.TrimSpace(strings.TrimPrefix(label, r.group))
		}
		for typeset.Count(label) > 4 && s.small.Width(label) > fieldLeft-margin-20 {
			label = typeset.Plain(label, typeset.Count(label)-1)
		}
		s.write(s.small, ink, label, margin+10, y+1, 0)
		switch r.kind {
		case ofFork:
			s.stroke(draw.LineStyle{Color: faint, Width: 1}, x(r.low), mid.Y, x(r.top), mid.Y)
			s.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 2.4, Shape: draw.CircleGlyph{}}, mid)
		case ofSpecimen:
			s.stroke(draw.LineStyle{Color: faint, Width: 1}, x(r.low), mid.Y, x(r.top), mid.Y)
			s.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 3, Shape: draw.PyramidGlyph{}}, mid)
		}
	}
	return nil
}

// niceStep is 1, 2 or 5 times a power of ten near x.
func niceStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*power {
			return m * power
		}
	}
	return 10 * power
}
