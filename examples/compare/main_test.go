package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
)

const (
	riders  = "rider = 60 kg to 100 kg by 4"
	filling = "pressure = 8 bar to 10 bar by 3"
)

func TestText(t *testing.T) {
	for name, args := range map[string][]string{
		"beside.golden": nil,
		"sweep.golden":  {"-sweep", riders, "-and", filling},
		"map.golden":    {"-map", "-forks", "B04"},
	} {
		out := golden.Text(t, command, args...)
		golden.Check(t, name, out)
		if name != "sweep.golden" { // whose rows tell a problem in full
			golden.Readable(t, out)
		}
	}
}

// Any number of workers prints the same, in every form.
func TestWorkers(t *testing.T) {
	for _, args := range [][]string{{"-sweep", riders, "-and", filling}, {"-map"}, {}} {
		for _, form := range []string{"-csv", "-json"} {
			one := golden.Text(t, command, append(slices.Clone(args), form, "-workers", "1")...)
			if many := golden.Text(t, command, append(slices.Clone(args), form, "-workers", "7")...); many != one {
				t.Errorf("%v %s: seven workers print another text than one", args, form)
			}
			if form == "-csv" {
				rows, err := csv.NewReader(strings.NewReader(one)).ReadAll()
				if err != nil || len(rows) < 3 {
					t.Errorf("%v: %d rows, %v", args, len(rows), err)
				}
				continue
			}
			for line := range strings.Lines(one) {
				var row map[string]any
				if err := json.Unmarshal([]byte(line), &row); err != nil || len(row) < 4 {
					t.Fatalf("%v: %v in %s", args, err, line)
				}
			}
		}
	}
}

// counted is a table that stops its run on the way.
type counted struct {
	table
	stop func()
}

func (c counted) row(i int) []cell {
	if i == 5 {
		c.stop()
	}
	return c.table.row(i)
}

// Of a run that is stopped every row that is told is whole and one of the full run, in its order.
func TestStopped(t *testing.T) {
	items, err := read(nil, []string{"B04"})
	if err != nil {
		t.Fatal(err)
	}
	in, err := readInput("rider = 60 kg to 100 kg by 60")
	if err != nil {
		t.Fatal(err)
	}
	sweep, err := newSweep(items, in, input{})
	if err != nil {
		t.Fatal(err)
	}
	quiet := func(int, int) {}
	for _, workers := range []int{1, 3, 8} {
		var part, whole strings.Builder
		ctx, stop := context.WithCancel(context.Background())
		run := runner{workers, quiet}
		done, err := run.rows(ctx, counted{sweep, stop}, jsonRows(&part).row)
		if err != nil || done < 1 || done >= sweep.len() {
			t.Fatalf("%d workers: %d of %d rows, %v", workers, done, sweep.len(), err)
		}
		if all, err := run.rows(context.Background(), sweep, jsonRows(&whole).row); err != nil || all != sweep.len() {
			t.Fatalf("%d rows, %v", all, err)
		}
		full := strings.Split(whole.String(), "\n")
		at := 0
		for line := range strings.Lines(part.String()) {
			for at < len(full) && full[at] != strings.TrimSuffix(line, "\n") {
				at++
			}
			if at == len(full) {
				t.Fatalf("%d workers: no such row in its place: %s", workers, line)
			}
		}
		if n := strings.Count(part.String(), "\n"); n != done {
			t.Errorf("%d workers: %d rows told, %d written", workers, done, n)
		}
	}
	// A full disk ends it too.
	full := errors.New("no space")
	if done, err := (runner{4, quiet}).rows(context.Background(), sweep, func([]cell) error { return full }); done != 0 ||
		err != full {
		t.Errorf("%d rows, %v", done, err)
	}
}

