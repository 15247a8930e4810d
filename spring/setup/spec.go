package setup

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Spec is a fork as it was put together. A leg holds whatever springs it has;
// the fork's curve is the sum of both legs.
type Spec struct {
	Travel      units.Length // 20 mm to 400 mm
	Left, Right Leg
	Closed      gas.Ambient // air in which the legs were closed, fork extended
	Friction    units.Force // of the whole fork, half the band between pushed-down and lifted-up, 0 to 1 kN
}

// Leg is what one leg holds. A nil part is absent; a leg with none is a damper
// leg whose trapped gas does not matter.
type Leg struct {
	Coil   *Coil
	Air    *Air
	TopOut *TopOut
	Gap    *Gap
}

// Coil is the main spring of a leg, as [spring.CoilSpec] without the travel.
type Coil struct {
	Rate        units.Stiffness
	Preload     units.Length
	FreeLength  units.Length // with SolidLength bounds the stroke; both zero: no bind
	SolidLength units.Length
}

// TopOut is a spring that acts near full extension, as [spring.TopOutSpec].
type TopOut struct {
	Rate   units.Stiffness
	Length units.Length
}

// Air is the air spring of a leg and how it was filled, all chambers read at
// full extension in the air of Fill.
type Air struct {
	Bore, Rod units.Length
	Volume    units.Volume // positive chamber at full extension
	Fill      gas.Fill     // of the positive chamber

	NegativeVolume units.Volume        // 0: none
	Port           units.Length        // travel of the transfer port, 0 to 30 mm
	NegativeGauge  units.GaugePressure // of a negative chamber with its own valve; zero: through the port

	SecondVolume units.Volume        // behind a floating piston; 0: none
	SecondGauge  units.GaugePressure // above Fill.Gauge
}

// Gap is the gas trapped over the oil of a leg, or in a bicycle's lower leg.
type Gap struct {
	Area     units.Area          // as [oil.AirGapSpec]
	Residual units.Volume        // gas at full travel
	Gauge    units.GaugePressure // precharge at full extension, 0 to 3 bar; zero: closed at the ambient
}

// Filled is the specification with every air spring set to another reading;
// chambers with a valve of their own keep their ratio to the positive one.
func (s Spec) Filled(fill gas.Fill) Spec {
	for _, l := range []*Leg{&s.Left, &s.Right} {
		if l.Air == nil {
			continue
		}
		a := *l.Air
		if old := a.Fill.Gauge.In(units.Pascal); old > 0 {
			ratio := units.Pressure(fill.Gauge.In(units.Pascal) / old)
			a.NegativeGauge = units.Gauge(units.Pressure(a.NegativeGauge.In(units.Pascal)) * ratio)
			a.SecondGauge = units.Gauge(units.Pressure(a.SecondGauge.In(units.Pascal)) * ratio)
		}
		a.Fill = fill
		l.Air = &a
	}
	return s
}

// New closes the fork. It reports every fault of the specification at once.
func New(s Spec) (*Setup, error) {
	f := check.Of("Spec")
	check.Between(f, "Travel", s.Travel, 20*units.Millimeter, 400*units.Millimeter)
	check.Between(f, "Friction", s.Friction, 0, 1*units.Kilonewton)
	f.Nest("Closed", s.Closed.Validate())
	if s.Left.empty() && s.Right.empty() {
		f.Report("Left", "no spring", "a coil or an air spring in one leg at least", "")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	set := &Setup{travel: s.Travel, closed: s.Closed, ambient: s.Closed, friction: s.Friction}
	for i, leg := range []Leg{s.Left, s.Right} {
		built, err := s.build(leg)
		f.Nest([]string{"Left", "Right"}[i], err)
		set.legs[i] = built
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	return set, nil
}

func (l Leg) empty() bool { return l.Coil == nil && l.Air == nil }

// build checks one leg by making every curve in it once.
func (s Spec) build(l Leg) (leg, error) {
	f := check.Of("Leg")
	var b leg
	if c := l.Coil; c != nil {
		coil, err := spring.NewCoil(spring.CoilSpec{Rate: c.Rate, Preload: c.Preload,
			FreeLength: c.FreeLength, SolidLength: c.SolidLength, Travel: s.Travel})
		f.Nest("Coil", err)
		b.coil = coil
		b.hasCoil = true
	}
	if t := l.TopOut; t != nil {
		topOut, err := spring.NewTopOut(spring.TopOutSpec{Rate: t.Rate, Length: t.Length, Travel: s.Travel})
		f.Nest("TopOut", err)
		b.topOut = topOut
		b.hasTopOut = true
	}
	if a := l.Air; a != nil {
		air, err := a.fill(s.Travel, s.Closed)
		f.Nest("Air", err)
		b.air = air
	}
	if g := l.Gap; g != nil {
		check.Gauge(f, "Gap.Gauge", g.Gauge, 0, 3*units.Bar)
		b.gap = &oil.AirGapSpec{Area: g.Area, Residual: g.Residual, Travel: s.Travel,
			Pressure: g.Gauge.Absolute(s.Closed.Pressure), Ambient: s.Closed.Pressure, Exponent: gas.Isothermal}
		_, err := oil.NewAirGap(*b.gap)
		f.Nest("Gap", err)
	}
	return b, f.Err()
}

// fill is the air spring after its filling, at the ambient here.
func (a Air) fill(travel units.Length, here gas.Ambient) (*air, error) {
	f := check.Of("Air")
	f.Nest("Fill", a.Fill.Validate())
	check.Gauge(f, "NegativeGauge", a.NegativeGauge, 0, 40*units.Bar)
	if a.SecondVolume != 0 {
		check.Gauge(f, "SecondGauge", a.SecondGauge, 0, 40*units.Bar)
	} else if a.SecondGauge != (units.GaugePressure{}) {
		f.Report("SecondGauge", a.SecondGauge, "a second volume with it", "")
	}
	if a.NegativeVolume == 0 && a.NegativeGauge != (units.GaugePressure{}) {
		f.Report("NegativeGauge", a.NegativeGauge, "a negative volume with it", "")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	b := &air{readings: a}
	b.FloatingPistonSpec = spring.FloatingPistonSpec{
		Air: spring.AirSpec{Bore: a.Bore, Rod: a.Rod, Volume: a.Volume, NegativeVolume: a.NegativeVolume,
			Port: a.Port, Exponent: gas.Isothermal, Travel: travel},
		SecondVolume: a.SecondVolume,
	}
	b.set(a.Fill.Ambient)
	b.soak(a.Fill.Ambient, here)
	_, err := b.curve()
	return b, err
}
