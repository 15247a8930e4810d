// Package check collects the faults of a specification, so that a caller sees
// all of them at once and each as a *units.RangeError. Faults belong to one goroutine.
package check

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/units"
)

// Faults holds what is wrong with one specification, in the order found.
type Faults struct {
	spec string
	errs []error
}

// Of starts the list for the named specification, as "AirSpec".
func Of(spec string) *Faults { return &Faults{spec: spec} }

// Between reports v unless lo ≤ v ≤ hi. NaN and the infinities are never between.
func Between[Q ~float64](f *Faults, field string, v, lo, hi Q) bool {
	if v >= lo && v <= hi && !math.IsInf(float64(v), 0) {
		return true
	}
	f.outside(field, v, lo, hi)
	return false
}

func (f *Faults) outside(field string, value, lo, hi any) {
	f.Report(field, value, fmt.Sprintf("%.6g to %.6g", lo, hi), "")
}

// Report adds a fault of one field. The hint may be empty.
func (f *Faults) Report(field string, value any, want, hint string) {
	f.errs = append(f.errs, &units.RangeError{Field: f.spec + "." + field, Value: value, Want: want, Hint: hint})
}

// Nest takes over the faults of the specification in a field: the type name that
// leads their paths gives way to the path of the field. A nil err adds nothing.
func (f *Faults) Nest(field string, err error) {
	for _, err := range Split(err) {
		if e, ok := err.(*units.RangeError); ok {
			nested := *e
			_, rest, _ := strings.Cut(e.Field, ".")
			nested.Field = strings.TrimSuffix(f.spec+"."+field+"."+rest, ".")
			err = &nested
		}
		f.errs = append(f.errs, err)
	}
}

// Add takes over a fault whose path is already whole; nil adds nothing.
func (f *Faults) Add(err error) {
	if err != nil {
		f.errs = append(f.errs, err)
	}
}

// Count is the number of faults so far.
func (f *Faults) Count() int { return len(f.errs) }

// Err joins the faults, or is nil when there are none.
func (f *Faults) Err() error { return errors.Join(f.errs...) }

// At reports whether one of the faults in err is of that field.
func At(err error, field string) bool {
	for _, err := range Split(err) {
		if e, ok := err.(*units.RangeError); ok && e.Field == field {
			return true
		}
	}
	return false
}

// Split takes joined errors apart.
func Split(err error) []error { return units.Faults(err) }
