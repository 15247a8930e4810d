package ride_test

import (
	"context"
	"math"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

var room = gas.Ambient{Temperature: units.Kelvin(293.15), Pressure: units.Absolute(101325)}

// square is a square-law orifice.
type square float64

func (c square) Force(v units.Speed) units.Force {
	return units.Force(float64(c) * float64(v) * math.Abs(float64(v)))
}

func (c square) Coefficient(v units.Speed) units.DampingRate {
	return units.DampingRate(float64(c) * math.Abs(float64(v)))
}

// vehicle is a front on a fork of one leg.
func vehicle(t testing.TB, s setup.Spec, change func(*ride.Spec)) *ride.Vehicle {
	t.Helper()
	if s.Closed == (gas.Ambient{}) {
		s.Closed = room
	}
	f, err := setup.New(s)
	if err != nil {
		t.Fatal(err)
	}
	spec := ride.Spec{Fork: f, Sprung: 60, Unsprung: 12, Rake: 25 * units.Degree, Damper: damping.Linear(600),
		Tire:     ride.Tire{Stiffness: 120 * units.NewtonPerMillimeter, Damping: 100},
		Stops:    ride.Stops{TopOut: 300 * units.NewtonPerMillimeter, Bottom: 1000 * units.NewtonPerMillimeter},
		Exchange: gas.Exchange{TimeConstant: 3}}
	if change != nil {
		change(&spec)
	}
	v, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The motions that scipy finds for the same vehicles; the header of the record tells how.
func TestAgainstSolveIVP(t *testing.T) {
	register.Cite(t, "V-51")
	const nmm = units.NewtonPerMillimeter
	coil := func(rate units.Stiffness, preload units.Length) []spring.Spec {
		return []spring.Spec{spring.CoilSpec{Rate: rate, Preload: preload}}
	}
	air := setup.Spec{Travel: 200 * mm, Left: setup.Leg{Air: &setup.Air{Bore: 40 * mm, Volume: 330 * units.Milliliter,
		Fill: gas.Fill{Gauge: units.Gauge(5 * units.Bar), Ambient: room}}}}
	strut := func(tau units.Time) *ride.Vehicle {
		return vehicle(t, air, func(s *ride.Spec) {
			s.Rake, s.Damper, s.Exchange.TimeConstant = 0, square(900), tau
		})
	}
	cases := map[string]struct {
		v *ride.Vehicle
		c ride.Course
	}{
		"landing": {vehicle(t, setup.Spec{Travel: 200 * mm, Left: setup.Leg{Springs: coil(6*nmm, 10*mm),
			Gap: &setup.Gap{Area: 18 * units.SquareCentimeter, Residual: 250 * units.Milliliter}}}, nil),
			ride.Course{Duration: 1.21, Height: 0.5}},
		"waves": {vehicle(t, setup.Spec{Travel: 200 * mm, Friction: 70, Left: setup.Leg{Springs: coil(9*nmm, 5*mm)}}, nil),
			ride.Course{Duration: 1.21, Road: ride.Sine{Amplitude: 20 * mm, Frequency: 2.5}}},
		"strut, isothermal": {strut(0.01), ride.Course{Duration: 1.21, Height: 0.3}},
		"strut, adiabatic":  {strut(3600), ride.Course{Duration: 1.21, Height: 0.3}},
	}
	runs := map[string]*ride.Run{}
	for name, c := range cases {
		r, err := c.v.Run(context.Background(), c.c, ride.Settings{})
		if err != nil {
			t.Fatal(name, err)
		}
		runs[name] = r
	}
	worst := map[string]float64{}
	for _, row := range record.Rows(t, "motion.csv", "case,time_s,travel_m,velocity_m_s,tire_N,gas_K", 90) {
		x := record.Numbers(t, row[1:])
		p := runs[row[0]].Samples[int(math.Round(x[0]*500))]
		for i, c := range []struct{ got, scale float64 }{{float64(p.Travel), 0.2}, {float64(p.Velocity), 4},
			{float64(p.Tire), 8000}, {p.GasTemperature.Kelvin(), 300}} {
			if row[0] == "waves" && i == 3 {
				continue // no gas
			}
			d := math.Abs(c.got-x[1+i]) / c.scale
			worst[row[0]] = max(worst[row[0]], d)
			if d > 1e-6 {
				t.Errorf("%s at %v s: value %d is %v, scipy %v", row[0], x[0], i, c.got, x[1+i])
			}
		}
	}
	t.Log("largest differences over the full scale:", worst)

	// NACA TN 3426 (abstract): isothermal air is a close approximation for the loads of a landing,
	// which the orifice rules. From memory of Report 1154: a percent of the load, several of the stroke.
	register.Cite(t, "V-52")
	slow, fast := runs["strut, isothermal"].Summary(), runs["strut, adiabatic"].Summary()
	if d := math.Abs(float64(slow.Tire.Most/fast.Tire.Most) - 1); d > 0.03 {
		t.Errorf("the exponent moves the largest load by %.1f %%", 100*d)
	}
	if slow.Travel.Most <= fast.Travel.Most {
		t.Errorf("isothermal air is stiffer: %v against %v", slow.Travel.Most, fast.Travel.Most)
	}
	t.Logf("isothermal %.0f and %.1f, adiabatic %.0f and %.1f", slow.Tire.Most, slow.Travel.Most, fast.Tire.Most,
		fast.Travel.Most)
}
