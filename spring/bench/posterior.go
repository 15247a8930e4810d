package bench

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/internal/check"
)

// Draw is one of the forks that fit, by its number: the same for the same seed.
func (k *Known) Draw(seed, i uint64) Fork {
	return at(k.prior, k.scales, k.draw(rand.New(rand.NewPCG(seed, i))))
}

// draw is the z of a fork that fits.
func (k *Known) draw(r *rand.Rand) []float64 {
	if k.sample != nil {
		return k.sample[r.IntN(len(k.sample))]
	}
	return k.normal(r, 1)
}

// normal is a z about the best one, spread by a factor.
func (k *Known) normal(r *rand.Rand, wide float64) []float64 {
	n := len(k.z)
	e := make([]float64, n)
	for i := range e {
		e[i] = wide * r.NormFloat64()
	}
	z := slices.Clone(k.z)
	for i := range n {
		for j := range i + 1 {
			z[i] += k.factor.At(i, j) * e[j]
		}
	}
	return z
}

// Check compares the normal approximation with the posterior by n importance samples, 100 to
// 1 million: the share of them that count, near 1 where the approximation is good and
// below 0.3 where it is not to be trusted.
func (k *Known) Check(ctx context.Context, n int, seed uint64) (share float64, err error) {
	f := check.Of("Check")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return 0, f.Err()
	}
	_, weights, err := k.importance(ctx, n, seed)
	return effective(weights), err
}

// effective is the share of samples of those weights that count.
func effective(weights []float64) float64 {
	sum := floats.Sum(weights)
	return sum * sum / sumSquares(weights) / float64(len(weights))
}

// importance is n samples about the best fork, and their weights in the posterior.
func (k *Known) importance(ctx context.Context, n int, seed uint64) (samples [][]float64, weights []float64,
	err error) {
	const tails = 8 // degrees of freedom of the t distribution that proposes: its tails cover those of the posterior
	samples, weights = make([][]float64, n), make([]float64, n)
	err = every(ctx, n, func() func(i int) {
		residuals := make([]float64, len(k.readings))
		return func(i int) {
			r, log := rand.New(rand.NewPCG(seed, uint64(i))), math.Inf(-1)
			var chi float64
			for range tails {
				e := r.NormFloat64()
				chi += e * e
			}
			z := k.normal(r, math.Sqrt(tails/chi))
			if k.residuals(z, residuals) {
				log = -0.5*sumSquares(residuals) - 0.5*sumSquares(z) +
					0.5*float64(tails+len(z))*math.Log1p(k.distance(z)/tails)
			}
			samples[i], weights[i] = z, log
		}
	})
	if err != nil {
		return nil, nil, err
	}
	top := slices.Max(weights)
	for i, log := range weights {
		weights[i] = math.Exp(log - top)
	}
	return samples, weights, nil
}

const (
	enough   = 0.3 // share of the samples that count, to look no further
	rounds   = 4   // of samples, each about the mean of those before
	leastFew = 100 // samples that count, for quantiles at 2.5 %
)

// Refined is the fork by n importance samples of the posterior, 100 to 1 million, in place of the
// best fork and the normal approximation about it: means, deviations, intervals, drawn forks and
// answers are those of the samples. It is for unknowns that the readings bound on one side only,
// as the pressure behind a floating piston by whether it lifts off, which no normal distribution
// is like. Where fewer than 0.3 of the samples count, it draws again about their mean, thrice at
// most. Fewer than 100 samples that count are too little to go by, which is an error.
func (k *Known) Refined(ctx context.Context, n int, seed uint64) (*Known, error) {
	f := check.Of("Refined")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return nil, f.Err()
	}
	about, most := k, 0.0
	var best *Known
	for round := range uint64(rounds) {
		samples, weights, err := about.importance(ctx, n, seed+round)
		if err != nil {
			return nil, err
		}
		share := effective(weights)
		better := k.by(samples, weights)
		if better == nil {
			break
		}
		if share > most {
			best, most = better, share
		}
		if about = better; share >= enough {
			break
		}
	}
	if count := most * float64(n); !(count >= leastFew) {
		f.Report("n", n, fmt.Sprintf("more samples: %.0f of these count, and %d must", count, leastFew), "")
		return nil, f.Err()
	}
	best.Residual = k.Residual // of the best fork
	best.told()
	return best, nil
}

// by is the fork by weighted samples; nil where they are all alike.
func (k *Known) by(samples [][]float64, weights []float64) *Known {
	n, d := len(samples), len(k.z)
	b := &Known{prior: k.prior, room: k.room, scales: k.scales, readings: k.readings, Surprise: k.Surprise,
		covariance: mat.NewSymDense(d, nil), sample: make([][]float64, n)}
	all := mat.NewDense(n, d, nil)
	for i, z := range samples {
		all.SetRow(i, z)
	}
	floats.Scale(float64(n)/floats.Sum(weights), weights)
	stat.CovarianceMatrix(b.covariance, all, weights)
	for j := range d {
		b.z = append(b.z, stat.Mean(mat.Col(nil, j, all), weights))
	}
	var c mat.Cholesky
	if !c.Factorize(b.covariance) {
		return nil
	}
	c.LTo(&b.factor)
	// As many of the same weight: each as often as its weight says, rounded one way or the other.
	sum, i := weights[0], 0
	for j := range b.sample {
		for sum < float64(j)+0.5 {
			i++
			sum += weights[i]
		}
		b.sample[j] = samples[i]
	}
	return b
}

// Interval is between which an unknown lies in 95 % of the forks that fit, in SI; false where it was none.
func (k *Known) Interval(name string) (low, high float64, ok bool) {
	for i, s := range k.scales {
		if s.name == name {
			low, high = k.interval(i)
			return low, high, true
		}
	}
	return 0, 0, false
}

func (k *Known) interval(i int) (low, high float64) {
	s := k.scales[i]
	if k.sample == nil {
		half := percentile97 * math.Sqrt(k.covariance.At(i, i))
		return s.value(k.z[i] - half), s.value(k.z[i] + half)
	}
	of := make([]float64, len(k.sample))
	for j, z := range k.sample {
		of[j] = z[i]
	}
	low, high = middle95(of)
	return s.value(low), s.value(high)
}

// percentile97 is the 97.5th percentile of a normal distribution, in standard deviations.
const percentile97 = 1.959964

// middle95 sorts the samples; 95 % of them lie between both.
func middle95(v []float64) (low, high float64) {
	slices.Sort(v)
	return stat.Quantile(0.025, stat.Empirical, v, nil), stat.Quantile(0.975, stat.Empirical, v, nil)
}

// distance of z from the best one, squared, in standard uncertainties.
func (k *Known) distance(z []float64) float64 {
	d := make([]float64, len(z))
	for i := range z {
		d[i] = z[i] - k.z[i]
		for j := range i {
			d[i] -= k.factor.At(i, j) * d[j]
		}
		d[i] /= k.factor.At(i, i)
	}
	return sumSquares(d)
}

func sumSquares(v []float64) (sum float64) {
	for _, x := range v {
		sum += x * x
	}
	return sum
}
