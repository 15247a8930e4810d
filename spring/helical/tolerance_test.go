package helical_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// DIN 2095, permitted deviations ± of the coil diameter in mm, as two spring
// makers reprint them.
func TestDiameterTolerance(t *testing.T) {
	register.Cite(t, "S-51")
	for _, row := range []struct {
		mean, index float64
		grades      [3]float64
	}{
		{16, 8, [3]float64{0.15, 0.30, 0.60}}, // ends of bands, which they take in
		{16, 13.9, [3]float64{0.20, 0.35, 0.70}},
		{16, 20, [3]float64{0.25, 0.40, 0.80}},
		{25, 8, [3]float64{0.20, 0.35, 0.70}},
		{31.5, 13.9, [3]float64{0.30, 0.50, 1.00}},
		{40, 20, [3]float64{0.35, 0.70, 1.50}},
		{50, 13.9, [3]float64{0.40, 0.80, 1.50}},
		{63, 8, [3]float64{0.40, 0.80, 1.50}},
		{63, 20, [3]float64{0.60, 1.10, 2.30}},
		{20, 5, [3]float64{0.20, 0.35, 0.70}},
		{20, 10, [3]float64{0.25, 0.45, 0.90}},
		{25, 15, [3]float64{0.30, 0.50, 1.00}},
		{28, 6, [3]float64{0.25, 0.40, 0.80}},
		{31.5, 8, [3]float64{0.25, 0.40, 0.80}},
		{38, 7.5, [3]float64{0.25, 0.50, 1.00}},
		{38, 9, [3]float64{0.30, 0.60, 1.20}},
		{45, 7, [3]float64{0.30, 0.60, 1.20}},
		{60, 10, [3]float64{0.50, 1.00, 2.00}},
	} {
		s := build(t, helical.Spec{
			Wire: units.Length(row.mean/row.index) * mm, MeanDiameter: units.Length(row.mean) * mm,
			ActiveCoils: 12, FreeLength: 30 * units.Length(row.mean/row.index) * mm, Material: of("sm"),
		})
		for i, want := range row.grades {
			if got := s.DiameterTolerance(helical.Grade(i + 1)).In(mm); !(math.Abs(got-want) <= 1e-12) {
				t.Errorf("D %g, index %g, grade %d: ±%g mm, printed %g", row.mean, row.index, i+1, got, want)
			}
		}
	}
}

// A handbook's accuracy classes of load and rate, from an excerpt.
func TestRateTolerance(t *testing.T) {
	register.Cite(t, "S-52")
	of := func(coils float64) helical.Spring {
		return build(t, helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: coils,
			FreeLength: 10 * units.Length(coils+4) * mm, Material: of("sicr")})
	}
	for _, row := range []struct {
		coils  float64
		grades [3]float64
	}{
		{3, [3]float64{5, 10, 15}}, {10, [3]float64{5, 10, 15}}, {10.5, [3]float64{4, 8, 12}}, {25, [3]float64{4, 8, 12}},
	} {
		for i, want := range row.grades {
			if got := of(row.coils).RateTolerance(helical.Grade(i + 1)).In(units.Percent); !(math.Abs(got-want) <= 1e-12) {
				t.Errorf("%g coils, grade %d: %g %%, want %g", row.coils, i+1, got, want)
			}
		}
	}
	if got := of(2.9).RateTolerance(helical.Grade2); !math.IsNaN(float64(got)) {
		t.Errorf("below three coils %g", got)
	}
}

func TestNoToleranceOutsideTheStandard(t *testing.T) {
	make := func(change func(*helical.Spec)) helical.Spring {
		spec := helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 25, FreeLength: 490 * mm, Material: of("sm")}
		change(&spec)
		return build(t, spec)
	}
	for _, row := range []struct {
		why    string
		change func(*helical.Spec)
		grade  helical.Grade
	}{
		{"no grade", func(*helical.Spec) {}, 0},
		{"grade 4", func(*helical.Spec) {}, 4},
		{"free length over 630 mm", func(s *helical.Spec) { s.FreeLength = 631 * mm }, helical.Grade2},
		{"index below 4", func(s *helical.Spec) { s.MeanDiameter, s.FreeLength = 19*mm, 200*mm }, helical.Grade2},
		{"under two coils", func(s *helical.Spec) { s.ActiveCoils, s.FreeLength = 1.9, 60*mm }, helical.Grade2},
		{"wire over 16 mm", func(s *helical.Spec) { s.Wire, s.MeanDiameter, s.ActiveCoils = 17*mm, 150*mm, 10 },
			helical.Grade2},
	} {
		s := make(row.change)
		if play := s.DiameterTolerance(row.grade); play == play {
			t.Errorf("%s: ±%v, want NaN", row.why, play)
		}
	}
}
