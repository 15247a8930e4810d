package sheet_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

// writers are every way to hand a plan out.
var writers = []func(io.Writer, *conversion.Report) error{sheet.WriteText, sheet.WriteFullText, sheet.WriteJSON,
	sheet.WriteCSV}

// plan is that of a fork's typical job with something changed.
func plan(t testing.TB, fork string, change func(*conversion.Job)) *conversion.Report {
	t.Helper()
	f, err := jobfile.Typical(fork, data.Reference())
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&f.Job)
	}
	r, err := conversion.Plan(f.Job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func text(t testing.TB, r *conversion.Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.WriteText(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func toJSON(t testing.TB, r *conversion.Report) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.WriteJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// tooShort leaves no safe coil.
func tooShort(j *conversion.Job) {
	for i := range j.Shelf {
		j.Shelf[i].Wire.FreeLength = j.Fork.Travel
	}
}

// greased is a leg without oil.
func greased(j *conversion.Job) {
	j.OilVolume = conversion.Setting[units.Volume]{}
	for i := range j.Legs {
		j.Legs[i].Bath.Greased, j.Legs[i].Bath.SpringInOil = true, false
	}
}

// A report written as JSON is read as the same report: forks on air and on coils of every
// record, no safe plan, and springs of every kind.
func TestRoundTrip(t *testing.T) {
	same := func(t *testing.T, r *conversion.Report) {
		back, err := sheet.ReadJSON(bytes.NewReader(toJSON(t, r)))
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(r, back); d != "" {
			t.Error(d)
		}
	}
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) { same(t, plan(t, fork.ID, nil)) })
	}
	for name, change := range map[string]func(*conversion.Job){
		"no safe coil": tooShort,
		"no support":   func(j *conversion.Job) { j.Shelf = j.Shelf[:1]; j.Shelf[0].Rate = 500; tooShort(j) },
		"greased":      greased,
		"shelf springs by their curve": func(j *conversion.Job) {
			for i, c := range j.Shelf {
				j.Shelf[i] = conversion.ShelfCoil{Name: c.Name,
					Spring: spring.CoilSpec{Rate: c.Rate, FreeLength: c.Wire.FreeLength, SolidLength: 200 * mm},
					Size: conversion.SpringSize{FreeLength: c.Wire.FreeLength, OuterDiameter: 40 * mm,
						InnerDiameter: 30 * mm, Mass: 1}}
			}
		},
		"springs of every kind": func(j *conversion.Job) {
			j.Present.Left.Springs = append(j.Present.Left.Springs,
				spring.TopOutSpec{Rate: 3000, Length: 30 * mm},
				spring.ProgressiveSpec{Coils: []spring.CoilGroup{{Count: 10, Rate: 90e3, Gap: 10 * mm},
					{Count: 30, Rate: 90e3, Gap: 15 * mm}}},
				spring.RateTableSpec{Rates: []spring.RatePoint{{Compression: 0, Rate: 500},
					{Compression: 0.5, Rate: 900}}},
				spring.MeasuredSpec{Loading: []spring.Reading{{Travel: 0, Force: 1}, {Travel: 0.4, Force: 10}}})
		},
	} {
		t.Run(name, func(t *testing.T) { same(t, plan(t, "M07", change)) })
	}
}

// What cannot be read back is refused, with the place.
func TestReadJSONRefuses(t *testing.T) {
	good := string(toJSON(t, plan(t, "B04", nil)))
	for _, c := range []struct{ name, old, new, want string }{
		{"other version", `"version": 2`, `"version": 3`, "version 3 of the JSON, want 2"},
		{"no version", `"version": 2,`, ``, "version 0"},
		{"cut off", good[strings.LastIndex(good[:len(good)/2], "\n"):], "", "unexpected end"},
		{"unknown key", `"version": 2,`, `"version": 2, "vresion": 1,`, "vresion"},
		{"a fork that cannot be", `"friction_N": `, `"friction_N": 9999`, "Spec.Friction"},
		{"no such severity", `"severity": "note"`, `"severity": "fine"`, "severity"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := sheet.ReadJSON(strings.NewReader(strings.ReplaceAll(good, c.old, c.new)))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one that says %q", err, c.want)
			}
		})
	}
}

