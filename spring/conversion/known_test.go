package conversion_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// The band holds the targets of all criteria, the faster stroke asks for the stiffer coil, and
// the coils said to lie inside do.
func TestBand(t *testing.T) {
	j := motocross(t)
	r := plan(t, j)
	b := r.Band
	for _, target := range r.Targets {
		if target.Rate < b.Least || target.Rate > b.Most {
			t.Errorf("%v, %v, outside %v to %v", target.Criterion, target.Rate, b.Least, b.Most)
		}
		if !slices.ContainsFunc(b.Rows, func(row conversion.BandRow) bool {
			return row.Criterion == target.Criterion && math.Abs(float64(row.Rate/target.Rate)-1) < 1e-9
		}) {
			t.Errorf("no row is the target by %v", target.Criterion)
		}
	}
	if float64(b.Most/b.Least) < 1.05 || float64(b.Most/b.Least) > 2 {
		t.Errorf("%v to %v", b.Least, b.Most)
	}
	for i, row := range b.Rows[1:] {
		before := b.Rows[i]
		if row.Criterion == conversion.Energy && before.Criterion == conversion.Energy && row.Start == before.Start &&
			row.Exponent > before.Exponent && row.Rate <= before.Rate {
			t.Errorf("exponent %v asks for %v, %v for %v", before.Exponent, before.Rate, row.Exponent, row.Rate)
		}
	}
	for _, c := range r.Candidates {
		inside := c.Rate >= b.Least && c.Rate <= b.Most
		if inside != slices.Contains(b.Inside, c.Coil) {
			t.Errorf("%s, %v: inside %v", c.Coil, c.Rate, inside)
		}
	}
	// A row from the sag, by forks built without the planner.
	now, rest := setupOf(t, j.Present), j.Present
	rest.Left.Air, rest.Friction = nil, j.ConvertedFriction
	rest.Left.Gap = &setup.Gap{Area: j.Legs[0].Bath.Area,
		Residual: j.Legs[0].Bath.Interior - j.OilVolume.Aim - j.Legs[0].Bath.Metal - helicalVolume(t, j)}
	bare := setupOf(t, rest)
	for _, row := range b.Rows {
		if row.Criterion != conversion.Energy || row.Start == 0 || row.Temperature != j.Workshop.Temperature {
			continue
		}
		x, p := j.Fork.Travel*9/10, j.Preload.Aim
		coil := 0.5 * float64(row.Rate) * (math.Pow(float64(x+p), 2) - math.Pow(float64(row.Start+p), 2))
		over := func(s *setup.Setup) float64 {
			c := s.CurveAbout(row.Start, row.Exponent)
			return float64(c.Energy(x) - c.Energy(row.Start))
		}
		if got, want := coil+over(bare), over(now); !(math.Abs(got-want) <= 1e-9*want) {
			t.Errorf("from %v at %v: %v J, the present fork %v J", row.Start, row.Exponent, got, want)
		}
	}
}

