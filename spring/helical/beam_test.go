package helical_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// The rate against a finite-element model of the wire as a space curve, recorded
// in testdata/beam.csv, which says how it was made.
//
// Rate sees torsion of a flat coil. A beam wound at the angle α under an axial
// load F at the axis yields, by Castigliano, per unit of F·R²·(2·π·R·n)/(G·J),
//
//	ρ = cos α + (sin²α/cos α)·G·J/(E·I) + (cos²α/κ + sin²α·G/E)/(2·C²·cos α)
//
// (torsion, bending, shear and compression of the wire; J/(A·R²) = 1/(2·C²)), so
// the model with a free head must give Rate/ρ. Straight chords instead of arcs,
// N to a coil, change that by a share of h², h = π/N: the wire is shorter by
// h²/6, the chord's distance from the axis, which is the arm of the torsion, by
// h²/2, and the ends of the chord take a bending of F·R·x with a mean square of
// h²/3. Torsion thus falls by (7/6 − G·J/(3·E·I))·h². The other terms, 1 − cos α/ρ
// of the whole, change by no larger share of h² and are left alone.
// Holding the head against turning, tilting and wandering can only stiffen it further.
func TestRateAgainstBeamModel(t *testing.T) {
	register.Cite(t, "S-56")
	const header = "wire_mm,mean_mm,coils,pitch_mm,shear_MPa,elastic_MPa,per_coil,free_N_per_mm,guided_N_per_mm"
	for _, row := range record.Rows(t, "beam.csv", header, 2) {
		x := record.Numbers(t, row)
		d, mean, coils, pitch, shear, elastic, perCoil, free, guided := x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8]
		m, err := helical.NewMaterial(helical.MaterialSpec{
			ID: "beam", ShearModulus: units.Stress(shear) * mpa, ElasticModulus: units.Stress(elastic) * mpa,
			Density: 7850, YieldRatio: 0.5, Strength: power(1800*mpa, 0, 1*mm, 10*mm),
		})
		if err != nil {
			t.Fatal(err)
		}
		s := build(t, helical.Spec{
			Wire: units.Length(d) * mm, MeanDiameter: units.Length(mean) * mm, ActiveCoils: coils,
			FreeLength: units.Length(pitch*coils+2*d) * mm, Material: m,
		})
		near(t, "pitch, mm", s.Pitch().In(mm), pitch, 1e-12)

		sin, cos := math.Sincos(float64(s.PitchAngle()))
		poisson := elastic/(2*shear) - 1
		kappa := 6 * (1 + poisson) / (7 + 6*poisson) // Cowper, round section
		c := s.Index()
		rho := cos + sin*sin/cos*2*shear/elastic + (cos*cos/kappa+sin*sin*shear/elastic)/(2*c*c*cos)
		h := math.Pi / perCoil
		chords := (7./6 - 2*shear/elastic/3) * h * h
		near(t, "rate of the free beam, N/mm", free, s.Rate().In(npm)/rho/(1-chords), 7./6*h*h*(1-cos/rho)+math.Pow(h, 4))
		if !(guided > free && guided < s.Rate().In(npm)) {
			t.Errorf("guided %g N/mm is not between free %g and the flat coil's %g", guided, free, s.Rate().In(npm))
		}
		// What the documentation of Rate promises.
		if off := s.Rate().In(npm)/guided - 1; !(off > 0 && off < 0.02) {
			t.Errorf("Rate is %.2f %% over the guided beam", 100*off)
		}
	}
}
