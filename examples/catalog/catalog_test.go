package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
)

// program runs the command as a user would.
func program(t *testing.T, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = run(args, &o, &p)
	return status, o.String(), p.String()
}

// readable fails on lines beyond the width and on what is no number.
func readable(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > width {
			t.Errorf("%d columns: %s", n, line)
		}
		if strings.HasSuffix(line, " \n") {
			t.Errorf("blanks at the end: %q", line)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "\t", "-0 "} {
		if strings.Contains(text, bad) {
			t.Errorf("the text says %q", bad)
		}
	}
}

func TestTables(t *testing.T) {
	status, out, problems := program(t)
	if status != exitDone || problems != "" {
		t.Errorf("status %d, %s", status, problems)
	}
	readable(t, out)
	golden.Check(t, "tables.golden", out)
}

func TestPage(t *testing.T) {
	status, out, problems := program(t, "-id", "m07")
	if status != exitDone || problems != "" {
		t.Errorf("status %d, %s", status, problems)
	}
	golden.Check(t, "m07.golden", out)
}

// Every value of every fork is on its page, with its source spelled out.
func TestEveryPage(t *testing.T) {
	set := data.Reference()
	for fork := range set.Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			status, out, problems := program(t, "-id", fork.ID)
			if status != exitDone || problems != "" {
				t.Fatalf("status %d, %s", status, problems)
			}
			readable(t, out)
			flat := strings.Join(strings.Fields(out), " ")
			for _, v := range fork.Values() {
				_, key, _ := strings.Cut("."+v.Key, ".")
				if i := strings.IndexByte(key, '.'); i >= 0 {
					key = key[i+1:]
				}
				for _, want := range []string{strings.TrimSpace(key + " " + words(v) + " " + v.Source), v.Note} {
					if !strings.Contains(flat, want) {
						t.Errorf("no %q", want)
					}
				}
				if source, err := set.Source(v.Source); v.Source != "" && (err != nil || !strings.Contains(flat, source.Document)) {
					t.Errorf("source %s is not spelled out", v.Source)
				}
			}
		})
	}
}

// Whatever holds gas under pressure has the caution about it: an air spring, a
// pressurized damper, a charge over the oil. Forks of springs and trapped air have not.
func TestPressureCaution(t *testing.T) {
	for id, want := range map[string]bool{"M07": true, "L02": true, "M35": true, "M06": false, "B06": false} {
		status, out, problems := program(t, "-id", id)
		if status != exitDone || strings.Contains(out, "Stored pressure") != want {
			t.Errorf("%s: status %d, %s, stored pressure should be %v", id, status, problems, want)
		}
	}
}

func TestFilters(t *testing.T) {
	for _, c := range []struct {
		name          string
		args          []string
		with, without string
	}{
		{"use", []string{"-use", "enduro, trials"}, "\nM11 ", "\nM07 "},
		{"use in capitals", []string{"-use", "Enduro"}, "\nM11 ", "\nM07 "},
		{"travel", []string{"-travel", "100 mm..180 mm"}, "\nB04 ", "\nB07 "},
		{"one travel", []string{"-travel", "305 mm"}, "\nM07 ", "\nM11 "},
		{"air", []string{"-spring", "air"}, "\nM07 ", "\nM06 "},
		{"coil", []string{"-spring", "coil"}, "\nM06 ", "\nM07 "},
		{"all at once", []string{"-use", "motocross", "-travel", "300 mm..310 mm", "-spring", "air"}, "\nM10 ", "\nM35 "},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, problems := program(t, c.args...)
			if status != exitDone || problems != "" || !strings.Contains(out, c.with) || strings.Contains(out, c.without) {
				t.Errorf("status %d, %s\n%s", status, problems, out)
			}
		})
	}
}

func TestBadArguments(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, []byte("[fork.X]\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no such fork", []string{"-id", "M70"}, "M07"},
		{"no such use", []string{"-use", "motorcross"}, "motocross"},
		{"travel without unit", []string{"-travel", "100..180"}, "-travel"},
		{"travel with a bad end", []string{"-travel", "100 mm..x"}, "-travel"},
		{"travel the wrong way", []string{"-travel", "180 mm..100 mm"}, "smaller one comes first"},
		{"no such spring", []string{"-spring", "leaf"}, "coil or air"},
		{"nothing left", []string{"-use", "trials", "-spring", "air"}, "no fork passes"},
		{"fork and filter", []string{"-id", "M07", "-spring", "air"}, "not both"},
		{"words left over", []string{"M07"}, "M07"},
		{"no such flag", []string{"-fork", "M07"}, "-fork"},
		{"no such file", []string{"-data", "nowhere.toml"}, "nowhere.toml"},
		{"bad file", []string{"-data", file}, file},
		{"file for a folder", []string{"-id", "M07", "-out", file}, file},
	} {
		t.Run(c.name, func(t *testing.T) {
			if status, _, problems := program(t, c.args...); status != exitBad || !strings.Contains(problems, c.want) {
				t.Errorf("status %d, %s", status, problems)
			}
		})
	}
}

// A dataset of one's own is shown like that of the package.
func TestOwnForks(t *testing.T) {
	var text bytes.Buffer
	if err := data.Encode(&text, data.Reference()); err != nil {
		t.Fatal(err)
	}
	own := filepath.Join(t.TempDir(), "mine.toml")
	mine := strings.ReplaceAll(text.String(), "fork.M07", "fork.Mine")
	if err := os.WriteFile(own, []byte(mine), 0o666); err != nil {
		t.Fatal(err)
	}
	if status, out, problems := program(t, "-data", own, "-id", "Mine"); status != exitDone || !strings.Contains(out, "FORK Mine") {
		t.Errorf("status %d, %s", status, problems)
	}
}

// Whatever stands for a filter, it is read or refused.
func FuzzFilters(f *testing.F) {
	f.Add("enduro", "100 mm..180 mm", "air")
	f.Add(",", "..", "leaf")
	f.Add("", "1e308 m..1 mm", "")
	f.Fuzz(func(t *testing.T, use, travel, spring string) {
		filters, err := parseFilters(data.Reference(), use, travel, spring)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "-") {
				t.Errorf("%v: want the flag at fault", err)
			}
			return
		}
		for fork := range data.Reference().Forks(filters...) {
			if spring != "" && string(fork.Spring()) != spring {
				t.Errorf("%s passes %q", fork.ID, spring)
			}
		}
	})
}
