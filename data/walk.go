package data

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
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

// A slot is one value with its source and note, of whatever type.
type slot struct {
	set          bool // whether there is anything but the zero value
	source, note *string
	show         func(e *Entry)                                  // its text and spread
	read         func(in *strict.Table, key string, inline bool) // with a fault if it is missing
	judge        func()                                          // its spread where the record has none; may be nil
	schema       func() any                                      // the JSON Schema of its text
}

// value walks one value. One set without a source is listed so that New can refuse it. One
// taken over from a base or a class is kept where the key is missing.
func (w *walk) value(key string, n need, v slot) {
	if w.schema != nil {
		w.schema.value(key, v.schema())
		return
	}
	if !w.reading() {
		if v.set || *v.source != "" {
			e := Entry{Key: w.prefix + key, Source: *v.source, Note: *v.note}
			v.show(&e)
			*w.list = append(*w.list, e)
		}
		return
	}
	if w.in.Has(key) || n == required && !w.partial && *v.source == "" {
		in, name, from, about := w.at(key)
		faults := in.Faults()
		v.read(in, name, in != w.in)
		if in.Faults() > faults {
			return
		}
		if from == "" {
			w.in.Fault(key, errNoSource)
		}
		*v.source, *v.note = from, about
	}
	if w.judged && v.judge != nil && *v.source != "" {
		v.judge()
	}
}

var errNoSource = errors.New(`no source; name one in the table, as source = "measured", or beside the value`)

func (w *walk) emit(key, text, source, note string) {
	*w.list = append(*w.list, Entry{Key: w.prefix + key, Text: text, Source: source, Note: note})
}

// one walks a value of any type that has a text: get reads it, with a fault if it is not
// in its range, and parse a text without one.
func one[Q any](w *walk, key string, n need, v *Value[Q], schema func() any, text func(Q) string,
	get func(in *strict.Table, key string) Q, spread func(in *strict.Table, key string) (Q, bool),
	parse func(string) (Q, error)) {
	w.value(key, n, slot{
		set: si(v.Value) != 0, source: &v.Source, note: &v.Note, schema: schema,
		show: func(e *Entry) {
			e.Text = text(v.Value)
			v.Spread.show(e, text)
		},
		read: func(in *strict.Table, key string, inline bool) {
			v.Value, v.Spread = get(in, key), Spread[Q]{}
			if inline {
				v.Spread.read(in, v.Value, func(key string) (Q, bool) { return spread(in, key) })
			}
		},
		judge: func() {
			if si(v.Spread.SD) == 0 || v.Spread.Source != "" { // that of a base was by its own judgments
				v.Spread.SD, v.Spread.Source = judge(w, key, v.Value, parse)
			}
		},
	})
}

func quantity[Q units.Quantity](w *walk, key string, n need, v *Value[Q], lo, hi Q) {
	one(w, key, n, v, func() any { return quantitySchema(lo, hi) }, func(q Q) string { return quote(q) },
		func(in *strict.Table, key string) Q { return strict.Quantity(in, key, strict.Between(lo, hi)) },
		func(in *strict.Table, key string) (Q, bool) { return strict.OptionalQuantity[Q](in, key) }, units.Parse[Q])
}

func number(w *walk, key string, n need, v *Value[float64], lo, hi float64) {
	one(w, key, n, v, func() any { return numberSchema(lo, hi) }, decimal,
		func(in *strict.Table, key string) float64 { return in.Number(key, lo, hi) },
		func(in *strict.Table, key string) (float64, bool) { return in.OptionalNumber(key, -1e9, 1e9) },
		func(text string) (float64, error) { return strconv.ParseFloat(text, 64) })
}

