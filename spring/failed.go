package spring

import (
	"errors"

	"example.org/forkcurve/units"
)

// Failed is a curve that could not be made: it has no stroke, is NaN everywhere and
// carries the reason, which [Err] tells and every function that takes a curve returns.
// So a call that gives a curve can stand inside another one.
func Failed(err error) Curve { return failed{err: err} }

type failed struct {
	flat
	err error
}

// Err is why a curve could not be made; nil: it could.
func Err(c Curve) error {
	switch c := c.(type) {
	case nil:
		return &units.RangeError{Field: "curve", Value: "none", Want: "a curve"}
	case failed:
		return c.err
	}
	return nil
}

// nonNil leaves out nil curves and joins the reasons of those that could not be made.
func nonNil(curves []Curve) ([]Curve, error) {
	var list []Curve
	var errs []error
	for _, c := range curves {
		if c != nil {
			list, errs = append(list, c), append(errs, Err(c))
		}
	}
	return list, errors.Join(errs...)
}

// noCurves is the error of a combination of nothing.
func noCurves(want string) error {
	return &units.RangeError{Field: "curves", Value: "none", Want: want}
}
