package ride_test

import (
	"context"
	"math"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

func fork(t testing.TB, id string) (data.Fork, *setup.Setup) {
	t.Helper()
	f, err := data.Reference().Fork(id)
	if err != nil {
		t.Fatal(err)
	}
	home, err := gas.StandardAt(200*units.Meter, units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	s, err := f.Setup(home)
	if err != nil {
		t.Fatal(err)
	}
	return f, s
}

// Energy closes in every run, whatever opens, lifts off, sticks or bottoms.
func TestEnergyCloses(t *testing.T) {
	courses := []ride.Course{
		{Name: "waves", Duration: 4, Road: ride.Sine{Amplitude: 40 * mm, Frequency: 2 * units.Hertz}},
		{Name: "chatter", Duration: 2, Road: ride.Sine{Amplitude: 6 * mm, Frequency: 14 * units.Hertz}},
		{Name: "drop", Duration: 3, Height: 0.6 * units.Meter},
		{Name: "landing", Duration: 2, Height: 0.01, Sinking: 6},
	}
	for f := range data.Reference().Forks() {
		record, s := fork(t, f.ID)
		spec := ride.Of(s, record.Chassis.Geometry(), record.Rider.Mass.Value, damping.Linear(500))
		v, err := ride.New(spec)
		if err != nil {
			t.Fatal(f.ID, err)
		}
		for _, c := range courses {
			t.Run(f.ID+"/"+c.Name, func(t *testing.T) {
				r, err := v.Run(context.Background(), c, ride.Settings{Tolerance: 1e-8})
				if err != nil {
					t.Fatal(err)
				}
				e := r.Energy
				moved := math.Abs(float64(e.Road)) + float64(e.Damper+e.Friction+e.Tire)
				sum := r.Summary()
				t.Logf("travel %v..%v, hits %d, air %v, E %+v share %.2g n=%d", sum.Travel.Least, sum.Travel.Most, sum.Bottomed,
					sum.OffGround, e, float64(e.Unaccounted)/moved, len(r.Samples))
				if !(math.Abs(float64(e.Unaccounted)) <= 1e-6*moved) {
					t.Errorf("%v of %v J unaccounted for", float64(e.Unaccounted), moved)
				}
			})
		}
	}
}

// A negative chamber with a valve of its own keeps its gas at the top, where a port would
// open: dropped, such a fork comes to rest at its sag.
func TestNegativeValve(t *testing.T) {
	v := vehicle(t, setup.Spec{Travel: 160 * mm, Left: setup.Leg{Air: &setup.Air{Bore: 32 * mm, Rod: 10 * mm,
		Volume: 180 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: room},
		NegativeVolume: 40 * units.Milliliter, NegativeGauge: units.Gauge(5 * units.Bar)}}},
		func(s *ride.Spec) { s.Exchange.TimeConstant = 0.1 })
	r, err := v.Run(context.Background(), ride.Course{Duration: 6, Height: 0.2}, ride.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if s := r.Summary(); s.Travel.Least >= 0 {
		t.Fatalf("the fork never stretched to its stop: %v", s.Travel.Least)
	}
	if end := r.Samples[len(r.Samples)-1].Travel; !(math.Abs(float64(end-v.Sag())) <= 1e-5) {
		t.Errorf("at rest at %v, the sag is %v", end, v.Sag())
	}
}

// A step allocates nothing: thousands of steps more take no more allocations but the few of
// the runtime itself.
func TestStepAllocatesNothing(t *testing.T) {
	record, s := fork(t, "M07")
	v, err := ride.New(ride.Of(s, record.Chassis.Geometry(), 80, damping.Linear(700)))
	if err != nil {
		t.Fatal(err)
	}
	allocations := func(seconds units.Time) float64 {
		c := ride.Course{Duration: seconds, Road: ride.Sine{Amplitude: 40 * mm, Frequency: 2}}
		return testing.AllocsPerRun(5, func() {
			if r, err := v.Run(context.Background(), c, ride.Settings{}); err != nil || len(r.Hits) != 0 {
				t.Fatal(len(r.Hits), err)
			}
		})
	}
	if short, long := allocations(2), allocations(20); !(math.Abs(long-short) <= 10) {
		t.Errorf("%v allocations over 2 s, %v over 20 s", short, long)
	}
}