// whole is a number to count with, from 1 on.
func whole(in *strict.Table, key string) int {
	n := in.Number(key, 1, 1e6)
	if n != math.Trunc(n) {
		in.Fault(key, errors.New("want a whole number"))
	}
	return int(n)
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// quantityRange walks a range that means the same in every record.
func quantityRange[Q units.Quantity](w *walk, key string, n need, r *Range[Q], means Means, lo, hi Q) {
	w.value(key, n, slot{
		set: r.Lo != *new(Q) || r.Hi != *new(Q), source: &r.Source, note: &r.Note,
		schema: func() any { return listSchema(quantitySchema(lo, hi), 2, 2) },
		show:   func(e *Entry) { e.Text, e.Means = quoteList(r.Lo, r.Hi), means },
		read: func(in *strict.Table, key string, _ bool) {
			r.Lo, r.Hi = strict.Range(in, key, strict.Between(lo, hi))
		},
	})
}

func quantities[Q units.Quantity](w *walk, key string, n need, l *List[Q], lo, hi Q) {
	w.value(key, n, slot{
		set: l.Values != nil, source: &l.Source, note: &l.Note,
		schema: func() any { return listSchema(quantitySchema(lo, hi), 1, 1000) },
		show:   func(e *Entry) { e.Text = quoteList(l.Values...) },
		read: func(in *strict.Table, key string, _ bool) {
			l.Values = strict.Quantities(in, key, strict.Between(lo, hi))
		},
	})
}

// coded walks a text that has a source as a quantity has.
func coded[T ~string](w *walk, key string, n need, v *Value[T], fault func(T) error) {
	w.value(key, n, slot{
		set: v.Value != "", source: &v.Source, note: &v.Note, schema: func() any { return textSchema() },
		show: func(e *Entry) { e.Text = quote(v.Value) },
		read: func(in *strict.Table, key string, _ bool) {
			if v.Value = T(in.Text(key)); v.Value == "" {
				return
			}
			if err := fault(v.Value); err != nil {
				in.Fault(key, err)
			}
		},
	})
}

// same walks a value that is left out where it is another of the record, and listed where
// it is not.
func same[V comparable](w *walk, key string, v *V, other V, otherKey string, walkIt func(need)) {
	var zero V
	switch {
	case w.schema != nil:
		walkIt(optional)
		w.schema.fallback(key, otherKey)
	case !w.reading():
		if *v != other {
			walkIt(optional)
		}
	case w.in.Has(key) || other == zero || w.based && *v != zero:
		walkIt(required)
	default:
		*v = other
	}
}

// text is a plain text; optional ones are left out when empty.
func (w *walk) text(key string, n need, s *string) {
	switch {
	case w.schema != nil:
		w.schema.add(key, textSchema())
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
	accepted := make([]string, len(words))
	for i, word := range words {
		accepted[i] = string(word)
	}
	switch {
	case w.schema != nil:
		w.schema.add(key, wordSchema(accepted))
	case !w.reading():
		if *s != "" {
			w.emit(key, quote(*s), "", "")
		}
	case (w.partial || w.based) && !w.in.Has(key):
	default:
		*s = S(w.in.Word(key, accepted...))
	}
}

func (w *walk) bool(key string, b *bool) {
	switch {
	case w.schema != nil:
		w.schema.add(key, map[string]any{"type": "boolean"})
	case !w.reading():
		w.emit(key, strconv.FormatBool(*b), "", "")
	case !w.based || w.in.Has(key):
		*b = w.in.Bool(key)
	}
}

// id is a reference to another record.
func (w *walk) id(key string, n need, s *string, kind kind) {
	if w.reading() && !w.in.Has(key) && (w.partial || w.based) {
		return
	}
	w.text(key, n, s)
	if w.reading() && *s != "" {
		w.refer(key, *s, kind)
	}
}

// exists reports whether there is a record that another may refer to.
func (w *walk) exists(k kind, id string) bool {
	has, _ := w.set.table(k)
	known, _ := w.known.table(k)
	return has(id) || known(id)
}

// refer reports a reference to a record that is nowhere.
func (w *walk) refer(key, id string, k kind) {
	if !w.exists(k, id) {
		_, ids := w.set.table(k)
		_, others := w.known.table(k)
		all := slices.AppendSeq(slices.Collect(ids), others)
		slices.Sort(all)
		w.in.Fault(key, notFound(k, id, slices.Compact(all)))
	}
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

// bothOrNeither reports one of two keys without the other.
func (w *walk) bothOrNeither(a, b string) {
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
