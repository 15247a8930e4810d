package unitjson

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
)

// Marshal writes v. A number that is not finite and a type the codec does not know are
// errors that name the place.
func (c *Codec) Marshal(v any) ([]byte, error) {
	e := encoder{Codec: c}
	err := e.value("", reflect.ValueOf(v), unit{})
	return e.Bytes(), err
}

type encoder struct {
	*Codec
	bytes.Buffer
}

func (e *encoder) value(path string, v reflect.Value, u unit) error {
	t := v.Type()
	if (t.Kind() == reflect.Pointer || t.Kind() == reflect.Interface) && v.IsNil() {
		e.WriteString("null")
		return nil
	}
	if s, ok := e.standIns[t]; ok {
		return e.value(path, s.take(v), u)
	}
	if t.Kind() == reflect.Pointer {
		return e.value(path, v.Elem(), u)
	}
	if _, ok := quantity(t); ok {
		text, err := u.text(si(v))
		if err != nil {
			return fault(path, "%v: %w", v.Interface(), err)
		}
		e.WriteString(text)
		return nil
	}
	if leaf(t) {
		text, err := json.Marshal(v.Interface())
		if err != nil {
			return fault(path, "%w", err)
		}
		e.Write(text)
		return nil
	}
	switch t.Kind() {
	case reflect.Slice, reflect.Array:
		e.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				e.WriteByte(',')
			}
			if err := e.value(path+"["+strconv.Itoa(i)+"]", v.Index(i), u); err != nil {
				return err
			}
		}
		e.WriteByte(']')
		return nil
	case reflect.Interface:
		for _, option := range e.variants[t] {
			if option.held == v.Elem().Type() {
				return e.held(path, v.Elem(), option.kind)
			}
		}
	case reflect.Struct:
		e.WriteByte('{')
		return e.members(path, v, "")
	}
	return fault(path, "no JSON form for a %T", v.Interface())
}

// held is a quantity or a struct under the name of its kind.
func (e *encoder) held(path string, v reflect.Value, kind string) error {
	fmt.Fprintf(e, `{"kind":%q`, kind)
	u, ok := quantity(v.Type())
	if !ok {
		return e.members(path, v, ",")
	}
	e.WriteString(`,"number":`)
	err := e.value(path, v, u)
	fmt.Fprintf(e, `,"unit":%q}`, u.symbol)
	return err
}

// members are the keys of a struct and the end of its object.
func (e *encoder) members(path string, v reflect.Value, comma string) error {
	for _, f := range fields(v.Type()) {
		fmt.Fprintf(e, "%s%q:", comma, f.key)
		comma = ","
		if err := e.value(path+"."+f.key, v.Field(f.index), f.unit); err != nil {
			return err
		}
	}
	e.WriteByte('}')
	return nil
}
