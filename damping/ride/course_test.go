package ride_test

import (
	"context"
	"errors"
	"math"
	"math/cmplx"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/dsp/fourier"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

// ISO 8608: a class has its density, which falls with the square of the wave number; read
// by a periodogram averaged over roads. Class C has 256·10⁻⁶ m³ at 0.1 cycles/m.
func TestISO8608(t *testing.T) {
	register.Cite(t, "Q-01")
	const speed, seconds, roads = 20.0, 120.0, 12
	bands := []float64{0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.28, 2.5} // cycles/m
	density := make([]float64, len(bands)-1)
	const hz = 200.0
	for seed := range uint64(roads) {
		road, err := ride.ISO8608('C', speed, seconds, seed)
		if err != nil {
			t.Fatal(err)
		}
		n := int((seconds - 1) * hz)
		h := make([]float64, n)
		for i := range h {
			z, _ := road.At(units.Time(1 + float64(i)/hz))
			// A window that falls to 0 at both ends.
			h[i] = float64(z) * math.Sqrt(8.0/3) * 0.5 * (1 - math.Cos(2*math.Pi*float64(i)/float64(n)))
		}
		length := float64(n) / hz * speed
		for k, line := range fourier.NewFFT(n).Coefficients(nil, h) {
			wave := float64(k) / length
			for b := range density {
				if wave >= bands[b] && wave < bands[b+1] {
					power := 2 * real(line*cmplx.Conj(line)) / float64(n) / float64(n) * length
					density[b] += power * (wave / 0.1) * (wave / 0.1) / roads / (length * (bands[b+1] - bands[b]))
				}
			}
		}
	}
	for b, d := range density {
		// A mean over roads and lines, each as uncertain as itself: the lowest band has 12·47 of them, half of which a window
		// leaves independent.
		if !(math.Abs(d/256e-6-1) <= 4/math.Sqrt(12*47/2)) {
			t.Errorf("%g to %g cycles/m: density %.3g m³ referred to 0.1, want 256e-6", bands[b], bands[b+1], d)
		}
	}
}

// Roads are what their names say, and their speed is the slope of their height.
func TestRoads(t *testing.T) {
	ok := func(p ride.Profile, err error) ride.Road {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for _, c := range []struct {
		name   string
		road   ride.Road
		at     units.Time
		height units.Length
	}{
		{"step", ok(ride.Step(80*mm, 0.2, 0.1)), 0.25, 40 * mm},
		{"ledge", ok(ride.Step(-500*mm, 0.2, 0.1)), 1, -500 * mm},
		{"before the sine", ride.Sine{Amplitude: 30 * mm, Frequency: 2, Start: 0.5}, 0.45, 0},
		{"whoops", ok(ride.Whoops(600*mm, 4*units.Meter, 5, 10, 0.5)), 0.5 + 0.6, 600 * mm},
		{"after the whoops", ok(ride.Whoops(600*mm, 4*units.Meter, 5, 10, 0.5)), 3, 0},
		{"edge", ok(ride.Edge(60*mm, 345*mm, 8, 0.1)), 0.5, 60 * mm},
		{"sine", ride.Sine{Amplitude: 30 * mm, Frequency: 2, Start: 0.5}, 0.5 + 0.5 + 0.125, 30 * mm},
		{"road", ok(ride.ISO8608('B', 15, 10, 3)), 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if h, _ := c.road.At(c.at); !(math.Abs(float64(h-c.height)) <= 1e-12) {
				t.Errorf("height %v, want %v", h, c.height)
			}
			corner := func(x units.Time) bool {
				for _, k := range c.road.Corners() {
					if math.Abs(float64(k-x)) < 2e-5 {
						return true
					}
				}
				return false
			}
			for x := units.Time(0.01); x < 2.5; x += 0.0137 {
				a, _ := c.road.At(x - 1e-6)
				b, _ := c.road.At(x + 1e-6)
				_, v := c.road.At(x)
				if slope := float64(b-a) / 2e-6; !corner(x) && !(math.Abs(slope-float64(v)) <= 1e-5*(1+math.Abs(slope))) {
					t.Errorf("at %v: speed %v, the height rises at %v", x, v, slope)
				}
			}
		})
	}
}

func TestRefuses(t *testing.T) {
	_, f := fork(t, "M07")
	good := ride.Spec{Fork: f, Sprung: 60, Unsprung: 15, Rake: 27 * units.Degree, Tire: ride.TypicalTire(700)}
	with := func(change func(*ride.Spec)) error {
		s := good
		change(&s)
		_, err := ride.New(s)
		return err
	}
	v, err := ride.New(good)
	if err != nil {
		t.Fatal(err)
	}
	run := func(c ride.Course, s ride.Settings) error { _, err := v.Run(context.Background(), c, s); return err }
	second := func(_ ride.Profile, err error) error { return err }
	sine := func(_ ride.Response, err error) error { return err }
	for _, c := range []struct {
		name, want string
		err        error
	}{
		{"no fork", "Spec.Fork", with(func(s *ride.Spec) { s.Fork = nil })},
		{"negative mass", "Spec.Sprung = -60 kg: want 0.5 kg to 500 kg", with(func(s *ride.Spec) { s.Sprung = -60 })},
		{"no wheel", "Spec.Unsprung", with(func(s *ride.Spec) { s.Unsprung = 0 })},
		{"rider too heavy", "a mass that the fork carries", with(func(s *ride.Spec) { s.Sprung = 480 })},
		{"rake of a chopper", "Spec.Rake", with(func(s *ride.Spec) { s.Rake = 60 * units.Degree })},
		{"stiff beyond sense", "Spec.Tire.Stiffness", with(func(s *ride.Spec) { s.Tire.Stiffness = 1e12 })},
		{"NaN damping", "Spec.Tire.Damping", with(func(s *ride.Spec) { s.Tire.Damping = units.DampingRate(math.NaN()) })},
		{"rear without wheelbase", "Spec.Rear.Wheelbase", with(func(s *ride.Spec) { s.Rear = &ride.Rear{} })},
		{"legs without heat", "Spec.Legs.Heat", with(func(s *ride.Spec) { s.Legs.Mass = 2 })},
		{"waves of no height", "SteppedSine.road", sine(v.SteppedSine(context.Background(), 2, 0))},
		{"waves too fast", "SteppedSine.frequency", sine(v.SteppedSine(context.Background(), 1e5, 0.01))},
		{"NaN waves", "Response.frequency", sine(v.Response(units.Frequency(math.NaN()), 0.01))},
		{"waves over the fork", "Response.road", sine(v.Response(2, 3))},
		{"no time", "Course.Duration", run(ride.Course{}, ride.Settings{})},
		{"absurd speed", "Course.Sinking", run(ride.Course{Duration: 1, Sinking: 300}, ride.Settings{})},
		{"absurd waves", "Course.Road.Frequency", run(ride.Course{Duration: 1, Road: ride.Sine{Frequency: 1e6}},
			ride.Settings{})},
		{"braking backward", "Course.Braking.End",
			run(ride.Course{Duration: 1, Braking: ride.Braking{Force: 300, Start: 1, Rise: 0.1}}, ride.Settings{})},
		{"braking that ends before it holds", "Course.Braking.End",
			run(ride.Course{Duration: 1, Braking: ride.Braking{Force: 300, Start: 1, Rise: 0.5, End: 1.2}}, ride.Settings{})},
		{"too many samples", "Settings.Rate", run(ride.Course{Duration: 3600}, ride.Settings{Rate: 20_000})},
		{"no tolerance", "Settings.Tolerance", run(ride.Course{Duration: 1}, ride.Settings{Tolerance: math.NaN()})},
		{"one point", "Profile.heights", second(ride.NewProfile(make([]ride.Height, 1), true))},
		{"very many points", "10 000 000", second(ride.NewProfile(make([]ride.Height, 10_000_001), true))},
		{"unsorted time", "heights[2].Time", second(ride.NewProfile([]ride.Height{{}, {Time: 1}, {Time: 0.5}}, false))},
		{"NaN height", "heights[1].Height", second(ride.NewProfile([]ride.Height{{},
			{Time: 1, Height: units.Length(math.NaN())}}, false))},
		{"a wall", "slope", second(ride.NewProfile([]ride.Height{{}, {Time: 1}, {Time: 1.001, Height: 1}}, false))},
		{"class before A", "ISO8608.class", second(ride.ISO8608('@', 10, 10, 1))},
		{"class Z", "ISO8608.class", second(ride.ISO8608('Z', 10, 10, 1))},
		{"edge above the axle", "Edge.height", second(ride.Edge(300*mm, 345*mm, 8, 0.1))},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !errors.As(c.err, new(*units.RangeError)) || !strings.Contains(c.err.Error(), c.want) {
				t.Errorf("error %v, want a *units.RangeError with %q", c.err, c.want)
			}
		})
	}
}

