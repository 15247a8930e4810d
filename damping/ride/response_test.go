package ride

import (
	"context"
	"errors"
	"math"
	"math/cmplx"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// machine is a body on air and a damper at a rake, over a wheel and a tire with damping.
func machine(t *testing.T) *Vehicle {
	v := onAir(t, 0.08, 0)
	s := v.spec
	s.Unsprung, s.Rake, s.Tire = 12, 0.45, Tire{Stiffness: 90e3, Damping: 400}
	s.Damper, s.Sprung = linear(450), 80
	moved, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return moved
}

// Small waves against the two equations of motion, solved here by Cramer's rule:
//
//	(K − m_s·ω²)·B − K·W = 0      −K·B + (K + T − m_u·ω²)·W = T·1
//
// with K the fork along the vertical, spring and gas by the closed form of package gas, and T the tire.
func TestResponseSolvesTheMotion(t *testing.T) {
	v := machine(t)
	s := v.spec
	atRest := float64(s.Fork.Curve(gas.Isothermal).Rate(v.sag))
	cos := math.Cos(0.45)
	for _, hz := range []units.Frequency{0.4, 1.5, 3, 8, 20} {
		w := 2 * math.Pi * float64(hz)
		n, loss := s.Exchange.Exponent(hz), s.Exchange.LossFactor(hz)
		axial := complex(atRest*n, atRest*n*loss+450*w)
		k, tire := axial/complex(cos*cos, 0), complex(90e3, 400*w)
		a, b, d := k-complex(80*w*w, 0), -k, k+tire-complex(12*w*w, 0)
		det := a*d - b*b
		body, wheel := -b*tire/det, a*tire/det
		travel := (wheel - body) / complex(cos, 0)
		const road = 0.1e-3
		r, err := v.Response(hz, road)
		if err != nil {
			t.Fatal(err)
		}
		m, err := v.SteppedSine(context.Background(), hz, road)
		if err != nil {
			t.Fatal(err)
		}
		for name, c := range map[string]struct {
			r         Response
			tolerance float64 // the balance has the fork's curve in it, the motion its settling as well
		}{"balance": {r, 2e-4}, "motion": {m, 2e-3}} {
			at := func(what string, got, want float64) {
				near(t, name+" at "+hz.String()+": "+what, got, want, c.tolerance*math.Max(math.Abs(want), 1e-9))
			}
			at("body", c.r.Body, cmplx.Abs(body))
			at("wheel", c.r.Wheel, cmplx.Abs(wheel))
			at("travel", float64(c.r.Travel), road*cmplx.Abs(travel))
			at("tire", float64(c.r.Tire), road*cmplx.Abs(tire*(1-wheel)))
			at("in phase", float64(c.r.Stiffness), real(axial))
			at("out of phase", float64(c.r.Damping), imag(axial)/w)
			near(t, name+": phase of the body", float64(c.r.BodyPhase), cmplx.Phase(body), 2e-3)
			near(t, name+": phase of the wheel", float64(c.r.WheelPhase), cmplx.Phase(wheel), 2e-3)
		}
	}
}

// The linear element of every layout is what small waves find in its motion, in phase and out: chambers apart, and
// behind a floating piston on its stop and off it.
func TestResponseOfEveryLayout(t *testing.T) {
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	for name, change := range map[string]func(a *setup.Air){
		"one chamber": func(*setup.Air) {},
		"port shut": func(a *setup.Air) {
			a.NegativeVolume, a.Port = 40*units.Milliliter, 8*units.Millimeter
		},
		"valve": func(a *setup.Air) {
			a.NegativeVolume, a.NegativeGauge = 40*units.Milliliter, units.Gauge(3*units.Bar)
		},
		"piston on its stop": func(a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 150*units.Milliliter, units.Gauge(12*units.Bar)
		},
		"piston off its stop": func(a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 150*units.Milliliter, units.Gauge(3.05*units.Bar)
		},
		"piston off its stop, and a negative chamber": func(a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 150*units.Milliliter, units.Gauge(3.05*units.Bar)
			a.NegativeVolume, a.Port = 40*units.Milliliter, 8*units.Millimeter
		},
		"linked": func(a *setup.Air) { a.Linked = 150 * units.Milliliter },
	} {
		a := setup.Air{Bore: 40 * units.Millimeter, Rod: 12 * units.Millimeter, Volume: 330 * units.Milliliter,
			Fill: gas.Fill{Gauge: units.Gauge(3 * units.Bar), Ambient: room}}
		change(&a)
		f, err := setup.New(setup.Spec{Travel: 160 * units.Millimeter, Closed: room, Left: setup.Leg{Air: &a}})
		if err != nil {
			t.Fatal(name, err)
		}
		v := base(t, 50, 1000, func(s *Spec) {
			s.Fork, s.Damper, s.Exchange = f, nil, gas.Exchange{TimeConstant: 0.08}
		})
		if v.sag < a.Port {
			t.Fatalf("%s: sag %v, port %v", name, v.sag, a.Port)
		}
		for _, hz := range []units.Frequency{0.7, 2, 6} {
			const road = 0.2 * units.Millimeter
			r, err1 := v.Response(hz, road)
			m, err2 := v.SteppedSine(context.Background(), hz, road)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(name, err)
			}
			at := name + " at " + hz.String() + ": "
			near(t, at+"in phase", float64(r.Stiffness), float64(m.Stiffness), 0.01*float64(m.Stiffness))
			near(t, at+"out of phase", float64(r.Damping), float64(m.Damping), 0.03*float64(m.Damping))
		}
	}
}

