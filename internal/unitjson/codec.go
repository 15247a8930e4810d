package unitjson

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"
	"unicode"
)

// Codec knows the types that do not stand for themselves. Its zero value knows none. It
// is safe for concurrent use once it is filled.
type Codec struct {
	standIns map[reflect.Type]standIn
	variants map[reflect.Type][]variant
}

// standIn is a plain type for one whose fields are hidden.
type standIn struct {
	plain reflect.Type
	take  func(reflect.Value) reflect.Value
	make  func(reflect.Value) (reflect.Value, error)
}

// variant is a type that an interface may hold, a struct or a quantity.
type variant struct {
	kind string
	held reflect.Type
}

// StandIn lets a plain type stand for an opaque one.
func StandIn[Opaque, Plain any](c *Codec, take func(Opaque) Plain, make func(Plain) (Opaque, error)) {
	if c.standIns == nil {
		c.standIns = map[reflect.Type]standIn{}
	}
	c.standIns[reflect.TypeFor[Opaque]()] = standIn{
		plain: reflect.TypeFor[Plain](),
		take:  func(v reflect.Value) reflect.Value { return reflect.ValueOf(take(v.Interface().(Opaque))) },
		make: func(v reflect.Value) (reflect.Value, error) {
			o, err := make(v.Interface().(Plain))
			return reflect.ValueOf(o), err
		},
	}
}

// Variant lets an interface hold a struct or a quantity under the name of a kind.
func Variant[Interface, Held any](c *Codec, kind string) {
	if c.variants == nil {
		c.variants = map[reflect.Type][]variant{}
	}
	t := reflect.TypeFor[Interface]()
	c.variants[t] = append(c.variants[t], variant{kind, reflect.TypeFor[Held]()})
}

// field is one key of an object.
type field struct {
	index int
	key   string
	unit  unit
}

// fields are the keys of a struct.
func fields(t reflect.Type) []field {
	var list []field
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "-" || !f.IsExported() {
			continue
		}
		if name == "" {
			name = lower(f.Name)
		}
		u := unitOf(f.Type, f.Tag.Get("unit"))
		switch {
		case u.symbol == "bar_gauge" && strings.HasSuffix(name, "gauge"):
			name += "_bar"
		case u.symbol != "":
			name += "_" + u.symbol
		}
		list = append(list, field{i, name, u})
	}
	return list
}

// lower is a Go name in lower case with underscores.
func lower(name string) string {
	var b strings.Builder
	was := true // the rune before was upper case
	for _, r := range name {
		if unicode.IsUpper(r) && !was {
			b.WriteByte('_')
		}
		was = unicode.IsUpper(r)
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// leaf reports whether encoding/json writes a t as the library wants it: a text, a word of
// an enumeration, a whole number or a truth.
func leaf(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.String, reflect.Bool, reflect.Int:
		return true
	}
	return t.Kind() != reflect.Float64 && t.Implements(texts) // a quantity without a unit here is none
}

// texts is the type of what has a text form.
var texts = reflect.TypeFor[encoding.TextMarshaler]()

// Keys lists every key of T, as "candidates[].preload_mm". What a kind of an interface
// adds stands after it, as "springs[](coil).rate_N_per_mm".
func Keys[T any](c *Codec) []string { return c.keys(nil, "", reflect.TypeFor[T]()) }

func (c *Codec) keys(list []string, path string, t reflect.Type) []string {
	if s, ok := c.standIns[t]; ok {
		return c.keys(list, path, s.plain)
	}
	if t.Kind() == reflect.Pointer {
		return c.keys(list, path, t.Elem())
	}
	_, number := quantity(t)
	switch {
	case number || leaf(t):
		return append(list, path)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		return c.keys(list, path+"[]", t.Elem())
	case t.Kind() == reflect.Interface:
		list = append(list, path+".kind")
		for _, v := range c.variants[t] {
			kind := path + "(" + v.kind + ")"
			if u, ok := quantity(v.held); ok {
				list = append(list, fmt.Sprintf("%s.number in %q", kind, u.symbol))
			} else {
				list = c.keys(list, kind, v.held)
			}
		}
		return list
	case t.Kind() == reflect.Struct:
		for _, f := range fields(t) {
			list = c.keys(list, strings.TrimPrefix(path+"."+f.key, "."), t.Field(f.index).Type)
		}
		return list
	}
	return append(list, path)
}

// fault names the place in the document.
func fault(path, format string, args ...any) error {
	return fmt.Errorf("%s: %w", strings.TrimPrefix(path, "."), fmt.Errorf(format, args...))
}
