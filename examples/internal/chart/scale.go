package chart

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
)

// scale maps an axis to the paper.
type scale struct {
	lo, hi   float64
	from, to vg.Length
	step     float64 // between ticks
	bare     bool    // no ticks
}

// newScale covers the values, or has the axis's own limits. Rounded limits lie on ticks. About count ticks.
func newScale(a Axis, lo, hi float64, rounded bool, count int) scale {
	if a.Min != 0 || a.Max != 0 {
		return scale{lo: a.Min, hi: a.Max, step: niceStep(a.Max-a.Min, count), bare: a.Bare}
	}
	if a.Zero {
		lo, hi = min(lo, 0), max(hi, 0)
	}
	if !broad(lo, hi) {
		pad := max(math.Abs(lo)/10, 0.5)
		lo, hi = lo-pad, hi+pad
	}
	s := scale{lo: lo, hi: hi, step: niceStep(hi-lo, count), bare: a.Bare}
	if rounded {
		s.lo, s.hi = s.step*math.Floor(lo/s.step+1e-9), s.step*math.Ceil(hi/s.step-1e-9)
	}
	return s
}

// niceStep is 1, 2 or 5 times a power of ten, to go about count times into span.
func niceStep(span float64, count int) float64 {
	raw := span / float64(count)
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, f := range []float64{1, 2, 5} {
		if raw <= f*power*1.2 {
			return f * power
		}
	}
	return 10 * power
}

func (s scale) at(v float64) vg.Length {
	return s.from + vg.Length((v-s.lo)/(s.hi-s.lo))*(s.to-s.from)
}

type tick struct {
	value float64
	text  string
}

func (s scale) ticks() []tick {
	var t []tick
	if s.bare {
		return nil
	}
	first, last := math.Ceil(s.lo/s.step-1e-6), math.Floor(s.hi/s.step+1e-6)
	for i := range int(last-first) + 1 {
		v := (first + float64(i)) * s.step
		t = append(t, tick{v, tickText(v, s.step)})
	}
	return t
}

// tickText has the decimals of the step and a true minus.
func tickText(v, step float64) string {
	var text string
	switch {
	case math.Abs(v) < step/2:
		text = "0"
	case step < 1e-6 || math.Abs(v) >= 1e7:
		text = strconv.FormatFloat(v, 'g', 6, 64)
	default:
		text = strconv.FormatFloat(v, 'f', max(0, -int(math.Floor(math.Log10(step)+1e-9))), 64)
	}
	return strings.ReplaceAll(text, "-", "−")
}

// extent is the least and the most of what the figure shows.
func (f *Figure) extent() (x, y [2]float64) {
	x = [2]float64{math.Inf(1), math.Inf(-1)}
	y = x
	widen := func(e *[2]float64, values ...float64) {
		for _, v := range values {
			e[0], e[1] = min(e[0], v), max(e[1], v)
		}
	}
	for _, l := range f.Lines {
		widen(&x, l.X...)
		widen(&y, l.Y...)
	}
	for _, b := range f.Bands {
		widen(&x, b.X...)
		widen(&y, b.Low...)
		widen(&y, b.High...)
	}
	if f.Stack != nil {
		widen(&x, f.Stack.X...)
		widen(&y, 0)
		for _, edge := range f.Stack.edges() {
			widen(&y, edge...)
		}
	}
	for _, m := range f.Marks {
		widen([]*[2]float64{&x, &y}[m.On], m.At)
	}
	return x, y
}

// edges are the sums of the layers up to each.
func (s *Stack) edges() [][]float64 {
	edges := make([][]float64, len(s.Layers)+1)
	edges[0] = make([]float64, len(s.X))
	for i, l := range s.Layers {
		edges[i+1] = make([]float64, len(s.X))
		for j, y := range l.Y {
			edges[i+1][j] = edges[i][j] + y
		}
	}
	return edges
}
