// Package register lists what the tests check against the world, and serves tests alone.
//
// A row of register.csv is one check: its id, the source by its key in sources.csv (which has the
// edition), the place there, the kind of evidence, the tolerance and its reason. "printed" means
// half a unit of the last digit printed. A row that is not checked says why under unused. The ids
// are told apart by a letter: U units, A atmosphere, G gas, R real gas, H heat of a gas, S springs,
// O oil, F flow, V vibration, L landing, T two-wheelers, Q roads, P plates, B bolts, X uncertainty,
// N solvers.
//
// A test calls [Cite] with the ids of what it checks; package and test are found there, so nothing
// states them twice. The test of this package fails on an id that no test cites, and on one that is
// cited and not listed. Safe for concurrent use.
package register

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"sync"
	"testing"
)

//go:embed register.csv
var checks []byte

//go:embed sources.csv
var sources []byte

// Kinds of evidence, the strongest first.
var Kinds = []string{
	"read",      // stands in the named text, or in the part of it that somebody read
	"companion", // a third party's run of the book's example: formula and inputs were carried over
	"library",   // a general library evaluates the same equation or solves the same problem
	"memory",    // nobody looked it up again
	"practice",  // common practice, no source
	"own",       // worked out by this project: no outside evidence
}

// A Check is a row of the register.
type Check struct {
	ID, Source, Place, Evidence, Tolerance, Reason string
	Unused                                         string // why no test has it; empty for one that is cited
}

// Checks are all rows, in their order.
var Checks = sync.OnceValues(func() ([]Check, error) {
	from, err := rows(sources, 2)
	if err != nil {
		return nil, err
	}
	text := map[string]string{}
	for _, row := range from {
		text[row[0]] = row[1]
	}
	table, err := rows(checks, 7)
	if err != nil {
		return nil, err
	}
	var list []Check
	seen := map[string]bool{}
	for _, r := range table {
		c := Check{r[0], text[r[1]], r[2], r[3], r[4], r[5], r[6]}
		switch {
		case seen[c.ID]:
			return nil, fmt.Errorf("%s stands twice", c.ID)
		case c.Source == "":
			return nil, fmt.Errorf("%s: there is no source %q", c.ID, r[1])
		case c.Place == "" || !slices.Contains(Kinds, c.Evidence):
			return nil, fmt.Errorf("%s: no place, or no kind of evidence %q", c.ID, c.Evidence)
		case (c.Tolerance == "") == (c.Unused == ""):
			return nil, fmt.Errorf("%s: want a tolerance or why it is not used", c.ID)
		case c.Unused == "" && c.Tolerance != "printed" && c.Tolerance != "exact" && c.Reason == "":
			return nil, fmt.Errorf("%s: the tolerance %s has no reason", c.ID, c.Tolerance)
		}
		seen[c.ID] = true
		list = append(list, c)
	}
	return list, nil
})

func rows(file []byte, fields int) ([][]string, error) {
	r := csv.NewReader(bytes.NewReader(file))
	r.Comment, r.FieldsPerRecord = '#', fields
	all, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	return all[1:], nil
}

// Log is the environment variable that names a file to which every check is written when the test
// that cites it has passed.
const Log = "FORKCURVE_CITED"

// Cite says that the test compares with these checks. An id that is not listed, or is listed as
// not used, fails the test.
func Cite(t testing.TB, ids ...string) {
	t.Helper()
	list, err := Checks()
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range ids {
		i := slices.IndexFunc(list, func(c Check) bool { return c.ID == id })
		if i < 0 || list[i].Unused != "" {
			t.Errorf("%q is no check of internal/register/register.csv, or one said not to be used", id)
		}
	}
	if name := os.Getenv(Log); name != "" {
		t.Cleanup(func() {
			if !t.Failed() && !t.Skipped() {
				write(t, name, ids)
			}
		})
	}
}

func write(t testing.TB, name string, ids []string) {
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		t.Error(err)
		return
	}
	for _, id := range ids {
		if _, err := fmt.Fprintln(f, id); err != nil {
			t.Error(err)
		}
	}
	if err := f.Close(); err != nil {
		t.Error(err)
	}
}
