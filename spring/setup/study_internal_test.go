package setup

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// The recorded studies of two million forks each, by a Python program that has forces of its own: mean, deviation and
// quantiles are the same within four of what either number of samples leaves open, and a bin.
func TestRecordedStudies(t *testing.T) {
	in, err := os.Open("testdata/study.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	r := csv.NewReader(in)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 7 {
		t.Fatal(len(rows), err)
	}
	blown := converted()
	blown.Left.Springs, blown.Left.Air = nil, air()
	forks := map[string]Spec{"coil": converted(), "air": blown}
	const n, theirs = 500_000, 2_000_000
	open := math.Sqrt(1.0/n + 1.0/theirs) // of a mean, in deviations
	found := map[string]Sampled{}
	for name, s := range forks {
		if found[name], err = s.Sample(t.Context(), asked(), everything(), n, 1); err != nil || found[name].Failed > 0 {
			t.Fatal(name, found[name].Failed, err)
		}
	}
	for _, row := range rows[1:] {
		var want [4]float64
		for i, cell := range row[2:] {
			if want[i], err = strconv.ParseFloat(cell, 64); err != nil {
				t.Fatal(err)
			}
		}
		s := found[row[0]]
		got := map[string][4]float64{
			"sag":    {float64(s.Mean.Sag), float64(s.StdDev.Sag), float64(s.Low.Sag), float64(s.High.Sag)},
			"energy": {float64(s.Mean.Energy), float64(s.StdDev.Energy), float64(s.Low.Energy), float64(s.High.Energy)},
			"drift":  {float64(s.Mean.Drift), float64(s.StdDev.Drift), float64(s.Low.Drift), float64(s.High.Drift)},
		}[row[1]]
		// A quantile is known to √(q(1 − q)) over the density there: 2.7 as badly as the mean for a normal
		// distribution, 3.8 for the longer tail of the energy of an air fork.
		for i, times := range []float64{1, 0.9, 3.8, 3.8} {
			if !(math.Abs(got[i]-want[i]) <= (4*times*open+1.0/512)*want[1]) {
				t.Errorf("%s, %s, number %d: %.8g, recorded %.8g ± %.3g", row[0], row[1], i, got[i], want[i], want[1])
			}
		}
	}
}
