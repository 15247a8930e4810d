package propagate

import (
	"math"
	"slices"
)

// histogram counts samples in bins about their middle: even ones within near deviations of it,
// and from there to 2¹⁶ times as far such as grow with the distance.
type histogram struct {
	center, scale float64 // scale: bins in a unit
	counts        []uint32
}

const (
	near    = 8    // deviations to either side
	even    = 8192 // bins within: 1/512 of a deviation each
	doubled = 64   // bins from one distance to twice of it
	beyond  = 16 * doubled
)

// newHistogram has the range of some samples.
func newHistogram(y []float64) histogram {
	h := histogram{counts: make([]uint32, even+2*beyond)}
	if len(y) == 0 {
		return h
	}
	var s sum
	s.add(y, y[0])
	mean, dev := s.moments(y[0])
	if !(dev > 0) { // all alike, or one
		dev = max(math.Abs(mean)*1e-9, math.SmallestNonzeroFloat64*1e9)
	}
	h.center, h.scale = mean, even/(2*near*dev)
	return h
}

// empty is one of the same bins.
func (h histogram) empty() histogram {
	h.counts = make([]uint32, len(h.counts))
	return h
}

func (h histogram) merge(o histogram) {
	for i, c := range o.counts {
		h.counts[i] += c
	}
}

func (h histogram) add(y []float64) {
	for _, v := range y {
		t := (v - h.center) * h.scale
		if t > -even/2 && t < even/2 {
			h.counts[beyond+int(t+even/2)]++
		} else {
			h.counts[outer(t)]++
		}
	}
}

// outer is the bin of what lies further off.
func outer(t float64) int {
	far := min(beyond-1, max(0, int(doubled*math.Log2(math.Abs(t)/(even/2)))))
	if t < 0 {
		return beyond - 1 - far
	}
	return beyond + even + far
}

// edge is where a bin begins, in bins from the middle.
func edge(i int) float64 {
	switch {
	case i < beyond:
		return -even / 2 * math.Exp2(float64(beyond-i)/doubled)
	case i > beyond+even:
		return even / 2 * math.Exp2(float64(i-beyond-even)/doubled)
	}
	return float64(i - beyond - even/2)
}

// quantile is the value below which that share of the samples lies, within its bin: 1/512 of a deviation
// and, beyond 8 of them, 1.1 % of the distance.
func (h histogram) quantile(share float64) float64 {
	var all uint64
	for _, c := range h.counts {
		all += uint64(c)
	}
	left := share * float64(all)
	i := slices.IndexFunc(h.counts, func(c uint32) bool {
		if left <= float64(c) && c > 0 {
			return true
		}
		left -= float64(c)
		return false
	})
	from := edge(i)
	return h.center + (from+(edge(i+1)-from)*left/float64(h.counts[i]))/h.scale
}
