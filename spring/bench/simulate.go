package bench

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Simulate reads a fork: the same readings with what this fork would show, off by random
// errors of their uncertainty.
func Simulate(f Fork, room gas.Ambient, readings []Reading, r *rand.Rand) ([]Reading, error) {
	b := &bench{fork: f.filled(), room: room}
	list := make([]Reading, len(readings))
	for i, one := range readings {
		if one == nil {
			return nil, &units.RangeError{Field: fmt.Sprintf("Simulate.readings[%d]", i), Value: "none", Want: "a reading"}
		}
		v, err := one.model(b)
		if err != nil {
			return nil, err
		}
		_, sd := one.read()
		list[i] = one.with(v + sd*r.NormFloat64())
	}
	return list, nil
}

// Ranks are the shares of the forks that fit of which an unknown, and the answer to a question,
// by its name, lies below that of a fork of which the truth is known. Over many forks they are even between
// 0 and 1 if what is told of them is true.
func (k *Known) Ranks(truth Fork, questions ...Question) iter.Seq2[string, float64] {
	return func(yield func(string, float64) bool) {
		for i, s := range k.scales {
			z := s.z(s.get(&truth))
			rank := distuv.UnitNormal.CDF((z - k.z[i]) / math.Sqrt(k.covariance.At(i, i)))
			if k.sample != nil {
				rank = share(len(k.sample), func(j int) bool { return k.sample[j][i] < z })
			}
			if !yield(s.name, rank) {
				return
			}
		}
		for _, q := range questions {
			v, err := q.Of(truth)
			if err != nil {
				continue
			}
			rank := math.NaN()
			if answers := k.answers(q); answers != nil {
				rank = share(len(answers), func(j int) bool { return answers[j] < v })
			} else if a, err := k.Answer(q); err == nil {
				rank = distuv.UnitNormal.CDF((v - a.Value) / a.SD)
			}
			if !yield(q.Name, rank) {
				return
			}
		}
	}
}

// share of the numbers below n that it holds for.
func share(n int, holds func(i int) bool) float64 {
	count := 0
	for i := range n {
		if holds(i) {
			count++
		}
	}
	return float64(count) / float64(n)
}