// The published list is what is written, in the JSON and in the CSV.
func TestKeys(t *testing.T) {
	want := ""
	for _, part := range []struct {
		title string
		keys  []string
	}{{"plan, JSON", sheet.Keys()}, {"ride, JSON", sheet.RideKeys()}, {"fill, JSON", sheet.AirKeys()},
		{"curves, CSV", sheet.Columns()}} {
		want += "# " + part.title + "\n" + strings.Join(part.keys, "\n") + "\n"
	}
	if os.Getenv("UPDATE_GOLDEN") == "1" {
		if err := os.WriteFile("keys.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	listed, err := os.ReadFile("keys.txt")
	if d := cmp.Diff(string(listed), want); err != nil || d != "" {
		t.Errorf("keys.txt, UPDATE_GOLDEN=1 rewrites it: %v\n%s", err, d)
	}
	keys := sheet.Keys()
	var tree any
	if err := json.Unmarshal(toJSON(t, plan(t, "M07", nil)), &tree); err != nil {
		t.Fatal(err)
	}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			kind, _ := v["kind"].(string)
			for key, v := range v {
				next := strings.TrimPrefix(path+"."+key, ".")
				if kind != "" && key != "kind" {
					next = path + "(" + kind + ")." + key
				}
				walk(next, v)
			}
		case []any:
			for _, v := range v {
				walk(path+"[]", v)
			}
		default:
			known := func(key string) bool {
				return key == path || strings.HasPrefix(key, path+" in ") || strings.HasPrefix(key, path+".")
			}
			if unit := strings.HasSuffix(path, ").unit"); !unit && !slices.ContainsFunc(keys, known) {
				t.Errorf("%s is not listed", path)
			}
		}
	}
	walk("", tree)
}

// The job's cautions go out with every form that a person reads, and which coil to build.
func TestJSONSaysWhatMatters(t *testing.T) {
	for name, change := range map[string]func(*conversion.Job){"plan": nil, "no plan": tooShort} {
		t.Run(name, func(t *testing.T) {
			r := plan(t, "M07", change)
			var got struct {
				Chosen *string
				Report struct {
					Cautions   []string
					Candidates []struct{ Coil, Verdict string }
				}
				Curves []struct {
					Fork   string
					Travel []float64 `json:"travel_mm"`
					Force  []float64 `json:"force_N"`
				}
			}
			if err := json.Unmarshal(toJSON(t, r), &got); err != nil {
				t.Fatal(err)
			}
			c, ok := r.Chosen()
			if ok != (got.Chosen != nil) || ok && *got.Chosen != c.Coil ||
				!ok && got.Report.Candidates[0].Verdict != "no" {
				t.Errorf("chosen %v, want %q, %v", got.Chosen, c.Coil, ok)
			}
			if len(got.Report.Cautions) < 5 || len(got.Curves) != 2*(1+len(r.Candidates)) ||
				len(got.Curves[0].Travel) != len(got.Curves[0].Force) {
				t.Errorf("%d cautions, %d curves", len(got.Report.Cautions), len(got.Curves))
			}
			if out := strings.Join(strings.Fields(text(t, r)), " "); !strings.Contains(out, r.Cautions[0]) {
				t.Errorf("no caution in the text")
			}
		})
	}
}

func TestCSV(t *testing.T) {
	r := plan(t, "M07", nil)
	var b bytes.Buffer
	if err := sheet.WriteCSV(&b, r); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || !slices.Equal(rows[0], sheet.Columns()) {
		t.Fatalf("%v, %v", rows[0], err)
	}
	last := 0.0
	for _, row := range rows[1:] {
		if row[0] != "present" || row[1] != "1" {
			continue
		}
		x, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		force, err := strconv.ParseFloat(row[3], 64)
		if want := float64(r.Present.Setup.Curve(1).Force(units.Length(x) * mm)); err != nil ||
			math.Abs(force-want) > 1e-6 {
			t.Errorf("%v N at %v mm, want %v", force, x, want)
		}
		last = x
	}
	if want := r.Present.Stroke.In(mm); !(math.Abs(last-want) <= 1e-6) {
		t.Errorf("ends at %v mm, want %v", last, want)
	}
	for _, write := range writers {
		if err := write(broken{}, r); !errors.Is(err, errFull) {
			t.Errorf("into a full disk: %v", err)
		}
	}
}

var errFull = errors.New("disk full")

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errFull }

// A text of the user's can neither forge a line of the sheet nor leave its columns.
func TestTextCannotBeForged(t *testing.T) {
	evil := "x\n  STOP     forged\x1b[2J\u2028\u202e" + strings.Repeat("long", 100)
	r := plan(t, "M07", nil)
	before := strings.Count(text(t, r), "\n")
	h := &r.Job.Heading
	for _, text := range []*string{&h.Title, &h.Stance, &h.Discipline, &h.Fork, &h.ForkName, &h.Workshop.Name,
		&h.Event.Name} {
		*text = evil
	}
	r.Job.Torques = []conversion.Torque{{Name: evil, Value: 20}}
	for i := range r.Candidates {
		r.Candidates[i].Coil += evil
	}
	out := text(t, r)
	for line := range strings.Lines(out) {
		if n := typeset.Count(strings.TrimSuffix(line, "\n")); n > typeset.Width {
			t.Errorf("%d columns: %s", n, line)
		}
		if strings.HasPrefix(strings.TrimSpace(line), "STOP     forged") {
			t.Errorf("forged: %s", line)
		}
	}
	if strings.ContainsFunc(out, func(r rune) bool { return r != '\n' && !unicode.IsGraphic(r) }) {
		t.Error("a sign that does not print")
	}
	if after := strings.Count(out, "\n"); after > before+60 {
		t.Errorf("%d lines of %d", after, before)
	}
}

