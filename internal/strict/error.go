package strict

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/forkcurve/units"
)

// Error is one fault of a file.
type Error struct {
	File string // "" where the values did not come from a file
	Line int    // from 1
	Key  string // dotted path, "" for the file as a whole
	Text string // the value as written, "" if there is none to show
	Err  error
}

func (e *Error) Error() string {
	var b strings.Builder
	if e.File != "" {
		fmt.Fprintf(&b, "%s:%d: ", e.File, e.Line)
	}
	if e.Key != "" {
		b.WriteString(e.Key)
		if e.Text != "" {
			b.WriteString(" = " + e.Text)
		}
		b.WriteString(": ")
	}
	b.WriteString(reason(e.Err))
	return b.String()
}

// Unwrap is the *units.RangeError, *units.ParseError or other error behind.
func (e *Error) Unwrap() error { return e.Err }

// reason leaves out of err what Error has said already.
func reason(err error) string {
	switch e := err.(type) {
	case *units.RangeError:
		if e.Hint != "" {
			return "want " + e.Want + " (" + e.Hint + ")"
		}
		return "want " + e.Want
	case *units.ParseError:
		return e.Hint + "; want " + strings.Join(e.Accepted, ", ")
	}
	return err.Error()
}

// maxFaults bounds what Err lists: each line number is looked up at a cost that
// grows with the file.
const maxFaults = 100

// Err returns every fault of the file, joined in line order, or nil. Unknown keys
// are among them, so it is called after the last read.
func (d *Doc) Err() error {
	faults := slices.Clone(d.faults)
	d.root.unknown(&faults)
	if len(faults) == 0 {
		return nil
	}
	more := len(faults) - maxFaults
	faults = faults[:min(len(faults), maxFaults)]
	where := d.positions()
	errs := make([]error, len(faults))
	for i, f := range faults {
		errs[i] = &Error{File: d.name, Line: where.line(f.path), Key: f.path.String(), Text: f.text, Err: f.err}
	}
	slices.SortStableFunc(errs, func(a, b error) int { return a.(*Error).Line - b.(*Error).Line })
	if more > 0 {
		errs = append(errs, &Error{File: d.name, Line: errs[len(errs)-1].(*Error).Line, Err: fmt.Errorf("and %d more faults", more)})
	}
	return errors.Join(errs...)
}

// unknown appends a fault for every key that was never asked for.
func (t *Table) unknown(faults *[]fault) {
	for _, key := range t.order {
		switch child := t.tables[key]; {
		case !slices.Contains(t.asked, key):
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
