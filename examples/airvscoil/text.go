package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

const width = typeset.Width

// sheet is text of at most 80 columns.
type sheet struct {
	strings.Builder
	topics int
}

// topic starts the next numbered part.
func (s *sheet) topic(title string) {
	s.topics++
	fmt.Fprintf(s, "\n%d. %s\n%s\n", s.topics, title, strings.Repeat("-", width))
}

func (s *sheet) head(text string) { s.WriteString("\n  " + text + "\n") }

// paragraph prints wrapped text.
func (s *sheet) paragraph(format string, values ...any) { s.hang("  ", fmt.Sprintf(format, values...)) }

// hang prints wrapped text after a first indent, the rest aligned under it.
func (s *sheet) hang(indent, text string) {
	for i, l := range typeset.Wrap(text, width-len(indent)) {
		if i == 1 {
			indent = strings.Repeat(" ", len(indent))
		}
		s.WriteString(indent + l + "\n")
	}
}

// row is a line of a table: a name and cells of equal width.
func (s *sheet) row(name string, cell int, cells ...string) {
	s.WriteString("  " + typeset.Pad(name, width-2-cell*len(cells)))
	for _, c := range cells {
		s.WriteString(typeset.Lead(c, cell))
	}
	s.WriteByte('\n')
}

// line is a name and a text beside it.
func (s *sheet) line(name, text string) {
	const indent = 26
	for _, l := range typeset.Wrap(text, width-indent) {
		s.WriteString("  " + typeset.Pad(name, indent-2) + l + "\n")
		name = ""
	}
}

// calc prints one step of arithmetic, "name = expression = result unit", and gives
// the result as printed, for the next step to go on with. A remark follows in
// brackets.
func (s *sheet) calc(name, expression string, value float64, decimals int, unit string, remark ...string) float64 {
	text := fixed(value, decimals)
	tail := "= " + text
	if unit != "" {
		tail += " " + unit
	}
	for _, r := range remark {
		tail += "   [" + r + "]"
	}
	const indent = "    "
	line := indent + name + " = " + expression
	deep := strings.Repeat(" ", utf8.RuneCountInString(indent+name)+1)
	for utf8.RuneCountInString(line) > width {
		// Break before a plus or minus, the last that leaves the line short enough.
		cut := -1
		for _, sign := range []string{" + ", " − "} {
			for i := 0; ; {
				j := strings.Index(line[i:], sign)
				if j < 0 || utf8.RuneCountInString(line[:i+j]) > width {
					break
				}
				cut = max(cut, i+j)
				i += j + len(sign)
			}
		}
		if cut <= len(deep) {
			break
		}
		s.WriteString(line[:cut] + "\n")
		line = deep + line[cut+1:]
	}
	if utf8.RuneCountInString(line+" "+tail) > width {
		s.WriteString(line + "\n")
		line = deep + tail
	} else {
		line += " " + tail
	}
	s.WriteString(line + "\n")
	return rounded(value, decimals)
}

// library is the remark on what the library has for a step.
func library(value float64, decimals int, unit string) string {
	return "library " + fixed(value, decimals) + " " + unit
}

// fixed is a number with a true minus.
func fixed(v float64, decimals int) string {
	v = rounded(v, decimals)
	return strings.ReplaceAll(strconv.FormatFloat(v, 'f', decimals, 64), "-", "−")
}

// signed has a sign in any case.
func signed(v float64, decimals int) string {
	if v = rounded(v, decimals); v > 0 {
		return "+" + fixed(v, decimals)
	}
	return fixed(v, decimals)
}

// rounded is the number that a student goes on with.
func rounded(v float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	return math.Round(v*p)/p + 0 // no minus zero
}

// num is a number of a record as short as it is, up to six digits.
func num(v float64) string {
	return strings.ReplaceAll(strconv.FormatFloat(v, 'g', 6, 64), "-", "−")
}

// times is a factor for legs in an expression; nothing for one.
func times(legs int) string {
	if legs == 1 {
		return ""
	}
	return strconv.Itoa(legs) + "·"
}

// kelvin is a temperature as a student writes it, to 0.01 K.
func kelvin(t units.Temperature) float64 { return rounded(t.Kelvin(), 2) }

// bars is an absolute pressure to the millibar.
func bars(p units.AbsolutePressure) float64 { return rounded(p.In(units.Bar), 3) }

// shown is a number, or a dash where a fork has none.
func shown(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	return fixed(v, decimals)
}

func repeat(s string) string { return strings.Repeat(s, width) }
