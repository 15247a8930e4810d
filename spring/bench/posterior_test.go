package bench_test

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/units"
)

// The recorded posteriors of five sets of readings, by scipy's least_squares and a Metropolis
// chain through forces written down independently: testdata/posterior.csv names both. The best
// fork is the same to a thousandth of its uncertainty; the uncertainty, taken here over its
// width, within 15 %; the chain agrees within a fifth of it, which is how far the normal
// approximation goes in the worst of the five.
func TestRecordedPosteriors(t *testing.T) {
	register.Cite(t, "X-53")
	in, err := os.Open("testdata/posterior.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	r := csv.NewReader(in)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	type set struct {
		readings []bench.Reading
		unknowns []bench.Unknown
		want     map[string][4]float64
	}
	sets := map[string]*set{}
	for _, row := range rows[1:] {
		s := sets[row[0]]
		if s == nil {
			s = &set{want: map[string][4]float64{}}
			sets[row[0]] = s
		}
		var n [8]float64
		for i, cell := range row[3:] {
			n[i], _ = strconv.ParseFloat(cell, 64) // empty cells are 0
		}
		if row[1] == "unknown" {
			s.unknowns = append(s.unknowns, bench.Uncertain(row[2], n[3]))
			s.want[row[2]] = [4]float64(n[4:])
			continue
		}
		s.readings = append(s.readings, recorded(t, row[2], n))
	}
	if len(sets) != 5 {
		t.Fatalf("%d sets", len(sets))
	}
	for name, s := range sets {
		k, err := bench.Learn(context.Background(), motocross(), room, s.unknowns, s.readings)
		if err != nil {
			t.Fatal(name, err)
		}
		for unknown, want := range s.want {
			v, sd, _ := k.Of(unknown)
			if !(math.Abs(v-want[0]) <= 1e-3*want[1]) {
				t.Errorf("%s: %s = %.8g, by least_squares %.8g ± %.2g", name, unknown, v, want[0], want[1])
			}
			if !(math.Abs(sd/want[1]-1) <= 0.15) {
				t.Errorf("%s: %s ± %.4g, by least_squares %.4g", name, unknown, sd, want[1])
			}
			if !(math.Abs(v-want[2]) <= 0.2*want[3]) || !(math.Abs(sd/want[3]-1) <= 0.15) {
				t.Errorf("%s: %s = %.6g ± %.3g, by a Metropolis chain %.6g ± %.3g", name, unknown, v, sd, want[2], want[3])
			}
		}
	}
}

func recorded(t *testing.T, kind string, n [8]float64) bench.Reading {
	at, read, sd := n[0], n[2], n[3]
	var gauge units.GaugePressure
	if n[1] != 0 {
		gauge = units.Gauge(units.Pressure(n[1]))
	}
	sag := bench.Sag{Rider: units.Mass(at), Gauge: gauge, Travel: units.Length(read), SD: units.Length(sd)}
	force := bench.Force{Travel: units.Length(at), Gauge: gauge, Force: units.Force(read), SD: units.Force(sd)}
	switch kind {
	case "sag-above":
		return sag
	case "sag-below":
		sag.From = bench.Below
		return sag
	case "sag-middle":
		sag.From = bench.Middle
		return sag
	case "force-in":
		return force
	case "force-out":
		force.Out = true
		return force
	case "pressed":
		return bench.Pressed{Load: units.Force(at), From: bench.Middle, Gauge: gauge,
			Travel: units.Length(read), SD: units.Length(sd)}
	case "breakaway":
		return bench.Breakaway{Force: units.Force(read), SD: units.Force(sd)}
	case "shown":
		return bench.Shown{Travel: units.Length(at), Gauge: gauge,
			Shown: units.Gauge(units.Pressure(read)), SD: units.Pressure(sd)}
	case "pumped-in":
		return bench.PumpedIn{Air: units.Volume(at), Before: gauge,
			After: gauge.Add(units.Pressure(read)), SD: units.Pressure(sd)}
	case "oil-to-mark":
		return bench.OilToMark{Level: units.Length(at), Oil: units.Volume(read), SD: units.Volume(sd)}
	case "rise":
		return bench.Rise{Before: 160 * mm, After: 160*mm - units.Length(read), SD: units.Length(sd)}
	case "decay":
		return bench.Decay{First: units.Length(math.Exp(read)), Later: 1, Cycles: int(at), SD: sd}
	case "trail":
		return bench.Trail{Trail: units.Length(read), SD: units.Length(sd)}
	case "wheel-mass":
		return bench.WheelMass{Mass: units.Mass(read), SD: units.Mass(sd)}
	}
	t.Fatal("a reading of no kind: ", kind)
	return nil
}
