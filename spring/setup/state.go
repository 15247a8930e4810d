package setup

import (
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// copied is the fork with gas of its own, kept in the room that is lent, if there is enough.
func (s *Setup) copied(room []space) Setup {
	m := *s
	left := len(s.legs[0])
	both := append(append(slices.Grow(room[:0], left+len(s.legs[1])), s.legs[0]...), s.legs[1]...)
	m.legs = [2][]space{both[:left:left], both[left:]}
	return m
}

// with is the fork with its gas changed leg by leg, in copies that the change may keep.
func (s *Setup) with(change func([]space) ([]space, error)) (*Setup, error) {
	m := s.copied(nil)
	for i, l := range m.legs {
		var err error
		if m.legs[i], err = change(l); err != nil {
			return nil, err
		}
	}
	m.sum(&m.rest, 0, gas.Isothermal)
	return &m, nil
}

// eachSpace changes the gas of every space that is part of p.
func eachSpace(p part, change func(space) (gas.State, error)) func([]space) ([]space, error) {
	return func(spaces []space) ([]space, error) {
		for i := range spaces {
			if s := &spaces[i]; s.part == p {
				var err error
				if s.gas, err = change(*s); err != nil {
					return nil, err
				}
			}
		}
		return spaces, nil
	}
}

// checked is a fork that holds its gas.
func checked(s *Setup, err error) (*Setup, error) {
	if err == nil {
		err = s.check()
	}
	if err != nil {
		return nil, err
	}
	return s, nil
}

// check reports gas that its chambers do not hold.
func (s *Setup) check() error {
	f := check.Of("Setup")
	for i, l := range s.legs {
		for g := range groups(l) {
			part := parts[g[0].part]
			field := [...]string{"Left.", "Right."}[i] + part.name
			for _, c := range g {
				check.Absolute(f, field, c.gas.Pressure, part.lowest, part.highest)
				if c.joint == byPiston && !(c.gas.Pressure.In(units.Pascal) > g[0].gas.Pressure.In(units.Pascal)) {
					f.Report(field, c.gas.Pressure, "above the main chamber's "+g[0].gas.Pressure.String(),
						"the floating piston is off its stop")
				}
			}
		}
	}
	return f.Err()
}

// At is the fork carried to other air and soaked to its temperature. No gas
// enters or leaves.
func (s *Setup) At(a gas.Ambient) (*Setup, error) {
	m := s.copied(nil)
	if err := m.carry(a); err != nil {
		return nil, err
	}
	return &m, nil
}

// carry takes the fork itself to other air.
func (s *Setup) carry(a gas.Ambient) error {
	if err := a.Validate(); err != nil {
		return err
	}
	s.ambient = a
	for _, l := range s.legs {
		if err := heat(l, a.Temperature); err != nil {
			return err
		}
	}
	s.sum(&s.rest, 0, gas.Isothermal)
	return s.check()
}

// Vented is the fork after the gas over the oil of each leg was let out to the
// ambient, wheel off the ground and fork extended.
func (s *Setup) Vented() *Setup {
	m, _ := s.with(eachSpace(trapped, func(c space) (gas.State, error) { return c.gas.Vent(s.ambient) }))
	return m
}

// VentedAt is the fork after its trapped gas was opened to the ambient with the
// fork held at x, 0 to 0.9 of the stroke: what happens when the weight is on the
// wheel. Extended again, it holds a vacuum that pulls the fork down.
func (s *Setup) VentedAt(x units.Length) (*Setup, error) {
	f := check.Of("VentedAt")
	if !check.Between(f, "x", x, 0, s.rest.Stroke()*9/10) {
		return nil, f.Err()
	}
	return checked(s.with(eachSpace(trapped, func(c space) (gas.State, error) {
		held, err := c.gas.Compress(c.gas.Volume-c.swept(x), gas.Isothermal)
		if err != nil {
			return held, err
		}
		if held, err = held.Vent(s.ambient); err != nil {
			return held, err
		}
		return held.Compress(c.gas.Volume, gas.Isothermal)
	})))
}

// Pumped is the fork after seals have pumped air in, or a warm-up has: the trapped
// gas of each leg is higher by p at full extension, −0.5 bar to 2 bar. From
// memory: up to 0.3 bar an outing.
func (s *Setup) Pumped(p units.Pressure) (*Setup, error) {
	f := check.Of("Pumped")
	if !check.Between(f, "p", p, -0.5*units.Bar, 2*units.Bar) {
		return nil, f.Err()
	}
	return checked(s.with(eachSpace(trapped, func(c space) (gas.State, error) {
		if p < 0 {
			return c.gas.Bleed(float64(-p) / c.gas.Pressure.In(units.Pascal))
		}
		n, err := c.gas.AmountForRise(p)
		if err != nil {
			return c.gas, err
		}
		return c.gas.Admit(n)
	})))
}

// Open is the fork with the trapped gas free to come and go: a seal is gone. A coil
// fork keeps its spring; a fork on whole-leg air is not touched, see [Setup.Leaked].
func (s *Setup) Open() (*Setup, error) {
	return s.with(func(spaces []space) ([]space, error) {
		return slices.DeleteFunc(spaces, func(c space) bool { return c.part == trapped }), nil
	})
}

// Refilled is the fork after every air spring, and the trapped gas of a leg that has a
// precharge, was set to its gauge reading again, here; or those chambers only. Positive
// reaches a linked volume, and through the port a negative chamber without a valve. A chamber
// that the fork does not have, or that has no reading, is left alone.
func (s *Setup) Refilled(only ...Chamber) *Setup {
	m, _ := s.with(func(spaces []space) ([]space, error) { return spaces, fill(spaces, s.ambient, only...) })
	return m
}

// Leaked is the fork after its air springs have lost gas to the ambient and kept
// the share remaining of it, 0.1 to 1, in every chamber alike.
func (s *Setup) Leaked(remaining float64) (*Setup, error) {
	f := check.Of("Leaked")
	if !check.Between(f, "remaining", remaining, 0.1, 1) {
		return nil, f.Err()
	}
	leak := func(c space) (gas.State, error) { return c.gas.Bleed(1 - remaining) }
	return checked(s.with(eachSpace(airSpring, leak)))
}

// Equalized is the fork after the positive and negative chambers of each air
// spring have come to one pressure at rest at x, 0 to the stroke: a stroke to the
// transfer port, or a leak past the piston. The gas of both together is kept. A
// leak at sag pulls the fork down, for good until it passes its port again.
func (s *Setup) Equalized(x units.Length) (*Setup, error) {
	f := check.Of("Equalized")
	if !check.Between(f, "x", x, 0, s.rest.Stroke()) {
		return nil, f.Err()
	}
	return checked(s.with(func(spaces []space) ([]space, error) {
		for g := range groups(spaces) {
			if err := g.equalize(x); err != nil {
				return nil, err
			}
		}
		return spaces, nil
	}))
}
