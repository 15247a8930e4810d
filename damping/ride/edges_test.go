package ride

import (
	"slices"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// A run stops at the corners of its road and its brake that lie within it, in order.
func TestCornersOfACourse(t *testing.T) {
	road, err := NewProfile([]Height{{}, {0.3, 0.01}, {0.9, 0.02}, {1.5, 0}, {4, 0}}, false)
	if err != nil {
		t.Fatal(err)
	}
	c := Course{Duration: 1.5, Road: road, Braking: Braking{Force: 100, Start: 0, Rise: 0.5, End: 1.2}}
	if got := c.breaks(); !slices.Equal(got, []float64{0.3, 0.5, 0.9, 1.2}) {
		t.Errorf("corners at %v", got)
	}
}

// A landing is what follows the last moment in the air, while the fork moves in.
func TestStrokeOfALanding(t *testing.T) {
	at := func(time, travel, velocity, tire float64) Sample {
		return Sample{Time: units.Time(time), Travel: units.Length(travel), Velocity: units.Speed(velocity),
			Tire: units.Force(tire)}
	}
	before, ledge := at(0, 0.2, 0.1, 500), at(0.1, 0.05, 0.2, 300)
	first, deepest, back := at(0.4, 0.01, 2, 50), at(0.5, 0.15, 1, 900), at(0.6, 0.12, -1, 700)
	r := Run{Samples: []Sample{before, ledge, at(0.3, 0, -0.1, 0), first, deepest, back}}
	if got := r.stroke(0.2); !slices.Equal(got, []Sample{first, deepest}) {
		t.Errorf("%+v", got)
	}
	r.Samples = []Sample{first, deepest, back} // never in the air
	if got := r.stroke(0.2); !slices.Equal(got, []Sample{first, deepest}) {
		t.Errorf("without a flight %+v", got)
	}
}

// ported is a body on an air spring whose negative chamber fills at 20 mm.
func ported(t *testing.T) *Vehicle {
	t.Helper()
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	f, err := setup.New(setup.Spec{Travel: 200 * units.Millimeter, Closed: room,
		Left: setup.Leg{Air: &setup.Air{Bore: 40 * units.Millimeter, Rod: 12 * units.Millimeter,
			Volume: 330 * units.Milliliter, NegativeVolume: 40 * units.Milliliter, Port: 20 * units.Millimeter,
			Fill: gas.Fill{Gauge: units.Gauge(3 * units.Bar), Ambient: room}}}})
	if err != nil {
		t.Fatal(err)
	}
	return base(t, 30, 1000, func(s *Spec) { s.Fork, s.Rake = f, 25*units.Degree })
}

// While the port is open both chambers are one gas, by gas.Join and, in motion, by gas.State.Compress.
func TestOpenPortIsOneGas(t *testing.T) {
	v := ported(t)
	m, err := v.model(0, false)
	if err != nil {
		t.Fatal(err)
	}
	g, y := &m.groups[0], m.rest()
	temperatures := m.temperatures(g, y)
	main, negative := &g.cells[0], &g.cells[g.negative]
	state := func(c *cell, i int) gas.State {
		return gas.State{Pressure: units.Absolute(units.Pressure(c.amount * temperatures[i] / c.volume)),
			Volume: units.Volume(c.volume), Temperature: units.Kelvin(temperatures[i])}
	}
	joined, err := gas.Join(state(main, 0), state(negative, g.negative))
	if err != nil {
		t.Fatal(err)
	}
	area := main.area + negative.area
	still := around{pressure: 1e5, wall: temperatures[0]}
	for _, x := range []float64{0, 0.004, 0.012} {
		g.open = true
		rates := make([]float64, len(temperatures))
		got, _ := g.force(x, 0.4, &still, temperatures, rates)
		at, err := joined.Compress(joined.Volume-units.Volume(area*x), gas.Isothermal)
		if err != nil {
			t.Fatal(err)
		}
		want := area * (at.Pressure.In(units.Pascal) - 1e5)
		near(t, "force", got, want, 1e-9*want)
		// Without walls: T·V^(κ−1) stays.
		for i, rate := range rates {
			near(t, "warming", rate, temperatures[i]*(0.4)*area*0.4/float64(at.Volume), 1e-9*rate)
		}
	}
}

// The port closes at its travel along the leaning fork.
func TestPortClosesAtItsTravel(t *testing.T) {
	v := ported(t)
	s, _ := Settings{}.complete()
	r, err := v.start(Course{Duration: 1}, s)
	if err != nil {
		t.Fatal(err)
	}
	y := slices.Clone(r.solver.State())
	y[wheel], y[body] = 0, -0.020*r.m.cos
	near(t, "the event at the port", r.events[others](0, y), 0, 1e-15)
	if x, _ := r.m.travel(y); !(x > 0.0199 && x < 0.0201) {
		t.Errorf("travel %v", x)
	}
}
