package spring

import (
	"fmt"
	"slices"

	"example.org/forkcurve/units"
)

// ReadingError is a fault of one reading in a record.
type ReadingError struct {
	Index int               // in the record, from 0
	Err   *units.RangeError // what is wrong there
}

func (e *ReadingError) Error() string { return e.Err.Error() }

// Unwrap is the *units.RangeError behind.
func (e *ReadingError) Unwrap() error { return e.Err }

// Branches splits a record in the order it was taken, one stroke in and, if the
// record goes on, one stroke out, at its greatest travel. That reading ends
// both branches. A record that repeats a travel or turns twice, one
// that was sorted or shuffled after it was taken, is a *ReadingError.
func Branches(record []Reading) (MeasuredSpec, error) {
	top := 0
	for i, r := range record {
		if i == 0 {
			continue
		}
		before := record[i-1].Travel
		fault := units.RangeError{Field: fmt.Sprintf("record[%d].Travel", i), Value: r.Travel}
		switch {
		case r.Travel > before && top == i-1:
			top = i
			continue
		case r.Travel < before && i > 1:
			continue
		case r.Travel == before:
			fault.Want, fault.Hint = "another travel than the reading before it",
				"take the mean of readings at one travel"
		case r.Travel > before:
			fault.Want, fault.Hint = "below the reading before it, "+before.String(),
				"one stroke in and one out, in the order taken"
		default:
			fault.Want, fault.Hint = "above the reading before it, "+before.String(),
				"one stroke in and one out, in the order taken"
		}
		return MeasuredSpec{}, &ReadingError{Index: i, Err: &fault}
	}
	if len(record) < 2 {
		return MeasuredSpec{}, &units.RangeError{Field: "record", Value: fmt.Sprintf("%d readings", len(record)),
			Want: "2 readings or more"}
	}
	s := MeasuredSpec{Loading: slices.Clone(record[:top+1])}
	if top+1 < len(record) {
		s.Unloading = slices.Clone(record[top:])
		slices.Reverse(s.Unloading)
	}
	return s, nil
}
