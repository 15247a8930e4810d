package chart

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/internal/check"
)

const (
	most      = 1e12    // magnitude of a value
	longest   = 100_000 // points of a line
	leastSpan = 1e-9    // of an axis, as a share of its larger limit or of 0.001
)

// check reports every fault of the figure: what the data of a program can spoil.
func (f *Figure) check() error {
	c := check.Of("Figure")
	for _, a := range []struct {
		at string
		Axis
	}{{"X", f.X}, {"Y", f.Y}} {
		given := a.Min != 0 || a.Max != 0
		if values(c, a.at, 2, []float64{a.Min, a.Max}) && given && !broad(a.Min, a.Max) {
			c.Report(a.at+".Max", a.Max, fmt.Sprintf("more than Min, %.6g", a.Min), "")
		}
	}
	if len(f.Lines) == 0 && f.Stack == nil {
		c.Report("Lines", 0, "a line or a stack at least", "")
	}
	for i, l := range f.Lines {
		at := fmt.Sprintf("Lines[%d]", i)
		if l.Name == "" && l.Label == "" {
			c.Report(at+".Name", "", "a name or a label", "")
		}
		least := 2
		if l.Dash == NoLine {
			least = 1
		}
		values(c, at+".X", max(least, len(l.Y)), l.X)
		values(c, at+".Y", max(least, len(l.X)), l.Y)
	}
	for i, b := range f.Bands {
		at := fmt.Sprintf("Bands[%d]", i)
		rising(c, at+".X", b.X)
		values(c, at+".Low", len(b.X), b.Low)
		values(c, at+".High", len(b.X), b.High)
	}
	if s := f.Stack; s != nil {
		rising(c, "Stack.X", s.X)
		for i, l := range s.Layers {
			values(c, fmt.Sprintf("Stack.Layers[%d].Y", i), len(s.X), l.Y)
		}
	}
	for i, m := range f.Marks {
		values(c, fmt.Sprintf("Marks[%d].At", i), 1, []float64{m.At})
	}
	for i, r := range f.Regions {
		rising(c, fmt.Sprintf("Regions[%d]", i), []float64{r.From, r.To})
	}
	return c.Err()
}

// broad reports whether the limits are far enough apart to count between them.
func broad(lo, hi float64) bool { return hi-lo > leastSpan*max(math.Abs(lo), math.Abs(hi), 1e-3) }

// values reports a wrong number of values, or the first that is no number.
func values(c *check.Faults, at string, want int, values []float64) bool {
	if len(values) != want || want > longest {
		c.Report(at, len(values), fmt.Sprintf("%d values, %d at most", want, longest), "")
		return false
	}
	for i, v := range values {
		if !check.Between(c, fmt.Sprintf("%s[%d]", at, i), v, -most, most) {
			return false
		}
	}
	return true
}

func rising(c *check.Faults, at string, x []float64) {
	if values(c, at, max(2, len(x)), x) && !slices.IsSorted(x) {
		c.Report(at, "values that fall", "rising ones", "")
	}
}
