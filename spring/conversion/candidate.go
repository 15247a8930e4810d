package conversion

import (
	"math"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// candidate sets one coil as well as the ranges allow and looks at the result.
func (p *planner) candidate(s part, target units.Stiffness) (Candidate, error) {
	c := Candidate{Coil: s.Name, Mass: s.mass}
	for _, l := range p.Legs {
		c.Legs = append(c.Legs, l.Side)
	}
	c.Preload, c.OilVolume = p.settings(s)
	var err error
	if c.Each, err = p.equivalent(s, c.Preload); err != nil {
		return Candidate{}, err
	}
	c.Rate = c.Each * units.Stiffness(len(p.Legs))
	c.RateDeviation = deviation(c.Rate, target)
	spec := p.fork(s.metal, c.OilVolume, s.spec(c.Preload))
	set, err := setup.New(spec)
	if err != nil {
		return Candidate{}, err
	}
	reason := "the fork bottoms or binds under the rider at rest; a stiffer spring or a longer one"
	if c.Behavior, err = p.behavior(set); err == nil {
		reason = "the fork bottoms or binds under the rider at the event; a stiffer spring or a longer one"
		c.Event, err = set.Drift(p.rider.Axial, p.Event)
	}
	if err != nil {
		end := set.Curve(gas.Isothermal).Stroke()
		c.Findings = append(c.Findings, Finding{Code: NoSupport, Severity: Stop, Value: p.rider.Axial,
			Limit: set.Curve(gas.Isothermal).Force(end), Reason: reason})
		c.Behavior, c.Event = Behavior{Stroke: end, Setup: set}, setup.Drift{}
	} else {
		if p.From == PresentFork {
			if c.Rebound, err = p.rebound(c.Behavior); err != nil {
				return Candidate{}, err
			}
			c.Start = p.start(c.Rebound)
		}
		c.OilSteps = p.oilSteps(s, c.OilVolume)
		c.Behavior.Uncertainty, c.Behavior.Parts = p.uncertainty(spec, p.sure(s))
		if warm, err := p.warmed(s, c.Preload, c.OilVolume); err == nil {
			c.Behavior.Running = p.running(warm)
		}
	}
	p.measure(&c, s)
	c.Chances = p.chances(c, s)
	c.Findings = append(c.Findings, p.candidateFindings(c, s)...)
	c.Verdict = verdict(c.Findings)
	c.Scores = p.scores(c)
	return c, nil
}

// massChange of the springs and of the oil, where it is known what comes out.
func (p *planner) massChange(s part, builds []LegBuild) MassChange {
	m := MassChange{Springs: s.mass * units.Mass(len(p.Legs))}
	density := float64(p.Oil.Density(p.Workshop.Temperature))
	for i, l := range p.Legs {
		if old := (l.Drained[0] + l.Drained[1]) / 2; old > 0 {
			m.Oil += units.Mass(float64(builds[i].OilVolume-old) * density)
		}
	}
	m.Sprung, m.Unsprung = m.Springs/2, m.Springs/2+m.Oil
	return m
}

// measure fills in what follows from the settings.
func (p *planner) measure(c *Candidate, s part) {
	c.BindMargin, c.BindMarginAdvised = p.bindMargin(s, c.Preload)
	if s.wire != nil {
		c.Stress = s.wire.ShearStress(units.Force(float64(c.Each) * float64(p.Fork.Travel+c.Preload)))
		c.StressLimit = s.wire.StaticLimit()
	}
	for _, l := range p.Legs {
		c.Builds = append(c.Builds, p.build(l, s, c.Preload, c.OilVolume))
	}
	first := c.Builds[0]
	c.Spacer, c.OilLevel, c.GapRatio, c.GapRatioWarm = first.Spacer, first.OilLevel, first.Cold.Ratio, first.Warm.Ratio
	c.MassChange = p.massChange(s, c.Builds)
	if p.Collar != nil {
		turns, flats, missing := p.Collar.Flats(c.Preload)
		c.Collar = &CollarTurns{Turns: turns, Flats: flats, Missing: missing}
	}
	if p.Caliper != nil {
		reading := p.Caliper.Reading(c.Preload)
		c.CaliperReading = &reading
	}
	if gap, err := c.Behavior.Setup.Gap(first.Side, p.RideExponent); err == nil {
		c.GapPeak = gap.Pressure(gap.Stroke()).Gauge(p.Workshop.Pressure)
	}
	if c.Behavior.Sag.Load != 0 {
		p.change(c)
	}
}

// change is what the sag does to the stance of the machine.
func (p *planner) change(c *Candidate) {
	c.SagChange = c.Behavior.Sag.Middle - p.now.Sag.Middle
	low := p.Chassis.Lowered(c.SagChange)
	c.RakeChange, c.TrailChange = low.Rake-p.Chassis.Rake, low.Trail()-p.Chassis.Trail()
	c.WheelbaseChange = -c.SagChange * units.Length(math.Sin(float64(p.Chassis.Rake)))
}
