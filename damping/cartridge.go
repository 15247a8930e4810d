package damping

import (
	"fmt"
	"math"
	"reflect"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CartridgeSpec is a piston on a rod in an oil-filled bore, with a base valve
// through which the rod's volume leaves.
type CartridgeSpec struct {
	Bore units.Length // of the piston, 5 mm to 80 mm
	Rod  units.Length // 2 mm to 0.95 of Bore

	// Piston holds the valves of the moving piston. Positive pressure and flow is compression: from the room the
	// piston drives into to the room of the rod. It has to pass oil both ways.
	Piston Valve

	// Base holds the valves between the compression room and the reservoir.
	// Positive is compression, out of the cartridge. Nil: no resistance.
	Base Valve

	Reservoir units.AbsolutePressure // behind the base valve, 0.2 bar to 40 bar absolute
	Oil       Oil                    // that the valves throttle
}

// Equal reports whether both specify the same damper, valve by valve, for go-cmp and others that look for the method.
func (s CartridgeSpec) Equal(o CartridgeSpec) bool { return reflect.DeepEqual(s, o) }

// Cartridge is the damper of one leg. At a speed v in compression, with areas A of the piston and A_r of the rod,
//
//	Δp_b at A_r·v through the base, Δp_p at (A − A_r)·v through the piston
//	F = Δp_b·A_r + Δp_p·(A − A_r)
//
// and in rebound the same the other way. The force of the reservoir pressure on
// the rod is a spring and not counted.
//
// Cavitation: no room falls below vacuum. In compression the room of the rod tears off when Δp_p would exceed the
// reservoir pressure plus Δp_b; from there the whole A·v leaves through piston and base at the compression room's
// pressure p_c, and F = p_c·A − p_reservoir·A_r. In rebound the compression room tears off when its refill takes
// more than the reservoir pressure. Air comes out of real oil well above vacuum, so that the damper goes soft
// earlier.
type Cartridge struct {
	spec      CartridgeSpec
	area, rod units.Area // of the piston's ring and of the rod
	reservoir float64    // Pa absolute
}

// NewCartridge checks the specification, and that oil finds a way in compression and in rebound.
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
		f.Report(field, "closed in rebound", "a way for the oil both ways",
			"a check valve or a bleed beside it opens that way")
	}
}

// Spec is what the cartridge was made of.
func (c Cartridge) Spec() CartridgeSpec { return c.spec }

// With is the same cartridge with other oil, or the same oil at another temperature.
func (c Cartridge) With(o Oil) (Cartridge, error) {
	s := c.spec
	s.Oil = o
	return NewCartridge(s)
}

// WithReservoir is the same cartridge with another pressure behind it, as after gas has been lost.
func (c Cartridge) WithReservoir(p units.AbsolutePressure) (Cartridge, error) {
	s := c.spec
	s.Reservoir = p
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
	piston, base := c.Drops(v)
	if float64(piston) <= c.reservoir+float64(base) {
		return units.Force(float64(base)*float64(c.rod) + float64(piston)*float64(c.area))
	}
	// The room of the rod is at vacuum: find the base's drop at which piston and
	// base together pass all that the piston drives out.
	tail := float64(base)
	if c.spec.Base != nil {
		all := swept(c.area+c.rod, v)
		tail = increasing(func(drop float64) float64 {
			through := c.spec.Piston.Flow(units.Pressure(c.reservoir+drop), c.spec.Oil)
			return float64(c.spec.Base.Flow(units.Pressure(drop), c.spec.Oil) + through - all)
		}, tail, float64(c.spec.Base.Drop(all, c.spec.Oil)))
	}
	return units.Force((c.reservoir+tail)*float64(c.area+c.rod) - c.reservoir*float64(c.rod))
}

func (c Cartridge) rebound(v units.Speed) units.Force {
	piston, base := c.Drops(v)
	return units.Force(max(float64(base), -c.reservoir)*float64(c.rod) + float64(piston)*float64(c.area))
}

