package setup

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/propagate"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Tolerance is how well the numbers behind a fork are known: the standard
// uncertainty (one standard deviation) of each, all independent; 0 is exact. Half of a
// tolerance that bounds 95 % of cases is a standard uncertainty.
type Tolerance struct {
	Rate        units.Share                 // of the rate of each coil spring, 0 to 10 %
	Preload     units.Length                // of each coil spring, 0 to 5 mm
	Gauge       units.Pressure              // of every reading of an air spring, one error for all, 0 to 1 bar
	Residual    units.Volume                // gas over the oil at full travel, in each leg, 0 to 300 mL
	Temperature units.TemperatureDifference // of the fork at the other place, 0 to 20 K
	Load        units.Force                 // on the axis: scales, and what the rest here leaves out, 0 to 200 N

	Rider    units.Force    // on the axis: the mass of the rider, 0 to 200 N
	Stance   units.Force    // on the axis: the share of the front wheel, 0 to 200 N
	Chambers units.Share    // of the volume of every chamber of an air spring, each its own, 0 to 30 %
	Exponent float64        // of the ridden gas, 0 to 0.2
	Weather  units.Pressure // of the air at the other place, 0 to 50 mbar
}

// Usual is what a workshop reaches. Common practice, no source: springs within 4 %, a
// caliper and a collar within 1 mm, a pump gauge within 0.2 bar, a fill within 5 mL a
// leg, the fork within 4 K of the air, the load within 20 N, taken as 95 % bounds; the
// exponent within 0.1 and the weather within 15 mbar of the standard air.
func Usual() Tolerance {
	return Tolerance{Rate: 2 * units.Percent, Preload: 0.5 * units.Millimeter, Gauge: 0.1 * units.Bar,
		Residual:    2.5 * units.Milliliter,
		Temperature: 2 * units.KelvinDifference, Load: 10 * units.Newton,
		Exponent: 0.05, Weather: 0.0075 * units.Bar}
}

func (t Tolerance) validate() error {
	f := check.Of("Tolerance")
	check.Between(f, "Rate", t.Rate, 0, 0.1)
	check.Between(f, "Preload", t.Preload, 0, 5*units.Millimeter)
	check.Between(f, "Gauge", t.Gauge, 0, 1*units.Bar)
	check.Between(f, "Residual", t.Residual, 0, 300*units.Milliliter)
	check.Between(f, "Temperature", t.Temperature, 0, 20*units.KelvinDifference)
	check.Between(f, "Load", t.Load, 0, 200*units.Newton)
	check.Between(f, "Rider", t.Rider, 0, 200*units.Newton)
	check.Between(f, "Stance", t.Stance, 0, 200*units.Newton)
	check.Between(f, "Chambers", t.Chambers, 0, 0.3)
	check.Between(f, "Exponent", t.Exponent, 0, 0.2)
	check.Between(f, "Weather", t.Weather, 0, 0.05*units.Bar)
	return f.Err()
}

// Question is what the uncertainty of a fork is asked about.
type Question struct {
	Load     units.Force // on the fork axis
	Exponent float64     // of the ridden fork, for the energy
	There    gas.Ambient // for the drift
}

// Uncertainty is the standard uncertainty of three answers.
type Uncertainty struct {
	Sag    units.Length `json:"sag"`    // at rest, without friction
	Energy units.Energy `json:"energy"` // from full extension to the end of the stroke, in a landing
	Drift  units.Length `json:"drift"`  // change of sag from here to there, nothing touched
}

// Answers are the three answers themselves.
type Answers struct {
	Sag    units.Length // at rest, without friction
	Energy units.Energy // from full extension to the end of the stroke, in a landing
	Drift  units.Length // change of sag from here to there, nothing touched
}

// Spread carries the tolerances to the answers, to first order (JCGM 100:2008,
// equation 10). It fails with a *units.RangeError where a tolerance or the question is
// out of range, or where the fork within its tolerances does not carry the load.
func (s Spec) Spread(q Question, t Tolerance) (Uncertainty, error) {
	b, err := s.Budget(q, t)
	return b.Total, err
}

// Budget is where the uncertainty of the answers comes from.
type Budget struct {
	Total Uncertainty    `json:"total"`
	Parts []Contribution `json:"parts"` // every input that has an uncertainty
}

