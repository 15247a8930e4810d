package conversion

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// findings collects what is found, in the order of the bench and the units of the job.
type findings struct {
	list  []Finding
	units units.Style
}

func (f *findings) add(code Code, severity Severity, value, limit Amount, reason string, args ...any) {
	for i := range args {
		args[i] = f.units.Shown(args[i])
	}
	f.list = append(f.list, Finding{Code: code, Severity: severity, Value: value, Limit: limit,
		Reason: fmt.Sprintf(reason, args...)})
}

// step is a limit on the side of the value.
func step[Q ~float64](limit, value Q) Q { return Q(math.Copysign(float64(limit), float64(value))) }

// jobFindings looks at the job and the present fork.
func (p *planner) jobFindings(r *Report) []Finding {
	f := findings{units: p.Heading.Units}
	for _, l := range []setup.Leg{p.Job.Present.Left, p.Job.Present.Right} {
		if l.Air != nil && p.From == PresentFork {
			p.fillFinding(&f, l.Air.Fill.Gauge)
		}
	}
	p.riderFinding(&f)
	p.weatherFindings(&f)
	p.otherLegFindings(&f)
	if p.From == PresentFork {
		p.extensionFinding(&f, p.now, p.Job.Present.Friction, "look for air that has gone into the negative chamber, and "+
			"equalize it at full extension")
		p.bushFinding(&f, p.now)
		p.sagFinding(&f, PresentSag, p.now.Sag.Middle, "the target may be worth a second thought")
	}
	if d := r.Event.Change(r.Event.There); p.From == PresentFork && math.Abs(float64(d)) >= float64(DriftStep) {
		f.add(PresentDrift, Note, d, step(DriftStep, d), "change of the present fork's sag at the event if nothing is "+
			"touched: set the air again there, and open what is trapped over the oil with the fork extended")
	}
	least, most := slices.MinFunc(r.Targets, byRate), slices.MaxFunc(r.Targets, byRate)
	if float64(most.Rate/least.Rate)-1 > RateShare {
		f.add(CriteriaDiffer, Note, most.Rate, least.Rate, "the criteria ask for rates more than a step of the shelf "+
			"apart: an air spring is another curve than a coil; %v picks, see the band", p.Criterion)
	}
	if len(p.Legs) == 1 {
		f.add(OneLeg, Note, r.Targets[p.Criterion].Rate, r.Targets[p.Criterion].Rate/2,
			"one spring carries the whole fork; springs in both legs would have half the rate each")
	}
	// The first is the nearest safe one, or where none is safe the nearest.
	if best := r.Candidates[0]; distance(best.RateDeviation) > RateShare {
		reason := "given up: the shelf holds nothing nearer to the rate asked for; look for another spring"
		if slices.ContainsFunc(r.Candidates,
			func(c Candidate) bool { return distance(c.RateDeviation) < distance(best.RateDeviation) }) {
			reason = "given up: what the shelf holds nearer to the rate asked for is refused, or has more against it; " +
				"look for another spring"
		}
		f.add(RateStep, Caution, best.Rate, r.Targets[p.Criterion].Rate, "%s", reason)
	}
	return f.list
}

func (p *planner) riderFinding(f *findings) {
	if lo, hi := p.Usual.Riders[0], p.Usual.Riders[1]; lo < hi && (p.Rider < lo || p.Rider > hi) {
		limit := lo
		if p.Rider > hi {
			limit = hi
		}
		f.add(RiderRange, Caution, p.Rider, limit, "the fork is made for riders of %.0f to %.0f: springs, oil and "+
			"damper of its record are not for this one; ask its maker", lo, hi)
	}
}

func byRate(a, b Target) int { return cmp.Compare(a.Rate, b.Rate) }