// Drops are the pressure differences over piston and base at a speed, positive in compression, as if oil followed at
// any speed: see Cavitation.
func (c Cartridge) Drops(v units.Speed) (piston, base units.Pressure) {
	if c.spec.Base != nil {
		base = c.spec.Base.Drop(swept(c.rod, v), c.spec.Oil)
	}
	return c.spec.Piston.Drop(swept(c.area, v), c.spec.Oil), base
}

// Reaching is the speed from which the base drops more than a pressure in compression and the piston more than
// another in rebound: the inverse of [Cartridge.Drops]. Without a base valve no speed makes one.
func (c Cartridge) Reaching(base, piston units.Pressure) Onset {
	o := Onset{units.Speed(math.Inf(1)), -units.Speed(float64(c.spec.Piston.Flow(-piston, c.spec.Oil)) / float64(c.area))}
	if c.spec.Base != nil {
		o.Compression = units.Speed(float64(c.spec.Base.Flow(base, c.spec.Oil)) / float64(c.rod))
	}
	return o
}

// Ring is the section of the bore less the rod, which drives oil through the piston.
func (c Cartridge) Ring() units.Area { return c.area }

// RodArea is the section of the rod, which drives oil through the base.
func (c Cartridge) RodArea() units.Area { return c.rod }

// Shares splits the force at a speed other than 0 by the branch of Piston and Base, in the order given to [Parallel],
// that it comes from. A branch that passes the flow q at the drop Δp turns Δp·q into heat, and all together turn F·v
// into heat: so Δp·q/v is its share. They add up to Force where nothing cavitates.
func (c Cartridge) Shares(v units.Speed) (piston, base []units.Force) {
	split := func(valve Valve, p units.Pressure) (shares []units.Force) {
		branches, ok := valve.(parallel)
		if !ok && valve != nil {
			branches = parallel{valve}
		}
		for _, branch := range branches {
			q := branch.Flow(p, c.spec.Oil)
			shares = append(shares, units.Force(float64(p)*float64(q)/float64(v)))
		}
		return shares
	}
	overPiston, overBase := c.Drops(v)
	return split(c.spec.Piston, overPiston), split(c.spec.Base, overBase)
}

// Coefficient is F/v.
func (c Cartridge) Coefficient(v units.Speed) units.DampingRate { return coefficient(c, v) }

// Cavitates tells whether a room of the cartridge is at vacuum at this speed.
func (c Cartridge) Cavitates(v units.Speed) bool {
	piston, base := c.Drops(v)
	if v < 0 {
		return float64(base) < -c.reservoir
	}
	return float64(piston) > c.reservoir+float64(base)
}

// Onset is the speed, as a magnitude, from which something happens in compression and in rebound; +Inf where it does
// not.
type Onset struct{ Compression, Rebound units.Speed }

// String is "compression from 10.0 m/s, rebound from 9.1 m/s", or "none up to" MaxSpeed.
func (o Onset) String() string {
	text := func(v units.Speed) string {
		if v > MaxSpeed {
			return fmt.Sprintf("none up to %.0f", MaxSpeed)
		}
		return fmt.Sprintf("from %.1f", v)
	}
	return "compression " + text(o.Compression) + ", rebound " + text(o.Rebound)
}

// Cavitation is the speed above which a room is at vacuum, to 1 mm/s; +Inf where none is up to [MaxSpeed].
func (c Cartridge) Cavitation() Onset {
	from := func(sign units.Speed) units.Speed {
		lo, hi := units.Speed(0), MaxSpeed
		if !c.Cavitates(sign * hi) {
			return units.Speed(math.Inf(1))
		}
		for hi-lo > 1*units.MillimeterPerSecond {
			if mid := (lo + hi) / 2; c.Cavitates(sign * mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		return hi
	}
	return Onset{from(1), from(-1)}
}

// swept is the flow that a piston of that area displaces.
func swept(a units.Area, v units.Speed) units.Flow { return units.Flow(float64(a) * float64(v)) }