// A rider more sags more, a higher place lifts the front; what cannot be planned is a row that says why.
func TestSweep(t *testing.T) {
	read := func(args ...string) [][]string {
		t.Helper()
		rows, err := csv.NewReader(strings.NewReader(golden.Text(t, command, append(args, "-csv")...))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows
	}
	rows := read("-forks", "M06", "-sweep", filling)
	if last := rows[1][len(rows[1])-1]; len(rows) != 4 || !strings.Contains(last, "no air spring") {
		t.Errorf("a coil fork is filled: %v", rows)
	}
	for _, line := range []string{riders, "altitude = 0 m to 3000 m by 4", "temperature = -10 °C to 30 °C by 3",
		"exponent = 1.1 to 1.4 by 3", "friction = 20 N to 120 N by 3", "sag = 55 mm to 80 mm by 3"} {
		for _, row := range read("-forks", "M07", "-sweep", line)[1:] {
			if problem := row[len(row)-1]; problem != "" {
				t.Errorf("%s: %s", line, problem)
			}
		}
	}
}

// Jobs of files stand beside each other, those with a build as built.
func TestJobs(t *testing.T) {
	shipped, err := os.ReadFile("../conversion/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	name := func(base, text string) string {
		path := filepath.Join(dir, base)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	planned := name("planned.toml", string(shipped))
	built := name("built.toml", string(shipped)+"\n[build]\ncoil = \"k84\"\npreload = \"4 mm\"\noil-volume = \"540 mL\"\n")
	out := golden.Text(t, command, "-jobs", planned+","+built)
	for _, want := range []string{"planned present", "planned coil", "built coil k84"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if strings.Contains(out, "built present") {
		t.Errorf("a build has no other fork beside it:\n%s", out)
	}
	air := name("air.toml", strings.Replace(string(shipped), "[plan]", "[plan]\nto = \"air\"", 1))
	golden.Refuses(t, command,
		golden.Bad{Name: "a job to air", Args: []string{"-jobs", air}, Want: []string{"air"}},
		golden.Bad{Name: "no such file", Args: []string{"-jobs", planned + ",nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "no such fork", Args: []string{"-forks", "M07,none"}, Want: []string{`no fork "none"`}},
		golden.Bad{Name: "two forms", Args: []string{"-csv", "-json"}, Want: []string{"not both"}},
		golden.Bad{Name: "sweep and map", Args: []string{"-map", "-sweep", riders}, Want: []string{"not both"}},
		golden.Bad{Name: "second alone", Args: []string{"-and", riders}, Want: []string{"-sweep"}},
		golden.Bad{Name: "swept twice", Args: []string{"-sweep", riders, "-and", riders}, Want: []string{"swept already"}},
		golden.Bad{Name: "no input", Args: []string{"-sweep", "ridr = 60 kg to 90 kg by 4"},
			Want: []string{"want one of rider"}},
		golden.Bad{Name: "falling", Args: []string{"-sweep", "rider = 90 kg to 60 kg by 4"}, Want: []string{"rising"}},
		golden.Bad{Name: "no number", Args: []string{"-sweep", "rider = 60 kg to 90 kg by 0"}, Want: []string{"2 to 1000"}},
		golden.Bad{Name: "no unit", Args: []string{"-sweep", "rider = 60 to 90 kg by 4"}, Want: []string{"kg"}},
		golden.Bad{Name: "no form", Args: []string{"-sweep", "rider"}, Want: []string{"rider = 60 kg"}},
		golden.Bad{Name: "too many", Args: []string{"-sweep", "rider = 60 kg to 90 kg by 1000", "-and",
			"sag = 50 mm to 60 mm by 1000"}, Want: []string{"100000"}},
		golden.Bad{Name: "no range", Args: []string{"-altitudes", "3000 m"}, Want: []string{"-altitudes", "0 m to 3000 m"}},
		golden.Bad{Name: "a cold hell", Args: []string{"-temperatures", "-90 °C to 10 °C"}, Want: []string{"-40 to 60"}})
}

func TestPictures(t *testing.T) {
	golden.Pictures(t, command, 4)
	golden.Pictures(t, command, 4, "-map", "-forks", "B04")
	golden.Pictures(t, command, 2, "-sweep", riders, "-and", filling)
	status, out, problems := golden.Run(t, command, "-map", "-temperatures", "-20 °C to 0 °C")
	if status != program.Done || problems != "" {
		t.Errorf("status %d, %s\n%s", status, problems, out)
	}
}
