package data

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// Encode writes the set in the schema of the package, sorted by id. What it writes
// decodes to the same set.
func Encode(w io.Writer, s *Set) error {
	e := newEncoder(w)
	for r := range s.Sources() {
		e.record(sources, r.ID, list(r.fields))
	}
	for r := range s.Materials() {
		e.record(materials, r.ID, list(r.fields))
	}
	for r := range s.Fluids() {
		e.record(fluids, r.ID, list(r.fields))
	}
	for r := range s.Gases() {
		e.record(gases, r.ID, list(r.fields))
	}
	for r := range s.Disciplines() {
		e.record(disciplines, r.ID, list(r.fields))
	}
	for r := range s.Forks() {
		e.record(forks, r.ID, list(r.fields))
	}
	if !e.written {
		e.table(string(forks)) // with none in it: a text without any key is refused
	}
	return e.out.Flush()
}

type encoder struct {
	out     *bufio.Writer
	written bool
	each    bool // value names its source itself, so that one without does not inherit it
}

func newEncoder(w io.Writer) *encoder { return &encoder{out: bufio.NewWriter(w)} }

// record writes the values of one record, a table for each group of keys.
func (e *encoder) record(k kind, id string, list []Entry) {
	common := ""
	if !e.each {
		common = mostCommonSource(list)
	}
	table := ""
	e.table(string(k) + "." + id)
	if common != "" {
		fmt.Fprintf(e.out, "source = %q\n", common)
	}
	for _, v := range list {
		key := v.Key
		if i := strings.LastIndexByte(key, '.'); i >= 0 {
			if key[:i] != table {
				table = key[:i]
				e.table(string(k) + "." + id + "." + table)
			}
			key = key[i+1:]
		}
		text := v.Text
		if v.Source != "" && v.Source != common || v.Note != "" {
			text = "{ value = " + text
			if v.Source != common {
				text += ", source = " + quote(v.Source)
			}
			if v.Note != "" {
				text += ", note = " + quote(v.Note)
			}
			text += " }"
		}
		fmt.Fprintf(e.out, "%s = %s\n", key, text)
	}
}

func (e *encoder) table(name string) {
	if e.written {
		e.out.WriteByte('\n')
	}
	e.written = true
	fmt.Fprintf(e.out, "[%s]\n", name)
}

func mostCommonSource(list []Entry) string {
	count := make(map[string]int)
	best := ""
	for _, v := range list {
		if v.Source == "" {
			continue
		}
		if count[v.Source]++; count[v.Source] > count[best] {
			best = v.Source
		}
	}
	return best
}
