// Package enum gives the values of an enumeration their text, both ways. Names are only
// read, so that many goroutines may share them.
package enum

import (
	"fmt"
	"reflect"
	"strings"

	"example.org/forkcurve/units"
)

// Names are the texts of the values of E, by value. A value whose text is empty is none.
type Names[E ~int | ~uint8] []string

// Has reports whether e is a value of the enumeration.
func (n Names[E]) Has(e E) bool { return e >= 0 && int(e) < len(n) && n[e] != "" }

// String is the text of e, or for what is no value its type and number.
func (n Names[E]) String(e E) string {
	if n.Has(e) {
		return n[e]
	}
	return fmt.Sprintf("%s(%d)", reflect.TypeFor[E]().Name(), int(e))
}

// Marshal is String, and a *units.RangeError for what is no value.
func (n Names[E]) Marshal(e E) ([]byte, error) {
	if n.Has(e) {
		return []byte(n[e]), nil
	}
	return nil, n.fault(int(e))
}

// Unmarshal takes what Marshal writes, else it is a *units.RangeError and e stays as it was.
func (n Names[E]) Unmarshal(text []byte, e *E) error {
	for i, name := range n {
		if name != "" && name == string(text) {
			*e = E(i)
			return nil
		}
	}
	return n.fault(string(text))
}

func (n Names[E]) fault(value any) error {
	return &units.RangeError{Field: reflect.TypeFor[E]().Name(), Value: value, Want: n.Want()}
}

// Want lists the texts for an error message, as "left or right".
func (n Names[E]) Want() string {
	var list []string
	for _, name := range n {
		if name != "" {
			list = append(list, name)
		}
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}
