package strict

import (
	"bytes"
	"errors"
	"strings"

	"github.com/BurntSushi/toml"
)

// positions knows where every key stands. The TOML package keeps positions to
// itself but puts them into the error of a type that fails to decode, so the text
// is decoded once more with all values held back, and a probe that always fails
// is sent to the one in question.
type positions struct {
	doc    *Doc
	md     toml.MetaData
	tables map[string]map[string]toml.Primitive // by path
}

func (d *Doc) positions() positions {
	if d.offsets != nil {
		return positions{doc: d}
	}
	p := positions{doc: d, tables: make(map[string]map[string]toml.Primitive)}
	var top map[string]toml.Primitive
	// The same text was decoded before, so there is no error.
	p.md, _ = toml.Decode(string(d.text), &top)
	p.tables[""] = top
	return p
}

type probe struct{}

var errProbe = errors.New("probe")

func (probe) UnmarshalTOML(any) error { return errProbe }

// of is the line and column of what the key holds. For a table that is only implied it
// is that of the first key below, for a key that is missing that of the table around it.
func (p positions) of(path toml.Key) (line, column int) {
	for ; len(path) > 0; path = path[:len(path)-1] {
		for below := path; below != nil; below = p.doc.root.below(below) {
			if line, column := p.probe(below); line > 0 {
				return line, column
			}
		}
	}
	return 1, 0
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

// probe is the place of exactly that key, or 0.
func (p positions) probe(path toml.Key) (line, column int) {
	if offset, ok := p.doc.offsets[path.String()]; ok {
		offset += len(p.doc.text[offset:]) - len(bytes.TrimLeft(p.doc.text[offset:], " \t\r\n:"))
		return place(p.doc.text, offset)
	}
	if p.tables == nil {
		return 0, 0
	}
	last := len(path) - 1
	value, ok := p.table(path[:last])[path[last]]
	if !ok {
		return 0, 0
	}
	var pe toml.ParseError
	errors.As(p.md.PrimitiveDecode(value, &probe{}), &pe)
	if pe.Position.Line == 0 {
		return 0, 0 // a table that is only implied
	}
	start := pe.Position.Start // of a text behind its quotes
	for start > 0 && strings.IndexByte(`"'`, p.doc.text[start-1]) >= 0 {
		start--
	}
	return place(p.doc.text, start)
}

// table is what the table of that path holds, taken apart once.
func (p positions) table(path toml.Key) map[string]toml.Primitive {
	if len(path) == 0 {
		return p.tables[""]
	}
	name := path.String()
	table, known := p.tables[name]
	if last := len(path) - 1; !known {
		if value, ok := p.table(path[:last])[path[last]]; ok && p.md.PrimitiveDecode(value, &table) != nil {
			table = nil // it is no table
		}
		p.tables[name] = table
	}
	return table
}

// place is the line of an offset and the byte of that line, both from 1.
func place(text []byte, offset int) (line, column int) {
	before := text[:max(0, min(offset, len(text)))] // the TOML package has faults before the first byte
	return 1 + bytes.Count(before, []byte("\n")), len(before) - bytes.LastIndexByte(before, '\n')
}
