package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/internal/typeset"
)

// program runs the command as a user would.
func program(t *testing.T, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = run(args, &o, &p)
	return status, o.String(), p.String()
}

// job writes the built-in job with some of its text replaced.
func job(t *testing.T, replace ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(name, []byte(strings.NewReplacer(replace...).Replace(string(builtIn))), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestSheet(t *testing.T) {
	status, out, problems := program(t)
	if status != exitPlan || problems != "" {
		t.Errorf("status %d, %s", status, problems)
	}
	golden.Check(t, "sheet.golden", out)
}

func TestSheetWithoutPlan(t *testing.T) {
	name := job(t, `free-length = "616 mm"`, `free-length = "540 mm"`)
	status, out, problems := program(t, "-job", name)
	if status != exitNoPlan || problems != "" {
		t.Errorf("status %d, %s", status, problems)
	}
	golden.Check(t, "noplan.golden", out)
}

func TestBadJob(t *testing.T) {
	name := job(t, `"79 kg"`, `"79"`, `"9.0 bar"`, `"9,0 bar"`)
	status, out, problems := program(t, "-job", name)
	if status != exitBadJob || out != "" {
		t.Errorf("status %d, printed %q", status, out)
	}
	for _, want := range []string{name + ":6: rider.mass", name + ":13: air.pressure", "kg", "decimal comma"} {
		if !strings.Contains(problems, want) {
			t.Errorf("no %q in\n%s", want, problems)
		}
	}
}

func TestBadArguments(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no such file", []string{"-job", "nowhere.toml"}, "nowhere.toml"},
		{"no such fork", []string{"-fork", "B40"}, `no fork "B40"`},
		{"no such data", []string{"-data", "nowhere.toml"}, "nowhere.toml"},
		{"both", []string{"-job", "a", "-fork", "B04"}, "not both"},
		{"no such flag", []string{"-frok", "B04"}, "frok"},
		{"words left over", []string{"B04"}, "B04"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if status, _, problems := program(t, c.args...); status != exitBadJob || !strings.Contains(problems, c.want) {
				t.Errorf("status %d, %s", status, problems)
			}
		})
	}
}

// Every fork of the dataset gets a sheet of 80 columns with numbers throughout.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			status, out, problems := program(t, "-fork", fork.ID)
			if status != exitPlan || problems != "" {
				t.Errorf("status %d, %s", status, problems)
			}
			for line := range strings.Lines(out) {
				if utf8.RuneCountInString(line) > typeset.Width+1 {
					t.Errorf("%d columns: %s", utf8.RuneCountInString(line)-1, line)
				}
			}
			for _, bad := range []string{"NaN", "Inf", "%!", "\t"} {
				if strings.Contains(out, bad) {
					t.Errorf("the sheet says %q", bad)
				}
			}
		})
	}
}

// The sheet names every pressure of the present fork and cautions against it, and
// against nothing that is not there.
func TestPressures(t *testing.T) {
	for _, c := range []struct {
		fork      string
		says, not []string
	}{
		{"M10", []string{"air 8.4 bar", "negative chamber 8.2 bar", "let the precharge out", "0.15 bar in the other leg"}, []string{"The dampers hold gas"}},
		{"M35", []string{"coil 3.50 N/mm", "let the precharge out", "Never oxygen", "none in each leg"}, []string{"charged air spring", "vacated air leg"}},
		{"L02", []string{"damper gas", "The dampers hold gas"}, []string{"precharge", "Never oxygen", "vacated air leg"}},
		{"M21", []string{"coil 8.50 N/mm", "18.0 mm of preload"}, []string{"Stored pressure", "vacated air leg", "The dampers hold gas"}},
	} {
		t.Run(c.fork, func(t *testing.T) {
			_, out, _ := program(t, "-fork", c.fork)
			text := strings.Join(strings.Fields(out), " ")
			for _, want := range c.says {
				if !strings.Contains(text, want) {
					t.Errorf("no %q", want)
				}
			}
			for _, bad := range c.not {
				if strings.Contains(text, bad) {
					t.Errorf("says %q", bad)
				}
			}
		})
	}
}

func TestJSON(t *testing.T) {
	status, out, problems := program(t, "-json")
	var report struct {
		Candidates []struct{ Coil string }
		Cautions   []string
	}
	if err := json.Unmarshal([]byte(out), &report); err != nil || status != exitPlan || problems != "" {
		t.Fatalf("status %d, %s, %v", status, problems, err)
	}
	if len(report.Candidates) != 5 || len(report.Cautions) == 0 {
		t.Errorf("report %+v", report)
	}
}

func TestOwnForks(t *testing.T) {
	own := filepath.Join(t.TempDir(), "mine.toml")
	var text bytes.Buffer
	if err := data.Encode(&text, data.Reference()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(own, text.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	if status, _, problems := program(t, "-data", own); status != exitPlan {
		t.Errorf("status %d, %s", status, problems)
	}
}

func TestPlots(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plots")
	status, _, problems := program(t, "-plot", dir)
	if status != exitPlan || strings.Count(problems, "wrote ") != 8 {
		t.Errorf("status %d, %s", status, problems)
	}
	if status, _, problems := program(t, "-plot", "/dev/null/x"); status != exitBadJob || problems == "" {
		t.Errorf("into no folder: status %d, %s", status, problems)
	}
}
