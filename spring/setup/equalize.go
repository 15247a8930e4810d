package setup

import (
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// equalize lets the main space and the one joined byPort come to one pressure at rest
// at x. Each then keeps its gas; that behind a floating piston stays there, and takes
// part once its pressure is reached.
func (g group) equalize(x units.Length) error {
	joined, swept := g[0].gas, g[0].swept(x)
	var second *space
	var ported bool
	for i := range g[1:] {
		s := &g[1+i]
		if s.joint == byPiston {
			second = s
			continue
		}
		ported = ported || s.joint == byPort
		var err error
		if joined, err = gas.Join(joined, s.gas); err != nil {
			return err
		}
		swept += s.swept(x)
	}
	if !ported {
		return nil
	}
	met, added, err := compressJoined(joined, swept, second)
	if err != nil {
		return err
	}
	// Back at full extension each has its own volume again.
	above, positive := added-g[0].swept(x), units.Volume(0)
	for _, s := range g {
		if s.joint == alone || s.joint == byOrifice {
			above += s.gas.Volume
			positive += s.gas.Volume
		}
	}
	for i := range g {
		s := &g[i]
		from, to := above, positive
		switch s.joint {
		case byPiston:
			continue
		case byPort:
			from, to = s.gas.Volume-s.swept(x), s.gas.Volume
		}
		back, err := (gas.State{Pressure: met.Pressure, Volume: from, Temperature: met.Temperature}).Compress(to,
			gas.Isothermal)
		if err != nil {
			return err
		}
		s.gas.Pressure = back.Pressure
	}
	return nil
}

// compressJoined is the joined gas after a volume was swept out of it at rest, and what that
// behind a floating piston has made room for.
func compressJoined(joined gas.State, swept units.Volume, second *space) (gas.State, units.Volume, error) {
	if second != nil {
		all, err := gas.Join(joined, second.gas)
		if err != nil {
			return all, 0, err
		}
		if all, err = all.Compress(all.Volume-swept, gas.Isothermal); err != nil {
			return all, 0, err
		}
		held := second.gas.Pressure.In(units.Pascal) / all.Pressure.In(units.Pascal)
		if held < 1 {
			return all, second.gas.Volume * units.Volume(1-held), nil
		}
	}
	met, err := joined.Compress(joined.Volume-swept, gas.Isothermal)
	return met, 0, err
}
