package setup

import (
	"iter"
	"math"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// space is one sealed gas space of a leg: a volume behind a signed area, and the gas in
// it at rest with the fork extended. Spaces are values; a changed fork has changed copies.
type space struct {
	part  part
	area  units.Area // of the piston; below 0 where the space grows in compression, 0 where it does not follow travel
	gas   gas.State
	joint joint
	port  units.Length // travel at which a space joined byPort meets the main one
	end   units.Length // travel at which the leg locks, within that of the fork; 0: it does not

	reading units.GaugePressure // what setting again brings it to, where set
	set     bool
}

// part says what a space belongs to, and so which changes reach it.
type part int

const (
	airSpring part = iota // leaks, is set again
	trapped               // over the oil: vented, pumped up, opened; set again if it has a precharge
	reservoir             // of a damper: sealed for good
)

var parts = [...]struct {
	name, words     string         // of the field of a leg
	lowest, highest units.Pressure // absolute, at full extension
}{
	airSpring: {"Air", "an air spring", 0.2 * units.Bar, 65 * units.Bar},
	trapped:   {"Gap", "gas over the oil", 0.1 * units.Bar, 10 * units.Bar},
	reservoir: {"Damper", "a pressurized damper", 0.01 * units.Bar, 65 * units.Bar},
}

// joint says how a space is joined to the main one, the last before it that is alone.
type joint int

const (
	alone     joint = iota
	byOrifice       // shares the main one's pressure at rest and is cut off when ridden
	byPiston        // a floating piston on its stop until the main one has reached its pressure
	byPort          // equalized at one travel when the main one is set, then each keeps its gas
)

// restPressure is the pressure at rest of spaces that share their gas, in Pa, once a piston
// has swept that volume out of them: Boyle's law.
func restPressure(swept units.Volume, spaces ...space) float64 {
	var pv, v float64
	for _, s := range spaces {
		pv += s.gas.Pressure.In(units.Pascal) * float64(s.gas.Volume)
		v += float64(s.gas.Volume)
	}
	return pv / (v - float64(swept))
}

func (s space) swept(x units.Length) units.Volume { return units.Volume(float64(s.area) * float64(x)) }

// rest is a space at some travel: its pressure in Pa, its volume in m³.
type rest struct{ p, v float64 }

// group is a main space and those joined to it.
type group []space

// groups takes the spaces of a leg apart.
func groups(spaces []space) iter.Seq[group] {
	return func(yield func(group) bool) {
		for i := 0; i < len(spaces); {
			end := i + 1
			for end < len(spaces) && spaces[end].joint != alone {
				end++
			}
			if !yield(spaces[i:end:end]) {
				return
			}
			i = end
		}
	}
}

// at is every space of the group at rest at x. Each keeps its own gas, but that of a
// main space and one joined by an orifice spreads over both.
func (g group) at(x units.Length) (all [maxGroup]rest) {
	main, sharing, second := g[0], g[:1], -1
	for i, s := range g {
		switch s.joint {
		case byOrifice:
			sharing = g[:i+1]
		case byPiston:
			second = i
		}
	}
	p := restPressure(main.swept(x), sharing...)
	moved := second > 0 && !(p > 0 && p <= g[second].gas.Pressure.In(units.Pascal))
	if moved { // the floating piston has left its stop
		p = restPressure(main.swept(x), main, g[second])
	}
	for i, s := range g {
		all[i] = rest{p, float64(s.gas.Volume - s.swept(x))}
		switch own := restPressure(0, s); {
		case s.joint == byPort:
			all[i].p = restPressure(s.swept(x), s)
		case moved:
			all[i].v = own * float64(s.gas.Volume) / p
		case s.joint == byPiston:
			all[i].p = own
		}
	}
	return all
}

// moved is every space of the group after a fast movement to x from where it was: p·Vⁿ stays in
// each, and a floating piston off its stop parts the room of two that share a pressure. What is
// behind an orifice is cut off.
func (g group) moved(from [maxGroup]rest, x units.Length, n float64) (all [maxGroup]rest) {
	for i, s := range g {
		left := float64(s.gas.Volume - s.swept(x))
		all[i] = rest{from[i].extended(s.gas.Volume, n) * math.Pow(float64(s.gas.Volume)/left, n), left}
	}
	kept := func(r rest) float64 { return r.v * math.Pow(r.p, 1/n) }
	for i, s := range g {
		// The main chamber alone may be less than the fork sweeps; its pressure then is no number.
		if main, second := all[0], all[i]; s.joint == byPiston && !(main.p <= second.p) {
			own, other := kept(from[0]), kept(from[i])
			room := main.v + second.v
			p := math.Pow((own+other)/room, n)
			all[0], all[i] = rest{p, room * own / (own + other)}, rest{p, room * other / (own + other)}
		}
	}
	return all
}

// maxGroup is the most spaces a group has: main, linked or second, negative.
const maxGroup = 3

// extended is the pressure at full extension of the polytrope through a space at rest.
func (r rest) extended(v units.Volume, n float64) float64 {
	return r.p * math.Pow(r.v/float64(v), n)
}

// addTo adds the group to the curve of a fork that has settled at x and moves with
// exponent n, in air of that pressure.
func (g group) addTo(sum *chamber.Sum, x units.Length, n, ambient float64) {
	if n == gas.Isothermal {
		x = 0 // where at rest it starts from does not matter
	}
	at := g.at(x)
	main := g[0]
	volume := main.gas.Volume
	var second int
	for i, s := range g[1:] {
		switch {
		case s.joint == byPort:
			c := chamber.New(float64(s.area), float64(s.gas.Volume), at[1+i].extended(s.gas.Volume, n), ambient, n)
			sum.AddChamber(c, 1)
		case s.joint == byPiston:
			second = 1 + i
		case n == gas.Isothermal:
			volume += s.gas.Volume
		}
	}
	area, p := float64(main.area), at[0].extended(main.gas.Volume, n)
	if second == 0 {
		sum.AddChamber(chamber.New(area, float64(volume), p, ambient, n), 1)
		return
	}
	s := g[second]
	sum.AddPair(chamber.NewPair(area, float64(volume), p, float64(s.gas.Volume), at[second].extended(s.gas.Volume, n),
		ambient, n), 1)
}
