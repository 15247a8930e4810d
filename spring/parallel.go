package spring

import (
	"errors"
	"math"

	"example.org/forkcurve/internal/chamber"
)

// Parallel is the sum of curves that share their travel, as the springs and gas
// spaces of both legs do through the axle. Its stroke is the shortest of
// theirs. Nil curves are left out; with nothing left it has failed, see [Err].
//
// The springs of this package are taken apart and evaluated together, several
// times faster than one by one.
func Parallel(curves ...Curve) Curve {
	if len(curves) == 1 && Err(curves[0]) == nil {
		if s := sumOf(curves[0]); s != nil {
			return s // which cannot change
		}
	}
	sum, count, errs := chamber.NewSum(math.Inf(1)), 0, []error(nil)
	for _, c := range curves {
		if c == nil {
			continue
		}
		count++
		if err := Err(c); err != nil {
			errs = append(errs, err)
		}
		addCurve(sum, c, 1)
	}
	switch {
	case errs != nil:
		return Failed(errors.Join(errs...))
	case count == 0:
		return Failed(noCurves("one curve at least"))
	}
	return sum
}
