package ride_test

import (
	"context"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/units"
)

// A vehicle and a course are shared; every run is its own.
func TestShared(t *testing.T) {
	record, s := fork(t, "M07")
	v, err := ride.New(ride.Of(s, record.Chassis.Geometry(), record.Rider.Mass.Value, damping.Linear(700)))
	if err != nil {
		t.Fatal(err)
	}
	road, err := ride.ISO8608('D', 12*units.MeterPerSecond, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	shared.Read(t, func() any {
		run, err := v.Run(context.Background(), ride.Course{Duration: 0.1, Road: road}, ride.Settings{})
		return []any{run, err}
	})
}
