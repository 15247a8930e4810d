package setup

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// leg is one leg in its present state, gas pressures at rest at full extension.
// Its methods return changed copies.
type leg struct {
	springs []spring.Curve
	air     *air
	damper  *spring.ChamberSpec
	gap     *oil.AirGapSpec

	precharge units.GaugePressure // that the gap is set to; zero: closed at the ambient
}

// withAir changes the air spring, if there is one.
func (l leg) withAir(change func(*air)) leg {
	if l.air != nil {
		a := *l.air
		change(&a)
		l.air = &a
	}
	return l
}

// withGap changes the trapped gas, if there is any.
func (l leg) withGap(change func(*oil.AirGapSpec)) leg {
	if l.gap != nil {
		g := *l.gap
		change(&g)
		l.gap = &g
	}
	return l
}

// moved is the leg after its gas has gone from one ambient to another.
func (l leg) moved(from, to gas.Ambient) leg {
	if l.damper != nil {
		d := *l.damper
		d.Pressure, d.Ambient = heated(d.Pressure, from, to), to.Pressure
		l.damper = &d
	}
	l = l.withAir(func(a *air) { a.soak(from, to) })
	return l.withGap(func(g *oil.AirGapSpec) { g.Pressure, g.Ambient = heated(g.Pressure, from, to), to.Pressure })
}

// curves appends the curves of the leg's parts, its gas settled at rest at x and
// moving with exponent n.
func (l leg) curves(dst []spring.Curve, x units.Length, n float64) ([]spring.Curve, error) {
	dst = append(dst, l.springs...)
	if l.air != nil {
		c, err := l.air.about(x, n)
		if err != nil {
			return nil, err
		}
		dst = append(dst, c)
	}
	if l.damper != nil {
		c, err := spring.NewChamber(l.damper.About(x, n))
		if err != nil {
			return nil, err
		}
		dst = append(dst, c)
	}
	if l.gap != nil {
		c, err := oil.NewAirGap(l.gap.About(x, n))
		if err != nil {
			return nil, err
		}
		dst = append(dst, c)
	}
	return dst, nil
}

// heated is a pressure at constant volume: p ∝ T.
func heated(p units.AbsolutePressure, from, to gas.Ambient) units.AbsolutePressure {
	return scaled(p, to.Temperature.Kelvin()/from.Temperature.Kelvin())
}

func scaled(p units.AbsolutePressure, ratio float64) units.AbsolutePressure {
	return units.Absolute(units.Pressure(p.In(units.Pascal) * ratio))
}