func (p *planner) fillFinding(f *findings, gauge units.GaugePressure) {
	if p.MaxGauge != (units.GaugePressure{}) && gauge.In(units.Pascal) > p.MaxGauge.In(units.Pascal) {
		f.add(PressureLimit, Stop, gauge, p.MaxGauge, "the present fill is above the fork's limit; let it down first")
	}
	lo, hi := p.Usual.Fills[0].In(units.Bar), p.Usual.Fills[1].In(units.Bar)
	switch bar := gauge.In(units.Bar); {
	case !(lo < hi):
	case bar < lo/FillShare:
		advice := "pump it up as the rider rides it, before it is matched"
		if psi := gauge.In(units.PSI); psi >= lo/FillShare && psi <= hi*FillShare {
			advice = fmt.Sprintf("are the %.1f psi bar?", psi)
		}
		f.add(FillImplausible, Caution, gauge, p.Usual.Fills[0], "below what anybody rides in this fork; %s", advice)
	case bar > hi*FillShare:
		f.add(FillImplausible, Caution, gauge, p.Usual.Fills[1],
			"above what anybody rides in this fork; read the gauge again, and its unit")
	}
}

// weatherFindings looks at seals and moisture at the event.
func (p *planner) weatherFindings(f *findings) {
	t := p.Event.Temperature
	switch c := t.Celsius(); {
	case c < SealColdest:
		f.add(SealCold, Caution, t, units.Celsius(SealColdest),
			"seals stiffen: they leak, stick and wear until the fork is warm; keep it indoors and ride it in slowly")
	case c > SealHottest:
		f.add(SealHot, Caution, t, units.Celsius(SealHottest),
			"the fork warms further when ridden, beyond what seals and oil are made for; rest it in the shade, and read "+
				"the gauge before each ride")
	}
	// Air pumped to several bar is past its dew point, so that some water is always
	// there to freeze.
	if onAir := p.Job.Present.Left.Air != nil || p.Job.Present.Right.Air != nil; onAir && t.Celsius() < 0 {
		f.add(Moisture, Note, t, units.Celsius(0), "water that was pumped in with the air freezes at valve, port "+
			"and seals; dry nitrogen does not bring any")
	}
}

func (p *planner) sagFinding(f *findings, code Code, sag units.Length, advice string) {
	lo, hi := p.depth(p.SagWindow[0]), p.depth(p.SagWindow[1])
	switch {
	case sag < lo:
		f.add(code, Caution, sag, lo, "less sag than the discipline rides with; %s", advice)
	case sag > hi:
		f.add(code, Caution, sag, hi, "more sag than the discipline rides with; %s", advice)
	}
}

// candidateFindings looks at one coil as set.
func (p *planner) candidateFindings(c Candidate, s part) []Finding {
	f := findings{list: make([]Finding, 0, 16), units: p.Heading.Units}
	p.springFindings(&f, c, s)
	p.legFindings(&f, c)
	p.oilFindings(&f, c)
	if c.Behavior.Sag.Load != 0 {
		p.rideFindings(&f, c)
		p.damperFinding(&f, c.Rebound)
	}
	return f.list
}

// springFindings: does the part fit and hold?
func (p *planner) springFindings(f *findings, c Candidate, s part) {
	switch least := LeastBindMargin; {
	case c.BindMargin < least:
		f.add(CoilBind, Stop, c.BindMargin, least, "the coils touch before or at full travel: the spring becomes "+
			"the stop, sets and breaks; a longer spring or less preload")
	case c.BindMargin < c.BindMarginAdvised:
		f.add(BindMargin, Caution, c.BindMargin, c.BindMarginAdvised,
			"less than the spring standard asks between the coils of a moving spring; a longer spring or less preload gains it")
	}
	if s.wire == nil {
		f.add(StressUnknown, Note, c.Preload+p.Fork.Travel, s.free,
			"compressed so far of its free length; its wire is not known, so that stress and fatigue are not "+
				"checked: ask its maker")
	}
	if c.Stress > c.StressLimit {
		f.add(Overstress, Stop, c.Stress, c.StressLimit, "the wire takes a set and may break at full travel; a thicker "+
			"wire or more coils")
	}
	if s.wire != nil {
		p.lastingFindings(f, c, s)
	}
	p.lengthFinding(f, c, s)
	for i, l := range p.Legs {
		if i == 0 || l.Room != p.Legs[0].Room || l.Clearance != p.Legs[0].Clearance {
			clearance(f, l, s)
		}
	}
	if s.wire != nil && s.mislabeled() > LabelTolerance {
		f.add(Mislabeled, Caution, c.Each, s.wire.Rate(),
			"label and wire disagree by %.0f %%; measure the spring before using it", 100*s.mislabeled())
	}
	if c.Preload < LeastPreload {
		f.add(LooseSpring, Stop, c.Preload, LeastPreload, "the spring may be loose at full extension and can leave "+
			"its seat; more preload")
	}
}

