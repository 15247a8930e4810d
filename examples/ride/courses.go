package main

import (
	"context"
	"fmt"
	"strings"

	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// courses are the same ground for every fork, scaled with its travel; all are invented.
func courses(job conversion.Job) ([]ride.Course, error) {
	travel := job.Fork.Travel
	waves, err := ride.Whoops(travel, 16*travel, 6, 16*units.Speed(travel)*2, 0.5)
	if err != nil {
		return nil, err
	}
	rough, err := ride.ISO8608('E', 10*units.MeterPerSecond, 20, 1)
	if err != nil {
		return nil, err
	}
	edge, err := ride.Edge(min(travel/3, job.Chassis.WheelRadius/3), job.Chassis.WheelRadius, 8*units.MeterPerSecond, 0.3)
	if err != nil {
		return nil, err
	}
	load := job.Chassis.RiddenLoad(job.Rider)
	return []ride.Course{
		{Name: "SIX WHOOPS", Duration: 5, Road: waves},
		{Name: "ROUGH ROAD", Duration: 20, Road: rough},
		{Name: "SQUARE EDGE", Duration: 2, Road: edge},
		{Name: "LANDING", Duration: 2, Height: 10 * units.Millimeter, Sinking: units.Speed(3.5 * float64(travel) / 0.3)},
		{Name: "BRAKING", Duration: 3, Braking: ride.Braking{Force: load.Wheel / 2, Start: 0.3, Rise: 0.2, End: 2}},
	}, nil
}

func fileName(course string) string { return strings.ToLower(strings.ReplaceAll(course, " ", "-")) }

// table is the exponent of a landing for every fork on air: cold, at room temperature, hot,
// and with a wall that takes heat twice as fast.
func table(ctx context.Context) (string, error) {
	var s typeset.Sheet
	s.Section("EXPONENT OF A LANDING, off a ledge of 500 mm")
	widths := []int{8, 8, 8, 10, 14, 8, 9}
	s.Row("fork", 6, []string{"−5 °C", "20 °C", "60 °C", "fast wall", "gas at rest at", "sag", "deepest"}, widths...)
	for f := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		row := make([]string, len(widths))
		for i, c := range []struct {
			celsius float64
			tau     units.Time
		}{{-5, ride.UsualExchange}, {20, ride.UsualExchange}, {60, ride.UsualExchange}, {20, ride.UsualExchange / 2}} {
			l, v, err := land(ctx, f, c.celsius, c.tau)
			if err != nil {
				return "", fmt.Errorf("%s: %w", f.ID, err)
			}
			row[i] = fmt.Sprintf("%.3f", l.Exponent)
			if i == 1 {
				row[4], row[5] = fmt.Sprintf("%.0f", l.Start), fmt.Sprintf("%.0f", v.Sag())
				row[6] = fmt.Sprintf("%.0f", l.Deepest)
			}
		}
		s.Row(f.ID, 6, row, widths...)
	}
	s.Paragraph("", "The gas loses its heat to the wall with a time constant of 3 s, an estimate to ±50 %, and a landing "+
		"takes a quarter of a second: it is next to adiabatic, 1.4, from next to the sag. "+
		"Common practice takes 1.3 from full extension.")
	return s.String(), nil
}

// usual are the damping ratios of forks for such use.
func usual(d data.Discipline) (compression, rebound float64) {
	if d.CompressionDamping.Given() {
		return d.CompressionDamping.Value, d.ReboundDamping.Value
	}
	return ride.UsualCompression, ride.UsualRebound
}

// land takes a fork with its typical rider off the ledge.
func land(ctx context.Context, f data.Fork, celsius float64, tau units.Time) (ride.Landing, *ride.Vehicle, error) {
	air, err := gas.StandardAt(0, units.Celsius(celsius))
	if err != nil {
		return ride.Landing{}, nil, err
	}
	fork, err := f.Setup(air)
	if err != nil {
		return ride.Landing{}, nil, err
	}
	spec := ride.Of(fork, f.Chassis.Geometry(), f.Rider.Mass.Value, nil)
	spec.Exchange.TimeConstant = tau
	v, err := ride.New(spec)
	if err != nil {
		return ride.Landing{}, nil, err
	}
	use, err := data.Reference().Discipline(f.Use)
	if err != nil {
		return ride.Landing{}, nil, err
	}
	damper, err := v.ByRatio(usual(use))
	if err != nil {
		return ride.Landing{}, nil, err
	}
	l, err := v.WithDamper(damper).Land(ctx, 500*units.Millimeter)
	return l, v, err
}