func setupOf(t testing.TB, s setup.Spec) *setup.Setup {
	t.Helper()
	set, err := setup.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// The chance that the sag lies in its window is the share of random forks with the same
// tolerances of which it does.
func TestChances(t *testing.T) {
	f, err := jobfile.Typical("M07", data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	j := f.Job
	j.SagWindow = [2]units.Share{0.19, 0.22} // narrow, so that the chance tells something
	c, ok := plan(t, j).Chosen()
	if !ok {
		t.Fatal("no plan")
	}
	known := *j.Known
	known.Filled[0] = units.Volume(float64(conversion.LevelSpread) * float64(j.Legs[0].Bath.Column))
	known.Friction *= j.ConvertedFriction / j.Present.Friction
	known.FreeLength = units.Length(conversion.LengthSpread) * j.Shelf[0].Wire.FreeLength
	spec, load := c.Behavior.Setup.Spec(), float64(c.Behavior.Sag.Load)
	r := rand.New(rand.NewPCG(7, 7))
	in, n := 0, 4000
	for range n {
		fork, err := setup.New(spec.Draw(known, r))
		if err != nil {
			t.Fatal(err)
		}
		asked := math.Hypot(math.Hypot(float64(known.Rider), float64(known.Stance)),
			math.Hypot(float64(known.Load), float64(known.Friction)/math.Sqrt2))
		drawn := load + asked*r.NormFloat64()
		sag, err := fork.Sag(units.Force(drawn))
		if err != nil {
			t.Fatal(err)
		}
		if share := units.Share(sag.Middle / j.Fork.Travel); share >= j.SagWindow[0] && share <= j.SagWindow[1] {
			in++
		}
	}
	got, want := float64(c.Chances.SagInWindow), float64(in)/float64(n)
	if !(math.Abs(got-want) <= 0.03) || want < 0.05 || want > 0.95 {
		t.Errorf("chance %.3f, of the random forks %.3f", got, want)
	}
	if c.Chances.Bind > 0.001 || c.Chances.Lock > 0.025 || c.Chances.OverPressure > 0.025 {
		t.Errorf("%+v", c.Chances)
	}
	// The chances of what must not be grow as it comes near.
	tight := motocross(t)
	tight.Legs[0].Bath.Interior, tight.OilVolume.Min = 730*mL, 575*mL
	tight.OilVolume.Aim = 575 * mL
	for _, c := range plan(t, tight).Candidates {
		if c.Chances.Lock < 0.1 || c.Chances.OverPressure < c.Chances.Lock {
			t.Errorf("nearly full: %+v", c.Chances)
		}
	}
}

// Preload stays at its aim for less sag than is known, and moves for a sag that the job names.
func TestPreloadStaysAtItsAim(t *testing.T) {
	j := motocross(t)
	known := setup.Usual()
	known.Stance = 30
	j.Known = &known
	for _, c := range plan(t, j).Candidates {
		if c.Preload != j.Preload.Aim {
			t.Errorf("%s: %v for a sag within %v", c.Coil, c.Preload, c.Behavior.Uncertainty.Sag)
		}
	}
	j.TargetSag = 60 * mm
	if c := plan(t, j).Candidates[0]; c.Preload == j.Preload.Aim {
		t.Errorf("%v for a sag of %v", c.Preload, j.TargetSag)
	}
	j.TargetSag, j.Known = 0, &setup.Tolerance{}
	if c := plan(t, j).Candidates[0]; c.Preload == j.Preload.Aim {
		t.Errorf("%v where all is known", c.Preload)
	}
}

// A spring to look for goes where those of the shelf do not.
func TestWouldFit(t *testing.T) {
	j := motocross(t)
	for i := range j.Shelf {
		j.Shelf[i].Wire.FreeLength = 640 * mm
	}
	r := plan(t, j)
	w := r.WouldFit
	if _, ok := r.Chosen(); ok || w == nil || !w.Designed {
		t.Fatalf("%+v", r.Candidates)
	}
	if w.Rate < w.RateLeast || w.Rate > w.RateMost || w.OuterDiameter > w.OuterMost || w.FreeLength > w.LengthMost {
		t.Errorf("designed outside what fits: %+v", w)
	}
	j.Shelf = []conversion.ShelfCoil{{Name: "made", Wire: j.Shelf[0].Wire}}
	j.Shelf[0].Wire.Wire, j.Shelf[0].Wire.OuterDiameter, j.Shelf[0].Wire.FreeLength = w.Wire, w.OuterDiameter, w.FreeLength
	j.Shelf[0].Wire.Rate, j.Shelf[0].Wire.ActiveCoils = 0, w.ActiveCoils
	again := plan(t, j)
	if c, ok := again.Chosen(); !ok || !(math.Abs(c.RateDeviation) <= 0.02) || again.WouldFit != nil {
		t.Errorf("%+v: %+v", w, again.Candidates[0].Findings)
	}
	j.Legs[0].Room.Length = 60 * mm
	if w := plan(t, j).WouldFit; w == nil || w.Designed || w.LengthMost > 60*mm+j.Preload.Min ||
		!(math.Abs(float64(w.OuterMost-43*mm)) <= 1e-9) {
		t.Errorf("%+v in no room", w)
	}
}
