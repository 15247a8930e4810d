package main

import (
	"errors"
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/units"
)

// The invented cartridge has the size of one in a motocross fork and was tuned by its shims until two of them make the
// forces that are typical of that fork.
const (
	mm, mm2              = units.Millimeter, units.SquareMillimeter
	bore, rod            = 24 * mm, 12.5 * mm
	clicks               = 20                  // of each adjuster, counted out from closed
	discharge            = 0.7                 // of slightly rounded edges
	pistonFace, baseFace = 0.2 * mm, 0.15 * mm // thickness of the first two shims
)

// parts of base and piston in their places.
var parts = []string{"compression shims", "bore and needle", "blow-off", "refill check",
	"piston check", "rebound shims", "rebound needle", "hole in the piston"}

// cartridge is the damper of one leg, with the parts that are looked at.
type cartridge struct {
	damping.Cartridge
	hole                 damping.Pipe  // the bore in the base
	bleed                damping.Valve // with its needle
	compression, rebound damping.ShimStack
}

// build makes the cartridge with its adjusters so many clicks from closed.
func build(rebound, compression int, oil damping.Oil) (cartridge, error) {
	var c cartridge
	var faults []error
	keep := func(v damping.Valve, err error) damping.Valve { faults = append(faults, err); return v }
	shims := func(into *damping.ShimStack, s damping.ShimStackSpec, face units.Length,
		diameters ...units.Length) damping.Valve {
		for i, d := range diameters {
			s.Shims = append(s.Shims, damping.Shim{Diameter: d * mm, Thickness: 0.15 * mm})
			if i < 2 {
				s.Shims[i].Thickness = face
			}
		}
		s.Young, s.Poisson, s.Discharge, s.Land = 206e3*units.Megapascal, 0.3, discharge, 0.3*mm
		stack, err := damping.NewShimStack(s)
		*into = stack
		return keep(stack, err)
	}
	needle := func(out int, perClick units.Area) damping.Valve {
		a, err := damping.NewAdjuster(damping.AdjusterSpec{Clicks: clicks, PerClick: perClick, Discharge: discharge})
		faults = append(faults, err)
		return keep(a.At(out))
	}
	check := func(area units.Area, crack, open units.Pressure) damping.Valve {
		return keep(damping.NewCheck(damping.CheckSpec{Area: area, Discharge: discharge, Crack: crack * units.Bar,
			FullOpen: open * units.Bar}))
	}
	hole, err := damping.NewPipe(damping.PipeSpec{Diameter: 2 * mm, Length: 20 * mm, Entrance: damping.Entrance})
	c.hole, c.bleed = hole, damping.Series(keep(hole, err), needle(compression, 0.065*mm2))
	spec := damping.CartridgeSpec{Bore: bore, Rod: rod, Reservoir: units.Absolute(3 * units.Bar), Oil: oil}
	spec.Piston = damping.Parallel(check(50*mm2, 0.1, 1.5),
		damping.Reverse(shims(&c.rebound, damping.ShimStackSpec{Clamp: 9 * mm, PortInner: 12 * mm, PortOuter: 18 * mm,
			Seat: 19 * mm, Dish: 0.015 * mm, Ports: 60 * mm2}, pistonFace, 21, 21, 18, 15, 12)),
		needle(rebound, 0.10*mm2), keep(damping.NewOrifice(damping.OrificeSpec{Area: 0.4 * mm2, Discharge: discharge})))
	spec.Base = damping.Parallel(
		shims(&c.compression, damping.ShimStackSpec{Clamp: 8 * mm, PortInner: 11 * mm, PortOuter: 15 * mm,
			Seat: 16 * mm, Dish: 0.01 * mm, Ports: 30 * mm2}, baseFace, 18, 18, 15, 12),
		c.bleed, check(10*mm2, 14, 40), damping.Reverse(check(60*mm2, 0, 0.2)))
	if err := errors.Join(faults...); err != nil {
		return c, err
	}
	c.Cartridge, err = damping.NewCartridge(spec)
	return c, err
}

// areas that drive oil through piston and base.
var ring, ofRod = geometry.Circle(bore) - geometry.Circle(rod), geometry.Circle(rod)

// lifted is the speed at which shims lift by their own thickness, from where real ones are stiffer than computed.
func (c cartridge) lifted() (compression, rebound units.Speed) {
	s := c.Spec()
	in := s.Base.Flow(c.compression.Raised(baseFace), s.Oil)
	out := s.Piston.Flow(-c.rebound.Raised(pistonFace), s.Oil)
	return units.Speed(float64(in) / float64(ofRod)), units.Speed(-float64(out) / float64(ring))
}

// shares are the sizes of the parts' shares in the force of the leg.
func (c cartridge) shares(v units.Speed) []units.Force {
	piston, base := c.Shares(v)
	all := append(base, piston...)
	for i, f := range all {
		all[i] = units.Force(math.Abs(float64(f)))
	}
	return all
}
