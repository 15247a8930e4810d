package setup

import (
	"context"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/propagate"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

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

// Uncertainty carries the tolerances to the answers, to first order (JCGM 100:2008,
// equation 10). It fails with a *units.RangeError where a tolerance or the question is
// out of range, or where the fork within its tolerances does not carry the load.
func (s Spec) Uncertainty(q Question, t Tolerance) (Uncertainty, error) {
	b, err := s.Budget(q, t)
	return b.Total, err
}

// Budget is where the uncertainty of the answers comes from.
type Budget struct {
	Total Uncertainty    `json:"total"` // of all inputs, as they are independent
	Parts []Contribution `json:"parts"` // every input that has an uncertainty
}

// Contribution is what one input adds: the standard uncertainty that it alone would leave, with
// the sign of its effect.
type Contribution struct {
	Input  string       `json:"input"`  // in words, as "rate of the left spring"
	Sag    units.Length `json:"sag"`    // of the total: what this input alone adds
	Energy units.Energy `json:"energy"` // the same of the energy
	Drift  units.Length `json:"drift"`  // the same of the drift
}

// Budget is [Spec.Uncertainty] with what each input adds to it.
func (s Spec) Budget(q Question, t Tolerance) (Budget, error) {
	m, err := s.model(q, t)
	if err != nil {
		return Budget{}, err
	}
	rows, ok := propagate.Contributions(m.one(), make([]float64, len(m.inputs)), m.uncertain(), 3)
	if !ok {
		return Budget{}, overloaded(q)
	}
	of := func(y []float64) Uncertainty {
		return Uncertainty{Sag: units.Length(y[0]), Energy: units.Energy(y[1]), Drift: units.Length(y[2])}
	}
	b := Budget{Total: of(propagate.Combined(rows, 3)), Parts: make([]Contribution, 0, len(rows))}
	for i, row := range rows {
		if in := m.inputs[i]; in.u != 0 {
			b.Parts = append(b.Parts, Contribution{in.name, units.Length(row[0]), units.Energy(row[1]),
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

// Sample asks n random forks, 10 to 100 million, with normal errors of the tolerances for the
// answers (JCGM 101:2008), on all processors and in the same memory for any n. The same seed
// gives the same numbers on any number of processors. Low and High are known to 1/512 of the standard
// deviation, beside what n forks tell. It ends early with the error of the context.
func (s Spec) Sample(ctx context.Context, q Question, t Tolerance, n int, seed uint64) (Sampled, error) {
	m, err := s.model(q, t)
	if err != nil {
		return Sampled{}, err
	}
	f := check.Of("Sample")
	if !check.Between(f, "n", float64(n), 10, 1e8) {
		return Sampled{}, f.Err()
	}
	d, failed, err := propagate.MonteCarlo(ctx, m.batch, make([]float64, len(m.inputs)), m.uncertain(), 3, n, seed)
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
		Want: "a load that the fork carries within its tolerances, with room for its gas at the end of its travel"}
}
