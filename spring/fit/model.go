package fit

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Model is what a measured spring is made of. Elements at their zero value are
// left out. Where a parameter is free, its value here is where the search
// starts, or the middle of the bounds if it lies outside them.
type Model struct {
	Coil     spring.CoilSpec
	Gap      spring.ChamberSpec // the gas over the oil
	Air      spring.AirSpec
	Rest     spring.Curve // whatever else is known; nil: nothing
	Friction units.Force  // on either side of the mean curve, 0 to 2 kN
}

func (m Model) hasCoil() bool { return m.Coil != spring.CoilSpec{} }
func (m Model) hasGap() bool  { return m.Gap != spring.ChamberSpec{} }
func (m Model) hasAir() bool  { return m.Air != spring.AirSpec{} }

func (m Model) has(p Parameter) bool {
	switch p {
	case Rate, Preload:
		return m.hasCoil()
	case GapVolume:
		return m.hasGap()
	case ChamberVolume:
		return m.hasAir()
	case Exponent:
		return m.hasGap() || m.hasAir()
	}
	return p == Friction
}

// Curve is the model as a spring, without the friction.
func (m Model) Curve() (spring.Curve, error) {
	f := check.Of("Model")
	check.Between(f, "Friction", m.Friction, 0, 2*units.Kilonewton)
	parts := []spring.Curve{m.Rest}
	if m.hasCoil() {
		c, err := spring.NewCoil(m.Coil)
		f.Nest("Coil", err)
		parts = append(parts, c)
	}
	if m.hasGap() {
		c, err := spring.NewChamber(m.Gap)
		f.Nest("Gap", err)
		parts = append(parts, c)
	}
	if m.hasAir() {
		c, err := spring.NewAir(m.Air)
		f.Nest("Air", err)
		parts = append(parts, c)
	}
	if len(parts) == 1 && m.Rest == nil {
		f.Report("Coil", "none", "a coil, a gap, an air spring or a rest", "the model is empty")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	return spring.Parallel(parts...), nil
}

// set gives a parameter a value in SI.
func (m *Model) set(p Parameter, v float64) {
	switch p {
	case Rate:
		m.Coil.Rate = units.Stiffness(v)
	case Preload:
		m.Coil.Preload = units.Length(v)
	case GapVolume:
		m.Gap.Volume = units.Volume(v)
	case ChamberVolume:
		m.Air.Volume = units.Volume(v)
	case Exponent:
		if m.hasGap() {
			m.Gap.Exponent = v
		}
		if m.hasAir() {
			m.Air.Exponent = v
		}
	case Friction:
		m.Friction = units.Force(v)
	}
}

// get is the value of a parameter in SI.
func (m *Model) get(p Parameter) float64 {
	switch p {
	case Rate:
		return float64(m.Coil.Rate)
	case Preload:
		return float64(m.Coil.Preload)
	case GapVolume:
		return float64(m.Gap.Volume)
	case ChamberVolume:
		return float64(m.Air.Volume)
	case Exponent:
		if m.hasGap() {
			return m.Gap.Exponent
		}
		return m.Air.Exponent
	}
	return float64(m.Friction)
}

// terms are the parts of a model that depend on parameters, as numbers.
type terms struct {
	rate, preload, friction float64
	gap, positive, negative gas
	port                    float64 // d ln p₋/dV₊, through the transfer port
}

// gas is a chamber: A·(p·(1 − A·x/V)⁻ⁿ − p_a). The zero gas has no force.
type gas struct{ area, volume, pressure, ambient, n float64 }

func newGas(area units.Area, v units.Volume, p, ambient units.AbsolutePressure, n float64) gas {
	return gas{float64(area), float64(v), p.In(units.Pascal), ambient.In(units.Pascal), n}
}

func (m Model) terms() terms {
	t := terms{rate: float64(m.Coil.Rate), preload: float64(m.Coil.Preload), friction: float64(m.Friction)}
	if g := m.Gap; m.hasGap() {
		t.gap = newGas(g.Area, g.Volume, g.Pressure, g.Ambient, g.Exponent)
	}
	if a := m.Air; m.hasAir() {
		piston := geometry.Circle(a.Bore)
		t.positive = newGas(piston, a.Volume, a.Pressure, a.Ambient, a.Exponent)
		if a.NegativeVolume != 0 {
			t.negative = newGas(geometry.Circle(a.Rod)-piston, a.NegativeVolume, a.Equalized().NegativePressure, a.Ambient, a.Exponent)
		}
		if a.NegativePressure == (units.AbsolutePressure{}) {
			// p₋ ∝ 1/(1 − A·x_e/V₊), the pressure at the port
			swept := float64(piston) * float64(a.Port)
			t.port = -swept / (float64(a.Volume) * (float64(a.Volume) - swept))
		}
	}
	return t
}

// force of the terms at x, and its derivatives. The sign is +1 while
// compressing and −1 while extending.
func (t *terms) force(x, sign float64, d *[parameters]float64) float64 {
	*d = [parameters]float64{Friction: sign}
	sum := sign * t.friction
	if s := x + t.preload; s > 0 {
		sum += t.rate * s
		d[Rate], d[Preload] = s, t.rate
	}
	if t.gap.volume != 0 {
		f, dv, dn := t.gap.force(x)
		sum += f
		d[GapVolume] = dv
		d[Exponent] += dn
	}
	if t.positive.volume != 0 {
		f, dv, dn := t.positive.force(x)
		sum += f
		d[ChamberVolume] = dv
		d[Exponent] += dn
	}
	if t.negative.volume != 0 {
		f, _, dn := t.negative.force(x)
		sum += f
		d[ChamberVolume] += (f + t.negative.area*t.negative.ambient) * t.port
		d[Exponent] += dn
	}
	return sum
}

// force at x, and its derivatives by volume and exponent.
func (g *gas) force(x float64) (f, dv, dn float64) {
	u := 1 - g.area*x/g.volume
	log := math.Log(u)
	p := g.pressure * math.Exp(-g.n*log)
	return g.area * (p - g.ambient),
		-g.n * g.area * g.area * p * x / (u * g.volume * g.volume),
		-g.area * p * log
}
