package bench_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter
	mL = units.Milliliter
)

var room = gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(0.985 * units.Bar)}

// motocross is an air leg beside a damper leg; its numbers are invented.
func motocross() bench.Fork {
	gap := func(r units.Volume) *setup.Gap {
		return &setup.Gap{Area: geometry.Circle(48*mm) - geometry.Circle(12*mm), Residual: r}
	}
	f := bench.Fork{Exponent: 1.3, Damping: 0.4,
		Spec: setup.Spec{Travel: 305 * mm, Closed: room, Friction: 84,
			Left: setup.Leg{Gap: gap(304 * mL), Air: &setup.Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * mL,
				NegativeVolume: 70 * mL,
				Fill:           gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: room}}},
			Right: setup.Leg{Gap: gap(304 * mL)}},
		Chassis: geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * mm, WheelRadius: 345 * mm, Wheelbase: 1485 * mm,
			Mass: 111, UnsprungMass: 15.3, FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * mm},
	}
	f.Oil[0] = bench.Oil{Interior: 900 * mL, Column: geometry.Circle(44 * mm), Metal: 40 * mL, Volume: 556 * mL}
	return f
}

func unknowns() []bench.Unknown {
	return []bench.Unknown{
		bench.Uncertain("friction", 25*units.Newton), bench.Uncertain("gauge", 0.1*units.Bar),
		bench.Uncertain("left.air.volume", 26*mL), bench.Uncertain("left.air.negative-volume", 10*mL),
		bench.Uncertain("left.interior", 50*mL), bench.Uncertain("left.metal", 6*mL), bench.Uncertain("right.gap", 30*mL),
		bench.Uncertain("front-share-ridden", 0.018), bench.Uncertain("front-share", 0.006),
		bench.Uncertain("unsprung-mass", 1.2*units.Kilogram),
		bench.Uncertain("exponent", 0.05), bench.Uncertain("damping-ratio", 0.12),
	}
}

// plan is what is read of a fork; what stands in the readings does not matter yet.
func plan() []bench.Reading {
	bar := func(b float64) units.GaugePressure { return units.Gauge(units.Pressure(b) * units.Bar) }
	return []bench.Reading{
		bench.Sag{Rider: 79, From: bench.Above, SD: 2 * mm}, bench.Sag{Rider: 79, From: bench.Below, SD: 2 * mm},
		bench.Sag{Rider: 79, From: bench.Middle, Gauge: bar(7), SD: 2 * mm},
		bench.Sag{From: bench.Middle, SD: 2 * mm},
		bench.Force{Travel: 150 * mm, SD: 10}, bench.Force{Travel: 150 * mm, Out: true, SD: 10},
		bench.Force{Travel: 250 * mm, SD: 15},
		bench.Shown{Travel: 250 * mm, Gauge: bar(3), SD: 0.1 * units.Bar},
		bench.PumpedIn{Air: 500 * mL, Before: bar(4), SD: 0.05 * units.Bar},
		bench.Ends{Ridden: true, SD: 0.007}, bench.WheelMass{SD: 0.1},
		bench.OilToMark{Side: setup.Left, Level: 160 * mm, SD: 4 * mL}, bench.Rise{Side: setup.Left, SD: 1.5 * mm},
		bench.Bounce{Rider: 79, SD: 0.03}, bench.Decay{Cycles: 2, SD: 0.15},
	}
}

func BenchmarkLearn(b *testing.B) {
	f := motocross()
	readings, err := bench.Simulate(f, room, append(plan(), plan()...)[:30], rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bench.Learn(context.Background(), f, room, unknowns(), readings); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSamples is a hundred thousand forks that fit, each asked for its sag.
func BenchmarkSamples(b *testing.B) {
	f := motocross()
	readings, err := bench.Simulate(f, room, plan(), rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		b.Fatal(err)
	}
	k, err := bench.Learn(context.Background(), f, room, unknowns(), readings)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := k.Samples(context.Background(), bench.SagOf(79, room), 100_000, 1); err != nil {
			b.Fatal(err)
		}
	}
}
