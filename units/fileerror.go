package units

import (
	"fmt"
	"strings"
)

// FileError is a fault of a file: the one error of all readers of files. Several faults
// of a file come joined, in the order of the lines.
type FileError struct {
	File   string // its name, "" where the reader was not given one
	Line   int    // from 1, 0 where a fault of values is told as a file would have it
	Column int    // byte of the line from 1, 0 where the whole line is meant
	Key    string // dotted path in a TOML file, header of the column in a CSV file; "" for neither
	Text   string // the value as written, "" if there is none to show
	Err    error  // a *RangeError, whose Field is the Key, out of range; a *ParseError where it is no quantity
}

// Error says where, what was written and what is wanted, as
// job.toml:15: rider.mass = "82": unit missing; want kg, g, lb, oz.
func (e *FileError) Error() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(e.File + ":")
	} else if e.Line > 0 {
		b.WriteString("line ")
	}
	if e.Line > 0 {
		fmt.Fprintf(&b, "%d", e.Line)
		if e.Key == "" && e.Column > 0 {
			fmt.Fprintf(&b, ":%d", e.Column)
		}
		b.WriteString(": ")
	}
	if e.Key != "" {
		b.WriteString(e.Key)
		if e.Text != "" {
			b.WriteString(" = " + e.Text)
		}
		b.WriteString(": ")
	}
	b.WriteString(e.reason())
	return b.String()
}

// reason leaves out of Err what Error has said already.
func (e *FileError) reason() string {
	switch err := e.Err.(type) {
	case *RangeError:
		if err.Hint != "" {
			return "want " + err.Want + " (" + err.Hint + ")"
		}
		return "want " + err.Want
	case *ParseError:
		return err.Hint + "; want " + strings.Join(err.Accepted, ", ")
	}
	return e.Err.Error()
}

// Unwrap is the error behind, Err.
func (e *FileError) Unwrap() error { return e.Err }
