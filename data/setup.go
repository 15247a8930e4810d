package data

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Spec is the fork as the record describes it, its legs closed and its air springs
// filled in the given air: typical rates, preloads and pressures.
func (f *Fork) Spec(closed gas.Ambient) setup.Spec {
	return setup.Spec{
		Travel:   f.Travel.Value,
		Left:     f.leg(f.Left, "left", closed),
		Right:    f.leg(f.Right, "right", closed),
		Closed:   closed,
		Friction: f.Friction.Value,
	}
}

// Setup assembles the fork as Spec describes it.
func (f *Fork) Setup(closed gas.Ambient) (*setup.Setup, error) { return setup.New(f.Spec(closed)) }

// Load is what a rider of that mass, kit included, puts on the axis of the fork.
func (f *Fork) Load(rider units.Mass) units.Force {
	return f.Chassis.Geometry().RiddenLoad(rider).Axial
}

// MachineLoad is what the machine alone puts on the axis of the fork.
func (f *Fork) MachineLoad() units.Force { return f.Chassis.Geometry().MachineLoad().Axial }

func (f *Fork) leg(l Leg, side string, closed gas.Ambient) setup.Leg {
	var out setup.Leg
	if l.Role.HasCoil() {
		main, _ := l.Compound.Spec(l.Coil) // a faulty table makes a spring that New refuses
		out.Springs = append(out.Springs, main)
	}
	if a := l.Air; l.Role.HasAir() {
		out.Air = &setup.Air{
			Bore:           a.Bore.Value,
			Rod:            a.Rod.Value,
			Volume:         a.Volume.Value,
			Reducers:       a.Reducers.Value,
			Linked:         a.Linked.Value,
			Fill:           gas.Fill{Gauge: a.Pressure.Value, Ambient: closed},
			NegativeVolume: a.NegativeVolume.Value,
			Port:           a.Port.Value,
			SecondVolume:   a.SecondVolume.Value,
		}
		if a.NegativeRatio.Given() {
			out.Air.NegativeGauge = a.Pressure.Value.Times(a.NegativeRatio.Value)
		}
		if a.SecondRatio.Given() {
			out.Air.SecondGauge = a.Pressure.Value.Times(a.SecondRatio.Value)
		}
		if a.BalanceRate.Given() {
			out.Springs = append(out.Springs, spring.TopOutSpec{Rate: a.BalanceRate.Value, Length: a.BalanceLength.Value})
		}
	}
	if r := l.Reservoir; r.Rod.Given() {
		out.Damper = &setup.Damper{Rod: r.Rod.Value, Volume: r.Volume.Value,
			Fill: gas.Fill{Gauge: r.Pressure.Value, Ambient: closed}}
	}
	if f.Gap.Residual.Given() && l.Role != NoLeg {
		out.Gap = &setup.Gap{Area: f.Gap.Area(*f), Residual: f.Gap.Residual.Value}
		if f.Gap.Charged == "" || f.Gap.Charged == side {
			out.Gap.Gauge = f.Gap.Precharge.Value
		}
	}
	return out
}

// Fill is the oil of a leg as the record describes it: by its level, or by the middle of its volumes. In the latter
// case metal is all that is left of the interior after oil and gas: a damper, a spring, an air cartridge with what it
// encloses. A record without oil for the leg, or gas over it, is an error.
func (f *Fork) Fill(side setup.Side) (oil.Fill, error) {
	spec := oil.FillSpec{Interior: f.Kit.Interior.Value, Column: f.Geometry().OilColumn()}
	l := f.Left
	if side == setup.Right {
		l = f.Right
	}
	if l.Role == NoLeg {
		return oil.Fill{}, fmt.Errorf("fork %s has no %v leg", f.ID, side)
	}
	residual := f.Gap.Residual.Value
	if !f.Gap.Residual.Given() {
		if !l.Air.Volume.Given() {
			return oil.Fill{}, fmt.Errorf("fork %s: no gas over the oil of the %v leg", f.ID, side)
		}
		swept := geometry.Circle(l.Air.Bore.Value) - geometry.Circle(l.Air.Rod.Value)
		residual = l.Air.Volume.Value - units.Volume(float64(swept)*float64(f.Travel.Value))
	}
	switch {
	case f.Gap.Level.Given():
		spec.Metal, spec.Level = f.Gap.Displaced.Value, f.Gap.Level.Value
	case l.Oil.Volume.Given():
		spec.Volume = (l.Oil.Volume.Lo + l.Oil.Volume.Hi) / 2
		spec.Metal = max(0, spec.Interior-spec.Volume-residual)
	default:
		return oil.Fill{}, fmt.Errorf("fork %s: no oil volume of the %v leg", f.ID, side)
	}
	return oil.NewFill(spec)
}
