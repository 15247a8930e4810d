package oil

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Refitted is the fill after the metal was exchanged and the oil brought to leave the wanted gas at full travel: an
// air cartridge, counted as Metal with all it encloses, comes out and a coil kit of metal goes in. The oil to add,
// or below 0 to draw off, is the difference of the two volumes
//
//	V_out − V_in + V_r − V_r,wanted
func (f Fill) Refitted(metal, residual units.Volume) (Fill, error) {
	c := check.Of("Refitted")
	check.Between(c, "metal", metal, 0, f.interior)
	check.Between(c, "residual", residual, 0, f.interior)
	oil := f.interior - metal - residual
	if c.Err() == nil && !(oil > 0) {
		c.Report("residual", residual, fmt.Sprintf("below %.6g", f.interior-metal), "no room is left for oil")
	}
	if err := c.Err(); err != nil {
		return Fill{}, err
	}
	return f.With(metal, oil)
}

// ResidualFor is the gas at full travel that gives a gap the compression ratio, above 1: A·L / (ratio − 1).
func ResidualFor(ratio float64, area units.Area, travel units.Length) units.Volume {
	return units.Volume(float64(area) * float64(travel) / (ratio - 1))
}

// LockLevel is the level at which hydraulic lock begins: any higher and the leg
// with that sealed area and travel stands on its oil before full travel, its
// gap having reached LockRatio. Oil that warms raises the level; see Warmed.
func (f Fill) LockLevel(area units.Area, travel units.Length) units.Length {
	return f.LevelOf(f.OilFor(LockRatio, area, travel))
}
