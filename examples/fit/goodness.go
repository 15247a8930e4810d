package main

import (
	"math"
	"slices"

	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

// goodness says how well a fit describes the readings.
type goodness struct {
	sigma   units.Force  // of one reading
	largest fit.Residual // the reading that lies farthest off
	share   float64      // of the variance that is explained, R²
	varies  bool         // whether there is any
	runs    runs
}

func (j *job) goodness() goodness {
	g := goodness{sigma: j.result.Sigma}
	var sum, total float64
	for _, r := range j.result.Residuals {
		if math.Abs(float64(r.Force)) > math.Abs(float64(g.largest.Force)) {
			g.largest = r
		}
		sum += float64(r.Force) * float64(r.Force)
	}
	forces := j.forces()
	mean := 0.0
	for _, f := range forces {
		mean += f / float64(len(forces))
	}
	for _, f := range forces {
		total += (f - mean) * (f - mean)
	}
	if g.varies = total > 1e-12*mean*mean; g.varies {
		g.share = 1 - sum/total
	}
	var branch [2][]bool
	for _, r := range j.result.Residuals {
		i := 0
		if r.Unloading {
			i = 1
		}
		branch[i] = append(branch[i], r.Force > 0)
	}
	g.runs = countRuns(branch[:]...)
	return g
}

// forces are the fitted readings of both branches.
func (j *job) forces() []float64 {
	var all []float64
	for _, r := range slices.Concat(j.kept.Loading, j.kept.Unloading) {
		if r.Travel >= 0 {
			all = append(all, float64(r.Force))
		}
	}
	return all
}

// runs is the test of Wald and Wolfowitz (1940) for residuals that scatter
// independently: their signs change as often as those of tossed coins would. With
// n₊ and n₋ of both signs, n in all,
//
//	expected   1 + 2·n₊·n₋/n
//	variance   2·n₊·n₋·(2·n₊·n₋ − n) / (n²·(n − 1))
//
// summed over sequences. Few runs are a pattern: the model is wrong somewhere.
type runs struct {
	count              int
	expected, variance float64
}

func countRuns(sequences ...[]bool) runs {
	var r runs
	for _, s := range sequences {
		var plus, minus float64
		for i, up := range s {
			if i == 0 || up != s[i-1] {
				r.count++
			}
			if up {
				plus++
			} else {
				minus++
			}
		}
		n := plus + minus
		if n < 2 {
			continue
		}
		r.expected += 1 + 2*plus*minus/n
		r.variance += 2 * plus * minus * (2*plus*minus - n) / (n * n * (n - 1))
	}
	return r
}

// z is how many standard deviations there are too many runs; 0 where there is none
// to tell.
func (r runs) z() float64 {
	if r.variance <= 0 {
		return 0
	}
	return (float64(r.count) - r.expected) / math.Sqrt(r.variance)
}
