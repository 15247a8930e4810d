package lsq

import (
	"context"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

func all(n int) []int {
	list := make([]int, n)
	for j := range list {
		list[j] = j
	}
	return list
}

// line is the problem y = b₀ + b₁·x with residuals over sigma.
func line(x, y []float64, sigma float64) Problem {
	return Problem{
		Parameters: 2, Residuals: len(x),
		Evaluate: func(b, r []float64) bool {
			for i := range x {
				r[i] = (b[0] + b[1]*x[i] - y[i]) / sigma
			}
			return true
		},
		Differentiate: func(_, _ []float64, jac [][]float64) bool {
			for i := range x {
				jac[0][i], jac[1][i] = 1/sigma, x[i]/sigma
			}
			return true
		},
	}
}

var (
	lineX = []float64{0, 1, 2, 3, 5, 8}
	lineY = []float64{1.1, 2.8, 5.3, 6.9, 11.2, 16.8}
)

// normal is the normal prior of that mean and covariance; false where the
// covariance is not positive definite.
func normal(mean []float64, covariance mat.Symmetric) (*Prior, bool) {
	var c mat.Cholesky
	if !c.Factorize(covariance) {
		return nil, false
	}
	var factor, inverse mat.TriDense
	c.LTo(&factor)
	if inverse.InverseTri(&factor) != nil {
		return nil, false
	}
	return &Prior{Mean: mean, Weight: mat.DenseCopyOf(&inverse)}, true
}

// With a normal prior the posterior of a linear model is known in closed form (A.
// Gelman et al., Bayesian Data Analysis, section 14.8): precision C⁻¹ + XᵀX/σ², mean
// its inverse times C⁻¹·μ + Xᵀy/σ².
func TestBayesianLine(t *testing.T) {
	const sigma = 0.3
	mean, prior := []float64{2, 1.5}, mat.NewSymDense(2, []float64{0.5, -0.2, -0.2, 0.3})
	var precision, design, cross mat.Dense
	if err := precision.Inverse(prior); err != nil {
		t.Fatal(err)
	}
	var right, now mat.VecDense
	right.MulVec(&precision, mat.NewVecDense(2, mean))
	x := mat.NewDense(len(lineX), 2, nil)
	for i, v := range lineX {
		x.SetRow(i, []float64{1 / sigma, v / sigma})
	}
	cross.Mul(x.T(), x)
	precision.Add(&precision, &cross)
	now.MulVec(x.T(), mat.NewVecDense(len(lineY), slices.Clone(lineY)))
	right.AddScaledVec(&right, 1/sigma, &now)
	if err := design.Inverse(&precision); err != nil {
		t.Fatal(err)
	}
	now.MulVec(&design, &right)

	p := line(lineX, lineY, sigma)
	var ok bool
	if p.Prior, ok = normal(mean, prior); !ok {
		t.Fatal("no prior")
	}
	s := NewSolver(p)
	b := []float64{-40, 70}
	if got := s.Minimize(context.Background(), b); got.Reason != Stationary {
		t.Errorf("%+v", got)
	}
	d, _ := s.Determined(b, all(2))
	for i := range 2 {
		if !(math.Abs(b[i]/now.AtVec(i)-1) <= 1e-10) {
			t.Errorf("mean %v, closed form %v", b, now.RawVector().Data)
		}
		for j := range 2 {
			if !(math.Abs(d.Covariance.At(i, j)/design.At(i, j)-1) <= 1e-10) {
				t.Errorf("covariance %v, closed form %v", mat.Formatted(d.Covariance), mat.Formatted(&design))
			}
		}
	}
}

// On a bound the others are at the least squares that are left to them.
func TestBounds(t *testing.T) {
	p := line(lineX, lineY, 1)
	p.Lower, p.Upper = []float64{-9, 0}, []float64{9, 1.5}
	b := []float64{-100, 100}
	got := NewSolver(p).Minimize(context.Background(), b)
	var want float64 // of y − 1.5·x the mean
	for i := range lineX {
		want += (lineY[i] - 1.5*lineX[i]) / float64(len(lineX))
	}
	if got.Reason != Stationary || b[1] != 1.5 || !(math.Abs(b[0]-want) <= 1e-12) {
		t.Errorf("%+v at %v, want %v", got, b, want)
	}
	p.Lower[0] = 5
	if got := NewSolver(p).Minimize(context.Background(), b); got.Reason != Stationary || b[0] != 5 || b[1] >= 1.5 {
		t.Errorf("%+v at %v", got, b)
	}
	p.Lower[1] = 1.4
	if got := NewSolver(p).Minimize(context.Background(), b); got.Reason != Stationary || b[0] != 5 || b[1] != 1.4 {
		t.Errorf("in a corner: %+v at %v", got, b)
	}
}

// Derivatives that are no numbers end a search, and determine nothing.
func TestNotFinite(t *testing.T) {
	p := line(lineX, lineY, 1)
	p.Differentiate = func(_, _ []float64, jac [][]float64) bool {
		jac[1][2] = math.NaN()
		return true
	}
	s := NewSolver(p)
	b := []float64{1, 1}
	got := s.Minimize(context.Background(), b)
	if d, ok := s.Determined(b, all(2)); ok || d.Covariance != nil || got.Reason != OutOfDomain {
		t.Errorf("%+v and %+v", got, d)
	}
}

// Forward differences find the same minimum, also within bounds that it lies near.
func TestForward(t *testing.T) {
	for _, name := range []string{"Misra1a", "Eckerle4", "Rat43"} {
		c := readCertified(t, name)
		p := certifiedProblem(c, nist[name])
		p.Differentiate = nil
		for _, bounded := range []bool{false, true} {
			if bounded {
				for _, v := range c.values {
					p.Lower, p.Upper = append(p.Lower, v/3), append(p.Upper, v*(1+1e-9))
				}
			}
			b := slices.Clone(c.starts[1])
			if got := NewSolver(p).Minimize(context.Background(), b); !got.Reason.Converged() {
				t.Errorf("%s: %+v", name, got)
			}
			for j, want := range c.values {
				if !(math.Abs(b[j]/want-1) <= 1e-6) {
					t.Errorf("%s: b%d = %v, certified %v", name, j+1, b[j], want)
				}
			}
		}
	}
}

// Parameters that only act together are named, the others not.
func TestVague(t *testing.T) {
	p := line(lineX, lineY, 1)
	sum := Problem{Parameters: 4, Residuals: p.Residuals, Evaluate: func(b, r []float64) bool {
		return p.Evaluate([]float64{b[0] + 2*b[2], b[1]}, r)
	}}
	s := NewSolver(sum)
	b := []float64{1, 1, 1, 1}
	if got := s.Minimize(context.Background(), b); !got.Reason.Converged() {
		t.Errorf("%+v", got)
	}
	for _, c := range []struct{ list, want []int }{
		{[]int{0, 1, 2}, []int{0, 2}}, {[]int{1, 3}, []int{1}}, {[]int{1, 2}, nil},
	} {
		d, ok := s.Determined(b, c.list)
		if !ok || !slices.Equal(d.Vague, c.want) || (d.Covariance == nil) != (c.want != nil) {
			t.Errorf("of %v: %+v, want vague %v", c.list, d, c.want)
		}
	}
}

// A search tells why it ended, and comes to an end.
func TestReasons(t *testing.T) {
	canceled, cancel := context.WithCancel(context.Background())
	cancel()
	c := readCertified(t, "MGH17")
	p := certifiedProblem(c, nist["MGH17"])
	for name, q := range map[string]struct {
		ctx  context.Context
		quit func([]float64) bool
		edge float64 // of the domain
		want Reason
	}{
		"canceled":                  {canceled, nil, 1e9, Canceled},
		"quit":                      {context.Background(), func([]float64) bool { return true }, 1e9, Stopped},
		"no model at the start":     {context.Background(), nil, 0, OutOfDomain},
		"no model but at the start": {context.Background(), nil, math.Nextafter(c.starts[1][1], 9), OutOfDomain},
		"no model at the minimum":   {context.Background(), nil, 1.6, OutOfDomain},
	} {
		part := p
		part.Evaluate = func(b, r []float64) bool { return b[1] < q.edge && p.Evaluate(b, r) }
		s := NewSolver(part)
		s.Quit = q.quit
		if got := s.Minimize(q.ctx, slices.Clone(c.starts[1])); got.Reason != q.want || got.Steps > maxSteps ||
			got.Reason.String() == "" {
			t.Errorf("%s: %v after %d steps, want %v", name, got.Reason, got.Steps, q.want)
		}
	}
}

// Where the model does not hold nothing is determined, and of no parameter there is nothing to tell.
func TestDeterminedOutside(t *testing.T) {
	p := line(lineX, lineY, 1)
	p.Differentiate = nil
	inside := p.Evaluate
	p.Evaluate = func(b, r []float64) bool { return b[0] == 1 && inside(b, r) }
	s := NewSolver(p)
	if d, ok := s.Determined([]float64{1, 1}, all(2)); ok {
		t.Errorf("no derivative by b0, yet %+v", d)
	}
	if d, ok := s.Determined([]float64{2, 1}, all(2)); ok {
		t.Errorf("no model, yet %+v", d)
	}
	if d, ok := s.Determined([]float64{2, 1}, nil); !ok || d.Rank != 0 || d.Covariance != nil {
		t.Errorf("of nothing: %+v, %v", d, ok)
	}
	if got := s.Minimize(context.Background(), []float64{1, 1}); got.Reason != OutOfDomain {
		t.Errorf("a search without derivatives: %+v", got)
	}
}

// At the edge of its domain a model is differenced to the inside.
func TestForwardAtTheEdge(t *testing.T) {
	p := Problem{Parameters: 1, Residuals: 1, Evaluate: func(b, r []float64) bool {
		r[0] = b[0] * b[0]
		return b[0] <= 3
	}}
	x, r, d := []float64{3}, []float64{9}, []float64{0}
	if !p.Forward(0, x, r, d) || !(math.Abs(d[0]-6) <= 1e-5) || x[0] != 3 {
		t.Errorf("slope %v at %v, want 6 at 3", d[0], x[0])
	}
}

func TestNoAllocation(t *testing.T) {
	for _, name := range []string{"Hahn1", "MGH17"} {
		c := readCertified(t, name)
		s, b := NewSolver(certifiedProblem(c, nist[name])), make([]float64, len(c.values))
		if n := testing.AllocsPerRun(3, func() { copy(b, c.starts[0]); s.Minimize(context.Background(), b) }); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}

func BenchmarkMinimize(b *testing.B) {
	for _, name := range []string{"Misra1a", "Thurber"} {
		b.Run(name, func(b *testing.B) {
			c := readCertified(b, name)
			s, x := NewSolver(certifiedProblem(c, nist[name])), make([]float64, len(c.values))
			b.ReportAllocs()
			for b.Loop() {
				copy(x, c.starts[1])
				s.Minimize(context.Background(), x)
			}
		})
	}
}