// lastingFindings: does the wire last, and does the spring stand?
func (p *planner) lastingFindings(f *findings, c Candidate, s part) {
	everyday := c.Preload + p.depth(EverydayShare)
	if everyday < s.wire.SolidDeflection() {
		life := s.wire.Fatigue(s.wire.Force(c.Preload), s.wire.Force(everyday), helical.Peened)
		if factor := min(life.Goodman, life.Gerber); factor < 1 {
			f.add(Fatigue, Caution, Number(factor), Number(1), "of endless life, over strokes to %.0f of travel, shot-peened: "+
				"the spring will break some day; a thicker wire or more coils, and look at it at every service",
				units.Share(EverydayShare))
		}
	}
	deflection := min(c.Preload+p.Fork.Travel, s.wire.SolidDeflection())
	y, bows := s.wire.BucklingDeflection()
	for i, l := range p.Legs {
		if !bows || l.Room.Guide > 0 || y > deflection || i > 0 && l.Room == p.Legs[0].Room {
			continue
		}
		lean := FrictionCoefficient * s.wire.GuideForce(deflection, max(0, l.Room.Bore-s.outer))
		severity := Note
		if lean > LeanFriction {
			severity = Caution
		}
		f.add(Buckling, severity, lean, LeanFriction, "friction at full travel: %.0f times as long as wide, the "+
			"spring bows out from %.0f on and leans on the tube; good to a factor of two. A sleeve or guide inside helps",
			s.wire.Slenderness(), max(0, y-c.Preload))
	}
}

// lengthFinding: is there a spacer, or a place of the collar, that gives the preload?
func (p *planner) lengthFinding(f *findings, c Candidate, s part) {
	const rounding = units.Micrometer / 1000
	l := p.Legs[0]
	for _, other := range p.Legs {
		if other.Room.Length < l.Room.Length {
			l = other
		}
	}
	room := l.Room.Length
	switch {
	case l.Room.Spacer(s.free, c.Preload) < -rounding:
		f.add(TooLong, Stop, s.free-c.Preload, room, "the spring does not go into the %v leg at this preload; a shorter "+
			"one", l.Side)
	case s.free <= room+rounding:
	case p.Caliper != nil:
		f.add(TooLong, Stop, s.free, room,
			"the spring is longer than its room: the collar cannot be read with the spring just touching, nor set; "+
				"a shorter one, or a spacer that sets the preload")
	default:
		f.add(TooLong, Note, s.free, room,
			"the spring is longer than its room: the spacer sets the preload, a collar all the way out leaves some")
	}
}

// clearance of the spring to the tube around it and the rod or guide within it.
func clearance(f *findings, l ConvertedLeg, s part) {
	least := l.clearance()
	tell := func(gap units.Length, between, remedy string) {
		severity := Caution
		if gap <= 0 {
			severity = Stop
		}
		if gap < least {
			f.add(Clearance, severity, gap, least, "between the %s in the %v leg, where they rub; %s", between, l.Side, remedy)
		}
	}
	tell(l.Room.Bore-s.outer, "closed spring and the tube around it", "a spring of smaller diameter")
	if l.Room.Guide > 0 {
		tell(s.inner-l.Room.Guide, "spring and the guide within it", "a wider spring, or of thinner wire")
	}
}

