package data

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
