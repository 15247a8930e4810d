package spring

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// CoilPart is a linear coil spring that works with another one.
type CoilPart struct {
	Rate        units.Stiffness // 0.1 N/mm to 500 N/mm
	FreeLength  units.Length    // 5 mm to 1000 mm, above SolidLength
	SolidLength units.Length    // 1 mm to 1000 mm
}

// block is the compression from free to solid.
func (c CoilPart) block() units.Length { return c.FreeLength - c.SolidLength }

func (c CoilPart) check() error {
	f := check.Of("CoilPart")
	check.Between(f, "Rate", c.Rate, 0.1*units.NewtonPerMillimeter, 500*units.NewtonPerMillimeter)
	free := check.Between(f, "FreeLength", c.FreeLength, 5*units.Millimeter, 1*units.Meter)
	solid := check.Between(f, "SolidLength", c.SolidLength, 1*units.Millimeter, 1*units.Meter)
	if free && solid && c.block() < 1*units.Millimeter {
		f.Report("FreeLength", c.FreeLength, "at least 1 mm above the solid length "+c.SolidLength.String(), "")
	}
	return f.Err()
}

// StackSpec is a dual-rate spring: two coil springs stacked end to end.
type StackSpec struct {
	Soft, Hard CoilPart     // Soft.Rate at most Hard.Rate; which one is on top does not matter
	Crossover  units.Length // compression of Soft at which a sleeve bridges it; 0: none, it closes solid
	Preload    units.Length // compression at full extension, −50 mm to 100 mm; negative: loose by that much
	Travel     units.Length // of the fork, 1 mm to 400 mm
}

// Stack is two springs in series until the softer one is stopped, by its solid
// length or earlier by a crossover sleeve:
//
//	k = k_s·k_h/(k_s + k_h)   then   k_h
//
// The change comes at the force k_s·s, with s the compression at which the
// softer one is stopped.
type Stack struct {
	piecewise
	crossover float64 // m
}

var _ Curve = Stack{}

// NewStack checks the specification. The stroke ends where both springs are
// stopped, if that is within Travel.
func NewStack(s StackSpec) (Stack, error) {
	f := check.Of("StackSpec")
	f.Nest("Soft", s.Soft.check())
	f.Nest("Hard", s.Hard.check())
	if f.Err() == nil && s.Soft.Rate > s.Hard.Rate {
		f.Report("Soft.Rate", s.Soft.Rate, "at most the rate of Hard, "+s.Hard.Rate.String(), "are the two swapped?")
	}
	soft, hard := s.Soft.block(), s.Hard.block()
	if s.Crossover != 0 && f.Err() == nil && check.Between(f, "Crossover", s.Crossover, 0.1*units.Millimeter, soft) {
		soft = s.Crossover
	}
	checkSeat(f, s.Preload, s.Travel, soft+hard)
	if err := f.Err(); err != nil {
		return Stack{}, err
	}
	line := inSeries(
		polyline{{}, {float64(soft), float64(soft) * float64(s.Soft.Rate)}},
		polyline{{}, {float64(hard), float64(hard) * float64(s.Hard.Rate)}})
	stopped := soft + min(hard, soft*units.Length(s.Soft.Rate/s.Hard.Rate))
	return Stack{
		piecewise: line.path().preloaded(float64(s.Preload)).spring(float64(s.Travel)),
		crossover: float64(stopped - s.Preload),
	}, nil
}

// Crossover is the travel at which the softer spring is stopped. It may lie
// outside the stroke.
func (s Stack) Crossover() units.Length { return units.Length(s.crossover) }