// A point out of range is one fault: the slope to it is not told as well.
func TestProfileFaultsFollowFromNone(t *testing.T) {
	_, err := ride.NewProfile([]ride.Height{{}, {Time: 0.001, Height: 20}}, true)
	if faults := units.Faults(err); len(faults) != 1 {
		t.Errorf("%d faults: %v", len(faults), err)
	}
}

// The road is level up to the first of the whoops, but for the rounding of one part in 48 of it.
func TestLevelBeforeTheWhoops(t *testing.T) {
	for _, start := range []units.Time{0.0005, 0.005, 0.5, 3} {
		p, err := ride.Whoops(600*mm, 4*units.Meter, 5, 10, start)
		if err != nil {
			t.Fatal(err)
		}
		for x := units.Time(0); x <= start; x += start / 1000 {
			if h, _ := p.At(x); !(math.Abs(float64(h)) <= 0.0005) {
				t.Fatalf("whoops from %v: %v at %v", start, h, x)
			}
		}
	}
}

// A road by class is there to the end of the course.
func TestRoadLastsTheCourse(t *testing.T) {
	for seed := range uint64(50) {
		duration := units.Time(1 + 0.137*float64(seed))
		p, err := ride.ISO8608('C', 11, duration, seed)
		if err != nil || p.End() < duration {
			t.Errorf("%v of road for %v, %v", p.End(), duration, err)
		}
	}
}

