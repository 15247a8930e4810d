package oil

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// InteriorSpec is the inside of one leg, fork compressed, spring and oil out.
type InteriorSpec struct {
	Fork  geometry.Fork // its tubes
	Depth units.Length  // mouth of the tube to the floor of the leg, 100 mm to 1000 mm
	Rod   units.Length  // diameter of the damper rod, 0 mm to 20 mm; 0: none

	// Cartridge is the tube of the damper; zero for none. An open one stands on the floor, full of the oil of the
	// leg. A closed one keeps its own oil and reaches from the floor to the mouth.
	Cartridge geometry.Tube
	Length    units.Length // of an open cartridge, 0 to Depth
	Closed    bool         // the cartridge keeps its own oil
}

// Interior is the inside of one leg.
type Interior struct {
	fork           geometry.Fork
	volume         units.Volume
	column, sealed units.Area
}

// NewInterior checks the specification. The depth is best found from one fill of
// which both numbers are known, as level + volume/Column: floors are not flat.
func NewInterior(s InteriorSpec) (Interior, error) {
	f := check.Of("InteriorSpec")
	fork := s.Fork.Validate()
	f.Nest("Fork", fork)
	depth := check.Between(f, "Depth", s.Depth, 100*units.Millimeter, 1000*units.Millimeter)
	thin := check.Between(f, "Rod", s.Rod, 0, 20*units.Millimeter)
	s.checkCartridge(f, depth, thin, !check.At(fork, "Fork.Stanchion.Bore"))
	if err := f.Err(); err != nil {
		return Interior{}, err
	}
	rod := geometry.Circle(s.Rod)
	outer := geometry.Circle(s.Cartridge.Outer)
	in := Interior{fork: s.Fork, column: s.Fork.OilColumn() - rod, sealed: s.Fork.SealedArea()}
	if s.Closed {
		in.column = s.Fork.OilColumn() - outer
		in.sealed -= rod
	}
	if !(in.column >= leastColumn) {
		f.Report("Column", in.column, "at least "+leastColumn.String(), "rod or cartridge fill the tube")
		return Interior{}, f.Err()
	}
	in.volume = cylinder(in.column, s.Depth) - cylinder(outer-geometry.Circle(s.Cartridge.Bore), s.Length)
	return in, nil
}

// checkCartridge looks at the cartridge beside what is sound of the leg: its depth, the rod, the bore.
func (s InteriorSpec) checkCartridge(f *check.Faults, depth, thin, bore bool) {
	switch {
	case s.Closed && s.Length != 0:
		f.Report("Length", s.Length, "to be left out when Closed", "a closed cartridge reaches from floor to mouth")
	case !s.Closed && depth:
		check.Between(f, "Length", s.Length, 0, s.Depth)
	}
	if s.Cartridge == (geometry.Tube{}) {
		if s.Closed || s.Length != 0 {
			f.Report("Cartridge.Outer", s.Cartridge.Outer, "the tube of the cartridge", "")
		}
		return
	}
	if err := s.Cartridge.Validate(); err != nil {
		f.Nest("Cartridge", err)
		return
	}
	if bore && !(s.Cartridge.Outer < s.Fork.Stanchion.Bore) {
		f.Report("Cartridge.Outer", s.Cartridge.Outer,
			fmt.Sprintf("below the stanchion's bore %.6g", s.Fork.Stanchion.Bore), "")
	}
	if thin && !(s.Rod < s.Cartridge.Bore) {
		f.Report("Rod", s.Rod, fmt.Sprintf("below the cartridge's bore %.6g", s.Cartridge.Bore), "")
	}
}

// FillSpec is the leg's part of a FillSpec, which still wants Metal and either Volume or Level.
func (in Interior) FillSpec() FillSpec { return FillSpec{Interior: in.volume, Column: in.column} }

// Area is the piston area of the trapped gas: that of the sealed tube, less the
// rod where a closed cartridge swallows it.
func (in Interior) Area() units.Area { return in.sealed }

// Drop is how much further below the mouth the oil stands with the leg extended by x from full travel than it does
// compressed, spring out, cap off and rod left down:
//
//	upright   x + x·(A − a)/S    the tube's wall leaves the oil
//	inverted  x − x·(B − A)/S    the ring between the tubes empties into the inner one
//
// with A the stanchion's outside, a its bore, B the bore around it and S the column. It holds while the oil stands
// inside the inner tube, above the cartridge, and the ring around an upright leg's inner tube stays full. A closed
// cartridge rises with the mouth: its leg is filled by volume.
func (in Interior) Drop(x units.Length) units.Length {
	outer := geometry.Circle(in.fork.Stanchion.Outer)
	gained := outer - geometry.Circle(in.fork.Stanchion.Bore)
	if in.fork.Layout == geometry.Inverted {
		gained = outer - geometry.Circle(in.fork.OuterBore)
	}
	return x + x*units.Length(gained/in.column)
}

// Displaced is the volume of metal of that mass, 7.85 g/mL for spring steel, 4.5 for titanium and 2.7 for aluminum.
func Displaced(m units.Mass, d units.Density) units.Volume {
	return units.Volume(float64(m) / float64(d))
}

func cylinder(a units.Area, l units.Length) units.Volume {
	return units.Volume(float64(a) * float64(l))
}
