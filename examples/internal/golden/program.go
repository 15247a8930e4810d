package golden

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"flag"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/examples/internal/program"
)

// Run runs a program as a user would.
func Run(t testing.TB, command program.Command, args ...string) (status int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	status = program.Run(command, args, &o, &p)
	return status, o.String(), p.String()
}

// Text is what a program prints when all is well.
func Text(t testing.TB, command program.Command, args ...string) string {
	t.Helper()
	status, out, problems := Run(t, command, args...)
	if status != program.Done || problems != "" {
		t.Errorf("%v: status %d, %s", args, status, problems)
	}
	return out
}

// Bad is an input that a program refuses, and what it says then.
type Bad struct {
	Name string
	Args []string
	Want []string // all of them
}

// Refuses fails where a bad input is not refused in the words wanted, and on what no program takes: a flag without
// its value, an unknown one, words left over, a folder that cannot be. It fails where -h is refused or leaves a
// flag out.
func Refuses(t *testing.T, command program.Command, bad ...Bad) {
	p := &program.Program{Flags: flag.NewFlagSet("", flag.ContinueOnError)}
	command(p)
	var names []string
	p.Flags.VisitAll(func(f *flag.Flag) {
		names = append(names, "-"+f.Name)
		if _, switched := f.Value.(interface{ IsBoolFlag() bool }); !switched {
			bad = append(bad, Bad{"empty " + f.Name, []string{"-" + f.Name, ""}, []string{"-" + f.Name}})
		}
		if f.Name == "out" {
			bad = append(bad, Bad{"into no folder", []string{"-out", "/dev/null/x"}, []string{"/dev/null/x"}})
		}
	})
	bad = append(bad, Bad{"no such flag", []string{"-frok", "x"}, append(names, "frok")},
		Bad{"words left over", []string{"words"}, []string{"words"}})
	for _, b := range bad {
		t.Run(b.Name, func(t *testing.T) {
			status, out, problems := Run(t, command, b.Args...)
			if status != program.BadInput || out != "" && b.Name != "into no folder" {
				t.Errorf("status %d, printed %q", status, out)
			}
			for _, want := range b.Want {
				if !strings.Contains(problems, want) {
					t.Errorf("no %q in %s", want, problems)
				}
			}
		})
	}
	if status, out, problems := Run(t, command, "-h"); status != program.Done || out != "" ||
		!strings.Contains(problems, names[0]) {
		t.Errorf("-h: status %d, printed %q, %s", status, out, problems)
	}
}

// Pictures runs a program twice and fails where it does not write the same so many pictures into a new folder, all
// of them named and well formed. A count of 0 is any.
func Pictures(t *testing.T, command program.Command, count int, args ...string) {
	t.Helper()
	drawn := func() map[string][]byte {
		dir := filepath.Join(t.TempDir(), "new")
		status, _, problems := Run(t, command, append(args[:len(args):len(args)], "-out", dir)...)
		files := map[string][]byte{}
		entries, err := os.ReadDir(dir)
		if n := len(entries); status != program.Done || n == 0 || n != cmp.Or(count, n) ||
			strings.Count(problems, "wrote ") != n {
			t.Fatalf("status %d, %d files, %v, %s", status, n, err, problems)
		}
		for _, e := range entries {
			if files[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
				t.Fatal(err)
			}
		}
		return files
	}
	again := drawn()
	for name, content := range drawn() {
		if !bytes.Equal(content, again[name]) {
			t.Errorf("%s: drawn twice, the files differ", name)
		}
		var err error
		if filepath.Ext(name) == ".png" {
			_, err = png.Decode(bytes.NewReader(content))
		} else {
			_, err = Words(content)
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Words are those of a well-formed drawing.
func Words(svg []byte) (string, error) {
	var b strings.Builder
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return b.String(), nil
		}
		if err != nil {
			return "", err
		}
		if text, ok := token.(xml.CharData); ok {
			b.Write(text)
		}
	}
}