// blows is a damper that pushes the way it moves.
type blows struct{}

func (blows) Force(v units.Speed) units.Force           { return units.Force(-1e5 * float64(v)) }
func (blows) Coefficient(units.Speed) units.DampingRate { return -1e5 }

// washedOut is a road that is no number after half a second.
type washedOut struct{}

func (washedOut) At(t units.Time) (units.Length, units.Speed) {
	if t > 0.5 {
		return units.Length(math.NaN()), 0
	}
	return 0, 0
}
func (washedOut) Corners() []units.Time { return nil }

// What can not be followed ends with the time and the state; what takes long can be stopped.
func TestRunEnds(t *testing.T) {
	record, f := fork(t, "M07")
	spec := ride.Of(f, record.Chassis.Geometry(), 80, blows{})
	v, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	_, err = v.Run(context.Background(), ride.Course{Duration: 60, Height: 0.3}, ride.Settings{})
	if err == nil || !strings.Contains(err.Error(), " s, travel ") {
		t.Errorf("a motion that grows without end: %v", err)
	}
	spec.Damper = damping.Linear(500)
	if v, err = ride.New(spec); err != nil {
		t.Fatal(err)
	}
	_, err = v.Run(context.Background(), ride.Course{Duration: 3, Road: washedOut{}}, ride.Settings{})
	if err == nil || !strings.Contains(err.Error(), "at 0.5000 s, travel ") {
		t.Errorf("a road that ends in nothing: %v", err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel()
	r, err := v.Run(ctx, ride.Course{Duration: 3600, Road: ride.Sine{Amplitude: 20 * mm, Frequency: 3}},
		ride.Settings{Rate: 100})
	if !errors.Is(err, context.DeadlineExceeded) || len(r.Samples) == 0 {
		t.Errorf("stopped: %v with %d samples", err, len(r.Samples))
	}
}

// The same course twice is the same to the last bit, in any order and from any goroutine.
func TestSameAgain(t *testing.T) {
	record, f := fork(t, "B04")
	v, err := ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(500)))
	if err != nil {
		t.Fatal(err)
	}
	road, err := ride.ISO8608('E', 8, 3, 7)
	if err != nil {
		t.Fatal(err)
	}
	results := make(chan ride.Summary)
	for range 4 {
		go func() {
			r, err := v.Run(context.Background(), ride.Course{Duration: 3, Road: road}, ride.Settings{})
			if err != nil {
				t.Error(err)
			}
			results <- r.Summary()
		}()
	}
	first := <-results
	for range 3 {
		if s := <-results; s != first {
			t.Errorf("%+v after %+v", s, first)
		}
	}
}

