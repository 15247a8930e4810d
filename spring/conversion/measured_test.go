package conversion_test

import (
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %v, rebuilt %v", what, got, want)
	}
}

// What a candidate says of spring and steering is built anew from the statics of a
// machine that turns about its rear axle, and of a round-wire spring (EN 13906-1: shear
// stress 8·F·D/(π·d³)).
func TestMeasuredAnew(t *testing.T) {
	j := motocross(t)
	r := plan(t, j)
	for _, c := range r.Candidates {
		s := j.Shelf[slices.IndexFunc(j.Shelf, func(s conversion.ShelfCoil) bool { return s.Name == c.Coil })]
		down := float64(c.Behavior.Sag.Middle - r.Present.Sag.Middle)
		near(t, "sag change", float64(c.SagChange), down, 1e-9)
		// The steering head turns with the frame: as far as the axle path over the wheelbase.
		rake := float64(j.Chassis.Rake)
		turn := -down * math.Cos(rake) / float64(j.Chassis.Wheelbase)
		near(t, "rake change", float64(c.RakeChange), turn, 0.03*math.Abs(turn)+1e-7)
		trail := func(rake float64) float64 {
			return (float64(j.Chassis.WheelRadius)*math.Sin(rake) - float64(j.Chassis.Offset)) / math.Cos(rake)
		}
		change := trail(rake+turn) - trail(rake)
		near(t, "trail change", float64(c.TrailChange), change, 0.03*math.Abs(change)+1e-6)

		travel, preload := float64(j.Fork.Travel), float64(c.Preload)
		wire, mean := float64(s.Wire.Wire), float64(s.Wire.OuterDiameter-s.Wire.Wire)
		force := float64(c.Each) * (travel + preload)
		stress := 8 * force * mean / (math.Pi * wire * wire * wire)
		near(t, "stress", float64(c.Stress), stress, 1e-9*stress)
		part, err := helical.New(s.Wire)
		if err != nil {
			t.Fatal(err)
		}
		margin := float64(s.Wire.FreeLength-part.SolidLength()) - preload - travel
		near(t, "bind margin", float64(c.BindMargin), margin, 1e-9)
		near(t, "spacer", float64(c.Spacer), float64(j.Legs[0].Room.Length-s.Wire.FreeLength)+preload, 1e-9)
		if c.OilVolume < j.OilVolume.Min || c.OilVolume > j.OilVolume.Max {
			t.Errorf("%s: %v of oil", c.Coil, c.OilVolume)
		}
		// Over the oil: the tube less its metal, the spring in it and the oil. The metal
		// is what is in the oil with the fork together.
		room := float64(j.Legs[0].Bath.Interior - j.Legs[0].Bath.Metal - part.Volume() - c.OilVolume)
		near(t, "gap ratio", c.GapRatio, 1+float64(j.Legs[0].Bath.Area)*travel/room, 0.02*c.GapRatio)
	}
	moves := func(c conversion.Candidate) bool { return math.Abs(float64(c.SagChange)) > 1e-3 }
	if !slices.ContainsFunc(r.Candidates, moves) {
		t.Error("no candidate changes the sag: nothing was tested")
	}
}

// A softer coil lets the front sit lower, with less rake and less trail.
func TestSofterSitsLower(t *testing.T) {
	r := plan(t, motocross(t))
	sorted := slices.SortedFunc(slices.Values(r.Candidates), func(a, b conversion.Candidate) int {
		return int(math.Copysign(1, float64(a.Rate-b.Rate)))
	})
	for i, c := range sorted[1:] {
		before := sorted[i]
		if !(c.SagChange < before.SagChange && c.RakeChange > before.RakeChange && c.TrailChange > before.TrailChange) {
			t.Errorf("%s over %s: sag %v, rake %v, trail %v", c.Coil, before.Coil, c.SagChange-before.SagChange,
				c.RakeChange-before.RakeChange, c.TrailChange-before.TrailChange)
		}
	}
}

// A label is as wrong above the wire's rate as below it, and right between.
func TestLabelBothWays(t *testing.T) {
	for _, c := range []struct {
		factor float64
		wrong  bool
	}{
		{1 + 0.9*float64(conversion.LabelTolerance), false}, {1 - 0.9*float64(conversion.LabelTolerance), false},
		{1 + 1.2*float64(conversion.LabelTolerance), true}, {1 - 1.2*float64(conversion.LabelTolerance), true},
	} {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		part, err := helical.New(j.Shelf[0].Wire)
		if err != nil {
			t.Fatal(err)
		}
		j.Shelf[0].Rate = part.Rate() * units.Stiffness(c.factor)
		got := slices.ContainsFunc(plan(t, j).Candidates[0].Findings, func(f conversion.Finding) bool {
			return f.Code == conversion.Mislabeled
		})
		if got != c.wrong {
			t.Errorf("a label of %.3f times the rate of the wire: found %v", c.factor, got)
		}
	}
}

// The left leg and the right one are the same fork.
func TestSidesAreAlike(t *testing.T) {
	j := motocross(t)
	want := plan(t, j)
	j.Present.Left, j.Present.Right = j.Present.Right, j.Present.Left
	j.Legs[0].Side = 1 - j.Legs[0].Side
	got := plan(t, j)
	for i, c := range got.Candidates {
		w := want.Candidates[i]
		if c.Coil != w.Coil || c.Verdict != w.Verdict || len(c.Findings) != len(w.Findings) ||
			math.Abs(float64(c.Preload-w.Preload)) > 1e-9 || math.Abs(float64(c.OilVolume-w.OilVolume)) > 1e-9 ||
			math.Abs(float64(c.Behavior.EnergyFull-w.Behavior.EnergyFull)) > 1e-6 {
			t.Errorf("%s: %+v, the other way round %s: %+v", w.Coil, w.Verdict, c.Coil, c.Verdict)
		}
	}
}
