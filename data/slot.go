package data

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/forkcurve/internal/strict"
	"example.org/forkcurve/units"
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
