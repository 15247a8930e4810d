package main

import (
	"math"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Lengths of a drawing that no record has, in millimeters: they are schematic.
const (
	capLength    = 18.0
	footLength   = 26.0
	headLength   = 12.0 // seal head around a rod
	pistonLength = 10.0
	perchLength  = 6.0
	outerWall    = 3.0
	thinWall     = 1.5 // of a cylinder or cartridge
	clearance    = 12.0
	strokeRoom   = 40.0 // cartridge beyond the travel
)

// frame is what both legs of a fork share, in millimeters below the top of the leg.
type frame struct {
	inverted                   bool
	sealed                     bool    // the stanchion is closed below and the lower leg holds the gas
	travel                     float64 // of the fork
	stanchion, bore, outerBore float64 // radii
	upperEnd                   float64 // lower end of the tube in the clamps
	lowerTop                   float64 // upper end of the tube at the wheel, extended
	length                     float64 // of the leg, extended
}

func mm(l units.Length) float64     { return l.In(units.Millimeter) }
func radius(d units.Length) float64 { return mm(d) / 2 }

// mm3 is a volume as the drawing counts it.
func mm3(v units.Volume) float64 { return v.In(units.Milliliter) * 1000 }

func circle(r float64) float64 { return math.Pi * r * r }

// outside is the radius of the outer tube, whose wall is schematic.
func (f *frame) outside() float64 { return f.outerBore + outerWall }

// floor is the bottom of the room inside a leg compressed by x.
func (f *frame) floor(x float64) float64 { return f.length - footLength - x }

// newFrame finds lengths that take what the legs hold, at full extension and travel.
func newFrame(m *model) *frame {
	f := &frame{
		inverted:  m.Layout == geometry.Inverted,
		travel:    mm(m.Travel.Value),
		stanchion: radius(m.Stanchion.Value),
		bore:      radius(m.StanchionBore.Value),
		outerBore: radius(m.OuterBore.Value),
	}
	f.sealed = !f.inverted && !m.Kit.SpringInOil
	overlap := 2.2 * 2 * f.stanchion // about the distance of the bushes
	hung, standing := 0.0, mm(m.Kit.Room.Value)
	for side, leg := range m.legs() {
		switch {
		case leg.Role.HasCoil() && f.inverted:
			standing = max(standing, f.travel+strokeRoom+roomOf(m, leg))
		case leg.Role.HasCoil():
			h := roomOf(m, leg) + perchLength + headLength
			if !f.sealed {
				h += strokeRoom
			}
			hung = max(hung, h)
		default:
			hung = max(hung, damperLength(f.travel, leg)+headLength)
		}
		if s, ok := newStack(m, setup.Side(side)); ok {
			hung = max(hung, s.length())
		}
	}
	if f.inverted {
		f.lowerTop = capLength + 8 + f.travel
		f.length = max(capLength+hung+f.travel+clearance+footLength, capLength+standing+footLength,
			f.lowerTop+overlap+f.travel+20+footLength)
		f.upperEnd = f.length - f.travel - footLength - 20
	} else {
		f.upperEnd = max(capLength+hung, f.travel+25+overlap, capLength+mm(m.Kit.Room.Value)+headLength)
		f.lowerTop = f.upperEnd - overlap
		f.length = f.upperEnd + f.travel + f.below(m, overlap) + footLength
	}
	const step, most = 5, 200
	for range most {
		if f.holds(m) {
			break
		}
		f.length += step
		if f.inverted {
			f.upperEnd += step
		}
	}
	return f
}

// below is the room under the stanchion at full travel. A sealed lower leg has there the gas that is left, and the
// oil.
func (f *frame) below(m *model, overlap float64) float64 {
	if !f.sealed || !m.Gap.Residual.Given() {
		return clearance
	}
	annulus := (circle(f.outerBore) - circle(f.stanchion)) * (overlap + f.travel)
	room := mm3(m.Gap.Residual.Value) + f.bath(m, m.Left)
	return max(clearance/2, (room-annulus)/(circle(f.outerBore)-circle(radius(m.Gap.Rod.Value))))
}

// bath is the middle of the oil range of a leg.
func (f *frame) bath(m *model, leg data.Leg) float64 {
	return mm3((leg.Oil.Volume.Lo + leg.Oil.Volume.Hi) / 2)
}

// holds reports whether both legs have room for their gas and oil, extended.
func (f *frame) holds(m *model) bool {
	if f.sealed {
		return true
	}
	for side, leg := range m.legs() {
		d := f.contents(m, setup.Side(side), 0)
		if _, ok := f.level(d, 0, gasOver(m, setup.Side(side), 0)+f.bath(m, leg)); !ok {
			return false
		}
	}
	return true
}

// gasOver is the volume of the gas over the oil of a leg, in cubic millimeters.
func gasOver(m *model, side setup.Side, x float64) float64 {
	travel := units.Length(x) * units.Millimeter
	if gap, err := m.setup.Gap(side, gas.Isothermal); err == nil {
		return mm3(gap.Volume(min(travel, gap.Stroke())))
	}
	if leg := m.legs()[side]; wholeLeg(m, leg) {
		if c, ok := m.chambers(side, travel, gas.Isothermal); ok {
			return mm3(c.positive)
		}
	}
	return 0
}

// wholeLeg reports whether the leg as a whole is the air spring, its gas over the oil.
func wholeLeg(m *model, leg data.Leg) bool {
	return leg.Role.HasAir() && !m.Gap.Residual.Given()
}

// roomOf is the seat-to-seat room of a leg with a coil spring.
func roomOf(m *model, leg data.Leg) float64 {
	return max(mm(m.Kit.Room.Value), installed(leg))
}

// level is the depth down to which a volume fills a leg from its cap, around what it holds; false if the leg is too
// small.
func (f *frame) level(d *leg, x, volume float64) (float64, bool) {
	const step = 0.25
	floor := f.floor(x)
	for z := capLength; z < floor; z += step {
		volume -= step * f.free(d, x, z+step/2)
		if volume <= 0 {
			return z + step, true
		}
	}
	return floor, false
}

// free is the section of a leg at a depth that gas or oil can fill.
func (f *frame) free(d *leg, x, z float64) float64 {
	var area float64
	switch {
	case f.inverted && z < f.lowerTop-x:
		area = circle(f.outerBore)
	case f.inverted:
		area = circle(f.bore)
		if z < f.upperEnd {
			area += circle(f.outerBore) - circle(f.stanchion)
		}
	case z < f.upperEnd:
		area = circle(f.bore)
	default:
		area = circle(f.outerBore)
	}
	for _, p := range d.parts {
		if !p.shell && p.top <= z && z < p.bottom {
			area -= p.solid()
		}
	}
	for _, c := range d.coils {
		if !c.enclosed && c.top <= z && z < c.bottom {
			area -= c.metal / (c.bottom - c.top)
		}
	}
	return max(area, 0)
}
