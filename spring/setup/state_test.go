package setup_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// layouts are the kinds of fork a leg can be part of, all typical values from
// memory.
func layouts() map[string]setup.Spec {
	with := func(base setup.Spec, change func(*setup.Spec, *setup.Air)) setup.Spec {
		if base.Left.Air == nil {
			change(&base, nil)
			return base
		}
		air := *base.Left.Air
		base.Left.Air = &air
		change(&base, &air)
		return base
	}
	return map[string]setup.Spec{
		"one valve with transfer port": with(motocrossAir, func(_ *setup.Spec, a *setup.Air) { a.Port = 5 * mm }),
		"two valves": with(motocrossAir, func(_ *setup.Spec, a *setup.Air) {
			a.NegativeGauge = units.Gauge(9.1 * units.Bar)
		}),
		"mechanical negative": with(motocrossAir, func(s *setup.Spec, a *setup.Air) {
			a.NegativeVolume = 0
			a.Fill = fill(4)
			s.Left.Springs = []spring.Spec{spring.TopOutSpec{Rate: 9 * units.NewtonPerMillimeter, Length: 40 * mm}}
		}),
		"three chambers": with(motocrossAir, func(s *setup.Spec, a *setup.Air) {
			a.NegativeGauge = units.Gauge(9.1 * units.Bar)
			g := *s.Left.Gap
			g.Gauge = units.Gauge(0.15 * units.Bar)
			s.Left.Gap = &g
		}),
		"floating piston": with(enduroBike, func(_ *setup.Spec, a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 55*mL, units.Gauge(10.2*units.Bar)
		}),
		"whole-leg air in both legs": wholeLeg(),
		"air-assisted coil": with(motocrossCoil, func(s *setup.Spec, _ *setup.Air) {
			g := *s.Left.Gap
			g.Gauge = units.Gauge(0.4 * units.Bar)
			s.Left.Gap, s.Right.Gap = &g, &g
		}),
		"pressurized damper": with(motocrossCoil, func(s *setup.Spec, _ *setup.Air) {
			s.Right.Damper = &setup.Damper{Rod: 12.5 * mm, Volume: 80 * mL, Fill: fill(6)}
		}),
		"linked auxiliary volume": with(motocrossAir, func(_ *setup.Spec, a *setup.Air) { a.Linked = 120 * mL }),
		"volume reducers":         with(enduroBike, func(_ *setup.Spec, a *setup.Air) { a.Reducers = 30 * mL }),
	}
}

// wholeLeg is a fork whose legs are air springs as a whole, with a coil to balance
// each near full extension.
func wholeLeg() setup.Spec {
	leg := setup.Leg{Air: &setup.Air{Bore: 47.3 * mm, Volume: 770 * mL, Fill: fill(2.2)},
		Springs: []spring.Spec{spring.TopOutSpec{Rate: 4 * units.NewtonPerMillimeter, Length: 95 * mm}}}
	return setup.Spec{Travel: 305 * mm, Closed: room, Friction: 80, Left: leg, Right: leg}
}

func TestLayouts(t *testing.T) {
	for name, s := range layouts() {
		t.Run(name, func(t *testing.T) {
			var kinks []units.Length
			if top, ok := setup.Find[spring.TopOutSpec](s.Left); ok {
				kinks = []units.Length{top.Length}
			}
			f := must(t, s)
			for _, c := range []spring.Curve{f.Curve(1), f.Curve(1.3), f.CurveAbout(40*mm, 1.4)} {
				curvetest.Rising(t, c)
				if s.Left.Air == nil || s.Left.Air.SecondVolume == 0 {
					curvetest.Contract(t, c, kinks...)
				}
			}
			x := s.Travel / 3
			if a, b := f.Curve(1).Force(x), f.CurveAbout(x, 1.4).Force(x); !(math.Abs(float64(a-b)) <= 1e-6) {
				t.Errorf("settled at %v: %v at rest, %v when it starts to move", x, a, b)
			}
		})
	}
}

// pressures of the air chambers at x at rest, in Pa, with volumes in m³.
func pressures(t *testing.T, f *setup.Setup, x units.Length) (p, v, q, w float64) {
	t.Helper()
	a, err := f.Air(setup.Left, gas.Isothermal)
	negative, has := a.Negative()
	if err != nil || !has {
		t.Fatal("no air spring with a negative chamber:", err)
	}
	return a.Positive().Pressure(x).In(units.Pascal), float64(a.Positive().Volume(x)),
		negative.Pressure(x).In(units.Pascal), float64(negative.Volume(x))
}

