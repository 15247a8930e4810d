package bench_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// A reading of another fork contradicts what is known well of this one, whatever is read, and what may have gone wrong
// is told.
func TestEveryReadingCanContradict(t *testing.T) {
	other := motocross()
	other.Leak = 20 * units.Day
	air := *other.Spec.Left.Air
	air.Volume, air.NegativeVolume = 560*mL, 40*mL
	other.Spec.Left.Air, other.Spec.Friction, other.Damping = &air, 220, 0.85
	other.Oil[0].Interior, other.Oil[0].Metal = 1100*mL, 90*mL
	c := &other.Chassis
	c.Offset, c.FrontShare, c.FrontShareRidden, c.UnsprungMass = 20*units.Millimeter, 0.6, 0.62, 25
	plan := append(plan(), bench.Water{SD: 3 * mL},
		bench.LeakDown{From: units.Gauge(9 * units.Bar), After: 200 * units.Hour, SD: 0.05 * units.Bar},
		bench.Breakaway{SD: 5}, bench.Pressed{Load: 2000, SD: 2 * mm}, bench.Trail{SD: 2 * mm},
		bench.Direct("offset", 20*units.Millimeter, 1*units.Millimeter))
	readings, err := bench.Simulate(other, room, plan, rand.New(rand.NewPCG(1, 2)))
	if err != nil {
		t.Fatal(err)
	}
	here := motocross()
	here.Leak = 400 * units.Day
	for _, r := range readings {
		k, err := bench.Learn(context.Background(), here, room,
			[]bench.Unknown{bench.Uncertain("right.gap", 1*mL), bench.Uncertain("rake", 0.001*units.Degree)},
			[]bench.Reading{r})
		if err != nil {
			t.Fatal(r, err)
		}
		told := k.Residual[0]
		if !told.Contradicts() || len(told.Slips) == 0 || told.Read == told.Fits {
			t.Errorf("%v: read %s, fits %s, %.1f off, %q", r, told.Read, told.Fits, told.Standardized, told.Slips)
		}
	}
}

// What is known of a value is its interval, and how it hangs on another its correlation.
func TestIntervalAndCorrelation(t *testing.T) {
	readings := simulated(t, 3, plan())
	k, less := learn(t, readings), learn(t, readings[:1])
	for i, v := range k.Values {
		low, high, ok := k.Interval(v.Name)
		lower, higher, _ := less.Interval(v.Name)
		if !ok || !(low < high) || !(math.Log(high/low) <= math.Log(higher/lower)*(1+1e-6)) && v.Name != "gauge" {
			t.Errorf("%s: %v to %v, by one reading %v to %v", v.Name, low, high, lower, higher)
		}
		for j := range k.Values {
			r := k.Correlation(i, j)
			if !(math.Abs(r) <= 1+1e-12) || r != k.Correlation(j, i) || i == j && !(math.Abs(r-1) <= 1e-12) {
				t.Errorf("%s and %s: %v", v.Name, k.Values[j].Name, r)
			}
		}
	}
	if _, _, ok := k.Interval("rake"); ok {
		t.Error("an interval of what was not asked")
	}
}

// The gas left is the inside less metal and oil, so that it is as sure as they are.
func TestLockMargin(t *testing.T) {
	k := learn(t, simulated(t, 3, plan()))
	f := k.Fork()
	a, err := k.Answer(bench.LockMargin(setup.Left))
	if err != nil {
		t.Fatal(err)
	}
	want := float64(f.Oil[0].Interior - f.Oil[0].Metal - f.Oil[0].Volume)
	if !(math.Abs(a.Value-want) <= 1e-12) || !(a.SD < a.Before) {
		t.Errorf("%v left, want %v; %v sure, %v before", a.Value, want, a.SD, a.Before)
	}
	bare := motocross()
	bare.Spec.Right.Gap = nil
	var outside *units.RangeError
	if _, err := bench.LockMargin(setup.Right).Of(bare); !errors.As(err, &outside) {
		t.Errorf("a leg without gas: %v", err)
	}
}

