package data

import (
	"cmp"
	"errors"
	"fmt"
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

// sub walks the table under the key. When reading an optional one that is missing
// it reports false.
func (w *walk) sub(key string, optional bool, fields func(*walk)) bool {
	below := *w
	if !w.reading() {
		below.prefix = w.prefix + key + "."
		fields(&below)
		return true
	}
	if optional && !w.in.Has(key) {
		return false
	}
	below.faults = w.in.Faults()
	below.in = w.in.Table(key)
	below.inherit()
	fields(&below)
	return true
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

// sourced completes what was read: no value without a source.
func (w *walk) sourced(key string, ok bool, source, note string, intoSource, intoNote *string) {
	if !ok {
		return
	}
	if source == "" {
		w.in.Fault(key, errors.New("no source; name one in the table, as source = \"measured\", or beside the value"))
	}
	*intoSource, *intoNote = source, note
}

func (w *walk) emit(key, text, source, note string) {
	*w.list = append(*w.list, Entry{Key: w.prefix + key, Text: text, Source: source, Note: note})
}

type need bool

const (
	required need = true
	optional need = false
)

func quantity[Q units.Quantity](w *walk, key string, n need, v *Value[Q], lo, hi Q) {
	if !w.reading() {
		if v.Given() {
			w.emit(key, quote(v.Value), v.Source, v.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	var ok bool
	if v.Value, ok = strict.OptionalQuantity(in, name, strict.Between(lo, hi)); !in.Has(name) && n == required {
		strict.Quantity[Q](in, name) // says what is missing
	}
	w.sourced(key, ok, source, note, &v.Source, &v.Note)
}

func quantityRange[Q units.Quantity](w *walk, key string, n need, r *Range[Q], lo, hi Q) {
	if !w.reading() {
		if r.Given() {
			w.emit(key, "["+quote(r.Lo)+", "+quote(r.Hi)+"]", r.Source, r.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	var ok bool
	if r.Lo, r.Hi, ok = strict.OptionalRange(in, name, strict.Between(lo, hi)); !in.Has(name) && n == required {
		strict.Range[Q](in, name)
	}
	w.sourced(key, ok, source, note, &r.Source, &r.Note)
}

func quantities[Q units.Quantity](w *walk, key string, l *List[Q], lo, hi Q) {
	if !w.reading() {
		if l.Given() {
			texts := make([]string, len(l.Values))
			for i, v := range l.Values {
				texts[i] = quote(v)
			}
			w.emit(key, "["+strings.Join(texts, ", ")+"]", l.Source, l.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	if !in.Has(name) {
		return
	}
	l.Values = strict.Quantities(in, name, strict.Between(lo, hi))
	w.sourced(key, true, source, note, &l.Source, &l.Note)
}

func share(w *walk, key string, n need, v *Value[Share], lo, hi Share) {
	if !w.reading() {
		if v.Given() {
			w.emit(key, quote(v.Value), v.Source, v.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	x, ok := in.OptionalPercent(name, float64(lo), float64(hi))
	if v.Value = Share(x); !in.Has(name) && n == required {
		in.Percent(name, 0, 0)
	}
	w.sourced(key, ok, source, note, &v.Source, &v.Note)
}

func shareRange(w *walk, key string, r *Range[Share], lo, hi Share) {
	if !w.reading() {
		if r.Given() {
			w.emit(key, "["+quote(r.Lo)+", "+quote(r.Hi)+"]", r.Source, r.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	from, to, ok := in.OptionalPercentRange(name, float64(lo), float64(hi))
	r.Lo, r.Hi = Share(from), Share(to)
	w.sourced(key, ok, source, note, &r.Source, &r.Note)
}

func number(w *walk, key string, n need, v *Value[float64], lo, hi float64) {
	if !w.reading() {
		if v.Given() {
			w.emit(key, strconv.FormatFloat(v.Value, 'f', -1, 64), v.Source, v.Note)
		}
		return
	}
	in, name, source, note := w.at(key)
	var ok bool
	if v.Value, ok = in.OptionalNumber(name, lo, hi); !in.Has(name) && n == required {
		in.Number(name, lo, hi)
	}
	w.sourced(key, ok, source, note, &v.Source, &v.Note)
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
		w.in.Fault(key, notFound(kind, id, append(w.set.ids(kind), w.known.ids(kind)...)))
	}
}

// want reports a relation between values that does not hold.
func (w *walk) want(ok bool, key, format string, args ...any) {
	if !ok && w.in.Has(key) {
		w.in.Fault(key, fmt.Errorf("want "+format, args...))
	}
}

// within reports a value outside its own range.
func within[Q cmp.Ordered](w *walk, key string, v Value[Q], r Range[Q], rangeKey string) {
	if v.Given() && r.Given() {
		w.want(v.Value >= r.Lo && v.Value <= r.Hi, key, "a value inside %s", rangeKey)
	}
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

// list is the values of a record, which has that method.
func list(fields func(*walk)) []Entry {
	var l []Entry
	fields(&walk{list: &l})
	return l
}