func TestEqualized(t *testing.T) {
	f := must(t, layouts()["two valves"])
	const x = 66 * mm
	m, err := f.Equalized(x)
	if err != nil {
		t.Fatal(err)
	}
	p, v, q, w := pressures(t, m, x)
	if !(math.Abs(p-q) <= 1e-6*p) {
		t.Errorf("met at %v: %v Pa and %v Pa", x, p, q)
	}
	p0, v0, q0, w0 := pressures(t, f, x)
	if before, after := p0*v0+q0*w0, p*v+q*w; !(math.Abs(before-after) <= 1e-12*before) {
		t.Errorf("gas before %v Pa·m³, after %v Pa·m³", before, after)
	}
	// The fork is sucked down: what stood at x needs less load there now.
	if a, b := m.Curve(1).Force(x), f.Curve(1).Force(x); a >= b {
		t.Errorf("at %v after the leak %v, before %v", x, a, b)
	}
	back, err := m.Equalized(0)
	if err != nil {
		t.Fatal(err)
	}
	p, v, q, w = pressures(t, back, 0)
	if now := p*v + q*w; !(math.Abs(p-q) <= 1e-6*p) || !(math.Abs(now-p0*v0-q0*w0) <= 1e-12*now) {
		t.Errorf("at the port %v Pa and %v Pa, gas %v", p, q, now)
	}
}

func TestRefilledSetsThePrecharge(t *testing.T) {
	f := must(t, layouts()["three chambers"])
	back := f.Vented().Refilled()
	for _, p := range spring.Sample(f.Curve(1), 5) {
		if got := back.Curve(1).Force(p.Travel); !(math.Abs(float64(got-p.Force)) <= 1e-9*(1+float64(p.Force))) {
			t.Errorf("at %v after venting and setting again %v, want %v", p.Travel, got, p.Force)
		}
	}
}

// Chambers set again one by one, in any order, are as if all were set at once; each leaves the others alone, but for a
// negative chamber that is filled through its port.
func TestRefilledChamberByChamber(t *testing.T) {
	own := &setup.Air{Bore: 36 * mm, Rod: 10 * mm, Volume: 400 * mL, Linked: 50 * mL, Fill: fill(8),
		NegativeVolume: 60 * mL, NegativeGauge: units.Gauge(7 * units.Bar)}
	ported := &setup.Air{Bore: 34 * mm, Volume: 150 * mL, Fill: fill(5), SecondVolume: 150 * mL,
		SecondGauge: units.Gauge(10 * units.Bar), NegativeVolume: 40 * mL, Port: 5 * mm}
	f, err := setup.New(setup.Spec{Travel: 150 * mm, Closed: fill(8).Ambient, Left: setup.Leg{Air: own},
		Right: setup.Leg{Air: ported,
			Gap: &setup.Gap{Area: 15 * units.SquareCentimeter, Residual: 50 * mL, Gauge: units.Gauge(0.3 * units.Bar)}}})
	if err != nil {
		t.Fatal(err)
	}
	if f, err = f.Leaked(0.8); err != nil {
		t.Fatal(err)
	}
	gauges := func(f *setup.Setup) map[string]float64 {
		spaces, err := f.Spaces(0, gas.Isothermal)
		if err != nil {
			t.Fatal(err)
		}
		m := map[string]float64{}
		for _, c := range spaces {
			m[c.Side.String()+" "+c.Chamber.String()] = c.Gas.Pressure.In(units.Bar)
		}
		return m
	}
	low, all := gauges(f), gauges(f.Refilled())
	for chamber, reaches := range map[setup.Chamber][]string{
		setup.Positive: {"left positive", "left linked", "right positive", "right negative"},
		setup.Negative: {"left negative"}, setup.Second: {"right second"}, setup.OverOil: {"right over-oil"},
	} {
		for name, got := range gauges(f.Refilled(chamber)) {
			want := low[name]
			if slices.Contains(reaches, name) {
				want = all[name]
			}
			if !(math.Abs(got-want) <= 1e-9) {
				t.Errorf("%v set again: %s has %.3f bar, want %.3f", chamber, name, got, want)
			}
		}
	}
	each := f.Refilled(setup.OverOil).Refilled(setup.Second).Refilled(setup.Negative, setup.Positive)
	if got := gauges(each); !maps.Equal(got, all) {
		t.Errorf("one by one %v, at once %v", got, all)
	}
}

// What a fork of any layout lost is there again when it is set again, in every chamber.
func TestEveryLayoutRefilled(t *testing.T) {
	for name, spec := range layouts() {
		f := must(t, spec)
		fresh, err := f.Spaces(0, gas.Isothermal)
		if err != nil {
			t.Fatal(name, err)
		}
		low, err := f.Leaked(0.8)
		if err != nil {
			t.Fatal(name, err)
		}
		var has []setup.Chamber
		for _, c := range fresh {
			has = append(has, c.Chamber)
		}
		for _, again := range []*setup.Setup{low.Refilled(), low.Refilled(has...)} {
			spaces, err := again.Spaces(0, gas.Isothermal)
			if err != nil {
				t.Fatal(name, err)
			}
			for i, c := range spaces {
				got, want := c.Gas.Pressure.In(units.Bar), fresh[i].Gas.Pressure.In(units.Bar)
				if !(math.Abs(got-want) <= 1e-9*want) {
					t.Errorf("%s: %v chamber set again has %.4f bar, before %.4f bar", name, c.Chamber, got, want)
				}
			}
		}
	}
}

