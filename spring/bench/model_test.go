package bench_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// byHand is the fork of these tests once more, in SI, from the gas law and the lever of the
// machine alone: an air chamber and its negative one, set at full extension, and two legs of gas
// closed in the room, all at one temperature.
type byHand struct{ gauge, friction float64 }

const (
	ambient, travel = 0.985e5, 0.305
	rake            = 27.2 * math.Pi / 180
	gravity         = 9.80665
)

func circle(d float64) float64 { return math.Pi / 4 * d * d }

func (h byHand) still(x float64) float64 {
	piston, ring, leg := circle(0.034), circle(0.034)-circle(0.012), circle(0.048)-circle(0.012)
	p := ambient + h.gauge
	closed := 304e-6 + leg*travel
	return piston*h.shown(x) - ring*(p*70e-6/(70e-6+ring*x)-ambient) + 2*leg*ambient*(closed/(closed-leg*x)-1)
}

// shown over the air outside, in the positive chamber.
func (h byHand) shown(x float64) float64 {
	return (ambient+h.gauge)*430e-6/(430e-6-circle(0.034)*x) - ambient
}

func (h byHand) rest(load float64) float64 {
	low, high := 0.0, travel
	for range 60 {
		if x := (low + high) / 2; h.still(x) < load {
			low = x
		} else {
			high = x
		}
	}
	return low
}

// bounce about a rest, the gas of all chambers by the power of 1.3, but for the negative one.
func (h byHand) bounce(load float64) float64 {
	x := h.rest(load)
	piston, ring, leg := circle(0.034), circle(0.034)-circle(0.012), circle(0.048)-circle(0.012)
	p, closed := ambient+h.gauge, 304e-6+leg*travel
	rate := 1.3 * (piston*piston*(h.shown(x)+ambient)/(430e-6-piston*x) +
		2*leg*leg*ambient*closed/math.Pow(closed-leg*x, 2) + ring*ring*p*70e-6/math.Pow(70e-6+ring*x, 2))
	return 2 * math.Pi / math.Sqrt(rate/(load/math.Cos(rake)/gravity*math.Cos(rake)*math.Cos(rake))) / math.Sqrt(1-0.4*0.4)
}

// What each reading would show is what the gas law, the lever and the jug say.
func TestModels(t *testing.T) {
	bar := func(b float64) units.GaugePressure { return units.Gauge(units.Pressure(b) * units.Bar) }
	nine, seven := byHand{9e5, 84}, byHand{7e5, 84}
	ridden := (0.47*(111+79) - 15.3) * gravity * math.Cos(rake)
	alone := (0.485*111 - 15.3) * gravity * math.Cos(rake)
	one := 500e-6 * ambient / (430e-6 + 70e-6)
	leaking := motocross()
	leaking.Leak = 100 * units.Hour
	for _, c := range []struct {
		reading bench.Reading
		got     func(bench.Reading) float64
		want    float64
	}{
		{bench.Sag{Rider: 79, From: bench.Above, SD: 1e-9}, sag, nine.rest(ridden - 84)},
		{bench.Sag{Rider: 79, From: bench.Below, SD: 1e-9}, sag, nine.rest(ridden + 84)},
		{bench.Sag{Rider: 79, From: bench.Middle, Gauge: bar(7), SD: 1e-9}, sag, seven.rest(ridden)},
		{bench.Sag{From: bench.Middle, SD: 1e-9}, sag, nine.rest(alone)},
		{bench.Pressed{Load: 1500, From: bench.Below, Gauge: bar(7), SD: 1e-9}, func(r bench.Reading) float64 {
			return float64(r.(bench.Pressed).Travel)
		}, seven.rest(1584)},
		{bench.Force{Travel: 150 * mm, SD: 1e-9}, force, nine.still(0.15) + 84},
		{bench.Force{Travel: 150 * mm, Out: true, Gauge: bar(7), SD: 1e-9}, force, seven.still(0.15) - 84},
		{bench.Breakaway{SD: 1e-9}, func(r bench.Reading) float64 {
			return float64(r.(bench.Breakaway).Force)
		}, nine.still(0) + 84},
		{bench.Shown{Travel: 250 * mm, Gauge: bar(7), SD: 1e-9}, func(r bench.Reading) float64 {
			return r.(bench.Shown).Shown.In(units.Pascal)
		}, seven.shown(0.25)},
		{bench.PumpedIn{Air: 500 * mL, Before: bar(4), SD: 1e-9}, func(r bench.Reading) float64 {
			return r.(bench.PumpedIn).After.In(units.Pascal) - 4e5
		}, one},
		{bench.OilToMark{Side: setup.Left, Level: 160 * mm, SD: 1e-12}, func(r bench.Reading) float64 {
			return float64(r.(bench.OilToMark).Oil)
		}, 900e-6 - circle(0.044)*0.16},
		{bench.Water{Side: setup.Left, SD: 1e-12}, func(r bench.Reading) float64 {
			return float64(r.(bench.Water).Volume)
		}, 900e-6},
		{bench.Rise{Side: setup.Left, Before: 160 * mm, SD: 1e-9}, func(r bench.Reading) float64 {
			return 0.16 - float64(r.(bench.Rise).After)
		}, 40e-6 / circle(0.044)},
		{bench.LeakDown{From: bar(9), After: 24 * units.Hour, SD: 1e-6}, func(r bench.Reading) float64 {
			return r.(bench.LeakDown).To.In(units.Pascal)
		}, 9e5 * math.Exp(-0.24)},
		{bench.Bounce{Rider: 79, SD: 1e-9}, bounce, nine.bounce(ridden)},
		{bench.Bounce{Rider: 79, Cycles: 3, SD: 1e-9}, bounce, 3 * nine.bounce(ridden)},
		{bench.Decay{Cycles: 2, SD: 1e-9}, func(r bench.Reading) float64 {
			return math.Log(float64(r.(bench.Decay).First / r.(bench.Decay).Later))
		}, 4 * math.Pi * 0.4 / math.Sqrt(1-0.16)},
		{bench.WheelMass{SD: 1e-9}, func(r bench.Reading) float64 { return float64(r.(bench.WheelMass).Mass) }, 15.3},
		{bench.Ends{SD: 1e-9}, share, 0.485},
		{bench.Ends{Ridden: true, SD: 1e-9}, share, 0.47},
		{bench.Trail{SD: 1e-9}, func(r bench.Reading) float64 { return float64(r.(bench.Trail).Trail) },
			(0.345*math.Sin(rake) - 0.056) / math.Cos(rake)},
	} {
		t.Run(c.reading.String(), func(t *testing.T) {
			read, err := bench.Simulate(leaking, room, []bench.Reading{c.reading}, rand.New(rand.NewPCG(1, 1)))
			if err != nil {
				t.Fatal(err)
			}
			if got := c.got(read[0]); !(math.Abs(got-c.want) <= 2e-6*math.Abs(c.want)) {
				t.Errorf("shows %.8g, by hand %.8g", got, c.want)
			}
		})
	}
}

