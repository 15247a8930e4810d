package spring

import (
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
	curves, err := usable(curves)
	switch {
	case err != nil:
		return Failed(err)
	case len(curves) == 0:
		return Failed(noCurves("one curve at least"))
	}
	sum := chamber.NewSum(math.Inf(1))
	for _, c := range curves {
		add(sum, c, 1)
	}
	return sum
}
