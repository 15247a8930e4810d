package bench_test

import (
	"context"
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// One number of a normal prior, read directly: everything that is told of it has a closed form.
//
//	V = 1/(1/σ² + 1/s²)      residual (v − m)/√(s² + σ²)      after another V·s²/(V + s²)
func TestOneNumberInClosedForm(t *testing.T) {
	const prior, s = 3.0, 4.0 // mm
	read := 62 * mm
	k, err := bench.Learn(t.Context(), motocross(), room, []bench.Unknown{bench.Uncertain("offset", prior*mm)},
		[]bench.Reading{bench.Direct("offset", read, s*mm)})
	if err != nil {
		t.Fatal(err)
	}
	left := 1 / (1/(prior*prior) + 1/(s*s))
	v, sd, _ := k.Of("offset")
	within(t, "mean", v*1000, 56+left/(s*s)*6, 1e-9)
	within(t, "deviation", sd*1000, math.Sqrt(left), 1e-9)
	r := k.Residual[0]
	within(t, "leverage", r.Leverage, prior*prior/(prior*prior+s*s), 1e-9)
	within(t, "standardized", r.Standardized, 6/math.Sqrt(prior*prior+s*s), 1e-9)
	// The squares of reading and prior together are one of a normal: (v − m)²/(σ² + s²).
	within(t, "surprise", k.Surprise, math.Erfc(6/math.Sqrt(2*(prior*prior+s*s))), 1e-9)
	learned := value(t, k, "offset")
	within(t, "learned", learned.Learned, 1-math.Sqrt(left)/prior, 1e-9)
	within(t, "moved", learned.Moved, left/(s*s)*6/prior, 1e-9)

	offset := bench.Question{Name: "offset", Of: func(f bench.Fork) (float64, error) {
		return float64(f.Chassis.Offset), nil
	}, Text: func(v float64) string { return units.Length(v).String() }}
	worth, err := k.Next(offset, []bench.Candidate{
		{Reading: bench.Direct("offset", 60*mm, 2*mm), Minutes: 4},
		{Reading: bench.Direct("offset", 60*mm, 6*mm), Minutes: 1},
		{Minutes: 3}, {Reading: bench.Direct("offset", 60*mm, 1*mm)}})
	if err != nil || len(worth) != 2 {
		t.Fatal(worth, err)
	}
	for _, w := range worth {
		other := map[float64]float64{4: 2, 1: 6}[w.Minutes]
		after := math.Sqrt(left * other * other / (left + other*other))
		within(t, "deviation after", w.SD*1000, after, 1e-6)
		within(t, "worth a minute", w.PerMinute, (1-after/math.Sqrt(left))/w.Minutes, 1e-6)
	}
	if worth[0].PerMinute < worth[1].PerMinute {
		t.Errorf("ranked %v", worth)
	}
	a, err := k.Answer(offset)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "before", a.Before*1000, prior, 1e-6)
	within(t, "answer", a.SD*1000, math.Sqrt(left), 1e-6)
	within(t, "low", a.Low*1000, v*1000-1.959964*math.Sqrt(left), 1e-4)
	within(t, "high", a.High*1000, v*1000+1.959964*math.Sqrt(left), 1e-4)
	for n, ok := range map[int]bool{99: false, 100: true, 1_000_001: false} {
		if _, err := k.Check(context.Background(), n, 1); (err == nil) != ok {
			t.Errorf("%d samples: %v", n, err)
		}
	}
	if share, err := k.Check(context.Background(), 4000, 1); err != nil || !(share > 0.85) {
		t.Errorf("a normal posterior is met by %.2f of the samples, %v", share, err)
	}
}

// A fork on one coil asks for that coil, at its own preload; at another for what holds the same energy to 90 %.
func TestRateForACoil(t *testing.T) {
	f := motocross()
	f.Oil = [2]bench.Oil{}
	f.Spec.Left = setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 8.4 * units.NewtonPerMillimeter,
		Preload: 6 * mm}}}
	f.Spec.Right = setup.Leg{}
	end := 0.9 * float64(f.Spec.Travel)
	energy := func(k, p float64) float64 { return k * end * (end/2 + p) }
	for _, preload := range []float64{0.006, 0, 0.012} {
		got, err := bench.RateFor(units.Length(preload)).Of(f)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "rate", got, energy(8400, 0.006)/energy(1, preload), 1e-6)
	}
}

// A gauge that is off by a part and by a pressure is taken off every reading, whole or not at all.
func TestGaugeThatIsOff(t *testing.T) {
	for _, c := range []struct {
		gauge units.Pressure
		scale float64
	}{{0.2 * units.Bar, 0}, {0, 0.03}, {0.2 * units.Bar, 0.03}} {
		f := motocross()
		f.Gauge, f.Scale = c.gauge, units.Share(c.scale)
		k, err := bench.Learn(t.Context(), f, room, []bench.Unknown{bench.Uncertain("offset", 3*mm)},
			[]bench.Reading{bench.Direct("offset", 56*mm, 3*mm)})
		if err != nil {
			t.Fatal(err)
		}
		want := (9 - c.gauge.In(units.Bar)) / (1 + c.scale)
		within(t, "behind 9 bar", k.Fork().Spec.Left.Air.Fill.Gauge.In(units.Bar), want, 1e-9)
	}
}

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*max(1, math.Abs(want))) {
		t.Errorf("%s %.12g, want %.12g", what, got, want)
	}
}
