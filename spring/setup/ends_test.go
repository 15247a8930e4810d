package setup_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// A fork that carries more than any landing is asked for no more than that, and says where it ends.
func TestSagOfLoads(t *testing.T) {
	stiff := must(t, coilFork(300*mm, 48*mm, 12*mm, 1, 1, spring.CoilSpec{Rate: 150 * units.NewtonPerMillimeter}))
	for load, ok := range map[units.Force]bool{-1: false, 0: true, 19.9e3: true, 20e3: true, 20.1e3: false,
		units.Force(math.NaN()): false} {
		sag, err := stiff.Sag(load)
		if (err == nil) != ok || ok && !(math.Abs(float64(stiff.Curve(1).Force(sag.Middle)-load)) <= 1e-3) {
			t.Errorf("%v: %v, %v", load, sag, err)
		}
	}
}

// Another load, another place or another spring makes another fork.
func TestEqualForks(t *testing.T) {
	f := must(t, motocrossCoil)
	rubs := motocrossCoil
	rubs.Friction += 1
	away, err := f.At(altitude(t, 2500*units.Meter))
	if err != nil {
		t.Fatal(err)
	}
	open, err := f.Open()
	if err != nil {
		t.Fatal(err)
	}
	var none *setup.Setup
	for what, o := range map[string]*setup.Setup{"more friction": must(t, rubs), "elsewhere": away, "open": open,
		"another": must(t, motocrossAir), "none": none} {
		if f.Equal(o) || o.Equal(f) {
			t.Errorf("%s: equal", what)
		}
	}
	if !f.Equal(must(t, motocrossCoil)) || !none.Equal(none) {
		t.Error("not equal to itself")
	}
}

func TestSidesOfAFork(t *testing.T) {
	f := must(t, motocrossCoil)
	for side, ok := range map[setup.Side]bool{setup.Left: true, setup.Right: true, -1: false, 2: false} {
		if _, err := f.Gap(side, 1); (err == nil) != ok {
			t.Errorf("side %d: %v", int(side), err)
		}
	}
}

