package main

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// fill says how a part is drawn.
type fill int

const (
	trappedGas fill = iota
	oilFill
	positiveAir
	negativeAir
	secondAir
	vacant // open to the ambient, or of no matter here
	outerTube
	stanchionTube
	thinTube
	solidPart
	rodPart
)

// part is a body of revolution around the axis of a leg, in millimeters; depths count from the top of the leg.
type part struct {
	fill
	inner, outer float64 // radii
	top, bottom  float64 // depths
	shell        bool    // encloses what the leg holds, or lies within another part: takes no room
}

func (p part) solid() float64 { return circle(p.outer) - circle(p.inner) }

// coil is a spring in side view.
type coil struct {
	wire, mean   float64 // diameters
	top, bottom  float64
	active, dead float64 // coils, dead ones at each end
	metal        float64 // volume
	enclosed     bool    // in a cylinder
}

// extent is a dimension along the axis.
type extent struct {
	lane        int // 0 next to the leg
	top, bottom float64
	text        string
	loose       bool // the length is given, its place is not
}

// note names what lies at a point.
type note struct {
	r, z float64
	text string
}

// leg is the drawing of a leg in one state.
type leg struct {
	extended bool
	parts    []part
	coils    []coil
	extents  []extent
	notes    []note
}

func (d *leg) add(f fill, inner, outer, top, bottom float64) {
	d.parts = append(d.parts, part{fill: f, inner: inner, outer: outer, top: top, bottom: bottom})
}

// inside adds a part within one that has taken the room.
func (d *leg) inside(f fill, inner, outer, top, bottom float64) {
	d.parts = append(d.parts, part{fill: f, inner: inner, outer: outer, top: top, bottom: bottom, shell: true})
}

func (d *leg) note(r, z float64, format string, args ...any) {
	d.notes = append(d.notes, note{r, z, fmt.Sprintf(format, args...)})
}

// label is a note that is needed once, on the extended leg.
func (d *leg) label(r, z float64, format string, args ...any) {
	if d.extended {
		d.note(r, z, format, args...)
	}
}

// extent adds a dimension.
func (d *leg) extent(lane int, top, bottom float64, text string) {
	d.extents = append(d.extents, extent{lane, top, bottom, text, false})
}

// hollow adds a tube that is closed to what is around it.
func (d *leg) hollow(outer, top, bottom float64) {
	d.add(thinTube, 0, outer, top, bottom) // takes the room
	d.inside(thinTube, outer-thinWall, outer, top, bottom)
	d.inside(vacant, 0, outer-thinWall, top, bottom)
}

// drawLeg is one leg of the fork compressed by x millimeters.
func (f *frame) drawLeg(m *model, side setup.Side, x float64) *leg {
	if m.legs()[side].Role == data.NoLeg {
		return &leg{}
	}
	held := f.contents(m, side, x)
	d := &leg{extended: x == 0, coils: held.coils, extents: held.extents, notes: held.notes}
	f.fluids(m, side, x, held, d)
	f.tubes(m, side, x, d)
	d.parts = append(d.parts, held.parts...)
	return d
}

// tubes adds stanchion and outer tube with their ends.
func (f *frame) tubes(m *model, side setup.Side, x float64, d *leg) {
	end := f.length - x
	if f.inverted {
		d.inside(outerTube, f.outerBore, f.outside(), 0, f.upperEnd)
		d.inside(stanchionTube, f.bore, f.stanchion, f.lowerTop-x, end-footLength/2)
		d.inside(solidPart, 0, f.outerBore, 0, capLength)
		d.inside(solidPart, 0, f.bore, f.floor(x), end)
		d.inside(solidPart, f.stanchion, f.outside()+2, end-footLength, end)
		d.inside(solidPart, f.stanchion, f.outerBore, f.upperEnd-10, f.upperEnd)
	} else {
		d.inside(outerTube, f.outerBore, f.outside(), f.lowerTop-x, end)
		d.inside(stanchionTube, f.bore, f.stanchion, 0, f.upperEnd)
		d.inside(solidPart, 0, f.bore, 0, capLength)
		d.inside(solidPart, 0, f.outerBore, f.floor(x), end)
		d.inside(solidPart, f.stanchion, f.outerBore, f.lowerTop-x, f.lowerTop-x+10)
	}
	if x > 0 || side == setup.Right {
		return
	}
	outer, inner := "slider, bore Ø %v", "stanchion Ø %v, bore Ø %v"
	if f.inverted {
		d.note(f.outerBore+outerWall/2, capLength+14, "outer tube, bore Ø %v", m.OuterBore.Value)
		d.note((f.stanchion+f.bore)/2, f.upperEnd+0.4*f.travel, inner, m.Stanchion.Value, m.StanchionBore.Value)
		return
	}
	d.note((f.stanchion+f.bore)/2, f.lowerTop-14, inner, m.Stanchion.Value, m.StanchionBore.Value)
	d.note(f.outerBore+outerWall/2, f.upperEnd-0.3*(f.upperEnd-f.lowerTop), outer, m.OuterBore.Value)
}

// bar is a gauge pressure as labels have it.
func bar(p units.GaugePressure) string {
	if p.In(units.Bar) < 0.005 && p.In(units.Bar) > -0.005 {
		return "0 bar"
	}
	if p.In(units.Bar) < 1 {
		return fmt.Sprintf("%.2f", p)
	}
	return fmt.Sprintf("%.1f", p)
}

func between[Q interface {
	comparable
	fmt.Stringer
}](r data.Range[Q]) string {
	if r.Lo == r.Hi {
		return r.Lo.String()
	}
	return r.Lo.String() + " to " + r.Hi.String()
}

func length(l float64) string { return fmt.Sprintf("%.0f mm", l) }
