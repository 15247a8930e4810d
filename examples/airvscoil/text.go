package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/forkcurve/units"
)

const width = 80

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
	for i, l := range wrap(text, width-len(indent)) {
		if i == 1 {
			indent = strings.Repeat(" ", len(indent))
		}
		s.WriteString(indent + l + "\n")
	}
}

// row is a line of a table: a name and cells of equal width.
func (s *sheet) row(name string, cell int, cells ...string) {
	s.WriteString("  " + pad(name, width-2-cell*len(cells)))
	for _, c := range cells {
		s.WriteString(lead(c, cell))
	}
	s.WriteByte('\n')
}

// line is a name and a text beside it.
func (s *sheet) line(name, text string) {
	const indent = 26
	for _, l := range wrap(text, width-indent) {
		s.WriteString("  " + pad(name, indent-2) + l + "\n")
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

// unit is a number and the blank before its unit.
var unit = regexp.MustCompile(`([0-9]) (\pL|%|°)`)

// wrap breaks text at blanks into lines of at most n characters, but not between
// a number and its unit.
func wrap(text string, n int) []string {
	const glue = "\u00a0"
	var lines []string
	line := ""
	for word := range strings.SplitSeq(unit.ReplaceAllString(text, "$1"+glue+"$2"), " ") {
		word = strings.ReplaceAll(word, glue, " ")
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > n:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}

// pad fills text with blanks on the right to n characters, lead on the left.
func pad(text string, n int) string {
	return text + strings.Repeat(" ", max(1, n-utf8.RuneCountInString(text)))
}

func lead(text string, n int) string {
	return strings.Repeat(" ", max(1, n-utf8.RuneCountInString(text))) + text
}

// shown is a number, or a dash where a fork has none.
func shown(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	return fixed(v, decimals)
}

func repeat(s string) string { return strings.Repeat(s, width) }
