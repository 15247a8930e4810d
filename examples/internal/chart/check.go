package chart

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
)

const (
	most      = 1e12    // magnitude of a value
	longest   = 100_000 // points of a line
	leastSpan = 1e-9    // of an axis, as a share of its larger limit or of 0.001
)

// check reports every fault of the figure.
func (f *Figure) check() error {
	c := check.Of("Figure")
	checkAxis(c, "X", f.X)
	checkAxis(c, "Y", f.Y)
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
			if l.Marker == NoMarker {
				c.Report(at+".Marker", 0, "a marker where there is no line", "")
			}
		}
		checkValues(c, at+".X", l.X, max(least, len(l.Y)))
		checkValues(c, at+".Y", l.Y, max(least, len(l.X)))
		checkStyle(c, at, l.Color, l.Dash, l.Marker)
	}
	for i, b := range f.Bands {
		at := fmt.Sprintf("Bands[%d]", i)
		checkRising(c, at+".X", b.X)
		checkValues(c, at+".Low", b.Low, len(b.X))
		checkValues(c, at+".High", b.High, len(b.X))
		checkStyle(c, at, b.Color, 0, 0)
	}
	if s := f.Stack; s != nil {
		checkRising(c, "Stack.X", s.X)
		if len(s.Layers) == 0 {
			c.Report("Stack.Layers", 0, "a layer at least", "")
		}
		for i, l := range s.Layers {
			at := fmt.Sprintf("Stack.Layers[%d]", i)
			checkValues(c, at+".Y", l.Y, len(s.X))
			checkStyle(c, at, l.Color, 0, 0)
			for j, y := range l.Y {
				if y < 0 {
					c.Report(fmt.Sprintf("%s.Y[%d]", at, j), y, "0 or more", "what is taken away cannot be stacked")
					break
				}
			}
		}
	}
	for i, m := range f.Marks {
		at := fmt.Sprintf("Marks[%d]", i)
		check.Between(c, at+".At", m.At, -most, most)
		check.Between(c, at+".On", float64(m.On), 0, 1)
		checkStyle(c, at, m.Color, m.Dash, 0)
		if m.Dash == NoLine {
			c.Report(at+".Dash", "NoLine", "a line", "")
		}
	}
	for i, r := range f.Regions {
		at := fmt.Sprintf("Regions[%d]", i)
		check.Between(c, at+".From", r.From, -most, most)
		check.Between(c, at+".To", r.To, r.From, most)
		check.Between(c, at+".On", float64(r.On), 0, 1)
	}
	return c.Err()
}

func checkAxis(c *check.Faults, at string, a Axis) {
	if a.Label == "" {
		c.Report(at+".Label", a.Label, "what the axis shows", "")
	}
	if a.Min == 0 && a.Max == 0 {
		return
	}
	if check.Between(c, at+".Min", a.Min, -most, most) && check.Between(c, at+".Max", a.Max, -most, most) &&
		!broad(a.Min, a.Max) {
		c.Report(at+".Max", a.Max, fmt.Sprintf("more than Min, %.6g", a.Min), "")
	}
}

// broad reports whether the limits are far enough apart to count between them.
func broad(lo, hi float64) bool { return hi-lo > leastSpan*max(math.Abs(lo), math.Abs(hi), 1e-3) }

// checkValues reports a wrong number of values, or the first that is no number.
func checkValues(c *check.Faults, at string, values []float64, want int) {
	if len(values) != want {
		c.Report(at, len(values), fmt.Sprintf("%d values", want), "")
	} else if want > longest {
		c.Report(at, want, fmt.Sprintf("at most %d values", longest), "")
	}
	for i, v := range values {
		if !check.Between(c, fmt.Sprintf("%s[%d]", at, i), v, -most, most) {
			return
		}
	}
}

func checkRising(c *check.Faults, at string, values []float64) {
	checkValues(c, at, values, max(2, len(values)))
	for i := 1; i < len(values); i++ {
		if values[i] < values[i-1] {
			c.Report(fmt.Sprintf("%s[%d]", at, i), values[i], "rising values", "")
			return
		}
	}
}

func checkStyle(c *check.Faults, at string, color Color, dash Dash, marker Marker) {
	check.Between(c, at+".Color", float64(color), 0, float64(colors))
	check.Between(c, at+".Dash", float64(dash), 0, float64(NoLine))
	check.Between(c, at+".Marker", float64(marker), 0, float64(len(shapes)-1))
}