// Friction holds the fork on small waves, where it moves as one piece, and a histogram
// counts all of the time.
func TestStickingAndHistogram(t *testing.T) {
	record, f := fork(t, "M07")
	v, err := ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(500)))
	if err != nil {
		t.Fatal(err)
	}
	small, err := v.Response(1, 2*mm)
	if err != nil || !small.Stuck || small.Travel != 0 {
		t.Errorf("2 mm at 1 Hz: %+v, %v", small, err)
	}
	r, err := v.Run(context.Background(), ride.Course{Duration: 3, Road: ride.Sine{Amplitude: 2 * mm, Frequency: 1}},
		ride.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if s := r.Summary(); s.Travel.Most-s.Travel.Least > 1e-9 || s.Velocity.Most > 1e-9 {
		t.Errorf("a held fork moves by %v", s.Travel.Most-s.Travel.Least)
	}
	bins := ride.Histogram(r, func(s ride.Sample) units.Length { return s.Travel }, 0, f.Travel(), 20)
	var sum units.Share
	for _, b := range bins {
		sum += b
	}
	if !(math.Abs(float64(sum)-1) <= 1e-12) || bins[int(float64(v.Sag()/f.Travel())*20)] < 0.999 {
		t.Errorf("bins %v", bins)
	}
	if ride.Histogram(r, func(s ride.Sample) units.Length { return s.Travel }, 1, 0, 20) != nil {
		t.Error("a histogram over nothing")
	}
}

// Braking dives the fork by its rake and by the load that moves forward: at rest under it
// the fork carries what geometry says.
func TestBraking(t *testing.T) {
	record, f := fork(t, "M07")
	chassis := record.Chassis.Geometry()
	load := chassis.RiddenLoad(80)
	spec := ride.Of(f, chassis, 80, damping.Linear(900))
	rear := units.Mass(float64(load.Mass) - float64(spec.Sprung) - float64(spec.Unsprung))
	spec.Rear = &ride.Rear{Wheelbase: chassis.Wheelbase, Sprung: rear, Gyration: 550 * mm,
		Stiffness: 60 * units.NewtonPerMillimeter, Damping: 1500, CenterOfGravity: chassis.CenterOfGravity}
	v, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	const brake = 250
	r, err := v.Run(context.Background(), ride.Course{Duration: 8,
		Braking: ride.Braking{Force: brake, Start: 0.5, Rise: 0.5, End: 20}}, ride.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	moved := units.Force(brake * float64(chassis.CenterOfGravity/chassis.Wheelbase))
	want := chassis.AxialLoad(load.Wheel+moved, brake)
	last := r.Samples[len(r.Samples)-1]
	if got := last.Force; !(math.Abs(float64(got-want)) <= 1e-3*float64(want)) {
		t.Errorf("the fork carries %v, want %v", got, want)
	}
	if got, want := last.Tire, load.Wheel+moved; !(math.Abs(float64(got-want)) <= 1e-3*float64(want)) {
		t.Errorf("the tire carries %v, want %v", got, want)
	}
	if moved := float64(r.Energy.Brake); !(math.Abs(float64(r.Energy.Unaccounted)) <= 1e-6*moved) {
		t.Errorf("energy %+v", r.Energy)
	}
}

// A front by itself accounts for its brake too.
func TestBrakeOfAFront(t *testing.T) {
	record, f := fork(t, "M07")
	v, err := ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(900)))
	if err != nil {
		t.Fatal(err)
	}
	r, err := v.Run(context.Background(), ride.Course{Duration: 2,
		Braking: ride.Braking{Force: 250, Start: 0.2, Rise: 0.5, End: 1.5}}, ride.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if e := r.Energy; e.Brake == 0 || !(math.Abs(float64(e.Unaccounted)) <= 1e-6*math.Abs(float64(e.Brake))) {
		t.Errorf("energy %+v", e)
	}
}

