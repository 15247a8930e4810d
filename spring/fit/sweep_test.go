package fit_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

func TestSteady(t *testing.T) {
	r := func(x ...float64) (s []spring.Reading) {
		for _, v := range x {
			s = append(s, read(v, 0))
		}
		return s
	}
	steady, rest := fit.Steady(spring.MeasuredSpec{Loading: r(0, 3, 50, 97, 100), Unloading: r(0, 4, 96, 100)}, 4*mm)
	if len(steady.Loading) != 1 || len(steady.Unloading) != 2 || len(rest.Loading) != 4 || len(rest.Unloading) != 2 {
		t.Errorf("steady %v, rest %v", steady, rest)
	}
	if steady, _ = fit.Steady(spring.MeasuredSpec{Loading: r(0, 50, 100)}, 0); len(steady.Loading) != 3 {
		t.Errorf("one way with nothing left out: %v", steady) // where it ends it does not turn
	}
	if steady, rest = fit.Steady(spring.MeasuredSpec{}, 4*mm); steady.Loading != nil || rest.Loading != nil {
		t.Errorf("of nothing: %v, %v", steady, rest)
	}
}

// What the readings do not determine is held, the last of the list first.
func TestIdentify(t *testing.T) {
	truth := fit.Friction().With(fit.Preload().With(gap, 5*mm), 20)
	oneWay := exact(t, truth, 40)
	oneWay.Unloading = nil
	free := fit.Usual(fit.Friction().With(gap, 20))
	r, held, err := fit.Identify(oneWay, fit.Friction().With(gap, 20), free...)
	if err != nil || len(held) != 1 || held[0].Parameter != "friction" || held[0].Reason == "" {
		t.Fatalf("held %v, %v", held, err)
	}
	if v, _ := fit.Preload().Estimate(r); !(math.Abs(float64(v-5*mm)) <= 1e-8) {
		t.Errorf("preload %v", v)
	}
	if len(free) != 5 || free[3].String() != "friction" || free[4].String() != "exponent" {
		t.Errorf("the caller's list is now %v", free)
	}
	if _, _, err := fit.Identify(spring.MeasuredSpec{}, gap, free...); err == nil {
		t.Error("of no readings")
	}
}

// By hand: + + − + − − − has four runs, n₊ = 3, n₋ = 4, expected 1 + 24/7,
// variance 24·17/(49·6).
func TestRuns(t *testing.T) {
	s := []float64{1, 2, -1, 1, -3, -1, 0}
	r := fit.CountRuns(s)
	if r.Count != 4 || !(math.Abs(r.Expected-31.0/7) <= 1e-12) || !(math.Abs(r.StdDev*r.StdDev-408.0/294) <= 1e-12) {
		t.Errorf("%+v", r)
	}
	two := fit.CountRuns(s, s)
	if two.Count != 8 || two.Expected != 2*r.Expected || !(math.Abs(two.StdDev-math.Sqrt2*r.StdDev) <= 1e-12) {
		t.Errorf("twice: %+v", two)
	}
	for _, none := range []fit.Runs{fit.CountRuns(), fit.CountRuns(nil, []float64{1}), fit.CountRuns([]float64{1, 1, 1})} {
		if z := none.Z(); z != 0 {
			t.Errorf("%+v: z = %v", none, z)
		}
	}
}

// R² by hand: forces 0, 1, 2, 3 N about a fit that is right but for 1 N at the end.
func TestGoodness(t *testing.T) {
	r := &fit.Result{}
	for i := range 4 {
		r.Residuals = append(r.Residuals, fit.Residual{Measured: units.Force(i), Force: units.Force(i / 3)})
	}
	if g := r.Goodness(); !(math.Abs(g.Explained-0.8) <= 1e-12) || g.Farthest != r.Residuals[3] || g.Runs.Count != 2 {
		t.Errorf("%+v", g)
	}
	for i := range r.Residuals {
		r.Residuals[i].Measured = 7
	}
	if g := r.Goodness(); !math.IsNaN(g.Explained) {
		t.Errorf("of a force that does not vary: %+v", g)
	}
}
