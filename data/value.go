package data

import (
	"math"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

// Value is a quantity with its provenance.
type Value[Q any] struct {
	Value  Q
	Source string // id of a Source, "" where the record leaves the value out
	Note   string // what else there is to know
}

// Given reports whether the record has the value.
func (v Value[Q]) Given() bool { return v.Source != "" }

// Range is two quantities, Lo ≤ Hi, with their provenance.
type Range[Q any] struct {
	Lo, Hi Q
	Source string
	Note   string
}

// Given reports whether the record has the range.
func (r Range[Q]) Given() bool { return r.Source != "" }

// Share is a fraction, 0.485 for what a file and String write as "48.5 %".
type Share float64

// String is the share in percent, as "48.5 %".
func (s Share) String() string { return strict.FormatPercent(float64(s)) }

// MarshalText writes the share in percent. NaN and the infinities have no text form.
func (s Share) MarshalText() ([]byte, error) {
	if x := float64(s); math.IsNaN(x) || math.IsInf(100*x, 0) {
		return nil, &units.RangeError{Field: "Share", Value: x, Want: "a finite number"}
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads a share in percent, as "48.5 %".
func (s *Share) UnmarshalText(text []byte) error {
	x, err := strict.ParsePercent(string(text))
	if err != nil {
		return err
	}
	*s = Share(x)
	return nil
}

// Entry is one value of a record as a file shows it.
type Entry struct {
	Key    string // dotted, below the record, as "chassis.rake"
	Text   string // as TOML, as `"27.2 deg"`
	Source string // "" for words, which describe and need no source
	Note   string
}

// List is some quantities in order, with their provenance.
type List[Q any] struct {
	Values []Q
	Source string
	Note   string
}

// Given reports whether the record has the list.
func (l List[Q]) Given() bool { return l.Source != "" }
