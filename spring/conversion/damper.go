package conversion

import (
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// rebound compares the coil fork with the present one: rates as ridden, forces of a landing.
func (p *planner) rebound(b Behavior) (Rebound, error) {
	depth := min(p.depth(ReboundDepth), b.Stroke, p.now.Stroke)
	along := float64(p.rider.Axial) / float64(units.StandardGravity) * math.Cos(float64(p.Chassis.Rake)) // sprung·cos² ε
	body, err := damping.NewOscillator(damping.OscillatorSpec{Stiffness: p.now.Rate, Mass: units.Mass(along)})
	if err != nil {
		return Rebound{}, err
	}
	r, err := damping.NewRebound(damping.ReboundSpec{
		OldRate: p.now.Rate, NewRate: b.Rate,
		OldForce: p.landing(p.now.Setup).Force(depth), NewForce: p.landing(b.Setup).Force(depth),
		OldFriction: p.Job.Present.Friction, NewFriction: p.ConvertedFriction, Speed: ReboundSpeed,
		OldDamping: units.DampingRate(UsualRebound) * body.Critical(),
		PerClick:   damping.CommonClick,
	})
	if err != nil {
		return Rebound{}, err
	}
	few, most := r.Clicks()
	return Rebound{Ratio: r.Ratio, Return: r.Return, FewClicks: few, MostClicks: most, Advice: r.Advice()}, nil
}

// oilSteps is what 5 mL and 5 mm do.
func (p *planner) oilSteps(s part, volume units.Volume) OilSteps {
	var steps OilSteps
	for _, l := range p.Legs {
		fill, err := p.fill(l, s.metal, p.oilIn(l, s.metal, volume))
		if err != nil {
			return OilSteps{}
		}
		per, err := fill.Sensitivity(oil.AirGapSpec{Area: l.Bath.Area, Travel: p.Fork.Travel,
			Pressure: p.Workshop.Pressure, Ambient: p.Workshop.Pressure, Exponent: p.RideExponent})
		if err != nil || math.IsInf(per.Volume.To, 0) || math.IsInf(per.Level.To, 0) {
			return OilSteps{}
		}
		steps.Volume += per.Volume.Force
		steps.Level += per.Level.Force
	}
	return steps
}

// start are the clicks to begin with: rebound between both rules, compression a click firmer where
// the seals of an air piston no longer help. They stay LeastClicks off closed.
func (p *planner) start(r Rebound) *Clicks {
	if p.Clicks == nil {
		return nil
	}
	c := *p.Clicks
	c.Rebound = max(LeastClicks, c.Rebound-int(math.Round((r.FewClicks+r.MostClicks)/2)))
	if _, onAir := p.Fill(); onAir {
		c.Compression = max(LeastClicks, c.Compression-1)
	}
	return &c
}

// damperFinding flags a damper that the new spring leaves behind.
func (p *planner) damperFinding(f *findings, r Rebound) {
	if p.Clicks != nil {
		if left := float64(p.Clicks.Rebound) - (r.FewClicks+r.MostClicks)/2; left < LeastClicks {
			f.add(DamperRange, Caution, Number(left), Number(LeastClicks), "clicks from closed that rebound asks for, between "+
				"both rules; where a check may stick: have the damper revalved for this spring")
		}
		return
	}
	if middle := (r.FewClicks + r.MostClicks) / 2; math.Abs(middle) > ReboundWindow {
		f.add(DamperRange, Caution, Number(middle), Number(step(ReboundWindow, middle)),
			"clicks of rebound asked for, between both rules; an adjuster in its middle does not reach that far: "+
				"have the damper revalved for this spring")
	}
}