// A question that a fork has no answer to is an error that names what is wanted.
func TestQuestionsRefuse(t *testing.T) {
	long := motocross()
	broken := motocross()
	broken.Spec.Travel = -1
	for name, q := range map[string]bench.Question{"energy": bench.EnergyTo(100 * mm), "rate": bench.RateFor(4 * mm),
		"sag": bench.SagOf(79, room), "drift": bench.DriftOf(79, room, room)} {
		if v, err := q.Of(broken); err == nil {
			t.Errorf("%s of no fork: %v", name, v)
		}
	}
	if v, err := bench.EnergyTo(400 * mm).Of(long); err == nil {
		t.Errorf("energy beyond the end: %v", v)
	}
	if v, err := bench.OilFor(setup.Left, 0.5).Of(long); err == nil {
		t.Errorf("oil for a ratio below 1: %v", v)
	}
	k := learn(t, simulated(t, 3, plan()))
	if a, err := k.Answer(bench.EnergyTo(400 * mm)); err == nil {
		t.Errorf("%v", a)
	}
	if list, err := k.Next(bench.EnergyTo(400*mm), nil); err == nil {
		t.Errorf("%v", list)
	}
}

// A reading that the fork cannot give is an error before anything is drawn.
func TestSimulateRefuses(t *testing.T) {
	coil := motocross()
	coil.Spec.Left.Air = nil
	for name, c := range map[string]struct {
		fork    bench.Fork
		reading bench.Reading
	}{
		"no air to shift":   {coil, bench.Shown{Travel: 100 * mm, SD: 0.1 * units.Bar}},
		"no air to pump":    {coil, bench.PumpedIn{Air: 500 * mL, SD: 0.05 * units.Bar}},
		"no leak asked for": {motocross(), bench.LeakDown{After: 100 * units.Hour, SD: 0.1 * units.Bar}},
		"no such number":    {coil, bench.Direct("left.air.volume", 300*mL, 5*mL)},
		"no spring to push": {coil, bench.Breakaway{Gauge: units.Gauge(2 * units.Bar), SD: 5}},
		"no bounce":         {coil, bench.Bounce{Rider: 79, SD: 0.05}},
	} {
		got, err := bench.Simulate(c.fork, room, []bench.Reading{c.reading}, rand.New(rand.NewPCG(1, 2)))
		if err == nil {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestFromReadsBack(t *testing.T) {
	for _, from := range []bench.From{bench.Above, bench.Below, bench.Middle} {
		text, err := from.MarshalText()
		var back bench.From
		if err != nil || back.UnmarshalText(text) != nil || back != from {
			t.Errorf("%v: %s, %v", from, text, err)
		}
	}
}

// Without room, fork or readings there is nothing to learn, and the error names each of them.
func TestLearnRefusesAll(t *testing.T) {
	broken := motocross()
	broken.Spec.Travel, broken.Damping = -1, 3
	u := bench.Uncertain("friction", 5*units.Newton)
	_, err := bench.Learn(context.Background(), broken, gas.Ambient{}, []bench.Unknown{u, u}, nil)
	for _, want := range []string{"room", "Damping", "Travel", "each once"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %s", err, want)
		}
	}
	canceled, cancel := context.WithCancel(context.Background())
	cancel()
	readings := simulated(t, 3, plan())
	if k, err := bench.Learn(canceled, motocross(), room, unknowns(), readings); err == nil {
		t.Errorf("canceled, yet %v", k.Surprise)
	}
	k := learn(t, readings)
	if _, err := k.Refined(canceled, 1000, 1); err == nil {
		t.Error("canceled, yet refined")
	}
	if _, err := k.Refined(context.Background(), -1, 1); err == nil {
		t.Error("refined by -1 samples")
	}
}

// Ranks tell of every unknown, leave out a question without an answer, and end when asked to.
func TestRanksEnd(t *testing.T) {
	k := learn(t, simulated(t, 3, plan()))
	n := 0
	for name, r := range k.Ranks(motocross(), bench.EnergyTo(400*mm), bench.SagOf(79, room)) {
		if n++; !(r > 0 && r < 1) {
			t.Errorf("%s: %v", name, r)
		}
	}
	if want := len(unknowns()) + 1; n != want {
		t.Errorf("%d ranks, want %d", n, want)
	}
	for range k.Ranks(motocross()) {
		break
	}
}
