package setup_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter
	mL = units.Milliliter
)

// room is the air of all tables here: 20 °C at sea level.
var room = gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1.01325 * units.Bar)}

// Generic forks, typical values from memory; each is one plausible point of its
// kind and no real fork.
var (
	motocrossAir = airFork(305*mm, 48*mm, 0, 0.55, setup.Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * mL,
		NegativeVolume: 70 * mL, Fill: fill(9.6)})
	enduroBike = airFork(170*mm, 36*mm, 10*mm, 1, setup.Air{Bore: 33.2 * mm, Rod: 10 * mm, Volume: 258 * mL,
		NegativeVolume: 80 * mL, Fill: fill(6.0)})
	downhillBike = airFork(200*mm, 40*mm, 10*mm, 1, setup.Air{Bore: 36.8 * mm, Rod: 10 * mm, Volume: 370 * mL,
		NegativeVolume: 150 * mL, Fill: fill(4.7)})
	crossCountry = airFork(100*mm, 32*mm, 9*mm, 1, setup.Air{Bore: 29 * mm, Rod: 9 * mm, Volume: 128 * mL,
		NegativeVolume: 24 * mL, Fill: fill(7.3)})
	motocrossCoil = coilFork(305*mm, 48*mm, 12.5*mm, 0.3, 2, spring.CoilSpec{Rate: 4.9 * units.NewtonPerMillimeter,
		Preload: 6 * mm})
	roadCoil   = roadFork()
	enduroCoil = coilFork(170*mm, 36*mm, 10*mm, 1, 1, spring.CoilSpec{Rate: 8.3 * units.NewtonPerMillimeter,
		Preload: 3 * mm})
)

func fill(bar float64) gas.Fill {
	return gas.Fill{Gauge: units.Gauge(units.Pressure(bar) * units.Bar), Ambient: room}
}

// gap is trapped gas whose volume at full travel is a share of what it sweeps.
func gap(travel, stanchion, rod units.Length, share float64) *setup.Gap {
	area := geometry.Circle(stanchion) - geometry.Circle(rod)
	return &setup.Gap{Area: area, Residual: units.Volume(share * float64(area) * float64(travel))}
}

func airFork(travel, stanchion, rod units.Length, share float64, a setup.Air) setup.Spec {
	g := gap(travel, stanchion, rod, share)
	return setup.Spec{Travel: travel, Closed: room, Friction: 60, Left: setup.Leg{Air: &a, Gap: g},
		Right: setup.Leg{Gap: g}}
}

func coilFork(travel, stanchion, rod units.Length, share float64, springs int, c spring.CoilSpec) setup.Spec {
	g := gap(travel, stanchion, rod, share)
	s := setup.Spec{Travel: travel, Closed: room, Friction: 60, Left: setup.Leg{Springs: []spring.Spec{c}, Gap: g},
		Right: setup.Leg{Gap: g}}
	if springs == 2 {
		s.Right.Springs = s.Left.Springs
	}
	return s
}

// roadFork is a road sport fork whose gap follows from a level of 100 mm.
func roadFork() setup.Spec {
	s := coilFork(120*mm, 43*mm, 0, 1, 2, spring.CoilSpec{Rate: 9.5 * units.NewtonPerMillimeter, Preload: 15 * mm})
	column := geometry.Circle(39.5*mm) + geometry.Circle(48*mm) - geometry.Circle(43*mm)
	g := setup.Gap{Area: geometry.Circle(43 * mm), Residual: units.Volume(float64(column)*0.100) - 80*mL}
	s.Left.Gap, s.Right.Gap = &g, &g
	return s
}

