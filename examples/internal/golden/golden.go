// Package golden holds, in tests, what a program says against a file of testdata, and every program against what
// all of them promise.
package golden

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/internal/typeset"
)

// Check fails where got is not what the file says. UPDATE_GOLDEN=1 rewrites it.
func Check(t testing.TB, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if os.Getenv("UPDATE_GOLDEN") == "1" {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; UPDATE_GOLDEN=1 rewrites it\n%s", file, got)
	}
}

// Readable fails on lines that are too long or end in blanks, on a text that begins with an empty line, and on what is
// no number or not set as one.
func Readable(t testing.TB, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		if n := typeset.Count(strings.TrimSuffix(line, "\n")); n > typeset.Width {
			t.Errorf("%d columns: %s", n, line)
		}
		if strings.HasSuffix(line, " \n") {
			t.Errorf("blanks at the end: %q", line)
		}
		if set := typeset.Numbers(line); set != line {
			t.Errorf("%q, in print %q", line, set)
		}
	}
	if strings.HasPrefix(text, "\n") {
		t.Error("begins with an empty line")
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "\t"} {
		if strings.Contains(text, bad) {
			t.Errorf("the text says %q", bad)
		}
	}
}
