package oil

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// LockRatio is the compression ratio at which a gas space counts as gone and the leg as locked on its oil. At that
// ratio a gap closed at 1 bar has reached some 100 bar at rest, far beyond what seals and tubes hold.
const LockRatio = 100

// AirGapSpec is the gas trapped above the oil of one leg, or in the lower legs of a bicycle fork.
type AirGapSpec struct {
	Area     units.Area             // sealed area of the sliding tube less any swallowed rod, 1 cm² to 40 cm²
	Residual units.Volume           // gas at full travel, −1 L to 2 L; 0 or less: the leg locks before
	Travel   units.Length           // of the fork, 1 mm to 400 mm
	Pressure units.AbsolutePressure // at full extension at rest, 0.1 bar to 10 bar absolute
	Ambient  units.AbsolutePressure // outside, 0.1 bar to 1.5 bar absolute
	Exponent float64                // polytropic n, 1 to 5/3
}

// AirGap is the air gap of one leg as a spring. Its Stroke ends before full travel where the leg locks on its oil.
type AirGap struct {
	spring.Chamber
	extended, residual units.Volume
}

var _ spring.Curve = AirGap{}

// Validate reports every field out of range, as *[units.RangeError], and oil that fills the leg at full extension. A
// lock within travel is a shorter stroke.
func (s AirGapSpec) Validate() error {
	if err := s.check(); err != nil {
		return err
	}
	return s.chamber().Validate()
}

func (s AirGapSpec) check() error {
	f := check.Of("AirGapSpec")
	area := check.Between(f, "Area", s.Area, 1*units.SquareCentimeter, 40*units.SquareCentimeter)
	residual := check.Between(f, "Residual", s.Residual, -1*units.Liter, 2*units.Liter)
	travel := check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	check.Absolute(f, "Pressure", s.Pressure, 0.1*units.Bar, 10*units.Bar)
	check.Absolute(f, "Ambient", s.Ambient, 0.1*units.Bar, 1.5*units.Bar)
	check.Between(f, "Exponent", s.Exponent, 1, 5.0/3)
	extended := s.Extended()
	if area && residual && travel && extended < 1*units.Milliliter {
		f.Report("Residual", s.Residual, fmt.Sprintf("above %.6g", 1*units.Milliliter-(extended-s.Residual)),
			"oil fills the leg before it moves")
	}
	return f.Err()
}

// chamber is the gas up to where the leg locks.
func (s AirGapSpec) chamber() spring.ChamberSpec {
	return spring.ChamberSpec{Area: s.Area, Volume: s.Extended(), Pressure: s.Pressure, Ambient: s.Ambient,
		Exponent: s.Exponent, Travel: s.Stroke()}
}

// NewAirGap makes the spring of a specification that is sound: see [AirGapSpec.Validate].
func NewAirGap(s AirGapSpec) (AirGap, error) {
	if err := s.check(); err != nil {
		return AirGap{}, err
	}
	c, err := spring.NewChamber(s.chamber())
	if err != nil {
		return AirGap{}, err
	}
	return AirGap{Chamber: c, extended: s.Extended(), residual: s.Residual}, nil
}

// Extended is the gas at full extension, Residual + A·L.
func (s AirGapSpec) Extended() units.Volume {
	return s.Residual + units.Volume(float64(s.Area)*float64(s.Travel))
}

// Stroke is the travel at which [LockRatio] is reached, or that of the fork where it ends before.
func (s AirGapSpec) Stroke() units.Length {
	return min(s.Travel, units.Length(float64(s.Extended())*(1-1.0/LockRatio)/float64(s.Area)))
}

// CompressionRatio is the gas volume at full extension over that at full travel; +Inf where the leg locks first.
func (g AirGap) CompressionRatio() float64 {
	if g.residual <= 0 {
		return math.Inf(1)
	}
	return float64(g.extended / g.residual)
}

// Locks is the travel at which the leg locks on its oil, and whether it does so within the travel of the fork.
func (g AirGap) Locks() (units.Length, bool) {
	return g.Stroke(), g.CompressionRatio() > LockRatio
}
