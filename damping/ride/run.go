package ride

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/units"
)

// Settings of a run. Zero: the usual ones.
type Settings struct {
	Rate      units.Frequency // of the samples, 20 Hz to 20 kHz; zero: 500 Hz
	Tolerance float64         // relative, of a step, 1e-12 to 1e-3; zero: 1e-8
}

// UsualRate of samples resolves what a wheel does.
const UsualRate = 500 * units.Hertz

func (s Settings) complete() (Settings, error) {
	if s.Rate == 0 {
		s.Rate = UsualRate
	}
	if s.Tolerance == 0 {
		s.Tolerance = 1e-8
	}
	f := check.Of("Settings")
	check.Between(f, "Rate", s.Rate, 20*units.Hertz, 20_000*units.Hertz)
	check.Between(f, "Tolerance", s.Tolerance, 1e-12, 1e-3)
	return s, f.Err()
}

// longestStep misses no bump that a tire does not swallow, in s.
const longestStep = 0.01

// mostSamples bounds the memory of a run.
const mostSamples = 4_000_000

// Run takes the vehicle over a course. It ends with the course, with ctx, or with an
// error that names the time where the motion can not be followed: an absurd speed, or a
// fork so stiff that steps become too short.
func (v *Vehicle) Run(ctx context.Context, c Course, s Settings) (*Run, error) {
	s, err := s.complete()
	if err != nil {
		return nil, err
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	if n := float64(c.Duration) * float64(s.Rate); n > mostSamples {
		return nil, &units.RangeError{Field: "Settings.Rate", Value: s.Rate,
			Want: fmt.Sprintf("at most %.0f samples over %.0f s", float64(mostSamples), float64(c.Duration))}
	}
	r, err := v.start(c, s)
	if err != nil {
		return nil, err
	}
	return r.Run, r.integrate(ctx)
}

// runner is a run under way.
type runner struct {
	*Run
	m       *model
	road    *ground
	mode    mode
	solver  *ode.Solver
	events  []ode.Event
	ported  []*group // that have a port, in the order of their events
	between []float64
	end     float64
	next    float64 // time of the sample to come
	buffer  []float64
	before  float64 // energy at the start
}

// start puts the vehicle where the course begins.
func (v *Vehicle) start(c Course, s Settings) (*runner, error) {
	settled := v.sag
	if c.airborne() {
		settled = 0
	}
	m, err := v.model(settled, c.Braking != Braking{})
	if err != nil {
		return nil, err
	}
	samples := make([]Sample, 0, int(float64(c.Duration)*float64(s.Rate))+2)
	r := &runner{Run: &Run{Samples: samples, course: c, rate: s.Rate}, m: m, road: c.ground(), mode: stuck,
		end: float64(c.Duration)}
	y := m.rest()
	if c.airborne() {
		m.fall(y, float64(c.Height), float64(c.Sinking))
	}
	x, _ := m.travel(y)
	for i := range m.groups {
		if g := &m.groups[i]; g.negative > 0 && x <= g.cells[g.negative].port {
			g.openPort(m.temperatures(g, y))
		}
	}
	if m.friction == 0 {
		r.mode = frictionless
	}
	m.touch(r.road.at(0), y)
	derivative := m.derivative(r.road, &r.mode)
	r.solver, err = ode.New(derivative, 0, y, ode.Settings{Absolute: m.tolerances(s.Tolerance), MaxStep: longestStep,
		Integrals: m.size - m.work})
	if err != nil {
		return nil, err
	}
	r.solver.Observe(r.observe)
	r.events = r.switches()
	r.buffer, r.between = make([]float64, len(y)), make([]float64, len(y))
	r.before = m.stored(r.road.at(0), y)
	r.sample(0, y)
	return r, nil
}

// tolerances of a step: 10 mm, 1 m/s, 100 K and 100 J times the relative one.
func (m *model) tolerances(relative float64) []float64 {
	list := make([]float64, m.size)
	for i := range list {
		switch {
		case i >= m.gas:
			list[i] = 100 * relative
		case i == bodySpeed, i == wheelSpeed, i == rearSpeed:
			list[i] = relative
		default:
			list[i] = 0.01 * relative
		}
	}
	return list
}

// fall lifts the vehicle off the ground by a height, the fork stretched against its
// top-out stop, sinking at a speed.
func (m *model) fall(y []float64, height, sinking float64) {
	d := make([]float64, len(y))
	m.contact = contact{topOut: true}
	y[wheel], y[body] = height, height
	p := m.evaluate(&excitation{}, y, d)
	x := -p.still / m.topOut // the stop is a few tenths of a millimeter deep
	for range 3 {
		y[body] = y[wheel] - x*m.cos
		p = m.evaluate(&excitation{}, y, d)
		x -= p.still / m.topOut
	}
	y[body] = y[wheel] - x*m.cos
	y[bodySpeed], y[wheelSpeed] = -sinking, -sinking
}

// frictionless is the mode of a fork without friction, which neither sticks nor has a sign.
const frictionless mode = 2

// held is the friction that the fork needs to be held.
func (r *runner) held(t float64, y []float64) float64 {
	return r.m.stiction(r.m.evaluate(r.road.at(t), y, r.buffer))
}

// events by their number.
const (
	atRest = iota
	slips
	atStop
	atGround
	grips
	others // a port for each negative chamber, then a floating piston for each second
)

// switches are the events at which the motion must stop: where its law changes.
func (r *runner) switches() []ode.Event {
	m := r.m
	list := make([]ode.Event, others, others+4)
	list[atRest] = func(_ float64, y []float64) float64 {
		if r.mode == stuck || r.mode == frictionless {
			return 0
		}
		return y[wheelSpeed] - y[bodySpeed]
	}
	list[slips] = func(t float64, y []float64) float64 {
		if r.mode != stuck {
			return 0
		}
		return math.Abs(r.held(t, y)) - m.friction
	}
	list[atStop] = func(_ float64, y []float64) float64 {
		x := (y[wheel] - y[body]) * m.perCos
		if x > m.stroke/2 {
			return m.stroke - x
		}
		return x
	}
	list[atGround] = func(t float64, y []float64) float64 { return r.road.at(t).height - y[wheel] }
	list[grips] = func(t float64, y []float64) float64 {
		road := r.road.at(t)
		return m.grip(road.height-y[wheel], road.speed-y[wheelSpeed])
	}
	for i := range m.groups {
		g := &m.groups[i]
		if g.negative > 0 {
			port := g.cells[g.negative].port
			list = append(list, func(_ float64, y []float64) float64 { return y[wheel] - y[body] - port*m.cos })
			r.ported = append(r.ported, g)
		}
	}
	for i := range m.groups {
		g := &m.groups[i]
		if g.second > 0 {
			list = append(list, func(_ float64, y []float64) float64 {
				x, _ := m.travel(y)
				return g.lead(x, m.temperatures(g, y))
			})
		}
	}
	return list
}

// integrate goes to the end.
func (r *runner) integrate(ctx context.Context) error {
	for _, limit := range append(r.course.breaks(), r.end) {
		for r.solver.Time() < limit {
			if err := ctx.Err(); err != nil {
				return fmt.Errorf("ride: stopped at %.3f s of %.3f s: %w", r.solver.Time(), r.end, err)
			}
			if err := r.toNextEvent(limit); err != nil {
				return err
			}
		}
		if r.solver.Time() < r.end {
			if err := r.resume(r.solver.State()); err != nil { // the road has a corner
				return err
			}
		}
	}
	r.close()
	return nil
}

// toNextEvent goes on to the next event, or the limit.
func (r *runner) toNextEvent(limit float64) error {
	event, err := r.solver.Until(min(limit, r.solver.Time()+0.25), r.events...) // then look at the context
	if err != nil {
		return r.failure(err)
	}
	y := r.solver.State()
	switch {
	case event == atRest:
		y[wheelSpeed] = y[bodySpeed]
		return r.resume(y)
	case event == slips:
		return r.restart(y, mode(math.Copysign(1, r.held(r.solver.Time(), y))))
	case event == atGround, event == grips: // the load jumps, by the tire's damping
		return r.resume(y)
	case event == atStop:
		r.hit(y)
		return r.restart(y, r.mode)
	case event >= others && event-others < len(r.ported):
		g := r.ported[event-others]
		if x, v := r.m.travel(y); v < 0 {
			g.openPort(r.m.temperatures(g, y))
		} else {
			g.closePort(x)
		}
		return r.resume(y)
	}
	return nil
}

// resume goes on from a state in which the friction may hold the fork.
func (r *runner) resume(y []float64) error {
	_, v := r.m.travel(y)
	r.m.touch(r.road.at(r.solver.Time()), y)
	held := r.held(r.solver.Time(), y)
	switch {
	case r.mode == frictionless:
		return r.restart(y, frictionless)
	case v != 0:
		return r.restart(y, mode(math.Copysign(1, v)))
	case math.Abs(held) > r.m.friction:
		return r.restart(y, mode(math.Copysign(1, held)))
	}
	return r.restart(y, stuck)
}

func (r *runner) restart(y []float64, as mode) error {
	r.mode = as
	r.m.touch(r.road.at(r.solver.Time()), y)
	if err := r.solver.Restart(y); err != nil {
		return r.failure(err)
	}
	return nil
}

func (r *runner) failure(err error) error {
	y := r.solver.State()
	x, v := r.m.travel(y)
	return fmt.Errorf("ride: at %.4f s, travel %.1f, %.3g m/s: the motion can not be followed: %w",
		r.solver.Time(), units.Length(x), v, errors.Unwrap(err))
}
