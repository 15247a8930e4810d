package setup

import (
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
	Springs []spring.Spec // coils of any kind, top-out springs, bump stops, measured curves; their travel is the fork's
	Air     *Air
	Gap     *Gap
	Damper  *Damper
}

// Find is the first spring of one kind in a leg, as Find[spring.CoilSpec](leg).
func Find[S spring.Spec](l Leg) (S, bool) {
	for _, spec := range l.Springs {
		if s, ok := spec.(S); ok {
			return s, true
		}
	}
	var none S
	return none, false
}

// Air is the air spring of a leg and how it was filled, all chambers read at
// full extension in the air of Fill.
type Air struct {
	Bore, Rod units.Length
	Volume    units.Volume // positive chamber at full extension
	Reducers  units.Volume // solid pieces or oil in it, taken off Volume; 0 to less than Volume
	Linked    units.Volume // auxiliary volume behind an orifice: it shares the pressure at rest and is cut off when ridden
	Fill      gas.Fill     // of the positive chamber

	NegativeVolume units.Volume        // 0: none
	Port           units.Length        // travel of the transfer port, 0 to 30 mm
	NegativeGauge  units.GaugePressure // of a negative chamber with its own valve; zero: through the port

	SecondVolume units.Volume        // behind a floating piston; 0: none
	SecondGauge  units.GaugePressure // above Fill.Gauge
}

// Damper is a pressurized damper: its gas pushes on the section of the rod, a
// nearly constant force.
type Damper struct {
	Rod    units.Length // 6 mm to 30 mm
	Volume units.Volume // of the gas at full extension, 5 mL to 500 mL
	Fill   gas.Fill
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
