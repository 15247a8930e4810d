package strict

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"unicode"

	"example.org/forkcurve/units"
)

// A Check says what is wrong with a value, if anything. An error that is a
// *units.RangeError needs no Field.
type Check[Q any] func(Q) error

// Between accepts lo to hi.
func Between[Q units.Quantity](lo, hi Q) Check[Q] {
	return func(v Q) error {
		x, l, h := scalar(v), scalar(lo), scalar(hi)
		if x >= l && x <= h {
			return nil
		}
		e := &units.RangeError{Value: v, Want: fmt.Sprintf("%.6g to %.6g", lo, hi)}
		if x > 20*h || (x > 0 && x < l/20) {
			e.Hint = "is the unit right?"
		}
		return e
	}
}

// Quantity is the quantity under the key, a text with a unit.
func Quantity[Q units.Quantity](t *Table, key string, checks ...Check[Q]) Q {
	q, ok := OptionalQuantity(t, key, checks...)
	if !ok && !t.Has(key) {
		t.missing(key, wanted[Q](`"`, `"`))
	}
	return q
}

// OptionalQuantity is the quantity under the key, if there is one.
func OptionalQuantity[Q units.Quantity](t *Table, key string, checks ...Check[Q]) (q Q, ok bool) {
	if !t.Has(key) {
		return q, false
	}
	q, err := quantity(t.values[key], checks)
	if err != nil {
		t.Fault(key, err)
		return q, false
	}
	wrote[Q](t.doc, t.values[key])
	return q, true
}

// Toleranced is the quantity under the key, which may say how far it may be off, as
// "82 kg ± 2 kg"; off is 0 where it does not.
func Toleranced[Q units.Quantity](t *Table, key string, checks ...Check[Q]) (q, off Q) {
	q, off, ok := OptionalToleranced(t, key, checks...)
	if !ok && !t.Has(key) {
		t.missing(key, wanted[Q](`"`, `"`))
	}
	return q, off
}

// OptionalToleranced is the same, if there is one.
func OptionalToleranced[Q units.Quantity](t *Table, key string, checks ...Check[Q]) (q, off Q, ok bool) {
	return toleranced(t, key, checks, func(off Q, q Q) error {
		if !(scalar(off) >= 0 && scalar(off) <= math.Abs(scalar(q))/2) {
			return errors.New("want a tolerance of 0 to half the value after the ±")
		}
		return nil
	})
}

// TolerancedTemperature is the temperature under the key, which may say how far it may be off, as "4 °C ± 3 K", up
// to 40 K; off is 0 where it does not.
func TolerancedTemperature(t *Table, key string, checks ...Check[units.Temperature]) (q units.Temperature,
	off units.TemperatureDifference) {
	const most = 40 * units.KelvinDifference
	q, off, ok := toleranced(t, key, checks, func(off units.TemperatureDifference, _ units.Temperature) error {
		if !(off >= 0 && off <= most) {
			return fmt.Errorf("want a tolerance of 0 K to %v after the ±", most)
		}
		return nil
	})
	if !ok && !t.Has(key) {
		t.missing(key, wanted[units.Temperature](`"`, `"`))
	}
	return q, off
}

// toleranced is a quantity and what may stand after a ±, which has to fit.
func toleranced[Q, D units.Quantity](t *Table, key string, checks []Check[Q],
	fit func(D, Q) error) (q Q, off D, ok bool) {
	if !t.Has(key) {
		return q, off, false
	}
	text, isText := t.values[key].(string)
	value, bound, both := strings.Cut(text, "±")
	if !isText || !both {
		q, ok = OptionalQuantity(t, key, checks...)
		return q, off, ok
	}
	q, err := quantity(any(strings.TrimSpace(value)), checks)
	if err == nil {
		off, err = quantity[D](any(strings.TrimSpace(bound)), nil)
	}
	if err == nil {
		err = fit(off, q)
	}
	if err != nil {
		t.Fault(key, err)
		return q, off, false
	}
	wrote[Q](t.doc, strings.TrimSpace(value))
	return q, off, true
}

