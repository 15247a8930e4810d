package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/examples/internal/golden"
)

func TestText(t *testing.T) { golden.Check(t, "default.golden", golden.Text(t, command)) }

// Every air fork rides, or the sheet says why not.
func TestEveryFork(t *testing.T) {
	for fork := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		out := golden.Text(t, command, "-fork", fork.ID)
		golden.Readable(t, out)
		if !strings.Contains(out, "exponent 1.") && !strings.Contains(out, "No coil of the shelf") {
			t.Errorf("%s: neither a landing nor a reason", fork.ID)
		}
	}
}

func TestStudyRoadAndTable(t *testing.T) {
	road := filepath.Join(t.TempDir(), "road.csv")
	if err := os.WriteFile(road, []byte("time_s,height_mm\n0,120\n0.5,120\n0.7,180\n0.9,120\n2,120\n"),
		0o600); err != nil {
		t.Fatal(err)
	}
	out := golden.Text(t, command, "-study", "6", "-road", road)
	for _, want := range []string{"HOW SURE: 6 forks", "RECORDED ROAD, 2 s", "90 % between"} {
		if !strings.Contains(out, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	golden.Readable(t, out)
	table := golden.Text(t, command, "-exponents")
	golden.Readable(t, table)
	for fork := range data.Reference().Forks(data.SprungBy(data.AirLeg)) {
		if !strings.Contains(table, "\n  "+fork.ID+" ") {
			t.Errorf("the table lacks %s", fork.ID)
		}
	}
}

func TestBadInput(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.csv")
	if err := os.WriteFile(bad, []byte("time_s,height_mm\n0,0\n1,ten\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	golden.Refuses(t, command,
		golden.Bad{Name: "no such fork", Args: []string{"-fork", "none"}, Want: []string{"none"}},
		golden.Bad{Name: "no such job", Args: []string{"-job", "nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "a ratio below zero", Args: []string{"-rebound", "-1"}, Want: []string{"-rebound"}},
		golden.Bad{Name: "too many forks", Args: []string{"-study", "1e9"}, Want: []string{"-study"}},
		golden.Bad{Name: "a height that is a word", Args: []string{"-road", bad},
			Want: []string{"bad.csv", "height_mm", "ten"}},
	)
}
