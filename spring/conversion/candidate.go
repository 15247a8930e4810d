package conversion

import (
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// candidate sets one coil as well as the ranges allow and looks at the result.
func (p *planner) candidate(coil ShelfCoil, s helical.Spring, target units.Stiffness) (Candidate, error) {
	each := coil.rate(s)
	c := Candidate{Coil: coil.Name, Each: each, Rate: each * units.Stiffness(len(p.Legs)), Mass: s.Mass()}
	c.RateDeviation = deviation(c.Rate, target)
	for _, l := range p.Legs {
		c.Legs = append(c.Legs, l.Side)
	}
	c.Preload, c.OilVolume = p.settings(each, s)
	spec, err := p.spec(each, s, c.Preload, c.OilVolume)
	if err != nil {
		return Candidate{}, err
	}
	set, err := setup.New(spec)
	if err != nil {
		return Candidate{}, err
	}
	if c.Behavior, err = p.behavior(set); err != nil {
		c.Findings = append(c.Findings, Finding{Code: NoSupport, Severity: Stop, Value: p.rider.Axial,
			Limit: set.Curve(1).Force(set.Curve(1).Stroke()), Reason: "the fork bottoms or binds under the rider at rest"})
		c.Behavior = Behavior{Stroke: set.Curve(1).Stroke(), Setup: set}
	} else {
		if c.Event, err = set.Drift(p.rider.Axial, p.Event); err != nil {
			return Candidate{}, err
		}
		if c.Rebound, err = p.rebound(c.Behavior); err != nil {
			return Candidate{}, err
		}
		c.OilSteps = p.oilSteps(s, c.OilVolume)
		c.Behavior.Uncertainty = p.spread(spec)
	}
	p.measure(&c, s)
	c.Findings = append(c.Findings, p.candidateFindings(c, coil, s)...)
	c.Verdict = verdict(c.Findings)
	return c, nil
}

// spec is the fork converted to one coil of the shelf.
func (p *planner) spec(each units.Stiffness, s helical.Spring, preload units.Length, volume units.Volume) (setup.Spec, error) {
	return p.fork(s.Volume(), volume, p.coil(each, s, preload))
}

func (p *planner) coil(each units.Stiffness, s helical.Spring, preload units.Length) spring.Spec {
	return spring.CoilSpec{Rate: each, Preload: preload, FreeLength: s.FreeLength(), SolidLength: s.SolidLength()}
}

// measure fills in what follows from the settings.
func (p *planner) measure(c *Candidate, s helical.Spring) {
	end := p.Fork.Travel + c.Preload
	c.BindMargin = s.BindMargin(end)
	c.BindMarginAdvised = max(s.DynamicMinimumGap(), LeastBindMargin+BindMarginShare*p.Fork.Travel)
	c.Stress = s.ShearStress(units.Force(float64(c.Each) * float64(end)))
	c.StressLimit = s.StaticLimit()
	first := p.Legs[0]
	c.Spacer = first.Room.Spacer(s.FreeLength(), c.Preload)
	if p.Caliper != nil {
		reading := p.Caliper.Reading(c.Preload)
		c.CaliperReading = &reading
	}
	if fill, err := p.fill(first, s.Volume(), c.OilVolume); err == nil && first.Bath.SpringInOil {
		level := fill.Level()
		c.OilLevel = &level
	}
	c.GapRatio, c.GapRatioWarm = p.gapRatios(first, s, c.OilVolume)
	if gap, err := c.Behavior.Setup.Gap(first.Side, p.RideExponent); err == nil {
		c.GapPeak = gap.Pressure(gap.Stroke()).Gauge(p.Workshop.Pressure)
	}
	if c.Behavior.Sag.Load != 0 {
		c.SagChange = c.Behavior.Sag.Middle - p.now.Sag.Middle
		low := p.Chassis.Lowered(c.SagChange)
		c.RakeChange, c.TrailChange = low.Rake-p.Chassis.Rake, low.Trail()-p.Chassis.Trail()
	}
}

// gapRatios is the compression ratio of the gas over the oil in the workshop and
// with the oil warm, 0 where the leg locks.
func (p *planner) gapRatios(l ConvertedLeg, s helical.Spring, volume units.Volume) (cold, warm float64) {
	ratio := func(volume units.Volume) float64 {
		residual := l.Bath.Interior - p.metal(l, s.Volume()) - volume
		if residual <= 0 {
			return 0
		}
		return 1 + float64(l.Bath.Area)*float64(p.Fork.Travel)/float64(residual)
	}
	t := p.Workshop.Temperature
	return ratio(volume), ratio(p.Oil.Expand(volume, t, t.Add(OilWarming)))
}
