package oil_test

import (
	"math"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// The effect of the oil level in a full-size inverted enduro fork and in a standard upright road fork with a coil
// in each leg: the whole fork, n = 1.3, as .ci/vectors/fork.py computes it by formulas of its own for generic forks of
// this kind: no outside evidence.
func TestLevelRecord(t *testing.T) {
	forks := map[string]struct {
		fork  geometry.Fork
		coils spring.CoilSpec
	}{
		"inverted": {enduro, spring.CoilSpec{Rate: 2 * 4400, Preload: 8 * mm, Travel: 400 * mm}},
		"upright":  {road, spring.CoilSpec{Rate: 2 * 8500, Preload: 18 * mm, Travel: 400 * mm}},
	}
	for _, row := range record.Rows(t, "level.csv", "fork,level_mm,ratio,force66_N,force_N,gap_bar", 18) {
		x, f := record.Numbers(t, row[1:]), forks[row[0]]
		coils, err := spring.NewCoil(f.coils)
		if err != nil {
			t.Fatal(err)
		}
		leg := newLeg(t, oil.InteriorSpec{Fork: f.fork, Depth: 500 * mm})
		spec := leg.FillSpec()
		spec.Metal, spec.Level = 75*mL, units.Length(x[0])*mm
		fill, err := oil.NewFill(spec)
		if err != nil {
			t.Fatal(err)
		}
		g := newGap(t, oil.AirGapSpec{Area: leg.Area(), Residual: fill.Residual(), Travel: f.fork.Travel,
			Pressure: sea, Ambient: sea, Exponent: 1.3})
		force := func(x units.Length) float64 { return float64(2*g.Force(x) + coils.Force(x)) }
		end := f.fork.Travel
		for i, got := range []float64{g.CompressionRatio(), force(0.66 * end), force(end),
			g.Pressure(end).Gauge(sea).In(units.Bar)} {
			if want := x[1+i]; !(math.Abs(got/want-1) <= 1e-9) {
				t.Errorf("%q: value %d is %.12g", row, i, got)
			}
		}
	}
}

// A motocross fork with a closed cartridge: what 10 mL more oil in each leg do at 66 % of the travel and at its end, by
// p·Vⁿ with the area that the leg seals. They are some 0.7 % and 3.2 %.
func TestClosedCartridgeStep(t *testing.T) {
	fork := enduro
	fork.Travel = 305 * mm
	leg := newLeg(t, oil.InteriorSpec{Fork: fork, Depth: 500 * mm, Rod: 12.5 * mm, Cartridge: open, Closed: true})
	coils, err := spring.NewCoil(spring.CoilSpec{Rate: 2 * 4900, Preload: 6 * mm, Travel: 400 * mm})
	if err != nil {
		t.Fatal(err)
	}
	s := oil.AirGapSpec{Area: leg.Area(), Residual: 154 * mL, Travel: fork.Travel, Pressure: sea, Ambient: sea,
		Exponent: 1.3}
	before := newGap(t, s)
	s.Residual -= 10 * mL
	after := newGap(t, s)
	area, travel := math.Pi/4*(0.048*0.048-0.0125*0.0125), 0.305
	by := func(residual, x float64) float64 {
		v := residual + area*travel
		return 2*area*101325*(math.Pow(v/(v-area*x), 1.3)-1) + 9800*(x+0.006)
	}
	for _, c := range []struct{ share, about float64 }{{0.66, 0.7}, {1, 3.2}} {
		x := c.share * travel
		force := func(g oil.AirGap) float64 { return float64(2*g.Force(units.Length(x)) + coils.Force(units.Length(x))) }
		got, want := 100*(force(after)/force(before)-1), 100*(by(144e-6, x)/by(154e-6, x)-1)
		if !(math.Abs(got-want) <= 1e-9) || !(math.Abs(got-c.about) <= 0.05) {
			t.Errorf("at %.0f %% of travel %.3f %%, want %.3f %%", 100*c.share, got, want)
		}
	}
	if got := before.Volume(0).In(mL); !(math.Abs(got-1e6*(154e-6+area*travel)) <= 1e-9) ||
		!(math.Abs(before.CompressionRatio()-got/154) <= 1e-12) {
		t.Errorf("%.1f mL at extension, ratio %.2f", got, before.CompressionRatio())
	}
}