// A negative chamber tells how it is filled.
func TestSpacesTellTheValve(t *testing.T) {
	for gauge, valve := range map[units.Pressure]bool{0: false, 9 * units.Bar: true} {
		s, a := motocrossAir, *motocrossAir.Left.Air
		a.NegativeGauge = units.Gauge(gauge)
		s.Left.Air = &a
		spaces, err := must(t, s).Spaces(0, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range spaces {
			if negative := c.Chamber == setup.Negative; c.Valve != (negative && valve) {
				t.Errorf("valve at %v: %v of the %v chamber", gauge, c.Valve, c.Chamber)
			}
		}
	}
}

// What leaves the limits of its chamber, or the floating piston on no stop, is refused by name.
func TestGasLeavesItsLimits(t *testing.T) {
	low := coilFork(150*mm, 36*mm, 10*mm, 1, 1, spring.CoilSpec{Rate: 8 * units.NewtonPerMillimeter})
	low.Left.Gap.Gauge = units.Gauge(3 * units.Bar)
	air := motocrossAir
	a := *motocrossAir.Left.Air
	a.Fill = fill(0.5)
	air.Left.Air = &a
	second := must(t, setup.Spec{Travel: 200 * mm, Closed: room,
		Left: setup.Leg{Air: &setup.Air{Bore: 34 * mm, Rod: 12 * mm,
			Volume: 260 * mL, Fill: fill(6), NegativeVolume: 40 * mL, NegativeGauge: units.Gauge(30 * units.Bar),
			SecondVolume: 60 * mL, SecondGauge: units.Gauge(6.5 * units.Bar)}}})
	for want, err := range map[string]error{
		"Setup.Left.Air": func() error { _, err := must(t, air).Leaked(0.1); return err }(),
	} {
		faults := units.Faults(err)
		if e, ok := errOf(faults); !ok || e.Field != want {
			t.Errorf("%v, want a fault of %s", err, want)
		}
	}
	if f, err := second.Equalized(0); err == nil {
		t.Errorf("a main chamber above the second one: %v", f)
	}
}

func errOf(faults []error) (*units.RangeError, bool) {
	if len(faults) == 0 {
		return nil, false
	}
	e, ok := faults[0].(*units.RangeError)
	return e, ok
}

// A sweep that goes on for longer than the fork is another fork's, and one of a fork sprung in the right leg
// stays there.
func TestSweepsOfTheRightFork(t *testing.T) {
	record, err := data.Reference().Fork("M07")
	if err != nil {
		t.Fatal(err)
	}
	spec := record.Spec(altitude(t, 0))
	line := func(to units.Length) spring.MeasuredSpec {
		return spring.MeasuredSpec{Loading: []spring.Reading{{Force: 50}, {Travel: to, Force: 4000}}}
	}
	for share, ok := range map[units.Length]bool{0.89: false, 0.91: true, 1.04: true, 1.06: false} {
		if _, err := spec.AsMeasured(line(share * spec.Travel)); (err == nil) != ok {
			t.Errorf("%v of the travel: %v", share, err)
		}
	}
	for _, sprung := range []setup.Side{setup.Left, setup.Right} {
		for _, air := range []bool{false, true} {
			s, leg := spec, setup.Leg{Springs: motocrossCoil.Left.Springs}
			if air {
				leg = setup.Leg{Air: spec.Left.Air}
			}
			s.Left, s.Right = leg, setup.Leg{}
			if sprung == setup.Right {
				s.Left, s.Right = s.Right, s.Left
			}
			got, err := s.AsMeasured(line(s.Travel))
			if err != nil {
				t.Fatal(err)
			}
			if more := [2]int{len(got.Left.Springs) - len(s.Left.Springs),
				len(got.Right.Springs) - len(s.Right.Springs)}; more[sprung] != 1 ||
				more[1-sprung] != 0 {
				t.Errorf("sprung %v, air %v: %v springs more", sprung, air, more)
			}
		}
	}
}

// Drawn forks differ by their tolerances, each number by its own deviation, and nothing else of them.
func TestDraw(t *testing.T) {
	tolerance := setup.Tolerance{Rate: 0.02, Preload: 0.5 * mm, Filled: [2]units.Volume{4 * mL, 0}, Residual: 2 * mL}
	coil := motocrossCoil.Left.Springs[0].(spring.CoilSpec)
	const n = 4000
	draws := map[string][]float64{}
	want := map[string]float64{"rate": 0.02 * float64(coil.Rate), "preload": 0.5e-3, "left gas": 4e-6, "right gas": 2e-6}
	r := rand.New(rand.NewPCG(1, 2))
	for range n {
		s := motocrossCoil.Draw(tolerance, r)
		drawn := s.Left.Springs[0].(spring.CoilSpec)
		for what, d := range map[string]float64{"rate": float64(drawn.Rate - coil.Rate),
			"preload":   float64(drawn.Preload - coil.Preload),
			"left gas":  float64(s.Left.Gap.Residual - motocrossCoil.Left.Gap.Residual),
			"right gas": float64(s.Right.Gap.Residual - motocrossCoil.Right.Gap.Residual)} {
			draws[what] = append(draws[what], d)
		}
		if s.Travel != motocrossCoil.Travel || s.Friction != motocrossCoil.Friction || drawn.FreeLength != coil.FreeLength {
			t.Fatalf("another fork: %+v", s)
		}
	}
	for what, list := range draws {
		var sum, squares float64
		for _, d := range list {
			sum += d
			squares += d * d
		}
		// The mean of 4000 is known to 1.6 % of a deviation, that to 1.1 % of itself: four of each.
		if mean, dev := sum/n, math.Sqrt(squares/n); !(math.Abs(mean) <= 0.064*want[what]) ||
			!(math.Abs(dev-want[what]) <= 0.045*want[what]) {
			t.Errorf("%s: %g ± %g, want ±%g", what, mean, dev, want[what])
		}
	}
}

// The right leg's air is read by the gauge as the left one's is.
func TestUncertaintyOfEitherAirLeg(t *testing.T) {
	other := motocrossAir
	other.Left, other.Right = other.Right, other.Left
	u := setup.Tolerance{Gauge: 0.1 * units.Bar}
	a, err := motocrossAir.Uncertainty(question(t, 700), u)
	if err != nil {
		t.Fatal(err)
	}
	b, err := other.Uncertainty(question(t, 700), u)
	if err != nil || !(a.Sag > 0) || !(math.Abs(float64(a.Sag-b.Sag)) <= 1e-9*float64(a.Sag)) {
		t.Errorf("left ±%v, right ±%v, %v", a.Sag, b.Sag, err)
	}
}

func pressure(t *testing.T, f *setup.Setup, chamber setup.Chamber) float64 {
	spaces, err := f.Spaces(0, gas.Isothermal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range spaces {
		if c.Chamber == chamber {
			return c.Gas.Pressure.In(units.Bar)
		}
	}
	t.Fatalf("no %v chamber", chamber)
	return 0
}

// A reading sets every chamber that has one and nothing else: a negative chamber filled through the port
// follows the main one, one with a valve its own gauge.
func TestRefillReachesThroughThePort(t *testing.T) {
	for name, own := range map[string]units.Pressure{"port": 0, "valve": 7 * units.Bar} {
		s, a := motocrossAir, *motocrossAir.Left.Air
		a.NegativeGauge = units.Gauge(own)
		s.Left.Air = &a
		fresh := must(t, s)
		// Met at a third of the travel, so that both have another pressure, and leaked.
		met, err := fresh.Equalized(s.Travel / 3)
		if err != nil {
			t.Fatal(err)
		}
		off, err := met.Leaked(0.6)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []setup.Chamber{setup.Positive, setup.Negative} {
			full, low := pressure(t, fresh, c), pressure(t, off, c)
			for what, test := range map[string]struct {
				got  *setup.Setup
				full bool
			}{
				"refilled":        {off.Refilled(), true},
				"positive":        {off.Refilled(setup.Positive), c == setup.Positive || own == 0},
				"negative":        {off.Refilled(setup.Negative), c == setup.Negative && own != 0},
				"over the oil":    {off.Refilled(setup.OverOil), false},
				"a damper's room": {off.Refilled(setup.Reservoir), false},
			} {
				want := low
				if test.full {
					want = full
				}
				if got := pressure(t, test.got, c); !(math.Abs(got-want) <= 1e-9) {
					t.Errorf("%s, %s: %v chamber at %.3f bar, want %.3f", name, what, c, got, want)
				}
			}
		}
	}
}

// Where chambers meet no gas is lost, a linked volume counted.
func TestEqualizedKeepsTheGas(t *testing.T) {
	s, a := motocrossAir, *motocrossAir.Left.Air
	a.Linked = 80 * mL
	s.Left.Air = &a
	forks := layouts()
	forks["linked and negative"] = s
	for name, s := range forks {
		amount := func(f *setup.Setup) (sum float64) {
			spaces, err := f.Spaces(0, gas.Isothermal)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range spaces {
				sum += float64(c.Gas.Amount())
			}
			return sum
		}
		f := must(t, s)
		met, err := f.Equalized(f.Curve(1).Stroke() / 3)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if before, after := amount(f), amount(met); !(math.Abs(after-before) <= 1e-12*before) {
			t.Errorf("%s: %v mol, %v before", name, after, before)
		}
	}
}
