package spring

import (
	"fmt"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// NestedSpec is a coil spring with a second one inside, both on the same seats.
type NestedSpec struct {
	Outer, Inner CoilPart     // either may be the shorter
	Preload      units.Length // of the longer one at full extension, −50 mm to 100 mm; negative: loose by that much
	Travel       units.Length // of the fork, 1 mm to 400 mm
}

// Nested is two springs side by side of which the shorter joins later:
//
//	F = k_o·max(0, x + p_o) + k_i·max(0, x + p_i)
//
// with p the compression of each at full extension, free length less installed
// length, negative while it does not touch. Adding both rates from the start
// is right only for equal free lengths.
type Nested struct {
	piecewise
	join float64 // m
}

var _ Curve = Nested{}

// NewNested checks the specification. The stroke ends where the first of the two
// is solid, if that is within Travel.
func NewNested(s NestedSpec) (Nested, error) {
	f := check.Of("NestedSpec")
	f.Nest("Outer", s.Outer.check())
	f.Nest("Inner", s.Inner.check())
	check.Between(f, "Preload", s.Preload, -50*units.Millimeter, 100*units.Millimeter)
	check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	installed := max(s.Outer.FreeLength, s.Inner.FreeLength) - s.Preload
	stroke := min(s.Travel, installed-s.Outer.SolidLength, installed-s.Inner.SolidLength)
	if f.Err() == nil && !(stroke > coincident) {
		f.Report("Preload", s.Preload,
			fmt.Sprintf("less: the installed length %.6g must exceed both solid lengths", installed), "")
	}
	if err := f.Err(); err != nil {
		return Nested{}, err
	}
	outer, inner := float64(s.Outer.FreeLength-installed), float64(s.Inner.FreeLength-installed)
	end := float64(stroke)
	corners := []float64{0, min(max(0, -outer), end), min(max(0, -inner), end), end}
	slices.Sort(corners)
	line := make(polyline, len(corners))
	for i, x := range corners {
		line[i] = vertex{x, float64(s.Outer.Rate)*max(0, x+outer) + float64(s.Inner.Rate)*max(0, x+inner)}
	}
	return Nested{piecewise: line.path().spring(end), join: max(-outer, -inner)}, nil
}

// Join is the travel at which the shorter spring is touched. It may lie outside
// the stroke.
func (n Nested) Join() units.Length { return units.Length(n.join) }
