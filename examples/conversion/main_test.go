package main

import (
	"os"
	"path/filepath"
	"slices"
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
		golden.Bad{Name: "no such sweep", Args: []string{"-sweep", "nowhere.csv"}, Want: []string{"nowhere.csv"}},
		golden.Bad{Name: "a sweep of another fork", Args: []string{"-fork", "B04", "-sweep", sweepOf},
			Want: []string{"Sweep.Stroke", "sweep.csv"}},
		golden.Bad{Name: "two jobs", Args: []string{"-job", "a", "-fork", "B04"}, Want: []string{"not both"}},
		golden.Bad{Name: "two forms", Args: []string{"-json", "-csv"}, Want: []string{"not both"}})
}

// sweepOf is an invented record of a fork that moves less than the job's.
const sweepOf = "../fit/sweep.csv"

// A sheet for each way into the plan, each at its own words.
func TestWays(t *testing.T) {
	const mass = `mass = "79 kg"`
	_, from, _ := strings.Cut(string(builtIn), "[air]")
	table, _, _ := strings.Cut(from, "\n[")
	air := "[air]" + table + "\n"
	for want, args := range map[string][]string{
		"COIL SPRINGS FOR A RIDER": {"-job", job(t, air, "", "[plan]", "[plan]\nfrom = \"rider\"")},
		"not weighed":              {"-job", job(t, mass, "", "[plan]", "[plan]\nfrom = \"fork-alone\"")},
		"AS BUILT": {"-job", job(t, "[bench]",
			"[build]\ncoil = \"k84\"\npreload = \"4 mm\"\noil-level = \"170 mm\"\n[bench]")},
		"as a sweep has shown it": {"-fork", "M06", "-sweep", sweepOf},
	} {
		for _, full := range [][]string{nil, {"-full"}} {
			status, out, problems := golden.Run(t, command, slices.Concat(args, full)...)
			if status == program.BadInput || !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
				t.Errorf("%v: status %d, %s: no %q in\n%s", args, status, problems, want, out)
			}
			golden.Readable(t, out)
		}
	}
}

// Every fork of the dataset gets a sheet of 80 columns with numbers throughout.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			sheet := golden.Text(t, command, "-fork", fork.ID)
			if golden.Readable(t, sheet); strings.Count(sheet, "\n") >= 120 {
				t.Errorf("%d lines are more than two pages at the bench", strings.Count(sheet, "\n"))
			}
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

// Every air fork of the dataset is filled, on 80 columns.
func TestFill(t *testing.T) {
	golden.Check(t, "fill.golden", golden.Text(t, command, "-fork", "M07", "-air"))
	for fork := range data.Reference().Forks() {
		if !fork.Left.Role.HasAir() && !fork.Right.Role.HasAir() {
			continue
		}
		golden.Readable(t, golden.Text(t, command, "-fork", fork.ID, "-air"))
	}
	if out := golden.Text(t, command, "-fork", "B04", "-air", "-json"); !strings.Contains(out, `"air_report"`) {
		t.Errorf("%.100s", out)
	}
	golden.Text(t, command, "-fork", "B04", "-air", "-csv")
	if status, _, problems := golden.Run(t, command, "-fork", "M06", "-air"); status != program.BadInput ||
		!strings.Contains(problems, "no air spring") {
		t.Errorf("status %d, %s", status, problems)
	}
	dir := t.TempDir()
	if status, _, problems := golden.Run(t, command, "-fork", "B04", "-air", "-plot", dir); status != program.Done ||
		strings.Count(problems, "wrote ") != 2 {
		t.Errorf("status %d, %s", status, problems)
	}
}