func sag(r bench.Reading) float64    { return float64(r.(bench.Sag).Travel) }
func force(r bench.Reading) float64  { return float64(r.(bench.Force).Force) }
func bounce(r bench.Reading) float64 { return float64(r.(bench.Bounce).Time) }
func share(r bench.Reading) float64 {
	e := r.(bench.Ends)
	return float64(e.Front / (e.Front + e.Rear))
}

// A number read as such is that of the fork, whatever it is, and pulls it to the weighted mean.
func TestDirect(t *testing.T) {
	k := learn(t, []bench.Reading{bench.Direct("front-share", 0.50, 0.006)})
	if v, sd, _ := k.Of("front-share"); !(math.Abs(v-0.4925) <= 1e-4) || !(math.Abs(sd-0.006/math.Sqrt2) <= 1e-4) {
		t.Errorf("front share %.5f ± %.5f, want the mean of 48.5 %% and 50 %%", v, sd)
	}
	f, u := motocross(), unknowns()
	if faults := bench.Check(f, room, u, []bench.Reading{bench.Direct("right.rate", 1.0, 0.1)}); len(faults) != 1 {
		t.Errorf("the rate of a leg without a spring: %v", faults)
	}
}

// A record thins to readings in and out; where one is a force of the fork, all are.
func TestRecord(t *testing.T) {
	var m spring.MeasuredSpec
	h := byHand{9e5, 84}
	for i := range 301 {
		x := float64(i-1) / 1000
		still, at := units.Force(h.still(max(x, 0))), units.Length(x)
		m.Loading = append(m.Loading, spring.Reading{Travel: at, Force: still + 95})
		m.Unloading = append(m.Unloading, spring.Reading{Travel: at, Force: still - 95})
	}
	readings := bench.Record(m, units.GaugePressure{}, 10)
	if n := len(readings); n != 50 {
		t.Fatalf("%d readings", n)
	}
	for i, at := range map[int]units.Length{0: 0, 24: 299 * mm, 25: 0, 49: 299 * mm} {
		if f := readings[i].(bench.Force); f.Travel != at || f.Out != (i > 24) {
			t.Errorf("reading %d: %+v", i, f)
		}
	}
	k := learn(t, readings)
	if v, sd, _ := k.Of("friction"); !(math.Abs(v-95) <= 1) || sd > 3 {
		t.Errorf("friction %.1f N ± %.1f N, recorded with 95 N", v, sd)
	}
	for _, r := range k.Residual {
		if !(math.Abs(r.Standardized) <= 1) {
			t.Errorf("%v off by %.2f", r.Reading, r.Standardized)
		}
	}
	one := spring.MeasuredSpec{Loading: m.Loading[:2]}
	if n := len(bench.Record(one, units.GaugePressure{}, 10)); n != 1 {
		t.Errorf("%d readings of one point", n)
	}
}