func must(t testing.TB, s setup.Spec) *setup.Setup {
	t.Helper()
	f, err := setup.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Force along the stroke and sag after soaking and aloft, as .ci/vectors/fork.py computes them from the same numbers by
// formulas of its own: no outside evidence, two programs of one model.
func TestForkRecord(t *testing.T) {
	with := func(s setup.Spec, change func(*setup.Air)) setup.Spec {
		air := *s.Left.Air
		change(&air)
		s.Left.Air = &air
		return s
	}
	leaked := func(a *setup.Air) { a.Fill.Gauge = a.Fill.Gauge.Times(0.95) }
	forks := map[string]setup.Spec{
		"motocross air": motocrossAir, "motocross coil": motocrossCoil, "enduro bicycle air": enduroBike,
		"enduro bicycle coil": enduroCoil, "downhill bicycle air": downhillBike, "motocross whole-leg air": wholeLeg(),
		"road sport coil": roadCoil, "cross-country bicycle": crossCountry,
		"linked auxiliary volume": with(motocrossAir, func(a *setup.Air) { a.Linked = 120 * mL }),
		"motocross air, 5 % less": with(motocrossAir, leaked), "enduro bicycle air, 5 % less": with(enduroBike, leaked),
		"enduro bicycle air, 10 mL reducer": with(enduroBike, func(a *setup.Air) { a.Reducers = 10 * mL }),
	}
	near := func(t *testing.T, row []string, got, want float64) {
		if !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
			t.Errorf("%q: %.12g, recorded %.12g", row, got, want)
		}
	}
	for _, row := range record.Rows(t, "fork.csv", "fork,what,at,value", 300) {
		f, want := must(t, forks[row[0]]), record.Number(t, row[3])
		if rest, ok := strings.CutPrefix(row[1], "force n="); ok {
			x := units.Length(record.Number(t, row[2])) * mm
			exponent, about, _ := strings.Cut(rest, " ")
			c := f.Curve(record.Number(t, exponent))
			if about != "" {
				c = f.CurveAbout(40*mm, record.Number(t, exponent))
			}
			near(t, row, float64(c.Force(x)), want)
			continue
		}
		at := strings.Fields(row[2]) // load N, change of temperature or altitude, its unit
		there := gas.Ambient{Temperature: room.Temperature, Pressure: room.Pressure}
		if at[3] == "K" {
			there.Temperature = there.Temperature.Add(units.TemperatureDifference(record.Number(t, at[2])))
		} else {
			there = altitude(t, units.Length(record.Number(t, at[2])))
		}
		d, err := f.Drift(units.Force(record.Number(t, at[0])), there)
		if err != nil {
			t.Fatal(row, err)
		}
		// A root is found to 1e-9 mm and better.
		if row[1] == "sag vented" {
			near(t, row, d.Vented.Middle.In(mm), want)
			if d.Refilled.Middle < d.Vented.Middle {
				t.Errorf("%q: the same gauge reading aloft gives %v, no softer than %v", row, d.Refilled, d.Vented)
			}
			continue
		}
		near(t, row, d.There.Middle.In(mm), want)
		if got := d.Change(d.There); got != d.There.Middle-d.Here.Middle || got > 0 != (d.There.Middle > d.Here.Middle) {
			t.Errorf("%q: changes by %v from %v", row, got, d.Here)
		}
	}
}

// altitude is a place of the standard atmosphere at the room's temperature.
func altitude(t testing.TB, h units.Length) gas.Ambient {
	t.Helper()
	a, err := gas.StandardAt(h, room.Temperature)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestContract(t *testing.T) {
	own := motocrossAir
	air := *own.Left.Air
	air.NegativeGauge = units.Gauge(9.1 * units.Bar)
	own.Left.Air = &air
	mechanical := motocrossAir
	plain := *mechanical.Left.Air
	plain.NegativeVolume = 0
	mechanical.Left.Air = &plain
	mechanical.Left.Springs = []spring.Spec{spring.TopOutSpec{Rate: 20 * units.NewtonPerMillimeter, Length: 40 * mm}}
	for _, c := range []struct {
		name  string
		fork  setup.Spec
		kinks []units.Length
	}{
		{"air leg", motocrossAir, nil}, {"bicycle air leg", enduroBike, nil}, {"two coils", motocrossCoil, nil},
		{"negative with its own valve", own, nil}, {"mechanical negative", mechanical, []units.Length{40 * mm}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := must(t, c.fork)
			curvetest.Contract(t, f.Curve(1), c.kinks...)
			curvetest.Contract(t, f.Curve(1.3), c.kinks...)
			curvetest.Contract(t, f.CurveAbout(60*mm, 1.4), c.kinks...)
			curvetest.Rising(t, f.Curve(1.3))
		})
	}
}

