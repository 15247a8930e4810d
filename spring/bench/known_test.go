package bench_test

import (
	"context"
	"errors"
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func learn(t testing.TB, readings []bench.Reading) *bench.Known {
	t.Helper()
	k, err := bench.Learn(context.Background(), motocross(), room, unknowns(), readings)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func simulated(t testing.TB, seed uint64, plan []bench.Reading) []bench.Reading {
	t.Helper()
	readings, err := bench.Simulate(motocross(), room, plan, rand.New(rand.NewPCG(seed, 5)))
	if err != nil {
		t.Fatal(err)
	}
	return readings
}

func value(t testing.TB, k *bench.Known, name string) bench.Value {
	t.Helper()
	for _, v := range k.Values {
		if v.Name == name {
			return v
		}
	}
	t.Fatal("no value", name)
	return bench.Value{}
}

// One unknown that one reading tells directly is the weighted mean of both: the closed form
// of a normal prior and a normal reading, to 1e-10 on a scale that does not bend.
func TestConjugate(t *testing.T) {
	f := motocross()
	u := []bench.Unknown{bench.Uncertain("offset", 3*mm)}
	slope := -1 / math.Cos(float64(f.Chassis.Rake)) // of trail by offset
	read := f.Chassis.Trail() + 6*mm
	k, err := bench.Learn(context.Background(), f, room, u, []bench.Reading{bench.Trail{Trail: read, SD: 4 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	a, b := 1.0/9, slope*slope/16 // weights of both, per mm²
	want := 56 + b/(a+b)*(6/slope)
	if got := k.Fork().Chassis.Offset.In(mm); !(math.Abs(got-want) <= 1e-10*want) {
		t.Errorf("offset %.12f mm, want %.12f", got, want)
	}
	answer, err := k.Answer(bench.Question{Name: "offset", Of: func(f bench.Fork) (float64, error) {
		return float64(f.Chassis.Offset), nil
	}, Text: func(v float64) string { return units.Length(v).String() }})
	if err != nil || !(math.Abs(answer.SD*1000-1/math.Sqrt(a+b)) <= 1e-9) {
		t.Errorf("± %.12f mm, %v, want %.12f", answer.SD*1000, err, 1/math.Sqrt(a+b))
	}
}

// What readings pin down is told, and what they do not stays what the class says.
func TestIdentifiability(t *testing.T) {
	k := learn(t, simulated(t, 1, []bench.Reading{
		bench.Sag{Rider: 79, From: bench.Above, SD: 2 * mm}, bench.Sag{Rider: 79, From: bench.Below, SD: 2 * mm},
		bench.OilToMark{Side: setup.Left, Level: 160 * mm, SD: 4 * mL}}))
	if v := value(t, k, "left.interior"); !v.Known() {
		t.Errorf("oil to a mark leaves the interior unknown: %+v", v)
	}
	if v := value(t, k, "damping-ratio"); v.Learned > 1e-6 || v.Known() {
		t.Errorf("sag tells the damping: %+v", v)
	}
	if v := value(t, k, "friction"); v.Learned < 0.2 {
		t.Errorf("sag both ways tells nothing of the friction: %+v", v)
	}
	if k.Surprise < 0.01 {
		t.Errorf("honest readings surprise: %v", k.Surprise)
	}
	if share, err := k.Check(t.Context(), 4000, 1); err != nil || share < 0.5 {
		t.Errorf("%.2f of the importance samples count, %v", share, err)
	}
}

// A reading that contradicts the rest is named, with what may have gone wrong.
func TestContradiction(t *testing.T) {
	readings := simulated(t, 2, plan())
	for i, r := range readings {
		if s, ok := r.(bench.Shown); ok {
			s.Shown = s.Shown.Add(2 * units.Bar)
			readings[i] = s
		}
	}
	k := learn(t, readings)
	var named []string
	for _, r := range k.Residual {
		if r.Contradicts() {
			named = append(named, r.Reading.String())
			if len(r.Slips) == 0 {
				t.Errorf("%v contradicts without a reason", r.Reading)
			}
		}
		if r.Leverage < 0 || r.Leverage >= 1 {
			t.Errorf("leverage %v of %v", r.Leverage, r.Reading)
		}
	}
	if len(named) == 0 || !strings.Contains(strings.Join(named, ";"), "gauge at 250 mm") {
		t.Errorf("contradicting: %q", named)
	}
	if k.Surprise > 0.01 {
		t.Errorf("a gauge 2 bar off does not surprise: %v", k.Surprise)
	}
}

var simulations = flag.Int("simulations", 40, "how often TestNextAgainstBruteForce reads each candidate")

// The ranking of next readings is that of brute force in three scenarios: every candidate
// simulated, the fork learned anew, the uncertainty of the answer averaged.
func TestNextAgainstBruteForce(t *testing.T) {
	candidates := []bench.Candidate{
		{Reading: bench.OilToMark{Side: setup.Left, Level: 160 * mm, SD: 4 * mL}, Minutes: 10},
		{Reading: bench.Rise{Side: setup.Left, SD: 1.5 * mm}, Minutes: 2},
		{Reading: bench.Force{Travel: 290 * mm, SD: 15}, Minutes: 5},
		{Reading: bench.WheelMass{SD: 0.1}, Minutes: 5},
	}
	sag := bench.Sag{Rider: 79, From: bench.Middle, SD: 2 * mm}
	for _, c := range []struct {
		question bench.Question
		first    []bench.Reading
	}{
		{bench.OilFor(setup.Left, 3.5), []bench.Reading{sag}},
		{bench.RateFor(4 * mm), []bench.Reading{sag,
			bench.Force{Travel: 150 * mm, SD: 10}, bench.Decay{Cycles: 1, SD: 0.15}}},
		{bench.SagOf(79, room), []bench.Reading{bench.Ends{Ridden: true, SD: 0.007}}},
	} {
		first := simulated(t, 3, c.first)
		k := learn(t, first)
		ranked, err := k.Next(c.question, candidates)
		if err != nil || len(ranked) != len(candidates) {
			t.Fatal(len(ranked), err)
		}
		perMinute := math.Inf(1)
		for _, w := range ranked {
			var sum float64
			for i := range uint64(*simulations) {
				truth := k.Draw(17, i)
				more, err := bench.Simulate(truth, room, []bench.Reading{w.Reading}, rand.New(rand.NewPCG(19, i)))
				if err != nil {
					t.Fatal(err)
				}
				a, err := learn(t, append(more, first...)).Answer(c.question)
				if err != nil {
					t.Fatal(err)
				}
				sum += a.SD / float64(*simulations)
			}
			if !(math.Abs(sum/w.SD-1) <= 0.05) {
				t.Errorf("%s, %v: expected %.4g, by brute force %.4g", c.question.Name, w.Reading, w.SD, sum)
			}
			now, err := k.Answer(c.question)
			if err != nil {
				t.Fatal(err)
			}
			gain := (1 - sum/now.SD) / w.Minutes
			if gain > perMinute+0.02/w.Minutes {
				t.Errorf("%s, %v: worth %.3g a minute by brute force, one ranked before it %.3g", c.question.Name, w.Reading,
					gain, perMinute)
			}
			perMinute = gain
		}
	}
}

// Samples are the same for any number of processors, and spread as the first order says.
func TestSamples(t *testing.T) {
	k := learn(t, simulated(t, 4, plan()))
	q := bench.SagOf(79, room)
	a, err := k.Answer(q)
	if err != nil {
		t.Fatal(err)
	}
	s, err := k.Samples(context.Background(), q, 20_000, 7)
	if err != nil || s.Failed != 0 {
		t.Fatal(s, err)
	}
	if !(math.Abs(s.StdDev/a.SD-1) <= 0.03) || !(math.Abs(s.Mean-a.Value) <= 0.1*a.SD) {
		t.Errorf("samples %+v, first order %v", s, a)
	}
	again, err := k.Samples(context.Background(), q, 20_000, 7)
	if err != nil || again != s {
		t.Errorf("%+v after %+v, %v", again, s, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := k.Samples(ctx, q, 20_000, 7); !errors.Is(err, context.Canceled) {
		t.Errorf("canceled: %v", err)
	}
	_, err = bench.Learn(ctx, motocross(), room, unknowns(), simulated(t, 4, plan()))
	if !errors.Is(err, context.Canceled) {
		t.Errorf("canceled: %v", err)
	}
}

func TestRefuses(t *testing.T) {
	good := []bench.Reading{bench.WheelMass{Mass: 15, SD: 0.1}}
	try := func(f bench.Fork, u []bench.Unknown, r []bench.Reading) error {
		_, err := bench.Learn(context.Background(), f, room, u, r)
		return err
	}
	bare := motocross()
	bare.Oil[0] = bench.Oil{}
	coil := motocross()
	coil.Spec.Left.Air = nil
	for _, c := range []struct {
		name, want string
		err        error
	}{
		{"no readings", "readings = none", try(motocross(), unknowns(), nil)},
		{"no unknowns", "unknowns = none", try(motocross(), nil, good)},
		{"an unknown of another fork", "one that the fork has", try(coil,
			[]bench.Unknown{bench.Uncertain("left.air.volume", 20*mL)}, good)},
		{"an unknown twice", "each once", try(motocross(), append(unknowns(), unknowns()[0]), good)},
		{"no uncertainty", "above 0", try(motocross(), []bench.Unknown{bench.Uncertain("friction", 0*units.Newton)}, good)},
		{"negative uncertainty of a reading", "readings[0] (unsprung mass on a scale).SD",
			try(motocross(), unknowns(), []bench.Reading{bench.WheelMass{Mass: 15, SD: -1}})},
		{"NaN read", "a number that was read", try(motocross(), unknowns(),
			[]bench.Reading{bench.WheelMass{Mass: units.Mass(math.NaN()), SD: 1}})},
		{"nothing read", "readings[0] = none", try(motocross(), unknowns(), []bench.Reading{nil})},
		{"the same twice", "another reading", try(motocross(), unknowns(), append(good, good...))},
		{"oil in a leg of which nothing is known", "Oil.Interior",
			try(bare, unknowns()[:2], []bench.Reading{bench.OilToMark{Side: setup.Left, Level: 160 * mm, Oil: 500 * mL,
				SD: 4 * mL}})},
		{"a gauge on a coil fork", "air spring", try(coil, unknowns()[:1],
			[]bench.Reading{bench.Shown{Travel: 100 * mm, Shown: units.Gauge(9 * units.Bar), SD: units.Bar / 10}})},
		{"a pressure in pascals", "Gauge", try(motocross(), unknowns(),
			[]bench.Reading{bench.Sag{Rider: 79, Gauge: units.Gauge(900 * units.Bar), Travel: 60 * mm, SD: 2 * mm}})},
		{"a leak not asked for", "leak is asked for", try(motocross(), unknowns(),
			[]bench.Reading{bench.LeakDown{From: units.Gauge(9 * units.Bar), To: units.Gauge(8 * units.Bar), After: units.Hour,
				SD: units.Bar / 10}})},
		{"a machine of no mass", "fork.Chassis.Mass",
			try(func() bench.Fork { f := motocross(); f.Chassis.Mass = 0; return f }(), unknowns(), good)},
		{"limits the wrong way round", "the lower limit first", try(motocross(),
			[]bench.Unknown{bench.Between("friction", 90*units.Newton, 60*units.Newton)}, good)},
		{"limits below what may be", "such as the fork may have", try(motocross(),
			[]bench.Unknown{bench.Between("friction", -9*units.Newton, 60*units.Newton)}, good)},
		{"no limits", "above 0", try(motocross(), []bench.Unknown{bench.Between("offset", 9*mm, 9*mm)}, good)},
		{"a load above what the fork carries", "a load that the fork carries", try(motocross(), unknowns(),
			[]bench.Reading{bench.Pressed{Load: 9000, Travel: 300 * mm, SD: mm}})},
		{"sag beyond the travel", "0 to the travel of the fork, 305 mm", try(motocross(), unknowns(),
			[]bench.Reading{bench.Sag{Rider: 79, Travel: 400 * mm, SD: mm}})},
		{"force beyond the travel", "0 to the travel of the fork, 305 mm", try(motocross(), unknowns(),
			[]bench.Reading{bench.Force{Travel: 306 * mm, Force: 3000, SD: 10}})},
		{"a number that no fork has", "a number that the fork has", try(motocross(), unknowns(),
			[]bench.Reading{bench.Direct("color", 1.0, 1.0)})},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.err == nil || !strings.Contains(c.err.Error(), c.want) || !errors.As(c.err, new(*units.RangeError)) {
				t.Errorf("error %v, want a *units.RangeError with %q", c.err, c.want)
			}
		})
	}
	if _, err := learn(t, simulated(t, 5, plan())).Answer(bench.OilFor(setup.Right, 3.5)); err == nil {
		t.Error("an answer about a leg of which nothing is known")
	}
}

// More unknowns than anything can pin down are told, not refused, and what goes together with them.
func TestTogether(t *testing.T) {
	u := []bench.Unknown{bench.Uncertain("left.gap", 30*mL), bench.Uncertain("right.gap", 30*mL),
		bench.Uncertain("offset", 5*mm)}
	f := motocross()
	f.Oil[0] = bench.Oil{}
	k, err := bench.Learn(context.Background(), f, room, u,
		[]bench.Reading{bench.Force{Travel: 290 * mm, Force: 4000, SD: 10}})
	if err != nil {
		t.Fatal(err)
	}
	if len(k.Together) != 1 || len(k.Together[0].Parts) != 2 || k.Together[0].Better < 5 {
		t.Fatalf("one force of two gaps tells %+v", k.Together)
	}
	for _, p := range k.Together[0].Parts { // both legs alike: the sum of both, and no more
		if !(math.Abs(math.Abs(p.Weight)-math.Sqrt(0.5)) <= 0.01) || !strings.HasSuffix(p.Name, "gap") {
			t.Errorf("part %+v", p)
		}
	}
	if text := k.Together[0].String(); !strings.Contains(text, "gap is lower by ") {
		t.Error(text)
	}
}

// Between limits nothing is likelier: told so without readings, and a direct reading near one
// is that of a normal one cut there (closed form: its mean and deviation, by the normal
// distribution), as samples of the posterior say it.
func TestBetween(t *testing.T) {
	u := []bench.Unknown{bench.Between("offset", 50*mm, 60*mm)}
	nothing, err := bench.Learn(context.Background(), motocross(), room, u,
		[]bench.Reading{bench.WheelMass{Mass: 15.3, SD: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if v, sd, _ := nothing.Of("offset"); !(math.Abs(v-0.055) <= 1e-9) || !(math.Abs(sd-0.010/math.Sqrt(12)) <= 1e-8) {
		t.Errorf("%.6f ± %.6f without a reading", v, sd)
	}
	k, err := bench.Learn(context.Background(), motocross(), room, u, []bench.Reading{bench.Direct("offset", 58*mm, 1*mm)})
	if err != nil {
		t.Fatal(err)
	}
	density := func(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
	upper := (60 - 58) / 1.0 // the lower limit is far
	cut := density(upper) / (0.5 * math.Erfc(-upper/math.Sqrt2))
	mean, sd := 58-cut, math.Sqrt(1-upper*cut-cut*cut)
	better, err := k.Refined(t.Context(), 20_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	if v, s, _ := better.Of("offset"); !(math.Abs(v*1000-mean) <= 0.15) || !(math.Abs(s*1000/sd-1) <= 0.06) {
		t.Errorf("refined %.3f mm ± %.3f, want %.3f ± %.3f", v*1000, s*1000, mean, sd)
	}
	if _, err := k.Refined(t.Context(), 10, 1); err == nil {
		t.Error("refined by ten samples")
	}
	if v, s, _ := k.Of("offset"); !(math.Abs(v*1000-mean) <= 0.25) || !(math.Abs(s*1000/sd-1) <= 0.1) {
		t.Errorf("%.3f mm ± %.3f, want %.3f ± %.3f", v*1000, s*1000, mean, sd)
	}
}

// JCGM 101:2008, 9.4, comparison loss of a microwave power meter: δY = X₁² + X₂², each known to
// 0.005. Mean and standard deviation of the samples are those of tables 6 and 7 (from memory) and of
// the closed form: y = x₁² + x₂² + u₁² + u₂², u² = 4x₁²u₁² + 4x₂²u₂² + 2u₁⁴ + 2u₂⁴. To first
// order the answer has neither bias nor, at 0, spread: what the guide shows there.
func TestJCGM101(t *testing.T) {
	register.Cite(t, "X-05")
	type row struct{ x1, y, u, first float64 }
	for _, c := range []row{{0, 50, 50, 0}, {0.010, 150, 112, 100}, {0.050, 2550, 502, 500}} {
		f := motocross()
		f.Chassis.Offset, f.Gauge = units.Length(c.x1), 0
		u := []bench.Unknown{bench.Uncertain("offset", units.Length(0.005)), bench.Uncertain("gauge", units.Pressure(0.005))}
		k, err := bench.Learn(context.Background(), f, room, u, []bench.Reading{bench.WheelMass{Mass: 15.3, SD: 1}})
		if err != nil {
			t.Fatal(err)
		}
		loss := bench.Question{Name: "loss", Of: func(f bench.Fork) (float64, error) {
			x, y := float64(f.Chassis.Offset), float64(f.Gauge)
			return x*x + y*y, nil
		}, Text: func(v float64) string { return "" }}
		s, err := k.Samples(context.Background(), loss, 100_000, 3)
		if err != nil || !(math.Abs(s.Mean*1e6-c.y) <= 6) || !(math.Abs(s.StdDev*1e6-c.u) <= 4) {
			t.Errorf("x₁ = %v: %.1f ± %.1f, %v, want %v ± %v", c.x1, s.Mean*1e6, s.StdDev*1e6, err, c.y, c.u)
		}
		a, err := k.Answer(loss)
		if err != nil || !(math.Abs(a.SD*1e6-c.first) <= 0.01) || !(math.Abs(a.Value-c.x1*c.x1) <= 1e-15) {
			t.Errorf("to first order ± %v, %v, want %v", a.SD*1e6, err, c.first)
		}
	}
}

// The predictive check finds nothing in honest readings and tells of a gauge that is 2 bar off.
func TestPredictive(t *testing.T) {
	readings := simulated(t, 6, plan())
	p, err := learn(t, readings).Predictive(t.Context(), 2000, 1)
	if err != nil || p.Failed > 0 || p.All < 0.05 || p.Worst < 0.05 {
		t.Errorf("honest readings: %+v, %v", p, err)
	}
	for i, r := range readings {
		if s, ok := r.(bench.Shown); ok {
			s.Shown = s.Shown.Add(2 * units.Bar)
			readings[i] = s
		}
	}
	if p, err = learn(t, readings).Predictive(t.Context(), 2000, 1); err != nil || p.All > 0.01 || p.Worst > 0.01 {
		t.Errorf("a gauge 2 bar off: %+v, %v", p, err)
	}
	if _, err := learn(t, readings).Predictive(t.Context(), 1, 1); err == nil {
		t.Error("a check by one fork")
	}
}
