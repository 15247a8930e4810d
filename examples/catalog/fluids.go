package main

import (
	"fmt"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// fluids adds gas and oil around what the leg holds.
func (f *frame) fluids(m *model, side setup.Side, x float64, held, d *leg) {
	l := m.legs()[side]
	floor, end := f.floor(x), f.lowerTop-x
	state := func() string {
		travel := units.Length(x) * units.Millimeter
		if gap, err := m.setup.Gap(side, gas.Isothermal); err == nil {
			travel = min(travel, gap.Stroke())
			return fmt.Sprintf("%.0f, %s", gap.Volume(travel), bar(m.gauge(gap.Pressure(travel))))
		}
		c, _ := m.chambers(side, travel, gas.Isothermal)
		return fmt.Sprintf("%.0f, %s", c.positive, bar(c.positiveGauge))
	}
	oil := "oil"
	if l.Oil.Volume.Given() {
		oil = "oil " + between(l.Oil.Volume)
	}
	if f.sealed {
		if !m.Gap.Residual.Given() {
			return
		}
		depth := f.bath(m, l) / (circle(f.outerBore) - circle(radius(m.Gap.Rod.Value)))
		level := max(f.upperEnd, floor-depth)
		d.inside(trappedGas, f.stanchion, f.outerBore, end, f.upperEnd)
		d.inside(trappedGas, 0, f.outerBore, f.upperEnd, level)
		d.inside(oilFill, 0, f.outerBore, level, floor)
		d.note(0.75*f.outerBore, (f.upperEnd+level)/2, "gas in the lower leg %s", state())
		d.label(0.75*f.outerBore, floor-depth/2, "%s", oil)
		return
	}
	level := capLength
	if v := gasOver(m, side, x); v > 0 {
		level, _ = f.level(held, x, v)
	}
	pour := func(inner, outer, top, bottom float64) {
		surface := min(max(level, top), bottom)
		if surface > top {
			d.inside(trappedGas, inner, outer, top, surface)
		}
		if surface < bottom {
			d.inside(oilFill, inner, outer, surface, bottom)
		}
	}
	if f.inverted {
		pour(0, f.outerBore, capLength, end)
		pour(f.stanchion, f.outerBore, end, f.upperEnd)
		pour(0, f.bore, end, floor)
	} else {
		pour(0, f.bore, capLength, f.upperEnd)
		pour(0, f.outerBore, f.upperEnd, floor)
		d.inside(oilFill, f.stanchion, f.outerBore, end, f.upperEnd)
	}
	name := "gas over the oil"
	if wholeLeg(m, l) {
		name = "air spring: the gas over the oil,"
	}
	if level > capLength {
		z := capLength + 0.62*(level-capLength)
		d.note(f.freeRadius(held, z), z, "%s %s", name, state())
	}
	if x == 0 {
		if l.Oil.Level.Given() {
			oil += fmt.Sprintf("; level %s compressed with the spring out", between(l.Oil.Level))
		}
		if l.Oil.Cartridge.Given() {
			oil += fmt.Sprintf("; cartridge %s", between(l.Oil.Cartridge))
		}
		z := min(level+0.15*(floor-level)+4, floor-2)
		d.note(f.freeRadius(held, z), z, "%s", oil)
	}
}

// freeRadius is one at which there is gas or oil at a depth: next to what the leg holds, or within its spring.
func (f *frame) freeRadius(held *leg, z float64) float64 {
	widest, inner, wound := 0.0, f.bore, false
	for _, c := range held.coils {
		if !c.enclosed && c.top <= z && z < c.bottom {
			inner, wound = (c.mean-c.wire)/2, true
		}
	}
	for _, p := range held.parts {
		if !p.shell && p.top <= z && z < p.bottom {
			widest = max(widest, p.outer)
		}
	}
	if !wound && widest == 0 {
		return f.bore / 2
	}
	return (widest + inner) / 2
}
