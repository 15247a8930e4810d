package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Shim is one ring of a stack.
type Shim struct {
	Diameter  units.Length // outer, 4 mm to 80 mm, above the clamp
	Thickness units.Length // 0.05 mm to 2 mm, below the radius
}

// ShimStackSpec is a stack of shims clamped at the middle over the ports of a piston or base valve.
type ShimStackSpec struct {
	Shims []Shim       // from the face that covers the ports outward; up to 24
	Clamp units.Length // diameter of the clamped middle, 3 mm to 40 mm
	Young units.Stress // 10 GPa to 500 GPa; spring steel 206 GPa

	Poisson   float64      // 0.1 to 0.5; steel 0.3
	PortInner units.Length // diameters of the ring over which the oil presses, Clamp to PortOuter
	PortOuter units.Length // up to Seat
	Seat      units.Length // diameter at which the face shim lifts, up to that shim's
	Land      units.Length // width of the flat the face shim seats on, along the flow; 0, a sharp edge, to 10 mm
	Dish      units.Length // by which the seat stands above the clamped plane, 0 to 0.5 mm: preload
	Ports     units.Area   // of the holes that feed the ring, 0.1 mm² to 1000 mm²
	Discharge float64      // of the gap under the shim and of the ports, 0.3 to 1; see Discharge
}

// ShimStack is a one-way valve of shims that bend away from their seat:
//
//	lift y = c·p − dish, at least 0
//	p = (ρ/2)·(q/C)²·(1/(π·d_seat·y)² + 1/A_ports²) + 12·μ·l·q/(π·d_seat·y³)
//
// The last term is the laminar film over a land of width l. It makes a stack stiff in cold oil and at small lift.
//
// Each shim is a [Plate], clamped inside and free outside. Shims lie on one another without friction, and touch where
// they press and nowhere else: that contact is solved once, at each interface on the edges of the shims about it and
// on 16 circles between. Stacks as they are built have c within a part in a thousand; those recorded from finite
// elements within a part in ten thousand. Where a face lies on one ten times as thick, only the size of c is known. So
// n equal shims are n times as stiff as one; glued into one plate they would be n³ times.
//
// The oil presses fully on the ported ring at any lift. Lift is to stay below
// about the thickness of the face shim, beyond which the stack is stiffer.
type ShimStack struct {
	compliance float64 // of the seat, m/Pa
	face       float64 // thickness of the face shim, m
	dish       float64 // m
	around     float64 // length of the seat, m
	ports      float64 // m²
	land       float64 // m
	discharge  float64
}

// NewShimStack checks the specification and solves the contact of the shims.
func NewShimStack(s ShimStackSpec) (ShimStack, error) {
	f := check.Of("ShimStackSpec")
	s.check(f)
	if err := f.Err(); err != nil {
		return ShimStack{}, err
	}
	return ShimStack{
		compliance: s.compliance(),
		face:       float64(s.Shims[0].Thickness),
		dish:       float64(s.Dish),
		around:     math.Pi * float64(s.Seat),
		ports:      float64(s.Ports),
		land:       float64(s.Land),
		discharge:  s.Discharge,
	}, nil
}

const mostShims = 24

func (s ShimStackSpec) check(f *check.Faults) {
	clamp := check.Between(f, "Clamp", s.Clamp, 3*units.Millimeter, 40*units.Millimeter)
	if n := len(s.Shims); n < 1 || n > mostShims {
		f.Report("Shims", n, fmt.Sprintf("1 to %d shims", mostShims), "")
	}
	face := false // whether the first shim can be one
	for i, shim := range s.Shims[:min(len(s.Shims), mostShims)] {
		diameter := fmt.Sprintf("Shims[%d].Diameter", i)
		sound := check.Between(f, diameter, shim.Diameter, 4*units.Millimeter, 80*units.Millimeter)
		face = face || i == 0 && sound
		if sound && clamp && shim.Diameter < 1.02*s.Clamp {
			f.Report(diameter, shim.Diameter, fmt.Sprintf("at least %.6g, 2 %% above the clamp", 1.02*s.Clamp),
				"it does not bend; take it as the clamp")
		}
		thickness := fmt.Sprintf("Shims[%d].Thickness", i)
		if check.Between(f, thickness, shim.Thickness, 0.05*units.Millimeter, 2*units.Millimeter) && sound &&
			shim.Thickness >= shim.Diameter/2 {
			f.Report(thickness, shim.Thickness, fmt.Sprintf("below the radius %.6g", shim.Diameter/2), "")
		}
	}
	checkMaterial(f, s.Young, s.Poisson)
	if clamp && face {
		if check.Between(f, "Seat", s.Seat, 1.01*s.Clamp, s.Shims[0].Diameter) &&
			check.Between(f, "PortOuter", s.PortOuter, 1.005*s.Clamp, s.Seat) {
			if check.Between(f, "PortInner", s.PortInner, s.Clamp, s.PortOuter) && s.PortInner > 0.999*s.PortOuter {
				f.Report("PortInner", s.PortInner, "0.1 % below the outer diameter of the ports", "")
			}
		}
	}
	check.Between(f, "Land", s.Land, 0, 10*units.Millimeter)
	check.Between(f, "Dish", s.Dish, 0, 0.5*units.Millimeter)
	checkArea(f, "Ports", s.Ports, 0.1*units.SquareMillimeter, largestOpening)
	check.Between(f, "Discharge", s.Discharge, 0.3, 1)
}

