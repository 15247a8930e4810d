package setup

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/propagate"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// trial is a fork and a question with errors in them.
type trial struct {
	spec    Spec
	springs spring.Curve // of spec; nil: none, or still to be made
	ask     Question
	fork    Setup
	room    []space // for its gas, from one trial to the next
}

// build puts the fork together.
func (t *trial) build() error {
	if t.springs == nil {
		var all []spring.Curve
		for _, l := range t.spec.legs() {
			for _, spec := range l.Springs {
				c, err := spec.Curve(t.spec.Travel)
				if err != nil {
					return err
				}
				all = append(all, c)
			}
		}
		t.springs = together(all)
	}
	return t.fork.assemble(t.spec, t.springs, t.room)
}

// evaluate fills in sag, energy and drift of the fork, which ends up there.
func (t *trial) evaluate(y []float64) error {
	sag, err := spring.Equilibrium(&t.fork.rest, t.ask.Load)
	if err != nil {
		return err
	}
	ridden := t.fork.sum(&t.fork.rest, 0, t.ask.Exponent)
	energy := ridden.Energy(ridden.Stroke())
	if err := t.fork.carry(t.ask.There); err != nil {
		return err
	}
	away, err := spring.Equilibrium(&t.fork.rest, t.ask.Load)
	if math.IsNaN(float64(energy)) {
		return &units.RangeError{Field: "Travel", Value: t.fork.Travel(), Want: "gas with room left at the end of it"}
	}
	y[0], y[1], y[2] = float64(sag), float64(energy), float64(away-sag)
	return err
}

// input is one inexact number of a trial, and of every sample of a batch.
type input struct {
	name string
	u    float64 // standard uncertainty in SI
	add  func(t *trial, e float64)
	many func(b *batch, e []float64)
}

// inputs are the inexact numbers of the question and those that this fork has.
func (s Spec) inputs(t Tolerance) (asked, list []input) {
	asked = []input{
		{"temperature there", float64(t.Temperature), func(t *trial, e float64) {
			t.ask.There.Temperature = t.ask.There.Temperature.Add(units.TemperatureDifference(e))
		}, func(b *batch, e []float64) { b.temperature.add(e) }},
		heavier("load", float64(t.Load)),
		heavier("rider", float64(t.Rider)),
		heavier("share of the front wheel", float64(t.Stance)),
		// Unlike on both ways, it moves their mean by half of the difference.
		heavier("friction", float64(t.Friction)/math.Sqrt2),
		{"exponent of the ridden gas", t.Exponent, func(t *trial, e float64) {
			t.ask.Exponent = max(gas.Isothermal, t.ask.Exponent+e)
		}, func(b *batch, e []float64) {
			for s, e := range e {
				b.exponent[s] = max(gas.Isothermal, b.exponent[s]+e)
			}
		}},
		{"weather there", float64(t.Weather), func(t *trial, e float64) {
			p := &t.ask.There.Pressure
			*p = units.Absolute(units.Pressure(p.In(units.Pascal) + e))
		}, func(b *batch, e []float64) { b.pressure.add(e) }},
	}
	if s.Left.Air != nil || s.Right.Air != nil {
		list = append(list, input{"pump gauge", float64(t.Gauge), func(t *trial, e float64) {
			for _, l := range t.spec.legs() {
				l.Air = l.Air.withGaugeError(units.Pressure(e))
			}
		}, func(b *batch, e []float64) {
			for _, g := range b.gases {
				if g.part == airSpring && g.set {
					for s, e := range e {
						g.p[s] += e * g.warmer
					}
				}
			}
		}})
	}
	for i, l := range s.legs() {
		list = append(list, ofSprings(i, *l, t)...)
		if l.Gap != nil {
			list = append(list, input{"gas over the oil, " + Side(i).String(), float64(t.residual(i)),
				func(t *trial, e float64) {
					gap := *l.Gap
					gap.Residual += units.Volume(e)
					t.spec.legs()[i].Gap = &gap
				}, func(b *batch, e []float64) {
					b.of(i, OverOil, func(g *sealed) { g.v.add(e) })
				}})
		}
	}
	for i, l := range s.legs() {
		if l.Air == nil {
			continue
		}
		for j, volume := range chambersOf(l.Air) {
			if *volume != 0 {
				list = append(list, ofChamber(i, j, float64(t.Chambers)))
			}
		}
	}
	return asked, list
}

// ofSprings are the errors of the main springs of a leg.
func ofSprings(leg int, l Leg, t Tolerance) []input {
	if !slices.ContainsFunc(l.Springs, isMain) {
		return nil
	}
	of := " of the " + Side(leg).String() + " spring"
	tighter := func(binds bool) func(b *batch, e []float64) {
		return func(b *batch, e []float64) {
			for _, c := range b.coils {
				if c.leg != leg {
					continue
				}
				c.preload.add(e)
				if binds {
					for s, e := range e {
						c.room[s] -= e
					}
				}
			}
		}
	}
	return []input{
		{"rate" + of, float64(t.Rate), func(t *trial, e float64) { t.adjust(leg, 1+e, 0, 0) },
			func(b *batch, e []float64) {
				for _, c := range b.coils {
					if c.leg == leg {
						for s, e := range e {
							c.rate[s] *= 1 + e
						}
					}
				}
			}},
		{"preload" + of, float64(t.Preload), func(t *trial, e float64) { t.adjust(leg, 1, units.Length(e), 0) },
			tighter(true)},
		{"free length" + of, float64(t.FreeLength), func(t *trial, e float64) {
			t.adjust(leg, 1, units.Length(e), units.Length(e))
		}, tighter(false)},
	}
}

