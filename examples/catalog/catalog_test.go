package main

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
)

func TestText(t *testing.T) {
	for file, args := range map[string][]string{"tables.golden": nil, "m07.golden": {"-id", "m07"}} {
		t.Run(file, func(t *testing.T) {
			out := golden.Text(t, command, args...)
			golden.Readable(t, out)
			golden.Check(t, file, out)
		})
	}
}

// Every value of every fork is on its page, with its source spelled out.
func TestEveryPage(t *testing.T) {
	set := data.Reference()
	for fork := range set.Forks() {
		t.Run(fork.ID, func(t *testing.T) {
			out := golden.Text(t, command, "-id", fork.ID)
			golden.Readable(t, out)
			flat := strings.Join(strings.Fields(out), " ")
			for _, v := range fork.Values() {
				_, key, _ := strings.Cut("."+v.Key, ".")
				if i := strings.IndexByte(key, '.'); i >= 0 {
					key = key[i+1:]
				}
				for _, want := range []string{strings.TrimSpace(key + " " + shown(v) + " " + v.Source), v.Note} {
					if !strings.Contains(flat, want) {
						t.Errorf("no %q", want)
					}
				}
				if source, err := set.Source(v.Source); v.Source != "" &&
					(err != nil || !strings.Contains(flat, source.Document)) {
					t.Errorf("source %s is not spelled out", v.Source)
				}
			}
		})
	}
}

// Whatever holds gas under pressure has the caution about it: an air spring, a pressurized damper, a charge over
// the oil. Forks of springs and trapped air have not.
func TestPressureCaution(t *testing.T) {
	for id, want := range map[string]bool{"M07": true, "L02": true, "M35": true, "M06": false, "B06": false} {
		if out := golden.Text(t, command, "-id", id); strings.Contains(out, "Stored pressure") != want {
			t.Errorf("%s: stored pressure should be %v", id, want)
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
		{"all at once", []string{"-use", "motocross", "-travel", "300 mm..310 mm", "-spring", "air"}, "\nM10 ",
			"\nM35 "},
	} {
		t.Run(c.name, func(t *testing.T) {
			if out := golden.Text(t, command, c.args...); !strings.Contains(out, c.with) ||
				strings.Contains(out, c.without) {
				t.Error(out)
			}
		})
	}
}

func TestBadArguments(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, []byte("[fork.X]\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	golden.Refuses(t, command,
		golden.Bad{Name: "no such fork", Args: []string{"-id", "M70"}, Want: []string{"M07"}},
		golden.Bad{Name: "no such use", Args: []string{"-use", "motorcross"}, Want: []string{"motocross"}},
		golden.Bad{Name: "travel without unit", Args: []string{"-travel", "100..180"}, Want: []string{"-travel"}},
		golden.Bad{Name: "travel with a bad end", Args: []string{"-travel", "100 mm..x"}, Want: []string{"-travel"}},
		golden.Bad{Name: "travel the wrong way", Args: []string{"-travel", "180 mm..100 mm"},
			Want: []string{"smaller one comes first"}},
		golden.Bad{Name: "no such spring", Args: []string{"-spring", "leaf"}, Want: []string{"coil or air"}},
		golden.Bad{Name: "nothing left", Args: []string{"-use", "trials", "-spring", "air"},
			Want: []string{"no fork passes"}},
		golden.Bad{Name: "fork and filter", Args: []string{"-id", "M07", "-spring", "air"}, Want: []string{"not both"}},
		golden.Bad{Name: "two forms", Args: []string{"-csv", "-json"}, Want: []string{"give one of"}},
		golden.Bad{Name: "field without a folder", Args: []string{"-field", "travel"}, Want: []string{"-out"}},
		golden.Bad{Name: "no such field", Args: []string{"-field", "trvl", "-out", t.TempDir()}, Want: []string{"travel"}},
		golden.Bad{Name: "no such file", Args: []string{"-data", "nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "bad file", Args: []string{"-data", file}, Want: []string{file}},
	)
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
	if out := golden.Text(t, command, "-data", own, "-id", "Mine"); !strings.Contains(out, "FORK Mine") {
		t.Error(out)
	}
}

// The forms for other programs are those of package data.
func TestExports(t *testing.T) {
	for form, write := range map[string]func(io.Writer, *data.Set) error{
		"-csv": data.EncodeCSV, "-json": data.EncodeJSON, "-package": data.EncodePackage,
		"-schema": func(w io.Writer, _ *data.Set) error { return data.EncodeSchema(w) },
	} {
		var want bytes.Buffer
		if err := write(&want, data.Reference()); err != nil {
			t.Fatal(err)
		}
		if got := golden.Text(t, command, form); got != want.String() {
			t.Errorf("%s: %d bytes, want %d", form, len(got), want.Len())
		}
	}
}

// A field has a row for every fork that has it, and the evidence.
func TestField(t *testing.T) {
	c := &catalog{Set: data.Reference()}
	for key, most := range map[string]int{"travel": 120, "chassis.rake": 140, "air.volume": 60, "left.coil.rate": 60} {
		f, err := c.field(key, nil)
		if err != nil {
			t.Fatal(err)
		}
		forks := 0
		for _, r := range f.rows {
			if !(r.low <= r.value && r.value <= r.top) {
				t.Errorf("%s: %+v", key, r)
			}
			if r.kind == ofFork {
				forks++
			}
		}
		if forks < 20 || len(f.rows) > most {
			t.Errorf("%s: %d forks in %d rows", key, forks, len(f.rows))
		}
		if _, err := f.PNG(); err != nil {
			t.Error(err)
		}
	}
}

// The front end closes: the steering axis meets the ground before the tire by the trail.
func TestFront(t *testing.T) {
	for _, m := range models(t) {
		f := newFront(m)
		trail := (f.radius*math.Sin(f.rake) - f.offset) / math.Cos(f.rake)
		if want := mm(m.Chassis.Trail.Value); !near(trail, want, 0.06) {
			t.Errorf("%s: trail %.2f mm, the record has %.2f mm", m.ID, trail, want)
		}
		if f.length < mm(m.Travel.Value) {
			t.Errorf("%s: %.0f mm long", m.ID, f.length)
		}
		if svg, err := f.SVG(); err != nil || bytes.Contains(svg, []byte("NaN")) {
			t.Errorf("%s: %v", m.ID, err)
		}
	}
}

// Whatever stands for a filter, it is read or refused.
func FuzzFilters(f *testing.F) {
	f.Add("100 mm..180 mm", "air")
	f.Add("..", "leaf")
	f.Add("1e308 m..1 mm", "")
	f.Fuzz(func(t *testing.T, travel, spring string) {
		for _, read := range []func() (data.Filter, error){
			func() (data.Filter, error) { return ofTravel(travel) },
			func() (data.Filter, error) { return onSpring(spring) },
		} {
			if filter, err := read(); (filter == nil) == (err == nil) {
				t.Errorf("%q, %q: neither a filter nor why not", travel, spring)
			}
		}
	})
}
