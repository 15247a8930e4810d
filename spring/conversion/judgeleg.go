package conversion

import (
	"math"
	"slices"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// legFindings looks at what the legs do beside their springs.
func (p *planner) legFindings(f *findings, c Candidate) {
	p.extensionFinding(f, c.Behavior, p.ConvertedFriction,
		"what is read as preload at full extension is more than the spring has there")
	if m := c.MassChange; m.Springs+m.Oil > MassStep {
		f.add(AddedMass, Note, m.Springs+m.Oil, MassStep, "more in the fork, springs and oil, before what comes out, "+
			"%.2f of it unsprung: the steering feels heavier; weigh what comes out", m.Unsprung)
	}
	if c.Behavior.Sag.Load == 0 {
		return
	}
	lift := 0.0
	for side, l := range [...]setup.Leg{setup.Left: p.Job.Present.Left, setup.Right: p.Job.Present.Right} {
		area := units.Area(0)
		if l.Gap != nil {
			area = l.Gap.Area
		}
		for _, c := range p.Legs {
			if c.Side == setup.Side(side) {
				area = c.Bath.Area
			}
		}
		lift += float64(PumpedPressure) * float64(area) / float64(c.Behavior.Rate)
	}
	if units.Length(lift) > DriftStep {
		f.add(PumpedAir, Note, units.Length(lift), DriftStep, "so far %.1f that the seals pump in over a run lift the "+
			"front; open both legs before each start, fork extended", PumpedPressure)
	}
}

// extensionFinding tells of a fork that does not come all the way out under the weight of its wheel.
func (p *planner) extensionFinding(f *findings, b Behavior, friction units.Force, so string) {
	pull := float64(p.rider.Unsprung) * math.Cos(float64(p.Chassis.Rake))
	curve := b.Setup.Curve(gas.Isothermal)
	short := func(x float64) float64 { return float64(curve.Force(units.Length(x))) + pull - float64(friction) }
	if short(0) >= 0 || short(float64(curve.Stroke())) <= 0 {
		return
	}
	x, ok := solve.Root(short, 0, float64(curve.Stroke()), 1e-6)
	if !ok {
		return
	}
	if spaces, err := b.Setup.Spaces(0, gas.Isothermal); err == nil {
		for _, s := range spaces {
			if s.Chamber == setup.Negative && !s.Valve && units.Length(x) > s.Port {
				f.add(PortShut, Caution, units.Length(x), s.Port, "so far the fork stays short of full extension with the "+
					"wheel hanging, and the chambers of the air spring meet no later than at the limit: the negative one "+
					"stays empty and the start is stiff; pull the fork out by hand after every few strokes of the pump")
			}
		}
	}
	if units.Length(x) > ExtensionStep {
		f.add(StaysDown, Note, units.Length(x), ExtensionStep, "so far the fork stays short of full extension with the "+
			"wheel hanging, by its negative spring and friction: %s; pull it out by hand before it is measured", so)
	}
}

// bushFinding tells of bushes that hold the fork under hard braking, where they are known.
func (p *planner) bushFinding(f *findings, b Behavior) {
	if p.Usual.Bushes.Overhang == 0 {
		return
	}
	wheel, brake := p.braking()
	spacing, overhang := p.Usual.Bushes.at(float64(b.Dive / p.Fork.Travel))
	bushes, err := damping.NewBushes(damping.BushesSpec{Spacing: spacing, Overhang: overhang, Friction: BushFriction,
		Rake: p.Chassis.Rake, Wheel: p.Chassis.WheelRadius, Travel: overhang / 2})
	if err != nil {
		return // validated with the job
	}
	if hold, most := bushes.Force(0, wheel, brake), BindShare*p.Chassis.AxialLoad(wheel, brake); hold > most {
		f.add(BushBind, Caution, hold, most, "of friction at the bushes under hard braking, %.1f g or to the lift of the "+
			"rear wheel: the fork sticks and dives in jerks; look for worn bushes and a bent tube, and have their overlap "+
			"and fit checked", HardBraking)
	}
}

// otherLegFindings looks at air springs that lose their work and stay in the fork.
func (p *planner) otherLegFindings(f *findings) {
	for side, l := range []setup.Leg{setup.Left: p.Job.Present.Left, setup.Right: p.Job.Present.Right} {
		converted := func(l ConvertedLeg) bool { return l.Side == setup.Side(side) }
		if l.Air == nil || slices.ContainsFunc(p.Legs, converted) {
			continue
		}
		air := *l.Air
		air.Fill = gas.Fill{Ambient: p.Workshop}
		air.NegativeGauge, air.SecondGauge = units.GaugePressure{}, units.GaugePressure{}
		closed, err := setup.New(setup.Spec{Travel: p.Fork.Travel, Left: setup.Leg{Air: &air}, Closed: p.Workshop})
		if err != nil {
			continue
		}
		curve := closed.Curve(p.RideExponent)
		if force := curve.Force(curve.Stroke()); force > 0 {
			f.add(VacatedLeg, Note, force, units.Force(0), "at full travel from the %v leg if its chamber is closed at 0 bar: "+
				"a second spring; piston out, or its valve left open", setup.Side(side))
		}
	}
	if change := p.ConvertedFriction - p.Job.Present.Friction; math.Abs(float64(change)) > float64(FrictionStep) {
		what := "less friction than before: it feels livelier; 1 to 2 clicks more at low speed, both ways"
		if change > 0 {
			what = "more friction than before: look for a fork that binds, and take 1 to 2 clicks off at low speed"
		}
		f.add(FrictionChange, Note, change, step(FrictionStep, change), "%s", what)
	}
}