// Range is two quantities under the key, the lower one first, as ["3 mm", "5 mm"].
func Range[Q units.Quantity](t *Table, key string, checks ...Check[Q]) (lo, hi Q) {
	lo, hi, ok := OptionalRange(t, key, checks...)
	if !ok && !t.Has(key) {
		t.missing(key, wanted[Q](`["`, `", "…"]`))
	}
	return lo, hi
}

// OptionalRange is the range under the key, if there is one.
func OptionalRange[Q units.Quantity](t *Table, key string, checks ...Check[Q]) (lo, hi Q, ok bool) {
	list, ok := quantities(t, key, checks)
	switch {
	case !ok:
		return lo, hi, false
	case len(list) != 2:
		t.Fault(key, errCount(len(list)))
		return lo, hi, false
	case scalar(list[0]) > scalar(list[1]):
		t.Fault(key, errOrder)
		return lo, hi, false
	}
	return list[0], list[1], true
}

var errOrder = errors.New("the first value is above the second; want the lower one first")

func errCount(n int) error {
	return fmt.Errorf("a list of %d; want two values, the lower one first", n)
}

// Quantities is a list of quantities of any length above 0.
func Quantities[Q units.Quantity](t *Table, key string, checks ...Check[Q]) []Q {
	list, ok := quantities(t, key, checks)
	switch {
	case !ok && !t.Has(key):
		t.missing(key, wanted[Q](`["`, `", …]`))
	case ok && len(list) == 0:
		t.Fault(key, errors.New("an empty list"))
	}
	return list
}

func quantities[Q units.Quantity](t *Table, key string, checks []Check[Q]) ([]Q, bool) {
	if !t.Has(key) {
		return nil, false
	}
	list, ok := t.values[key].([]any)
	if !ok {
		t.mismatch(key, wanted[Q](`["`, `", "…"]`))
		return nil, false
	}
	out := make([]Q, 0, len(list))
	for _, v := range list {
		q, err := quantity(v, checks)
		if err != nil {
			t.Fault(key, err)
			return nil, false
		}
		wrote[Q](t.doc, v)
		out = append(out, q)
	}
	return out, true
}

func quantity[Q units.Quantity](v any, checks []Check[Q]) (q Q, err error) {
	switch v := v.(type) {
	case string:
		q, err = units.Parse[Q](v)
	case int64, float64:
		if !finite(v) {
			return q, fmt.Errorf("not a finite number; want %s", wanted[Q](`"`, `"`))
		}
		_, unit := describe[Q]()
		err = fmt.Errorf("a bare number; write it with its unit, as \"%v %s\"", v, unit)
	default:
		err = fmt.Errorf("%s; want %s", kind(v), wanted[Q](`"`, `"`))
	}
	for _, check := range checks {
		if err == nil {
			err = check(q)
		}
	}
	if err != nil {
		var zero Q
		return zero, err
	}
	return q, nil
}

// finite reports whether a number of the file is one: TOML has nan and inf.
func finite(v any) bool {
	x, ok := v.(float64)
	return !ok || !math.IsNaN(x) && !math.IsInf(x, 0)
}

// wanted describes the text of a quantity, its example between open and close.
func wanted[Q units.Quantity](open, close string) string {
	name, unit := describe[Q]()
	return fmt.Sprintf("%s with unit, as %s12 %s%s", name, open, unit, close)
}

// describe is the name of the quantity in words and a unit it is given in.
func describe[Q units.Quantity]() (name, unit string) {
	_, err := units.Parse[Q]("")
	e := err.(*units.ParseError)
	for i, c := range e.Quantity {
		if unicode.IsUpper(c) && i > 0 {
			name += " "
		}
		name += string(unicode.ToLower(c))
	}
	return name, e.Accepted[0]
}

// scalar puts a quantity on a line for comparison.
func scalar[Q units.Quantity](q Q) float64 {
	switch q := any(q).(type) {
	case units.Temperature:
		return q.Kelvin()
	case units.GaugePressure:
		return q.In(units.Pascal)
	case units.AbsolutePressure:
		return q.In(units.Pascal)
	}
	return reflect.ValueOf(q).Float()
}
