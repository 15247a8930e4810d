package bench

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/internal/check"
)

// every calls what a worker does with each number below n, on all processors, until the context
// ends it.
func every(ctx context.Context, n int, worker func() func(i int)) error {
	var next atomic.Int64
	var workers sync.WaitGroup
	const chunk = 64
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		workers.Go(func() {
			do := worker()
			for from := int(next.Add(chunk)) - chunk; from < n && ctx.Err() == nil; from = int(next.Add(chunk)) - chunk {
				for i := from; i < min(from+chunk, n); i++ {
					do(i)
				}
			}
		})
	}
	workers.Wait()
	return ctx.Err()
}

// Samples are what n forks that fit answer to a question, 10 to 10 million, the same for any
// number of processors; those that can not answer are left out and counted.
func (k *Known) Samples(ctx context.Context, q Question, n int, seed uint64) (Sampled, error) {
	f := check.Of("Samples")
	if !check.Between(f, "n", float64(n), 10, 1e7) {
		return Sampled{}, f.Err()
	}
	answers := make([]float64, n)
	err := every(ctx, n, func() func(i int) {
		return func(i int) { answers[i] = q.or(math.NaN(), k.Draw(seed, uint64(i))) }
	})
	if err != nil {
		return Sampled{}, err
	}
	return sampled(answers), nil
}

// or is the answer of a fork, or that number of one that can not answer.
func (q Question) or(none float64, f Fork) float64 {
	if v, err := q.Of(f); err == nil {
		return v
	}
	return none
}

// sampled sums up answers, NaN where there was none.
func sampled(answers []float64) Sampled {
	good := slices.DeleteFunc(answers, math.IsNaN)
	s := Sampled{Failed: len(answers) - len(good)}
	if len(good) < 2 {
		return s
	}
	s.Low, s.High = middle95(good)
	s.Mean, s.StdDev = stat.MeanStdDev(good, nil)
	return s
}

// Sampled is what samples of an answer say, in SI.
type Sampled struct {
	Mean, StdDev, Low, High float64 // 95 % between Low and High
	Failed                  int     // samples of forks that have no answer
}

// Predictive compares the readings with those that n forks that fit would give, 100 to 1 million
// (posterior predictive check: A. Gelman et al., Bayesian Data Analysis, 3rd edition, chapter 6).
func (k *Known) Predictive(ctx context.Context, n int, seed uint64) (Predictive, error) {
	f := check.Of("Predictive")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return Predictive{}, f.Err()
	}
	var all, worst, failed atomic.Int64
	err := every(ctx, n, func() func(i int) {
		misses := make([]float64, len(k.readings))
		return func(i int) {
			r := rand.New(rand.NewPCG(seed, uint64(i)))
			if !k.residuals(k.draw(r), misses) {
				failed.Add(1)
				return
			}
			sum, most := sumSquares(misses), largest(misses)
			for i := range misses {
				misses[i] = r.NormFloat64()
			}
			if sumSquares(misses) >= sum {
				all.Add(1)
			}
			if largest(misses) >= most {
				worst.Add(1)
			}
		}
	})
	if err != nil {
		return Predictive{}, err
	}
	p := Predictive{Failed: int(failed.Load())}
	if told := float64(n - p.Failed); told > 0 {
		p.All, p.Worst = float64(all.Load())/told, float64(worst.Load())/told
	}
	return p, nil
}

func largest(v []float64) (most float64) {
	for _, x := range v {
		most = max(most, math.Abs(x))
	}
	return most
}

// Predictive is how often readings of the forks that fit miss them by as much as those that were read: below 0.01 the
// fork, as it is described, does not explain its readings.
type Predictive struct {
	All    float64 // by the sum of their squares
	Worst  float64 // by the one that misses most
	Failed int     // forks that can not be read
}
