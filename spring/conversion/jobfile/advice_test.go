package jobfile_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/units"
)

// What the plan says of fill and rebound for six typical forks. A coil fork that gets
// its own kind of coil keeps its fill, the middle of the range of its record, give or take
// what the coil designed for it displaces less than its own, and its rebound. An air fork that gets a coil needs about
// as much rebound or a few clicks
// more, since its ridden rate about the sag grows (√ of the ratio) and its force at
// three quarters of travel hardly changes: computed beforehand by hand from the curves
// of M07 beside M06 and of B04 beside B06 (force ratio 1.07 at half, 0.95 at nine
// tenths of travel for the bicycle).
func TestFillAndReboundAdvice(t *testing.T) {
	for _, c := range []struct {
		id             string
		fill, off      units.Volume // expected, and by how much it may be off
		few, most      float64      // clicks between which the advice lies
		level, levelBy units.Length // where a level is read
	}{
		{"M06", 335 * units.Milliliter, 35 * units.Milliliter, -1, 1, 0, 0},
		{"M11", 600 * units.Milliliter, 15 * units.Milliliter, -1, 1, 115 * units.Millimeter, 10 * units.Millimeter},
		{"M21", 505 * units.Milliliter, 20 * units.Milliliter, -1, 1, 120 * units.Millimeter, 20 * units.Millimeter},
		{"B06", 15 * units.Milliliter, 5 * units.Milliliter, -1, 2, 0, 0},
		{"M07", 540 * units.Milliliter, 40 * units.Milliliter, -1, 5, 0, 0},
		{"B04", 15 * units.Milliliter, 5 * units.Milliliter, -2, 5, 0, 0},
	} {
		t.Run(c.id, func(t *testing.T) {
			f, err := jobfile.Typical(c.id, data.Reference())
			if err != nil {
				t.Fatal(err)
			}
			r, err := conversion.Plan(f.Job)
			if err != nil {
				t.Fatal(err)
			}
			best, ok := r.Chosen()
			if !ok {
				t.Fatal("no safe plan")
			}
			if !(math.Abs(float64(best.OilVolume-c.fill)) <= float64(c.off)*1.001) {
				t.Errorf("oil %.0f, want %.0f within %.0f", best.OilVolume, c.fill, c.off)
			}
			if c.level != 0 && (best.OilLevel == nil ||
				math.Abs(float64(*best.OilLevel-c.level)) > float64(c.levelBy)) {
				t.Errorf("level %v, want %.0f within %.0f", best.OilLevel, c.level, c.levelBy)
			}
			b := best.Rebound
			if b.FewClicks < c.few || b.MostClicks > c.most || !strings.Contains(b.Advice, "rebound") {
				t.Errorf("rebound %+.1f to %+.1f clicks, %q; want within %+v to %+v", b.FewClicks, b.MostClicks,
					b.Advice, c.few, c.most)
			}
			for _, f := range best.Findings {
				if f.Code == conversion.DamperRange {
					t.Errorf("the damper of its own kind of fork is flagged: %+v", f)
				}
			}
		})
	}
}

// Weights that a job leaves out are as usual; such as weigh nothing are refused.
func TestWeightsTable(t *testing.T) {
	f, err := decode(good + "[weights]\ncomfort = 0.5\ncautions = 2\n")
	if want := (conversion.Weights{Support: 1, Comfort: 0.5, Cautions: 2}); err != nil || f.Job.Weights != want {
		t.Errorf("%+v, %v; want %+v", f.Job.Weights, err, want)
	}
	for text, want := range map[string]string{
		"support = 0\ncautions = 0": "weights: all 0", "comfort = -1": "weights.comfort = -1", "speed = 2": "weights.speed",
	} {
		if _, err := decode(good + "[weights]\n" + text + "\n"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

// A fill in the wrong unit, or none, is asked about, whether the fork still carries the rider or not.
func TestImplausibleFills(t *testing.T) {
	for _, fill := range []string{"0 bar", "9 psi", "0.1 bar"} {
		f, err := decode(strings.Replace(good, `"9.0 bar"`, `"`+fill+`"`, 1))
		if err != nil {
			t.Fatal(err)
		}
		r, err := conversion.Plan(f.Job)
		asked := err != nil && strings.Contains(err.Error(), "right? Usual is 7 bar and more")
		if err == nil {
			for _, found := range r.Findings {
				asked = asked || found.Code == conversion.FillImplausible &&
					found.Value == conversion.Amount(f.Job.Present.Left.Air.Fill.Gauge)
			}
		}
		if !asked {
			t.Errorf("%s: %v", fill, err)
		}
	}
}

// Oil of 0 mL in a leg that runs in oil and a spring that would ask for a spacer below nothing are refused.
func TestRefusedThroughFiles(t *testing.T) {
	for change, code := range map[[2]string]conversion.Code{
		{`criterion = "energy"`, "oil = [\"0 mL\", \"0 mL\"]\ncriterion = \"energy\""}: conversion.NoOil,
		{`"616 mm"`, `"640 mm"`}: conversion.TooLong,
	} {
		f, err := decode(strings.Replace(good, change[0], change[1], 1))
		if err != nil {
			t.Fatal(err)
		}
		r, err := conversion.Plan(f.Job)
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := r.Chosen(); ok || !slices.ContainsFunc(r.Candidates[0].Findings, func(f conversion.Finding) bool {
			return f.Code == code && f.Severity == conversion.Stop
		}) {
			t.Errorf("%s: chosen %v, %+v", code, c.Coil, r.Candidates[0].Findings)
		}
	}
}
