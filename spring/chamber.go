package spring

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// maxExponent is that of a monatomic gas, more than any filling of a fork.
const maxExponent = 5.0 / 3

// ChamberSpec is a sealed gas space whose volume follows travel.
type ChamberSpec struct {
	Area     units.Area             // effective piston area, ±0.1 cm² to ±100 cm²; negative: the space grows
	Volume   units.Volume           // of gas at full extension, 0.5 mL to 5 L; must outlast the stroke
	Pressure units.AbsolutePressure // at full extension, 0.01 bar to 65 bar absolute
	Ambient  units.AbsolutePressure // outside, 0.1 bar to 1.5 bar absolute
	Exponent float64                // polytropic n, 1 (at rest) to 5/3; about 1.3 when ridden
	Travel   units.Length           // of the fork, 1 mm to 400 mm
}

// Chamber is a sealed gas space that acts on the fork through a piston area:
// F = A·(p₀·(V/V₀)⁻ⁿ − p_a) with V = V₀ − A·x.
type Chamber struct {
	flat
	gas chamber.Chamber
}

var _ Curve = Chamber{}

// Validate reports every field out of range, as *[units.RangeError], and no gas left at full travel.
func (s ChamberSpec) Validate() error {
	f := check.Of("ChamberSpec")
	area := check.Between(f, "Area", units.Area(math.Abs(float64(s.Area))), 0.1*units.SquareCentimeter,
		100*units.SquareCentimeter)
	volume := check.Between(f, "Volume", s.Volume, 0.5*units.Milliliter, 5*units.Liter)
	check.Absolute(f, "Pressure", s.Pressure, 0.01*units.Bar, maxPressure)
	checkGas(f, s.Ambient, s.Exponent)
	travel := check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	if swept := units.Volume(float64(s.Area) * float64(s.Travel)); area && volume && travel && s.Volume <= swept {
		f.Report("Volume", s.Volume, fmt.Sprintf("above the %.1f swept over full travel", swept),
			"no gas would be left")
	}
	return f.Err()
}

// NewChamber checks the specification.
func NewChamber(s ChamberSpec) (Chamber, error) {
	if err := s.Validate(); err != nil {
		return Chamber{}, err
	}
	return newChamber(s.gas(), s.Travel), nil
}

func checkGas(f *check.Faults, ambient units.AbsolutePressure, n float64) {
	check.Absolute(f, "Ambient", ambient, 0.1*units.Bar, 1.5*units.Bar)
	check.Between(f, "Exponent", n, 1, maxExponent)
}

// gas of a specification that has been checked.
func (s ChamberSpec) gas() chamber.Chamber {
	return chamber.New(float64(s.Area), float64(s.Volume), s.Pressure.In(units.Pascal), s.Ambient.In(units.Pascal),
		s.Exponent)
}

func newChamber(gas chamber.Chamber, travel units.Length) Chamber {
	sum := chamber.NewSum(float64(travel))
	sum.AddChamber(gas, 1)
	return Chamber{flat{sum}, gas}
}

// Pressure of the gas at x; NaN outside the stroke.
func (c Chamber) Pressure(x units.Length) units.AbsolutePressure {
	return units.Absolute(units.Pressure(c.gas.Pressure(c.within(x))))
}

// Volume of the gas at x; NaN outside the stroke.
func (c Chamber) Volume(x units.Length) units.Volume { return units.Volume(c.gas.Volume(c.within(x))) }

func (c Chamber) within(x units.Length) float64 {
	if x >= 0 && x <= c.Stroke() {
		return float64(x)
	}
	return nan
}

func (s ChamberSpec) ratio(x units.Length) float64 {
	return 1 - float64(s.Area)*float64(x)/float64(s.Volume)
}
