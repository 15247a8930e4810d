package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Edge is how a plate is held at one of its edges.
type Edge uint8

// The ways a plate is held.
const (
	Free      Edge = iota
	Supported      // can not move, can tilt
	Clamped        // can neither move nor tilt
	Guided         // can move, can not tilt
)

var edges = enum.Names[Edge]{Free: "free", Supported: "supported", Clamped: "clamped", Guided: "guided"}

// String is "free", "supported", "clamped" or "guided".
func (e Edge) String() string { return edges.String(e) }

// MarshalText writes the name.
func (e Edge) MarshalText() ([]byte, error) { return edges.Marshal(e) }

// UnmarshalText reads a name.
func (e *Edge) UnmarshalText(text []byte) error { return edges.Unmarshal(text, e) }

func (e Edge) holds() bool { return e == Supported || e == Clamped }

// PlateSpec is a flat ring that bends, as a shim.
type PlateSpec struct {
	Outer     units.Length // diameter, 2 mm to 200 mm
	Inner     units.Length // diameter, 0.1 mm to 0.99 of Outer
	Thickness units.Length // 0.01 mm to 10 mm, below the radius and the width of the ring
	Young     units.Stress // 10 GPa to 500 GPa; spring steel 206 GPa
	Poisson   float64      // 0.1 to 0.5; steel 0.3

	OuterEdge, InnerEdge Edge // one of them Supported or Clamped
}

// Plate is a ring-shaped plate by Kirchhoff's theory, solved exactly: D∇⁴w = q
// with D = E·h³/(12·(1 − ν²)). Deflections are to stay below about half the
// thickness (from memory): beyond, the plate stretches and is stiffer than this.
type Plate struct {
	outer, inner float64 // radii, m
	rigidity     float64 // D, N·m
	poisson      float64
	thickness    float64
	edges        [2]Edge // outer, inner
}

// NewPlate checks the specification.
func NewPlate(s PlateSpec) (Plate, error) {
	f := check.Of("PlateSpec")
	outer := check.Between(f, "Outer", s.Outer, 2*units.Millimeter, 200*units.Millimeter)
	inner := outer && check.Between(f, "Inner", s.Inner, 0.1*units.Millimeter, 0.99*s.Outer)
	if checkThickness(f, "Thickness", s.Thickness, s.Outer) && inner && s.Thickness > (s.Outer-s.Inner)/2 {
		f.Report("Thickness", s.Thickness, fmt.Sprintf("at most the width of the ring, %.6g", (s.Outer-s.Inner)/2), "")
	}
	checkMaterial(f, s.Young, s.Poisson)
	if s.OuterEdge > Guided {
		f.Report("OuterEdge", s.OuterEdge, "free, supported, clamped or guided", "")
	}
	if s.InnerEdge > Guided {
		f.Report("InnerEdge", s.InnerEdge, "free, supported, clamped or guided", "")
	}
	if !s.OuterEdge.holds() && !s.InnerEdge.holds() {
		f.Report("InnerEdge", s.InnerEdge, "supported or clamped, since the outer edge is "+s.OuterEdge.String(), "")
	}
	if err := f.Err(); err != nil {
		return Plate{}, err
	}
	return newPlate(s), nil
}

func checkThickness(f *check.Faults, field string, h, diameter units.Length) bool {
	ok := check.Between(f, field, h, 0.01*units.Millimeter, 10*units.Millimeter)
	if ok && diameter > 0 && h >= diameter/2 {
		f.Report(field, h, fmt.Sprintf("below the radius %.6g", diameter/2), "")
		return false
	}
	return ok
}

func checkMaterial(f *check.Faults, young units.Stress, poisson float64) {
	check.Between(f, "Young", young, 10e3*units.Megapascal, 500e3*units.Megapascal)
	check.Between(f, "Poisson", poisson, 0.1, 0.5)
}

func newPlate(s PlateSpec) Plate {
	h := float64(s.Thickness)
	return Plate{
		outer: float64(s.Outer) / 2, inner: float64(s.Inner) / 2, thickness: h, poisson: s.Poisson,
		rigidity: float64(s.Young) * h * h * h / (12 * (1 - s.Poisson*s.Poisson)),
		edges:    [2]Edge{s.OuterEdge, s.InnerEdge},
	}
}

// Load is what bends a plate: a pressure over a ring, a force spread along a
// circle, or both. Diameters outside the plate count as its edge.
type Load struct {
	Pressure units.Pressure // over the pressed ring
	From, To units.Length   // diameters of the pressed ring, To above From; 0: the edge of the plate

	Force  units.Force  // in all, spread along Circle
	Circle units.Length // diameter the force is spread along; 0: the inner edge
}

