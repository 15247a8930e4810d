package setup_test

import (
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func made(s setup.Spec) error {
	_, err := setup.New(s)
	return err
}

func TestEveryFieldHasLimits(t *testing.T) {
	air := func() setup.Spec { return enduroBike }
	refusal.Fields(t, air, made)
	refusal.Fields(t, func() setup.Spec {
		s := coilFork(170*mm, 36*mm, 10*mm, 1, 1, spring.CoilSpec{Rate: 8.3 * units.NewtonPerMillimeter, Preload: 3 * mm})
		s.Right.Damper = &setup.Damper{Rod: 10 * mm, Volume: 60 * mL, Fill: fill(6)}
		return s
	}, made)
	asked := setup.Question{Load: 600, Exponent: 1.3, There: room}
	refusal.Fields(t, setup.Usual, func(u setup.Tolerance) error {
		_, err := enduroBike.Spread(asked, u)
		return err
	})
	refusal.Fields(t, func() setup.Question { return asked }, func(q setup.Question) error {
		_, err := enduroBike.Spread(q, setup.Usual())
		return err
	})
	f := must(t, enduroBike)
	for _, remaining := range []float64{-1, 0.05, 1.01} {
		if _, err := f.Leaked(remaining); err == nil {
			t.Errorf("%v remain", remaining)
		}
	}
}
