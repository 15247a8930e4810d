package conversion

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// findings looks at a fill.
func (a *inflater) findings(r *AirReport) []Finding {
	f := findings{units: a.AirJob.Heading.Units}
	a.fillFindings(&f, r)
	a.riderFinding(&f)
	airs := []gas.Ambient{a.AirJob.Event}
	for _, p := range a.AirJob.Places {
		airs = append(airs, p.Ambient)
	}
	byWarmth := func(a, b gas.Ambient) int { return cmp.Compare(a.Temperature.Kelvin(), b.Temperature.Kelvin()) }
	coldest, hottest := slices.MinFunc(airs, byWarmth), slices.MaxFunc(airs, byWarmth)
	a.Job.Event = coldest
	a.weatherFindings(&f)
	if a.Job.Event = hottest; hottest.Temperature.Celsius() > SealHottest {
		a.weatherFindings(&f)
	}
	if r.Behavior.Sag.Load != 0 {
		a.extensionFinding(&f, r.Behavior, a.Air.Friction, "it has a strong negative spring; equalize it at full extension")
	}
	if r.Behavior.Sag.Load == 0 {
		set := r.Behavior.Setup.Curve(gas.Isothermal)
		f.add(NoSupport, Stop, a.rider.Axial, set.Force(set.Stroke()), "so filled the fork bottoms under the rider at rest")
	} else {
		a.rideFindings(&f, a.asCandidate(r))
		if r.Rebound != nil {
			a.damperFinding(&f, *r.Rebound)
		}
		a.bushFinding(&f, r.Behavior)
		a.leakFinding(&f, r.Behavior)
	}
	airWords(f.list)
	a.reducerFinding(&f, r)
	a.placeFindings(&f, r)
	return f.list
}

// leakFinding tells what a month without a look at the gauge does.
func (a *inflater) leakFinding(f *findings, b Behavior) {
	later, err := b.Setup.Leaked(1 - LeakShare)
	if err != nil {
		return // a share that every fork can lose
	}
	lower := b.Stroke - b.Sag.Middle
	if sag, err := later.Sag(a.rider.Axial); err == nil {
		lower = sag.Middle - b.Sag.Middle
	}
	if lower > DriftStep {
		f.add(LeakDrift, Note, lower, DriftStep, "lower after a month, by the %.0f that sound seals may lose: read "+
			"the gauge every %d days, and pump back to the aim each time, since the reading itself lets some out",
			units.Share(LeakShare), int(30*DriftStep/lower))
	}
}

// asCandidate is the fork as filled in the words of a plan; one that matches none is held against itself.
func (a *inflater) asCandidate(r *AirReport) Candidate {
	if a.matched == nil {
		a.now = r.Behavior
	}
	c := Candidate{Behavior: r.Behavior, Event: r.Event}
	a.change(&c)
	return c
}

// airWords says of a fill what a plan says of springs and oil.
func airWords(list []Finding) {
	for i := range list {
		switch f := &list[i]; f.Code {
		case SagMissed:
			f.Severity, f.Reason = Caution, "no fill within what is marked reaches the sag wanted"
		case BottomingAim:
			f.Reason = "energy to full travel against the fork it takes after: reducers within their range do not match it"
			if f.Severity == Caution {
				f.Reason += "; it bottoms more easily"
			}
		case SagWindow:
			f.Reason = "outside the sag that the discipline rides with"
		case MachineSag:
			f.Reason = "sag of the machine alone, outside what the discipline rides with; an air spring is stiff or soft at " +
				"the top by its negative chamber"
		case TopOutForce:
			f.Reason = "the air holds the fork at the top under the machine alone; it tops out hard"
		case BrakeDive:
			f.Reason = "hard braking takes nearly all travel: little is left for a bump; more reducers, or less sag"
		case SideMoment:
			f.Reason = "at full travel the fork pushes the axle to one side more than the one before: clamps and axle tight, " +
				"and look for a fork that binds"
		case ConvertedDrift:
			f.Reason = "change of sag at the event if nothing is touched; the table says what to set there"
		}
	}
}

