package setup

import (
	"strings"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Air is the air spring of a leg and how it was filled, all chambers read at
// full extension in the air of Fill.
type Air struct {
	Bore, Rod units.Length // of the piston, 10 mm to 60 mm, and of the rod in the negative chamber, 0 to 0.8 of Bore
	Volume    units.Volume // positive chamber at full extension, 2 mL to 3 L
	Reducers  units.Volume // solid pieces or oil in it, taken off Volume; 0 to less than Volume
	Linked    units.Volume // auxiliary, behind an orifice, 0 to 1 L: shares the pressure at rest, cut off when ridden
	Fill      gas.Fill     // of the positive chamber

	NegativeVolume units.Volume        // 1 mL to 2 L; 0: none
	Port           units.Length        // travel of the transfer port, 0 to 30 mm
	NegativeGauge  units.GaugePressure // of a negative chamber with its own valve, up to 40 bar; zero: through the port

	SecondVolume units.Volume        // behind a floating piston, 2 mL to 1 L; 0: none
	SecondGauge  units.GaugePressure // above Fill.Gauge, up to 40 bar
}

// plain is a fill to look at the rest of a specification with whose own is none.
var plain = gas.Fill{Gauge: units.Gauge(5 * units.Bar),
	Ambient: gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}}

// validate reports every fault but those of the travel, which is in range.
func (a Air) validate(travel units.Length) error {
	f := check.Of("Air")
	fill := a.Fill
	if err := fill.Validate(); err != nil {
		f.Nest("Fill", err)
		fill = plain
	}
	none := units.GaugePressure{}
	if check.Gauge(f, "NegativeGauge", a.NegativeGauge, 0, 40*units.Bar) && a.NegativeVolume == 0 &&
		a.NegativeGauge != none {
		f.Report("NegativeGauge", a.NegativeGauge, "a negative volume with it", "")
	}
	switch {
	case a.SecondVolume == 0 && a.SecondGauge != none:
		f.Report("SecondGauge", a.SecondGauge, "a second volume with it", "")
	case a.SecondVolume != 0 && check.Gauge(f, "SecondGauge", a.SecondGauge, 0, 40*units.Bar) && fill == a.Fill &&
		a.SecondGauge.In(units.Pascal) <= fill.Gauge.In(units.Pascal):
		f.Report("SecondGauge", a.SecondGauge, "above that of the main chamber, "+fill.Gauge.String(),
			"else the floating piston is never on its stop")
	}
	if check.Between(f, "Linked", a.Linked, 0, 1*units.Liter) && a.Linked != 0 && a.SecondVolume != 0 {
		f.Report("Linked", a.Linked, "no second chamber beside it", "")
	}
	room := 3 * units.Liter // where the volume is wrong itself
	if a.Volume > 0 {
		room = a.Volume
	}
	if !check.Between(f, "Reducers", a.Reducers, 0, room) {
		a.Reducers = 0 // so that the volume is not told as well
	}
	// The chambers have the limits of the spring they make.
	for _, err := range check.Split(a.chambers(fill, travel)) {
		e := *err.(*units.RangeError)
		_, field, _ := strings.Cut(e.Field, ".")
		switch e.Field = strings.TrimPrefix(field, "Air."); e.Field {
		case "Bore", "Rod", "Volume", "NegativeVolume", "Port", "SecondVolume":
			f.Report(e.Field, e.Value, e.Want, e.Hint)
		} // the readings are looked at above
	}
	return f.Err()
}

// chambers tries the spring that the chambers make.
func (a Air) chambers(fill gas.Fill, travel units.Length) error {
	air := spring.AirSpec{Bore: a.Bore, Rod: a.Rod, Volume: a.Volume - a.Reducers, Pressure: fill.Absolute(),
		NegativeVolume: a.NegativeVolume, Port: a.Port, Ambient: fill.Ambient.Pressure, Exponent: gas.Isothermal,
		Travel: travel}
	if a.NegativeGauge != (units.GaugePressure{}) && a.NegativeVolume != 0 {
		air.NegativePressure = a.NegativeGauge.Absolute(fill.Ambient.Pressure)
	}
	if a.SecondVolume == 0 {
		_, err := spring.NewAir(air)
		return err
	}
	_, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{Air: air, SecondVolume: a.SecondVolume,
		SecondPressure: a.SecondGauge.Absolute(fill.Ambient.Pressure)})
	return err
}

// spaces adds those of the air spring to a list, still to be set.
func (a Air) spaces(list []space) []space {
	piston := geometry.Circle(a.Bore)
	list = append(list, space{part: airSpring, area: piston, gas: gas.State{Volume: a.Volume - a.Reducers},
		reading: a.Fill.Gauge, set: true})
	if a.Linked != 0 {
		list = append(list, space{part: airSpring, gas: gas.State{Volume: a.Linked}, joint: byOrifice, reading: a.Fill.Gauge,
			set: true})
	}
	if a.SecondVolume != 0 {
		list = append(list, space{part: airSpring, gas: gas.State{Volume: a.SecondVolume}, joint: byPiston,
			reading: a.SecondGauge, set: true})
	}
	if a.NegativeVolume != 0 {
		list = append(list, space{part: airSpring, area: geometry.Circle(a.Rod) - piston,
			gas:   gas.State{Volume: a.NegativeVolume},
			joint: byPort, port: a.Port, reading: a.NegativeGauge, set: a.NegativeGauge != units.GaugePressure{}})
	}
	return list
}
