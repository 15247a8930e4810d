package strict

import (
	"fmt"
	"strings"
	"unicode"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Fault adds a fault of the reader's own about a key, which need not be there. Each of
// several errors joined is a fault.
func (t *Table) Fault(key string, err error) {
	if t.absent {
		return
	}
	t.ask(key)
	for _, err := range check.Split(err) {
		t.doc.faults = append(t.doc.faults, fault{path: t.at(key), text: show(t.values[key]), err: err})
	}
}

// FaultFields adds the faults of a Go value that was built from the table, each under the
// key its field is written as: Spec.Soft.FreeLength under free-length in the table soft, and
// under the given key where there is none of that name.
func (t *Table) FaultFields(key string, err error) {
	for _, err := range check.Split(err) {
		in, at := t, key
		if e, ok := err.(*units.RangeError); ok {
			_, path, _ := strings.Cut(e.Field, ".")
			in, at = t.find(path, key)
		}
		in.Fault(at, err)
	}
}

// find is the table and the key of a path of fields, or t and the other key.
func (t *Table) find(path, other string) (*Table, string) {
	keys := strings.Split(kebab(path), ".")
	in, last := t, len(keys)-1
	for _, key := range keys[:last] {
		if in = in.tables[key]; in == nil {
			return t, other
		}
	}
	if _, ok := in.values[keys[last]]; !ok {
		return t, other
	}
	return in, keys[last]
}

// kebab writes "Left.NegativeVolume" as "left.negative-volume".
func kebab(path string) string {
	var b strings.Builder
	for i, r := range path {
		if unicode.IsUpper(r) && i > 0 && path[i-1] != '.' {
			b.WriteByte('-')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// Faults is the number of faults found so far in the document. A reader that
// compares values with each other does so if their table added none.
func (t *Table) Faults() int { return len(t.doc.faults) }

func (t *Table) missing(key, want string) {
	t.Fault(key, fmt.Errorf("missing; want %s", want))
}

func (t *Table) mismatch(key, want string) {
	t.Fault(key, fmt.Errorf("%s; want %s", kind(t.values[key]), want))
}