// A hot, fast fork warms its legs by what the damper and the friction take out.
func TestLegsWarm(t *testing.T) {
	record, f := fork(t, "M07")
	spec := ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(900))
	spec.Legs = ride.Legs{Mass: 2, Heat: 1000, Loss: 0}
	v, err := ride.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	r, err := v.Run(context.Background(), ride.Course{Duration: 20, Road: ride.Sine{Amplitude: 30 * mm, Frequency: 3}},
		ride.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	want := float64(r.Energy.Damper+r.Energy.Friction+r.Energy.Gas) / 2000
	if got := float64(r.Summary().LegsWarmed); !(math.Abs(got-want) <= 1e-6*want) {
		t.Errorf("warmer by %v K, want %v K", got, want)
	}
}

// A landing is next to adiabatic, from somewhere between the sag and full extension.
func TestLand(t *testing.T) {
	record, f := fork(t, "M07")
	v, err := ride.New(ride.Of(f, record.Chassis.Geometry(), 80, damping.Linear(700)))
	if err != nil {
		t.Fatal(err)
	}
	l, err := v.Land(context.Background(), 500*mm)
	if err != nil {
		t.Fatal(err)
	}
	// A landing takes a quarter of a second, the wall some seconds: next to adiabatic.
	if !(l.Exponent > 1.3 && l.Exponent <= 1.4) || l.Start < 0 || l.Start > v.Sag() {
		t.Errorf("exponent %v from %v", l.Exponent, l.Start)
	}
	if share := float64(l.Misfit) / float64(f.Curve(1.3).Force(l.Deepest)); share > 0.02 {
		t.Errorf("misfit of %.1f %%", 100*share)
	}
	if len(l.Run.Hits) != 0 {
		t.Errorf("it bottoms: %+v", l.Run.Hits)
	}
	hard, err := v.Land(context.Background(), 3*units.Meter)
	if err != nil {
		t.Fatal(err)
	}
	if len(hard.Run.Hits) == 0 || !(hard.Run.Hits[0].Speed > 0) || !(hard.Run.Hits[0].Left > 0) {
		t.Errorf("from 3 m hits %+v", hard.Run.Hits)
	}
	// In the moment of the deepest hit the stop holds its share of the energy.
	fall := ride.Course{Duration: 3, Height: 3 * units.Meter}
	r, err := v.Run(context.Background(), fall, ride.Settings{})
	if err != nil || len(r.Hits) == 0 {
		t.Fatal(err)
	}
	fall.Duration = r.Hits[0].Time + 0.001
	if r, err = v.Run(context.Background(), fall, ride.Settings{Tolerance: 1e-9}); err != nil {
		t.Fatal(err)
	}
	if e := r.Energy; !(math.Abs(float64(e.Unaccounted)) <= 1e-6*math.Abs(float64(e.Damper+e.Friction))) ||
		!(r.Hits[0].Left > 0) {
		t.Errorf("%+v, %+v", e, r.Hits)
	}
	if share := float64(hard.Misfit) / float64(f.Curve(1.3).Force(300*mm)); !(share < 0.02) {
		t.Errorf("from 3 m a misfit of %v", hard.Misfit)
	}
	if _, err := v.Land(context.Background(), 1*mm); err == nil {
		t.Error("a landing from 1 mm")
	}
}
