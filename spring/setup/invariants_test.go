package setup_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// random draws plausible forks of one layout.
type random struct{ *rand.Rand }

func (r random) between(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

func (r random) fill(lo, hi float64) gas.Fill { return fill(r.between(lo, hi)) }

// air is an air spring with a negative chamber filled through its port.
func (r random) air(travel units.Length) setup.Air {
	a := setup.Air{Bore: units.Length(r.between(26, 38)) * mm, Fill: r.fill(3, 11)}
	a.Rod = a.Bore * units.Length(r.between(0.25, 0.45))
	swept := float64(geometry.Circle(a.Bore)) * float64(travel)
	a.Volume = units.Volume(swept * r.between(1.3, 2.2))
	a.NegativeVolume = units.Volume(swept * r.between(0.15, 0.8))
	return a
}

func (r random) gap(travel units.Length) *setup.Gap {
	return gap(travel, units.Length(r.between(34, 49))*mm, units.Length(r.between(0, 13))*mm, r.between(0.25, 1.2))
}

func (r random) coil() []spring.Spec {
	return []spring.Spec{spring.CoilSpec{Rate: units.Stiffness(r.between(4, 10)) * units.NewtonPerMillimeter,
		Preload: units.Length(r.between(2, 15)) * mm}}
}

// forks makes one random fork of each layout by name.
var forks = map[string]func(r random, travel units.Length) (left, right setup.Leg){
	"one valve with transfer port": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		return setup.Leg{Air: &a, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"two valves": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		a.NegativeGauge = units.Gauge(units.Pressure(a.Fill.Gauge.In(units.Pascal) * r.between(0.85, 1)))
		return setup.Leg{Air: &a, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"mechanical negative": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		a.NegativeVolume, a.Fill = 0, r.fill(2, 5)
		t := spring.TopOutSpec{Rate: units.Stiffness(r.between(2, 6)) * units.NewtonPerMillimeter, Length: travel / 4}
		return setup.Leg{Air: &a, Springs: []spring.Spec{t}, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"three chambers": func(r random, travel units.Length) (left, right setup.Leg) {
		a, g := r.air(travel), r.gap(travel)
		a.NegativeGauge = units.Gauge(units.Pressure(a.Fill.Gauge.In(units.Pascal) * r.between(0.85, 1)))
		g.Gauge = units.Gauge(units.Pressure(r.between(0, 1.5)) * units.Bar)
		return setup.Leg{Air: &a, Gap: g}, setup.Leg{Gap: r.gap(travel)}
	},
	"floating piston": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		a.SecondVolume = a.Volume * units.Volume(r.between(0.1, 0.3))
		a.SecondGauge = units.Gauge(units.Pressure(a.Fill.Gauge.In(units.Pascal) * r.between(1.4, 2.2)))
		return setup.Leg{Air: &a, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"whole-leg air": func(r random, travel units.Length) (left, right setup.Leg) {
		a := setup.Air{Bore: units.Length(r.between(40, 50)) * mm, Fill: r.fill(1.5, 3)}
		a.Volume = units.Volume(float64(geometry.Circle(a.Bore)) * float64(travel) * r.between(1.3, 1.8))
		leg := setup.Leg{Air: &a, Springs: []spring.Spec{spring.TopOutSpec{Rate: 3 * units.NewtonPerMillimeter,
			Length: travel / 4}}}
		return leg, leg
	},
	"air-assisted coil": func(r random, travel units.Length) (left, right setup.Leg) {
		g := r.gap(travel)
		g.Gauge = units.Gauge(units.Pressure(r.between(0.1, 0.5)) * units.Bar)
		leg := setup.Leg{Springs: r.coil(), Gap: g}
		return leg, leg
	},
	"pressurized damper": func(r random, travel units.Length) (left, right setup.Leg) {
		d := &setup.Damper{Rod: units.Length(r.between(10, 14)) * mm, Volume: units.Volume(r.between(60, 150)) * mL,
			Fill: r.fill(4, 8)}
		return setup.Leg{Springs: r.coil(), Gap: r.gap(travel)}, setup.Leg{Springs: r.coil(), Gap: r.gap(travel), Damper: d}
	},
	"linked auxiliary volume": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		a.Linked = a.Volume * units.Volume(r.between(0.1, 0.5))
		return setup.Leg{Air: &a, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"volume reducers": func(r random, travel units.Length) (left, right setup.Leg) {
		a := r.air(travel)
		extra := a.Volume * units.Volume(r.between(0.05, 0.2))
		a.Volume, a.Reducers = a.Volume+extra, extra
		return setup.Leg{Air: &a, Gap: r.gap(travel)}, setup.Leg{Gap: r.gap(travel)}
	},
	"two coils": func(r random, travel units.Length) (left, right setup.Leg) {
		return setup.Leg{Springs: r.coil(), Gap: r.gap(travel)}, setup.Leg{Springs: r.coil(), Gap: r.gap(travel)}
	},
}

// signedArea is the sum of the piston areas the ambient acts on, by hand.
func signedArea(s setup.Spec) (sum float64) {
	for _, l := range []setup.Leg{s.Left, s.Right} {
		if a := l.Air; a != nil {
			if a.NegativeVolume == 0 {
				sum += float64(geometry.Circle(a.Bore))
			} else {
				sum += float64(geometry.Circle(a.Rod))
			}
		}
		if l.Gap != nil {
			sum += float64(l.Gap.Area)
		}
		if l.Damper != nil {
			sum += float64(geometry.Circle(l.Damper.Rod))
		}
	}
	return sum
}

// metal is the force of the steel springs at x, by hand.
func metal(s setup.Spec, x units.Length) (sum float64) {
	for _, l := range []setup.Leg{s.Left, s.Right} {
		if c, ok := setup.Find[spring.CoilSpec](l); ok {
			sum += float64(c.Rate) * float64(x+c.Preload)
		}
		if t, ok := setup.Find[spring.TopOutSpec](l); ok {
			sum -= float64(t.Rate) * math.Max(0, float64(t.Length-x))
		}
	}
	return sum
}

// The invariants of a fork's springs, on many random forks of every layout.
func TestInvariants(t *testing.T) {
	names := make([]string, 0, len(forks))
	for name := range forks {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			r := random{rand.New(rand.NewPCG(17, uint64(len(name))))}
			for i := range 60 {
				travel := units.Length(r.between(90, 310)) * mm
				left, right := forks[name](r, travel)
				s := setup.Spec{Travel: travel, Closed: room, Friction: units.Force(r.between(0, 90)), Left: left, Right: right}
				invariants(t, s)
				if t.Failed() {
					t.Fatalf("case %d: %+v", i, s)
				}
			}
		})
	}
}

func invariants(t *testing.T, s setup.Spec) {
	f := must(t, s)
	rest := f.Curve(1)
	travels := []units.Length{0, s.Travel / 10, s.Travel / 3, s.Travel * 2 / 3, s.Travel}
	near := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 1e-9*(100+math.Abs(want))) {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}

	// The force rises, and rises more the faster the gas is.
	for _, n := range []float64{1, 1.3, 1.4} {
		curvetest.Rising(t, f.Curve(n))
	}
	for _, x := range travels[1:] {
		if a, b, c := rest.Force(x), f.Curve(1.3).Force(x), f.Curve(1.4).Force(x); a > b || b > c {
			t.Errorf("at %v: %v at n = 1, %v at 1.3, %v at 1.4", x, a, b, c)
		}
	}

	// Rate and energy are those of the force.
	var kinks []units.Length
	if top, ok := setup.Find[spring.TopOutSpec](s.Left); ok {
		kinks = append(kinks, top.Length)
	}
	if s.Left.Air == nil || s.Left.Air.SecondVolume == 0 { // whose kink the specification does not name
		curvetest.Contract(t, f.Curve(1.3), kinks...)
	}

	// The ambient acts on the sum of the signed areas, sealed gas does not see it.
	const drop = -25 * units.Kilopascal
	high, err := f.At(gas.Ambient{Temperature: room.Temperature,
		Pressure: units.Absolute(units.Pressure(room.Pressure.In(units.Pascal)) + drop)})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range travels {
		near(fmt.Sprintf("ambient at %v", x), float64(high.Curve(1).Force(x)-rest.Force(x)), -float64(drop)*signedArea(s))
	}

	// What the gas pushes, the ambient taken off, is proportional to temperature.
	const ratio = 1.08
	hot, err := f.At(gas.Ambient{Temperature: units.Kelvin(room.Temperature.Kelvin() * ratio), Pressure: room.Pressure})
	if err != nil {
		t.Fatal(err)
	}
	held := room.Pressure.In(units.Pascal) * signedArea(s)
	for _, x := range travels {
		near(fmt.Sprintf("heated at %v", x), float64(hot.Curve(1).Force(x))+held-metal(s, x),
			ratio*(float64(rest.Force(x))+held-metal(s, x)))
	}

	// Settled at x, the fork starts to move from the force at rest there.
	for _, x := range travels[:4] {
		near(fmt.Sprintf("about %v", x), float64(f.CurveAbout(x, 1.4).Force(x)), float64(rest.Force(x)))
	}

	// Sag grows with the load and shrinks with heat, inside the friction band.
	load := rest.Force(s.Travel / 4)
	a, b := sagOf(t, f, load), sagOf(t, f, load*1.1)
	if a.Middle >= b.Middle || a.High > a.Middle || a.Low < a.Middle {
		t.Errorf("sag %+v under %v, %+v under a tenth more", a, load, b)
	}
	if c := sagOf(t, hot, load); c.Middle >= a.Middle {
		t.Errorf("sag %v cold, %v hot", a.Middle, c.Middle)
	}

	// There and back nothing has changed.
	back, err := hot.At(room)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range spring.Sample(rest, 5) {
		near(fmt.Sprintf("back at %v", p.Travel), float64(back.Curve(1).Force(p.Travel)), float64(p.Force))
	}

	// Chambers that have met through the port start at gauge pressure on the rod.
	if air := s.Left.Air; air != nil && air.NegativeVolume != 0 && air.NegativeGauge == (units.GaugePressure{}) {
		open, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		near("equalized", float64(open.Curve(1).Force(0))-metal(s, 0),
			air.Fill.Gauge.In(units.Pascal)*float64(geometry.Circle(air.Rod)))
	}
}

func sagOf(t *testing.T, f *setup.Setup, load units.Force) setup.Sag {
	t.Helper()
	s, err := f.Sag(load)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
