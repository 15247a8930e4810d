package damping

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CartridgeSpec is a piston on a rod in an oil-filled bore, with a base valve
// through which the rod's volume leaves.
type CartridgeSpec struct {
	Bore units.Length // of the piston, 5 mm to 80 mm
	Rod  units.Length // 2 mm to 0.95 of Bore

	// Piston holds the valves of the moving piston. Positive pressure and flow
	// is compression: from the room the piston drives into to the room of the
	// rod. It has to pass oil both ways.
	Piston Valve

	// Base holds the valves between the compression room and the reservoir.
	// Positive is compression, out of the cartridge. Nil: no resistance.
	Base Valve

	Reservoir units.AbsolutePressure // behind the base valve, 0.2 bar to 40 bar absolute
	Oil       Oil
}

// Cartridge is the damper of one leg. At a speed v in compression, with areas A
// of the piston and A_r of the rod,
//
//	Δp_b at A_r·v through the base, Δp_p at (A − A_r)·v through the piston
//	F = Δp_b·A_r + Δp_p·(A − A_r)
//
// and in rebound the same the other way. The force of the reservoir pressure on
// the rod is a spring and not counted.
//
// Cavitation: no room falls below vacuum. In compression the room of the rod
// tears off when Δp_p would exceed the reservoir pressure plus Δp_b; from there
// the whole A·v leaves through piston and base at the compression room's
// pressure p_c, and F = p_c·A − p_reservoir·A_r. In rebound the compression room
// tears off when its refill takes more than the reservoir pressure. Air comes
// out of real oil well above vacuum, so that the damper goes soft earlier.
type Cartridge struct {
	spec      CartridgeSpec
	area, rod units.Area // of the piston's ring and of the rod
	reservoir float64    // Pa absolute
}

// NewCartridge checks the specification, and that oil finds a way in
// compression and in rebound.
func NewCartridge(s CartridgeSpec) (Cartridge, error) {
	f := check.Of("CartridgeSpec")
	bore := check.Between(f, "Bore", s.Bore, 5*units.Millimeter, 80*units.Millimeter)
	rod := bore && check.Between(f, "Rod", s.Rod, 2*units.Millimeter, 0.95*s.Bore)
	check.Absolute(f, "Reservoir", s.Reservoir, 0.2*units.Bar, 40*units.Bar)
	oil := s.Oil.Validate()
	f.Nest("Oil", oil)
	c := Cartridge{spec: s, rod: geometry.Circle(s.Rod), area: geometry.Circle(s.Bore) - geometry.Circle(s.Rod),
		reservoir: s.Reservoir.In(units.Pascal)}
	if s.Piston == nil {
		f.Report("Piston", "nil", "the valves of the piston", "")
	} else if rod && oil == nil {
		c.passable(f, "Piston", s.Piston, swept(c.area, 1))
	}
	if s.Base != nil && rod && oil == nil {
		c.passable(f, "Base", s.Base, swept(c.rod, 1))
	}
	if err := f.Err(); err != nil {
		return Cartridge{}, err
	}
	return c, nil
}

// passable reports a valve that locks at a flow, either way.
func (c Cartridge) passable(f *check.Faults, field string, v Valve, q units.Flow) {
	passes := func(q units.Flow) bool {
		p := float64(v.Drop(q, c.spec.Oil))
		return p*float64(q) >= 0 && !math.IsInf(p, 0) && !math.IsNaN(p)
	}
	switch in, out := passes(q), passes(-q); {
	case !in && !out:
		f.Report(field, "closed", "a way for the oil", "")
	case !in:
		f.Report(field, "closed in compression", "a way for the oil both ways", "Reverse turns a valve round")
	case !out:
		f.Report(field, "closed in rebound", "a way for the oil both ways", "a check valve or a bleed beside it opens that way")
	}
}

// With is the same cartridge with other oil, or the same oil at another
// temperature.
func (c Cartridge) With(o Oil) (Cartridge, error) {
	s := c.spec
	s.Oil = o
	return NewCartridge(s)
}

// Force of the oil.
func (c Cartridge) Force(v units.Speed) units.Force {
	switch {
	case v > 0:
		return c.compress(v)
	case v < 0:
		return c.rebound(v)
	}
	return 0
}

func (c Cartridge) compress(v units.Speed) units.Force {
	base, piston := c.base(swept(c.rod, v)), float64(c.spec.Piston.Drop(swept(c.area, v), c.spec.Oil))
	if piston <= c.reservoir+base {
		return units.Force(base*float64(c.rod) + piston*float64(c.area))
	}
	// The room of the rod is at vacuum: find the base's drop at which piston and
	// base together pass all that the piston drives out.
	if c.spec.Base != nil {
		all := swept(c.area+c.rod, v)
		base = increasing(func(drop float64) float64 {
			through := c.spec.Piston.Flow(units.Pressure(c.reservoir+drop), c.spec.Oil)
			return float64(c.spec.Base.Flow(units.Pressure(drop), c.spec.Oil) + through - all)
		}, base, c.base(all))
	}
	room := c.reservoir + base
	return units.Force(room*float64(c.area+c.rod) - c.reservoir*float64(c.rod))
}

func (c Cartridge) rebound(v units.Speed) units.Force {
	refill := max(c.base(swept(c.rod, v)), -c.reservoir)
	piston := float64(c.spec.Piston.Drop(swept(c.area, v), c.spec.Oil))
	return units.Force(refill*float64(c.rod) + piston*float64(c.area))
}

// base is the drop over the base valve.
func (c Cartridge) base(q units.Flow) float64 {
	if c.spec.Base == nil {
		return 0
	}
	return float64(c.spec.Base.Drop(q, c.spec.Oil))
}

// Coefficient is F/v.
func (c Cartridge) Coefficient(v units.Speed) units.DampingRate {
	v = moving(v)
	return over(c.Force(v), v)
}

// Cavitates tells whether a room of the cartridge is at vacuum at this speed.
func (c Cartridge) Cavitates(v units.Speed) bool {
	base := c.base(swept(c.rod, v))
	if v < 0 {
		return base < -c.reservoir
	}
	return float64(c.spec.Piston.Drop(swept(c.area, v), c.spec.Oil)) > c.reservoir+base
}