// ofChamber is the error of one chamber of an air spring.
func ofChamber(leg, number int, u float64) input {
	chamber := [...]Chamber{Positive, Negative, Second, Linked}[number]
	return input{chamber.String() + " chamber, " + Side(leg).String(), u, func(t *trial, e float64) {
		l := t.spec.legs()[leg]
		air := *l.Air
		*chambersOf(&air)[number] *= units.Volume(1 + e)
		l.Air = &air
	}, func(b *batch, e []float64) {
		b.of(leg, chamber, func(g *sealed) {
			for s, e := range e {
				g.v[s] += (g.v[s] + g.solid) * e
			}
		})
	}}
}

func heavier(name string, u float64) input {
	return input{name, u, func(t *trial, e float64) { t.ask.Load += units.Force(e) },
		func(b *batch, e []float64) { b.load.add(e) }}
}

func chambersOf(a *Air) [4]*units.Volume {
	return [4]*units.Volume{&a.Volume, &a.NegativeVolume, &a.SecondVolume, &a.Linked}
}

func isMain(s spring.Spec) bool { _, ok := s.(spring.Adjustable); return ok }

// adjust changes the main springs of a leg, in a copy. A longer coil binds no earlier.
func (t *trial) adjust(leg int, rate float64, preload, longer units.Length) {
	l := t.spec.legs()[leg]
	l.Springs, t.springs = slices.Clone(l.Springs), nil
	for i, s := range l.Springs {
		if main, ok := s.(spring.Adjustable); ok {
			l.Springs[i] = main.Adjusted(rate, preload)
		}
		if coil, ok := l.Springs[i].(spring.CoilSpec); ok && coil.FreeLength != 0 {
			coil.FreeLength += longer
			l.Springs[i] = coil
		}
	}
}

// withGaugeError is an air spring, if there is one, with every reading off by the error of the
// gauge.
func (a *Air) withGaugeError(by units.Pressure) *Air {
	if a == nil {
		return nil
	}
	m := *a
	for _, g := range []*units.GaugePressure{&m.Fill.Gauge, &m.NegativeGauge, &m.SecondGauge} {
		if *g != (units.GaugePressure{}) { // else through the port
			*g = g.Add(by)
		}
	}
	return &m
}

// Draw is one of the random forks within the tolerances that [Spec.Sample] builds. It may
// be one that [New] refuses, at the edge of a range.
func (s Spec) Draw(t Tolerance, r *rand.Rand) Spec {
	drawn := trial{spec: s.Clone()}
	_, own := s.inputs(t)
	for _, in := range own {
		if in.u != 0 {
			in.add(&drawn, in.u*r.NormFloat64())
		}
	}
	return drawn.spec
}

// model is the fork as a function of the errors of its inputs.
type model struct {
	inputs []input
	one    func() propagate.Model // the fork is built and asked, one after another
	batch  func() propagate.Batch // many at once
}

func (m model) uncertain() []float64 {
	u := make([]float64, len(m.inputs))
	for i, in := range m.inputs {
		u[i] = in.u
	}
	return u
}

func (s Spec) model(q Question, t Tolerance) (model, error) {
	springs, err := s.check()
	if err := errors.Join(t.Validate(), q.validate(), err); err != nil {
		return model{}, err
	}
	asked, own := s.inputs(t)
	var known Setup
	if err := known.assemble(s, together(springs), nil); err != nil {
		return model{}, err
	}
	m := model{inputs: slices.Concat(asked, own)}
	m.one = func() propagate.Model {
		t := trial{room: make([]space, 0, s.spaces())}
		return func(x, y []float64) bool {
			t = trial{ask: q, room: t.room}
			for i, in := range asked {
				in.add(&t, x[i])
			}
			errs := x[len(asked):]
			if !slices.ContainsFunc(errs, func(e float64) bool { return e != 0 }) {
				t.fork = known.copied(t.room)
				return t.evaluate(y) == nil
			}
			t.spec, t.springs = s, known.springs // whose parts the inputs change in copies
			for i, in := range own {
				if errs[i] != 0 {
					in.add(&t, errs[i])
				}
			}
			return t.build() == nil && t.evaluate(y) == nil
		}
	}
	m.batch = func() propagate.Batch {
		if b := newBatch(&known, m.one(), m.inputs, q, t); b != nil {
			return b.evaluate
		}
		return propagate.Single(m.one(), len(m.inputs), 3)
	}
	itself := trial{ask: q, fork: known.copied(nil)}
	return m, itself.evaluate(make([]float64, 3))
}

func (q Question) validate() error {
	f := check.Of("Question")
	check.Between(f, "Load", q.Load, 0, maxLoad)
	check.Between(f, "Exponent", q.Exponent, gas.Isothermal, 5.0/3)
	f.Nest("There", q.There.Validate())
	return f.Err()
}
