package propagate

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// Batch calculates the outputs y[j] of many samples at once from their inputs x[i], and reports of
// each whether it could. What of y it could not does not matter.
type Batch func(x, y [][]float64, ok []bool)

// Single is a model that takes the samples of a batch one by one.
func Single(m Model, inputs, outputs int) Batch {
	at, to := make([]float64, inputs), make([]float64, outputs)
	return func(x, y [][]float64, ok []bool) {
		for s := range ok {
			for i := range x {
				at[i] = x[i][s]
			}
			ok[s] = m(at, to)
			for j := range y {
				y[j][s] = to[j]
			}
		}
	}
}

const (
	streams = 256 // of random numbers, whatever the number of workers

	// Size is the most samples of a batch: few, that their arrays stay in the nearest cache.
	Size = 256
)

// MonteCarlo draws n ≥ 2 samples of the inputs, each normal about x_i with standard
// deviation u_i; an input of no uncertainty is not drawn. Samples at which the model fails
// are left out and counted; there is no distribution where fewer than two are left. There are
// as many workers as processors, each with a batch of its own, but the numbers follow from
// the seed alone. Memory does not grow with n: the samples are counted in bins, whose width
// is what the quantiles are known to. It ends early with the error of the context.
func MonteCarlo(ctx context.Context, worker func() Batch, x, u []float64, outputs, n int, seed uint64) (
	d []Distribution, failed int, err error) {
	// The first stream goes ahead, to find out where the samples lie.
	first := newDrawer(worker(), x, u, outputs)
	ranges := make([]histogram, outputs)
	pilot := min(n, Size)
	for j, y := range first.draw(rand.NewPCG(seed, streams), pilot) {
		ranges[j] = newHistogram(y)
	}
	var guard sync.Mutex
	var next atomic.Int64
	var workers sync.WaitGroup
	sums := make([]sum, streams*outputs) // of every stream, so that it does not matter who adds
	for w := range min(runtime.GOMAXPROCS(0), streams) {
		workers.Go(func() {
			drawer := first
			if w > 0 {
				drawer = newDrawer(worker(), x, u, outputs)
			}
			counts := make([]histogram, outputs)
			for j := range counts {
				counts[j] = ranges[j].empty()
			}
			for s := int(next.Add(1)) - 1; s < streams && ctx.Err() == nil; s = int(next.Add(1)) - 1 {
				source := rand.NewPCG(seed, uint64(s))
				for left := n*(s+1)/streams - n*s/streams; left > 0 && ctx.Err() == nil; left -= Size {
					for j, y := range drawer.draw(source, min(left, Size)) {
						sums[s*outputs+j].add(y, counts[j].center)
						counts[j].add(y)
					}
				}
			}
			guard.Lock()
			defer guard.Unlock()
			for j := range counts {
				ranges[j].merge(counts[j])
			}
		})
	}
	workers.Wait()
	if err := ctx.Err(); err != nil {
		return nil, 0, err
	}
	d = make([]Distribution, outputs)
	for j := range d {
		var all sum
		for s := range streams {
			all.merge(sums[s*outputs+j])
		}
		failed = n - int(all.n)
		if all.n < 2 {
			return nil, failed, nil
		}
		d[j].Mean, d[j].StdDev = all.moments(ranges[j].center)
		d[j].Low, d[j].High = ranges[j].quantile(0.025), ranges[j].quantile(0.975)
	}
	return d, failed, nil
}

// Distribution is what samples of one output say.
type Distribution struct {
	Mean, StdDev float64
	Low, High    float64 // between them the middle 95 % of the samples
}

// drawer draws samples and puts them through the model.
type drawer struct {
	batch Batch
	u     []float64
	mean  []float64
	x, y  [][]float64
	ok    []bool
}

func newDrawer(batch Batch, x, u []float64, outputs int) *drawer {
	d := &drawer{batch: batch, u: u, mean: x, x: make([][]float64, len(x)), y: make([][]float64, outputs),
		ok: make([]bool, Size)}
	for i := range d.x {
		d.x[i] = slices.Repeat([]float64{x[i]}, Size)
	}
	for j := range d.y {
		d.y[j] = make([]float64, Size)
	}
	return d
}

// draw is the outputs of n samples without those that failed.
func (d *drawer) draw(source *rand.PCG, n int) [][]float64 {
	r := rand.New(source)
	x, y, ok := slices.Clone(d.x), slices.Clone(d.y), d.ok[:n]
	for i, u := range d.u {
		x[i] = x[i][:n]
		if u == 0 {
			continue
		}
		for s := range x[i] {
			x[i][s] = d.mean[i] + u*r.NormFloat64()
		}
	}
	for j := range y {
		y[j] = y[j][:n]
	}
	d.batch(x, y, ok)
	if slices.Contains(ok, false) {
		for j := range y {
			kept := y[j][:0]
			for s, v := range y[j] {
				if ok[s] {
					kept = append(kept, v)
				}
			}
			y[j] = kept
		}
	}
	return y
}

// sum is of samples, less a number in their middle.
type sum struct{ n, sum, squares float64 }

func (s *sum) add(y []float64, center float64) {
	for _, v := range y {
		d := v - center
		s.sum += d
		s.squares += d * d
	}
	s.n += float64(len(y))
}

func (s *sum) merge(o sum) { s.n, s.sum, s.squares = s.n+o.n, s.sum+o.sum, s.squares+o.squares }

func (s *sum) moments(center float64) (mean, dev float64) {
	mean = s.sum / s.n
	return center + mean, math.Sqrt(max(0, s.squares-s.sum*mean) / (s.n - 1))
}
