package setup

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Gas is a gas space of the fork at rest at some travel, as a gauge on it would find it.
type Gas struct {
	Side   Side
	Part   string       // of the leg that it belongs to: "Air", "Gap" or "Damper"
	Area   units.Area   // of the piston that moves it; below 0 where it grows in compression
	State  gas.State    // of what moves together in a fast stroke
	Shared units.Volume // of all that shares its pressure at rest, behind an orifice too
}

// Gases are the gas spaces of both legs with the fork at rest at x, 0 to its stroke. Both
// sides of a floating piston off its stop are one.
func (s *Setup) Gases(x units.Length) ([]Gas, error) {
	f := check.Of("Gases")
	if !check.Between(f, "x", x, 0, s.rest.Stroke()) {
		return nil, f.Err()
	}
	var list []Gas
	for side, l := range s.legs {
		for g := range groups(l) {
			main, all := len(list), g.at(x)
			for i, at := range all[:len(g)] {
				switch volume := units.Volume(at.v); g[i].joint {
				case byOrifice:
					list[main].Shared += volume
				case byPiston:
					if p := pascals(at.p); p == list[main].State.Pressure {
						list[main].State.Volume += volume
						list[main].Shared += volume
					}
				default:
					state := gas.State{Pressure: pascals(at.p), Volume: volume, Temperature: g[i].gas.Temperature}
					list = append(list, Gas{Side(side), parts[g[i].part].name, g[i].area, state, volume})
				}
			}
		}
	}
	return list, nil
}
