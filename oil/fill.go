package oil

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// leastColumn is the least section that a level moves over.
const leastColumn = 1 * units.SquareCentimeter

// FillSpec is the oil in one leg, by volume or by level.
type FillSpec struct {
	Interior units.Volume // inside of the leg at full travel, spring and oil out, 5 mL to 3 L
	Column   units.Area   // section the level moves over, 1 cm² to 60 cm²
	Metal    units.Volume // spring, spacer and guide that go in after the oil, 0 to Interior

	Volume units.Volume // of oil, above 0; zero: given by Level
	Level  units.Length // air over the oil, fork compressed, spring out; zero: given by Volume
}

// Fill is the oil in one leg.
type Fill struct {
	interior, oil, metal units.Volume
	column               units.Area
}

// NewFill checks the specification: exactly one of volume and level, and oil and metal that leave the leg some gas.
// A leg that would lock on its oil before full travel is not an error but a Residual of 0 or less; oil that
// overflows the compressed leg with the spring out is.
func NewFill(s FillSpec) (Fill, error) {
	f := check.Of("FillSpec")
	interior := check.Between(f, "Interior", s.Interior, 5*units.Milliliter, 3*units.Liter)
	column := check.Between(f, "Column", s.Column, leastColumn, 60*units.SquareCentimeter)
	if interior {
		check.Between(f, "Metal", s.Metal, 0, s.Interior)
	}
	oil := s.Volume
	switch {
	case s.Volume != 0 && s.Level != 0:
		f.Report("Level", s.Level, "to be left out when Volume is given", "")
	case s.Volume == 0 && s.Level == 0:
		f.Report("Volume", s.Volume, "an oil volume, or a level", "")
	case s.Volume != 0 && interior:
		if !(s.Volume > 0 && s.Volume < s.Interior) {
			hint := ""
			if s.Volume > 0 {
				hint = "oil above the leg"
			}
			f.Report("Volume", s.Volume, fmt.Sprintf("above 0 and below the leg's %.6g", s.Interior), hint)
		}
	case s.Level != 0 && interior && column:
		height := units.Length(float64(s.Interior) / float64(s.Column))
		if !(s.Level > 0 && s.Level < height) {
			f.Report("Level", s.Level, fmt.Sprintf("above 0 and below %.0f, the height of the leg", height),
				levelHint(s.Level))
		}
		oil = s.Interior - units.Volume(float64(s.Column)*float64(s.Level))
	}
	if err := f.Err(); err != nil {
		return Fill{}, err
	}
	return Fill{interior: s.Interior, oil: oil, metal: s.Metal, column: s.Column}, nil
}

func levelHint(h units.Length) string {
	if h < 0 {
		return "oil above the tube"
	}
	return ""
}

// With is the same leg with other metal and oil in it.
func (f Fill) With(metal, oil units.Volume) (Fill, error) {
	return NewFill(FillSpec{Interior: f.interior, Column: f.column, Metal: metal, Volume: oil})
}

// Volume of the oil.
func (f Fill) Volume() units.Volume { return f.oil }

// Metal is what goes in after the oil.
func (f Fill) Metal() units.Volume { return f.metal }

// Column is the section the level moves over.
func (f Fill) Column() units.Area { return f.column }

// Level is the height of air over the oil with the fork compressed and the spring out, as it is set at the bench.
func (f Fill) Level() units.Length { return f.LevelOf(f.oil) }

// LevelOf is the level that a volume of oil has in the leg.
func (f Fill) LevelOf(oil units.Volume) units.Length {
	return units.Length(float64(f.interior-oil) / float64(f.column))
}

// OilAt is the oil that stands at a level.
func (f Fill) OilAt(level units.Length) units.Volume { return f.interior - cylinder(f.column, level) }

// OilFor is the oil with which the gap of a leg of that sealed area and travel has a compression ratio above 1, or
// with LockRatio locks: V_i − V_m − A·L/(ratio − 1). To keep to it when warm, [Fluid.Expand] it back to the cold.
func (f Fill) OilFor(ratio float64, area units.Area, travel units.Length) units.Volume {
	return f.interior - f.metal - ResidualFor(ratio, area, travel)
}

// Raised is how much the level rises when spring, spacer and guide go in.
func (f Fill) Raised() units.Length {
	return units.Length(float64(f.metal) / float64(f.column))
}

// Residual is the gas left at full travel. At 0 or less the leg locks on its oil before full travel.
func (f Fill) Residual() units.Volume { return f.interior - f.oil - f.metal }

// Warmed is the fill after its oil has gone from one temperature to another.
func (f Fill) Warmed(oil Fluid, from, to units.Temperature) Fill {
	f.oil = oil.Expand(f.oil, from, to)
	return f
}

// Sealed is the gap in a leg that was closed over the fill, fork extended, and went from one temperature to another:
// the gas of the specification, whose Residual is not used, keeps its amount in the room that the warm oil leaves.
func (f Fill) Sealed(s AirGapSpec, oil Fluid, from, to units.Temperature) AirGapSpec {
	s.Residual = f.Residual()
	closed := s.Extended()
	s.Residual = f.Warmed(oil, from, to).Residual()
	// What a state cannot hold is left without pressure, which NewAirGap refuses.
	warm, _ := gas.State{Pressure: s.Pressure, Volume: closed, Temperature: from}.Compress(s.Extended(), gas.Isothermal)
	warm, _ = warm.Heat(to)
	s.Pressure = warm.Pressure
	return s
}
