package sheet_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/units"
)

func fill(t testing.TB, id string, change func(*conversion.AirJob)) *conversion.AirReport {
	t.Helper()
	f, err := jobfile.Typical(id, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	job, err := f.ToAir()
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&job)
	}
	r, err := conversion.PlanAir(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A sheet warns of stored pressure before anything else, says what is marked, and has a line for each place.
func TestAirSheet(t *testing.T) {
	for _, c := range []struct {
		id     string
		change func(*conversion.AirJob)
		want   []string
	}{
		{"M07", nil, []string{"AIR FORK SET UP", "Marked maximum", "12.0 bar"}},
		{"B04", func(j *conversion.AirJob) { j.Rider = 180 * units.Kilogram },
			[]string{"NOT AS WANTED", "pressure-limit", "the sag wanted asks for"}},
		{"M07", func(j *conversion.AirJob) {
			coils := plan(t, "M07", nil).Candidates[0].Behavior.Setup.Spec()
			j.Match, j.Reducers, j.Criterion = &coils, [2]units.Volume{0, 40 * units.Milliliter}, conversion.Energy
		}, []string{"BACK TO AIR", "Takes after, left", "may be 0 mL to 40 mL", "Rebound"}},
	} {
		r := fill(t, c.id, c.change)
		var text bytes.Buffer
		if err := sheet.WriteAirText(&text, r); err != nil {
			t.Fatal(err)
		}
		words := strings.Join(strings.Fields(text.String()), " ")
		for _, want := range append(c.want, "never above the marked maximum", "Never oxygen", "maker's manual") {
			if !strings.Contains(words, want) {
				t.Errorf("%s: no %q in\n%s", c.id, want, text.String())
			}
		}
		if _, first, _ := strings.Cut(text.String(), "=\n"); !strings.HasPrefix(first, "Stored pressure") {
			t.Errorf("%s begins %.80q", c.id, first)
		}
		_, table, _ := strings.Cut(text.String(), "PLACES")
		table, _, _ = strings.Cut(table, "Gauge and what to set")
		if n := strings.Count(table, "\n"); n != 2+len(r.Places) && n != 3+len(r.Places) {
			t.Errorf("%s: %d lines for %d places\n%s", c.id, n, len(r.Places), table)
		}
		if n := strings.Count(text.String(), "\n"); n >= 120 {
			t.Errorf("%s: %d lines", c.id, n)
		}
	}
}

// The JSON holds the keys that are listed, and the curves are those of the CSV.
func TestAirJSON(t *testing.T) {
	r := fill(t, "B04", nil)
	var text, csv bytes.Buffer
	if err := sheet.WriteAirJSON(&text, r); err != nil {
		t.Fatal(err)
	}
	var d struct {
		Version int
		Report  map[string]any `json:"air_report"`
		Curves  []struct {
			Travel []float64 `json:"travel_mm"`
		}
	}
	if err := json.Unmarshal(text.Bytes(), &d); err != nil || d.Version != sheet.Version || len(d.Curves) != 2 {
		t.Fatalf("%v, version %d, %d curves", err, d.Version, len(d.Curves))
	}
	listed := strings.Join(sheet.AirKeys(), "\n")
	for key := range d.Report {
		if !strings.Contains(listed, "air_report."+key) {
			t.Errorf("%s is not listed", key)
		}
	}
	if err := sheet.WriteAirCSV(&csv, r); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(csv.String(), "\n"); n != 1+2*len(d.Curves[0].Travel) {
		t.Errorf("%d lines of CSV", n)
	}
	for _, write := range []error{sheet.WriteAirText(&csv, nil), sheet.WriteAirJSON(&csv, &conversion.AirReport{}),
		sheet.WriteAirCSV(&csv, nil)} {
		if write == nil {
			t.Error("a report without its forks is written")
		}
	}
}