// Lift of the face shim off its seat; 0 up to the cracking pressure.
func (s ShimStack) Lift(p units.Pressure) units.Length {
	return units.Length(max(0, s.compliance*float64(p)-s.dish))
}

// Limit is the lift up to which the stack bends as computed, the thickness of the face shim: beyond, real shims are
// stiffer.
func (s ShimStack) Limit() units.Length { return units.Length(s.face) }

// Raised is the pressure that lifts the face shim so far, (dish + lift)/c, good up to [ShimStack.Limit].
func (s ShimStack) Raised(lift units.Length) units.Pressure {
	if s.dish == 0 && lift == 0 {
		return 0
	}
	return units.Pressure((s.dish + float64(lift)) / s.compliance)
}

// Crack is the pressure that lifts the face shim off its seat, dish/c.
func (s ShimStack) Crack() units.Pressure { return s.Raised(0) }

// Flow is 0 up to the cracking pressure.
func (s ShimStack) Flow(p units.Pressure, o Oil) units.Flow { return units.Flow(s.flow(float64(p), o)) }

// shut is a lift below the size of an atom.
const shut = 1e-12 // m

func (s ShimStack) flow(p float64, o Oil) float64 {
	lift := float64(s.Lift(units.Pressure(p)))
	if lift < shut {
		return 0
	}
	gap := s.around * lift
	return float64(passage{
		viscous:  12 * s.land / (gap * lift * lift),
		inertial: (1/(gap*gap) + 1/(s.ports*s.ports)) / (2 * s.discharge * s.discharge),
	}.Flow(units.Pressure(p), o))
}

// Drop is the pressure difference that drives q; no pressure drives a negative flow.
func (s ShimStack) Drop(q units.Flow, o Oil) units.Pressure {
	if q <= 0 || s.around == 0 {
		return blocked(q)
	}
	return units.Pressure(invert(func(p float64) float64 { return s.flow(p, o) }, float64(q), float64(s.Crack())))
}

// plates are the shims as plates on radii, each with a share of the load; equal
// neighbors bend alike and count as one of their summed rigidity.
func (s ShimStackSpec) plates() []Plate {
	var plates []Plate
	for _, shim := range s.Shims {
		p := newPlate(PlateSpec{Outer: shim.Diameter, Inner: s.Clamp, Thickness: shim.Thickness,
			Young: s.Young, Poisson: s.Poisson, OuterEdge: Free, InnerEdge: Clamped})
		if n := len(plates); n > 0 && plates[n-1].outer == p.outer {
			plates[n-1].rigidity += p.rigidity
			continue
		}
		plates = append(plates, p)
	}
	return plates
}

// compliance is the deflection of the face shim at the seat per pressure.
func (s ShimStackSpec) compliance() float64 {
	shims := s.plates()
	oil := Load{Pressure: 1, From: s.PortInner, To: s.PortOuter}
	lift := shims[0].Deflection(oil, s.Seat)
	c := newContact(shims, oil, s.PortInner, s.PortOuter, s.Seat)
	for i, f := range c.solve() {
		if c.places[i].k == 0 && f > 0 {
			along := Load{Force: units.Force(f), Circle: units.Length(2 * c.places[i].r)}
			lift -= shims[0].Deflection(along, s.Seat)
		}
	}
	// A face far thinner than its backing bulges between the circles; it lifts no less than tied to the others.
	tied := shims[0].Deflection(oil, s.Seat)
	total := 0.0
	for _, shim := range shims {
		total += shim.rigidity
	}
	return max(float64(lift), float64(tied)*shims[0].rigidity/total)
}
