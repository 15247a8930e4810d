package main

import (
	"errors"
	"fmt"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/units"
)

const (
	mm, mm2 = units.Millimeter, units.SquareMillimeter
	clicks  = 20  // of each adjuster, counted out from closed
	rounded = 0.7 // discharge of slightly rounded edges
)

// parts of base and piston in their places.
var parts = []string{"compression shims", "bore and needle", "blow-off", "refill check",
	"piston check", "rebound shims", "rebound needle", "hole in the piston"}

// cartridge is the damper of one leg, with the parts that are looked at.
type cartridge struct {
	damping.Cartridge
	hole                 damping.Pipe // the bore in the base, behind the needle
	Compression, Rebound damping.ShimStack
}

// build makes the invented cartridge with its adjusters so many clicks from closed. It has the size of one in a
// motocross fork and was tuned by its shims until two of them make the forces that are typical of that fork.
func build(rebound, compression int, oil damping.Oil) (c cartridge, err error) {
	var errs [3]error
	keep := func(v damping.Valve, err error) damping.Valve { errs[0] = errors.Join(errs[0], err); return v }
	shims := func(s damping.ShimStackSpec, diameters ...units.Length) damping.ShimStackSpec {
		s.Young, s.Poisson, s.Discharge, s.Land = 206e3*units.Megapascal, 0.3, rounded, 0.3*mm
		for _, d := range diameters {
			s.Shims = append(s.Shims, damping.Shim{Diameter: d * mm, Thickness: 0.15 * mm})
		}
		return s
	}
	needle := func(out int, perClick units.Area) damping.Valve {
		a, err := damping.NewAdjuster(damping.AdjusterSpec{Clicks: clicks, PerClick: perClick, Discharge: rounded})
		keep(nil, err)
		return keep(a.At(out))
	}
	check := func(area units.Area, crack, open units.Pressure) damping.Valve {
		return keep(damping.NewCheck(damping.CheckSpec{Area: area, Discharge: rounded, Crack: crack * units.Bar,
			FullOpen: open * units.Bar}))
	}
	out := shims(damping.ShimStackSpec{Clamp: 9 * mm, PortInner: 12 * mm, PortOuter: 18 * mm, Seat: 19 * mm,
		Dish: 0.015 * mm, Ports: 60 * mm2}, 21, 21, 18, 15, 12)
	out.Shims[0].Thickness, out.Shims[1].Thickness = 0.2*mm, 0.2*mm
	c.Rebound, errs[1] = damping.NewShimStack(out)
	c.Compression, errs[2] = damping.NewShimStack(shims(damping.ShimStackSpec{Clamp: 8 * mm, PortInner: 11 * mm,
		PortOuter: 15 * mm, Seat: 16 * mm, Dish: 0.01 * mm, Ports: 30 * mm2}, 18, 18, 15, 12))
	c.hole, err = damping.NewPipe(damping.PipeSpec{Diameter: 2 * mm, Length: 20 * mm, Entrance: damping.Entrance})
	spec := damping.CartridgeSpec{Bore: 24 * mm, Rod: 12.5 * mm, Reservoir: units.Absolute(3 * units.Bar), Oil: oil,
		Base: damping.Parallel(c.Compression, damping.Series(keep(c.hole, err), needle(compression, 0.065*mm2)),
			check(10*mm2, 14, 40), damping.Reverse(check(60*mm2, 0, 0.2))),
		Piston: damping.Parallel(check(50*mm2, 0.1, 1.5), damping.Reverse(c.Rebound), needle(rebound, 0.10*mm2),
			keep(damping.NewOrifice(damping.OrificeSpec{Area: 0.4 * mm2, Discharge: rounded})))}
	c.Cartridge, err = damping.NewCartridge(spec)
	return c, errors.Join(append(errs[:], err)...)
}

// Percent is the share of a part in the force of the leg.
func (c cartridge) Percent(part int, v units.Speed) float64 {
	piston, base := c.Shares(v)
	return 100 * float64(append(base, piston...)[part]/c.Force(v))
}

// Reynolds is that of the flow in the bore, which takes the second share of the force in the base.
func (c cartridge) Reynolds(v units.Speed) float64 {
	_, base := c.Shares(v)
	_, drop := c.Drops(v)
	return c.hole.Reynolds(units.Flow(float64(base[1])*float64(v)/float64(drop)), c.Spec().Oil)
}

// Throttled is what happens to the oil in the piston at 1 m/s of rebound.
func (c cartridge) Throttled() string {
	drop, _ := c.Drops(-1)
	return fmt.Sprintf("%.1f and leaves %.1f warmer", -drop, damping.ThrottlingRise(-drop, c.Spec().Oil, damping.OilHeat))
}
