package geometry

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Circle is the area π/4·d² of a circle of diameter d.
func Circle(d units.Length) units.Area {
	return units.Area(math.Pi / 4 * float64(d) * float64(d))
}

// Tube is a round tube.
type Tube struct {
	Outer units.Length // outer diameter, 10 mm to 80 mm
	Bore  units.Length // inner diameter, at least 5 mm and below Outer
}

// Validate reports fields out of range and a bore that leaves no wall.
func (t Tube) Validate() error {
	f := check.Of("Tube")
	outer := check.Between(f, "Outer", t.Outer, 10*units.Millimeter, 80*units.Millimeter)
	bore := check.Between(f, "Bore", t.Bore, 5*units.Millimeter, 80*units.Millimeter)
	if outer && bore && t.Bore >= t.Outer {
		f.Report("Bore", t.Bore, fmt.Sprintf("below the outer diameter %.6g", t.Outer), "")
	}
	return f.Err()
}
