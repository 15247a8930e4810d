package ride

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/internal/check"
)

// Study is what many vehicles did over one course: each number of the summary by itself,
// the middle 90 % of the vehicles between Low and High.
type Study struct {
	Low, Middle, High Summary // the 5 %, 50 % and 95 % quantiles of each number
	Vehicles          int     // that were run
}

// NewStudy runs n vehicles, 2 to 100 000, made by their number, over the course on all
// processors. The answer does not hang on how many there are. Progress, if not nil, is told
// how many have ended; it is called from one goroutine at a time. The first error in
// the order of the vehicles ends the study.
func NewStudy(ctx context.Context, n int, vehicle func(i int) (*Vehicle, error), c Course, s Settings,
	progress func(done int)) (Study, error) {
	f := check.Of("NewStudy")
	if !check.Between(f, "n", float64(n), 2, 100_000) {
		return Study{}, f.Err()
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	summaries, errs := make([]Summary, n), make([]error, n)
	var next atomic.Int64
	var done int
	var mu sync.Mutex
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				if summaries[i], errs[i] = one(ctx, vehicle, i, c, s); errs[i] != nil {
					cancel()
					return
				}
				mu.Lock()
				if done++; progress != nil {
					progress(done)
				}
				mu.Unlock()
			}
		})
	}
	workers.Wait()
	for i, err := range errs {
		if err != nil && !errors.Is(err, context.Canceled) {
			return Study{}, fmt.Errorf("vehicle %d: %w", i, err)
		}
	}
	if err := ctx.Err(); err != nil {
		return Study{}, err
	}
	return Study{Low: quantile(summaries, 0.05), Middle: quantile(summaries, 0.5), High: quantile(summaries, 0.95),
		Vehicles: n}, nil
}

func one(ctx context.Context, vehicle func(i int) (*Vehicle, error), i int, c Course, s Settings) (Summary, error) {
	v, err := vehicle(i)
	if err != nil {
		return Summary{}, err
	}
	r, err := v.Run(ctx, c, s)
	if err != nil {
		return Summary{}, err
	}
	return r.Summary(), nil
}

// quantile of every number in the summaries.
func quantile(summaries []Summary, p float64) Summary {
	var out Summary
	sorted := make([]float64, len(summaries))
	numbers(reflect.ValueOf(&out).Elem(), func(path []int, to reflect.Value) {
		for i := range summaries {
			sorted[i] = number(reflect.ValueOf(&summaries[i]).Elem().FieldByIndex(path))
		}
		slices.Sort(sorted)
		q := stat.Quantile(p, stat.Empirical, sorted, nil)
		if to.CanInt() {
			to.SetInt(int64(q))
		} else {
			to.SetFloat(q)
		}
	})
	return out
}

// numbers visits every number of a struct, with its index path.
func numbers(v reflect.Value, visit func(path []int, to reflect.Value)) {
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Struct {
			numbers(f, func(path []int, to reflect.Value) { visit(append([]int{i}, path...), to) })
		} else {
			visit([]int{i}, f)
		}
	}
}

func number(v reflect.Value) float64 {
	if v.CanInt() {
		return float64(v.Int())
	}
	return v.Float()
}
