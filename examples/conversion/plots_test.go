package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/examples/internal/golden"
	"example.org/forkcurve/examples/internal/program"
)

// Whatever comes out of a plan can be drawn, the same each time, and a fork that must not
// be built says so.
func TestPlots(t *testing.T) {
	for _, c := range []struct {
		name   string
		status int
		edit   []string
	}{
		{"safe", program.Done, nil},
		{"far event", program.Done, []string{`"4 °C"`, `"-35 °C"`, `"2500 m"`, `"4500 m"`}},
		{"no safe coil", program.NoAnswer, []string{`free-length = "616 mm"`, `free-length = "540 mm"`}},
		{"too soft to carry the rider", program.NoAnswer, []string{`"79 kg"`, `"200 kg"`, `"8.0 N/mm"`, `"0.5 N/mm"`,
			`"8.4 N/mm"`, `"0.6 N/mm"`, `"8.8 N/mm"`, `"0.7 N/mm"`, `"9.2 N/mm"`, `"0.8 N/mm"`,
			`criterion = "energy"`, "criterion = \"energy\"\noil = [\"50 mL\", \"50 mL\"]", `"9.0 bar"`, `"11 bar"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			first, again := t.TempDir(), t.TempDir()
			for _, dir := range []string{first, again} {
				status, _, problems := golden.Run(t, command, "-job", job(t, c.edit...), "-plot", dir)
				if status != c.status || strings.Count(problems, "wrote ") != 8 {
					t.Fatalf("status %d, %s", status, problems)
				}
			}
			for _, name := range []string{"force-travel", "rate-travel", "drift-temperature", "drift-altitude"} {
				if warned := strings.Contains(same(t, first, again, name+".svg"),
					"NO SAFE COIL"); warned != (c.status != program.Done) {
					t.Errorf("%s: warning in the title: %v", name, warned)
				}
				same(t, first, again, name+".png")
			}
		})
	}
}

// same is what a file of both folders holds.
func same(t *testing.T, first, again, name string) string {
	t.Helper()
	a, err := os.ReadFile(filepath.Join(first, name))
	if err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(filepath.Join(again, name))
	if err != nil || string(a) != string(b) {
		t.Errorf("%s differs from one run to the next, %v", name, err)
	}
	return string(a)
}

func TestPlotIntoNoFolder(t *testing.T) {
	if status, _, problems := golden.Run(t, command, "-plot", "/dev/null/x"); status != program.BadInput ||
		problems == "" {
		t.Errorf("status %d, %s", status, problems)
	}
}