func TestFloatingPistonFork(t *testing.T) {
	s := enduroBike
	air := *s.Left.Air
	air.SecondVolume, air.SecondGauge = 55*mL, units.Gauge(10.2*units.Bar)
	s.Left.Air = &air
	f, plain := must(t, s), must(t, enduroBike)
	curvetest.Rising(t, f.Curve(1.3))
	if a, b := f.Curve(1.3).Force(20*mm), plain.Curve(1.3).Force(20*mm); !(math.Abs(float64(a/b-1)) <= 1e-13) {
		t.Errorf("before the piston floats: %v with and %v without a second chamber", a, b)
	}
	if a, b := f.Curve(1.3).Force(160*mm), plain.Curve(1.3).Force(160*mm); a >= b {
		t.Errorf("near the end: %v with, not below %v without a second chamber", a, b)
	}
	cold, err := f.At(gas.Ambient{Temperature: units.Celsius(0), Pressure: room.Pressure})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := cold.Curve(1).Force(160*mm), f.Curve(1).Force(160*mm); a >= b {
		t.Errorf("cold: %v, not below %v", a, b)
	}
}

func TestSealedGasScalesWithTemperature(t *testing.T) {
	// At fixed travel the force of the sealed main spring plus p_a times rod area is
	// proportional to absolute temperature: p ∝ T for each chamber.
	s := motocrossAir
	s.Left.Gap, s.Right.Gap = nil, nil
	f := must(t, s)
	const ratio = 1.1
	hot, err := f.At(gas.Ambient{Temperature: units.Kelvin(room.Temperature.Kelvin() * ratio), Pressure: room.Pressure})
	if err != nil {
		t.Fatal(err)
	}
	rod := room.Pressure.In(units.Pascal) * float64(geometry.Circle(12*mm))
	for _, p := range spring.Sample(f.Curve(1), 10) {
		want := (float64(p.Force) + rod) * ratio
		if got := float64(hot.Curve(1).Force(p.Travel)) + rod; !(math.Abs(got-want) <= 1e-9*want) {
			t.Errorf("at %v F + p_a·A_rod = %v N, want %v N", p.Travel, got, want)
		}
	}
}

func TestFilled(t *testing.T) {
	s := motocrossAir
	air := *s.Left.Air
	air.NegativeGauge = units.Gauge(9.12 * units.Bar) // 0.95 of 9.6 bar
	air.SecondVolume, air.SecondGauge = 60*mL, units.Gauge(14.4*units.Bar)
	s.Left.Air = &air
	f, err := s.Filled(fill(8))
	if got := f.Left.Air; err != nil || math.Abs(got.NegativeGauge.In(units.Bar)-7.6) > 1e-9 ||
		math.Abs(got.SecondGauge.In(units.Bar)-12) > 1e-9 || got.Fill != fill(8) {
		t.Errorf("filled to 8 bar: %+v", got)
	}
	if air.Fill != fill(9.6) || s.Left.Air.Fill != fill(9.6) {
		t.Error("Filled changed its receiver")
	}
	if _, err := motocrossCoil.Filled(fill(8)); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("a fork without air is filled: %v", err)
	}
}