// With a floating piston off its stop the leak at x balances where the gas of all three
// chambers adds up: the force there is that of one pressure on both sides of the piston.
func TestEqualizedWithFloatingPiston(t *testing.T) {
	s := layouts()["floating piston"]
	s.Left.Gap, s.Right.Gap = nil, nil
	f := must(t, s)
	for _, x := range []units.Length{20 * mm, 160 * mm} {
		m, err := f.Equalized(x)
		if err != nil {
			t.Fatal(err)
		}
		// Gas laws by bisection: find p at which main, negative and, above its own pressure,
		// second chamber hold what they held.
		air, pa := s.Left.Air, room.Pressure.In(units.Pascal)
		rod := float64(geometry.Circle(air.Rod))
		filled := air.Fill.Gauge.In(units.Pascal) + pa
		second := air.SecondGauge.In(units.Pascal) + pa
		gas := filled * float64(air.Volume+air.NegativeVolume)
		lo, hi := 0.0, 100e5
		for range 200 {
			p := (lo + hi) / 2
			room := float64(air.Volume+air.NegativeVolume) - rod*float64(x)
			if p > second {
				room += float64(air.SecondVolume) * (1 - second/p)
			}
			if p*room < gas {
				lo = p
			} else {
				hi = p
			}
		}
		if got, want := float64(m.Curve(1).Force(x)), (lo-pa)*rod; !(math.Abs(got-want) <= 1e-6*want) {
			t.Errorf("met at %v: %v N, want gauge times rod, %v N", x, got, want)
		}
	}
}

func TestLeaked(t *testing.T) {
	f := must(t, motocrossAir)
	m, err := f.Leaked(0.9)
	if err != nil {
		t.Fatal(err)
	}
	p, _, q, _ := pressures(t, m, 0)
	p0, _, q0, _ := pressures(t, f, 0)
	if !(math.Abs(p-0.9*p0) <= 1e-9*p0) || !(math.Abs(q-0.9*q0) <= 1e-9*q0) {
		t.Errorf("nine tenths: %v of %v Pa, %v of %v Pa", p, p0, q, q0)
	}
	if _, err := f.Leaked(0); err == nil {
		t.Error("an empty air spring without an error")
	}
	if _, err := f.Leaked(math.NaN()); err == nil {
		t.Error("NaN of the gas without an error")
	}
}

