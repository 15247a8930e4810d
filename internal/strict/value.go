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

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

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

// required is what was read under the key, with a fault if that is not there.
func required[T any](t *Table, key string, v T, ok bool, want string) T {
	if !ok && !t.Has(key) {
		t.missing(key, want)
	}
	return v
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
