package register_test

import (
	"slices"
	"testing"

	. "example.org/forkcurve/internal/register"
)

// What is listed is cited, and what is cited is listed, over all packages.
func TestEveryCheckIsCited(t *testing.T) {
	list, err := Checks()
	if err != nil {
		t.Fatal(err)
	}
	cited, err := Cited("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		is := slices.ContainsFunc(cited, func(at Citation) bool { return at.ID == c.ID })
		if is != (c.Unused == "") {
			t.Errorf("%s, %s, %s: cited %v, unused: %q", c.ID, c.Source, c.Place, is, c.Unused)
		}
	}
	for _, at := range cited {
		if !slices.ContainsFunc(list, func(c Check) bool { return c.ID == at.ID }) {
			t.Errorf("%s/%s:%d cites %s, which is not listed", at.Package, at.File, at.Line, at.ID)
		}
	}
}

// recorder is a test that notes its failure.
type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }

func TestCiteRefuses(t *testing.T) {
	list, err := Checks()
	if err != nil {
		t.Fatal(err)
	}
	unused := list[slices.IndexFunc(list, func(c Check) bool { return c.Unused != "" })].ID
	for id, want := range map[string]bool{list[0].ID: false, unused: true, "none": true} {
		r := &recorder{TB: t}
		Cite(r, id)
		if r.failed != want {
			t.Errorf("%s: failed %v, want %v", id, r.failed, want)
		}
	}
}
