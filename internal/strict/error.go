package strict

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"example.org/forkcurve/units"
)

// maxFaults bounds what Err lists and after how many records no more are read: whoever
// has that many faults has another file in hand.
const maxFaults = 100

// A fault is an error before its place has been looked up, which is slow.
type fault struct {
	path toml.Key
	text string // the value as written, "" if none
	err  error
}

// full reports whether the document has more faults than are listed.
func (d *Doc) full() bool { return len(d.faults) > maxFaults }

// Err returns every fault of the file, each a *units.FileError, joined in line order, or
// nil. Unknown keys are among them, so it is called after the last read.
func (d *Doc) Err() error {
	faults := slices.Clone(d.faults)
	if !d.full() {
		d.root.unknown(&faults)
	}
	if len(faults) == 0 {
		return nil
	}
	where := d.positions()
	errs := make([]*units.FileError, min(len(faults), maxFaults), maxFaults+1)
	for i, f := range faults[:len(errs)] {
		e := &units.FileError{File: d.name, Key: f.path.String(), Text: f.text, Err: f.err}
		if r, ok := f.err.(*units.RangeError); ok {
			named := *r // the key is what the user can find; the field was that of a type
			named.Field = e.Key
			e.Err = &named
		}
		e.Line, e.Column = where.of(f.path)
		errs[i] = e
	}
	slices.SortStableFunc(errs, func(a, b *units.FileError) int { return a.Line - b.Line })
	if len(faults) > maxFaults {
		errs = append(errs, &units.FileError{File: d.name, Line: errs[maxFaults-1].Line,
			Err: fmt.Errorf("more than %d faults; the rest is left out", maxFaults)})
	}
	joined := make([]error, len(errs))
	for i, e := range errs {
		joined[i] = e
	}
	return errors.Join(joined...)
}

// unknown appends a fault for every key that was never asked for.
func (t *Table) unknown(faults *[]fault) {
	for _, key := range t.order {
		switch child := t.tables[key]; {
		case len(*faults) > maxFaults || t.skipped:
			return
		case !t.records && !slices.Contains(t.asked, key):
			*faults = append(*faults, fault{path: t.at(key), err: unknownKey{key, t.asked}})
		case child != nil:
			child.unknown(faults)
		}
	}
}

type unknownKey struct {
	key   string
	asked []string
}

// mostKeys bounds the keys an error lists to about two lines of a terminal.
const mostKeys = 14

func (e unknownKey) Error() string {
	s := "unknown key"
	if near := Nearest(e.key, e.asked, 1); len(near) > 0 {
		s += "; did you mean " + near[0] + "?"
	} else if len(e.asked) > 0 && len(e.asked) <= mostKeys {
		s += "; known here: " + strings.Join(e.asked, ", ")
	}
	return s
}
