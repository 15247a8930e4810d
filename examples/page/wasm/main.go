//go:build js && wasm

// Command wasm is the library inside the page. It gives the page one object, forkcurve, whose functions take
// the address of a state and return plain objects of package explore, by the names of their fields; what went
// wrong is in the field Faults, a list of texts.
package main

import (
	"reflect"
	"strconv"
	"syscall/js"
	"unsafe"

	"example.org/forkcurve/examples/page/explore"
	"example.org/forkcurve/units"
)

func main() {
	functions := map[string]func(s explore.State, argument string) (any, error){
		"view":     func(s explore.State, _ string) (any, error) { return s.View() },
		"controls": func(s explore.State, _ string) (any, error) { return s.Controls(), nil },
		"texts":    func(s explore.State, _ string) (any, error) { return s.Texts(), nil },
		"sure":     func(s explore.State, _ string) (any, error) { return s.Sure() },
		"why":      func(s explore.State, _ string) (any, error) { return s.Why() },
		"ride":     func(s explore.State, course string) (any, error) { return s.Ride(course) },
		"courses":  func(explore.State, string) (any, error) { return explore.Courses, nil },
		"lessons":  func(explore.State, string) (any, error) { return explore.Lessons, nil },
		"answer":   func(s explore.State, given string) (any, error) { return answer(given) },
	}
	object := js.Global().Get("Object").New()
	for name, f := range functions {
		object.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			return call(f, text(args, 0), text(args, 1))
		}))
	}
	js.Global().Set("forkcurve", object)
	js.Global().Call("dispatchEvent", js.Global().Get("Event").New("forkcurve"))
	select {}
}

func text(args []js.Value, i int) string {
	if i < len(args) && args[i].Type() == js.TypeString {
		return args[i].String()
	}
	return ""
}

// call answers {Faults, Usable, Answer}: a fault of the address leaves the answer for the usual value.
func call(f func(explore.State, string) (any, error), address, argument string) any {
	s, fault := explore.Parse(address)
	out := js.Global().Get("Object").New()
	faults := units.Faults(fault)
	answer, err := f(s, argument)
	if err == nil {
		out.Set("Answer", value(reflect.ValueOf(answer)))
	}
	faults = append(faults, units.Faults(err)...)
	list := js.Global().Get("Array").New()
	for i, err := range faults {
		list.SetIndex(i, err.Error())
	}
	out.Set("Faults", list)
	return out
}

// answer takes "number of the lesson:what was answered".
func answer(given string) (any, error) {
	for i, lesson := range explore.Lessons {
		if n := strconv.Itoa(i) + ":"; len(given) >= len(n) && given[:len(n)] == n {
			return lesson.Answer(given[len(n):])
		}
	}
	return nil, &units.RangeError{Field: "lesson", Value: given, Want: "one of the nine"}
}

// value is a Go value as a plain object, array, typed array, text, number or truth.
func value(v reflect.Value) js.Value {
	switch v.Kind() {
	case reflect.Struct:
		out := js.Global().Get("Object").New()
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				out.Set(f.Name, value(v.Field(i)))
			}
		}
		return out
	case reflect.Slice, reflect.Array:
		if v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Float64 {
			return floats(v.Interface().([]float64))
		}
		out := js.Global().Get("Array").New()
		for i := range v.Len() {
			out.SetIndex(i, value(v.Index(i)))
		}
		return out
	case reflect.String:
		return js.ValueOf(v.String())
	case reflect.Float64:
		return js.ValueOf(v.Float())
	case reflect.Int:
		return js.ValueOf(v.Int())
	case reflect.Bool:
		return js.ValueOf(v.Bool())
	}
	return js.Null()
}

// floats copies numbers into a typed array, in one piece.
func floats(list []float64) js.Value {
	out := js.Global().Get("Float64Array").New(len(list))
	if len(list) > 0 {
		raw := unsafe.Slice((*byte)(unsafe.Pointer(&list[0])), 8*len(list)) // wasm is little-endian, as typed arrays here are
		js.CopyBytesToJS(js.Global().Get("Uint8Array").New(out.Get("buffer")), raw)
	}
	return out
}
