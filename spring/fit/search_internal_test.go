package fit

import (
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.org/forkcurve/internal/lsq"
)

// An end elsewhere counts as good where the scatter of one reading can not tell it from the best, and it differs where
// it lies farther off than a hundredth of the bounds and three standard errors together.
func TestAsGood(t *testing.T) {
	const sigma, sd, low, high = 4.0, 0.02, 3.0, 5.0
	p := &problem{free: []Free{{name: "rate", low: low, high: high}}, samples: []sample{{f: 1e5}, {f: -2e5}}}
	c := covariance{names: []string{"rate"}, units: []float64{1}, matrix: mat.NewSymDense(1, []float64{sd * sd})}
	at := func(z, squares float64, why lsq.Reason) end {
		return end{[]float64{z}, lsq.Result{Squares: squares, Reason: why}}
	}
	const best = 100.0
	const slack = sigma*sigma + 1e-18*(1e10+4e10) // by a scatter, and by the rounding of exact readings
	const apart = 0.01 + 3*sd/(high-low)          // of the box
	for name, c2 := range map[string]struct {
		other end
		want  bool
	}{
		"elsewhere, as good":           {at(0.5+1.01*apart, best, lsq.Stationary), true},
		"below, as good":               {at(0.5-1.01*apart, best, lsq.Stationary), true},
		"just about there":             {at(0.5+0.99*apart, best, lsq.Stationary), false},
		"as good within the scatter":   {at(0.9, best+0.999*slack, lsq.Stationary), true},
		"not within it":                {at(0.9, best+1.001*slack, lsq.Stationary), false},
		"as good, but without an end":  {at(0.9, best, lsq.Stopped), false},
		"of no scatter, by rounding":   {at(0.9, best+0.9*slack, lsq.Stationary), true},
		"at the other end of the box":  {at(0, best, lsq.Stationary), true},
		"where the best is, no better": {at(0.5, best, lsq.Stationary), false},
	} {
		got := p.asGood([]end{at(0.5, best, lsq.Stationary), c2.other}, c, sigma)
		if (got != nil) != c2.want || got != nil && !slices.Equal(got, []string{"rate"}) {
			t.Errorf("%s: %v, want %v", name, got, c2.want)
		}
	}
	// Exact readings leave nothing but what rounding makes of them.
	exact := p.asGood([]end{at(0.5, 0, lsq.Stationary), at(0.9, 4.9e-8, lsq.Stationary)}, c, 0)
	off := p.asGood([]end{at(0.5, 0, lsq.Stationary), at(0.9, 5.1e-8, lsq.Stationary)}, c, 0)
	if exact == nil || off != nil {
		t.Errorf("within the rounding %v, beyond it %v", exact, off)
	}
}