// Friction adds 4·F/(π·ω·X) of damping at the amplitude there is; where it holds the fork, body and wheel are one mass
// on the tire.
func TestResponseWithFriction(t *testing.T) {
	v := onAir(t, 0.08, 60)
	const hz = units.Frequency(2)
	w := 2 * math.Pi * 2.0
	r, err := v.Response(hz, 30*units.Millimeter)
	if err != nil || r.Stuck {
		t.Fatal(r, err)
	}
	atRest := float64(v.spec.Fork.Curve(gas.Isothermal).Rate(v.sag))
	n, loss := v.spec.Exchange.Exponent(hz), v.spec.Exchange.LossFactor(hz)
	want := 300 + 4*60/(math.Pi*w*float64(r.Travel)) + atRest*n*loss/w
	near(t, "damping", float64(r.Damping), want, 0.002*want)

	s := v.spec
	s.Unsprung, s.Tire = 12, Tire{Stiffness: 90e3, Damping: 400}
	if v, err = New(s); err != nil {
		t.Fatal(err)
	}
	for _, hz := range []units.Frequency{1, 5} {
		r, err := v.Response(hz, 0.05*units.Millimeter)
		if err != nil || !r.Stuck || r.Travel != 0 || r.Stiffness != 0 || r.Damping != 0 {
			t.Fatalf("%+v, %v", r, err)
		}
		w := 2 * math.Pi * float64(hz)
		tire := complex(90e3, 400*w)
		one := tire / (tire - complex((50+12)*w*w, 0))
		near(t, "as one", r.Body, cmplx.Abs(one), 1e-9*cmplx.Abs(one))
		near(t, "wheel with it", r.Wheel, r.Body, 0)
		near(t, "tire", float64(r.Tire), 0.05e-3*cmplx.Abs(tire*(1-one)), 1e-9*float64(r.Tire))
	}
}

