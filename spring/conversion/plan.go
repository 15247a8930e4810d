package conversion

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Plan finds the coil for a job. An error reports every fault of the job, or that
// the present fork does not carry the rider, so that there is nothing to match. A
// report without a safe candidate is no error: its findings say why.
func Plan(job Job) (*Report, error) { return plan(job, nil) }

// plan judges a build that stands instead of choosing one, if there is any.
func plan(job Job, stands *standing) (*Report, error) {
	set, parts, err := job.validate()
	if err != nil {
		return nil, err
	}
	p := &planner{Job: job, warm: job.running(), parts: parts, rider: job.Chassis.RiddenLoad(job.Rider),
		machine: job.Chassis.MachineLoad(), goal: job.wantedSag(job.Fork.Travel)}
	if stands != nil {
		if err := stands.settle(p); err != nil {
			return nil, err
		}
		p.stands = stands
	}
	r := &Report{Job: job, Cautions: cautions(set, true, job.Heading.Units), Rider: p.rider, Machine: p.machine}
	if job.From == RiderAlone {
		if set, err = p.asked(); err != nil {
			return nil, err
		}
	}
	if p.now, err = p.behavior(set); err != nil {
		return nil, atField("Job.Rider", err, "on the axis: the present fork does not carry this rider"+p.fillHint())
	}
	p.now.Uncertainty, p.now.Parts = p.uncertainty(set.Spec(), p.known())
	if warm, err := set.At(gas.Ambient{Temperature: p.warm, Pressure: set.Ambient().Pressure}); err == nil {
		p.now.Running = p.running(warm)
	}
	if job.TargetSag == 0 && job.From == PresentFork {
		p.goal = p.now.Sag.Middle
	}
	rest, err := setup.New(p.stripped())
	if err != nil {
		return nil, err
	}
	p.stays = [2]spring.Curve{atRest: rest.Curve(gas.Isothermal), inLanding: rest.Curve(job.RideExponent)}
	r.Present, r.TargetSag = p.now, p.goal
	var faults []error
	if r.Event, err = set.Drift(p.rider.Axial, job.Event); err != nil {
		faults = append(faults, atField("Job.Event", err,
			"on the axis: there the present fork does not carry this rider"+p.fillHint()))
	}
	bare, err := p.withoutCoils()
	if err != nil {
		return nil, errors.Join(append(faults, err)...)
	}
	if r.Targets, err = p.targets(bare); err != nil {
		return nil, errors.Join(append(faults, err)...)
	}
	if r.Band = p.sagBand(bare, r.Targets[job.Criterion].Rate); job.From == PresentFork {
		r.Band = p.band(set, bare, r.Targets[job.Criterion].Rate)
	}
	r.Band.Inside = p.inside(r.Band)
	for _, s := range parts {
		c, err := p.candidate(s, r.Targets[job.Criterion].Rate)
		if err != nil {
			faults = append(faults, fmt.Errorf("coil %s: %w", s.Name, err))
		}
		r.Candidates = append(r.Candidates, c)
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	slices.SortStableFunc(r.Candidates, rank)
	pareto(r.Candidates)
	if _, safe := r.Chosen(); !safe {
		r.WouldFit = p.wouldFit(r.Targets[job.Criterion].Rate)
	}
	r.Findings = p.jobFindings(r)
	return r, nil
}

// atField is the error of a field of the job where a part of the library found it, in
// words of its own.
func atField(field string, err error, hint string) error {
	var e *units.RangeError
	if !errors.As(err, &e) {
		return err
	}
	return &units.RangeError{Field: field, Value: e.Value, Want: e.Want, Hint: hint}
}

// fillHint asks for a fill that nobody rides; "" for another.
func (j Job) fillHint() string {
	fill, onAir := j.Fill()
	if lo := j.Usual.Fills[0]; onAir && fill.Gauge.In(units.Bar) < lo.In(units.Bar)/FillShare {
		return fmt.Sprintf(", is its fill of %.4g right? Usual is %.3g and more", fill.Gauge, lo)
	}
	return ""
}

// planner is a job with what follows from it at once.
type planner struct {
	Job
	parts          []part // of the shelf
	rider, machine geometry.Load
	warm           units.Temperature // of oil and gas once ridden
	now            Behavior          // of the present fork
	goal           units.Length      // sag at rest with rider

	more   units.Volume // in the second leg of a build than leaves it the gas of the first
	stands *standing    // a build that is there, to be judged as it is; nil: the plan chooses

	stays [2]spring.Curve // what the converted fork has beside what its converted legs get, atRest and inLanding

	landings [2]landing // of the present fork, built first, and of the last other
	built    int
}

const atRest, inLanding = 0, 1 // indices of planner.stays

// behavior reads what a fork does under rider and machine.
func (p *planner) behavior(s *setup.Setup) (Behavior, error) {
	b := Behavior{Setup: s}
	var err error
	if b.Sag, err = s.Sag(p.rider.Axial); err != nil {
		return b, err
	}
	if b.MachineSag, err = s.Sag(p.machine.Axial); err != nil {
		return b, err
	}
	b.TopOut = s.Curve(gas.Isothermal).Force(0)
	b.Rate = s.CurveAbout(b.Sag.Middle, p.RideExponent).Rate(b.Sag.Middle)
	b.Frequency = p.Chassis.Frequency(b.Rate, p.rider)
	c := p.landing(s)
	b.Stroke = c.Stroke()
	b.Energy90 = c.Energy(min(p.depth(0.9), b.Stroke))
	b.EnergyFull = c.Energy(b.Stroke)
	b.ForceFull = c.Force(b.Stroke)
	b.Dive = b.Stroke
	if dive, err := s.Sag(p.Chassis.AxialLoad(p.braking())); err == nil {
		b.Dive = dive.Middle
	}
	b.SideMoment = p.sideMoment(s.Spec())
	return b, nil
}

// braking is the load on the front wheel under HardBraking, with what that shifts there, and the force that brakes.
func (p *planner) braking() (wheel, brake units.Force) {
	g := float64(units.StandardGravity)
	lever := float64(p.Chassis.CenterOfGravity / p.Chassis.Wheelbase)
	lift := float64(1-p.Chassis.FrontShareRidden) / lever // in g
	brake = units.Force(min(HardBraking, LiftShare*lift) * float64(p.rider.Mass) * g)
	return p.rider.Wheel + brake*units.Force(lever), brake
}

// sideMoment is what both legs, in a landing to full travel, do about the middle between them.
func (p *planner) sideMoment(s setup.Spec) units.Torque {
	if p.Usual.LegSpacing == 0 {
		return 0
	}
	force := func(l setup.Leg) float64 {
		alone, err := setup.New(setup.Spec{Travel: s.Travel, Left: l, Closed: s.Closed})
		if err != nil {
			return math.NaN()
		}
		c := alone.Curve(p.RideExponent)
		return float64(c.Force(c.Stroke()))
	}
	moment := (force(s.Left) - force(s.Right)) * float64(p.Usual.LegSpacing) / 2
	if math.IsNaN(moment) {
		return 0
	}
	return units.Torque(moment)
}

// running reads what a warm fork does; nil where it does not carry the rider.
func (p *planner) running(warm *setup.Setup) *Running {
	sag, err := warm.Sag(p.rider.Axial)
	if err != nil {
		return nil
	}
	c := warm.Curve(p.RideExponent)
	end := c.Stroke()
	return &Running{Temperature: warm.Ambient().Temperature, Sag: sag, Stroke: end,
		Energy90: c.Energy(min(p.depth(0.9), end)), EnergyFull: c.Energy(end), ForceFull: c.Force(end)}
}

// clearance is what a spring leaves to tube and guide.
func (l ConvertedLeg) clearance() units.Length {
	if l.Clearance == 0 {
		return SpringClearance
	}
	return l.Clearance
}

// landing is the curve of a fork in a landing, built once for the present one and the last other.
func (p *planner) landing(s *setup.Setup) spring.Curve {
	for _, l := range p.landings {
		if l.fork == s {
			return l.curve
		}
	}
	p.landings[min(1, p.built)] = landing{s, s.Curve(p.RideExponent)}
	p.built++
	return p.landings[min(1, p.built-1)].curve
}

// landing is a fork and its curve.
type landing struct {
	fork  *setup.Setup
	curve spring.Curve
}

// depth is a share of the travel.
func (p *planner) depth(share units.Share) units.Length { return p.Fork.Travel * units.Length(share) }

// metal is what goes into a converted leg's oil: spacer, guide and, where it is
// wet, the spring.
func (p *planner) metal(l ConvertedLeg, spring units.Volume) units.Volume {
	if l.Bath.SpringInOil {
		return l.Bath.Metal + spring
	}
	return l.Bath.Metal
}

// column is what a level of a converted leg moves over; 0 where none is to be read.
func (p *planner) column(l ConvertedLeg) units.Area {
	switch {
	case !l.Bath.SpringInOil:
		return 0
	case l.Bath.Column == 0 && !l.Damper:
		return p.Fork.OilColumn()
	}
	return l.Bath.Column
}

// oilIn is the oil of a converted leg that leaves it the gas the first one has over a
// volume, less by what a damper takes up; in the second leg of a build what is more there.
func (p *planner) oilIn(l ConvertedLeg, spring, volume units.Volume) units.Volume {
	first := p.Legs[0]
	more := units.Volume(0)
	if l.Side != first.Side {
		more = p.more
	}
	return max(0, volume+more+(l.Bath.Interior-p.metal(l, spring)-(first.Bath.Interior-p.metal(first, spring))))
}

// fill is the oil of a converted leg.
func (p *planner) fill(l ConvertedLeg, spring, volume units.Volume) (oil.Fill, error) {
	column := p.column(l)
	if column == 0 {
		column = p.Fork.OilColumn() // for no level
	}
	return oil.NewFill(oil.FillSpec{Interior: l.Bath.Interior, Column: column, Metal: p.metal(l, spring), Volume: volume})
}

// swept is what the travel takes of the gas over the oil of a leg.
func (p *planner) swept(l ConvertedLeg) units.Volume {
	return units.Volume(float64(l.Bath.Area) * float64(p.Fork.Travel))
}

// residual is the gas a converted leg has left at full travel. A leg that holds less than
// goes in locks at once; it is taken to move a little, so that the plan can say so.
func (p *planner) residual(l ConvertedLeg, metal, volume units.Volume) units.Volume {
	return max(p.gasLeft(l, metal, volume), -p.swept(l)*19/20, -1*units.Liter)
}

// gasLeft is the gas left at full travel, 0 or less where the leg locks, over the oil that
// belongs to a volume in the first leg.
func (p *planner) gasLeft(l ConvertedLeg, metal, volume units.Volume) units.Volume {
	return l.Bath.Interior - p.oilIn(l, metal, volume) - p.metal(l, metal)
}

// fork is the converted fork: the present springs out, and in each converted leg the
// new ones, with that much metal, and the gas over that much oil.
func (p *planner) fork(metal, volume units.Volume, springs ...spring.Spec) setup.Spec {
	s := p.stripped()
	for _, l := range p.Legs {
		leg := legOf(&s, l.Side)
		leg.Springs = append(leg.Springs, springs...)
		leg.Gap = &setup.Gap{Area: l.Bath.Area, Residual: p.residual(l, metal, volume)}
	}
	return s
}

// stripped is the fork without what the converted legs get: dampers stay, top-out springs
// unless they are the balance spring of an air spring, and the gas of the other leg.
func (p *planner) stripped() setup.Spec {
	s := setup.Spec{Travel: p.Fork.Travel, Left: strippedLeg(p.Job.Present.Left), Right: strippedLeg(p.Job.Present.Right),
		Closed: p.Workshop, Friction: p.ConvertedFriction}
	for _, l := range p.Legs {
		legOf(&s, l.Side).Gap = nil
	}
	return s
}

func legOf(s *setup.Spec, at setup.Side) *setup.Leg {
	if at == setup.Right {
		return &s.Right
	}
	return &s.Left
}

func strippedLeg(l setup.Leg) setup.Leg {
	stays := setup.Leg{Gap: l.Gap, Damper: l.Damper}
	if l.Air == nil {
		for _, s := range l.Springs {
			if topOut, ok := s.(spring.TopOutSpec); ok {
				stays.Springs = append(stays.Springs, topOut)
			}
		}
	}
	return stays
}
