package units

import (
	"fmt"
	"strings"
)

// RangeError is the out-of-range error of all packages.
type RangeError struct {
	Field string // path of the field, as "AirSpec.Bore"
	Value any    // what was given
	Want  string // what is wanted, as "10 mm to 100 mm"
	Hint  string // likely cause, or ""
}

func (e *RangeError) Error() string {
	s := fmt.Sprintf("%s = %s: want %s", e.Field, rounded(e.Value), e.Want)
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

// rounded shows a number or quantity to six digits, without the noise of its last
// bits, and anything else as it is.
func rounded(v any) string {
	switch v.(type) {
	case float64, fmt.Formatter:
		return fmt.Sprintf("%.6g", v)
	}
	return fmt.Sprint(v)
}

// notFinite is the error of a value that has no text form.
func notFinite(quantity, value string) error {
	return &RangeError{Field: quantity, Value: value, Want: "a finite number"}
}

// ParseError is the error of Parse and of every UnmarshalText.
type ParseError struct {
	Quantity string   // name of the type, as "Length"
	Text     string   // the whole text given
	Offset   int      // byte of Text where the fault is
	Accepted []string // symbols of the units accepted
	Hint     string   // what is wrong, as "bar is a pressure"
}

// longestQuote bounds how much of a text an error message repeats.
const longestQuote = 60

func (e *ParseError) Error() string {
	text := e.Text
	if len(text) > longestQuote {
		text = strings.ToValidUTF8(text[:longestQuote], "") + "…"
	}
	return fmt.Sprintf("units: parse %s %q: at byte %d: %s (want a number in %s)",
		e.Quantity, text, e.Offset, e.Hint, strings.Join(e.Accepted, ", "))
}

// Faults takes joined errors apart, however deep they were joined, so that each can be told by
// its field; nil gives none.
func Faults(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	switch {
	case err == nil:
		return nil
	case !ok:
		return []error{err}
	}
	var list []error
	for _, err := range joined.Unwrap() {
		list = append(list, Faults(err)...)
	}
	return list
}