func TestThereAndBack(t *testing.T) {
	f := must(t, motocrossAir)
	up, err := f.At(altitude(t, 2500*units.Meter))
	if err != nil {
		t.Fatal(err)
	}
	back, err := up.At(room)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range spring.Sample(f.Curve(1.3), 10) {
		if got := float64(back.Curve(1.3).Force(p.Travel)); !(math.Abs(got-float64(p.Force)) <= 1e-9*(1+float64(p.Force))) {
			t.Errorf("at %v: %v N after the trip, %v before", p.Travel, got, p.Force)
		}
	}
	if up.Ambient() == f.Ambient() || f.Ambient() != room {
		t.Error("At changed its receiver or did not move")
	}
}

func TestSagMonotone(t *testing.T) {
	// Sag falls with pressure, rate, preload and temperature, and grows with load.
	sag := func(s setup.Spec, load units.Force) units.Length {
		g, err := must(t, s).Sag(load)
		if err != nil {
			t.Fatal(err)
		}
		return g.Middle
	}
	r := rand.New(rand.NewPCG(3, 5))
	for range 100 {
		load := units.Force(300 + 500*r.Float64())
		air, coil := motocrossAir, motocrossCoil
		a, c := *air.Left.Air, coil.Left.Springs[0].(spring.CoilSpec)
		a.Fill = fill(7 + 4*r.Float64())
		c.Rate = units.Stiffness(4000 + 2000*r.Float64())
		c.Preload = units.Length(r.Float64()) * 10 * mm
		air.Left.Air, coil.Left.Springs = &a, []spring.Spec{c}

		pumped := a
		pumped.Fill.Gauge = units.Gauge(units.Pressure(a.Fill.Gauge.In(units.Pascal)) + 0.1*units.Bar)
		more := air
		more.Left.Air = &pumped
		if x, y := sag(air, load), sag(more, load); y >= x {
			t.Errorf("0.1 bar more: sag from %v to %v", x, y)
		}
		if x, y := sag(air, load), sag(air, load+20); y <= x {
			t.Errorf("20 N more: sag from %v to %v", x, y)
		}
		stiffer, preloaded := c, c
		stiffer.Rate += 100
		preloaded.Preload += 1 * mm
		for _, better := range []spring.CoilSpec{stiffer, preloaded} {
			other := coil
			other.Left.Springs = []spring.Spec{better}
			if x, y := sag(coil, load), sag(other, load); y >= x {
				t.Errorf("%+v after %+v: sag from %v to %v", better, c, x, y)
			}
		}
		d, err := must(t, air).Drift(load, gas.Ambient{Temperature: units.Celsius(30), Pressure: room.Pressure})
		if err != nil || d.There.Middle >= d.Here.Middle {
			t.Errorf("10 K warmer: sag from %v to %v, %v", d.Here.Middle, d.There.Middle, err)
		}
	}
}

func TestSagBand(t *testing.T) {
	f := must(t, motocrossCoil)
	s, err := f.Sag(689)
	if err != nil {
		t.Fatal(err)
	}
	if !(s.High < s.Middle && s.Middle < s.Low) {
		t.Errorf("band %v, %v, %v is not in order", s.High, s.Middle, s.Low)
	}
	// Half the band is about friction over rate: F_c/k.
	want := float64(f.Friction()) / float64(f.Curve(1).Rate(s.Middle))
	if got := float64(s.Low-s.High) / 2; !(math.Abs(got-want) <= 0.02*want) {
		t.Errorf("half band %v m, want about %v m", got, want)
	}
	light, err := f.Sag(30)
	if err != nil || light.Middle != 0 || light.High != 0 || light.Low == 0 {
		t.Errorf("below the top-out force: %+v, %v", light, err)
	}
}

func TestCurveRefuses(t *testing.T) {
	f := must(t, motocrossAir)
	for name, c := range map[string]spring.Curve{
		"n below 1": f.Curve(0.5), "n NaN": f.Curve(math.NaN()), "n absurd": f.Curve(7),
		"about a travel outside": f.CurveAbout(400*mm, 1.3),
		"about no number":        f.CurveAbout(units.Length(math.NaN()), 1.3),
	} {
		if c.Stroke() != 0 || !math.IsNaN(float64(c.Force(0))) {
			t.Errorf("%s: stroke %v, F(0) = %v; want no stroke and NaN", name, c.Stroke(), c.Force(0))
		}
		if _, err := spring.Equilibrium(c, 100); err == nil {
			t.Errorf("%s: an equilibrium without an error", name)
		}
	}
}

