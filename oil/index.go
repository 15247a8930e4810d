package oil

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// ViscosityIndex of an oil by ASTM D2270 (ISO 2909), unrounded; the standard
// reports it as a whole number. It is not defined below 2 mm²/s at 100 °C.
//
// Procedure A, for oils up to 100, is (L − U)/(L − H)·100 and procedure B, from 100 on, (10ᴺ − 1)/0.00715 + 100
// with Yᴺ = H/U, where U and Y are the viscosities at 40 °C and 100 °C, and L and H those at 40 °C of reference
// oils of index 0 and 100 with the same Y.
func ViscosityIndex(at40, at100 units.KinematicViscosity) (float64, error) {
	const most = 2e4 * units.SquareMillimeterPerSecond
	f := check.Of("ViscosityIndex")
	if check.Between(f, "at100", at100, leastViscosity, most) &&
		check.Between(f, "at40", at40, leastViscosity, 100*most) && at40 <= at100 {
		f.Report("at40", at40, fmt.Sprintf("above the %.6g at 100 °C", at100), "viscosity falls with temperature")
	}
	if err := f.Err(); err != nil {
		return 0, err
	}
	return index(at40, at100), nil
}

// ViscosityIndex of the oil by ASTM D2270, from its viscosities at 40 °C and
// 100 °C; false where they are not known or the latter is below 2 mm²/s.
func (f Fluid) ViscosityIndex() (float64, bool) {
	y := f.Viscosity(celsius100)
	if !(y >= leastViscosity-slack*units.SquareMillimeterPerSecond) {
		return 0, false
	}
	return index(f.Viscosity(celsius40), y), true
}

func index(at40, at100 units.KinematicViscosity) float64 {
	l, h := references(at100)
	if at40 > h {
		return float64((l-at40)/(l-h)) * 100
	}
	n := math.Log(float64(h/at40)) / math.Log(at100.In(units.SquareMillimeterPerSecond))
	return (math.Pow(10, n)-1)/0.00715 + 100
}

// ofIndex is the viscosity at 40 °C of the oil with that index and viscosity at 100 °C, the inverse of index.
func ofIndex(index float64, at100 units.KinematicViscosity) units.KinematicViscosity {
	l, h := references(at100)
	if index < 100 {
		return l - units.KinematicViscosity(index/100)*(l-h)
	}
	n := math.Log10(1 + 0.00715*(index-100))
	return h / units.KinematicViscosity(math.Pow(at100.In(units.SquareMillimeterPerSecond), n))
}

// references is L and H for a viscosity of at least 2 mm²/s at 100 °C, both in
// mm²/s: linear in the table, and beyond it by the standard's equations.
func references(at100 units.KinematicViscosity) (l, h units.KinematicViscosity) {
	y := at100.In(units.SquareMillimeterPerSecond)
	const unit = units.SquareMillimeterPerSecond
	if y > 70 {
		return units.KinematicViscosity((0.8353*y+14.67)*y-216) * unit,
			units.KinematicViscosity((0.1684*y+11.85)*y-97) * unit
	}
	row := 0.0
	switch {
	case y <= 20:
		row = (y - 2) / 0.1
	case y <= 30:
		row = 180 + (y-20)/0.2
	default:
		row = 230 + (y-30)/0.5
	}
	i := min(max(int(row), 0), len(indexTable)-2)
	p, q, part := indexTable[i], indexTable[i+1], row-float64(i)
	return units.KinematicViscosity(p.l+part*(q.l-p.l)) * unit, units.KinematicViscosity(p.h+part*(q.h-p.h)) * unit
}