// Contribution is what one input adds: the standard uncertainty that it alone would leave, with
// the sign of its effect.
type Contribution struct {
	Input  string       `json:"input"` // in words, as "rate of the left spring"
	Sag    units.Length `json:"sag"`
	Energy units.Energy `json:"energy"`
	Drift  units.Length `json:"drift"`
}

// Budget is [Spec.Spread] with what each input adds to it.
func (s Spec) Budget(q Question, t Tolerance) (Budget, error) {
	m, names, x, u, err := s.model(q, t)
	if err != nil {
		return Budget{}, err
	}
	rows, ok := propagate.Contributions(m, x, u, 3)
	if !ok {
		return Budget{}, overloaded(q)
	}
	of := func(y []float64) Uncertainty {
		return Uncertainty{Sag: units.Length(y[0]), Energy: units.Energy(y[1]), Drift: units.Length(y[2])}
	}
	b := Budget{Total: of(propagate.Combined(rows, 3)), Parts: make([]Contribution, 0, len(rows))}
	for i, row := range rows {
		if u[i] != 0 {
			b.Parts = append(b.Parts, Contribution{names[i], units.Length(row[0]), units.Energy(row[1]),
				units.Length(row[2])})
		}
	}
	return b, nil
}

// Sampled is what random forks within the tolerances do.
type Sampled struct {
	Mean      Answers     // over the forks
	StdDev    Uncertainty // of one fork
	Low, High Answers     // between them 95 % of the forks lie
	Failed    int         // forks that do not carry the load, left out
}

// Sample builds n random forks, 10 to 1 000 000, with normal errors of the tolerances, and
// reads the answers off each (JCGM 101:2008), on all processors. The same seed gives the
// same forks. It ends early with the error of the context.
func (s Spec) Sample(ctx context.Context, q Question, t Tolerance, n int, seed uint64) (Sampled, error) {
	m, _, x, u, err := s.model(q, t)
	if err != nil {
		return Sampled{}, err
	}
	f := check.Of("Sample")
	if !check.Between(f, "n", float64(n), 10, 1e6) {
		return Sampled{}, f.Err()
	}
	d, failed, err := propagate.MonteCarlo(ctx, m, x, u, 3, n, seed)
	switch {
	case err != nil:
		return Sampled{}, err
	case d == nil:
		return Sampled{}, overloaded(q)
	}
	answers := func(of func(propagate.Distribution) float64) Answers {
		return Answers{Sag: units.Length(of(d[0])), Energy: units.Energy(of(d[1])), Drift: units.Length(of(d[2]))}
	}
	return Sampled{
		Mean:   answers(func(d propagate.Distribution) float64 { return d.Mean }),
		StdDev: Uncertainty(answers(func(d propagate.Distribution) float64 { return d.StdDev })),
		Low:    answers(func(d propagate.Distribution) float64 { return d.Low }),
		High:   answers(func(d propagate.Distribution) float64 { return d.High }),
		Failed: failed,
	}, nil
}

func overloaded(q Question) error {
	return &units.RangeError{Field: "Question.Load", Value: q.Load,
		Want: "a load that the fork carries within its tolerances"}
}

// trial is a fork and a question with errors in them.
type trial struct {
	spec    Spec
	springs spring.Curve // of spec; nil: none, or still to be made
	ask     Question
	fork    Setup
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
	return t.fork.assemble(t.spec, t.springs)
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
	y[0], y[1], y[2] = float64(sag), float64(energy), float64(away-sag)
	return err
}

// input is one inexact number of a trial.
type input struct {
	name string
	u    float64 // standard uncertainty in SI
	add  func(t *trial, e float64)
}

// mostInputs of a fork: the gauge, and in each leg rate, preload, residual and chambers.
const mostInputs = 1 + 2*6

