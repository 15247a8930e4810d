package ride_test

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/units"
)

// A study is the quantiles of its vehicles run one by one, on however many processors.
func TestStudy(t *testing.T) {
	record, f := fork(t, "M07")
	const n = 21
	vehicle := func(i int) (*ride.Vehicle, error) {
		return ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(400+30*float64(i*8%n))))
	}
	c := ride.Course{Duration: 1, Road: ride.Sine{Amplitude: 30 * mm, Frequency: 3}}
	var deepest []units.Length
	for i := range n {
		v, err := vehicle(i)
		if err != nil {
			t.Fatal(err)
		}
		r, err := v.Run(context.Background(), c, ride.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		deepest = append(deepest, r.Summary().Travel.Most)
	}
	slices.Sort(deepest)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var first ride.Study
	for _, processors := range []int{1, 4} {
		runtime.GOMAXPROCS(processors)
		last := 0
		s, err := ride.NewStudy(context.Background(), n, vehicle, c, ride.Settings{}, func(done int) {
			if done != last+1 {
				t.Errorf("%d done after %d", done, last)
			}
			last = done
		})
		if err != nil || last != n || s.Vehicles != n {
			t.Fatal(s.Vehicles, last, err)
		}
		if got, want := [3]units.Length{s.Low.Travel.Most, s.Middle.Travel.Most, s.High.Travel.Most},
			[3]units.Length{deepest[1], deepest[10], deepest[19]}; got != want { // of 21: the 2nd, the 11th, the 20th
			t.Errorf("quantiles %v, want %v", got, want)
		}
		if processors == 1 {
			first = s
		} else if s != first {
			t.Errorf("on %d processors %+v, on one %+v", processors, s, first)
		}
	}
}

func TestStudyRefuses(t *testing.T) {
	record, f := fork(t, "M07")
	good, err := ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(500)))
	if err != nil {
		t.Fatal(err)
	}
	vehicle := func(int) (*ride.Vehicle, error) { return good, nil }
	c := ride.Course{Duration: 0.1}
	for _, n := range []int{-1, 1, 1_000_000} {
		if _, err := ride.NewStudy(context.Background(), n, vehicle, c, ride.Settings{}, nil); !errors.As(err,
			new(*units.RangeError)) {
			t.Errorf("%d vehicles: %v", n, err)
		}
	}
	broken := errors.New("no such fork")
	_, err = ride.NewStudy(context.Background(), 8, func(i int) (*ride.Vehicle, error) {
		if i == 3 {
			return nil, broken
		}
		return good, nil
	}, c, ride.Settings{}, nil)
	if !errors.Is(err, broken) || !strings.HasPrefix(err.Error(), "vehicle 3: ") {
		t.Errorf("a vehicle that can not be made: %v", err)
	}
	if _, err := ride.NewStudy(context.Background(), 8, vehicle, ride.Course{Duration: -1},
		ride.Settings{}, nil); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("a course that is none: %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	_, err = ride.NewStudy(ctx, 1000, vehicle, c, ride.Settings{}, func(done int) {
		if done == 5 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("a study that was stopped: %v", err)
	}
}

// The rear of a typical machine carries what the front does not, at 2 Hz, and a body with
// that gyration leaves its ends to themselves: the front rides as if it were alone.
func TestTypicalRear(t *testing.T) {
	record, f := fork(t, "M07")
	chassis := record.Chassis.Geometry()
	spec := ride.Of(f, chassis, 80, damping.Linear(600))
	alone, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	spec.Rear = ride.TypicalRear(chassis, 80)
	if all := spec.Sprung + spec.Unsprung + spec.Rear.Sprung; !(math.Abs(float64(all-chassis.Mass-80)) <= 1e-9) {
		t.Errorf("front and rear weigh %v, machine and rider %v", all, chassis.Mass+80)
	}
	if hz := math.Sqrt(float64(spec.Rear.Stiffness)/float64(spec.Rear.Sprung)) / (2 * math.Pi); !(math.Abs(hz-2) <= 1e-9) {
		t.Errorf("rear at %v Hz", hz)
	}
	whole, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	c := ride.Course{Duration: 2, Road: ride.Sine{Amplitude: 30 * mm, Frequency: 2.5}}
	var travel [2]units.Length
	for i, v := range []*ride.Vehicle{alone, whole} {
		r, err := v.Run(context.Background(), c, ride.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		travel[i] = r.Samples[len(r.Samples)-1].Travel
	}
	if !(math.Abs(float64(travel[0]-travel[1])) <= 1e-6) {
		t.Errorf("the front alone at %v, with a rear that it does not move %v", travel[0], travel[1])
	}
}
