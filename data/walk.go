package data

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
)

// A walk goes over the keys of a record, which its fields method names once, and
// either reads them from a table or lists them.
type walk struct {
	in     *strict.Table // nil when listing
	set    *Set          // being read into
	known  *Set          // whose records a file may refer to as well
	source string        // inherited
	faults int           // of the document before this table

	prefix string // of keys listed
	list   *[]Entry
}

func (w *walk) reading() bool { return w.in != nil }

// sound reports whether the table was read without a fault, so that its values may
// be compared with each other.
func (w *walk) sound() bool { return w.reading() && w.in.Faults() == w.faults }

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
	if !w.reading() {
		below.prefix = w.prefix + key + "."
		fields(&below)
		return
	}
	if n == optional && !w.in.Has(key) {
		return
	}
	below.faults = w.in.Faults()
	below.in = w.in.Table(key)
	below.inherit()
	fields(&below)
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

// value is one value with its source and note, of whatever type: text writes it and
// read reads it from the key of a table, with a fault if it is missing. A value set
// without a source is listed so that New can refuse it.
func (w *walk) value(key string, n need, set bool, source, note *string, text func() string, read func(in *strict.Table, key string)) {
	if !w.reading() {
		if set || *source != "" {
			w.emit(key, text(), *source, *note)
		}
		return
	}
	if n == optional && !w.in.Has(key) {
		return
	}
	in, name, from, about := w.at(key)
	faults := in.Faults()
	read(in, name)
	if in.Faults() > faults {
		return
	}
	if from == "" {
		w.in.Fault(key, errNoSource)
	}
	*source, *note = from, about
}

var errNoSource = errors.New(`no source; name one in the table, as source = "measured", or beside the value`)

func (w *walk) emit(key, text, source, note string) {
	*w.list = append(*w.list, Entry{Key: w.prefix + key, Text: text, Source: source, Note: note})
}

func quantity[Q units.Quantity](w *walk, key string, n need, v *Value[Q], lo, hi Q) {
	w.value(key, n, v.Value != *new(Q), &v.Source, &v.Note,
		func() string { return quote(v.Value) },
		func(in *strict.Table, key string) { v.Value = strict.Quantity(in, key, strict.Between(lo, hi)) })
}

func quantityRange[Q units.Quantity](w *walk, key string, n need, r *Range[Q], lo, hi Q) {
	w.value(key, n, r.Lo != *new(Q) || r.Hi != *new(Q), &r.Source, &r.Note,
		func() string { return quoteList(r.Lo, r.Hi) },
		func(in *strict.Table, key string) { r.Lo, r.Hi = strict.Range(in, key, strict.Between(lo, hi)) })
}

func quantities[Q units.Quantity](w *walk, key string, n need, l *List[Q], lo, hi Q) {
	w.value(key, n, l.Values != nil, &l.Source, &l.Note,
		func() string { return quoteList(l.Values...) },
		func(in *strict.Table, key string) { l.Values = strict.Quantities(in, key, strict.Between(lo, hi)) })
}

func number(w *walk, key string, n need, v *Value[float64], lo, hi float64) {
	w.value(key, n, v.Value != 0, &v.Source, &v.Note,
		func() string { return strconv.FormatFloat(v.Value, 'f', -1, 64) },
		func(in *strict.Table, key string) { v.Value = in.Number(key, lo, hi) })
}

// text is a plain text; optional ones are left out when empty.
func (w *walk) text(key string, n need, s *string) {
	switch {
	case !w.reading():
		if *s != "" {
			w.emit(key, quote(*s), "", "")
		}
	case n == required:
		*s = w.in.Text(key)
	default:
		*s, _ = w.in.OptionalText(key)
	}
}

// word is one of the words.
func word[S ~string](w *walk, key string, s *S, words ...S) {
	if !w.reading() {
		w.emit(key, quote(*s), "", "")
		return
	}
	accepted := make([]string, len(words))
	for i, word := range words {
		accepted[i] = string(word)
	}
	*s = S(w.in.Word(key, accepted...))
}

func (w *walk) bool(key string, b *bool) {
	if w.reading() {
		*b = w.in.Bool(key)
	} else {
		w.emit(key, strconv.FormatBool(*b), "", "")
	}
}

// id is a reference to another record.
func (w *walk) id(key string, s *string, kind kind) {
	w.text(key, required, s)
	if w.reading() && *s != "" {
		w.refer(key, *s, kind)
	}
}

// refer reports a reference to a record that is nowhere.
func (w *walk) refer(key, id string, kind kind) {
	if !w.set.has(kind, id) && !w.known.has(kind, id) {
		ids := slices.AppendSeq(slices.Collect(w.set.ids(kind)), w.known.ids(kind))
		slices.Sort(ids)
		w.in.Fault(key, notFound(kind, id, slices.Compact(ids)))
	}
}

// has reports whether the file has the key, at fault or not.
func (w *walk) has(key string) bool { return w.reading() && w.in.Has(key) }

// given reports whether all values were read without a fault, so that they may be
// compared with each other.
func given(values ...interface{ Given() bool }) bool {
	return !slices.ContainsFunc(values, func(v interface{ Given() bool }) bool { return !v.Given() })
}

// want reports a relation between values that does not hold.
func (w *walk) want(ok bool, key, format string, args ...any) {
	if !ok && w.has(key) {
		w.in.Fault(key, fmt.Errorf("want "+format, args...))
	}
}

// beside reports one of two keys without the other.
func (w *walk) beside(a, b string) {
	w.want(w.has(b), a, "%s beside it", b)
	w.want(w.has(a), b, "%s beside it", a)
}

// within reports a value outside its own range.
func within[Q cmp.Ordered](w *walk, key string, v Value[Q], r Range[Q], rangeKey string) {
	w.want(!given(v, r) || v.Value >= r.Lo && v.Value <= r.Hi, key, "a value inside %s", rangeKey)
}

func abs[Q ~float64](q Q) Q { return max(q, -q) }

// quote is the text of a value as a TOML string.
func quote(v any) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range fmt.Sprint(v) {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case strconv.IsPrint(r):
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, `\U%08X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func quoteList[Q any](values ...Q) string {
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = quote(v)
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// list is the values of a record, which has that method.
func list(fields func(*walk)) []Entry {
	var l []Entry
	fields(&walk{list: &l})
	return l
}
