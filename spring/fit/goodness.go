package fit

import (
	"fmt"
	"math"

	"example.org/forkcurve/units"
)

// Goodness says how well a fit describes its readings.
type Goodness struct {
	Explained float64  // share of the variance of the force, R²; below 0: a constant is better; NaN: it does not vary
	Farthest  Residual // the reading that lies farthest off
	Noiseless bool     // there is no scatter to speak of, below 0.05 N
	Runs      Runs     // of one sign among the residuals
	Verdict   string   // what the runs say
}

// Goodness of the fit.
func (r *Result) Goodness() Goodness {
	g := Goodness{Explained: math.NaN(), Noiseless: r.Sigma < 0.05*units.Newton}
	var mean, squares, total float64
	for _, s := range r.Residuals {
		mean += float64(s.Measured) / float64(len(r.Residuals))
		squares += float64(s.Force) * float64(s.Force)
		if math.Abs(float64(s.Force)) >= math.Abs(float64(g.Farthest.Force)) {
			g.Farthest = s
		}
	}
	var in, out []float64
	for _, s := range r.Residuals {
		d := float64(s.Measured) - mean
		total += d * d
		if s.Unloading {
			out = append(out, float64(s.Force))
		} else {
			in = append(in, float64(s.Force))
		}
	}
	if total > 1e-12*mean*mean {
		g.Explained = 1 - squares/total
	}
	g.Runs = CountRuns(in, out)
	const fewest = 20
	switch z := g.Runs.Z(); {
	case g.Noiseless:
		g.Verdict = "means nothing, there is no noise to speak of; a record of a bench has some"
	case len(r.Residuals) < fewest:
		g.Verdict = fmt.Sprintf("too few readings to tell; %d or more can", fewest)
	case z < -3:
		g.Verdict = "far too few: the residuals show a pattern, the model is wrong somewhere, and the standard errors " +
			"above are not to be trusted"
	case z < -2:
		g.Verdict = "few: look at the residuals for a pattern"
	case z > 3:
		g.Verdict = "too many: the readings alternate, as with play or a ripple of the bench"
	default:
		g.Verdict = "as independent noise has them"
	}
	return g
}

// Runs is the test of Wald and Wolfowitz for residuals that scatter independently:
// their signs change as often as those of tossed coins would. With n₊ and n₋ of both
// signs, n in all,
//
//	expected   1 + 2·n₊·n₋/n
//	variance   2·n₊·n₋·(2·n₊·n₋ − n) / (n²·(n − 1))
//
// summed over sequences. Few runs are a pattern: the model is wrong somewhere. Many
// are readings that alternate, as with play or a ripple of the bench.
//
// Source: A. Wald and J. Wolfowitz, On a test whether two samples are from the same
// population, Annals of Mathematical Statistics 11 (1940).
type Runs struct {
	Count            int     // as found
	Expected, StdDev float64 // of Count
}

// CountRuns counts the runs of one sign in sequences that do not go on from one to the
// next; what is not above 0 is below.
func CountRuns(sequences ...[]float64) Runs {
	var r Runs
	var variance float64
	for _, s := range sequences {
		var plus, minus float64
		for i, v := range s {
			if i == 0 || (v > 0) != (s[i-1] > 0) {
				r.Count++
			}
			if v > 0 {
				plus++
			} else {
				minus++
			}
		}
		if n := plus + minus; n >= 2 {
			r.Expected += 1 + 2*plus*minus/n
			variance += 2 * plus * minus * (2*plus*minus - n) / (n * n * (n - 1))
		}
	}
	r.StdDev = math.Sqrt(max(0, variance))
	return r
}

// Z is how many standard deviations there are too many runs, below 0 too few; 0 where
// there are none to tell by.
func (r Runs) Z() float64 {
	if r.StdDev == 0 {
		return 0
	}
	return (float64(r.Count) - r.Expected) / r.StdDev
}
