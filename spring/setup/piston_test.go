package setup_test

import (
	"math"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Fast, each side of a floating piston follows p·Vⁿ from its fill, both have one pressure,
// and together they fill the room that the main piston leaves them.
func TestFloatingPistonParts(t *testing.T) {
	const n = 1.3
	s := layouts()["floating piston"]
	f := must(t, s)
	reached := false
	for _, x := range []units.Length{10 * mm, 120 * mm, 150 * mm} {
		start, err := f.Spaces(0, n)
		if err != nil {
			t.Fatal(err)
		}
		list, err := f.Spaces(x, n)
		if err != nil {
			t.Fatal(err)
		}
		find := func(list []setup.Space, c setup.Chamber) (p, v float64) {
			for _, space := range list {
				if space.Side == setup.Left && space.Chamber == c {
					return space.Gas.Pressure.In(units.Pascal), float64(space.Gas.Volume)
				}
			}
			t.Fatal("no chamber ", c)
			return 0, 0
		}
		var room, before float64
		for _, c := range []setup.Chamber{setup.Positive, setup.Second} {
			p0, v0 := find(start, c)
			p, v := find(list, c)
			if got, want := p*math.Pow(v, n), p0*math.Pow(v0, n); !(math.Abs(got-want) <= 1e-9*want) {
				t.Errorf("at %v p·Vⁿ of the %v chamber is %v, was %v", x, c, got, want)
			}
			room, before = room+v, before+v0
		}
		if swept := float64(geometry.Circle(s.Left.Air.Bore)) * float64(x); !(math.Abs(before-room-swept) <= 1e-12) {
			t.Errorf("at %v the chambers lost %v m³, the piston swept %v", x, before-room, swept)
		}
		main, _ := find(list, setup.Positive)
		second, _ := find(list, setup.Second)
		if filled, _ := find(start, setup.Second); main > filled*(1+1e-9) {
			reached = true
			if !(math.Abs(main-second) <= 1e-9*main) {
				t.Errorf("at %v %v Pa and %v Pa beside the free piston", x, main, second)
			}
		}
	}
	if !reached {
		t.Error("the piston never left its stop")
	}
}

// Chambers that meet with the second chamber low enough to give way: the gas of all three
// has one pressure, by Boyle's law.
func TestEqualizedReachesTheSecondChamber(t *testing.T) {
	s := layouts()["floating piston"]
	s.Left.Gap, s.Right.Gap = nil, nil
	air := *s.Left.Air
	air.SecondGauge = air.Fill.Gauge.Times(1.02)
	s.Left.Air = &air
	const x = 160 * mm
	m, err := must(t, s).Equalized(x)
	if err != nil {
		t.Fatal(err)
	}
	outside, rod := room.Pressure.In(units.Pascal), float64(geometry.Circle(air.Rod))
	filled, second := air.Fill.Gauge.In(units.Pascal)+outside, air.SecondGauge.In(units.Pascal)+outside
	held := filled*float64(air.Volume+air.NegativeVolume) + second*float64(air.SecondVolume)
	p := held / (float64(air.Volume+air.NegativeVolume+air.SecondVolume) - rod*float64(x))
	if p <= second {
		t.Fatalf("%v Pa do not reach the second chamber's %v Pa", p, second)
	}
	want := (p - outside) * rod
	if got := float64(m.Curve(1).Force(x)); !(math.Abs(got-want) <= 1e-6*want) {
		t.Errorf("met at %v: %v N, want gauge times rod, %v N", x, got, want)
	}
}

// The band of the sag is where the spring holds the load less or more the friction, and
// ends at the stroke where only friction takes it there; no load is taken for another.
func TestSagBandHoldsTheLoad(t *testing.T) {
	for name, s := range layouts() {
		f := must(t, s)
		rest := f.Curve(1)
		end := rest.Stroke()
		lowest, highest := rest.Force(0), rest.Force(end)
		for _, part := range []units.Force{0.001, 0.1, 0.5, 0.9, 0.999, 1} {
			load := min(highest, max(0, lowest)+part*(min(highest, 15000)-max(0, lowest)))
			sag, err := f.Sag(load)
			if err != nil {
				t.Fatalf("%s under %v: %v", name, load, err)
			}
			for what, c := range map[string]struct {
				at   units.Length
				load units.Force
			}{"middle": {sag.Middle, load}, "high": {sag.High, load - f.Friction()}, "low": {sag.Low, load + f.Friction()}} {
				held, want := rest.Force(c.at), c.load
				switch {
				case want <= lowest:
					want = lowest
				case want >= highest:
					want = highest
				}
				if !(math.Abs(float64(held-want)) <= 1e-5*(10+math.Abs(float64(want)))) {
					t.Errorf("%s under %v, %s at %v: the fork holds %v, want %v", name, load, what, c.at, held, want)
				}
			}
		}
		for _, load := range []units.Force{-1, 20001, units.Force(math.NaN())} {
			if sag, err := f.Sag(load); err == nil {
				t.Errorf("%s: %v under %v", name, sag, load)
			}
		}
	}
}

// Gas let out at some travel is at the pressure outside there, and sucks when the fork
// extends: behind it, the force at that travel is that of the springs alone.
func TestVentedAtLeavesNoGauge(t *testing.T) {
	f := must(t, motocrossCoil)
	const x = 60 * mm
	m, err := f.VentedAt(x)
	if err != nil {
		t.Fatal(err)
	}
	springs, ok := f.Springs()
	if !ok {
		t.Fatal("no springs")
	}
	if got, want := m.Curve(1).Force(x), springs.Force(x); !(math.Abs(float64(got-want)) <= 1e-6) {
		t.Errorf("vented at %v: %v, the springs have %v", x, got, want)
	}
	if got, want := m.Curve(1).Force(0), springs.Force(0); got >= want {
		t.Errorf("extended: %v, no less than the springs' %v", got, want)
	}
	if got, want := m.Curve(1).Force(200*mm), springs.Force(200*mm); got <= want {
		t.Errorf("deeper: %v, no more than the springs' %v", got, want)
	}
	shared.Read(t, func() any { return m.Curve(1.3).Force(x) })
}

// Gas that seals let out, and air they pump in, change the pressure over the oil by what is said, fork extended.
func TestPumpedEitherWay(t *testing.T) {
	f := must(t, motocrossCoil)
	for _, p := range []units.Pressure{-0.2 * units.Bar, 0.3 * units.Bar} {
		m, err := f.Pumped(p)
		if err != nil {
			t.Fatal(err)
		}
		list, err := m.Spaces(0, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range list {
			if got := s.Gas.Pressure.Gauge(room.Pressure); !(math.Abs(got.In(units.Pascal)-float64(p)) <= 1e-6) {
				t.Errorf("pumped by %v: %v", p, got)
			}
		}
	}
}

// An air spring in the right leg alone is filled as one in the left.
func TestFilledInEitherLeg(t *testing.T) {
	s := enduroBike
	s.Left, s.Right = s.Right, s.Left
	other, err := s.Filled(fill(7))
	if err != nil {
		t.Fatal(err)
	}
	same, err := enduroBike.Filled(fill(7))
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []units.Length{0, 60 * mm, 150 * mm} {
		if a, b := must(t, other).Curve(1).Force(x), must(t, same).Curve(1).Force(x); !(math.Abs(float64(a-b)) <= 1e-9) {
			t.Errorf("at %v %v from the right leg, %v from the left", x, a, b)
		}
	}
}

// Behind an orifice gas takes part at rest and is cut off when the fork moves fast.
func TestAirOfLinkedVolume(t *testing.T) {
	s := layouts()["linked auxiliary volume"]
	f := must(t, s)
	for n, want := range map[float64]units.Volume{1: s.Left.Air.Volume + s.Left.Air.Linked, 1.3: s.Left.Air.Volume} {
		a, err := f.Air(setup.Left, n)
		if err != nil {
			t.Fatal(err)
		}
		if got := a.Positive().Volume(0); !(math.Abs(float64(got-want)) <= 1e-15) {
			t.Errorf("n = %v: %v take part, want %v", n, got, want)
		}
	}
}

// A reading out of range is one fault, and hides none of what it does not touch.
func TestPrechargeFaultStandsAlone(t *testing.T) {
	s := motocrossCoil
	g := *s.Left.Gap
	g.Gauge = units.Gauge(4 * units.Bar)
	s.Left.Gap = &g
	if _, err := setup.New(s); len(check.Split(err)) != 1 {
		t.Errorf("%v, want one fault", err)
	}
	g.Area = -1
	if _, err := setup.New(s); len(check.Split(err)) != 2 {
		t.Errorf("%v, want two faults", err)
	}
}
