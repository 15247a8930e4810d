package bench_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// one reads a fork once, without error.
func one(t *testing.T, f bench.Fork, r bench.Reading) bench.Reading {
	t.Helper()
	list, err := bench.Simulate(f, room, []bench.Reading{r}, rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return list[0]
}

// Beyond its ends a fork goes on by its last rate, both ways, so that a search finds back.
func TestBeyondTheEnds(t *testing.T) {
	h := byHand{9e5, 84}
	rate := func(x float64) float64 { return (h.still(x+1e-6) - h.still(x-1e-6)) / 2e-6 }
	for _, load := range []float64{h.still(travel) + 100, h.still(travel) + 900} {
		r := one(t, motocross(), bench.Pressed{Load: units.Force(load), From: bench.Middle, SD: 1e-12})
		within(t, "pressed beyond the end", float64(r.(bench.Pressed).Travel),
			travel+(load-h.still(travel))/rate(travel), 1e-6)
	}
	for _, load := range []float64{h.still(0) - 10, h.still(0) - 60} {
		r := one(t, motocross(), bench.Pressed{Load: units.Force(load), From: bench.Middle, SD: 1e-12})
		within(t, "topped out", 1000*float64(r.(bench.Pressed).Travel), 1000*(load-h.still(0))/rate(0), 1e-4)
	}
	for _, out := range []bool{false, true} {
		r := one(t, motocross(), bench.Force{Travel: 310 * mm, Out: out, SD: 1e-9})
		want := h.still(travel) + rate(travel)*0.005 + 84
		if out {
			want -= 2 * 84
		}
		within(t, "force beyond the end", force(r), want, 1e-6)
	}
}

// A gauge that shows too much does so in every reading of it, also in the pressure that the fork is set to.
func TestModelsOfAGaugeThatIsOff(t *testing.T) {
	const off, part = 2e4, 0.03
	f := motocross()
	f.Gauge, f.Scale, f.Leak = off, part, 100*units.Hour
	there := func(shown float64) float64 { return (shown - off) / (1 + part) }
	bar := func(b float64) units.GaugePressure { return units.Gauge(units.Pressure(b) * units.Bar) }
	r := one(t, f, bench.Shown{Travel: 250 * mm, Gauge: bar(7), SD: 1e-9})
	within(t, "shown", r.(bench.Shown).Shown.In(units.Pascal), byHand{there(7e5), 84}.shown(0.25)*(1+part)+off, 1e-6)
	r = one(t, f, bench.Shown{Travel: 250 * mm, SD: 1e-9})
	within(t, "shown as it stands", r.(bench.Shown).Shown.In(units.Pascal),
		byHand{there(9e5), 84}.shown(0.25)*(1+part)+off, 1e-6)
	r = one(t, f, bench.PumpedIn{Air: 500 * mL, Before: bar(4), SD: 1e-9})
	within(t, "pumped in", r.(bench.PumpedIn).After.In(units.Pascal)-4e5, 500e-6*ambient/500e-6*(1+part), 1e-6)
	r = one(t, f, bench.LeakDown{From: bar(9), After: 24 * units.Hour, SD: 1e-9})
	within(t, "leaked", r.(bench.LeakDown).To.In(units.Pascal), there(9e5)*math.Exp(-0.24)*(1+part)+off, 1e-6)
	r = one(t, f, bench.Force{Travel: 150 * mm, Gauge: bar(7), SD: 1e-9})
	within(t, "force", force(r), byHand{there(7e5), 84}.still(0.15)+84, 1e-6)
}

// What is pumped in goes to every chamber that is open to it at full extension: to a negative one through its port,
// not past a valve of its own.
func TestPumpedInWhere(t *testing.T) {
	valve := units.Gauge(4 * units.Bar)
	for name, c := range map[string]struct {
		change func(a *setup.Air)
		room   float64
	}{
		"through the port":   {func(*setup.Air) {}, 500e-6},
		"past a valve":       {func(a *setup.Air) { a.NegativeGauge = valve }, 430e-6},
		"linked as well":     {func(a *setup.Air) { a.Linked = 100 * mL }, 600e-6},
		"without a negative": {func(a *setup.Air) { a.NegativeVolume = 0 }, 430e-6},
	} {
		for _, side := range []setup.Side{setup.Left, setup.Right} {
			f := motocross()
			a := *f.Spec.Left.Air
			c.change(&a)
			f.Spec.Left.Air = nil
			if leg := &f.Spec.Left; side == setup.Left {
				leg.Air = &a
			} else {
				f.Spec.Right.Air = &a
			}
			r := one(t, f, bench.PumpedIn{Air: 500 * mL, Before: units.Gauge(5 * units.Bar), SD: 1e-9}).(bench.PumpedIn)
			within(t, name, r.After.In(units.Pascal)-5e5, 500e-6*ambient/c.room, 1e-9)
		}
	}
}

// The point where a record turns is read once, on the way in.
func TestRecordTurns(t *testing.T) {
	turn := spring.Reading{Travel: 30 * mm, Force: 300}
	m := spring.MeasuredSpec{
		Loading:   []spring.Reading{{Travel: 10 * mm, Force: 100}, {Travel: 20 * mm, Force: 200}, turn},
		Unloading: []spring.Reading{{Travel: 10 * mm, Force: 80}, {Travel: 20 * mm, Force: 180}, turn}}
	var in, out []units.Length
	for _, r := range bench.Record(m, units.GaugePressure{}, 10) {
		if f := r.(bench.Force); f.Out {
			out = append(out, f.Travel)
		} else {
			in = append(in, f.Travel)
		}
	}
	if len(in) != 3 || len(out) != 2 || out[1] != 20*mm {
		t.Errorf("in at %v, out at %v", in, out)
	}
	m.Unloading[2].Force = 290 // it has turned: another reading
	if n := len(bench.Record(m, units.GaugePressure{}, 10)); n != 6 {
		t.Errorf("%d readings of two ways with ends of their own", n)
	}
}

// Readings are told apart by what they say of themselves: the side, the rider, the pressure.
func TestReadingsToldApart(t *testing.T) {
	seven := units.Gauge(7 * units.Bar)
	said := map[string]bool{}
	list := []bench.Reading{bench.Sag{From: bench.Above}, bench.Sag{From: bench.Below}, bench.Sag{From: bench.Middle},
		bench.Sag{Rider: 79}, bench.Sag{Gauge: seven}, bench.Pressed{Load: 900}, bench.Pressed{Load: 900, From: bench.Below},
		bench.Force{Travel: 0.1}, bench.Force{Travel: 0.1, Out: true}, bench.Force{Travel: 0.1, Gauge: seven},
		bench.Breakaway{}, bench.Breakaway{Gauge: seven}, bench.Shown{}, bench.Shown{Gauge: seven},
		bench.Bounce{}, bench.Bounce{Rider: 79}, bench.Bounce{Cycles: 2}, bench.Ends{}, bench.Ends{Ridden: true}}
	for _, r := range list {
		if said[r.String()] {
			t.Errorf("%v twice", r)
		}
		said[r.String()] = true
		if got := strings.Contains(r.String(), "bar"); got != strings.Contains(r.String(), "7.00") {
			t.Errorf("%v: a pressure that it was not set to", r)
		}
	}
	for _, r := range list[:2] {
		if from := r.(bench.Sag).From.String(); !strings.Contains(r.String(), from) {
			t.Errorf("%v is from %s", r, from)
		}
	}
	// A number read as such is written with its unit, before and after.
	f := motocross()
	k, err := bench.Learn(t.Context(), f, room, []bench.Unknown{bench.Uncertain("friction", 9*units.Newton)},
		[]bench.Reading{bench.Direct("friction", 90*units.Newton, 9*units.Newton)})
	if err != nil {
		t.Fatal(err)
	}
	if r := k.Residual[0]; r.Read != "90 N" || !strings.HasSuffix(r.Fits, " N") {
		t.Errorf("read %s, fits %s", r.Read, r.Fits)
	}
}

// The slope of a reading is its mean over the width of what is known: closed forms for a number between limits, read
// directly, of which the scale bends as the normal distribution.
func TestSlopeOverTheWidth(t *testing.T) {
	k, err := bench.Learn(t.Context(), motocross(), room, []bench.Unknown{bench.Between("offset", 50*mm, 60*mm)},
		[]bench.Reading{bench.Direct("offset", 58*mm, 1*mm)})
	if err != nil {
		t.Fatal(err)
	}
	z := value(t, k, "offset").Moved
	n := distuv.UnitNormal
	at := 10 * n.Prob(z)
	wide := 1 / math.Sqrt(1+at*at)
	mean := 10 * (n.CDF(z+wide) - n.CDF(z-wide)) / (2 * wide)
	within(t, "learned", value(t, k, "offset").Learned, 1-1/math.Sqrt(1+mean*mean), 1e-6)
	// The best z is where both squares together are least.
	within(t, "slope at the best", (50+10*n.CDF(z)-58)*at+z, 0, 1e-4)
	if text := value(t, k, "offset").Before; !strings.HasPrefix(text, "55.0") {
		t.Errorf("%s before, in the middle of 50 to 60", text)
	}
}

// A preload is a length added, with a sign; how far it may be off has none.
func TestPreloadWritten(t *testing.T) {
	f := motocross()
	f.Spec.Left.Springs = []spring.Spec{spring.CoilSpec{Rate: 3000, Preload: 4 * mm, Travel: f.Spec.Travel}}
	k, err := bench.Learn(t.Context(), f, room, []bench.Unknown{bench.Uncertain("left.preload", 2*mm)},
		[]bench.Reading{bench.Direct("left.preload", 1*mm, 2*mm)})
	if err != nil {
		t.Fatal(err)
	}
	v := value(t, k, "left.preload")
	if strings.Contains(v.Before, "± +") || strings.Contains(v.After, "± +") || !strings.HasPrefix(v.After, "+0.5 mm") {
		t.Errorf("%s before, %s after", v.Before, v.After)
	}
	within(t, "preload", 1000*float64(k.Fork().Spec.Left.Springs[0].(spring.CoilSpec).Preload), 4.5, 1e-9)
}

// A decay is read as the logarithm of the ratio of its peaks.
func TestDecayRead(t *testing.T) {
	k, err := bench.Learn(t.Context(), motocross(), room, []bench.Unknown{bench.Uncertain("damping-ratio", 0.1)},
		[]bench.Reading{bench.Decay{First: 30 * mm, Later: 10 * mm, Cycles: 1, SD: 0.15}})
	if err != nil {
		t.Fatal(err)
	}
	if got := k.Residual[0].Read; got != "ln 1.10" {
		t.Errorf("from 30 mm to 10 mm: %s, want ln 3", got)
	}
}
