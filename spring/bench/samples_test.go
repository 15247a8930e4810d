package bench_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/units"
)

// rankOf is the rank of a name.
func rankOf(t *testing.T, k *bench.Known, truth bench.Fork, name string, q ...bench.Question) float64 {
	t.Helper()
	for n, r := range k.Ranks(truth, q...) {
		if n == name {
			return r
		}
	}
	t.Fatal("no rank of", name)
	return 0
}

// Of one number of a normal posterior, interval and ranks have closed forms; a refined fork has them of its samples,
// and its answers by up to 2000 of them, spread over all.
func TestRanksInClosedForm(t *testing.T) {
	k, err := bench.Learn(t.Context(), motocross(), room, []bench.Unknown{bench.Uncertain("offset", 3*mm)},
		[]bench.Reading{bench.Direct("offset", 62*mm, 4*mm)})
	if err != nil {
		t.Fatal(err)
	}
	const sd = 2.4 // 1/√(1/9 + 1/16)
	mean := 56 + sd*sd/16*6
	offset := bench.Question{Name: "square of the offset", Of: func(f bench.Fork) (float64, error) {
		return float64(f.Chassis.Offset), nil
	}, Text: func(v float64) string { return units.Length(v).String() }}
	better, err := k.Refined(t.Context(), 20_000, 3)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		k         *bench.Known
		tolerance float64 // of a share of 2000 or 20 000 samples: three standard errors
	}{{k, 1e-6}, {better, 0.04}} {
		low, high, _ := c.k.Interval("offset")
		within(t, "low", 1000*low, mean-1.959964*sd, c.tolerance)
		within(t, "high", 1000*high, mean+1.959964*sd, c.tolerance)
		a, err := c.k.Answer(offset)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "answer", 1000*a.Value, mean, c.tolerance)
		within(t, "answer's deviation", 1000*a.SD, sd, c.tolerance)
		within(t, "answer's low", 1000*a.Low, mean-1.959964*sd, c.tolerance)
		within(t, "answer's high", 1000*a.High, mean+1.959964*sd, c.tolerance)
		for _, at := range []float64{55, 58, 61} {
			truth := motocross()
			truth.Chassis.Offset = units.Length(at) * mm
			want := distuv.Normal{Mu: mean, Sigma: sd}.CDF(at)
			within(t, "rank", rankOf(t, c.k, truth, "offset"), want, c.tolerance)
			within(t, "rank of the answer", rankOf(t, c.k, truth, offset.Name, offset), want, c.tolerance)
		}
		seen := 0
		for range c.k.Ranks(motocross(), offset, offset, offset) {
			if seen++; seen == 2 {
				break // in the questions: it must not go on
			}
		}
		if seen != 2 {
			t.Errorf("%d ranks", seen)
		}
	}
}

// A reading that none of the unknowns explains misses all forks alike: by how many is the probability of its misfit,
// with either sign, among those that can be read.
func TestPredictiveInClosedForm(t *testing.T) {
	f := motocross()
	f.Spec.Left.Air.Linked = 600 * mL
	for _, off := range []units.Force{-8, 8} {
		moves := byHand{9e5, 84}.still(0) + 84
		k, err := bench.Learn(t.Context(), f, room,
			[]bench.Unknown{bench.Uncertain("left.air.linked", 300*mL)}, // of forks with more than 1 L none can be read
			[]bench.Reading{bench.Breakaway{Force: units.Force(moves) + off, SD: 8}})
		if err != nil {
			t.Fatal(err)
		}
		const n = 20_000
		p, err := k.Predictive(t.Context(), n, 1)
		if err != nil {
			t.Fatal(err)
		}
		want := math.Erfc(1 / math.Sqrt2)    // of a misfit of one standard uncertainty
		within(t, "all", p.All, want, 0.012) // three standard errors
		within(t, "worst", p.Worst, want, 0.012)
		beyond := 0.5 * math.Erfc((1000.0-600)/300/math.Sqrt2)
		within(t, "of more than 1 L", float64(p.Failed)/n, beyond, 0.006)
	}
}

// Weights are those of the samples among each other: also where every one of them fits badly.
func TestCheckOfBadReadings(t *testing.T) {
	k, err := bench.Learn(t.Context(), motocross(), room,
		[]bench.Unknown{bench.Uncertain("offset", 3*mm), bench.Uncertain("rake", 0.5*units.Degree)},
		[]bench.Reading{bench.Direct("offset", 56*mm, 3*mm), bench.WheelMass{Mass: 25, SD: 0.1}})
	if err != nil {
		t.Fatal(err)
	}
	if !k.Residual[1].Contradicts() {
		t.Error("a wheel of 10 kg too many contradicts nothing")
	}
	share, err := k.Check(t.Context(), 4000, 1)
	if err != nil || !(share > 0.8) {
		t.Errorf("%.3f of the samples count, %v", share, err)
	}
}
