package units

import "fmt"

// RangeError is the out-of-range error of all packages.
type RangeError struct {
	Field string // path of the field, as "AirSpec.Bore"
	Value any    // what was given
	Want  string // what is wanted, as "10 mm to 100 mm"
	Hint  string // likely cause, or ""
}

func (e *RangeError) Error() string {
	s := fmt.Sprintf("%s = %v: want %s", e.Field, e.Value, e.Want)
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}
