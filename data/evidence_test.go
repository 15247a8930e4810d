package data_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

// recorded are the rows of a file in testdata, by the names of its columns.
func recorded(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := make(map[string]string)
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func parsed(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestClasses: medians and percentiles of the classes are those of the aggregate that
// .ci/vectors/data.py makes of the open data, with as many bicycles behind them.
func TestClasses(t *testing.T) {
	register.Cite(t, "T-52")
	keys := map[string]string{
		"rake_deg": "chassis.rake", "offset_mm": "chassis.offset", "trail_mm": "chassis.trail",
		"wheelbase_mm": "chassis.wheelbase", "axle_to_crown_mm": "axle-to-crown",
	}
	for _, row := range recorded(t, "front_geometry.csv") {
		c, err := data.Reference().Class(row["class"])
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, e := range c.Evidence() {
			if e.Key != keys[row["quantity"]] {
				continue
			}
			found = true
			for text, want := range map[string]string{e.Text: row["p50"], e.Low: row["p05"], e.High: row["p95"]} {
				number, _, _ := strings.Cut(strings.Trim(text, `"`), " ")
				if !(math.Abs(parsed(t, number)-parsed(t, want)) <= 1e-9) {
					t.Errorf("%s %s: %s, want %s", c.ID, e.Key, text, want)
				}
			}
			if strconv.Itoa(e.N) != row["n"] || e.Means != data.BetweenForks || e.Source != "bicycle-geometry" {
				t.Errorf("%s %s: %+v", c.ID, e.Key, e)
			}
		}
		if !found {
			t.Errorf("%s has no %s", c.ID, row["quantity"])
		}
	}
}

// TestMeasuredBicycles: the specimens are what the files of the data set say, and their
// trail follows from rake, offset and radius within its standard deviation.
func TestMeasuredBicycles(t *testing.T) {
	register.Cite(t, "T-53")
	const kg = units.Kilogram
	for _, row := range recorded(t, "measured_bicycles.csv") {
		f, err := data.Reference().Specimen(row["id"])
		if err != nil {
			t.Fatal(err)
		}
		c := f.Chassis
		for _, v := range []struct {
			name    string
			got, sd float64
		}{
			{"rake_deg", c.Rake.Value.In(units.Degree), c.Rake.Spread.SD.In(units.Degree)},
			{"offset_mm", c.Offset.Value.In(mm), c.Offset.Spread.SD.In(mm)},
			{"radius_mm", c.WheelRadius.Value.In(mm), c.WheelRadius.Spread.SD.In(mm)},
			{"wheelbase_mm", c.Wheelbase.Value.In(mm), c.Wheelbase.Spread.SD.In(mm)},
			{"wheel_kg", c.WheelMass.Value.In(kg), c.WheelMass.Spread.SD.In(kg)},
			{"steered_kg", c.SteeredMass.Value.In(kg), c.SteeredMass.Spread.SD.In(kg)},
		} {
			kind, _, _ := strings.Cut(v.name, "_")
			if !(math.Abs(v.got-parsed(t, row[v.name])) <= 1e-9) || !(math.Abs(v.sd-parsed(t, row[kind+"_sd"])) <= 0.005) {
				t.Errorf("%s: %s %v ± %v, want %s ± %s", f.ID, v.name, v.got, v.sd, row[v.name], row[kind+"_sd"])
			}
		}
	}
	for f := range data.Reference().Specimens() {
		c := f.Chassis
		if c.Trail.Spread.SD == 0 || !c.Offset.Given() {
			continue
		}
		if off := c.Geometry().Trail() - c.Trail.Value; !(math.Abs(float64(off)) <= float64(c.Trail.Spread.SD)) {
			t.Errorf("%s: trail %v, by rake, offset and radius %.1f mm more", f.ID, c.Trail.Value, off.In(mm))
		}
	}
}

// TestLargeMotorcycle: the wheel load less what the fork's springs carry is the weight of
// what does not ride on them: 44.3 kg from the published loads against 43.1 kg summed from
// the published masses of the same set.
func TestLargeMotorcycle(t *testing.T) {
	register.Cite(t, "T-54")
	f, err := data.Reference().Specimen("motorcycle-1983")
	if err != nil {
		t.Fatal(err)
	}
	const wheel = 1250.0 // N, static front wheel load of the set
	sprung := float64(f.Whole.Load.Value) * math.Cos(float64(f.Chassis.Rake.Value))
	unsprung := (wheel - sprung) / float64(units.StandardGravity)
	if got := float64(f.Chassis.UnsprungMass.Value); !(math.Abs(unsprung-44.3) <= 0.05) ||
		!(math.Abs(got/unsprung-1) <= 0.03) {
		t.Errorf("%.1f kg from the loads, %.1f kg from the masses", unsprung, got)
	}
	if got := float64(f.Chassis.WheelMass.Value) + 17.5; math.Abs(got-43.1) > 0.05 { // 17.5 kg: moving front body
		t.Errorf("wheel and moving body %.1f kg", got)
	}
}

// TestSportMotorcycle: the preload of the fork spring of the published set, 882.1265 N, is what
// its masses put on the axis of the fork: front wheel load less what does not ride on the
// spring, times the cosine of the rake.
func TestSportMotorcycle(t *testing.T) {
	register.Cite(t, "T-55")
	f, err := data.Reference().Specimen("motorcycle-2004")
	if err != nil {
		t.Fatal(err)
	}
	var mass, moment float64
	for _, body := range []struct{ kg, x float64 }{ // x from the rear axle, m
		{165.13, 0.6779}, {33.68, 0.415}, {9.99, 1.164}, {7.25, 1.365}, {11.9, 1.410}, {14.7, 0}, {8, 0.196},
	} {
		mass += body.kg
		moment += body.kg * body.x
	}
	c := f.Chassis.Geometry()
	c.Mass = units.Mass(mass)
	c.FrontShare = units.Share(moment / mass / float64(c.Wheelbase))
	const published = 882.1265
	got := float64(c.MachineLoad().Axial) * 9.81 / float64(units.StandardGravity) // as the set has it
	if !(math.Abs(got-published) <= 0.05) || !(math.Abs(float64(f.Whole.Load.Value)-published) <= 0.005) {
		t.Errorf("%.3f N by the masses, %v in the record, published %v N", got, f.Whole.Load.Value, published)
	}
	if trail := c.Trail(); !(math.Abs(float64(trail-f.Chassis.Trail.Value)) <= float64(0.1*mm)) {
		t.Errorf("trail %v, by rake, offset and radius %v", f.Chassis.Trail.Value, trail)
	}
}

// TestPublishedClass: the class of road motorcycles is the median of its specimens with the
// percentiles of a normal distribution of their mean and deviation, to the digits of the file.
func TestPublishedClass(t *testing.T) {
	c, err := data.Reference().Class("motorcycle-road")
	if err != nil {
		t.Fatal(err)
	}
	fields := map[string]func(data.Chassis) (x, unit float64){
		"rake":         func(c data.Chassis) (x, unit float64) { return float64(c.Rake.Value), float64(units.Degree) },
		"wheel-radius": func(c data.Chassis) (x, unit float64) { return float64(c.WheelRadius.Value), float64(mm) },
		"wheelbase":    func(c data.Chassis) (x, unit float64) { return float64(c.Wheelbase.Value), float64(mm) },
		"trail":        func(c data.Chassis) (x, unit float64) { return float64(c.Trail.Value), float64(mm) },
	}
	// what trail is there is not said
	undefined := map[string]bool{"motorcycle-1994": true, "motorcycle-sport-touring": true}
	for _, e := range c.Evidence() {
		field := fields[strings.TrimPrefix(e.Key, "chassis.")]
		if field == nil {
			continue
		}
		var xs []float64
		for f := range data.Reference().Specimens() {
			if x, unit := field(f.Chassis); f.Class == c.ID && !(e.Key == "chassis.trail" && undefined[f.ID]) {
				xs = append(xs, x/unit)
			}
		}
		slices.Sort(xs)
		mean, sd := stat.MeanStdDev(xs, nil)
		if len(xs) != e.N {
			t.Errorf("%s of %d, the specimens have %d", e.Key, e.N, len(xs))
		}
		for text, want := range map[string]float64{e.Text: xs[len(xs)/2], e.Low: mean - 1.6449*sd, e.High: mean + 1.6449*sd} {
			number, _, _ := strings.Cut(strings.Trim(text, `"`), " ")
			if !(math.Abs(parsed(t, number)-want) <= 0.051) {
				t.Errorf("%s: %s, want %.2f", e.Key, text, want)
			}
		}
	}
}

// TestInTheirClass: what a fork says itself lies inside the percentiles of the class that it cites.
func TestInTheirClass(t *testing.T) {
	for f := range data.Reference().Forks() {
		if f.Class == "" {
			continue
		}
		c, err := data.Reference().Class(f.Class)
		if err != nil {
			t.Fatal(err)
		}
		inside := func(name string, x, lo, hi float64) {
			if hi > lo && !in(x, lo, hi, 1e-9) {
				t.Errorf("%s: %s %.4g outside %.4g to %.4g of %s", f.ID, name, x, lo, hi, c.ID)
			}
		}
		own, of := f.Chassis, c.Chassis
		inside("rake", float64(own.Rake.Value), float64(of.Rake.Spread.Low), float64(of.Rake.Spread.High))
		inside("offset", float64(own.Offset.Value), float64(of.Offset.Spread.Low), float64(of.Offset.Spread.High))
		inside("wheelbase", float64(own.Wheelbase.Value), float64(of.Wheelbase.Spread.Low), float64(of.Wheelbase.Spread.High))
		inside("trail", float64(own.Trail.Value), float64(of.Trail.Spread.Low), float64(of.Trail.Spread.High))
		inside("axle to crown", float64(f.AxleToCrown.Value), float64(c.AxleToCrown.Spread.Low),
			float64(c.AxleToCrown.Spread.High))
	}
}

// TestWheelMass: no bicycle of the set has less below its springs than the lightest front
// wheel that was measured.
func TestWheelMass(t *testing.T) {
	least := units.Mass(math.Inf(1))
	for f := range data.Reference().Specimens() {
		if strings.HasPrefix(f.ID, "bicycle-0") {
			least = min(least, f.Chassis.WheelMass.Value)
		}
	}
	for f := range data.Reference().Forks() {
		if f.Chassis.UnsprungMass.Value <= least {
			t.Errorf("%s: %v unsprung, the lightest wheel measured has %v", f.ID, f.Chassis.UnsprungMass.Value, least)
		}
	}
}

// TestSpreadEverywhere: every quantity of a fork says how far it may be off, and by whom.
func TestSpreadEverywhere(t *testing.T) {
	for f := range data.Reference().Forks() {
		for _, e := range f.Values() {
			switch {
			case e.Source == "" || strings.HasPrefix(e.Text, "[") || strings.HasSuffix(e.Key, "tire") ||
				strings.HasSuffix(e.Key, ".table"): // words, ranges and sizes
			case e.SD == "" && e.Means == "" && !strings.HasPrefix(e.Text, `"0 `):
				t.Errorf("%s.%s = %s: no spread", f.ID, e.Key, e.Text)
			case e.Judged != "" && e.SD == "":
				t.Errorf("%s.%s: judged as nothing", f.ID, e.Key)
			}
		}
	}
}

// TestEvidenceCounts: what the issue of trust comes down to: values that somebody read in a
// document or in open data.
func TestEvidenceCounts(t *testing.T) {
	n := 0
	for r := range data.Reference().Rows() {
		switch data.SourceKind(r.Grade) {
		case data.OpenData, data.Measured, data.Paper, data.Textbook, data.Standard:
			if r.Kind != "material" && r.Kind != "gas" {
				n++
			}
		}
	}
	if n < 150 {
		t.Errorf("%d values of forks from documents or open data", n)
	}
}

// TestGrades: a derived value is worth what the least of its inputs is.
func TestGrades(t *testing.T) {
	const text = `
[source.bench]
kind = "measured"
document = "on the bench"
[source.book]
kind = "textbook"
document = "a book"
[source.sum]
kind = "derived"
document = "worked out"
formula = "a formula"
from = "rake, offset"
[source.loop]
kind = "derived"
document = "worked out"
formula = "a formula"
from = "wheelbase"
[specimen.mine]
name = "mine"
source = "bench"
[specimen.mine.chassis]
rake = "26 deg"
offset = { value = "44 mm", source = "book" }
trail = { value = "130 mm", source = "sum" }
wheelbase = { value = "1250 mm", source = "loop" }
`
	set, err := data.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	f, err := set.Specimen("mine")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]data.SourceKind{
		"name": "", "chassis.rake": data.Measured, "chassis.offset": data.Textbook, "chassis.trail": data.Textbook,
		"chassis.wheelbase": data.Derived,
	}
	for _, e := range set.Graded(f.Evidence()) {
		if e.Grade != want[e.Key] {
			t.Errorf("%s is graded %q, want %q", e.Key, e.Grade, want[e.Key])
		}
	}
}
