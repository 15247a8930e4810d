package unitjson

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"
)

// Unmarshal reads into v, a pointer, what Marshal wrote. It reports every fault with its
// place: a key that is missing or not known, a value of the wrong kind, and what
// the constructor of an opaque type refuses.
func (c *Codec) Unmarshal(data []byte, v any) error {
	in := json.NewDecoder(bytes.NewReader(data))
	in.UseNumber()
	var tree any
	if err := in.Decode(&tree); err != nil {
		return err
	}
	if _, err := in.Token(); err != io.EOF {
		return errors.New("more text after the end of the document")
	}
	d := decoder{Codec: c}
	d.value("", tree, reflect.ValueOf(v).Elem(), unit{})
	return errors.Join(d.faults...)
}

var errAbsent = errors.New("null")

type decoder struct {
	*Codec
	faults []error
}

func (d *decoder) fault(path, format string, args ...any) {
	d.faults = append(d.faults, fault(path, format, args...))
}

func (d *decoder) value(path string, in any, v reflect.Value, u unit) {
	t := v.Type()
	if (t.Kind() == reflect.Pointer || t.Kind() == reflect.Interface) && in == nil {
		v.SetZero()
		return
	}
	if s, ok := d.standIns[t]; ok {
		d.opaque(path, in, v, s)
		return
	}
	if t.Kind() == reflect.Pointer {
		v.Set(reflect.New(t.Elem()))
		d.value(path, in, v.Elem(), u)
		return
	}
	if _, ok := quantity(t); ok {
		n, _ := in.(json.Number)
		x, err := u.parse(n.String())
		if err != nil {
			d.fault(path, "%w", err)
			return
		}
		setSI(v, x)
		return
	}
	if leaf(t) {
		text, _ := json.Marshal(in) // it was decoded from JSON
		if err := json.Unmarshal(text, v.Addr().Interface()); err != nil || in == nil {
			d.fault(path, "want %s: %w", t.Name(), cmp.Or(err, errAbsent))
		}
		return
	}
	switch t.Kind() {
	case reflect.Slice, reflect.Array:
		d.list(path, in, v, u)
	case reflect.Interface:
		d.held(path, in, v)
	case reflect.Struct:
		d.members(path, in, v, "")
	default:
		d.fault(path, "no JSON form for a %v", t)
	}
}

func (d *decoder) opaque(path string, in any, v reflect.Value, s standIn) {
	plain, before := reflect.New(s.plain).Elem(), len(d.faults)
	if d.value(path, in, plain, unit{}); len(d.faults) > before {
		return
	}
	made, err := s.make(plain)
	if err != nil {
		d.fault(path, "%w", err)
		return
	}
	v.Set(made)
}

func (d *decoder) list(path string, in any, v reflect.Value, u unit) {
	list, ok := in.([]any)
	switch {
	case !ok:
		d.fault(path, "want a list")
		return
	case v.Kind() == reflect.Array && len(list) != v.Len():
		d.fault(path, "want %d values", v.Len())
		return
	case v.Kind() == reflect.Slice && len(list) > 0:
		v.Set(reflect.MakeSlice(v.Type(), len(list), len(list)))
	}
	for i, item := range list {
		d.value(path+"["+strconv.Itoa(i)+"]", item, v.Index(i), u)
	}
}

func (d *decoder) held(path string, in any, v reflect.Value) {
	object, _ := in.(map[string]any)
	var kinds []string
	for _, option := range d.variants[v.Type()] {
		if kinds = append(kinds, option.kind); option.kind != object["kind"] {
			continue
		}
		held := reflect.New(option.held).Elem()
		if u, ok := quantity(option.held); !ok {
			d.members(path, in, held, "kind")
		} else if object["unit"] != u.symbol {
			d.fault(path+".unit", "want %q", u.symbol)
		} else {
			d.value(path+".number", object["number"], held, u)
		}
		v.Set(held)
		return
	}
	d.fault(path, "want an object of kind %q", kinds)
}

// members are the keys of a struct; besides, the object may have one more.
func (d *decoder) members(path string, in any, v reflect.Value, besides string) {
	object, ok := in.(map[string]any)
	if !ok {
		d.fault(path, "want an object")
		return
	}
	known := map[string]bool{besides: true}
	for _, f := range fields(v.Type()) {
		known[f.key] = true
		if item, ok := object[f.key]; ok {
			d.value(path+"."+f.key, item, v.Field(f.index), f.unit)
		} else {
			d.fault(path+"."+f.key, "missing")
		}
	}
	for _, key := range slices.Sorted(maps.Keys(object)) {
		if !known[key] {
			d.fault(path+"."+key, "not a key of this document")
		}
	}
}
