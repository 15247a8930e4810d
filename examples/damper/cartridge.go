package main

import (
	"errors"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	mm2 = units.SquareMillimeter

	clicks = 20 // of each adjuster, counted out from closed
)

// The invented cartridge has the size of one in a motocross fork and was tuned by
// its shims until two of them make the forces that are typical of that fork.
const (
	bore = 24 * mm
	rod  = 12.5 * mm

	shimSteel   = 206e3 * units.Megapascal
	shimPoisson = 0.3
)

// Areas that drive oil through base and piston.
var rodArea, ring = geometry.Circle(rod), geometry.Circle(bore) - geometry.Circle(rod)

var reservoir = units.Absolute(3 * units.Bar)

const bleedAt = 1 // place of the bore with its needle in the base

// part is a passage of the cartridge, positive in compression.
type part struct {
	name  string
	valve damping.Valve
}

// cartridge is the damper of one leg with its parts at hand.
type cartridge struct {
	damping.Cartridge
	oil          damping.Oil
	piston, base []part // side by side
	bleed        damping.Pipe
	stacks       []stack
}

// stack is the shims of one stroke.
type stack struct {
	name      string
	shims     damping.ShimStack
	thickness units.Length // of the face shim
	valve     []part       // what it sits in
	area      units.Area   // that feeds this valve
	sign      units.Speed  // of its stroke
}

// build makes the cartridge with its adjusters so many clicks from closed.
func build(rebound, compression int, oil damping.Oil) (*cartridge, error) {
	var b builder
	const thin = 0.15 * mm
	reboundShims := stack{name: "rebound", thickness: 0.2 * mm, sign: -1, shims: b.shims(damping.ShimStackSpec{
		Shims: []damping.Shim{
			{Diameter: 21 * mm, Thickness: 0.2 * mm}, {Diameter: 21 * mm, Thickness: 0.2 * mm},
			{Diameter: 18 * mm, Thickness: thin}, {Diameter: 15 * mm, Thickness: thin}, {Diameter: 12 * mm, Thickness: thin},
		},
		Clamp: 9 * mm, PortInner: 12 * mm, PortOuter: 18 * mm, Seat: 19 * mm, Land: 0.3 * mm, Dish: 0.015 * mm, Ports: 60 * mm2,
	})}
	baseShims := stack{name: "compression", thickness: thin, sign: 1, shims: b.shims(damping.ShimStackSpec{
		Shims: []damping.Shim{
			{Diameter: 18 * mm, Thickness: thin}, {Diameter: 18 * mm, Thickness: thin},
			{Diameter: 15 * mm, Thickness: thin}, {Diameter: 12 * mm, Thickness: thin},
		},
		Clamp: 8 * mm, PortInner: 11 * mm, PortOuter: 15 * mm, Seat: 16 * mm, Land: 0.3 * mm, Dish: 0.01 * mm, Ports: 30 * mm2,
	})}
	c := &cartridge{oil: oil, bleed: b.pipe(damping.PipeSpec{Diameter: 2 * mm, Length: 20 * mm, Entrance: damping.Entrance})}
	c.piston = []part{
		{"piston check", b.check(damping.CheckSpec{Area: 50 * mm2, Crack: 0.1 * units.Bar, FullOpen: 1.5 * units.Bar})},
		{"rebound shims", damping.Reverse(reboundShims.shims)},
		{"rebound needle", b.needle(rebound, 0.10*mm2)},
		{"hole in the piston", b.orifice(0.4 * mm2)},
	}
	c.base = []part{
		{"compression shims", baseShims.shims},
		{"bore and needle", damping.Series(c.bleed, b.needle(compression, 0.065*mm2))},
		{"blow-off", b.check(damping.CheckSpec{Area: 10 * mm2, Crack: 14 * units.Bar, FullOpen: 40 * units.Bar})},
		{"refill check", damping.Reverse(b.check(damping.CheckSpec{Area: 60 * mm2, FullOpen: 0.2 * units.Bar}))},
	}
	if err := errors.Join(b.faults...); err != nil {
		return nil, err
	}
	var err error
	if c.Cartridge, err = newCartridge(c, reservoir); err != nil {
		return nil, err
	}
	reboundShims.valve, reboundShims.area = c.piston, ring
	baseShims.valve, baseShims.area = c.base, rodArea
	c.stacks = []stack{baseShims, reboundShims}
	return c, nil
}

func newCartridge(c *cartridge, reservoir units.AbsolutePressure) (damping.Cartridge, error) {
	return damping.NewCartridge(damping.CartridgeSpec{
		Bore: bore, Rod: rod, Piston: network(c.piston), Base: network(c.base), Reservoir: reservoir, Oil: c.oil})
}

// builder makes parts and collects what is wrong with them.
type builder struct{ faults []error }

const edge = 0.7 // discharge coefficient of slightly rounded edges

func keep[T any](b *builder, v T, err error) T {
	if err != nil {
		b.faults = append(b.faults, err)
	}
	return v
}

func (b *builder) shims(s damping.ShimStackSpec) damping.ShimStack {
	s.Young, s.Poisson, s.Discharge = shimSteel, shimPoisson, edge
	v, err := damping.NewShimStack(s)
	return keep(b, v, err)
}

func (b *builder) check(s damping.CheckSpec) damping.Check {
	s.Discharge = edge
	v, err := damping.NewCheck(s)
	return keep(b, v, err)
}

func (b *builder) orifice(a units.Area) damping.Orifice {
	v, err := damping.NewOrifice(damping.OrificeSpec{Area: a, Discharge: edge})
	return keep(b, v, err)
}

func (b *builder) pipe(s damping.PipeSpec) damping.Pipe {
	v, err := damping.NewPipe(s)
	return keep(b, v, err)
}

func (b *builder) needle(out int, perClick units.Area) damping.Orifice {
	a, err := damping.NewAdjuster(damping.AdjusterSpec{Clicks: clicks, PerClick: perClick, Discharge: edge})
	n, err2 := keep(b, a, err).At(out)
	return keep(b, n, err2)
}

func network(parts []part) damping.Valve {
	var valves []damping.Valve
	for _, p := range parts {
		valves = append(valves, p.valve)
	}
	return damping.Parallel(valves...)
}
