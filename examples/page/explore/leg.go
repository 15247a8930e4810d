package explore

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// LegView is a leg in section, in millimeters: diameters, travel and the heights of gas and oil are to
// scale. The crown is at 0 and the axle at Axle, which comes nearer as the fork is compressed.
type LegView struct {
	Side, Holds                    string
	Inverted                       bool
	Stanchion, StanchionBore, Tube float64 // diameters; Tube is the bore around the stanchion
	Travel, X, Axle                float64

	Gas, Oil float64 // heights under the cap; a leg whose gas has no sealed tube has neither
	GasText  string

	Bore, Rod float64 // of the air spring, 0: none
	Chambers  []ChamberView
	Coil      bool
}

// ChamberView is one chamber of an air spring by the height of its gas, from the cap down.
type ChamberView struct {
	Name   string
	Height float64
	Text   string
}

// ends are what crown and axle add to a leg beyond gas and oil; drawn only.
const ends = 60.0

func (s State) legs(f Fork, at units.Length) ([]LegView, error) {
	spaces, err := f.Now.Spaces(at, gas.Isothermal)
	if err != nil {
		return nil, err
	}
	extended, err := f.Now.Spaces(0, gas.Isothermal)
	if err != nil {
		return nil, err
	}
	g := f.Record.Geometry()
	ambient := f.Now.Ambient().Pressure
	var legs []LegView
	longest := 0.0
	for side, l := range []setup.Leg{f.Spec.Left, f.Spec.Right} {
		v := LegView{Side: setup.Side(side).String(), Holds: l.String(), Inverted: g.Layout == geometry.Inverted,
			Stanchion: mm(g.Stanchion.Outer), StanchionBore: mm(g.Stanchion.Bore), Tube: mm(g.OuterBore),
			Travel: mm(f.Now.Travel()), X: mm(at)}
		_, v.Coil = setup.Find[spring.CoilSpec](l)
		if l.Air != nil {
			v.Bore, v.Rod = mm(l.Air.Bore), mm(l.Air.Rod)
		}
		length := v.Travel
		for i, c := range spaces {
			if int(c.Side) != side {
				continue
			}
			text := show(gauges, s, c.Gas.Pressure.Gauge(ambient), 1)
			area := math.Abs(float64(c.Area))
			switch c.Chamber {
			case setup.OverOil:
				v.Gas, v.GasText = 1000*float64(c.Gas.Volume)/area, text
				length = max(length, 1000*float64(extended[i].Gas.Volume)/area)
			case setup.Reservoir:
			default:
				if c.Chamber == setup.Second || c.Chamber == setup.Linked {
					area = float64(geometry.Circle(l.Air.Bore))
				}
				v.Chambers = append(v.Chambers, ChamberView{chamberNames[c.Chamber], 1000 * float64(c.Gas.Volume) / area, text})
			}
		}
		if fill, err := f.Record.Fill(setup.Side(side)); err == nil && l.Gap != nil {
			v.Oil = 1000 * float64(fill.Volume()+s.Forks[0].Oil) / float64(l.Gap.Area)
		}
		longest = max(longest, length+v.Oil+ends, 2.1*v.Travel+ends)
		legs = append(legs, v)
	}
	for i := range legs {
		legs[i].Axle = longest - mm(at)
		if legs[i].Gas > 0 { // what is neither gas nor oil is metal, drawn as part of the oil's column
			legs[i].Oil = longest - mm(at) - ends - legs[i].Gas
		}
	}
	return legs, nil
}

func mm(l units.Length) float64 { return l.In(units.Millimeter) }
