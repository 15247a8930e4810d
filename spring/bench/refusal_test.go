package bench_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Each fault of what is to be learned is told by its place, together with every other one and without what only
// follows from it; what lies within its limits is taken.
func TestEveryFaultOnce(t *testing.T) {
	reading := bench.WheelMass{Mass: 15, SD: 0.1}
	offset := []bench.Unknown{bench.Uncertain("offset", 3*mm)}
	of := func(i int, r bench.Reading) string { return fmt.Sprintf("Learn.readings[%d] (%v)", i, r) }
	change := func(do func(f *bench.Fork)) bench.Fork {
		f := motocross()
		do(&f)
		return f
	}
	same := motocross()
	port := change(func(f *bench.Fork) { f.Spec.Left.Air.Port = 4 * mm })
	sound := []bench.Reading{reading}
	far := bench.Sag{Rider: 79, Travel: 400 * mm, SD: mm}
	bounce := bench.Force{Travel: 306 * mm, Force: 3000, SD: 10}
	tooMany := make([]bench.Reading, 1001)
	for i := range tooMany {
		tooMany[i] = bench.WheelMass{Mass: 15 + units.Mass(i)/1000, SD: 0.1}
	}
	column := change(func(f *bench.Fork) { f.Oil[0].Column = 0 })
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		fork     bench.Fork
		unknowns []bench.Unknown
		readings []bench.Reading
		want     []string
	}{
		"nothing": {same, offset, sound, nil},
		"exponent below 1": {change(func(f *bench.Fork) { f.Exponent = 0.99 }), offset, sound,
			[]string{"Learn.fork.Exponent"}},
		"exponent above 5/3": {change(func(f *bench.Fork) { f.Exponent = 1.67 }), offset, sound,
			[]string{"Learn.fork.Exponent"}},
		"exponent at 5/3": {change(func(f *bench.Fork) { f.Exponent = 5.0 / 3 }), offset, sound, nil},
		"damping above 1": {change(func(f *bench.Fork) { f.Damping = 1.01 }), offset, sound,
			[]string{"Learn.fork.Damping"}},
		"a fork, an unknown and two readings": {change(func(f *bench.Fork) { f.Exponent = 3 }),
			[]bench.Unknown{bench.Uncertain("offset", -3*mm)},
			[]bench.Reading{bench.WheelMass{Mass: 15, SD: -1}, bench.WheelMass{Mass: units.Mass(inf), SD: 1}},
			[]string{"Learn.fork.Exponent", "Learn.unknowns[0].SD", of(0, reading) + ".SD",
				of(1, reading)}},
		"an unknown of no fork": {same, []bench.Unknown{bench.Uncertain("color", 1.0)},
			sound, []string{"Learn.unknowns[0]"}},
		"an unknown of another leg": {same, []bench.Unknown{bench.Uncertain("right.air.volume", mL)}, sound,
			[]string{"Learn.unknowns[0]"}},
		"an endless uncertainty": {same, []bench.Unknown{bench.Uncertain("offset", units.Length(inf))}, sound,
			[]string{"Learn.unknowns[0].SD"}},
		"endless limits": {same, []bench.Unknown{bench.Between("offset", units.Length(-inf), 60*mm)}, sound,
			[]string{"Learn.unknowns[0].SD"}},
		"limits below 0 of what may be there": {same, []bench.Unknown{bench.Between("offset", -9*mm, 60*mm)},
			sound, nil},
		"limits from 0 of what is above it": {same, []bench.Unknown{bench.Between("friction", 0, 60*units.Newton)}, sound,
			[]string{"Learn.unknowns[0]"}},
		"limits of a port from full extension": {port, []bench.Unknown{bench.Between("left.air.port", 0, 6*mm)},
			sound, nil},
		"limits of a port from above": {port, []bench.Unknown{bench.Between("left.air.port", -mm, 6*mm)}, sound,
			[]string{"Learn.unknowns[0]"}},
		"limits of a port":       {port, []bench.Unknown{bench.Between("left.air.port", 2*mm, 6*mm)}, sound, nil},
		"a port about its place": {port, []bench.Unknown{bench.Uncertain("left.air.port", mm)}, sound, nil},
		"a port about full extension": {same, []bench.Unknown{bench.Uncertain("left.air.port", mm)},
			sound, []string{"Learn.unknowns[0]"}},
		"a port from full extension": {same, []bench.Unknown{bench.Between("left.air.port", 0, 6*mm)},
			sound, nil},
		"a gauge about 0":               {same, []bench.Unknown{bench.Uncertain("gauge", units.Bar)}, sound, nil},
		"too many readings":             {same, offset, tooMany, []string{"Learn.readings"}},
		"as many readings as can be":    {same, offset, tooMany[:1000], nil},
		"too many readings and a fault": {same, nil, tooMany, []string{"Learn.unknowns", "Learn.readings"}},
		"a reading without end": {same, offset,
			[]bench.Reading{bench.WheelMass{Mass: units.Mass(inf), SD: 1}}, []string{of(0, reading)}},
		"a reading of endless doubt": {same, offset,
			[]bench.Reading{bench.WheelMass{Mass: 15, SD: units.Mass(inf)}}, []string{of(0, reading) + ".SD"}},
		"two that this fork cannot give": {same, offset,
			[]bench.Reading{far, bounce}, []string{of(0, far), of(1, bounce)}},
		"one that is no reading besides": {same, offset,
			[]bench.Reading{bench.Sag{Rider: 79, Travel: 400 * mm, SD: -mm}}, []string{of(0, far) + ".SD"}},
		"sag above full extension": {same, offset,
			[]bench.Reading{bench.Sag{Rider: 79, Travel: -mm, SD: mm}}, []string{of(0, far)}},
		"sag at full extension": {same, offset, []bench.Reading{bench.Sag{Rider: 79, SD: mm}}, nil},
		"a reading of a fork that is not": {change(func(f *bench.Fork) { f.Spec.Travel = -1 }), offset,
			[]bench.Reading{far}, []string{"Learn.fork.Travel"}},
		"a level in a leg of no section": {column, offset,
			[]bench.Reading{bench.OilToMark{Side: setup.Left, Level: 160 * mm, Oil: 600 * mL, SD: mL}},
			[]string{of(0, bench.OilToMark{Level: 160 * mm}) + ".Oil.Column"}},
		"a rise in a leg of no section": {column, offset,
			[]bench.Reading{bench.Rise{Side: setup.Left, Before: 160 * mm, After: 150 * mm, SD: mm}},
			[]string{of(0, bench.Rise{}) + ".Oil.Column"}},
		"water in a leg of no section": {column, offset,
			[]bench.Reading{bench.Water{Side: setup.Left, Volume: 900 * mL, SD: mL}}, nil},
		"water in a leg of no inside": {same, offset,
			[]bench.Reading{bench.Water{Side: setup.Right, Volume: 900 * mL, SD: mL}},
			[]string{of(0, bench.Water{Side: setup.Right}) + ".Oil.Interior"}},
	} {
		var got []string
		for _, fault := range bench.Check(c.fork, room, c.unknowns, c.readings) {
			var outside *units.RangeError
			if !errors.As(fault.Err, &outside) {
				t.Errorf("%s: %v", name, fault.Err)
				continue
			}
			got = append(got, outside.Field)
		}
		slices.Sort(got)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: faults of %q, want %q", name, got, c.want)
		}
		if k, err := bench.Learn(t.Context(), c.fork, room, c.unknowns, c.readings); (err == nil) != (c.want == nil) {
			t.Errorf("%s: learned %v, %v", name, k, err)
		}
	}
}