// Statistics of five samples, by hand.
func TestSummaryByHand(t *testing.T) {
	r := &Run{rate: 10, Hits: []Hit{{Left: 3}, {Left: 7}, {Left: 5}}}
	for i, x := range []units.Length{0.010, 0.030, -0.002, 0.050, 0.022} {
		r.Samples = append(r.Samples, Sample{Time: units.Time(i) / 10, Travel: x, Tire: units.Force(100 * (i % 3)),
			GasTemperature: units.Kelvin([]float64{290, 300, 295, 305, 291}[i]),
			LegTemperature: units.Kelvin(290 + float64(i))})
	}
	s := r.Summary()
	near(t, "mean", float64(s.Travel.Mean), 0.022, 1e-15)
	near(t, "deviation", float64(s.Travel.StdDev), math.Sqrt((0.012*0.012+0.008*0.008+0.024*0.024+0.028*0.028)/5), 1e-15)
	near(t, "least", float64(s.Travel.Least), -0.002, 0)
	near(t, "most", float64(s.Travel.Most), 0.050, 0)
	near(t, "off the ground", float64(s.OffGround), 0.2, 1e-15) // two samples of a tenth
	near(t, "drift", float64(s.Drift), 0.012, 1e-15)
	near(t, "gas warmed", float64(s.GasWarmed), 15, 0)
	near(t, "legs warmed", float64(s.LegsWarmed), 4, 0)
	if s.Bottomed != 3 || s.HardestHit != 7 {
		t.Errorf("%d hits, the hardest %v", s.Bottomed, s.HardestHit)
	}
	// Twice as many samples, so that a fifth of them is two.
	twice := &Run{rate: 10}
	for _, p := range r.Samples {
		twice.Samples = append(twice.Samples, p, p)
	}
	near(t, "drift of two samples at either end", float64(twice.Summary().Drift), 0.012, 1e-15)
	travel := func(s Sample) units.Length { return s.Travel }
	for i, want := range []units.Share{0.2, 0.4, 0.4} { // to 10 mm, to 30 mm, beyond
		if got := Histogram(r, travel, -0.010, 0.050, 3)[i]; !(math.Abs(float64(got-want)) <= 1e-12) {
			t.Errorf("bin %d: %v, want %v", i, got, want)
		}
	}
	for i, want := range []units.Share{0.4, 0.6} { // what is outside counts at the ends
		if got := Histogram(r, travel, 0.012, 0.030, 2)[i]; !(math.Abs(float64(got-want)) <= 1e-12) {
			t.Errorf("bin %d: %v, want %v", i, got, want)
		}
	}
	for name, bins := range map[string][]units.Share{"no bins": Histogram(r, travel, 0, 1, 0),
		"no width": Histogram(r, travel, 1, 1, 5), "no samples": Histogram(&Run{}, travel, 0, 1, 5)} {
		if bins != nil {
			t.Errorf("%s: %v", name, bins)
		}
	}
}

