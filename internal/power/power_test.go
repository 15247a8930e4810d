package power

import (
	"math"
	"math/big"
	"math/rand/v2"
	"sync"
	"testing"
)

var exponents = []float64{1, 1.05, 1.3, 1.4, 5.0 / 3, 0.3}

func TestInverseAgainstPow(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, n := range exponents {
		p := NewInverse(n)
		for range 20000 {
			u := math.Exp((r.Float64() - 0.5) * 2 * 6)
			if got, want := p.Of(u), math.Pow(u, -n); !(math.Abs(got-want) <= 2e-15*want) {
				t.Fatalf("Of(%v) for n = %v is %v, math.Pow says %v", u, n, got, want)
			}
		}
	}
}

func TestInverseReciprocalIsNearlyExact(t *testing.T) {
	// n = 1 has an oracle beyond float64: the quotient in 200-bit arithmetic.
	p := NewInverse(1)
	for u := 0.01; u < 200; u *= 1.0137 {
		exact, _ := new(big.Float).Quo(big.NewFloat(1).SetPrec(200), big.NewFloat(u).SetPrec(200)).Float64()
		if got := p.Of(u); !(math.Abs(got-exact) <= 1e-15*exact) {
			t.Errorf("Of(%v) = %v, want %v", u, got, exact)
		}
	}
}

func TestInverseOutsideTheTable(t *testing.T) {
	p := NewInverse(1.3)
	for _, c := range []struct {
		name    string
		u, want float64
	}{
		{"one", 1, 1},
		{"tiny", 1e-9, math.Pow(1e-9, -1.3)},
		{"huge", 1e9, math.Pow(1e9, -1.3)},
		{"lower edge", 0x1p-5, math.Pow(0x1p-5, -1.3)},
		{"upper edge", 0x1p4, math.Pow(0x1p4, -1.3)},
		{"zero", 0, math.Inf(1)},
		{"infinity", math.Inf(1), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := p.Of(c.u); got != c.want && !(math.Abs(got-c.want) <= 2e-15*c.want) {
				t.Errorf("Of(%v) = %v, want %v", c.u, got, c.want)
			}
		})
	}
	if got := p.Of(-1); !math.IsNaN(got) {
		t.Errorf("Of(-1) = %v, want NaN", got)
	}
}

func TestNewInverseReusesTables(t *testing.T) {
	if a, b := NewInverse(1.37), NewInverse(1.37); a != b {
		t.Error("the same exponent was tabulated twice in a row")
	}
}

// The cache of tables serves many goroutines at once; the race detector watches this test.
func TestNewInverseConcurrently(t *testing.T) {
	var group sync.WaitGroup
	for g := range 8 {
		group.Go(func() {
			for i := range 200 {
				n := 1 + float64((i*7+g)%50)/100
				if got, want := NewInverse(n).Of(0.5), math.Exp2(n); !(math.Abs(got-want) <= 2e-15*want) {
					t.Errorf("n = %v: %v, want %v", n, got, want)
				}
			}
		})
	}
	group.Wait()
}

// Many bases at once are the same bases one by one, those in no cell too.
func TestFillAndAdd(t *testing.T) {
	p := NewInverse(1.3)
	xs, filled, added := make([]float64, 2000), make([]float64, 2000), make([]float64, 2000)
	for i := range xs {
		xs[i] = float64(i)/1000 - 1
		added[i] = 5
	}
	Fill(p, filled, xs, -20)
	Add(p, added, xs, 3, -20)
	for i, x := range xs {
		want := p.Of(1 + 20*x)
		same := math.Abs(filled[i]-want) <= 1e-15*want && math.Abs(added[i]-5-3*want) <= 1e-14*(1+want)
		if !same && !(math.IsNaN(want) && math.IsNaN(filled[i]) && math.IsNaN(added[i])) {
			t.Fatalf("at %v: %v and %v, want %v and %v", x, filled[i], added[i], want, 5+3*want)
		}
	}
}

var sink float64

func BenchmarkInverse(b *testing.B) {
	p := NewInverse(1.3)
	u := 0.3
	for b.Loop() {
		sink = p.Of(u)
	}
}

func BenchmarkTabulate(b *testing.B) {
	for b.Loop() {
		sink = tabulate(1.3).n
	}
}

func BenchmarkMathPow(b *testing.B) {
	u := 0.3
	for b.Loop() {
		sink = math.Pow(u, -1.3)
	}
}