func TestTrappedGas(t *testing.T) {
	f := must(t, motocrossCoil)
	sag := func(s *setup.Setup, err error) units.Length {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		g, err := s.Sag(689)
		if err != nil {
			t.Fatal(err)
		}
		return g.Middle
	}
	shut := sag(f, nil)
	if open := sag(f.Open()); open <= shut {
		t.Errorf("with a seal gone the fork sags %v, sealed %v", open, shut)
	}
	if vacuum := sag(f.VentedAt(60 * mm)); vacuum <= shut {
		t.Errorf("vented with the weight on, the fork sags %v, else %v", vacuum, shut)
	}
	// 0.2 bar pumped in add 2·Δp·A = 72 N at full extension of a 48 mm fork, by hand
	// (here less the rod a sealed cartridge swallows).
	m, err := f.Pumped(0.2 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	want := 2 * 0.2e5 * (float64(geometry.Circle(48*mm)) - float64(geometry.Circle(12.5*mm)))
	if got := float64(m.Curve(1).Force(0) - f.Curve(1).Force(0)); !(math.Abs(got-want) <= 1e-9*want) {
		t.Errorf("0.2 bar pumped in add %v N, want %v", got, want)
	}
	if back := sag(m.Vented(), nil); !(math.Abs(float64(back-shut)) <= 1e-9) {
		t.Errorf("vented again the fork sags %v, want %v", back, shut)
	}
	for name, err := range map[string]error{
		"vented at the bottom": second(f.VentedAt(305 * mm)), "vented nowhere": second(f.VentedAt(units.Length(math.NaN()))),
		"pumped by a compressor": second(f.Pumped(8 * units.Bar)), "equalized outside": second(f.Equalized(-1 * mm)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second(_ *setup.Setup, err error) error { return err }

func TestLinkedVolume(t *testing.T) {
	s := layouts()["linked auxiliary volume"]
	f := must(t, s)
	big := s
	air := *s.Left.Air
	air.Volume, air.Linked = air.Volume+air.Linked, 0
	big.Left.Air = &air
	// At rest the two volumes are one.
	joined := must(t, big)
	for _, p := range spring.Sample(joined.Curve(1), 9) {
		if got := f.Curve(1).Force(p.Travel); !(math.Abs(float64(got-p.Force)) <= 1e-9*(1+float64(p.Force))) {
			t.Errorf("at rest at %v: %v linked, %v in one", p.Travel, got, p.Force)
		}
	}
	// Ridden, the auxiliary volume is cut off and the end is firmer.
	if a, b := f.CurveAbout(60*mm, 1.3).Force(280*mm), joined.CurveAbout(60*mm, 1.3).Force(280*mm); a <= b {
		t.Errorf("ridden at 280 mm: %v linked, not above %v in one", a, b)
	}
}

func TestPressurizedDamper(t *testing.T) {
	with, without := must(t, layouts()["pressurized damper"]), must(t, motocrossCoil)
	// Gauge pressure on the rod section, by hand: 6 bar · π/4·(12.5 mm)² = 73.6 N.
	if got := float64(with.Curve(1).Force(0) - without.Curve(1).Force(0)); !(math.Abs(got-73.6) <= 0.05) {
		t.Errorf("the damper's gas pushes with %.2f N, want 73.6", got)
	}
	hot, err := with.At(gas.Ambient{Temperature: units.Celsius(60), Pressure: room.Pressure})
	if err != nil {
		t.Fatal(err)
	}
	// (7.013 bar·333.15/293.15 − 1.013 bar) on the rod less what it was: 11.7 N.
	open, err := hot.Open()
	if err != nil {
		t.Fatal(err)
	}
	cold, err := with.Open()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(open.Curve(1).Force(0) - cold.Curve(1).Force(0)); !(math.Abs(got-11.74) <= 0.05) {
		t.Errorf("40 K more push with %.2f N more, want 11.74", got)
	}
}

// A leak past the piston at sag draws the fork down, and the next full extension
// over the port repairs it in part.
func ExampleSetup_Equalized() {
	home, _ := gas.StandardAt(0, units.Celsius(20))
	fork, err := setup.New(setup.Spec{Travel: 170 * units.Millimeter, Closed: home,
		Left: setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
			Volume:         258 * units.Milliliter,
			NegativeVolume: 80 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(6 * units.Bar), Ambient: home}}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	before, _ := fork.Sag(319 * units.Newton)
	leaky, _ := fork.Equalized(before.Middle)
	after, err := leaky.Sag(319 * units.Newton)
	fmt.Printf("sag %.0f, after the leak %.0f, %v\n", before.Middle, after.Middle, err)
	// Output: sag 44 mm, after the leak 90 mm, <nil>
}

func ExampleSetup_Leaked() {
	home, _ := gas.StandardAt(0, units.Celsius(20))
	fork, err := setup.New(setup.Spec{Travel: 170 * units.Millimeter, Closed: home,
		Left: setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
			Volume:         258 * units.Milliliter,
			NegativeVolume: 80 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(6 * units.Bar), Ambient: home}}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, share := range []float64{1, 0.9, 0.8} {
		low, err := fork.Leaked(share)
		if err != nil {
			fmt.Println(err)
			return
		}
		sag, err := low.Sag(319 * units.Newton)
		fmt.Printf("%.0f %% of the gas: sag %.0f, %v\n", 100*share, sag.Middle, err)
	}
	// Output:
	// 100 % of the gas: sag 44 mm, <nil>
	// 90 % of the gas: sag 51 mm, <nil>
	// 80 % of the gas: sag 59 mm, <nil>
}

// Seals pump 0.2 bar into the gas over the oil of both legs on an outing: what bleeding at the top end gives back.
func ExampleSetup_Pumped() {
	leg := setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 4.6 * units.NewtonPerMillimeter, Preload: 6 * mm}},
		Gap: &setup.Gap{Area: 18 * units.SquareCentimeter, Residual: 130 * units.Milliliter}}
	fresh, err := setup.New(setup.Spec{Travel: 305 * mm, Left: leg, Right: leg, Closed: room})
	if err != nil {
		fmt.Println(err)
		return
	}
	pumped, err := fresh.Pumped(0.2 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, fork := range []*setup.Setup{fresh, pumped, pumped.Vented()} {
		c := fork.Curve(gas.Ridden)
		fmt.Printf("%.0f at the top, %.0f at the end\n", c.Force(0), c.Force(c.Stroke()))
	}
	// Output:
	// 55 N at the top, 5625 N at the end
	// 127 N at the top, 6242 N at the end
	// 55 N at the top, 5625 N at the end
}
