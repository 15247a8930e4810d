package spring

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/power"
	"example.org/forkcurve/units"
)

// maxExponent is that of a monatomic gas, more than any filling of a fork.
const maxExponent = 5.0 / 3

// ChamberSpec is a sealed gas space whose volume follows travel.
type ChamberSpec struct {
	Area     units.Area             // effective piston area, ±0.1 cm² to ±100 cm²; negative: the space grows in compression
	Volume   units.Volume           // of gas at full extension, 0.5 mL to 5 L; must outlast the stroke
	Pressure units.AbsolutePressure // at full extension, 0.01 bar to 65 bar absolute
	Ambient  units.AbsolutePressure // outside, 0.1 bar to 1.5 bar absolute
	Exponent float64                // polytropic n, 1 (at rest) to 5/3; about 1.3 when ridden
	Travel   units.Length           // of the fork, 1 mm to 400 mm
}

// Chamber is a sealed gas space that acts on the fork through a piston area:
// F = A·(p₀·(V/V₀)⁻ⁿ − p_a) with V = V₀ − A·x.
type Chamber struct {
	area, volume      float64 // m², m³
	pressure, ambient float64 // Pa absolute, at x = 0
	shrink            float64 // A/V₀, 1/m
	n                 float64
	power             *power.Inverse // nil for n = 1
	stroke            float64        // m
}

var _ Curve = Chamber{}

// NewChamber checks the specification, and that some gas is left at full
// travel.
func NewChamber(s ChamberSpec) (Chamber, error) {
	f := check.Of("ChamberSpec")
	area := check.Between(f, "Area", units.Area(math.Abs(float64(s.Area))), 0.1*units.SquareCentimeter, 100*units.SquareCentimeter)
	volume := check.Between(f, "Volume", s.Volume, 0.5*units.Milliliter, 5*units.Liter)
	check.Absolute(f, "Pressure", s.Pressure, 0.01*units.Bar, maxPressure)
	checkGas(f, s.Ambient, s.Exponent)
	travel := check.Between(f, "Travel", s.Travel, 1*units.Millimeter, 400*units.Millimeter)
	if swept := units.Volume(float64(s.Area) * float64(s.Travel)); area && volume && travel && s.Volume <= swept {
		f.Report("Volume", s.Volume, fmt.Sprintf("above the %.1f swept over full travel", swept), "no gas would be left")
	}
	if err := f.Err(); err != nil {
		return Chamber{}, err
	}
	return newChamber(s), nil
}

func checkGas(f *check.Faults, ambient units.AbsolutePressure, n float64) {
	check.Absolute(f, "Ambient", ambient, 0.1*units.Bar, 1.5*units.Bar)
	check.Between(f, "Exponent", n, 1, maxExponent)
}

// newChamber takes a specification that has been checked.
func newChamber(s ChamberSpec) Chamber {
	c := Chamber{
		area:     float64(s.Area),
		volume:   float64(s.Volume),
		pressure: s.Pressure.In(units.Pascal),
		ambient:  s.Ambient.In(units.Pascal),
		shrink:   float64(s.Area) / float64(s.Volume),
		n:        s.Exponent,
		stroke:   float64(s.Travel),
	}
	if c.n != 1 {
		c.power = power.NewInverse(c.n)
	}
	return c
}

// Force is A·(p − p_a).
func (c Chamber) Force(x units.Length) units.Force {
	if !c.holds(x) {
		return units.Force(nan)
	}
	return units.Force(c.force(c.ratio(x)))
}

// Rate is n·p·A²/V.
func (c Chamber) Rate(x units.Length) units.Stiffness {
	if !c.holds(x) {
		return units.Stiffness(nan)
	}
	return units.Stiffness(c.rate(c.ratio(x)))
}

// Energy is the work done on the gas less the work of the ambient on the
// piston.
func (c Chamber) Energy(x units.Length) units.Energy {
	if !c.holds(x) {
		return units.Energy(nan)
	}
	return units.Energy(c.energy(c.ratio(x)))
}

// Stroke is the travel.
func (c Chamber) Stroke() units.Length { return units.Length(c.stroke) }

// Pressure of the gas at x; NaN outside the stroke.
func (c Chamber) Pressure(x units.Length) units.AbsolutePressure {
	if !c.holds(x) {
		return units.Absolute(units.Pressure(nan))
	}
	return units.Absolute(units.Pressure(c.pressure * c.grow(c.ratio(x))))
}

// Volume of the gas at x; NaN outside the stroke.
func (c Chamber) Volume(x units.Length) units.Volume {
	if !c.holds(x) {
		return units.Volume(nan)
	}
	return units.Volume(c.volume * c.ratio(x))
}

// The methods below work on u = V/V₀ in SI.

func (c *Chamber) force(u float64) float64 { return c.area * (c.pressure*c.grow(u) - c.ambient) }

func (c *Chamber) rate(u float64) float64 {
	return c.n * c.pressure * c.grow(u) / u * c.area * c.shrink
}

func (c *Chamber) energy(u float64) float64 {
	return c.pressure*c.volume*polytropicWork(u, c.n) - c.ambient*c.volume*(1-u)
}

// grow is p/p₀ = u⁻ⁿ.
func (c *Chamber) grow(u float64) float64 {
	if c.power == nil {
		return 1 / u
	}
	return c.power.Of(u)
}

func (c *Chamber) ratio(x units.Length) float64 { return 1 - c.shrink*float64(x) }

func (c *Chamber) holds(x units.Length) bool { return x >= 0 && float64(x) <= c.stroke }

// polytropicWork is (u¹⁻ⁿ − 1)/(n − 1), which tends to −ln u as n tends to 1; it
// is the work done on a gas compressed from 1 to u, over p₀·V₀.
func polytropicWork(u, n float64) float64 {
	log := -math.Log(u)
	if n == 1 {
		return log
	}
	return math.Expm1((n-1)*log) / (n - 1)
}

// settled is the pressure at full extension of the polytrope through the state
// at volume ratio u that a gas of pressure p at full extension reaches at rest.
func settled(p units.AbsolutePressure, u, n float64) units.AbsolutePressure {
	return units.Absolute(units.Pressure(p.In(units.Pascal) * math.Pow(u, n-1)))
}

// About is the chamber whose gas has settled at rest at x and moves from there
// with exponent n. The receiver's exponent does not matter: its pressure is that
// at rest at full extension.
func (s ChamberSpec) About(x units.Length, n float64) ChamberSpec {
	s.Pressure = settled(s.Pressure, s.ratio(x), n)
	s.Exponent = n
	return s
}

func (s ChamberSpec) ratio(x units.Length) float64 {
	return 1 - float64(s.Area)*float64(x)/float64(s.Volume)
}