// Oil for a ratio is told of a leg whose inside is known, for ratios between nothing and a locked leg.
func TestOilForRefuses(t *testing.T) {
	dry, closed := motocross(), motocross()
	dry.Oil[0].Interior = 0
	closed.Spec.Left.Gap = nil
	for _, c := range []struct {
		name  string
		fork  bench.Fork
		ratio float64
		ok    bool
	}{{"usual", motocross(), 3.5, true}, {"no gas", closed, 3.5, false}, {"inside not known", dry, 3.5, false},
		{"none", motocross(), 1, false}, {"below none", motocross(), 0.5, false}, {"almost locked", motocross(), 99, true},
		{"locked", motocross(), 100, false}, {"no number", motocross(), math.NaN(), false}} {
		v, err := bench.OilFor(setup.Left, c.ratio).Of(c.fork)
		if (err == nil) != c.ok {
			t.Errorf("%s: %v, %v", c.name, v, err)
		}
		if gas := 860e-6 - v; err == nil {
			swept := (circle(0.048) - circle(0.012)) * travel
			within(t, c.name, (gas+swept)/gas, c.ratio, 1e-9)
		}
	}
}

// Numbers of samples have limits, at which they are taken.
func TestSampleLimits(t *testing.T) {
	k, err := bench.Learn(t.Context(), motocross(), room, []bench.Unknown{bench.Uncertain("offset", 3*mm)},
		[]bench.Reading{bench.Direct("offset", 57*mm, 3*mm)})
	if err != nil {
		t.Fatal(err)
	}
	offset := bench.Question{Name: "offset", Of: func(f bench.Fork) (float64, error) {
		return float64(f.Chassis.Offset), nil
	}}
	for n, ok := range map[int]bool{-1: false, 9: false, 10: true, 10_000_001: false} {
		s, err := k.Samples(t.Context(), offset, n, 1)
		if (err == nil) != ok {
			t.Errorf("%d samples: %v, %v", n, s, err)
		}
		if ok && !(math.Abs(s.Mean-0.0565) <= 0.005 && s.StdDev > 0) {
			t.Errorf("%d samples: %+v", n, s)
		}
	}
	for n, ok := range map[int]bool{99: false, 100: true, 1_000_001: false} {
		if _, err := k.Predictive(t.Context(), n, 1); (err == nil) != ok {
			t.Errorf("predictive by %d: %v", n, err)
		}
	}
	// Of a hundred samples fewer than a hundred count.
	var outside *units.RangeError
	if better, err := k.Refined(t.Context(), 100, 1); !errors.As(err, &outside) || better != nil {
		t.Errorf("refined by 100 samples: %v, %v", better, err)
	}
}

