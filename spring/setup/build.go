package setup

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// New closes the fork. It reports every fault of the specification at once.
func New(s Spec) (*Setup, error) {
	f := check.Of("Spec")
	check.Between(f, "Travel", s.Travel, 20*units.Millimeter, 400*units.Millimeter)
	check.Between(f, "Friction", s.Friction, 0, 1*units.Kilonewton)
	f.Nest("Closed", s.Closed.Validate())
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

// build checks one leg by making every curve in it once.
func (s Spec) build(l Leg) (leg, error) {
	f := check.Of("Leg")
	var b leg
	for i, spec := range l.Springs {
		field := fmt.Sprintf("Springs[%d]", i)
		if spec == nil {
			f.Report(field, "none", "a spring", "")
			continue
		}
		c, err := spec.Curve(s.Travel)
		f.Nest(field, err)
		b.springs = append(b.springs, c)
	}
	if a := l.Air; a != nil {
		air, err := a.fill(s.Travel, s.Closed)
		f.Nest("Air", err)
		b.air = air
	}
	if d := l.Damper; d != nil {
		damper, err := d.fill(s.Travel, s.Closed)
		f.Nest("Damper", err)
		b.damper = damper
	}
	if g := l.Gap; g != nil {
		check.Gauge(f, "Gap.Gauge", g.Gauge, 0, 3*units.Bar)
		b.gap = &oil.AirGapSpec{Area: g.Area, Residual: g.Residual, Travel: s.Travel,
			Pressure: g.Gauge.Absolute(s.Closed.Pressure), Ambient: s.Closed.Pressure, Exponent: gas.Isothermal}
		b.precharge = g.Gauge
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
	check.Between(f, "Linked", a.Linked, 0, 1*units.Liter)
	check.Between(f, "Reducers", a.Reducers, 0, a.Volume)
	if a.Linked != 0 && a.SecondVolume != 0 {
		f.Report("Linked", a.Linked, "no second chamber beside it", "")
	}
	if err := f.Err(); err != nil {
		return nil, err
	}
	b := &air{readings: a}
	b.FloatingPistonSpec = spring.FloatingPistonSpec{
		Air: spring.AirSpec{Bore: a.Bore, Rod: a.Rod, Volume: a.Volume - a.Reducers, NegativeVolume: a.NegativeVolume,
			Port: a.Port, Exponent: gas.Isothermal, Travel: travel},
		SecondVolume: a.SecondVolume,
	}
	b.set(a.Fill.Ambient)
	b.soak(a.Fill.Ambient, here)
	_, err := b.about(0, gas.Isothermal)
	return b, err
}

// fill is the gas of a pressurized damper, at the ambient here.
func (d Damper) fill(travel units.Length, here gas.Ambient) (*spring.ChamberSpec, error) {
	f := check.Of("Damper")
	check.Between(f, "Rod", d.Rod, 6*units.Millimeter, 30*units.Millimeter)
	check.Between(f, "Volume", d.Volume, 5*units.Milliliter, 500*units.Milliliter)
	f.Nest("Fill", d.Fill.Validate())
	if err := f.Err(); err != nil {
		return nil, err
	}
	c := &spring.ChamberSpec{Area: geometry.Circle(d.Rod), Volume: d.Volume, Pressure: heated(d.Fill.Absolute(), d.Fill.Ambient, here),
		Ambient: here.Pressure, Exponent: gas.Isothermal, Travel: travel}
	_, err := spring.NewChamber(*c)
	return c, err
}