func TestNewRefuses(t *testing.T) {
	build := func(change func(*setup.Spec)) error {
		s := motocrossAir
		air, g := *s.Left.Air, *s.Left.Gap
		s.Left = setup.Leg{Air: &air, Gap: &g}
		change(&s)
		_, err := setup.New(s)
		return err
	}
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"travel missing", build(func(s *setup.Spec) { s.Travel = 0 }), "Spec.Travel = 0 mm: want 20 mm to 400 mm"},
		{"closed nowhere", build(func(s *setup.Spec) { s.Closed = gas.Ambient{} }), "Spec.Closed.Pressure = 0 bar abs"},
		{"friction negative", build(func(s *setup.Spec) { s.Friction = -1 }), "Spec.Friction = -1 N"},
		{"air volume swept away", build(func(s *setup.Spec) { s.Left.Air.Volume = 100 * mL }),
			"Spec.Left.Air.Volume = 100 mL"},
		{"gauge absurd", build(func(s *setup.Spec) { s.Left.Air.Fill.Gauge = units.Gauge(960 * units.Bar) }),
			"Spec.Left.Air.Fill.Gauge = 960 bar"},
		{"gap area missing", build(func(s *setup.Spec) { s.Left.Gap.Area = 0 }), "Spec.Left.Gap.Area = 0 cm²"},
		{"precharge absurd", build(func(s *setup.Spec) { s.Left.Gap.Gauge = units.Gauge(20 * units.Bar) }),
			"Spec.Left.Gap.Gauge = 20 bar"},
		{"own valve without a chamber", build(func(s *setup.Spec) {
			s.Left.Air.NegativeVolume, s.Left.Air.NegativeGauge = 0, units.Gauge(9*units.Bar)
		}), "a negative volume with it"},
		{"second gauge without a chamber", build(func(s *setup.Spec) { s.Left.Air.SecondGauge = units.Gauge(9 * units.Bar) }),
			"a second volume with it"},
		{"coil rate missing", build(func(s *setup.Spec) { s.Right.Springs = []spring.Spec{spring.CoilSpec{}} }),
			"Spec.Right.Springs[0].Rate = 0 N/mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.err == nil || !strings.Contains(c.err.Error(), c.want) || !errors.As(c.err, new(*units.RangeError)) {
				t.Errorf("error %v, want a *units.RangeError with %q", c.err, c.want)
			}
		})
	}
	for name, c := range map[string]struct {
		change func(*setup.Spec)
		fields string
	}{
		"bore and friction": {func(s *setup.Spec) { s.Left.Air.Bore, s.Friction = 3*mm, -5 }, "Friction Left.Air.Bore"},
		"a reading that is absurd and has no chamber": {func(s *setup.Spec) {
			s.Left.Air.NegativeVolume, s.Left.Air.NegativeGauge = 0, units.Gauge(99*units.Bar)
		}, "Left.Air.NegativeGauge"},
		"linked and second": {func(s *setup.Spec) {
			s.Left.Air.Linked, s.Left.Air.SecondVolume, s.Left.Air.SecondGauge = -1*mL, 100*mL, units.Gauge(20*units.Bar)
		}, "Left.Air.Linked"},
		"linked beside second": {func(s *setup.Spec) {
			s.Left.Air.Linked, s.Left.Air.SecondVolume, s.Left.Air.SecondGauge = 50*mL, 100*mL, units.Gauge(20*units.Bar)
		}, "Left.Air.Linked"},
		"second no higher than the main chamber": {func(s *setup.Spec) {
			s.Left.Air.SecondVolume, s.Left.Air.SecondGauge = 100*mL, s.Left.Air.Fill.Gauge
		}, "Left.Air.SecondGauge"},
		"second absurd": {func(s *setup.Spec) {
			s.Left.Air.SecondVolume, s.Left.Air.SecondGauge = 100*mL, units.Gauge(99*units.Bar)
		}, "Left.Air.SecondGauge"},
		"a fill that is told once": {func(s *setup.Spec) {
			s.Left.Air.SecondVolume, s.Left.Air.SecondGauge = 100*mL, units.Gauge(5*units.Bar)
			s.Left.Air.Fill.Gauge = units.Gauge(99 * units.Bar)
		}, "Left.Air.Fill.Gauge"},
		"more reducers than the chamber": {func(s *setup.Spec) { s.Left.Air.Reducers = s.Left.Air.Volume + 1*mL },
			"Left.Air.Reducers"},
		"no gas left in the damper": {func(s *setup.Spec) { // 113 mm² of rod sweep 34 mL
			s.Right.Damper = &setup.Damper{Rod: 12 * mm, Volume: 30 * mL, Fill: s.Left.Air.Fill}
		}, "Right.Damper.Volume"},
		"precharge absurd": {func(s *setup.Spec) { s.Left.Gap.Gauge = units.Gauge(4 * units.Bar) }, "Left.Gap.Gauge"},
		"every part": {func(s *setup.Spec) {
			s.Left = setup.Leg{Springs: []spring.Spec{nil, spring.TopOutSpec{Rate: 20 * units.NewtonPerMillimeter}},
				Air: &setup.Air{Fill: s.Left.Air.Fill}, Gap: &setup.Gap{}, Damper: &setup.Damper{Fill: s.Left.Air.Fill}}
		}, "Left.Springs[0] Left.Springs[1].Length Left.Air.Bore Left.Air.Volume Left.Damper.Rod Left.Damper.Volume " +
			"Left.Gap.Area"},
	} {
		var fields []string
		for _, err := range units.Faults(build(c.change)) {
			var r *units.RangeError
			if errors.As(err, &r) {
				fields = append(fields, strings.TrimPrefix(r.Field, "Spec."))
			}
		}
		if got := strings.Join(fields, " "); got != c.fields {
			t.Errorf("%s: faults of %q, want each once: %q", name, got, c.fields)
		}
	}
	f := must(t, motocrossAir)
	if _, err := f.At(gas.Ambient{}); err == nil {
		t.Error("carried to a vacuum at 0 K without an error")
	}
	for _, c := range []struct{ settled, x units.Length }{{-1 * mm, 0}, {400 * mm, 0}, {0, 400 * mm}} {
		if _, err := f.SpacesAbout(c.settled, c.x, 1.3); err == nil {
			t.Errorf("gas at %v after a rest at %v", c.x, c.settled)
		}
	}
	if _, err := f.Spaces(0, 0.9); err == nil {
		t.Error("gas of an exponent below 1")
	}
	if _, err := f.Sag(-1); err == nil {
		t.Error("a sag under less than nothing")
	}
	ask := setup.Question{Load: 800, Exponent: 1.3, There: motocrossAir.Closed}
	if _, err := motocrossAir.Sample(t.Context(), ask, setup.Usual(), 9, 1); err == nil {
		t.Error("a deviation of nine samples")
	}
	if s, err := motocrossAir.Sample(t.Context(), ask, setup.Usual(), 10, 1); err != nil || !(s.Mean.Sag > 0) {
		t.Errorf("ten samples: %+v, %v", s, err)
	}
	ask.There.Temperature = units.Kelvin(10)
	if _, err := motocrossAir.Uncertainty(ask, setup.Usual()); err == nil {
		t.Error("carried to 10 K without an error")
	}
	if _, err := f.Sag(units.Force(math.NaN())); err == nil {
		t.Error("a sag under NaN")
	}
	if _, err := f.Sag(8 * units.Kilonewton); err == nil {
		t.Error("a sag under a load the fork does not carry")
	}
}