// oilFindings: does each leg get oil, and keep enough gas?
func (p *planner) oilFindings(f *findings, c Candidate) {
	for i, l := range p.Legs {
		b, in := c.Builds[i], ""
		if i > 0 {
			if b.Cold == c.Builds[0].Cold && b.Worst == c.Builds[0].Worst {
				continue // told by the first
			}
			in = fmt.Sprintf(" (%v leg)", l.Side)
		}
		if b.OilVolume < LeastOil && !l.Bath.Greased {
			f.add(NoOil, Stop, b.OilVolume, LeastOil, "the leg runs in oil: without it bushings, seals and damper "+
				"seize; pour what its manual asks for%s", in)
		}
		if least := p.Usual.LeastOil; i == 0 && !l.Bath.Greased && b.OilVolume >= LeastOil &&
			b.OilVolume < least*(1-1e-9) {
			f.add(DryLeg, Caution, b.OilVolume, least, "less oil than the leg is made to run in: bushings, seals and "+
				"damper may run dry; fill to the least it is made for, or grease what its manual says")
		}
		f.gasFindings(b, in)
	}
}

// gasFindings looks at the gas over the oil of a leg, cold, warm and at the worst of what is known.
func (f *findings) gasFindings(b LegBuild, in string) {
	warmer := b.Warm.Temperature.Sub(b.Cold.Temperature)
	switch {
	case b.Cold.locks():
		f.add(HydraulicLock, Stop, b.OilVolume, b.OilMost,
			"no gas is left before full travel: the leg locks on its oil and the seals give; less oil%s", in)
	case b.Cold.Ratio > StopGapRatio:
		f.add(GapRatio, Stop, Number(b.Cold.Ratio), Number(StopGapRatio),
			"the gas over the oil is compressed too far at full travel; less oil%s", in)
	case b.Cold.Ratio > GoodGapRatio*1.001:
		f.add(GapRatio, Caution, Number(b.Cold.Ratio), Number(GoodGapRatio),
			"the gas over the oil is compressed far at full travel, which seals and damper feel; less oil%s", in)
	}
	switch {
	case b.Cold.locks() || b.Cold.Ratio > StopGapRatio: // told above
	case b.Warm.locks():
		f.add(HydraulicLock, Stop, b.OilVolume, b.OilMost,
			"with the oil %.0f warmer no gas is left before full travel; less oil%s", warmer, in)
	case b.Warm.Ratio > StopGapRatio*1.001:
		f.add(GapRatioWarm, Stop, Number(b.Warm.Ratio), Number(StopGapRatio),
			"compression of the gas over the oil once it is %.0f warmer; less oil%s", warmer, in)
	}
	pressure := func(code Code, g Gas) {
		if g.Peak.In(units.Pascal) <= float64(CautionGapPressure) {
			return
		}
		when := ""
		if code == GapPressureWarm {
			when = fmt.Sprintf(" once it is %.0f warmer", f.units.Shown(warmer))
		}
		switch peak := g.Peak.In(units.Bar); {
		case peak > StopGapPressure.In(units.Bar)*1.001:
			f.add(code, Stop, g.Peak, units.Gauge(StopGapPressure),
				"peak pressure over the oil at full travel%s; seals and caps are not made for it; less oil%s", when, in)
		case peak > CautionGapPressure.In(units.Bar):
			f.add(code, Caution, g.Peak, units.Gauge(CautionGapPressure),
				"peak pressure over the oil at full travel%s; less oil spares the seals%s", when, in)
		}
	}
	pressure(GapPressure, b.Cold)
	pressure(GapPressureWarm, b.Warm)
	if b.Warm.beyond() > 0.001 || b.Cold.beyond() > 0.001 || b.Worst.beyond() <= 0.001 {
		return // told above
	}
	why := "the inside of the leg is not measured; measure it, or"
	if b.OilLevel != nil {
		why = fmt.Sprintf("a level is read to %.0f;", f.units.Shown(2*LevelSpread))
	}
	f.add(GapUnsure, Stop, b.OilVolume, b.OilMost,
		"one fork in forty so filled locks on its oil or passes a limit once warm: %s less oil%s", why, in)
}