// fillFindings looks at the pressure that the sag asks for.
func (a *inflater) fillFindings(f *findings, r *AirReport) {
	limit := a.AirJob.MaxGauge
	if limit != (units.GaugePressure{}) && r.Asked.In(units.Pascal) > limit.In(units.Pascal) {
		f.add(PressureLimit, Stop, r.Asked, limit, "the sag asks for more than is marked on the fork: never fill it so; "+
			"this fork is not for this rider, or the sag not for this fork")
	}
	lo, hi := a.Usual.Fills[0], a.Usual.Fills[1]
	switch bar := r.Asked.In(units.Bar); {
	case !(lo.In(units.Bar) < hi.In(units.Bar)):
	case bar < lo.In(units.Bar)/FillShare:
		f.add(FillImplausible, Caution, r.Asked, lo, "below what anybody rides in this fork; look at rider, sag and chamber")
	case bar > hi.In(units.Bar)*FillShare:
		f.add(FillImplausible, Caution, r.Asked, hi, "above what anybody rides in this fork; look at rider, sag and chamber")
	}
}

// reducerFinding tells reducers that end at the end of their range.
func (a *inflater) reducerFinding(f *findings, r *AirReport) {
	if a.matched == nil || r.Behavior.Sag.Load == 0 || a.AirJob.Criterion == SagForce {
		return
	}
	const share = ShortfallShare / 2
	off := float64(r.Behavior.Energy90/a.matched.Energy90) - 1
	rounding := 1e-6*(a.most-a.least) + 1*units.Milliliter/1000
	switch {
	case off < -share && r.Reducers >= a.most-rounding:
		f.add(ReducerRange, Caution, r.Reducers, a.most, "given up: with all the reducers there may be, this fork takes "+
			"%.0f %% less energy to 90 %% of travel than the one it takes after", -100*off)
	case off > share && r.Reducers <= a.least+rounding:
		f.add(ReducerRange, Caution, r.Reducers, a.least, "given up: with as few reducers as may be, this fork takes "+
			"%.0f %% more energy to 90 %% of travel than the one it takes after", 100*off)
	}
}

// placeFindings looks at what the places do to the gauge, and tells the worst of each.
func (a *inflater) placeFindings(f *findings, r *AirReport) {
	limit := a.AirJob.MaxGauge
	worst := func(of func(PlaceFill) float64) (at PlaceFill, others string) {
		n, most := 0, 0.0
		for _, p := range r.Places {
			if v := of(p); v > 0 {
				n++
				if v > most {
					at, most = p, v
				}
			}
		}
		if n > 1 {
			others = fmt.Sprintf(" and %d other places", n-1)
		}
		return at, others
	}
	shown := func(p PlaceFill) (most units.GaugePressure) {
		for _, g := range p.Shows {
			if g.Positive.In(units.Pascal) > most.In(units.Pascal) {
				most = g.Positive
			}
		}
		return most
	}
	if p, others := worst(func(p PlaceFill) float64 {
		over := shown(p).In(units.Pascal) - limit.In(units.Pascal)*(1+1e-9)
		if limit == (units.GaugePressure{}) {
			return 0
		}
		return over
	}); p.Shows != nil {
		f.add(PressureThere, Caution, shown(p), limit, "on the gauge at %v%s, above what is marked: let it down before "+
			"it is carried there", p.where(f.units), others)
	}
	if p, others := worst(func(p PlaceFill) float64 {
		if p.Sag == nil {
			return 1
		}
		return 0
	}); p.Ambient != (gas.Ambient{}) {
		f.add(NoSupport, Caution, p.Ambient.Temperature, a.AirJob.Workshop.Temperature, "at %v%s the fork as filled "+
			"here does not carry the rider: set it there", p.where(f.units), others)
	}
	if p, others := worst(func(p PlaceFill) float64 {
		if p.Sag == nil || len(p.Set) > 0 {
			return 0
		}
		return math.Abs(float64(p.Sag.Middle - a.goal))
	}); p.Sag != nil {
		f.add(SagMissed, Caution, p.Sag.Middle, a.goal, "at %v%s no fill up to what is marked brings the sag back",
			p.where(f.units), others)
	}
}

// where names a place, or its air.
func (p PlaceFill) where(style units.Style) string {
	if p.Place.Name != "" {
		return p.Place.Name
	}
	return fmt.Sprintf("%.0f and %.3f", style.Shown(p.Ambient.Temperature), style.Shown(p.Ambient.Pressure))
}
