package ride

import (
	"math"
	"slices"

	"example.org/forkcurve/units"
)

// Run is what a vehicle did over a course.
type Run struct {
	Samples []Sample // at the rate of the settings, by time
	Energy  Energy   // over the whole run
	Hits    []Hit    // of the bottom stop, in order

	course Course
	rate   units.Frequency
}

// Sample is one moment. Heights count up from where the vehicle stands extended and
// without load on level ground.
type Sample struct {
	Time           units.Time         // since the start of the course
	Road           units.Length       // height under the wheel
	Travel         units.Length       // of the fork; below 0 against the top-out stop
	Velocity       units.Speed        // of the travel, positive in compression
	Force          units.Force        // along the fork axis: springs, gas, stops, damper and friction
	Springs        units.Force        // springs, gas and stops
	Damper         units.Force        // of both legs, against the motion
	Friction       units.Force        // of the fork, against the motion; what holds it where it sticks
	Tire           units.Force        // on the ground
	Body           units.Length       // height of the body over the fork
	Acceleration   units.Acceleration // of the body over the fork, up
	GasTemperature units.Temperature  // of the warmest gas space; that of the air where there is none
	LegTemperature units.Temperature  // of oil and tubes
}

// Energy is where it went. In + stored at the start = losses + stored at the end.
type Energy struct {
	Road, Brake                       units.Energy // put in
	Damper, Friction, Tire, Gas, Rear units.Energy // taken out; the gas by its walls
	Stored                            units.Energy // more at the end than at the start
	Unaccounted                       units.Energy // what the integration lost or made
}

// Hit is a stroke into the bottom stop.
type Hit struct {
	Time  units.Time   // at which the stop is touched
	Speed units.Speed  // of the travel as it gets there
	Left  units.Energy // that the stop takes up
}

// observe takes the samples of the last step, and the depth of a hit.
func (r *runner) observe() {
	for from, to := r.solver.Last(); r.next <= min(to, r.end); {
		t := max(r.next, from)
		r.solver.At(t, r.between)
		r.sample(t, r.between)
	}
	if n := len(r.Hits); n > 0 {
		x, _ := r.m.travel(r.solver.State())
		if deep := x - r.m.stroke; deep > 0 {
			left := &r.Hits[n-1].Left
			*left = max(*left, units.Energy(0.5*r.m.bottom*deep*deep))
		}
	}
}

// hit notes that the fork has come to its bottom stop, if so.
func (r *runner) hit(y []float64) {
	if x, v := r.m.travel(y); v > 0 && x > r.m.stroke/2 {
		r.Hits = append(r.Hits, Hit{Time: units.Time(r.solver.Time()), Speed: units.Speed(v)})
	}
}

// sample reads off one moment.
func (r *runner) sample(t float64, y []float64) {
	m := r.m
	p := m.evaluate(r.road.at(t), y, r.buffer)
	friction := m.friction * float64(r.mode)
	if r.mode == stuck {
		friction = m.stiction(p)
	}
	warmest := m.air
	if len(m.start) > 0 {
		warmest = slices.Max(y[m.gas:m.legs])
	}
	r.Samples = append(r.Samples, Sample{
		Time: units.Time(t), Road: units.Length(p.road.height), Travel: units.Length(p.x), Velocity: units.Speed(p.v),
		Force: units.Force(p.still + p.damper + friction), Springs: units.Force(p.still), Damper: units.Force(p.damper),
		Friction: units.Force(friction), Tire: units.Force(p.tire), Body: units.Length(y[body]),
		Acceleration:   units.Acceleration(m.accelerations(p, friction).body),
		GasTemperature: units.Kelvin(warmest), LegTemperature: units.Kelvin(m.wall(y)),
	})
	r.next = float64(len(r.Samples)) / float64(r.rate)
}