// rideFindings: does the fork do what was asked?
func (p *planner) rideFindings(f *findings, c Candidate) {
	if distance(c.RateDeviation) > math.Log(FarRate) {
		f.add(RateFar, Stop, c.Rate, c.Rate/units.Stiffness(1+c.RateDeviation),
			"far from the rate asked for: is the label for one spring or for both, and for this rider? Measure the spring")
	}
	sure := units.Length(1 * units.Millimeter)
	if u := c.Behavior.Uncertainty; u != nil {
		sure = max(sure, u.Sag)
	}
	if miss := c.Behavior.Sag.Middle - p.goal; math.Abs(float64(miss)) > float64(sure) {
		f.add(SagMissed, Note, c.Behavior.Sag.Middle, p.goal,
			"given up: sag against its target, with a preload of %.1f in its range; another rate would reach it", c.Preload)
	}
	if share := 1 - float64(c.Behavior.EnergyFull/p.now.EnergyFull); math.Abs(share) > ShortfallShare {
		severity, reason := Note, "given up: within its range the oil cannot match "+p.model()+"; this one takes "+
			"more energy to full travel; less oil or a softer spring gives some of the travel back"
		if share > 0 {
			severity, reason = Caution, "given up: within its range the oil cannot match "+p.model()+"; this one "+
				"bottoms more easily; a stiffer spring, or ride as if it had less travel"
		}
		f.add(BottomingAim, severity, c.Behavior.EnergyFull, p.now.EnergyFull, "%s", reason)
	}
	p.sagFinding(f, SagWindow, c.Behavior.Sag.Middle, "another rate, or preload within reason")
	if lo, hi := p.depth(p.Usual.MachineSag[0]), p.depth(p.Usual.MachineSag[1]); lo < hi {
		switch sag := c.Behavior.MachineSag.Middle; {
		case sag < lo:
			f.add(MachineSag, Note, sag, lo, "the machine alone sags less than the discipline rides with: a stiffer "+
				"spring with less preload would let it")
		case sag > hi:
			f.add(MachineSag, Note, sag, hi, "the machine alone sags more than the discipline rides with: a softer spring "+
				"with more preload would hold it up")
		}
	}
	if dive, most := c.Behavior.Dive, p.depth(DiveShare); dive > most {
		f.add(BrakeDive, Caution, dive, most, "hard braking, %.1f g or to the lift of the rear wheel, takes nearly all "+
			"travel (%s %.0f): little is left for a bump; a stiffer spring or more oil", HardBraking,
			p.model(), p.now.Dive)
	}
	if now, then := math.Abs(float64(p.now.SideMoment)), math.Abs(float64(c.Behavior.SideMoment)); p.From == PresentFork &&
		then > SideMomentShare*now && then > float64(LeastMoment) {
		f.add(SideMoment, Note, units.Torque(then), units.Torque(now), "at full travel the sprung leg pushes the axle to "+
			"one side more than in the present fork: clamps and axle tight, and look for a fork that binds")
	}
	if top := c.Behavior.TopOut; p.Chassis.Mass > LightMachine && top > TopOutShare*p.machine.Axial {
		f.add(TopOutForce, Caution, top, TopOutShare*p.machine.Axial,
			"the preload holds the fork at the top under the machine alone; it tops out hard; a stiffer spring with less of it")
	}
	if p.From == PresentFork && math.Abs(float64(c.SagChange)) >= float64(RideHeightStep) {
		way := "lower"
		if c.SagChange < 0 {
			way = "higher"
		}
		f.add(RideHeight, Caution, c.SagChange, step(RideHeightStep, c.SagChange),
			"the front stands %s than before; correct it in the clamps, or check clearance and "+
				"steering: rake %+.1f°, trail %+.1f, wheelbase %+.1f", way, c.RakeChange.In(units.Degree),
			c.TrailChange, c.WheelbaseChange)
	}
	if d := c.Event.Change(c.Event.There); math.Abs(float64(d)) >= float64(DriftStep) {
		what := "let it out"
		if d > 0 {
			what = "it draws the fork down: let air in"
		}
		f.add(ConvertedDrift, Note, d, step(DriftStep, d), "change of sag at the event from the gas trapped over the oil; "+
			"%s there with the wheel off the ground and the fork extended", what)
	}
}