// The sheet names every pressure of the present fork and cautions against it, and
// against nothing that is not there.
func TestPressures(t *testing.T) {
	for _, c := range []struct {
		fork      string
		says, not []string
	}{
		{"M10", []string{"air 8.4 bar", "negative chamber 8.2 bar", "let the precharge out"},
			[]string{"The dampers hold gas"}},
		{"M35", []string{"coil 3.50 N/mm", "let the precharge out", "Never oxygen", "no precharge in each leg"},
			[]string{"charged air spring", "vacated air leg"}},
		{"L02", []string{"damper gas", "The dampers hold gas"}, []string{"precharge", "Never oxygen",
			"vacated air leg"}},
		{"M21", []string{"coil 8.50 N/mm", "18.0 mm of preload"}, []string{"Stored pressure", "vacated air leg",
			"The dampers hold gas"}},
	} {
		t.Run(c.fork, func(t *testing.T) {
			out := strings.Join(strings.Fields(text(t, plan(t, c.fork, nil))), " ")
			for _, want := range c.says {
				if !strings.Contains(out, want) {
					t.Errorf("no %q", want)
				}
			}
			for _, bad := range c.not {
				if strings.Contains(out, bad) {
					t.Errorf("says %q", bad)
				}
			}
		})
	}
}

// The sheet of a normal job fits two pages; everything else is in the full one.
func TestLength(t *testing.T) {
	for _, fork := range []string{"M07", "B04", "M26", "M09", "M19", "M35"} {
		r := plan(t, fork, nil)
		short := text(t, r)
		if n := strings.Count(short, "\n"); n >= 120 {
			t.Errorf("%s: %d lines", fork, n)
		}
		var full bytes.Buffer
		if err := sheet.WriteFullText(&full, r); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(full.String(), "COILS ON THE SHELF") || strings.Contains(short, "COILS ON THE SHELF") ||
			strings.Index(short, r.Cautions[0][:40]) > strings.Index(short, "GIVEN") {
			t.Errorf("%s: %s", fork, short)
		}
	}
}

// A leg without oil does not lock on it.
func TestOilSteps(t *testing.T) {
	var b bytes.Buffer
	if err := sheet.WriteFullText(&b, plan(t, "M07", greased)); err != nil {
		t.Fatal(err)
	}
	out := b.String()
	if strings.Contains(out, "locks") || !strings.Contains(out, "none: the leg runs on grease") {
		t.Error(out)
	}
}

// A job of the caller's own, without any heading, has a sheet as well.
func TestNoHeading(t *testing.T) {
	r := plan(t, "B04", nil)
	r.Job.Heading = conversion.Heading{}
	out := text(t, r)
	for _, bad := range []string{": \n", ",,", "  Fork        :"} {
		if strings.Contains(out, bad) {
			t.Errorf("says %q in %s", bad, out[:800])
		}
	}
}

func BenchmarkJSON(b *testing.B) {
	r := plan(b, "M07", nil)
	text := toJSON(b, r)
	b.Run("write", func(b *testing.B) {
		for b.Loop() {
			toJSON(b, r)
		}
	})
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			if _, err := sheet.ReadJSON(bytes.NewReader(text)); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// A report that is damaged in any one place is refused or written, and nothing panics.
func TestDamagedReport(t *testing.T) {
	for name, r := range map[string]*conversion.Report{"none": nil, "empty": {}} {
		for _, write := range writers {
			if err := write(io.Discard, r); err == nil {
				t.Errorf("%s is written", name)
			}
		}
	}
	r := plan(t, "M10", func(j *conversion.Job) { j.Shelf = j.Shelf[4:5] })
	var tree map[string]any
	if err := json.Unmarshal(toJSON(t, r), &tree); err != nil {
		t.Fatal(err)
	}
	tree["curves"] = []any{}
	try := func(path string) {
		text, err := json.Marshal(tree)
		if err != nil {
			t.Fatal(err)
		}
		defer func() {
			if p := recover(); p != nil {
				t.Errorf("%s: panic: %v", path, p)
			}
		}()
		back, err := sheet.ReadJSON(bytes.NewReader(text))
		if err != nil {
			return
		}
		for _, write := range writers {
			_ = write(io.Discard, back) // an error is as good
		}
	}
	damages := []any{nil, -1.0, 0.0, 1e300, "", []any{}, map[string]any{}}
	n := 0
	var damage func(path string, v any)
	damage = func(path string, v any) {
		each := func(path string, old any, set func(any)) {
			set(damages[n%len(damages)])
			n++
			try(path)
			set(old)
			damage(path, old)
		}
		switch v := v.(type) {
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(v)) {
				each(path+"."+key, v[key], func(x any) { v[key] = x })
			}
		case []any:
			for i := range v {
				each(path+"["+strconv.Itoa(i)+"]", v[i], func(x any) { v[i] = x })
			}
		}
	}
	damage("", tree)
}
