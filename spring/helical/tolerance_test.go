package helical_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// DIN 2095, permitted deviations ± of the coil diameter in mm, as two spring
// makers reprint them.
func TestDiameterTolerance(t *testing.T) {
	for _, row := range []struct {
		mean, index float64
		grades      [3]float64
	}{
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
			if got := s.DiameterTolerance(helical.Grade(i + 1)).In(mm); math.Abs(got-want) > 1e-12 {
				t.Errorf("D %g, index %g, grade %d: ±%g mm, printed %g", row.mean, row.index, i+1, got, want)
			}
		}
	}
}

// Three fork springs worked apart from this package with the same closed forms
// (EN 15800, from memory; derived, no outside evidence): percent of the load and
// mm of the free length by grade.
func TestLoadAndLengthTolerance(t *testing.T) {
	for _, row := range []struct {
		name           string
		wire, outer, k float64
		free, load     float64
		loads, lengths [3]float64
	}{
		{"off-road 4.9 N/mm", 5.1, 43, 4.9, 495, 1000, [3]float64{2.946, 4.676, 7.482}, [3]float64{4.084, 6.482, 10.372}},
		{"road 9.5 N/mm", 4.8, 37.5, 9.5, 300, 700, [3]float64{4.064, 6.450, 10.321}, [3]float64{2.298, 3.648, 5.836}},
		{"bicycle 8.3 N/mm", 4.5, 31.5, 8.3, 322, 800, [3]float64{3.939, 6.253, 10.004}, [3]float64{2.886, 4.581, 7.329}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := build(t, helical.Spec{
				Wire: units.Length(row.wire) * mm, OuterDiameter: units.Length(row.outer) * mm,
				Rate: units.Stiffness(row.k) * npm, FreeLength: units.Length(row.free) * mm, Material: of("sicr"),
			})
			for i := range 3 {
				g := helical.Grade(i + 1)
				compare(t, []number{
					{"load, %", 100 * float64(s.LoadTolerance(g, units.Force(row.load))) / row.load, row.loads[i], 0.0006, ""},
					{"length, mm", s.FreeLengthTolerance(g).In(mm), row.lengths[i], 0.0006, ""},
				})
			}
		})
	}
}

// A handbook's accuracy classes of load and rate, from an excerpt.
func TestRateTolerance(t *testing.T) {
	of := func(coils float64) helical.Spring {
		return build(t, helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: coils, FreeLength: 10 * units.Length(coils+4) * mm, Material: of("sicr")})
	}
	for _, row := range []struct {
		coils  float64
		grades [3]float64
	}{
		{3, [3]float64{5, 10, 15}}, {10, [3]float64{5, 10, 15}}, {10.5, [3]float64{4, 8, 12}}, {25, [3]float64{4, 8, 12}},
	} {
		for i, want := range row.grades {
			if got := of(row.coils).RateTolerance(helical.Grade(i + 1)).In(units.Percent); math.Abs(got-want) > 1e-12 {
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
		{"wire over 16 mm", func(s *helical.Spec) { s.Wire, s.MeanDiameter, s.ActiveCoils = 17*mm, 150*mm, 10 }, helical.Grade2},
	} {
		s := make(row.change)
		if a, b, c := s.DiameterTolerance(row.grade), s.LoadTolerance(row.grade, 100), s.FreeLengthTolerance(row.grade); a == a || b == b || c == c {
			t.Errorf("%s: ±%v, ±%v, ±%v, want NaN", row.why, a, b, c)
		}
	}
	if f := fork(t).LoadTolerance(helical.Grade2, -1); f == f {
		t.Errorf("of a negative force ±%v", f)
	}
}
