package jobfile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// dials turns the bytes of an input into numbers, one after another; past their end they stay in the middle.
type dials []byte

func (d *dials) pick(n int) int {
	if len(*d) == 0 {
		return 0
	}
	b := (*d)[0]
	*d = (*d)[1:]
	return int(b) % n
}

// turn is q within a share of itself.
func turn[Q ~float64](d *dials, q Q, share float64) Q {
	if len(*d) == 0 {
		return q
	}
	b := (*d)[0]
	*d = (*d)[1:]
	return q * Q(1+share*(float64(b)-127.5)/127.5)
}

// Whole jobs: a fork of the dataset with its typical job, every part of which is turned by some share, mostly within
// what is taken. A plan either tells faults that name a value and what was wanted, or is finite, reads back to the very
// same text, and lets down the front where it says that it sits lower.
func FuzzWholeJob(f *testing.F) {
	jobs := map[string]conversion.Job{}
	var ids []string
	for fork := range data.Reference().Forks() {
		file, err := jobfile.Typical(fork.ID, data.Reference())
		if err != nil {
			continue // nothing to plan for
		}
		ids, jobs[fork.ID] = append(ids, fork.ID), file.Job
	}
	for i := 0; i < len(ids); i += 9 { // the others are reached by the first byte
		f.Add([]byte{byte(i), 200, 30, 250, 7, 180, 90, 10, 240, 60, 128, 99, 2, 3, 1, 0, 77, 210, 33, 160, 4, 250, 12})
	}
	f.Fuzz(func(t *testing.T, input []byte) {
		d := dials(input)
		id := ids[d.pick(len(ids))]
		j := jobs[id]
		j.Rider = turn(&d, j.Rider, 0.5)
		j.Chassis.Rake = turn(&d, j.Chassis.Rake, 0.3)
		j.Chassis.FrontShareRidden = turn(&d, j.Chassis.FrontShareRidden, 0.3)
		j.ConvertedFriction = turn(&d, j.ConvertedFriction, 1)
		j.Present.Friction = turn(&d, j.Present.Friction, 1)
		for _, l := range []*setup.Leg{&j.Present.Left, &j.Present.Right} {
			if l.Air != nil {
				air := *l.Air
				air.Fill.Gauge = air.Fill.Gauge.Times(turn(&d, 1.0, 0.8))
				air.Volume = turn(&d, air.Volume, 0.3)
				air.NegativeVolume = turn(&d, air.NegativeVolume, 0.5)
				l.Air = &air
			}
			if l.Gap != nil {
				gap := *l.Gap
				gap.Residual = turn(&d, gap.Residual, 1)
				l.Gap = &gap
			}
		}
		shelf := append([]conversion.ShelfCoil(nil), j.Shelf...)
		for i := range shelf {
			shelf[i].Rate = turn(&d, shelf[i].Rate, 0.1)
			shelf[i].Wire.FreeLength = turn(&d, shelf[i].Wire.FreeLength, 0.1)
		}
		if len(shelf) > 0 {
			j.Shelf = shelf[:1+d.pick(len(shelf))]
		}
		j.Preload.Aim = turn(&d, j.Preload.Aim, 0.5)
		j.OilVolume.Aim = turn(&d, j.OilVolume.Aim, 0.2)
		j.OilVolume.Max = turn(&d, j.OilVolume.Max, 0.3)
		j.Criterion = conversion.Criterion(d.pick(3))
		j.RideExponent = turn(&d, j.RideExponent, 0.2)
		j.TargetSag = turn(&d, j.TargetSag, 0.5)
		for _, air := range []*gas.Ambient{&j.Workshop, &j.Event} {
			air.Temperature = units.Kelvin(turn(&d, air.Temperature.Kelvin(), 0.12))
		}

		r, err := conversion.Plan(j)
		if err != nil {
			for _, err := range check.Split(err) {
				if fault := (*units.RangeError)(nil); !errors.As(err, &fault) {
					t.Errorf("%s: %v names no value", id, err)
				}
			}
			return
		}
		text, err := json.Marshal(r)
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		var back conversion.Report
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("%s: its own report: %v", id, err)
		}
		if again, err := json.Marshal(back); err != nil || !bytes.Equal(again, text) {
			t.Errorf("%s: reads back as another report, %v", id, err)
		}
		for _, c := range r.Candidates {
			s := c.Behavior.Sag
			if !(0 <= s.High && s.High <= s.Middle && s.Middle <= s.Low && s.Low <= j.Fork.Travel) {
				t.Errorf("%s %s: sag %v of %v", id, c.Coil, s, j.Fork.Travel)
			}
			const rounding = 1e-12 // m; the geometry of what is less is lost in that of the whole fork
			if lower := c.SagChange > 0; math.Abs(float64(c.SagChange)) > rounding &&
				(c.RakeChange < 0 != lower || c.TrailChange < 0 != lower) {
				t.Errorf("%s %s: sag %+v, rake %+v, trail %+v", id, c.Coil, c.SagChange, c.RakeChange, c.TrailChange)
			}
			if c.Safe() && c.BindMargin < 0 {
				t.Errorf("%s %s: safe, and binds %v before the end", id, c.Coil, -c.BindMargin)
			}
		}
	})
}
