package setup

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Damper is a pressurized damper: its gas pushes on the section of the rod, a
// nearly constant force.
type Damper struct {
	Rod    units.Length // 6 mm to 30 mm
	Volume units.Volume // of the gas at full extension, 5 mL to 500 mL and more than the rod displaces
	Fill   gas.Fill     // at full extension
}

func (d Damper) validate(travel units.Length) error {
	f := check.Of("Damper")
	rod := check.Between(f, "Rod", d.Rod, 6*units.Millimeter, 30*units.Millimeter)
	volume := check.Between(f, "Volume", d.Volume, 5*units.Milliliter, 500*units.Milliliter)
	if swept := d.space().swept(travel); rod && volume && d.Volume <= swept {
		f.Report("Volume", d.Volume, fmt.Sprintf("above the %.1f the rod displaces", swept), "no gas would be left")
	}
	f.Nest("Fill", d.Fill.Validate())
	return f.Err()
}

func (d Damper) space() space {
	return space{part: reservoir, area: geometry.Circle(d.Rod), gas: gas.State{Volume: d.Volume}}
}