func FuzzNew(f *testing.F) {
	f.Add(0.305, 0.034, 0.012, 430e-6, 9.6e5, 70e-6, 0.0, 0.0, 0.0, 0.0, 18e-4, 300e-6, 0.0, 293.15, 1.01325e5, 650.0, 1.3)
	f.Fuzz(func(t *testing.T, travel, bore, rod, volume, gauge, negative, port, own, v2, p2, area, residual, precharge,
		kelvin, ambient, load, n float64) {
		here := gas.Ambient{Temperature: units.Kelvin(kelvin), Pressure: units.Absolute(units.Pressure(ambient))}
		s, err := setup.New(setup.Spec{Travel: units.Length(travel), Closed: here, Friction: 50,
			Left: setup.Leg{
				Air: &setup.Air{Bore: units.Length(bore), Rod: units.Length(rod), Volume: units.Volume(volume),
					Fill:           gas.Fill{Gauge: units.Gauge(units.Pressure(gauge)), Ambient: here},
					NegativeVolume: units.Volume(negative), Port: units.Length(port), NegativeGauge: units.Gauge(units.Pressure(own)),
					SecondVolume: units.Volume(v2), SecondGauge: units.Gauge(units.Pressure(p2))},
				Gap: &setup.Gap{Area: units.Area(area), Residual: units.Volume(residual),
					Gauge: units.Gauge(units.Pressure(precharge))}}})
		if err != nil {
			return
		}
		for _, c := range []spring.Curve{s.Curve(n), s.CurveAbout(s.Travel()/4, n), s.Vented().Refilled().Curve(1)} {
			for _, p := range spring.Sample(c, 7) {
				if math.IsNaN(float64(p.Force)) || math.IsNaN(float64(p.Energy)) {
					t.Fatalf("accepted, but %+v", p)
				}
			}
		}
		sag, err := s.Sag(units.Force(load))
		if err == nil && !(sag.Middle >= 0 && sag.Middle <= s.Travel()) {
			t.Errorf("sag %+v", sag)
		}
		d, err := s.Drift(units.Force(load), room)
		if err == nil && math.IsNaN(float64(d.Change(d.Refilled))) {
			t.Errorf("drift %+v", d)
		}
	})
}

