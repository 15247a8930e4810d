package bench

import (
	"iter"
	"math"
	"math/rand/v2"

	"example.org/forkcurve/spring/gas"
)

// Simulate reads a fork: the same readings with what this fork would show, off by random
// errors of their uncertainty.
func Simulate(f Fork, room gas.Ambient, readings []Reading, r *rand.Rand) ([]Reading, error) {
	b := &bench{fork: f.filled(), room: room}
	list := make([]Reading, len(readings))
	for i, one := range readings {
		v, err := one.model(b)
		if err != nil {
			return nil, err
		}
		_, sd := one.read()
		list[i] = one.with(v + sd*r.NormFloat64())
	}
	return list, nil
}

// Misses are by how many standard uncertainties each unknown of a fork, of which the
// truth is known, differs from what is known of it, by name.
func (k *Known) Misses(truth Fork) iter.Seq2[string, float64] {
	return func(yield func(string, float64) bool) {
		for i, s := range k.scales {
			z := s.z(s.get(&truth))
			if !yield(s.name, (z-k.z[i])/math.Sqrt(k.covariance.At(i, i))) {
				return
			}
		}
	}
}
