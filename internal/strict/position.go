package strict

import (
	"errors"

	"github.com/BurntSushi/toml"
)

// positions knows the line of every key. The TOML package keeps positions to
// itself but puts them into the error of a type that fails to decode, so the text
// is decoded once more with all values held back, and a probe that always fails
// is sent to the one in question.
type positions struct {
	md  toml.MetaData
	top map[string]toml.Primitive
	doc *Doc
}

func (d *Doc) positions() positions {
	p := positions{doc: d}
	// The same text was decoded before, so there is no error.
	p.md, _ = toml.Decode(string(d.text), &p.top)
	return p
}

type probe struct{}

var errProbe = errors.New("probe")

func (probe) UnmarshalTOML(any) error { return errProbe }

// line is the line of the key. For a table that is only implied it is that of the
// first key below, for a key that is missing that of the table around it.
func (p positions) line(path toml.Key) int {
	for ; len(path) > 0; path = path[:len(path)-1] {
		for below := path; below != nil; below = p.doc.root.below(below) {
			if n := p.probe(below); n > 0 {
				return n
			}
		}
	}
	return 1
}

// below is the path of the first key in the table of that path, or nil.
func (t *Table) below(path toml.Key) toml.Key {
	for _, key := range path {
		if t = t.tables[key]; t == nil {
			return nil
		}
	}
	if len(t.order) == 0 {
		return nil
	}
	return t.at(t.order[0])
}

// probe is the line of exactly that key, or 0.
func (p positions) probe(path toml.Key) int {
	table := p.top
	for i, key := range path {
		value, ok := table[key]
		if !ok {
			return 0
		}
		if i == len(path)-1 {
			var pe toml.ParseError
			errors.As(p.md.PrimitiveDecode(value, &probe{}), &pe)
			return pe.Position.Line
		}
		table = nil
		if p.md.PrimitiveDecode(value, &table) != nil {
			return 0
		}
	}
	return 0
}