// Deflection at a diameter of the plate, positive with the load.
func (p Plate) Deflection(l Load, diameter units.Length) units.Length {
	r := p.clip(diameter)
	return units.Length(p.bend(p.normal(l), r).w)
}

// Stress is the radial bending stress in the surface at a diameter,
// σ = 6·M/h², positive where the loaded face is in tension.
func (p Plate) Stress(l Load, diameter units.Length) units.Stress {
	r := p.clip(diameter)
	moment := p.rigidity * p.bend(p.normal(l), r).moment(r, p.poisson)
	return units.Stress(6 * moment / (p.thickness * p.thickness))
}

func (p Plate) clip(diameter units.Length) float64 {
	return min(max(float64(diameter)/2, p.inner), p.outer)
}

// bending is a load over the rigidity, with radii.
type bending struct{ pressure, from, to, force, circle float64 }

func (p Plate) normal(l Load) bending {
	b := bending{
		pressure: float64(l.Pressure) / p.rigidity,
		from:     p.clip(l.From), to: p.clip(l.To),
		force: float64(l.Force) / (2 * math.Pi * p.rigidity), circle: p.clip(l.Circle),
	}
	if l.To == 0 {
		b.to = p.outer
	}
	return b
}

// section is the state of a plate at one radius: deflection, slope dw/dr, and
// with the signs of the load Laplacian ∇²w and transverse force r·Q/D.
type section struct{ w, slope, laplacian, shear float64 }

func (s section) moment(r, poisson float64) float64 {
	return s.laplacian - (1-poisson)*s.slope/r
}

func (s section) plus(k float64, t section) section {
	return section{s.w + k*t.w, s.slope + k*t.slope, s.laplacian + k*t.laplacian, s.shear + k*t.shear}
}

// advance carries a section from radius a to r under a uniform pressure q/D:
// the integrals of r·Q, then of (1/r)·(r·w')' = ∇²w, then of w'.
func (s section) advance(a, r, q float64) section {
	x, a2, r2 := math.Log(r/a), a*a, r*r
	d := (r - a) * (r + a)
	t := s.shear + q*a2/2
	return section{
		w: s.w + a*s.slope*x + s.laplacian/4*(d-2*a2*x) -
			t/4*(r2*x-d+a2*x) + q/16*((r2+a2)*d/4-a2*d+a2*a2*x),
		slope:     (a*s.slope + s.laplacian*d/2 - t*(r2*x/2-d/4) + q*d*d/16) / r,
		laplacian: s.laplacian - t*x + q*d/4,
		shear:     s.shear - q*d/2,
	}
}

// bend is the section at radius r under a load.
func (p Plate) bend(l bending, r float64) section {
	u, v := p.innerSections()
	end := p.loaded(l, p.outer)
	a1, a2 := p.outerConditions(u.advance(p.inner, p.outer, 0))
	b1, b2 := p.outerConditions(v.advance(p.inner, p.outer, 0))
	c1, c2 := p.outerConditions(end)
	det := a1*b2 - a2*b1
	s := section{}.plus((b1*c2-b2*c1)/det, u).plus((a2*c1-a1*c2)/det, v)
	return s.advance(p.inner, r, 0).plus(1, p.loaded(l, r))
}

// innerSections gives the two sections that the inner edge leaves open.
func (p Plate) innerSections() (u, v section) {
	tilt := section{slope: 1, laplacian: (1 - p.poisson) / p.inner} // without moment
	switch p.edges[1] {
	case Free:
		return section{w: 1}, tilt
	case Supported:
		return tilt, section{shear: 1}
	case Clamped:
		return section{laplacian: 1}, section{shear: 1}
	default:
		return section{w: 1}, section{laplacian: 1}
	}
}

// outerConditions gives the two quantities that the outer edge makes zero.
func (p Plate) outerConditions(s section) (float64, float64) {
	switch moment := s.moment(p.outer, p.poisson); p.edges[0] {
	case Free:
		return moment, s.shear
	case Supported:
		return s.w, moment
	case Clamped:
		return s.w, s.slope
	default:
		return s.slope, s.shear
	}
}

// loaded is what the load adds at r to a plate with nothing at its inner edge.
func (p Plate) loaded(l bending, r float64) section {
	var s section
	if r > l.from {
		s = s.plus(1, section{}.advance(l.from, r, l.pressure))
	}
	if r > l.to {
		s = s.plus(-1, section{}.advance(l.to, r, l.pressure))
	}
	if r >= l.circle {
		s = s.plus(1, section{shear: -l.force}.advance(l.circle, r, 0))
	}
	return s
}