// A rear that pitches takes part in the accounts, and so does a hit of the bottom stop, whose energy is that of
// the stop at its deepest.
func TestAccountsOfARoughLanding(t *testing.T) {
	s := machine(t).spec
	s.Rear = &Rear{Wheelbase: 1.4, Sprung: 60, Gyration: 0.45, Stiffness: 30e3, Damping: 900, CenterOfGravity: 0.8}
	s.Damper = linear(60)
	s.Legs = Legs{Mass: 0.2, Heat: 1000, Loss: 5}
	v, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	road, err := Whoops(0.25, 3, 6, 9, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	r, err := v.Run(context.Background(), Course{Duration: 4, Road: road, Height: 0.8,
		Braking: Braking{Force: 150, Start: 1.2, Rise: 0.5, End: 3}}, Settings{Rate: 4000})
	if err != nil {
		t.Fatal(err)
	}
	moved := math.Abs(float64(r.Energy.Road)) + math.Abs(float64(r.Energy.Brake)) + float64(r.Energy.Damper)
	if !(math.Abs(float64(r.Energy.Unaccounted)) <= 1e-6*moved) {
		t.Errorf("%+v", r.Energy)
	}
	if len(r.Hits) == 0 {
		t.Fatal("it never bottomed")
	}
	stroke := float64(v.spec.Fork.Curve(gas.Isothermal).Stroke())
	for i, h := range r.Hits {
		until := units.Time(math.Inf(1))
		if i+1 < len(r.Hits) {
			until = r.Hits[i+1].Time
		}
		deepest := stroke
		for _, p := range r.Samples {
			if p.Time >= h.Time && p.Time < until {
				deepest = math.Max(deepest, float64(p.Travel))
			}
		}
		want := 0.5 * float64(v.spec.Stops.Bottom) * (deepest - stroke) * (deepest - stroke)
		near(t, "left to the stop", float64(h.Left), want, 0.02*want+1e-9)
		if h.Speed <= 0 {
			t.Errorf("a hit at %v", h.Speed)
		}
	}
	// The legs are warmed by what goes into them, less what the air takes.
	into := float64(r.Energy.Damper + r.Energy.Friction + r.Energy.Gas)
	lost := 0.0
	air := v.spec.Fork.Ambient().Temperature
	for _, p := range r.Samples {
		lost += 5 * float64(p.LegTemperature.Sub(air)) / 4000
	}
	near(t, "legs warmed", float64(r.Summary().LegsWarmed), (into-lost)/200, 1e-3*into/200)
}

// A landing is as its own samples say: the curve it names misses them by what it tells, and no other nearby
// misses by less.
func TestLandFitsItsSamples(t *testing.T) {
	v := machine(t)
	const ledge = 0.4
	l, err := v.Land(context.Background(), ledge)
	if err != nil {
		t.Fatal(err)
	}
	fall := math.Sqrt(2 * ledge / 9.80665)
	if d := float64(l.Run.Samples[len(l.Run.Samples)-1].Time); !(math.Abs(d-(1.1+fall)) <= 0.001) {
		t.Errorf("a landing of %v s, falling for %v s", d, fall)
	}
	deepest := 0
	for i, p := range l.Run.Samples {
		if float64(p.Time) > fall/2 && p.Travel > l.Run.Samples[deepest].Travel {
			deepest = i
		}
	}
	var stroke []Sample
	for i := deepest; i > 0 && l.Run.Samples[i].Tire > 0; i-- {
		if p := l.Run.Samples[i]; p.Velocity > 0 {
			stroke = append(stroke, p)
		}
	}
	var fastest units.Speed
	var reached units.Length
	for _, p := range stroke {
		fastest, reached = max(fastest, p.Velocity), max(reached, p.Travel)
	}
	near(t, "deepest", float64(l.Deepest), float64(reached), 0)
	near(t, "impact", float64(l.Impact), float64(fastest), 0)
	misfit := func(start units.Length, n float64) float64 {
		c, sum, count := v.spec.Fork.CurveAbout(start, n), 0.0, 0.0
		for _, p := range stroke {
			if p.Travel > l.Deepest/20 && p.Travel < c.Stroke() {
				sum, count = sum+math.Pow(float64(c.Force(p.Travel)-p.Springs), 2), count+1
			}
		}
		return math.Sqrt(sum / count)
	}
	own := misfit(l.Start, l.Exponent)
	near(t, "misfit", float64(l.Misfit), own, 1e-6*own)
	for _, by := range [][2]float64{{0.003, 0}, {-0.003, 0}, {0, 0.01}, {0, -0.01}, {0.003, 0.01}, {-0.003, -0.01}} {
		start, n := l.Start+units.Length(by[0]), l.Exponent+by[1]
		if start < 0 || start > v.Sag() || n < 1 || n > 1.4 {
			continue
		}
		if other := misfit(start, n); other < own*(1-1e-9) {
			t.Errorf("from %v with n = %v the misfit is %v, less than %v", start, n, other, own)
		}
	}
}

func TestEveryFieldHasLimits(t *testing.T) {
	of := func(_ any, err error) error { return err }
	refusal.Fields(t, func() Spec {
		s := machine(t).spec
		s.Legs = Legs{Mass: 2, Heat: 1000, Loss: 5}
		s.Rear = &Rear{Wheelbase: 1.4, Sprung: 60, Gyration: 0.45, Stiffness: 30e3, Damping: 900, CenterOfGravity: 0.8}
		return s
	}, func(s Spec) error { return of(New(s)) })
	v := machine(t)
	refusal.Fields(t, func() Settings { return Settings{Rate: 100, Tolerance: 1e-6} }, func(s Settings) error {
		return of(v.Run(context.Background(), Course{Duration: 0.01}, s))
	})
	refusal.Fields(t, func() Course {
		return Course{Duration: 0.05, Height: 0.1, Sinking: 1, Braking: Braking{Force: 100, Start: 0.01, Rise: 0.01,
			End: 0.04}}
	}, func(c Course) error { return of(v.Run(context.Background(), c, Settings{Rate: 100})) })
	refusal.Fields(t, func() Sine { return Sine{Amplitude: 0.02, Frequency: 2, Start: 0.1} }, Sine.validate)
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []float64{nan, inf, -1, 1e9} {
		for field, err := range map[string]error{
			"Whoops.height":           of(Whoops(units.Length(bad), 3, 4, 8, 0)),
			"Whoops.length":           of(Whoops(0.2, units.Length(bad), 4, 8, 0)),
			"Whoops.speed":            of(Whoops(0.2, 3, 4, units.Speed(bad), 0)),
			"Whoops.start":            of(Whoops(0.2, 3, 4, 8, units.Time(bad))),
			"Edge.height":             of(Edge(units.Length(bad), 0.34, 8, 0.1)),
			"Edge.radius":             of(Edge(0.06, units.Length(bad), 8, 0.1)),
			"Edge.speed":              of(Edge(0.06, 0.34, units.Speed(bad), 0.1)),
			"Edge.start":              of(Edge(0.06, 0.34, 8, units.Time(bad))),
			"ISO8608.speed":           of(ISO8608('C', units.Speed(bad), 5, 1)),
			"ISO8608.duration":        of(ISO8608('C', 10, units.Time(bad), 1)),
			"Land.ledge":              of(v.Land(context.Background(), units.Length(bad))),
			"Profile.heights[0].Time": of(NewProfile([]Height{{Time: units.Time(bad)}, {Time: 3601, Height: 0}}, true)),
		} {
			var one *units.RangeError
			if !errors.As(err, &one) || one.Field != field || len(units.Faults(err)) > 1 && field != "Profile.heights[0].Time" {
				t.Errorf("%s = %v: %v", field, bad, err)
			}
		}
	}
	for what, err := range map[string]error{
		"no whoop": of(Whoops(0.2, 3, 0, 8, 0)), "too many whoops": of(Whoops(0.2, 3, 1001, 8, 0)),
		"class @": of(ISO8608('@', 10, 5, 1)), "class I": of(ISO8608('I', 10, 5, 1)),
		"a start above the ground": of(NewProfile([]Height{{Height: 0.01}, {Time: 1}}, true)),
		"a ledge down of a wall":   of(NewProfile([]Height{{}, {Time: 0.01, Height: -1}}, false)),
		"points at once":           of(NewProfile([]Height{{}, {Time: 0.5e-6, Height: 0}}, false)),
	} {
		if len(units.Faults(err)) != 1 {
			t.Errorf("%s: %v", what, err)
		}
	}
	for what, err := range map[string]error{"1 whoop": of(Whoops(0.2, 3, 1, 8, 0)), "class A": of(ISO8608('A', 10, 5, 1)),
		"class H": of(ISO8608('H', 10, 5, 1)), "points 2 µs apart": of(NewProfile([]Height{{}, {Time: 2e-6}}, false))} {
		if err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// A smooth profile keeps a parabola, and finds its piece however uneven its steps are.
func TestProfileKeepsAParabola(t *testing.T) {
	var heights []Height
	for _, at := range []units.Time{0, 0.01, 0.02, 0.5, 0.52, 0.9, 1.4, 1.41, 2} {
		heights = append(heights, Height{at, units.Length(0.3 * at * (2 - at))})
	}
	p, err := NewProfile(heights, true)
	if err != nil {
		t.Fatal(err)
	}
	for x := 0.011; x < 1.40; x += 0.013 { // but for its first and last pieces, which are level at the ends
		h, v := p.At(units.Time(x))
		near(t, "height", float64(h), 0.3*x*(2-x), 1e-12)
		near(t, "speed", float64(v), 0.6*(1-x), 1e-9)
	}
}

// The axle of a wheel that climbs an edge goes along the circle about it.
func TestEdgeIsACircle(t *testing.T) {
	const height, radius, speed = 0.06, 0.34, 8.0
	p, err := Edge(height, radius, speed, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	reach := math.Sqrt(radius*radius - (radius-height)*(radius-height))
	for _, along := range []float64{0, 0.25, 0.5, 0.75, 1} { // corners of the profile
		before := reach * (1 - along)
		want := math.Sqrt(radius*radius-before*before) - (radius - height)
		h, _ := p.At(units.Time(0.1 + reach*along/speed))
		near(t, "height", float64(h), want, 1e-9)
	}
}

// Braking comes in over its rise, stays, and goes at its end.
func TestBrakingOverTime(t *testing.T) {
	b := Braking{Force: 200, Start: 1, Rise: 0.5, End: 3}
	for at, want := range map[float64]float64{0.9: 0, 1: 0, 1.25: 100, 1.5: 200, 2: 200, 3: 200, 3.01: 0} {
		near(t, "brake", b.at(at), want, 1e-12)
	}
	c := Course{Duration: 4, Braking: b, Road: Sine{Frequency: 1, Start: 0.7}}
	got := c.breaks()
	for _, want := range []float64{1, 1.5, 3} {
		found := false
		for _, g := range got {
			found = found || g == want
		}
		if !found {
			t.Errorf("no break at %v s: %v", want, got)
		}
	}
	for _, g := range got {
		if g <= 0 || g >= 4 {
			t.Errorf("a break at %v s", g)
		}
	}
}

// Moved slowly, with walls that keep the gas at their temperature, a fork follows its curve at rest, whatever chambers
// it has.
func TestSlowGasFollowsTheCurve(t *testing.T) {
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	air := func(change func(*setup.Air)) setup.Leg {
		a := setup.Air{Bore: 34 * units.Millimeter, Rod: 10 * units.Millimeter, Volume: 240 * units.Milliliter,
			Fill: gas.Fill{Gauge: units.Gauge(6 * units.Bar), Ambient: room}}
		change(&a)
		return setup.Leg{Air: &a}
	}
	for name, leg := range map[string]setup.Leg{
		"port": air(func(a *setup.Air) { a.NegativeVolume, a.Port = 40*units.Milliliter, 8*units.Millimeter }),
		"valve": air(func(a *setup.Air) {
			a.NegativeVolume, a.NegativeGauge = 40*units.Milliliter, units.Gauge(5*units.Bar)
		}),
		"second chamber": air(func(a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 60*units.Milliliter, units.Gauge(10*units.Bar)
		}),
		"second chamber and port": air(func(a *setup.Air) {
			a.SecondVolume, a.SecondGauge = 60*units.Milliliter, units.Gauge(10*units.Bar)
			a.NegativeVolume, a.Port = 40*units.Milliliter, 8*units.Millimeter
		}),
	} {
		f, err := setup.New(setup.Spec{Travel: 160 * units.Millimeter, Closed: room, Left: leg})
		if err != nil {
			t.Fatal(name, err)
		}
		v := base(t, 70, 1000, func(s *Spec) {
			s.Fork, s.Damper, s.Exchange = f, linear(300), gas.Exchange{TimeConstant: 0.01}
		})
		// Lifted until it tops out and set down hard enough to go past where a second chamber joins.
		r, err := v.Run(context.Background(), Course{Duration: 30, Height: 0.35}, Settings{Rate: 200})
		if err != nil {
			t.Fatal(name, err)
		}
		slow, err := v.Run(context.Background(), Course{Duration: 20, Road: Sine{Amplitude: 0.05, Frequency: 0.05}},
			Settings{Rate: 50})
		if err != nil {
			t.Fatal(name, err)
		}
		rest := f.Curve(gas.Isothermal)
		var deepest units.Length
		compared := 0
		for i, p := range append(r.Samples, slow.Samples...) {
			deepest = max(deepest, p.Travel)
			if p.Travel < leg.Air.Port || p.Travel > rest.Stroke() || math.Abs(float64(p.Velocity)) > 0.02 &&
				i < len(r.Samples) {
				continue // on a stop, through the port, or so fast that the gas is not at the temperature of the walls
			}
			compared++
			want := float64(rest.Force(p.Travel))
			if !(math.Abs(float64(p.Springs)-want) <= 0.01*want) {
				t.Fatalf("%s at %v, moving at %v: %v, at rest %v N", name, p.Travel, p.Velocity, p.Springs, want)
			}
		}
		if leg.Air.SecondVolume != 0 && deepest < 110*units.Millimeter {
			t.Errorf("%s: no deeper than %v", name, deepest)
		}
		if compared < 1000 {
			t.Errorf("%s: %d samples compared", name, compared)
		}
		moved := math.Abs(float64(r.Energy.Road)) + float64(r.Energy.Damper)
		if !(math.Abs(float64(r.Energy.Unaccounted)) <= 1e-6*(moved+1)) {
			t.Errorf("%s: %+v", name, r.Energy)
		}
	}
}

// The body along the fork axis: what the fork carries times cos² of the rake.
func TestBodyOfTheFork(t *testing.T) {
	v := machine(t)
	near(t, "mass", float64(v.Body().Mass), 80*math.Cos(0.45)*math.Cos(0.45), 1e-9)
}

// Without exchange the gas is adiabatic: about its sag the fork follows the curve of that exponent.
func TestFastGasFollowsTheCurve(t *testing.T) {
	v := onAir(t, 3600, 0)
	r, err := v.Run(context.Background(), Course{Duration: 3, Road: Sine{Amplitude: 0.04, Frequency: 1.5}}, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	about := v.spec.Fork.CurveAbout(v.sag, gas.Adiabatic)
	for _, p := range r.Samples {
		if p.Travel < 0 || p.Travel > about.Stroke() {
			continue
		}
		if want := float64(about.Force(p.Travel)); !(math.Abs(float64(p.Springs)-want) <= 2e-3*want) {
			t.Fatalf("at %v: %v, by the curve %v N", p.Travel, p.Springs, want)
		}
	}
}

// The two ends of the body have its kinetic energy: T = m·v²/2 of the center of gravity and m·k²·θ²/2 of pitch.
func TestEndsOfTheBody(t *testing.T) {
	for _, gyration := range []units.Length{0.3, 0.55, 0.9} {
		r := Rear{Wheelbase: 1.45, Sprung: 70, Gyration: gyration, Stiffness: 30e3, CenterOfGravity: 0.8}
		const front, w = 50.0, 1.45
		e := r.ends(front)
		det := e.inverse[0]*e.inverse[2] - e.inverse[1]*e.inverse[1]
		m := [3]float64{e.inverse[2] / det, -e.inverse[1] / det, e.inverse[0] / det}
		toFront, toRear := 70/120.0*w, 50/120.0*w
		for _, v := range [][2]float64{{1, 0}, {0, 1}, {1, 1}, {1, -1}, {0.3, -2}} {
			center := (v[0]*toRear + v[1]*toFront) / w
			pitch := (v[0] - v[1]) / w
			want := 120*center*center/2 + 120*float64(gyration)*float64(gyration)*pitch*pitch/2
			near(t, "energy", m[0]*v[0]*v[0]/2+m[1]*v[0]*v[1]+m[2]*v[1]*v[1]/2, want, 1e-9*want)
		}
		near(t, "load", e.load, 70*9.80665, 1e-9)
		near(t, "lever", e.lever, 0.8/w, 1e-12)
	}
	c := geometry.Chassis{Rake: 0.45, Offset: 0.05, WheelRadius: 0.34, Wheelbase: 1.45, Mass: 111, UnsprungMass: 15,
		FrontShare: 0.48, FrontShareRidden: 0.47, CenterOfGravity: 0.9}
	rear := TypicalRear(c, 80)
	omega := 2 * math.Pi * 2
	near(t, "damping ratio", float64(rear.Damping)/(2*math.Sqrt(float64(rear.Stiffness)*float64(rear.Sprung))), 0.3, 1e-12)
	near(t, "frequency", math.Sqrt(float64(rear.Stiffness)/float64(rear.Sprung)), omega, 1e-9)
}

// In the moment a surface is touched it is taken up by the way it moves.
func TestTouchByTheWay(t *testing.T) {
	v := machine(t)
	m, err := v.model(v.sag, false)
	if err != nil {
		t.Fatal(err)
	}
	y := m.rest()
	m.cos, m.perCos, m.stroke = 1, 1, 0.25 // with travels of whole parts of 2, exact to the last bit
	const a = 1.0 / 128
	far := 2 * a * m.tire / m.tireDamping // a tire that springs back so fast does not push
	for _, c := range []struct {
		x, speed                      float64 // of the travel
		sink, sinking                 float64 // of the tire
		topOut, bottom, pressed, grip bool
	}{
		{a, 1, a, 0, false, false, true, true}, {0, 1, a, 0, false, false, true, true},
		{0, -1, a, 0, true, false, true, true}, {-a, 1, a, 0, true, false, true, true},
		{0.25, 1, a, 0, false, true, true, true}, {0.25, -1, a, 0, false, false, true, true},
		{0.25 + a, -1, a, 0, false, true, true, true}, {a, 0, 0, 1, false, false, true, true},
		{a, 0, 0, -1, false, false, false, false}, {a, 0, -a, 1, false, false, false, false},
		{a, 0, a, -far, false, false, true, false},
	} {
		y[wheel], y[wheelSpeed] = -c.sink, -c.sinking
		y[body], y[bodySpeed] = y[wheel]-c.x, y[wheelSpeed]-c.speed
		m.touch(&excitation{}, y)
		if want := (contact{topOut: c.topOut, bottom: c.bottom, pressed: c.pressed, grip: c.grip}); m.contact != want {
			t.Errorf("%+v: %+v", c, m.contact)
		}
	}
}

// A vehicle that sinks begins in the air, its fork extended, and one that does not at rest on the ground.
func TestStartsInTheAir(t *testing.T) {
	v := machine(t)
	for what, c := range map[string]struct {
		course Course
		in     bool
	}{"sinking": {Course{Duration: 0.2, Sinking: 2}, true}, "high": {Course{Duration: 0.2, Height: 0.1}, true},
		"on the ground": {Course{Duration: 0.2}, false}} {
		r, err := v.Run(context.Background(), c.course, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Hits) != 0 {
			t.Errorf("%s: it leaves the top, and has hit the bottom: %+v", what, r.Hits)
		}
		first := r.Samples[0]
		if got := float64(first.Velocity); got != 0 {
			t.Errorf("%s: the fork moves at %v", what, got)
		}
		if (first.Travel < 0) != c.in {
			t.Errorf("%s: %+v", what, first)
		}
		if got := float64(first.Body - first.Road); c.in && !(math.Abs(got-float64(c.course.Height)) <= 0.002) {
			t.Errorf("%s: the body at %v, the wheel begins at %v", what, got, c.course.Height)
		}
	}
}
