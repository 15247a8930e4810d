package setup

import (
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
	Rate        float64                     // of each coil spring, relative, 0 to 0.1
	Preload     units.Length                // of each coil spring, 0 to 5 mm
	Gauge       units.Pressure              // of every reading of an air spring, one error for all, 0 to 1 bar
	Residual    units.Volume                // gas over the oil at full travel, in each leg, 0 to 50 mL
	Temperature units.TemperatureDifference // of the fork at the other place, 0 to 20 K
	Load        units.Force                 // on the axis: rider, stance and scales, 0 to 200 N
}

// Usual is what a workshop reaches. Common practice, no source: springs within 4 %, a
// caliper and a collar within 1 mm, a pump gauge within 0.2 bar, a fill within 5 mL a
// leg, the fork within 4 K of the air, the load within 20 N, taken as 95 % bounds.
func Usual() Tolerance {
	return Tolerance{Rate: 0.02, Preload: 0.5 * units.Millimeter, Gauge: 0.1 * units.Bar, Residual: 2.5 * units.Milliliter,
		Temperature: 2 * units.KelvinDifference, Load: 10 * units.Newton}
}

func (t Tolerance) validate() error {
	f := check.Of("Tolerance")
	check.Between(f, "Rate", t.Rate, 0, 0.1)
	check.Between(f, "Preload", t.Preload, 0, 5*units.Millimeter)
	check.Between(f, "Gauge", t.Gauge, 0, 1*units.Bar)
	check.Between(f, "Residual", t.Residual, 0, 50*units.Milliliter)
	check.Between(f, "Temperature", t.Temperature, 0, 20*units.KelvinDifference)
	check.Between(f, "Load", t.Load, 0, 200*units.Newton)
	return f.Err()
}

// Question is what a spread is asked about.
type Question struct {
	Load     units.Force // on the fork axis
	Exponent float64     // of the ridden fork, for the energy
	There    gas.Ambient // for the drift
}

// Spread is the standard uncertainty of three answers.
type Spread struct {
	Sag    units.Length `json:"sag"`    // at rest, without friction
	Energy units.Energy `json:"energy"` // from full extension to the end of the stroke, ridden
	Drift  units.Length `json:"drift"`  // change of sag from here to there, nothing touched
}

// Spread carries the tolerances to the answers, to first order (JCGM 100:2008,
// equation 10). It fails with a *units.RangeError where a tolerance or the question is
// out of range, or where the fork within its tolerances does not carry the load.
func (s Spec) Spread(q Question, t Tolerance) (Spread, error) {
	m, x, u, err := s.uncertain(q, t)
	if err != nil {
		return Spread{}, err
	}
	y, ok := propagate.FirstOrder(m, x, u, 3)
	if !ok {
		return Spread{}, overloaded(q)
	}
	return Spread{Sag: units.Length(y[0]), Energy: units.Energy(y[1]), Drift: units.Length(y[2])}, nil
}

// Sampled is what random forks within the tolerances do.
type Sampled struct {
	Mean, StdDev Spread // of the answers, not of their uncertainties
	Low, High    Spread // between them 95 % of the forks lie
	Failed       int    // forks that do not carry the load, left out
}

// Sample builds n random forks, 10 to 1 000 000, with normal errors of the tolerances, and
// reads the answers off each (JCGM 101:2008). The same seed gives the same forks.
func (s Spec) Sample(q Question, t Tolerance, n int, seed uint64) (Sampled, error) {
	m, x, u, err := s.uncertain(q, t)
	if err != nil {
		return Sampled{}, err
	}
	f := check.Of("Sample")
	if !check.Between(f, "n", float64(n), 10, 1e6) {
		return Sampled{}, f.Err()
	}
	d, failed := propagate.MonteCarlo(m, x, u, 3, n, seed)
	if d == nil {
		return Sampled{}, overloaded(q)
	}
	read := func(of func(propagate.Distribution) float64) Spread {
		return Spread{Sag: units.Length(of(d[0])), Energy: units.Energy(of(d[1])), Drift: units.Length(of(d[2]))}
	}
	return Sampled{
		Mean:   read(func(d propagate.Distribution) float64 { return d.Mean }),
		StdDev: read(func(d propagate.Distribution) float64 { return d.StdDev }),
		Low:    read(func(d propagate.Distribution) float64 { return d.Low }),
		High:   read(func(d propagate.Distribution) float64 { return d.High }),
		Failed: failed,
	}, nil
}

func overloaded(q Question) error {
	return &units.RangeError{Field: "Question.Load", Value: q.Load, Want: "a load that the fork carries within its tolerances"}
}

// uncertain is the fork as a model of its inexact inputs, each given as the error
// it has.
func (s Spec) uncertain(q Question, t Tolerance) (m propagate.Model, x, u []float64, err error) {
	if err := t.validate(); err != nil {
		return nil, nil, nil, err
	}
	u = []float64{t.Rate, t.Rate, float64(t.Preload), float64(t.Preload), float64(t.Gauge), float64(t.Residual), float64(t.Residual),
		float64(t.Temperature), float64(t.Load)}
	x = make([]float64, len(u))
	m = func(e, y []float64) bool { return s.off(e).answer(q, e[7], e[8], y) == nil }
	return m, x, u, s.answer(q, 0, 0, make([]float64, 3))
}

// off is the fork with those errors of rates, preloads, gauge and gaps.
func (s Spec) off(e []float64) Spec {
	read := func(g *units.GaugePressure) {
		if *g != (units.GaugePressure{}) { // else through the port
			*g = g.Add(units.Pressure(e[4]))
		}
	}
	for i, l := range []*Leg{&s.Left, &s.Right} {
		l.Springs = slices.Clone(l.Springs)
		for j, spec := range l.Springs {
			if main, ok := spec.(spring.Adjustable); ok {
				l.Springs[j] = main.Adjusted(1+e[i], units.Length(e[2+i]))
			}
		}
		if l.Air != nil {
			a := *l.Air
			read(&a.Fill.Gauge)
			read(&a.NegativeGauge)
			read(&a.SecondGauge)
			l.Air = &a
		}
		if l.Gap != nil {
			g := *l.Gap
			g.Residual += units.Volume(e[5+i])
			l.Gap = &g
		}
	}
	return s
}

// answer fills in sag, energy and drift under errors of temperature and load.
func (s Spec) answer(q Question, kelvin, newton float64, y []float64) error {
	f, err := New(s)
	if err != nil {
		return err
	}
	there := q.There
	there.Temperature = there.Temperature.Add(units.TemperatureDifference(kelvin))
	load := q.Load + units.Force(newton)
	here, err := f.Sag(load)
	if err != nil {
		return err
	}
	moved, err := f.At(there)
	if err != nil {
		return err
	}
	away, err := moved.Sag(load)
	if err != nil {
		return err
	}
	c, err := f.curve(0, q.Exponent)
	if err != nil {
		return err
	}
	y[0], y[1], y[2] = float64(here.Middle), float64(c.Energy(c.Stroke())), float64(away.Middle-here.Middle)
	return nil
}
