package strict

import (
	"encoding/json"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/BurntSushi/toml"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Table is one table of a document.
type Table struct {
	doc    *Doc
	path   toml.Key
	values map[string]any
	order  []string // keys as they stand in the file
	tables map[string]*Table
	asked  []string // keys some reader knows, in the order asked

	records bool // each key is the id of a record, and known
	skipped bool // no more of it is read
	absent  bool // stands for a table that is missing: reads say nothing
}

// place enters a key of the document below t, in file order, with the tables
// above it. What stands inside a list has no place.
func (t *Table) place(key toml.Key) {
	for i, k := range key {
		child := t.tables[k]
		if child == nil {
			values, isTable := t.values[k].(map[string]any)
			if !isTable && i < len(key)-1 {
				return
			}
			t.order = append(t.order, k)
			if !isTable {
				return
			}
			child = &Table{doc: t.doc, path: key[: i+1 : i+1], values: values}
			if t.tables == nil {
				t.tables = make(map[string]*Table)
			}
			t.tables[k] = child
		}
		t = child
	}
}

// Skip says that no more of the table is read: what is left in it is no fault.
func (t *Table) Skip() { t.skipped = true }

// Limit keeps the first n keys of the table; to have more is one fault.
func (t *Table) Limit(n int) {
	if have := len(t.order); have > n {
		t.doc.faults = append(t.doc.faults, fault{path: t.path, err: fmt.Errorf("%d entries; want %d at most", have, n)})
		t.order = t.order[:n]
	}
}

// Keys are the keys of the table in file order.
func (t *Table) Keys() []string { return slices.Clone(t.order) }

// Has reports whether the key is there. It makes the key known.
func (t *Table) Has(key string) bool {
	t.ask(key)
	_, ok := t.values[key]
	return ok
}

// HasTable reports whether the key is there and holds a table.
func (t *Table) HasTable(key string) bool {
	t.ask(key)
	return t.tables[key] != nil
}

// Table is the table under the key. A missing one is a fault, said once: what is
// returned then is empty and its reads are silent.
func (t *Table) Table(key string) *Table {
	if !t.Has(key) {
		t.missing(key, "a table ["+t.at(key).String()+"]")
		return &Table{doc: t.doc, path: t.at(key), absent: true}
	}
	return t.table(key)
}

// OptionalTable is the table under the key, or nil if there is none.
func (t *Table) OptionalTable(key string) *Table {
	if !t.Has(key) {
		return nil
	}
	return t.table(key)
}

func (t *Table) table(key string) *Table {
	if child := t.tables[key]; child != nil {
		return child
	}
	t.mismatch(key, "a table")
	return &Table{doc: t.doc, path: t.at(key), absent: true}
}

// Tables are all entries of the table, in file order, each of which must be a
// table: the records of a file, by id. After more faults than are listed it ends.
func (t *Table) Tables() iter.Seq2[string, *Table] {
	t.records = true
	return func(yield func(string, *Table) bool) {
		for _, key := range t.order {
			if t.doc.full() {
				return
			}
			if child := t.table(key); !child.absent && !yield(key, child) {
				return
			}
		}
	}
}

// Text is the text under the key, fit for a sheet: not empty, in one line.
func (t *Table) Text(key string) string {
	s, ok := t.OptionalText(key)
	return required(t, key, s, ok, "a text in quotes")
}

// OptionalText is the text under the key, if there is one.
func (t *Table) OptionalText(key string) (string, bool) {
	s, ok := read[string](t, key, "a text in quotes")
	if !ok {
		return "", false
	}
	if err := check.Text(s); err != nil {
		t.Fault(key, err)
		return "", false
	}
	return s, true
}

// Word is one of the words, in full.
func (t *Table) Word(key string, words ...string) string {
	w, ok := t.OptionalWord(key, words...)
	return required(t, key, w, ok, either(words))
}

// OptionalWord is one of the words, if the key is there.
func (t *Table) OptionalWord(key string, words ...string) (string, bool) {
	w, ok := read[string](t, key, either(words))
	if !ok {
		return "", false
	}
	if !slices.Contains(words, w) {
		err := fmt.Errorf("want %s", either(words))
		if near := Nearest(w, words, 1); len(near) > 0 {
			err = fmt.Errorf("want %s; did you mean %s?", either(words), near[0])
		}
		t.Fault(key, err)
		return "", false
	}
	return w, true
}

// Words is a list of one or more of the words.
func (t *Table) Words(key string, words ...string) []string {
	want := "a list of " + either(words)
	if !t.Has(key) {
		t.missing(key, want)
		return nil
	}
	list, ok := read[[]any](t, key, want)
	if ok && len(list) == 0 {
		t.Fault(key, fmt.Errorf("want %s", want))
	}
	var out []string
	for _, v := range list {
		s, ok := v.(string)
		if !ok || !slices.Contains(words, s) {
			t.Fault(key, fmt.Errorf("want %s", want))
			return nil
		}
		out = append(out, s)
	}
	return out
}

// Number is a dimensionless number from lo to hi.
func (t *Table) Number(key string, lo, hi float64) float64 {
	x, ok := t.OptionalNumber(key, lo, hi)
	return required(t, key, x, ok, "a number")
}

// OptionalNumber is a dimensionless number from lo to hi, if the key is there.
func (t *Table) OptionalNumber(key string, lo, hi float64) (float64, bool) {
	var x float64
	switch v := t.values[key].(type) {
	case int64:
		t.ask(key)
		x = float64(v)
	default:
		f, ok := read[float64](t, key, "a number")
		if !ok {
			return 0, false
		}
		x = f
	}
	if !(x >= lo && x <= hi) {
		t.Fault(key, &units.RangeError{Value: x, Want: fmt.Sprintf("%.6g to %.6g", lo, hi)})
		return 0, false
	}
	return x, true
}

// Bool is true or false, and false where the key is missing.
func (t *Table) Bool(key string) bool {
	b, _ := read[bool](t, key, "true or false")
	return b
}

// Fault adds a fault of the reader's own about a key, which need not be there. Each of
// several errors joined is a fault.
func (t *Table) Fault(key string, err error) {
	if t.absent {
		return
	}
	t.ask(key)
	for _, err := range check.Split(err) {
		t.doc.faults = append(t.doc.faults, fault{path: t.at(key), text: show(t.values[key]), err: err})
	}
}

// FaultFields adds the faults of a Go value that was built from the table, each under the
// key its field is written as: Spec.Soft.FreeLength under free-length in the table soft, and
// under the given key where there is none of that name.
func (t *Table) FaultFields(key string, err error) {
	for _, err := range check.Split(err) {
		in, at := t, key
		if e, ok := err.(*units.RangeError); ok {
			_, path, _ := strings.Cut(e.Field, ".")
			in, at = t.find(path, key)
		}
		in.Fault(at, err)
	}
}

// find is the table and the key of a path of fields, or t and the other key.
func (t *Table) find(path, other string) (*Table, string) {
	keys := strings.Split(kebab(path), ".")
	in, last := t, len(keys)-1
	for _, key := range keys[:last] {
		if in = in.tables[key]; in == nil {
			return t, other
		}
	}
	if _, ok := in.values[keys[last]]; !ok {
		return t, other
	}
	return in, keys[last]
}

// kebab writes "Left.NegativeVolume" as "left.negative-volume".
func kebab(path string) string {
	var b strings.Builder
	for i, r := range path {
		if unicode.IsUpper(r) && i > 0 && path[i-1] != '.' {
			b.WriteByte('-')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// Faults is the number of faults found so far in the document. A reader that
// compares values with each other does so if their table added none.
func (t *Table) Faults() int { return len(t.doc.faults) }

func (t *Table) at(key string) toml.Key {
	return append(t.path[:len(t.path):len(t.path)], key)
}

func (t *Table) ask(key string) {
	// A table has few keys: looking through them beats a map.
	if !slices.Contains(t.asked, key) {
		t.asked = append(t.asked, key)
	}
}

// required is what was read under the key, with a fault if that is not there.
func required[T any](t *Table, key string, v T, ok bool, want string) T {
	if !ok && !t.Has(key) {
		t.missing(key, want)
	}
	return v
}

func (t *Table) missing(key, want string) {
	t.Fault(key, fmt.Errorf("missing; want %s", want))
}

func (t *Table) mismatch(key, want string) {
	t.Fault(key, fmt.Errorf("%s; want %s", kind(t.values[key]), want))
}

// read is the value of a key if it is there and of that type.
func read[T any](t *Table, key, want string) (T, bool) {
	var zero T
	if !t.Has(key) {
		return zero, false
	}
	v, ok := t.values[key].(T)
	if !ok {
		t.mismatch(key, want)
	}
	return v, ok
}

// kind says in words what a TOML value is.
func kind(v any) string {
	switch v.(type) {
	case string:
		return "a text"
	case int64, float64:
		return "a number"
	case bool:
		return "true or false"
	case time.Time:
		return "a date"
	case []any:
		return "a list"
	}
	return "a table"
}

// show is a value as it may be written in TOML, or "" if that is long.
func show(v any) string {
	switch v := v.(type) {
	case string:
		if len(v) <= 40 {
			return strconv.Quote(v)
		}
	case int64, float64, bool:
		return fmt.Sprint(v)
	case []any:
		if len(v) > 3 {
			return ""
		}
		parts := make([]string, len(v))
		for i := range v {
			if parts[i] = show(v[i]); parts[i] == "" {
				return ""
			}
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return ""
}

// either joins words as "a, b or c".
func either(words []string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " or " + words[n]
	}
	return strings.Join(words, "")
}

// Private are the keys that begin with x- and their values as TOML, in file order. They
// are the writer's own and no faults.
func (t *Table) Private() iter.Seq2[string, string] {
	return func(yield func(key, text string) bool) {
		for _, key := range t.order {
			if strings.HasPrefix(key, "x-") {
				t.ask(key)
				delete(t.tables, key) // nobody has to know what is in it
				if !yield(key, inline(t.values[key])) {
					return
				}
			}
		}
	}
}

// inline is a value as TOML in one line.
func inline(v any) string {
	switch v := v.(type) {
	case string:
		b, _ := json.Marshal(v) // JSON escapes are TOML escapes
		return string(b)
	case float64:
		text := strconv.FormatFloat(v, 'g', -1, 64)
		if !strings.ContainsAny(text, ".eni") {
			text += ".0"
		}
		return text
	case time.Time:
		return v.Format(time.RFC3339Nano)
	case []any:
		parts := make([]string, len(v))
		for i := range v {
			parts[i] = inline(v[i])
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case []map[string]any:
		parts := make([]string, len(v))
		for i := range v {
			parts[i] = inline(v[i])
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case map[string]any:
		parts := make([]string, 0, len(v))
		for _, key := range slices.Sorted(maps.Keys(v)) {
			parts = append(parts, inline(key)+" = "+inline(v[key]))
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	}
	return fmt.Sprint(v)
}
