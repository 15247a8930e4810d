package main

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.org/forkcurve/examples/internal/picture"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

// front is the front end of the machine from the left, to scale, fork extended.
type front struct {
	*sheet
	m                                  *model
	rake, offset, lead, radius, length float64  // radians and millimeters
	zero                               vg.Point // where the tire meets the ground
}

const (
	frontWidth  vg.Length = 720
	frontHeight vg.Length = 560
)

func newFront(m *model) *front {
	c := m.Chassis
	f := &front{m: m, rake: float64(c.Rake.Value), offset: mm(c.Offset.Value), lead: mm(c.AxleLead.Value),
		radius: mm(c.WheelRadius.Value), length: mm(m.OverallLength.Value)}
	if !m.OverallLength.Given() {
		f.length = mm(m.AxleToCrown.Value)
	}
	return f
}

// SVG is the picture as such a file.
func (f *front) SVG() ([]byte, error) { return picture.SVG(frontWidth, frontHeight, f.draw) }

// PNG is the picture as such a file.
func (f *front) PNG() ([]byte, error) { return picture.PNG(frontWidth, frontHeight, f.draw) }

// point is on the page what lies along the steering axis and behind the axle, in
// millimeters from the axle.
func (f *front) point(along, behind float64) vg.Point {
	x := along*math.Sin(f.rake) + behind*math.Cos(f.rake)
	y := f.radius + along*math.Cos(f.rake) - behind*math.Sin(f.rake)
	return vg.Point{X: f.zero.X + f.scale*vg.Length(x), Y: f.zero.Y + f.scale*vg.Length(y)}
}

func (f *front) draw(canvas vg.CanvasSizer) error {
	f.sheet = &sheet{Canvas: draw.New(canvas), title: picture.Face(15, true), head: picture.Face(11, true),
		body: picture.Face(9.5, false), small: picture.Face(8.5, false)}
	f.FillPolygon(paper, box(0, frontWidth, 0, frontHeight))
	f.write(f.title, ink, f.m.ID+": front end", margin, frontHeight-margin-14, 0)
	f.write(f.body, faint, typeset.Plain(f.m.Name, 90)+"; from the left, to scale, fork extended",
		margin, frontHeight-margin-30, 0)
	top := f.radius + f.length*math.Cos(f.rake) + 60
	f.scale = min(vg.Length(430/top), vg.Length(360/(2*f.radius+60)))
	f.zero = vg.Point{X: margin + f.scale*vg.Length(f.radius+40), Y: 54}
	f.wheel()
	f.legs()
	f.axis()
	f.words()
	return nil
}

// wheel is the tire on the ground.
func (f *front) wheel() {
	center := f.point(0, 0)
	f.stroke(edge, margin, f.zero.Y, f.zero.X+f.scale*vg.Length(f.radius+140), f.zero.Y)
	for _, share := range []vg.Length{1, 0.8} {
		r := f.scale * vg.Length(f.radius) * share
		f.DrawGlyphNoClip(draw.GlyphStyle{Color: faint, Radius: r, Shape: draw.RingGlyph{}}, center)
	}
	f.stroke(hair, center.X-6, center.Y, center.X+6, center.Y)
	f.stroke(hair, center.X, center.Y-6, center.X, center.Y+6)
}

// legs is one leg in front of the other: the tube that slides on the wheel's side, the
// other above it.
func (f *front) legs() {
	if f.length == 0 {
		return
	}
	lower, upper := mm(f.m.OuterBore.Value)+6, mm(f.m.Stanchion.Value)
	below, above := outerTube, stanchionTube
	clamp := 0.12 * f.length
	seal := f.length - clamp - mm(f.m.Travel.Value)
	if newFrame(f.m).inverted {
		lower, upper, below, above = upper, lower, above, below
		seal = mm(f.m.Travel.Value) + 50
	}
	bar := func(from, to, width float64, k fill) {
		corners := []vg.Point{
			f.point(from, f.lead-width/2), f.point(to, f.lead-width/2),
			f.point(to, f.lead+width/2), f.point(from, f.lead+width/2),
		}
		f.FillPolygon(fillColors[k], corners)
		f.StrokeLines(edge, append(corners, corners[0]))
	}
	for _, at := range []float64{f.length - 8, f.length - clamp} { // the clamps hold the legs before the axis
		a, b := f.point(at, f.lead), f.point(at, f.offset+18)
		f.stroke(draw.LineStyle{Color: faint, Width: 5}, a.X, a.Y, b.X, b.Y)
	}
	bar(seal, f.length, upper, above)
	bar(-20, seal, lower, below)
	a, b := f.point(0, 0), f.point(0, f.lead)
	f.stroke(draw.LineStyle{Color: ink, Width: 4}, a.X, a.Y, b.X, b.Y)
	f.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 3.5, Shape: draw.CircleGlyph{}}, a)
	f.across(-60, 0, f.offset, "offset")
	if f.lead > 2 {
		f.across(f.length+24, f.lead, f.offset, "clamps")
		f.across(-34, 0, f.lead, "lead")
	}
}