// inputs are the inexact numbers of the question and those that this fork has.
func (s Spec) inputs(t Tolerance) (asked, list []input) {
	asked = []input{
		{"temperature there", float64(t.Temperature), func(t *trial, e float64) {
			t.ask.There.Temperature = t.ask.There.Temperature.Add(units.TemperatureDifference(e))
		}},
		{"load", float64(t.Load), heavier},
		{"rider", float64(t.Rider), heavier},
		{"share of the front wheel", float64(t.Stance), heavier},
		{"exponent of the ridden gas", t.Exponent, func(t *trial, e float64) {
			t.ask.Exponent = max(gas.Isothermal, t.ask.Exponent+e)
		}},
		{"weather there", float64(t.Weather), func(t *trial, e float64) {
			p := &t.ask.There.Pressure
			*p = units.Absolute(units.Pressure(p.In(units.Pascal) + e))
		}},
	}
	list = make([]input, 0, mostInputs)
	if s.Left.Air != nil || s.Right.Air != nil {
		list = append(list, input{"pump gauge", float64(t.Gauge), func(t *trial, e float64) {
			for _, l := range t.spec.legs() {
				l.Air = l.Air.withGaugeError(units.Pressure(e))
			}
		}})
	}
	for i, l := range s.legs() {
		of := &inputNames[i]
		if slices.ContainsFunc(l.Springs, isMain) {
			list = append(list,
				input{of[0], float64(t.Rate), func(t *trial, e float64) { t.adjust(i, 1+e, 0) }},
				input{of[1], float64(t.Preload), func(t *trial, e float64) { t.adjust(i, 1, units.Length(e)) }})
		}
		if l.Gap != nil {
			list = append(list, input{of[2], float64(t.Residual), func(t *trial, e float64) {
				gap := *l.Gap
				gap.Residual += units.Volume(e)
				t.spec.legs()[i].Gap = &gap
			}})
		}
	}
	for i, l := range s.legs() {
		if l.Air == nil {
			continue
		}
		for j, volume := range chambersOf(l.Air) {
			if *volume == 0 {
				continue
			}
			list = append(list, input{inputNames[i][3+j], float64(t.Chambers), func(t *trial, e float64) {
				leg := t.spec.legs()[i]
				air := *leg.Air
				*chambersOf(&air)[j] *= units.Volume(1 + e)
				leg.Air = &air
			}})
		}
	}
	return asked, list
}

func heavier(t *trial, e float64) { t.ask.Load += units.Force(e) }

// inputNames are those of the inputs of a leg.
var inputNames = [2][6]string{
	{"rate of the left spring", "preload of the left spring", "gas over the oil, left", "positive chamber, left",
		"negative chamber, left", "second chamber, left"},
	{"rate of the right spring", "preload of the right spring", "gas over the oil, right", "positive chamber, right",
		"negative chamber, right", "second chamber, right"},
}

func chambersOf(a *Air) [3]*units.Volume {
	return [3]*units.Volume{&a.Volume, &a.NegativeVolume, &a.SecondVolume}
}

func isMain(s spring.Spec) bool { _, ok := s.(spring.Adjustable); return ok }

// adjust changes the main springs of a leg, in a copy.
func (t *trial) adjust(leg int, rate float64, preload units.Length) {
	l := t.spec.legs()[leg]
	l.Springs, t.springs = slices.Clone(l.Springs), nil
	for i, s := range l.Springs {
		if main, ok := s.(spring.Adjustable); ok {
			l.Springs[i] = main.Adjusted(rate, preload)
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
	drawn := trial{spec: s.clone()}
	_, own := s.inputs(t)
	for _, in := range own {
		if in.u != 0 {
			in.add(&drawn, in.u*r.NormFloat64())
		}
	}
	return drawn.spec
}

// model is the fork as a function of the errors of its inputs, x, which are 0 at the
// fork itself, with their standard uncertainties u.
func (s Spec) model(q Question, t Tolerance) (m propagate.Model, names []string, x, u []float64, err error) {
	springs, err := s.check()
	if err := errors.Join(t.validate(), q.validate(), err); err != nil {
		return nil, nil, nil, nil, err
	}
	asked, own := s.inputs(t)
	u, names = make([]float64, 0, len(asked)+len(own)), make([]string, 0, len(asked)+len(own))
	for _, in := range slices.Concat(asked, own) {
		names, u = append(names, in.name), append(u, in.u)
	}
	var known Setup
	if err := known.assemble(s, together(springs)); err != nil {
		return nil, nil, nil, nil, err
	}
	m = func(x, y []float64) bool {
		t := trial{ask: q}
		for i, in := range asked {
			in.add(&t, x[i])
		}
		errs := x[len(asked):]
		if !slices.ContainsFunc(errs, func(e float64) bool { return e != 0 }) {
			t.fork = known.copied()
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
	itself := trial{ask: q, fork: known.copied()}
	return m, names, make([]float64, len(u)), u, itself.evaluate(make([]float64, 3))
}

func (q Question) validate() error {
	f := check.Of("Question")
	check.Between(f, "Load", q.Load, 0, maxLoad)
	check.Between(f, "Exponent", q.Exponent, gas.Isothermal, 5.0/3)
	f.Nest("There", q.There.Validate())
	return f.Err()
}
