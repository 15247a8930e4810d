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

	Gas, Oil float64 // heights under the cap, or over the axle where Low; a leg without closed gas has neither
	Low      bool    // a bicycle's lower leg, in which only some oil lies
	GasText  string
	OilTexts []string // its volume and level

	DamperGas, DamperRod float64 // of a pressurized damper: height of its gas in the cylinder, and its rod; 0: none
	DamperBore           float64 // drawn only
	DamperText           string

	Bore, Rod float64 // of the air spring, 0: none
	Cylinder  float64 // its length, with its pistons
	Chambers  []ChamberView
	Coil      bool
}

// ChamberView is one chamber of an air spring by the height of its gas, from the cap down.
type ChamberView struct {
	Name   string
	Height float64
	Text   string
}

// ends are what crown and axle add to a leg beyond gas and oil, plate is a piston; drawn only.
const ends, plate = 60.0, 8.0

// damperBore is the inside of a damper's cylinder over that of its tube, which records do not say: drawn only.
const damperBore = 0.6

func (s State) legs(f Fork, at units.Length) ([]LegView, error) {
	spaces, err := f.Now.Spaces(at, gas.Isothermal)
	if err != nil {
		return nil, err
	}
	g := f.Record.Geometry()
	ambient := f.Now.Ambient().Pressure
	x := mm(at)
	var legs []LegView
	longest := 2.1*mm(f.Now.Travel()) + ends
	for side, l := range []setup.Leg{f.Spec.Left, f.Spec.Right} {
		v := LegView{Side: setup.Side(side).String(), Holds: l.String(), Inverted: g.Layout == geometry.Inverted,
			Stanchion: mm(g.Stanchion.Outer), StanchionBore: mm(g.Stanchion.Bore), Tube: mm(g.OuterBore),
			Travel: mm(f.Now.Travel()), X: x, Low: !f.Record.Kit.SpringInOil}
		_, v.Coil = setup.Find[spring.CoilSpec](l)
		if l.Air != nil {
			v.Bore, v.Rod = mm(l.Air.Bore), mm(l.Air.Rod)
		}
		for _, c := range spaces {
			if int(c.Side) != side {
				continue
			}
			text := show(gauges, s, c.Gas.Pressure.Gauge(ambient), 1)
			if c.Chamber == setup.Reservoir {
				v.DamperRod, v.DamperBore, v.DamperText = mm(l.Damper.Rod), damperBore*v.StanchionBore, text
				bore := units.Length(v.DamperBore) * units.Millimeter
				v.DamperGas = height(c.Gas.Volume, geometry.Circle(bore))
				continue
			}
			if c.Chamber == setup.OverOil {
				v.Gas, v.GasText = height(c.Gas.Volume, c.Area), text
				continue
			}
			area := c.Area
			if c.Chamber == setup.Second || c.Chamber == setup.Linked { // drawn as wide as the main one
				area = geometry.Circle(l.Air.Bore)
			}
			v.Chambers = append(v.Chambers, ChamberView{chamberNames[c.Chamber], height(c.Gas.Volume, area), text})
			v.Cylinder += height(c.Gas.Volume, area) + plate
		}
		if volume, level := f.oil(setup.Side(side)); volume > 0 && l.Gap != nil {
			v.Oil = height(volume, l.Gap.Area)
			v.OilTexts = []string{show(milliliters, s, volume, 0)}
			if level != 0 {
				v.OilTexts = append(v.OilTexts, "level "+show(millimeters, s, level, 0))
			}
		}
		if v.Low {
			longest = max(longest, v.Cylinder+v.Gas+x+v.Oil)
		} else {
			longest = max(longest, v.Gas+x+v.Oil+ends, v.Cylinder+v.Travel+ends/2, v.DamperGas+2*v.Travel+ends)
		}
		legs = append(legs, v)
	}
	for i := range legs {
		legs[i].Axle = longest - x
	}
	return legs, nil
}

// align gives the legs of one fork in two states one length.
func align(a, b []LegView) {
	both := append(a[:len(a):len(a)], b...)
	longest := 0.0
	for _, l := range both {
		longest = max(longest, l.Axle+l.X)
	}
	for _, legs := range [][]LegView{a, b} {
		for i := range legs {
			legs[i].Axle = longest - legs[i].X
		}
	}
}

// height of a volume on an area, in millimeters.
func height(v units.Volume, a units.Area) float64 { return 1000 * float64(v) / math.Abs(float64(a)) }

func mm(l units.Length) float64 { return l.In(units.Millimeter) }
