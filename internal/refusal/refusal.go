// Package refusal holds specifications to their limits in tests: every number of a
// valid one, wherever it stands, is replaced by what no field can take, and the error
// must name the field, and nothing that only follows from it. So no check can be left out unnoticed. Safe for
// concurrent use.
package refusal

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/units"
)

// Fields replaces the numbers of what valid makes, one at a time, and wants validate
// to name the field, or the part that it stands in. Except are paths as they are printed, such as "Legs[0].Room.Guide",
// that take any number or are not looked at; a path that ends in "*" stands for all
// that begin so.
func Fields[T any](t *testing.T, valid func() T, validate func(T) error, except ...string) {
	t.Helper()
	if err := validate(valid()); err != nil {
		t.Fatalf("the valid one is refused: %v", err)
	}
	var paths []string
	absent := map[string]bool{} // of a part that is left out, and would ask for the rest of it
	model := valid()
	walk(reflect.ValueOf(&model).Elem(), "", func(path string, v reflect.Value) {
		paths, absent[path] = append(paths, path), v.IsZero()
	})
	if len(paths) == 0 {
		t.Fatal("no numbers")
	}
	for _, path := range paths {
		if excepted(path, except) {
			continue
		}
		for _, bad := range []float64{math.NaN(), math.Inf(1), 1e18, -1e18} {
			spec := valid()
			walk(reflect.ValueOf(&spec).Elem(), "", func(at string, v reflect.Value) {
				if at == path {
					set(v, bad)
				}
			})
			err := validate(spec)
			if !names(err, reflect.TypeFor[T]().Name()+"."+path, absent[path]) {
				t.Errorf("%s = %g: %v", path, bad, err)
			} else if all := units.Faults(err); len(all) > 1 && !absent[path] {
				t.Errorf("%s = %g: %d faults where one is wrong: %v", path, bad, len(all), err)
			}
		}
	}
}

// names reports whether a fault in err is of the field at that path, or of the pair it is one of; of a part that
// was left out it may be that part.
func names(err error, path string, absent bool) bool {
	pair := path
	if strings.HasSuffix(path, "]") {
		pair = path[:strings.LastIndex(path, "[")]
	}
	part := path[:strings.LastIndex(path, ".")]
	return slices.ContainsFunc(units.Faults(err), func(err error) bool {
		e, ok := err.(*units.RangeError)
		return ok && (e.Field == path || e.Field == pair || absent &&
			(e.Field == part || strings.HasPrefix(e.Field, part+".")))
	})
}

func excepted(path string, except []string) bool {
	for _, e := range except {
		if start, all := strings.CutSuffix(e, "*"); path == e || all && strings.HasPrefix(path, start) {
			return true
		}
	}
	return false
}

var points = map[reflect.Type]func(float64) any{
	reflect.TypeFor[units.GaugePressure]():    func(x float64) any { return units.Gauge(units.Pressure(x)) },
	reflect.TypeFor[units.AbsolutePressure](): func(x float64) any { return units.Absolute(units.Pressure(x)) },
	reflect.TypeFor[units.Temperature]():      func(x float64) any { return units.Kelvin(x) },
}

func set(v reflect.Value, x float64) {
	if point, ok := points[v.Type()]; ok {
		v.Set(reflect.ValueOf(point(x)))
		return
	}
	v.SetFloat(x)
}

// walk visits every number of exported fields, behind pointers and in slices of the
// valid value too. What a pointer or slice holds is made new, so that nothing is shared.
func walk(v reflect.Value, path string, visit func(string, reflect.Value)) {
	if _, ok := points[v.Type()]; ok || v.Kind() == reflect.Float64 {
		visit(strings.TrimPrefix(path, "."), v)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				walk(v.Field(i), path+"."+f.Name, visit)
			}
		}
	case reflect.Pointer:
		if v.IsNil() || v.Elem().Kind() != reflect.Struct {
			return
		}
		fresh := reflect.New(v.Type().Elem())
		fresh.Elem().Set(v.Elem())
		v.Set(fresh)
		walk(v.Elem(), path, visit)
	case reflect.Slice:
		fresh := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(fresh, v)
		v.Set(fresh)
		for i := range v.Len() {
			walk(v.Index(i), path+"["+string(rune('0'+i%10))+"]", visit)
		}
	case reflect.Array:
		for i := range v.Len() {
			walk(v.Index(i), path+"["+string(rune('0'+i%10))+"]", visit)
		}
	}
}