// What is no reading can not be simulated, and the error says which one.
func TestSimulateNothing(t *testing.T) {
	list, err := bench.Simulate(motocross(), room, []bench.Reading{bench.WheelMass{SD: 0.1}, nil},
		rand.New(rand.NewPCG(1, 2)))
	var outside *units.RangeError
	if !errors.As(err, &outside) || list != nil {
		t.Errorf("%v, %v", list, err)
	}
}

// A loose coil holds nothing up: under a load that friction carries the fork rests at full extension, and a reading of
// anything else contradicts it.
func TestNoTravelOfALooseCoil(t *testing.T) {
	loose := motocross()
	loose.Oil = [2]bench.Oil{}
	loose.Spec.Left = setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 8 * units.NewtonPerMillimeter,
		Preload: -10 * mm}}}
	loose.Spec.Right = setup.Leg{}
	u := []bench.Unknown{bench.Uncertain("friction", 9*units.Newton)}
	for load, fits := range map[units.Force]bool{50: false, 84: false, 90: true} {
		k, err := bench.Learn(t.Context(), loose, room, u,
			[]bench.Reading{bench.Pressed{Load: load, Travel: 11 * mm, SD: mm}})
		if err != nil || k.Residual[0].Contradicts() == fits || !(k.Surprise >= 0) {
			t.Errorf("%v: %+v, %v", load, k, err)
		}
	}
}
