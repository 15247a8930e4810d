package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/conversion/sheet"
)

// ask sends a body to a path and decodes the answer.
func ask(t *testing.T, base, path, body string) (status int, answer map[string]any) {
	t.Helper()
	r, err := http.Post(base+path, "application/json", strings.NewReader(body))
	if err != nil {
		t.Error(err)
		return 0, nil
	}
	defer r.Body.Close()
	if err := json.NewDecoder(r.Body).Decode(&answer); err != nil {
		t.Errorf("%s %s: %v", path, r.Status, err)
	}
	return r.StatusCode, answer
}

const ride = `{"job": {"fork": {"id": "%s"}, "rider": {"mass": "85 kg"}%s,
 "workshop": {"temperature": "20 °C", "altitude": "300 m"}, "event": {"temperature": "2 °C", "altitude": "2500 m"}}}`

const fill = `, "air": {"pressure": "4.6 bar", "temperature": "20 °C", "altitude": "300 m"}`

// body is a question of testdata.
func body(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Many at once get the same answers as one alone, those of the library.
func TestConcurrent(t *testing.T) {
	server := httptest.NewServer(handler())
	defer server.Close()
	job := body(t, "plan.json")
	_, want := ask(t, server.URL, "/plan", job)
	var group sync.WaitGroup
	for i := range 24 {
		group.Go(func() {
			switch i % 4 {
			case 0:
				status, got := ask(t, server.URL, "/plan", job)
				if status != http.StatusOK || fmt.Sprint(got) != fmt.Sprint(want) {
					t.Errorf("status %d, another plan", status)
				}
			case 1:
				status, got := ask(t, server.URL, "/ride", fmt.Sprintf(ride, "B04", fill))
				sag := got["drift"].(map[string]any)["here"].(map[string]any)["middle_mm"].(float64)
				if status != http.StatusOK || !(sag > 20 && sag < 80) || len(got["curves"].([]any)) != 2 ||
					!strings.Contains(fmt.Sprint(got["cautions"]), "Stored pressure") {
					t.Errorf("status %d, %v", status, got)
				}
			case 2:
				if status, got := ask(t, server.URL, "/ride",
					`{"job": {"fork": {"id": "nothing"}}}`); status != http.StatusBadRequest {
					t.Errorf("status %d, %v", status, got)
				}
			case 3:
				if r, err := http.Get(server.URL + "/forks"); err != nil || r.StatusCode != http.StatusOK {
					t.Errorf("%v, %v", r, err)
				}
			}
		})
	}
	group.Wait()
}

// A plan is the report of the library, cautions and all.
func TestPlan(t *testing.T) {
	question := body(t, "plan.json")
	w := httptest.NewRecorder()
	handler().ServeHTTP(w, httptest.NewRequest("POST", "/plan", strings.NewReader(question)))
	report, err := sheet.ReadJSON(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	file, err := read(strings.NewReader(question), jobfile.Decode)
	if err != nil {
		t.Fatal(err)
	}
	want, err := conversion.Plan(file.Job)
	if err != nil {
		t.Fatal(err)
	}
	if len(report.Cautions) == 0 || !slices.Equal(report.Cautions, want.Cautions) {
		t.Errorf("cautions %q", report.Cautions)
	}
	if got, wanted := report.Candidates[0], want.Candidates[0]; got.Coil != wanted.Coil || got.Rate != wanted.Rate {
		t.Errorf("coil %s of %v, want %s of %v", got.Coil, got.Rate, wanted.Coil, wanted.Rate)
	}
}

// A fork of one's own dimensions is taken like one of the dataset.
func TestOwnFork(t *testing.T) {
	server := httptest.NewServer(handler())
	defer server.Close()
	status, got := ask(t, server.URL, "/ride", body(t, "own.json"))
	if status != http.StatusOK || got["fork"] != "mine" ||
		got["drift"].(map[string]any)["here"].(map[string]any)["friction_N"] != 12.0 {
		t.Errorf("status %d, %v", status, got)
	}
}

func TestBadInput(t *testing.T) {
	server := httptest.NewServer(handler())
	defer server.Close()
	for _, c := range []struct {
		name, path, body string
		status           int
		want             []string // of a fault each: part and key, or a part of what it says
	}{
		{"several faults", "/ride",
			`{"job": {"fork": {"id": "nothing"}, "rider": {"mass": "85"}, "workshop": {"temperature": "20 °C"}, "odd": 1}}`,
			400,
			[]string{"job fork.id", "job rider.mass", "job workshop.altitude", "job event", "job odd"}},
		{"no air", "/ride", fmt.Sprintf(ride, "B04", ""), 400, []string{"job air"}},
		{"a fork nobody knows as own", "/ride", `{"job": {}, "data": {"fork": {"mine": {"travel": 305}}}}`, 400,
			[]string{"data fork.mine.travel"}},
		{"a rider too heavy for the fork", "/ride", strings.Replace(fmt.Sprintf(ride, "B11", fill), "85 kg", "200 kg",
			1), 400, []string{"load = 756"}},
		{"nothing", "/plan", "", 400, []string{"EOF"}},
		{"no object", "/plan", "[]", 400, []string{"array"}},
		{"no job", "/plan", "{}", 400, []string{"empty"}},
		{"unknown part", "/plan", `{"jib": {}}`, 400, []string{"jib"}},
		{"broken", "/plan", `{"job": {`, 400, []string{"unexpected EOF"}},
		{"a flood", "/plan", `{"job": {"title": "` + strings.Repeat("x", most) + `"}}`, 413, []string{"too large"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, answer := ask(t, server.URL, c.path, c.body)
			if status != c.status {
				t.Errorf("status %d", status)
			}
			var told []string
			for _, f := range answer["faults"].([]any) {
				fault := f.(map[string]any)
				told = append(told, fmt.Sprintf("%v %v: %v", fault["Part"], fault["Key"], fault["Fault"]))
			}
			for _, want := range c.want {
				if !slices.ContainsFunc(told, func(s string) bool { return strings.Contains(s, want) }) {
					t.Errorf("no %q in\n%s", want, strings.Join(told, "\n"))
				}
			}
		})
	}
}

// It prints where it listens, answers there, and ends when told to.
func TestServe(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	out, in := io.Pipe()
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, "localhost:0", in) }()
	line := make([]byte, 100)
	n, err := out.Read(line)
	if err != nil {
		t.Fatal(err)
	}
	if status, _ := ask(t, strings.TrimSpace(string(line[:n])), "/ride",
		fmt.Sprintf(ride, "B06", "")); status != http.StatusOK {
		t.Errorf("status %d", status)
	}
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(2 * limit):
		t.Error("still there")
	}
	golden.Refuses(t, command, golden.Bad{Name: "no such address", Args: []string{"-listen", "nowhere"},
		Want: []string{"nowhere"}})
}