// close settles the accounts.
func (r *runner) close() {
	y := r.solver.State()
	var work [allAccounts]units.Energy
	for i, e := range y[r.m.work:] {
		work[i] = units.Energy(e)
	}
	stored := r.m.stored(r.road.at(r.solver.Time()), y) - r.before
	r.Energy = Energy{Road: work[byRoad], Brake: work[byBrake], Damper: work[inDamper], Friction: work[inFriction],
		Tire: work[inTire], Gas: work[inGas], Rear: work[inRear], Stored: units.Energy(stored)}
	r.Energy.Unaccounted = r.Energy.Road + r.Energy.Brake - r.Energy.Damper - r.Energy.Friction - r.Energy.Tire -
		r.Energy.Gas - r.Energy.Rear - r.Energy.Stored
}

// Summary is a run in a few numbers.
type Summary struct {
	Travel       Statistics[units.Length]       // of the fork
	Velocity     Statistics[units.Speed]        // of the travel, positive in compression
	Acceleration Statistics[units.Acceleration] // of the body
	Force        Statistics[units.Force]        // along the fork axis
	Tire         Statistics[units.Force]        // on the ground
	OffGround    units.Time                     // in all
	Bottomed     int                            // hits of the bottom stop
	HardestHit   units.Energy                   // left to the bottom stop by the hardest hit
	Drift        units.Length                   // mean travel over the last fifth less that over the first
	GasWarmed    units.TemperatureDifference    // most, over the start
	LegsWarmed   units.TemperatureDifference    // at the end, over the start
}

// Statistics are those of a quantity over the samples of a run.
type Statistics[Q ~float64] struct {
	Mean, StdDev Q // over all samples, evenly weighted
	Least, Most  Q // extremes
}

// Summary reads the samples.
func (r *Run) Summary() Summary {
	var s Summary
	s.Travel = statistics(r, func(p Sample) units.Length { return p.Travel })
	s.Velocity = statistics(r, func(p Sample) units.Speed { return p.Velocity })
	s.Acceleration = statistics(r, func(p Sample) units.Acceleration { return p.Acceleration })
	s.Force = statistics(r, func(p Sample) units.Force { return p.Force })
	s.Tire = statistics(r, func(p Sample) units.Force { return p.Tire })
	n := len(r.Samples)
	first, last := r.Samples[0], r.Samples[n-1]
	fifth := max(1, n/5)
	for i, p := range r.Samples {
		if p.Tire == 0 {
			s.OffGround += units.Time(1 / float64(r.rate))
		}
		if i < fifth {
			s.Drift -= p.Travel / units.Length(fifth)
		}
		if i >= n-fifth {
			s.Drift += p.Travel / units.Length(fifth)
		}
		s.GasWarmed = max(s.GasWarmed, p.GasTemperature.Sub(first.GasTemperature))
	}
	s.LegsWarmed = last.LegTemperature.Sub(first.LegTemperature)
	s.Bottomed = len(r.Hits)
	for _, h := range r.Hits {
		s.HardestHit = max(s.HardestHit, h.Left)
	}
	return s
}

func statistics[Q ~float64](r *Run, of func(Sample) Q) Statistics[Q] {
	s := Statistics[Q]{Least: Q(math.Inf(1)), Most: Q(math.Inf(-1))}
	n := Q(len(r.Samples))
	for _, p := range r.Samples {
		v := of(p)
		s.Mean += v / n
		s.Least, s.Most = min(s.Least, v), max(s.Most, v)
	}
	var squares float64
	for _, p := range r.Samples {
		squares += square(float64(of(p) - s.Mean))
	}
	s.StdDev = Q(math.Sqrt(squares / float64(n)))
	return s
}

// Histogram counts the share of the time that a quantity spent in each of n equal bins
// from lo to hi; what lies outside counts in the end bins.
func Histogram[Q ~float64](r *Run, of func(Sample) Q, lo, hi Q, n int) []units.Share {
	if n < 1 || !(hi > lo) || len(r.Samples) == 0 {
		return nil
	}
	bins := make([]units.Share, n)
	for _, p := range r.Samples {
		i := int((of(p) - lo) / (hi - lo) * Q(n))
		bins[min(max(i, 0), n-1)] += 1 / units.Share(len(r.Samples))
	}
	return bins
}
