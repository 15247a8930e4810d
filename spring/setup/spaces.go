package setup

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Chamber names a gas space of a leg.
type Chamber int

const (
	Positive  Chamber = iota // of an air spring: the fork compresses it
	Linked                   // behind an orifice of the positive one
	Second                   // behind a floating piston of the positive one
	Negative                 // of an air spring: it grows as the fork compresses
	OverOil                  // trapped over the oil, or in a bicycle's lower leg
	Reservoir                // of a pressurized damper
)

var chambers = enum.Names[Chamber]{Positive: "positive", Linked: "linked", Second: "second", Negative: "negative",
	OverOil: "over-oil", Reservoir: "reservoir"}

// String is the name used in files, as "over-oil".
func (c Chamber) String() string { return chambers.String(c) }

// MarshalText writes the name.
func (c Chamber) MarshalText() ([]byte, error) { return chambers.Marshal(c) }

// UnmarshalText reads a name.
func (c *Chamber) UnmarshalText(text []byte) error { return chambers.Unmarshal(text, c) }

// Space is one gas space of a fork at some travel.
type Space struct {
	Side    Side         // the leg it is in
	Chamber Chamber      // which of the leg's
	Area    units.Area   // of the piston that works on it; below 0: grows in compression; 0: travel does not change it
	Gas     gas.State    // what it holds
	Port    units.Length // travel up to which a negative chamber is open to the positive one
	Valve   bool         // of its own, on a negative chamber: there is no port
}

// Spaces is the gas of the fork at a travel, 0 to the stroke, which [Setup.Curve] of the
// exponent n has moved there from full extension: in each leg, left first, the chambers of
// the air spring, a damper's gas and that over the oil.
func (s *Setup) Spaces(x units.Length, n float64) ([]Space, error) { return s.SpacesAbout(0, x, n) }

// SpacesAbout is the gas of the fork at a travel x, which [Setup.CurveAbout] of the exponent n has
// moved there after the fork has settled at rest at another travel, both 0 to the stroke; as in
// [Setup.Spaces].
func (s *Setup) SpacesAbout(settled, x units.Length, n float64) ([]Space, error) {
	f := check.Of("Spaces")
	check.Between(f, "settled", settled, 0, s.rest.Stroke())
	check.Between(f, "x", x, 0, s.rest.Stroke())
	check.Between(f, "n", n, gas.Isothermal, 5.0/3)
	if err := f.Err(); err != nil {
		return nil, err
	}
	var list []Space
	for side, l := range s.legs {
		for g := range groups(l) {
			from, at := g.at(settled), g.at(x)
			if n != gas.Isothermal {
				at = g.moved(from, x, n)
			}
			for i, c := range g {
				t := c.gas.Temperature
				if n != gas.Isothermal { // each keeps the amount it had settled with
					t = units.Kelvin(t.Kelvin() * (at[i].p * at[i].v) / (from[i].p * from[i].v))
				}
				list = append(list, Space{Side: Side(side), Chamber: c.chamber(), Area: c.area, Port: c.port,
					Valve: c.joint == byPort && c.set,
					Gas:   gas.State{Pressure: pascals(at[i].p), Volume: units.Volume(at[i].v), Temperature: t}})
			}
		}
	}
	return list, nil
}

func (s space) chamber() Chamber {
	switch {
	case s.part == trapped:
		return OverOil
	case s.part == reservoir:
		return Reservoir
	}
	return [...]Chamber{alone: Positive, byOrifice: Linked, byPiston: Second, byPort: Negative}[s.joint]
}

// Springs is what the mechanical springs of both legs do together; false: there are none.
func (s *Setup) Springs() (spring.Curve, bool) { return s.springs, s.springs != nil }
