package ride_test

import (
	"context"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/units"
)

// A minute of a poor road on an air fork: the work of a study, for one fork.
func BenchmarkMinuteOfRoad(b *testing.B) {
	record, s := fork(b, "M07")
	v, err := ride.New(ride.Of(s, record.Chassis.Geometry(), record.Rider.Mass.Value, damping.Linear(700)))
	if err != nil {
		b.Fatal(err)
	}
	road, err := ride.ISO8608('D', 12*units.MeterPerSecond, 60, 1)
	if err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		tolerance float64
	}{{"usual", 0}, {"1e-6", 1e-6}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := v.Run(context.Background(), ride.Course{Duration: 60, Road: road},
					ride.Settings{Tolerance: c.tolerance}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkISO8608(b *testing.B) {
	for b.Loop() {
		if _, err := ride.ISO8608('D', 12*units.MeterPerSecond, 60, 1); err != nil {
			b.Fatal(err)
		}
	}
}
