package conversion

import (
	"math"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// candidate sets one coil as well as the ranges allow and looks at the result.
func (p *planner) candidate(coil Coil, s helical.Spring, target units.Stiffness) (Candidate, error) {
	each := coil.rate(s)
	c := Candidate{Coil: coil.Name, Each: each, Rate: each * units.Stiffness(len(p.Legs)), Mass: s.Mass()}
	c.Off = off(c.Rate, target)
	for _, l := range p.Legs {
		c.Legs = append(c.Legs, l.Side.String())
	}
	// Preload sees the gas only at its weakest and oil sees preload only through
	// the energy, so that a few turns settle both.
	c.Preload, c.Oil = p.Preload.Aim, p.OilVolume.Aim
	for range 4 {
		c.Preload = p.solvePreload(each, s, c.Oil)
		c.Oil = p.solveOil(each, s, c.Preload)
	}
	spec, err := p.spec(each, s, c.Preload, c.Oil)
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
		c.OilSteps = p.oilSteps(s, c.Oil)
		c.Behavior.Spread = p.spread(spec)
	}
	p.measure(&c, s)
	c.Findings = append(c.Findings, p.candidateFindings(c, coil, s)...)
	return c, nil
}

// spec is the fork converted to one coil of the shelf.
func (p *planner) spec(each units.Stiffness, s helical.Spring, preload units.Length, volume units.Volume) (setup.Spec, error) {
	coil := spring.CoilSpec{Rate: each, Preload: preload, FreeLength: s.FreeLength(), SolidLength: s.SolidLength()}
	return p.fork(s.Volume(), volume, coil)
}

// build puts it together.
func (p *planner) build(each units.Stiffness, s helical.Spring, preload units.Length, volume units.Volume) (*setup.Setup, error) {
	spec, err := p.spec(each, s, preload, volume)
	if err != nil {
		return nil, err
	}
	return setup.New(spec)
}

// solvePreload is the preload within the range, and not below LeastPreload, whose
// sag is nearest to the goal.
func (p *planner) solvePreload(each units.Stiffness, s helical.Spring, volume units.Volume) units.Length {
	least := min(max(p.Preload.Min, LeastPreload), p.Preload.Max)
	return units.Length(nearest(float64(least), float64(p.Preload.Max), func(preload float64) float64 {
		set, err := p.build(each, s, units.Length(preload), volume)
		if err != nil {
			return math.NaN()
		}
		sag, err := set.Sag(p.rider.Axial)
		if err != nil {
			return -1 // it sinks to the end: more preload
		}
		return float64(p.goal - sag.Middle)
	}))
}

// solveOil is the oil within the range whose energy to full travel is nearest to
// the present fork's, with no more than makes the gap's ratio GoodGapRatio.
func (p *planner) solveOil(each units.Stiffness, s helical.Spring, preload units.Length) units.Volume {
	most := p.OilVolume.Max
	for _, l := range p.Legs {
		swept := units.Volume(float64(l.Bath.Area) * float64(p.Fork.Travel))
		most = min(most, l.Bath.Interior-p.metal(l, s.Volume())-swept/(GoodGapRatio-1))
	}
	if most <= p.OilVolume.Min {
		return p.OilVolume.Min
	}
	return units.Volume(nearest(float64(p.OilVolume.Min), float64(most), func(volume float64) float64 {
		set, err := p.build(each, s, preload, units.Volume(volume))
		if err != nil {
			return math.NaN()
		}
		b, err := p.behavior(set)
		if err != nil {
			return -1
		}
		return float64(b.EnergyFull - p.now.EnergyFull)
	}))
}

// nearest is the x in [lo, hi] that brings a rising f nearest to 0: its root, or
// the end on the root's side.
func nearest(lo, hi float64, f func(float64) float64) float64 {
	if !(hi > lo) || f(lo) >= 0 {
		return lo
	}
	if f(hi) <= 0 {
		return hi
	}
	x, ok := solve.Root(f, lo, hi, (hi-lo)*1e-6)
	if !ok {
		return lo
	}
	return x
}

// measure fills in what follows from the settings.
func (p *planner) measure(c *Candidate, s helical.Spring) {
	end := p.Fork.Travel + c.Preload
	c.Bind = s.BindMargin(end)
	c.BindAdvised = max(s.DynamicMinimumGap(), LeastBindMargin+BindMarginShare*p.Fork.Travel)
	c.Stress = s.ShearStress(units.Force(float64(c.Each) * float64(end)))
	c.StressLimit = s.StaticLimit()
	first := p.Legs[0]
	c.Spacer = first.Room.Spacer(s.FreeLength(), c.Preload)
	if p.Caliper != nil {
		reading := p.Caliper.Reading(c.Preload)
		c.Reading = &reading
	}
	if fill, err := p.fill(first, s.Volume(), c.Oil); err == nil && first.Bath.SpringInOil {
		level := fill.Level()
		c.Level = &level
	}
	c.GapRatio, c.GapWarm = p.gapRatios(first, s, c.Oil)
	if gap, err := c.Behavior.Setup.Gap(first.Side, p.RideExponent); err == nil {
		c.GapPeak = gap.Pressure(gap.Stroke()).Gauge(p.Workshop.Pressure)
	}
	if c.Behavior.Sag.Load != 0 {
		c.Lower = c.Behavior.Sag.Middle - p.now.Sag.Middle
		low := p.Chassis.Lowered(c.Lower)
		c.Rake, c.Trail = low.Rake-p.Chassis.Rake, low.Trail()-p.Chassis.Trail()
	}
}

// gapRatios is the compression ratio of the gas over the oil in the workshop and
// with the oil warm, 0 where the leg locks.
func (p *planner) gapRatios(l Leg, s helical.Spring, volume units.Volume) (cold, warm float64) {
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
