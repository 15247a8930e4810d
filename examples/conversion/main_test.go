package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/spring/conversion/sheet"
)

// job writes the built-in job with some of its text replaced.
func job(t *testing.T, replace ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(name, []byte(strings.NewReplacer(replace...).Replace(string(builtIn))), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestSheet(t *testing.T) { golden.Check(t, "sheet.golden", golden.Text(t, command)) }

func TestSheetWithoutPlan(t *testing.T) {
	status, out, problems := golden.Run(t, command, "-job", job(t, `free-length = "616 mm"`, `free-length = "540 mm"`))
	if status != program.NoAnswer || problems != "" {
		t.Errorf("status %d, %s", status, problems)
	}
	golden.Check(t, "noplan.golden", out)
}

func TestRefuses(t *testing.T) {
	bad := job(t, `"79 kg"`, `"79"`, `"9.0 bar"`, `"9,0 bar"`)
	golden.Refuses(t, command,
		golden.Bad{Name: "bad job", Args: []string{"-job", bad},
			Want: []string{bad + ":7: rider.mass", bad + ":14: air.pressure", "kg", "decimal comma"}},
		golden.Bad{Name: "no such file", Args: []string{"-job", "nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "no such fork", Args: []string{"-fork", "B40"}, Want: []string{`no fork "B40"`}},
		golden.Bad{Name: "no such data", Args: []string{"-data", "nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "two jobs", Args: []string{"-job", "a", "-fork", "B04"}, Want: []string{"not both"}},
		golden.Bad{Name: "two forms", Args: []string{"-json", "-csv"}, Want: []string{"not both"}})
}

// Every fork of the dataset gets a sheet of 80 columns with numbers throughout.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			golden.Readable(t, golden.Text(t, command, "-fork", fork.ID))
			golden.Readable(t, golden.Text(t, command, "-full", "-fork", fork.ID))
		})
	}
}

func TestJSONAndCSV(t *testing.T) {
	report, err := sheet.ReadJSON(strings.NewReader(golden.Text(t, command, "-json")))
	if err != nil || len(report.Candidates) != 5 || len(report.Cautions) == 0 {
		t.Errorf("%v, %+v", err, report)
	}
	if out := golden.Text(t, command, "-csv"); !strings.HasPrefix(out, strings.Join(sheet.Columns(), ",")) {
		t.Errorf("%.100s", out)
	}
}

func TestOwnForks(t *testing.T) {
	own := filepath.Join(t.TempDir(), "mine.toml")
	f, err := os.Create(own)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := data.Encode(f, data.Reference()); err != nil {
		t.Fatal(err)
	}
	golden.Text(t, command, "-data", own)
}