// An air fork set at home is taken to a cold, high place.
func Example() {
	home, _ := gas.StandardAt(200*units.Meter, units.Celsius(24))
	event, _ := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	gap := &setup.Gap{Area: geometry.Circle(48 * units.Millimeter), Residual: 300 * units.Milliliter}
	fork, err := setup.New(setup.Spec{
		Travel: 305 * units.Millimeter, Closed: home, Friction: 80 * units.Newton,
		Left: setup.Leg{Gap: gap, Air: &setup.Air{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
			Volume: 430 * units.Milliliter, NegativeVolume: 70 * units.Milliliter,
			Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: home}}},
		Right: setup.Leg{Gap: gap},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := fork.Drift(645*units.Newton, event)
	fmt.Printf("sag %.0f, band %.0f to %.0f\n", d.Here.Middle, d.Here.High, d.Here.Low)
	fmt.Printf("there %.0f, vented %.0f, set again %.0f, %v\n", d.There.Middle, d.Vented.Middle, d.Refilled.Middle, err)
	// Output:
	// sag 66 mm, band 54 mm to 78 mm
	// there 62 mm, vented 74 mm, set again 70 mm, <nil>
}

func BenchmarkCurve(b *testing.B) {
	f := must(b, motocrossAir)
	b.ReportAllocs()
	for b.Loop() {
		f.Curve(1.3)
	}
}

func BenchmarkSag(b *testing.B) {
	f := must(b, motocrossAir)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Sag(682); err != nil {
			b.Fatal(err)
		}
	}
}