// across is a dimension across the axis, behind the axle by from to to.
func (f *front) across(along, from, to float64, name string) {
	a, b := f.point(along, from), f.point(along, to)
	f.stroke(edge, a.X, a.Y, b.X, b.Y)
	for _, p := range []vg.Point{a, b} {
		f.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 1.3, Shape: draw.CircleGlyph{}}, p)
	}
	f.write(f.small, ink, fmt.Sprintf("%s %.0f mm", name, to-from), max(a.X, b.X)+5, min(a.Y, b.Y)-2, 0)
}

// axis is the steering axis down to the ground, with rake and trail.
func (f *front) axis() {
	trail := (f.radius*math.Sin(f.rake) - f.offset) / math.Cos(f.rake)
	ground := vg.Point{X: f.zero.X - f.scale*vg.Length(trail), Y: f.zero.Y}
	end := f.point(max(f.length, 1.6*f.radius)+40, f.offset)
	f.stroke(draw.LineStyle{Color: ink, Width: 0.7, Dashes: []vg.Length{9, 2, 2, 2}}, ground.X, ground.Y, end.X, end.Y)
	f.stroke(hair, f.zero.X, f.zero.Y-16, f.zero.X, f.point(0, 0).Y)
	f.stroke(hair, ground.X, ground.Y-16, ground.X, ground.Y)
	f.stroke(edge, ground.X, f.zero.Y-11, f.zero.X, f.zero.Y-11)
	f.write(f.small, ink, fmt.Sprintf("trail %.0f mm", trail), (ground.X+f.zero.X)/2, f.zero.Y-26, 0.5)
	// The rake, from the vertical at the upper end.
	foot := f.point(f.length*0.62+30, f.offset)
	f.stroke(hair, foot.X, foot.Y, foot.X, end.Y)
	f.write(f.small, ink, fmt.Sprintf("rake %.1f°", f.rake*180/math.Pi), foot.X-4, end.Y-2, 1)
}

// words are the values with their uncertainty and source.
func (f *front) words() {
	x, y := vg.Length(455), frontHeight-margin-70
	row := func(name, text, source string) {
		f.write(f.body, ink, name, x, y, 0)
		f.write(f.body, ink, text, x+92, y, 0)
		f.write(f.small, faint, source, x+92, y-10, 0)
		y -= 27
	}
	c := f.m.Chassis
	length := func(name string, v, sd units.Length, source string) {
		if source != "" {
			row(name, fmt.Sprintf("%.1f mm ± %.1f mm", mm(v), mm(sd)), source)
		}
	}
	degrees := func(a units.Angle) float64 { return a.In(units.Degree) }
	row("rake", fmt.Sprintf("%.1f° ± %.1f°", degrees(c.Rake.Value), degrees(c.Rake.Spread.SD)), c.Rake.Source)
	length("clamp offset", c.ClampOffset.Value, c.ClampOffset.Spread.SD, c.ClampOffset.Source)
	length("axle lead", c.AxleLead.Value, c.AxleLead.Spread.SD, c.AxleLead.Source)
	length("total offset", c.Offset.Value, c.Offset.Spread.SD, c.Offset.Source)
	length("wheel radius", c.WheelRadius.Value, c.WheelRadius.Spread.SD, c.WheelRadius.Source)
	length("trail", c.Trail.Value, c.Trail.Spread.SD, c.Trail.Source)
	length("axle to crown", f.m.AxleToCrown.Value, f.m.AxleToCrown.Spread.SD, f.m.AxleToCrown.Source)
	length("overall length", f.m.OverallLength.Value, f.m.OverallLength.Spread.SD, f.m.OverallLength.Source)
	length("leg spacing", f.m.LegSpacing.Value, f.m.LegSpacing.Spread.SD, f.m.LegSpacing.Source)
	f.write(f.small, faint, "Schematic: clamps, where the sliding tube ends, inner circle of the tire.", margin, 12, 0)
}
