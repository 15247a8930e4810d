package setup

import (
	"fmt"
	"reflect"
	"strings"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Setup is a fork in one state: closed, filled and soaked to the air around it.
// It is immutable and safe for concurrent use.
type Setup struct {
	spec    Spec
	ambient gas.Ambient
	springs spring.Curve // the mechanical ones of both legs; nil: none
	legs    [2][]space   // left, right
	rest    chamber.Sum  // the curve at rest
}

// Spec is the specification the fork was built from. What has happened to its gas since
// is not in it.
func (s *Setup) Spec() Spec { return s.spec.Clone() }

// Travel of the fork.
func (s *Setup) Travel() units.Length { return s.spec.Travel }

// Ambient is the air the fork is in now.
func (s *Setup) Ambient() gas.Ambient { return s.ambient }

// Friction is that of the whole fork, half the band between pushed-down and
// lifted-up.
func (s *Setup) Friction() units.Force { return s.spec.Friction }

// Equal reports whether both forks are built alike and hold the same gas in the same air.
func (s *Setup) Equal(o *Setup) bool {
	if s == nil || o == nil {
		return s == o
	}
	return s.ambient == o.ambient && reflect.DeepEqual(s.legs, o.legs) && reflect.DeepEqual(s.spec, o.spec)
}

// String is what the fork holds and where, as "305 mm fork; left: air 9 bar, gas over the
// oil; right: gas over the oil; at 20 °C, 0.985 bar abs".
func (s *Setup) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%.0f fork", s.spec.Travel)
	for i, l := range []Leg{s.spec.Left, s.spec.Right} {
		fmt.Fprintf(&b, "; %v: %v", Side(i), l)
	}
	fmt.Fprintf(&b, "; at %.0f, %.3f", s.ambient.Temperature, s.ambient.Pressure)
	return b.String()
}

// Curve is the fork's force against travel with polytropic exponent n from full
// extension: 1 for a slow movement, about 1.3 for a ridden one, at most 5/3.
// Another n gives a curve that [spring.Err] tells the fault of.
func (s *Setup) Curve(n float64) spring.Curve { return s.CurveAbout(0, n) }

// CurveAbout is the curve of a fork that has settled at rest at x and moves from
// there with exponent n. An x outside its stroke or an n outside [1, 5/3] gives a
// curve that [spring.Err] tells the fault of.
func (s *Setup) CurveAbout(x units.Length, n float64) spring.Curve {
	f := check.Of("Curve")
	check.Between(f, "x", x, 0, s.rest.Stroke())
	check.Between(f, "n", n, gas.Isothermal, 5.0/3)
	switch err := f.Err(); {
	case err != nil:
		return spring.Failed(err)
	case n == gas.Isothermal:
		return &s.rest
	}
	return s.sum(new(chamber.Sum), x, n)
}

// sum is everything that resists, in the place given.
func (s *Setup) sum(sum *chamber.Sum, x units.Length, n float64) *chamber.Sum {
	sum.Restart(float64(s.spec.Travel))
	if s.springs != nil {
		sum.AddCurve(s.springs, 1)
	}
	ambient := s.ambient.Pressure.In(units.Pascal)
	for _, l := range s.legs {
		for g := range groups(l) {
			g.addTo(sum, x, n, ambient)
			if end := g[0].end; g[0].part == trapped {
				sum.End(float64(end))
			}
		}
	}
	return sum
}

// Side names a leg.
type Side int

// The legs, as seen by the rider.
const (
	Left Side = iota
	Right
)

var sides = enum.Names[Side]{Left: "left", Right: "right"}

// String is "left" or "right".
func (s Side) String() string { return sides.String(s) }

// MarshalText writes the name.
func (s Side) MarshalText() ([]byte, error) { return sides.Marshal(s) }

// UnmarshalText reads a name.
func (s *Side) UnmarshalText(text []byte) error { return sides.Unmarshal(text, s) }

// Gap is the gas over the oil of one leg, moving with exponent n from full
// extension. A leg without it, another side and an n outside [1, 5/3] are errors.
func (s *Setup) Gap(side Side, n float64) (oil.AirGap, error) {
	g, err := s.group(side, trapped)
	if err != nil {
		return oil.AirGap{}, err
	}
	gap := s.leg(side).Gap.spec(s.spec.Travel, s.ambient)
	gap.Pressure, gap.Exponent = g[0].gas.Pressure, n
	return oil.NewAirGap(gap)
}

// Air is the air spring of one leg, moving with exponent n from full extension. A leg
// without one, one with a floating piston, another side and an n outside [1, 5/3] are
// errors.
func (s *Setup) Air(side Side, n float64) (spring.Air, error) {
	g, err := s.group(side, airSpring)
	if err != nil {
		return spring.Air{}, err
	}
	a := s.leg(side).Air
	if a.SecondVolume != 0 {
		return spring.Air{}, &units.RangeError{Field: "side", Value: side,
			Want: "a leg whose air spring has no floating piston"}
	}
	spec := spring.AirSpec{Bore: a.Bore, Rod: a.Rod, Ambient: s.ambient.Pressure, Exponent: n, Travel: s.spec.Travel}
	for _, c := range g {
		switch {
		case c.joint == byPort:
			spec.NegativeVolume, spec.NegativePressure = c.gas.Volume, c.gas.Pressure
		case c.joint == alone || n == gas.Isothermal:
			spec.Volume += c.gas.Volume
			spec.Pressure = c.gas.Pressure
		}
	}
	return spring.NewAir(spec)
}

func (s *Setup) leg(side Side) Leg {
	if side == Right {
		return s.spec.Right
	}
	return s.spec.Left
}

// group is the gas of one part of a leg.
func (s *Setup) group(side Side, p part) (group, error) {
	if side != Left && side != Right {
		return nil, &units.RangeError{Field: "side", Value: int(side), Want: "Left or Right"}
	}
	for g := range groups(s.legs[side]) {
		if g[0].part == p {
			return g, nil
		}
	}
	return nil, &units.RangeError{Field: "side", Value: side, Want: "a leg with " + parts[p].words}
}
