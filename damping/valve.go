package damping

import (
	"math"

	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/units"
)

// Valve is a hydraulic resistance between two rooms. A positive pressure difference drives a positive flow.
// Implementations are immutable, safe for concurrent use and allocate nothing. For every valid [Oil] and every
// finite pressure and flow
//
//	Flow(p) never falls with p and Flow(0) = 0
//	Drop(q) is the pressure difference at which Flow is q; Drop(0) = 0
//
// and where the valve can not pass q, as a check valve the wrong way, Drop is infinite with the sign of q.
type Valve interface {
	Flow(p units.Pressure, o Oil) units.Flow
	Drop(q units.Flow, o Oil) units.Pressure
}

// precision is the part of its upper bound below which a pressure or flow of a
// network counts as 0. Above, it is solved to the last bits: valves of one network
// may differ by ten powers of ten, so that a part of the bound would not do.
const precision = 1e-25

// increasing solves f = 0 for a rising function with f(lo) ≤ 0 ≤ f(hi). Where
// rounding breaks that at an end, that end is the answer.
func increasing(f func(float64) float64, lo, hi float64) float64 {
	x, ok := solve.Root(f, lo, hi, precision*hi)
	switch {
	case ok:
		return x
	case f(lo) > 0:
		return lo
	}
	return hi
}

// doublings bounds the search for a pressure that drives a flow: from 1 Pa it reaches 10¹⁸ Pa.
const doublings = 60

// invert finds the pressure above lo at which a rising flow is q > 0.
func invert(flow func(p float64) float64, q, lo float64) float64 {
	step := max(lo, 1)
	for range doublings {
		if hi := lo + step; flow(hi) >= q {
			return increasing(func(p float64) float64 { return flow(p) - q }, lo, hi)
		}
		step *= 2
	}
	return math.Inf(1)
}

// blocked is the drop of a closed valve.
func blocked(q units.Flow) units.Pressure {
	if q == 0 {
		return 0
	}
	return units.Pressure(math.Copysign(math.Inf(1), float64(q)))
}
