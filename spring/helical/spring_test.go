package helical_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	mpa = units.Megapascal
	npm = units.NewtonPerMillimeter
)

// fork is a plausible full-size off-road fork spring.
func fork(t testing.TB) helical.Spring {
	t.Helper()
	s, err := helical.New(helical.Spec{
		Wire: 5.1 * mm, OuterDiameter: 43 * mm, ActiveCoils: 25,
		FreeLength: 495 * mm, Material: of("sicrv"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestRateOfLabelAndCountAgree(t *testing.T) {
	s := fork(t)
	for _, spec := range []helical.Spec{
		{Wire: s.Wire(), MeanDiameter: s.MeanDiameter(), TotalCoils: s.TotalCoils(), FreeLength: s.FreeLength(),
			Material: s.Material()},
		{Wire: s.Wire(), MeanDiameter: s.MeanDiameter(), Rate: s.Rate(), FreeLength: s.FreeLength(), Material: s.Material()},
	} {
		o, err := helical.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(float64(o.Rate()/s.Rate())-1) <= 1e-12) || !(math.Abs(o.ActiveCoils()/s.ActiveCoils()-1) <= 1e-12) {
			t.Errorf("rate %v coils %v, want %v and %v", o.Rate(), o.ActiveCoils(), s.Rate(), s.ActiveCoils())
		}
	}
}
