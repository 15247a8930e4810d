package benchfile_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/bench/benchfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

var (
	forks   = flag.Int("forks", 100, "how many forks TestCalibrated draws")
	samples = flag.Int("samples", 600, "of the posterior of each")
	seed    = flag.Uint64("seed", 0, "that it draws them by")
	only    = flag.String("only", "", "the one archetype that it draws")
)

const (
	mm  = units.Millimeter
	mL  = units.Milliliter
	bar = units.Bar
)

// plan is what a workshop reads of a fork; what stands in the readings does not matter yet.
func plan(f data.Fork, at bench.Fork) []bench.Reading {
	rider, travel := f.Rider.Mass.Value, f.Travel.Value
	list := []bench.Reading{
		bench.Sag{Rider: rider, From: bench.Above, SD: 2 * mm}, bench.Sag{Rider: rider, From: bench.Below, SD: 2 * mm},
		bench.Force{Travel: travel / 2, SD: 10}, bench.Force{Travel: travel / 2, Out: true, SD: 10},
		bench.Force{Travel: travel * 3 / 4, SD: 15},
		bench.Ends{Ridden: true, SD: 0.007}, bench.WheelMass{SD: 0.1},
		bench.Bounce{Rider: rider, SD: 0.05}, bench.Decay{Cycles: 1, SD: 0.15}, bench.Direct("rake", 0, 0.3*units.Degree),
	}
	if f.Kit.Legs.Left || f.Kit.Legs.Both {
		list = append(list, bench.OilToMark{Level: 120 * mm, SD: 4 * mL})
		if at.Oil[0].Metal > 0 {
			list = append(list, bench.Rise{SD: 1.5 * mm})
		}
	}
	if f.Spring() == data.AirLeg {
		low := units.Gauge(units.Pressure(0.5 * f.Left.Air.Pressure.Value.In(units.Pascal)))
		list = append(list, bench.Shown{Travel: travel * 3 / 4, Gauge: low, SD: 0.1 * bar},
			bench.PumpedIn{Air: f.Left.Air.Volume.Value, Before: low, SD: 0.05 * bar})
	}
	return list
}

// Forks drawn from what is known of ten archetypes, read with the errors that the readings say
// they have: 95 % intervals cover the truth in 95 % of them, for every unknown and for answers,
// and the ranks of the truth are even (simulation-based calibration: S. Talts et al.,
// arXiv:1804.06788, from memory). The full number, by -forks 2000, must cover 93 to 97 %; of
// fewer, as of what only one of the archetypes has, the limits are 4.1 of their standard deviations away.
func TestCalibrated(t *testing.T) {
	register.Cite(t, "X-56")
	archetypes := []string{"B01", "B04", "B08", "B16", "M03", "M07", "M10", "M11", "M19", "M28"}
	if *only != "" {
		archetypes = []string{*only}
	}
	each := *forks / len(archetypes)
	var guard sync.Mutex
	of := map[string][]float64{}
	rank := func(name string, r float64) {
		guard.Lock()
		defer guard.Unlock()
		of[name] = append(of[name], r)
	}
	t.Run("forks", func(t *testing.T) {
		for n, id := range archetypes {
			t.Run(id, func(t *testing.T) {
				t.Parallel()
				calibrate(t, id, *seed+uint64(n), each, rank)
			})
		}
	})
	for name, list := range of {
		n := float64(len(list))
		var inside float64
		var ranks [10]float64
		for _, r := range list {
			if math.Abs(r-0.5) < 0.475 {
				inside++
			}
			ranks[min(9, int(10*r))]++
		}
		var chi float64
		for _, c := range ranks {
			chi += (c - n/10) * (c - n/10) / (n / 10)
		}
		share := inside / n
		within := max(0.02, 4.1*math.Sqrt(0.95*0.05/n))
		t.Logf("%-28s %5.0f forks, covered %.3f, ranks χ² %.1f", name, n, share, chi)
		if !(math.Abs(share-0.95) <= within) {
			t.Errorf("%s: %.1f %% of %g 95 %% intervals cover the truth", name, 100*share, n)
		}
		if p := (distuv.ChiSquared{K: 9}).Survival(chi); p < 1e-4 { // of some thirty values: 3 in 1000 by chance
			t.Errorf("%s: the ranks of the truth are uneven, %v", name, ranks)
		}
	}
}

func calibrate(t *testing.T, id string, stream uint64, n int, rank func(name string, r float64)) {
	record, err := data.Reference().Fork(id)
	if err != nil {
		t.Fatal(err)
	}
	room, err := gas.StandardAt(240*units.Meter, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	f, unknowns, side := benchfile.Of(record, room)
	there := gas.Ambient{Temperature: units.Celsius(2), Pressure: units.Absolute(0.75 * bar)}
	rider := record.Rider.Mass.Value
	questions := []bench.Question{bench.SagOf(rider, there), bench.DriftOf(rider, room, there),
		bench.EnergyTo(record.Travel.Value * 8 / 10),
		bench.OilFor(side, 3.5)}
	for i, name := range []string{"sag there", "drift", "energy", "oil"} {
		questions[i].Name = name
	}
	readings := plan(record, f)
	nothing, err := bench.Learn(t.Context(), f, room, unknowns,
		[]bench.Reading{bench.WheelMass{Mass: f.Chassis.UnsprungMass, SD: 1e6}})
	if err != nil {
		t.Fatal(err)
	}
	for i := range uint64(n) {
		truth := nothing.Draw(11+stream, i)
		read, err := bench.Simulate(truth, room, readings, rand.New(rand.NewPCG(13+stream, i)))
		if err != nil {
			t.Fatal(err)
		}
		k, err := bench.Learn(t.Context(), f, room, unknowns, read)
		if err != nil {
			t.Fatal(i, err)
		}
		better, err := k.Refined(t.Context(), *samples, i)
		if err != nil {
			t.Log(id, i, err) // too few samples count, and the plain one stays
			better = k
		}
		for name, r := range better.Ranks(truth, questions...) {
			rank(name, r)
		}
	}
}
