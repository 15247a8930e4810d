package data

import (
	"math"
	"reflect"

	"example.org/forkcurve/units"
)

// Value is a quantity with its provenance and how far it may be off.
type Value[Q any] struct {
	Value  Q         // in SI; zero where the record leaves it out
	Spread Spread[Q] // how far it may be off
	Source string    // id of a Source, "" where the record leaves the value out
	Note   string    // what else there is to know
}

// Given reports whether the record has the value.
func (v Value[Q]) Given() bool { return v.Source != "" }

// Spread says how far a value may be from that of the fork at hand.
type Spread[Q any] struct {
	SD        Q      // standard uncertainty; zero where none is known
	Low, High Q      // a range around the value, of which Means says what it is
	N         int    // of how many, 0 where that is not known
	Means     Means  // "" without a range
	Source    string // id of the source of SD where it is the judgment for the field, "" where the value's own
}

// Means says what a range around a value is.
type Means string

// What a range may be.
const (
	BetweenForks Means = "between-forks" // 5th to 95th percentile of the forks of a class
	Adjuster     Means = "adjuster"      // what an adjuster reaches; no uncertainty
	Shelf        Means = "shelf"         // what is sold or usual to put in; no uncertainty
	Tolerance    Means = "tolerance"     // limits of the reading or of what is made
	Window       Means = "window"        // what is aimed at or usual: of ranges without a value in them; no uncertainty
)

// deviation is the standard uncertainty that a range of that meaning and width stands for:
// 90 % of a normal distribution, or all of an even one; 0 for what is set.
func (m Means) deviation(width float64) float64 {
	switch m {
	case BetweenForks:
		return width / (2 * 1.6449)
	case Tolerance:
		return width / math.Sqrt(12)
	}
	return 0
}

// Range is two quantities, Lo ≤ Hi, with their provenance.
type Range[Q any] struct {
	Lo, Hi Q      // both ends belong to it
	Source string // id of a Source, "" where the record leaves the range out
	Note   string // what else there is to know
}

// Given reports whether the record has the range.
func (r Range[Q]) Given() bool { return r.Source != "" }

// List is some quantities in order, with their provenance.
type List[Q any] struct {
	Values []Q    // in the order of the record
	Source string // id of a Source, "" where the record leaves the list out
	Note   string // what else there is to know
}

// Given reports whether the record has the list.
func (l List[Q]) Given() bool { return l.Source != "" }

// Entry is one value of a record as a file shows it: texts as in TOML, `"27.2 deg"`.
type Entry struct {
	Key       string     // dotted, below the record, as "chassis.rake"
	Text      string     // a list of two for a range
	SD        string     // "" where there is none
	Low, High string     // ends of the range around it; "" where there is none
	N         int        // of how many the range is; 0: not known
	Means     Means      // what the range is
	Judged    string     // id of the source of SD where it is the judgment for the field
	Source    string     // "" for words, which describe and need no source
	Grade     SourceKind // what the value is worth; only [Set.Graded] fills it in
	Note      string     // what else there is to know
}

// si is a quantity in SI units, of the pressure above ambient for one on a gauge.
func si(q any) float64 {
	if p, ok := q.(units.GaugePressure); ok {
		return p.In(units.Pascal)
	}
	return reflect.ValueOf(q).Float()
}

// fromSI is the quantity of that many SI units.
func fromSI[Q any](x float64) (q Q) {
	if p, ok := any(&q).(*units.GaugePressure); ok {
		*p = units.Gauge(units.Pressure(x))
	} else {
		reflect.ValueOf(&q).Elem().SetFloat(x)
	}
	return q
}
