package data

import (
	"bufio"
	"fmt"
	"io"
	"iter"
	"reflect"
	"slices"
	"strings"
)

// Encode writes the set in the schema of the package, sorted by id. What it writes
// decodes to the same set.
func Encode(w io.Writer, s *Set) error {
	e := newEncoder(w)
	e.private = s.extra
	for _, entry := range s.extra[""] {
		fmt.Fprintf(e.out, "%s = %s\n", entry.Key, entry.Text)
		e.written = true
	}
	if s.meta != (Meta{}) {
		e.record("meta", "", list(s.meta.fields))
	}
	for r := range s.records() {
		e.record(r.kind, r.id, r.values)
	}
	if !e.written {
		e.table(string(forks)) // with none in it: a text without any key is refused
	}
	return e.out.Flush()
}

// record is one record with its values.
type record struct {
	kind   kind
	id     string
	values []Entry
}

// records iterates over all records, by kind and id.
func (s *Set) records() iter.Seq[record] {
	return func(yield func(record) bool) {
		_ = each(yield, sources, s.Sources()) && each(yield, judgments, s.Spreads()) &&
			each(yield, materials, s.Materials()) && each(yield, fluids, s.Fluids()) && each(yield, gases, s.Gases()) &&
			each(yield, disciplines, s.Disciplines()) && each(yield, classes, asEvidence(s.Classes())) &&
			each(yield, specimens, asEvidence(s.Specimens())) && each(yield, forks, s.Forks())
	}
}

func each[R any, P fielded[R]](yield func(record) bool, k kind, all iter.Seq[R]) bool {
	for r := range all {
		if !yield(record{k, idOf(r), list(P(&r).fields)}) {
			return false
		}
	}
	return true
}

// fielded is what a record of type R is by a pointer.
type fielded[R any] interface {
	*R
	fields(*walk)
}

func idOf(record any) string { return reflect.ValueOf(record).FieldByName("ID").String() }

type encoder struct {
	out     *bufio.Writer
	written bool
	private map[string][]Entry
	each    bool // value names its source itself, so that one without does not inherit it
}

func newEncoder(w io.Writer) *encoder { return &encoder{out: bufio.NewWriter(w)} }

// record writes the values of one record, a table for each group of keys.
func (e *encoder) record(k kind, id string, list []Entry) {
	common := ""
	if !e.each {
		common = mostCommonSource(list)
	}
	name := recordName(string(k), id)
	list = withPrivate(list, e.private[name])
	table := ""
	e.table(name)
	if common != "" {
		fmt.Fprintf(e.out, "source = %q\n", common)
	}
	for _, v := range list {
		key := v.Key
		if i := strings.LastIndexByte(key, '.'); i >= 0 {
			if key[:i] != table {
				table = key[:i]
				e.table(name + "." + table)
			}
			key = key[i+1:]
		}
		text := v.Text
		if stated := v.stated(); v.Source != "" && v.Source != common || v.Note != "" || stated != "" {
			text = "{ value = " + text + stated
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

// withPrivate is the list with each private key at the end of its table.
func withPrivate(list, private []Entry) []Entry {
	tableOf := func(e Entry) string { return e.Key[:strings.LastIndexByte(e.Key, '.')+1] }
	list = slices.Clone(list)
	for _, p := range private {
		at := len(list)
		for i, e := range list {
			if tableOf(e) == tableOf(p) {
				at = i + 1
			}
		}
		list = slices.Insert(list, at, p)
	}
	return list
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
