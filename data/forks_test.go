package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Sag of the typical rider, force extended and at the end of the stroke (n = 1 and 1.3) of the dataset's forks, 20 °C
// at sea level, by a program that reads the same tables and has its own statics, .ci/vectors/dataset.py: no outside
// evidence, but neither the reading of the tables nor the model is the library's.
func TestForkRecord(t *testing.T) {
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1.01325 * units.Bar)}
	for _, row := range record.Rows(t, "forks.csv", "id,sag_mm,extended_N,end_N,ridden_N", 50) {
		want := record.Numbers(t, row[1:])
		f, err := data.Reference().Fork(row[0])
		if err != nil {
			t.Fatal(err)
		}
		s, err := f.Setup(room)
		if err != nil {
			t.Fatal(err)
		}
		sag, err := s.Sag(f.Load(f.Rider.Mass.Value))
		if err != nil {
			t.Fatal(err)
		}
		rest, end := s.Curve(1), f.Travel.Value
		for i, got := range []float64{sag.Middle.In(units.Millimeter), float64(rest.Force(0)), float64(rest.Force(end)),
			float64(s.Curve(1.3).Force(end))} {
			if !(math.Abs(got-want[i]) <= 1e-9*max(1, math.Abs(want[i]))) {
				t.Errorf("%s: value %d is %.12g, recorded %.12g", row[0], i, got, want[i])
			}
		}
	}
}
