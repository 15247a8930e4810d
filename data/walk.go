package data

import (
	"example.org/forkcurve/internal/strict"
)

// A walk goes over the keys of a record, which its fields method names once, and
// reads them from a table, lists them, or describes them.
type walk struct {
	in      *strict.Table // nil when listing
	set     *Set          // being read into
	known   *Set          // whose records a file may refer to as well
	source  string        // inherited
	faults  int           // of the document before this table
	partial bool          // evidence: any key may be left out, values are not compared
	based   bool          // on another fork: any key may be left out
	judged  bool          // values without a spread take that of their field
	extra   *[]Entry      // the keys that begin with x-

	prefix string // of keys, below the record
	list   *[]Entry
	schema *object // being described
}

func (w *walk) reading() bool { return w.in != nil }

// sound reports whether the table was read without a fault, so that its values may
// be compared with each other.
func (w *walk) sound() bool { return w.reading() && !w.partial && w.in.Faults() == w.faults }

// section is the walk of the same table that is sound as long as what follows is.
func (w *walk) section() *walk {
	s := *w
	if w.reading() {
		s.faults = w.in.Faults()
	}
	return &s
}

// sub walks the table under the key, which may be missing if it is optional.
func (w *walk) sub(key string, n need, fields func(*walk)) {
	below := *w
	below.prefix = w.prefix + key + "."
	switch {
	case w.schema != nil:
		below.schema = w.schema.table(key)
	case w.reading():
		if (n == optional || w.partial || w.based) && !w.in.Has(key) {
			return
		}
		below.faults = w.in.Faults()
		below.in = w.in.Table(key)
		below.enter()
	}
	fields(&below)
}

// enter takes over the source key of the table, for all values in it, and its private keys.
func (w *walk) enter() {
	w.inherit()
	w.private()
}

// private takes over what keys that begin with x- hold, which mean nothing here.
func (w *walk) private() {
	for key, text := range w.in.Private() {
		*w.extra = append(*w.extra, Entry{Key: w.prefix + key, Text: text})
	}
}

// inherit takes over the source key of the table, for all values in it.
func (w *walk) inherit() {
	if s, ok := w.in.OptionalText("source"); ok {
		w.refer("source", s, sources)
		w.source = s
	}
}

// at is where a value stands: under its key, or under value in an inline table
// that may name source and note.
func (w *walk) at(key string) (in *strict.Table, name, source, note string) {
	if !w.in.HasTable(key) {
		return w.in, key, w.source, ""
	}
	below := *w
	below.in = w.in.Table(key)
	below.inherit()
	note, _ = below.in.OptionalText("note")
	return below.in, "value", below.source, note
}

type need bool

const (
	required need = true
	optional need = false
)

func (w *walk) emit(key, text, source, note string) {
	*w.list = append(*w.list, Entry{Key: w.prefix + key, Text: text, Source: source, Note: note})
}

// shows reports whether a part is walked that the record may lack: where it is to be read
// or described, or where it is there.
func (w *walk) shows(key string, has bool) bool {
	return has || w.schema != nil || w.reading() && w.in.Has(key)
}

// needs reports a table that is missing.
func (w *walk) needs(key string, needed bool) {
	if needed && !w.in.Has(key) {
		w.in.Table(key)
	}
}

// has reports whether the file has the key, at fault or not.
func (w *walk) has(key string) bool { return w.reading() && w.in.Has(key) }

// list is the values of a record, which has that method.
func list(fields func(*walk)) []Entry {
	var l []Entry
	fields(&walk{list: &l})
	return l
}
