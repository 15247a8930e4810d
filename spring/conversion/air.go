package conversion

import (
	"fmt"
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// AirJob is an air fork to be filled: one that goes back to air from coil springs, or one that is kept and only
// set up.
type AirJob struct {
	Heading Heading          // what the job is called
	Rider   units.Mass       // in riding kit, geometry.LightestRider to HeaviestRider
	Chassis geometry.Chassis // of the machine
	Fork    geometry.Fork    // its tubes and travel
	Air     setup.Spec       // on its air springs, at any fill above 0; its closing is not used
	Match   *setup.Spec      // the fork whose sag and force the air takes over, as one on coils; nil: only the sag counts

	// Reducers is how much solid or oil may stand in the positive chamber of each air spring to match the force:
	// above what Air has in it or below, up to what the piston leaves; both 0: what there is stays.
	Reducers  [2]units.Volume
	Criterion Criterion // that the reducers follow; SagForce: they stay

	RideExponent float64        // polytropic, LeastRideExponent to gas.Adiabatic
	TargetSag    units.Length   // at rest with rider; zero: that of Match, or without it the middle of SagWindow
	SagWindow    [2]units.Share // of travel

	Workshop gas.Ambient // in which the fork is closed and filled
	Event    gas.Ambient // to which it is carried
	Places   []AirPlace  // where it will be ridden besides, up to MaxPlaces

	Known    *setup.Tolerance    // nil: setup.Usual
	Usual    Usual               // what the fork is made for
	MaxGauge units.GaugePressure // marked on the fork, up to 40 bar; zero: not known
	Torques  []Torque            // to repeat where it is closed
}

// AirPlace is a place with its air.
type AirPlace struct {
	Place   Place       // its name and altitude
	Ambient gas.Ambient // the air there
}

// AirReport is how to fill a fork. The tags name the keys of its JSON, to which their unit is added.
type AirReport struct {
	Job       AirJob        `json:"job"`        // as it was given
	Rider     geometry.Load `json:"rider"`      // load with rider
	Machine   geometry.Load `json:"machine"`    // load of the machine alone
	Match     *Behavior     `json:"match"`      // of the fork to match; nil: none
	TargetSag units.Length  `json:"target_sag"` // at rest with rider

	Asked    units.GaugePressure `json:"asked_gauge"` // of the positive chamber, by the sag, whatever is marked
	Reducers units.Volume        `json:"reducers"`    // in each positive chamber
	Gauges   []Gauges            `json:"gauges"`      // to set in the workshop, fork extended, at most what is marked

	// SagStep is the change of sag from a tenth of a bar more in the positive chamber.
	SagStep  units.Length `json:"sag_per_tenth_bar"`
	Behavior Behavior     `json:"behavior"` // of the fork so filled
	Rebound  *Rebound     `json:"rebound"`  // against Match
	Event    setup.Drift  `json:"event"`    // what the event does to its sag
	Places   []PlaceFill  `json:"places"`   // the event first

	Verdict  Verdict   `json:"verdict"`  // what the findings come to
	Findings []Finding `json:"findings"` // in the order of the bench
	Cautions []string  `json:"cautions"` // never to be left out
}

// Safe reports whether nothing found says stop.
func (r *AirReport) Safe() bool { return r.Verdict != Refused }

// Gauges are the readings of one air spring, fork extended.
type Gauges struct {
	Side     setup.Side           `json:"side"`           // the leg it is in
	Positive units.GaugePressure  `json:"positive_gauge"` // of the main chamber
	Negative *units.GaugePressure `json:"negative_gauge"` // by its own valve, or as the port leaves it
	Valve    bool                 `json:"negative_valve"` // the negative chamber has one
	Second   *units.GaugePressure `json:"second_gauge"`   // behind a floating piston
}

// PlaceFill is what a place makes of the fill, and what to set there.
type PlaceFill struct {
	Place   Place       `json:"place"`        // its name and altitude
	Ambient gas.Ambient `json:"ambient"`      // the air there
	Shows   []Gauges    `json:"shows_gauges"` // set in the workshop, carried there, as warm as the air there
	Sag     *setup.Sag  `json:"sag"`          // there if nothing is touched; nil: the fork does not carry the rider
	Set     []Gauges    `json:"set_gauges"`   // that bring the sag of the workshop there; empty: none does
}

// MaxPlaces bounds the table: more do not stand on a sheet.
const MaxPlaces = 50

// leastGauge is next to none: chambers with valves of their own need a pressure to share.
const leastGauge = 0.05 * units.Bar

func (j AirJob) validate() error {
	f := check.Of("AirJob")
	check.Between(f, "Rider", j.Rider, geometry.LightestRider, geometry.HeaviestRider)
	f.Nest("Chassis", j.Chassis.Validate())
	fork := j.Fork.Validate()
	f.Nest("Fork", fork)
	travel := !check.At(fork, "Fork.Travel")
	checkSpec := func(field string, s setup.Spec) bool {
		_, err := setup.New(s)
		f.Nest(field, err)
		if err == nil && travel && s.Travel != j.Fork.Travel {
			f.Report(field+".Travel", s.Travel, fmt.Sprintf("the fork's %.6g", j.Fork.Travel), "")
		}
		return err == nil
	}
	if checkSpec("Air", j.Air) {
		for i, l := range []setup.Leg{j.Air.Left, j.Air.Right} {
			if l.Air != nil && !(l.Air.Fill.Gauge.In(units.Pascal) > 0) {
				f.Report([]string{"Air.Left", "Air.Right"}[i]+".Air.Fill.Gauge", l.Air.Fill.Gauge, "a fill above 0 bar",
					"other chambers keep their ratio to it")
			}
		}
		if j.Air.Left.Air == nil && j.Air.Right.Air == nil {
			f.Report("Air", "no air spring", "one in a leg at least, to be filled", "")
		}
	}
	if j.Match != nil {
		checkSpec("Match", *j.Match)
	}
	reducers := true
	for i, v := range j.Reducers {
		reducers = check.Between(f, fmt.Sprintf("Reducers[%d]", i), v, 0, 3*units.Liter) && reducers
	}
	if reducers && j.Reducers[0] > j.Reducers[1] {
		f.Report("Reducers[0]", j.Reducers[0], fmt.Sprintf("at most %.6g, the most of them", j.Reducers[1]), "")
	}
	if !criteria.Has(j.Criterion) {
		f.Report("Criterion", j.Criterion, criteria.Want(), "")
	}
	check.Between(f, "RideExponent", j.RideExponent, LeastRideExponent, gas.Adiabatic)
	Job{TargetSag: j.TargetSag, SagWindow: j.SagWindow}.checkSag(f, j.Fork.Travel, travel)
	Job{Heading: j.Heading, Torques: j.Torques}.checkHeading(f)
	f.Nest("Workshop", j.Workshop.Validate())
	f.Nest("Event", j.Event.Validate())
	if len(j.Places) > MaxPlaces {
		f.Report("Places", len(j.Places), fmt.Sprintf("%d places or fewer", MaxPlaces), "")
	}
	for i, p := range j.Places {
		f.Nest(fmt.Sprintf("Places[%d].Ambient", i), p.Ambient.Validate())
		if z := p.Place.Altitude; z != nil {
			check.Between(f, fmt.Sprintf("Places[%d].Place.Altitude", i), *z, -500*units.Meter, 11000*units.Meter)
		}
	}
	f.Nest("Usual", j.Usual.validate())
	if j.Known != nil {
		f.Nest("Known", j.Known.Validate())
	}
	check.Gauge(f, "MaxGauge", j.MaxGauge, 0, 40*units.Bar)
	return f.Err()
}

// inflater is a job with what follows from it at once.
type inflater struct {
	AirJob
	*planner                 // of the findings that every fork has
	top         float64      // positive gauge, Pa, with which no chamber passes 40 bar
	least, most units.Volume // of the reducers
	matched     *Behavior    // nil: no fork is matched
}

// PlanAir finds how to fill an air fork: the positive gauge that brings its sag under the rider to what is wanted
// in the air of the workshop,
//
//	F_air(x_s; p, V_r) = W at rest
//
// and where it matches another fork, with the reducers V_r that bring the energy to 90 % of travel, or the forces
// from 10 % to 85 % of it, nearest to that fork's by the job's criterion. A negative or second chamber with a valve
// of its own keeps the ratio to the positive one that Air has; which is common practice, no source. Nothing is
// advised above MaxGauge; what the sag asks for is told.
//
// At each place the closed fork has taken the temperature of its air: its gauge shows there what the ideal gas law
// leaves, see [gas.Fill.Reading], and Set is what brings the sag back with the gas over the oil as it came.
//
// An error reports every fault of the job, or that the fork to match does not carry the rider. A fill that cannot
// be had is no error: the findings say why.
func PlanAir(job AirJob) (*AirReport, error) {
	if err := job.validate(); err != nil {
		return nil, err
	}
	a, err := newInflater(job)
	if err != nil {
		return nil, err
	}
	r := &AirReport{Job: job, Rider: a.rider, Machine: a.machine, Match: a.matched, TargetSag: a.goal}
	r.Reducers = a.reducers()
	asked := a.gaugeAt(job.Workshop, r.Reducers)
	r.Asked = units.Gauge(units.Pressure(asked))
	if limit := job.MaxGauge.In(units.Pascal); limit > 0 {
		asked = min(asked, limit)
	}
	set, err := a.filled(job.Workshop, asked, r.Reducers)
	if err != nil {
		return nil, err
	}
	r.Gauges, r.Cautions = a.gauges(set), cautions(set, false, job.Heading.Units)
	if r.Behavior, err = a.behavior(set); err != nil {
		r.Behavior = Behavior{Stroke: set.Curve(gas.Isothermal).Stroke(), Setup: set}
	} else {
		r.Behavior.Uncertainty, r.Behavior.Parts = a.uncertainty(set.Spec(), a.known())
		r.SagStep = a.sagStep(asked, r.Reducers)
		if a.matched != nil {
			rebound, err := a.rebound(r.Behavior)
			if err != nil {
				return nil, err
			}
			r.Rebound = &rebound
		}
	}
	r.Event, _ = set.Drift(a.rider.Axial, job.Event) // where it does not carry the rider, the places say so
	event := AirPlace{Place: job.Heading.Event, Ambient: job.Event}
	for _, at := range append([]AirPlace{event}, job.Places...) {
		r.Places = append(r.Places, a.place(set, at, r.Reducers))
	}
	r.Findings = a.findings(r)
	r.Verdict = verdict(r.Findings)
	return r, nil
}

func newInflater(job AirJob) (*inflater, error) {
	a := &inflater{AirJob: job, top: float64(40 * units.Bar), most: 3 * units.Liter}
	a.planner = &planner{Job: Job{Heading: job.Heading, Rider: job.Rider, Chassis: job.Chassis, Fork: job.Fork,
		Present: job.Air, ConvertedFriction: job.Air.Friction, Criterion: job.Criterion, RideExponent: job.RideExponent,
		SagWindow: job.SagWindow, Workshop: job.Workshop, Event: job.Event, Known: job.Known, Usual: job.Usual,
		MaxGauge: job.MaxGauge}, rider: job.Chassis.RiddenLoad(job.Rider), machine: job.Chassis.MachineLoad()}
	a.goal = Job{TargetSag: job.TargetSag, SagWindow: job.SagWindow}.wantedSag(job.Fork.Travel)
	for _, l := range []setup.Leg{job.Air.Left, job.Air.Right} {
		if l.Air == nil {
			continue
		}
		for _, other := range []units.GaugePressure{l.Air.NegativeGauge, l.Air.SecondGauge} {
			if p := other.In(units.Pascal); p > 0 {
				const below = 1 - 1e-9 // of what 40 bar are, for the rounding
				a.top = min(a.top, below*float64(40*units.Bar)*l.Air.Fill.Gauge.In(units.Pascal)/p)
			}
		}
		a.least = max(a.least, l.Air.Reducers)
		// A compression ratio of 10 is beyond any air spring.
		swept := units.Volume(float64(geometry.Circle(l.Air.Bore)) * float64(job.Fork.Travel))
		a.most = min(a.most, max(l.Air.Reducers, l.Air.Volume-swept*10/9))
	}
	if there := a.least; job.Match == nil || job.Criterion == SagForce || job.Reducers == [2]units.Volume{} {
		a.least, a.most = there, there
	} else {
		a.most = min(a.most, job.Reducers[1])
		a.least = min(job.Reducers[0], a.most)
	}
	if job.Match == nil {
		return a, nil
	}
	set, err := setup.New(*job.Match)
	if err != nil {
		return nil, err
	}
	b, err := a.behavior(set)
	if err != nil {
		return nil, atField("AirJob.Rider", err, "on the axis: the fork to match does not carry this rider")
	}
	a.now, a.matched = b, &b
	a.Job.Present.Friction = job.Match.Friction
	if job.TargetSag == 0 {
		a.goal = b.Sag.Middle
	}
	return a, nil
}

// filled is the fork filled somewhere to a positive gauge in Pa, closed in the workshop.
func (a *inflater) filled(at gas.Ambient, gauge float64, reducers units.Volume) (*setup.Setup, error) {
	spec := a.Air
	for _, l := range []*setup.Leg{&spec.Left, &spec.Right} {
		if l.Air != nil {
			air := *l.Air
			air.Reducers = reducers
			l.Air = &air
		}
	}
	spec, err := spec.Filled(gas.Fill{Gauge: units.Gauge(units.Pressure(gauge)), Ambient: at})
	if err != nil {
		return nil, err
	}
	spec.Closed = a.AirJob.Workshop
	set, err := setup.New(spec)
	if err != nil || at == spec.Closed {
		return set, err
	}
	return set.At(at)
}

// gaugeAt is the positive gauge, in Pa, with which the fork sags to the goal somewhere; the nearest where none does.
func (a *inflater) gaugeAt(at gas.Ambient, reducers units.Volume) float64 {
	return nearest(float64(leastGauge), a.top, func(gauge float64) float64 {
		set, err := a.filled(at, gauge, reducers)
		if err != nil {
			return math.NaN()
		}
		c := set.Curve(gas.Isothermal)
		return float64(c.Force(min(a.goal, c.Stroke())) - a.rider.Axial)
	})
}

// reducers are those that come nearest to the fork to match.
func (a *inflater) reducers() units.Volume {
	if a.least == a.most {
		return a.least
	}
	then := a.matched.Setup.Curve(a.AirJob.RideExponent)
	ridden := func(reducers float64) (set *setup.Setup, err error) {
		r := units.Volume(reducers)
		return a.filled(a.AirJob.Workshop, a.gaugeAt(a.AirJob.Workshop, r), r)
	}
	if a.AirJob.Criterion == Energy {
		end := a.depth(0.9)
		return units.Volume(nearest(float64(a.least), float64(a.most), func(v float64) float64 {
			set, err := ridden(v)
			if err != nil {
				return math.NaN()
			}
			c := set.Curve(a.AirJob.RideExponent)
			return float64(c.Energy(min(end, c.Stroke())) - then.Energy(min(end, then.Stroke())))
		}))
	}
	return units.Volume(lowest(float64(a.least), float64(a.most), func(v float64) float64 {
		set, err := ridden(v)
		if err != nil {
			return math.NaN()
		}
		c, sum := set.Curve(a.AirJob.RideExponent), 0.0
		for i := range 76 {
			x := a.depth(0.10 + 0.75*units.Share(i)/75)
			d := float64(c.Force(min(x, c.Stroke())) - then.Force(min(x, then.Stroke())))
			sum += d * d
		}
		return sum
	}))
}

// lowest is where a function with one valley is lowest, to a thousandth of the range, and at an end exactly.
func lowest(lo, hi float64, f func(float64) float64) float64 {
	at, best := lo, f(lo)
	x, fx := solve.Lowest(f, lo, hi, (hi-lo)/1000)
	if fx < best {
		at, best = x, fx
	}
	if f(hi) < best {
		return hi
	}
	return at
}

// sagStep is the change of sag from a tenth of a bar more.
func (a *inflater) sagStep(gauge float64, reducers units.Volume) units.Length {
	const tenth = 0.1 * units.Bar
	lo, hi := max(float64(leastGauge), gauge-float64(tenth)/2), min(a.top, gauge+float64(tenth)/2)
	var sags [2]units.Length
	for i, p := range []float64{lo, hi} {
		set, err := a.filled(a.AirJob.Workshop, p, reducers)
		if err != nil {
			return 0
		}
		sag, err := set.Sag(a.rider.Axial)
		if err != nil {
			return 0
		}
		sags[i] = sag.Middle
	}
	return (sags[1] - sags[0]) * units.Length(float64(tenth)/(hi-lo))
}

// place is the fork carried somewhere, and what to set there.
func (a *inflater) place(set *setup.Setup, at AirPlace, reducers units.Volume) PlaceFill {
	p := PlaceFill{Place: at.Place, Ambient: at.Ambient}
	if there, err := set.At(at.Ambient); err == nil {
		p.Shows = a.gauges(there)
		if sag, err := there.Sag(a.rider.Axial); err == nil {
			p.Sag = &sag
		}
	}
	gauge := a.gaugeAt(at.Ambient, reducers)
	if limit := a.AirJob.MaxGauge.In(units.Pascal); limit > 0 && gauge > limit {
		return p
	}
	if there, err := a.filled(at.Ambient, gauge, reducers); err == nil {
		if sag, err := there.Sag(a.rider.Axial); err == nil && math.Abs(float64(sag.Middle-a.goal)) < 1e-4 {
			p.Set = a.gauges(there)
		}
	}
	return p
}

// gauges are the readings of every air spring of a fork, extended, where it is.
func (a *inflater) gauges(set *setup.Setup) []Gauges {
	spaces, err := set.Spaces(0, gas.Isothermal)
	if err != nil {
		return nil
	}
	var list []Gauges
	for _, s := range spaces {
		gauge := s.Gas.Pressure.Gauge(set.Ambient().Pressure)
		switch s.Chamber {
		case setup.Positive:
			leg := [...]setup.Leg{setup.Left: a.Air.Left, setup.Right: a.Air.Right}[s.Side]
			list = append(list, Gauges{Side: s.Side, Positive: gauge, Valve: leg.Air.NegativeGauge != units.GaugePressure{}})
		case setup.Negative:
			list[len(list)-1].Negative = &gauge
		case setup.Second:
			list[len(list)-1].Second = &gauge
		}
	}
	return list
}
