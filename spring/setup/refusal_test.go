package setup_test

import (
	"strings"
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
	all := func() setup.Tolerance {
		u := setup.Usual()
		u.Rider, u.Stance, u.Chambers, u.FreeLength, u.Friction = 4, 31, 0.06, 3*mm, 19
		u.Filled = [2]units.Volume{3 * mL, 4 * mL}
		return u
	}
	refusal.Fields(t, all, func(u setup.Tolerance) error {
		_, err := enduroBike.Uncertainty(asked, u)
		return err
	})
	refusal.Fields(t, func() setup.Question { return asked }, func(q setup.Question) error {
		_, err := enduroBike.Uncertainty(q, setup.Usual())
		return err
	})
	nested := func(change func(*setup.Air)) error {
		s, a := motocrossAir, *motocrossAir.Left.Air
		change(&a)
		s.Left.Air = &a
		return made(s)
	}
	for want, err := range map[string]error{
		"Air.Volume":         nested(func(a *setup.Air) { a.Reducers = a.Volume - 20*mL }), // less than is swept
		"Air.NegativeVolume": nested(func(a *setup.Air) { a.NegativeVolume, a.Port = 1*mL, 20*mm }),
		"": nested(func(a *setup.Air) {
			a.NegativeVolume, a.Port, a.NegativeGauge = 1*mL, 20*mm, units.Gauge(9*units.Bar)
		}),
	} {
		if (err == nil) != (want == "") || len(units.Faults(err)) > 1 || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want a fault of %q alone", err, want)
		}
	}
	for want, gauge := range map[string]units.Pressure{"Left.Gap.Gauge": -2 * units.Bar, "": 1 * units.Bar} {
		s, g := enduroBike, *enduroBike.Left.Gap
		g.Gauge, s.Left.Gap = units.Gauge(gauge), &g
		err := made(s)
		if (err == nil) != (want == "") || len(units.Faults(err)) > 1 || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("closed at %v: %v, want a fault of %q alone", gauge, err, want)
		}
	}
	f := must(t, enduroBike)
	for _, remaining := range []float64{-1, 0.05, 1.01} {
		if _, err := f.Leaked(remaining); err == nil {
			t.Errorf("%v remain", remaining)
		}
	}
}
