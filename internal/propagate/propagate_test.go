package propagate

import (
	"context"
	"errors"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"example.org/forkcurve/internal/register"
)

const samples = 400_000

func one(m Model, inputs int) func() Batch { return func() Batch { return Single(m, inputs, 1) } }

func add(x, y []float64) bool {
	y[0] = 0
	for _, v := range x {
		y[0] += v
	}
	return true
}

func firstOrder(m Model, x, u []float64, outputs int) ([]float64, bool) {
	rows, ok := Contributions(m, x, u, outputs)
	return Combined(rows, outputs), ok
}

// JCGM 101:2008, section 9.2, the additive model of four standard normal inputs: u = 2.0
// and a 95 % interval of ±3.92.
func TestAdditive(t *testing.T) {
	register.Cite(t, "X-03")
	x, u := make([]float64, 4), []float64{1, 1, 1, 1}
	first, ok := firstOrder(add, x, u, 1)
	if !ok || !(math.Abs(first[0]-2) <= 1e-12) {
		t.Errorf("first order %v, want 2", first)
	}
	d, failed, _ := MonteCarlo(t.Context(), one(add, 4), x, u, 1, samples, 1)
	if failed != 0 || math.Abs(d[0].StdDev-2) > 0.01 || math.Abs(d[0].Low+3.92) > 0.03 ||
		math.Abs(d[0].High-3.92) > 0.03 {
		t.Errorf("samples %+v, want a deviation of 2.0 and ±3.92", d[0])
	}
}

// JCGM 101:2008, section 9.4 (from memory): y = x₁² + x₂² with u = 0.005, where the first
// order fails as x₁ goes to 0. Expectation and deviation at x₁ = 0, 0.010, 0.050, x₂ = 0.
func TestSumOfSquares(t *testing.T) {
	register.Cite(t, "X-05")
	squares := func(x, y []float64) bool { y[0] = x[0]*x[0] + x[1]*x[1]; return true }
	u := []float64{0.005, 0.005}
	for _, c := range []struct{ x1, mean, dev, first float64 }{
		{0, 50e-6, 50e-6, 0}, {0.010, 150e-6, 112e-6, 100e-6}, {0.050, 2550e-6, 502e-6, 500e-6},
	} {
		x := []float64{c.x1, 0}
		d, _, _ := MonteCarlo(t.Context(), one(squares, 2), x, u, 1, samples, 2)
		if !(math.Abs(d[0].Mean-c.mean) <= 2e-6) || !(math.Abs(d[0].StdDev-c.dev) <= 2e-6) {
			t.Errorf("x₁ = %v: mean %v, deviation %v; want %v and %v", c.x1, d[0].Mean, d[0].StdDev, c.mean, c.dev)
		}
		if first, ok := firstOrder(squares, x, u, 1); !ok || !(math.Abs(first[0]-c.first) <= 1e-12) {
			t.Errorf("x₁ = %v: first order %v, want %v", c.x1, first, c.first)
		}
	}
}

func TestFailingModel(t *testing.T) {
	root := func(x, y []float64) bool { y[0] = math.Sqrt(x[0]); return x[0] >= 0 }
	if _, ok := firstOrder(root, []float64{0.5}, []float64{1}, 1); ok {
		t.Error("first order across a failure")
	}
	d, failed, _ := MonteCarlo(t.Context(), one(root, 1), []float64{0}, []float64{1}, 1, 1000, 3)
	if failed < 400 || failed > 600 || math.IsNaN(d[0].Mean) {
		t.Errorf("%d of 1000 failed, %+v", failed, d)
	}
	d, failed, _ = MonteCarlo(t.Context(), one(root, 1), []float64{-9}, []float64{0.1}, 1, 10, 3)
	if d != nil || failed != 10 {
		t.Errorf("%+v, %d failed", d, failed)
	}
}

func TestSameSeedSameSamples(t *testing.T) {
	draw := func(workers int) []Distribution {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
		half := func(x, y []float64) bool { return add(x, y) && y[0] > 3 }
		d, _, _ := MonteCarlo(t.Context(), one(half, 2), []float64{1, 2}, []float64{1, 0}, 1, 1000, 7)
		return d
	}
	want := draw(1)
	for _, workers := range []int{1, 2, 5} {
		if got := draw(workers); got[0] != want[0] {
			t.Errorf("%d workers: %+v, want %+v", workers, got[0], want[0])
		}
	}
}

func TestBlocksDiffer(t *testing.T) {
	seen := map[float64]bool{}
	var lock sync.Mutex
	MonteCarlo(t.Context(), one(func(x, y []float64) bool {
		lock.Lock()
		defer lock.Unlock()
		seen[x[0]] = true
		return add(x, y)
	}, 1), []float64{0}, []float64{1}, 1, 50*Size, 7)
	if len(seen) < 50*Size-5 {
		t.Errorf("%d different samples of %d", len(seen), 50*Size)
	}
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var calls, late atomic.Int64
	var canceled atomic.Bool // what another worker does before cancel returns is not late
	d, _, err := MonteCarlo(ctx, one(func(x, y []float64) bool {
		if canceled.Load() {
			late.Add(1)
		}
		if calls.Add(1) == 100 {
			cancel()
			canceled.Store(true)
		}
		return add(x, y)
	}, 1), []float64{0}, []float64{1}, 1, 1e6, 1)
	if !errors.Is(err, context.Canceled) || d != nil || late.Load() > Size*int64(runtime.GOMAXPROCS(0)) {
		t.Errorf("%d calls after it was canceled: %v, %v", late.Load(), d, err)
	}
}

func TestExactInputsCostNothing(t *testing.T) {
	calls := 0
	firstOrder(func(x, y []float64) bool { calls++; return add(x, y) }, make([]float64, 3), []float64{0, 1, 0}, 1)
	if calls != 2 {
		t.Errorf("%d evaluations for one uncertain input, want 2", calls)
	}
}
