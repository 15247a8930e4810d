package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/examples/internal/golden"
)

func TestText(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
	}{{"default.golden", nil}, {"rate.golden", []string{"-question", "rate"}}} {
		out := golden.Text(t, command, c.args...)
		golden.Readable(t, out)
		golden.Check(t, c.name, out)
	}
	golden.Readable(t, golden.Text(t, command, "-blank"))
}

func TestContradictionIsTold(t *testing.T) {
	file := filepath.Join(t.TempDir(), "odd.toml")
	odd := strings.Replace(string(builtIn), `shown = "8.4 bar"`, `shown = "12 bar"`, 1)
	if err := os.WriteFile(file, []byte(odd), 0o600); err != nil {
		t.Fatal(err)
	}
	out := golden.Text(t, command, "-readings", file)
	if !strings.Contains(out, "  ! bottomed-by-hand: ") {
		t.Errorf("a gauge that shows 12 bar is not told:\n%s", out)
	}
}

func TestBadInput(t *testing.T) {
	golden.Refuses(t, command,
		golden.Bad{Name: "no such file", Args: []string{"-readings", "nowhere.toml"}, Want: []string{"nowhere.toml"}},
		golden.Bad{Name: "no such question", Args: []string{"-question", "why"}, Want: []string{"-question"}},
	)
}
