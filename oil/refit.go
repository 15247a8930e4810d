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

// GoodRatio is the compression ratio of the gas over the oil that a leg is filled up to, MostRatio the one beyond
// which a fill is refused. Common practice, no source.
const (
	GoodRatio = 5.0
	MostRatio = 6.0
)

// Refit is a leg whose air spring gives way to a coil kit: what stood in the oil comes out, and metal goes in.
type Refit struct {
	Was        Fill              // with the air spring, counted as Metal with all it encloses
	Metal      units.Volume      // of the kit that stands in the oil, spring included
	Shut, Kit  AirGapSpec        // the gas over the oil as it was closed, before and after; Residual is not used
	Oil        Fluid             // of which the expansion counts
	Cold, Warm units.Temperature // closed, and ridden
}

// Refitted is one fill of the leg and its gas.
type Refitted struct {
	Fill       Fill   // of the leg, cold
	Cold, Warm AirGap // the gas over it, closed cold
}

// Before is the leg with its air spring.
func (r Refit) Before() (Refitted, error) { return r.over(r.Was, r.Shut, nil) }

// BeforeWith is the leg with its air spring and so much oil.
func (r Refit) BeforeWith(oil units.Volume) (Refitted, error) {
	fill, err := r.Was.With(r.Was.Metal(), oil)
	return r.over(fill, r.Shut, err)
}

// With is the leg with the kit and so much oil.
func (r Refit) With(oil units.Volume) (Refitted, error) {
	fill, err := r.Was.With(r.Metal, oil)
	return r.over(fill, r.Kit, err)
}

// SameGas is the leg with the kit and the oil that leaves the gas the room it had.
func (r Refit) SameGas() (Refitted, error) {
	fill, err := r.Was.Refitted(r.Metal, r.Was.Residual())
	return r.over(fill, r.Kit, err)
}

// AtRatio is the leg with the kit, filled to a compression ratio above 1.
func (r Refit) AtRatio(ratio float64) (Refitted, error) { return r.With(r.OilFor(ratio)) }

// OilFor is the oil that fills the leg with the kit to a compression ratio above 1, or with [LockRatio] to its lock.
func (r Refit) OilFor(ratio float64) units.Volume {
	return r.Was.OilFor(ratio, r.Kit.Area, r.Kit.Travel) + r.Was.Metal() - r.Metal
}

func (r Refit) over(fill Fill, gap AirGapSpec, err error) (Refitted, error) {
	if err != nil {
		return Refitted{}, err
	}
	s := Refitted{Fill: fill}
	if s.Cold, err = NewAirGap(fill.Sealed(gap, r.Oil, r.Cold, r.Cold)); err != nil {
		return Refitted{}, err
	}
	s.Warm, err = NewAirGap(fill.Sealed(gap, r.Oil, r.Cold, r.Warm))
	return s, err
}
