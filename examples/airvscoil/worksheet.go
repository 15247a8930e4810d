package main

import (
	_ "embed"
	"fmt"
	"maps"
	"math"
	"strconv"
	"strings"
	"sync"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

const width = typeset.Width

// lesson is what the text explains and works out, in parts by name; it says how it is
// written.
//
//go:embed lesson.txt
var lesson string

var parts = sync.OnceValue(func() map[string][]string {
	parts := map[string][]string{}
	for part := range strings.SplitSeq("\n"+lesson, "\n## ") {
		lines := strings.Split(part, "\n")
		parts[lines[0]] = lines[1:]
	}
	return parts
})

// worksheet prints explanations and arithmetic. What is in braces in either, as {p₊}, is a symbol and gives way to
// the text printed for it before, so that every step goes on with the number that a student has on paper.
type worksheet struct {
	*typeset.Sheet
	symbols map[string]string
	shares  []float64 // of the sum {Σ}
}

// branch is another worksheet on the same sheet, which knows the symbols so far.
func (w *worksheet) branch() worksheet {
	return worksheet{Sheet: w.Sheet, symbols: maps.Clone(w.symbols)}
}

// put defines symbols: names and their texts in turn.
func (w *worksheet) put(pairs ...string) {
	for i := 0; i < len(pairs); i += 2 {
		w.symbols[pairs[i]] = pairs[i+1]
	}
}

// value is the number printed for a symbol.
func (w *worksheet) value(name string) float64 {
	v, err := evaluate(w.symbols[name])
	if err != nil {
		return math.NaN()
	}
	return v
}

// fill puts texts for the symbols; a symbol that nobody defined stays.
func (w *worksheet) fill(text string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		name, after, closed := strings.Cut(rest, "}")
		b.WriteString(before)
		if !found || !closed {
			return b.String()
		}
		if known, ok := w.symbols[name]; ok {
			b.WriteString(known)
		} else {
			b.WriteString("{" + name + "}")
		}
		text = after
	}
}

// say prints a part of the lesson.
func (w *worksheet) say(name string) { w.print(parts()[name]) }

func (w *worksheet) print(lines []string) {
	text := ""
	for _, line := range append(lines, "") {
		mark, rest, _ := strings.Cut(line, " ")
		switch mark {
		case "", "###", "|", "+", ".", "-":
			w.paragraph(text)
			text = ""
		}
		switch mark {
		case "###":
			w.WriteString("\n  " + w.fill(rest) + "\n")
		case "|":
			w.step(rest)
		case "+":
			w.add(w.step(rest))
		case ".":
			w.WriteByte('\n')
		default:
			text += line + "\n"
		}
	}
}

// part is a part of the lesson to be put into another.
func (w *worksheet) part(name string) string {
	return w.fill(strings.TrimSpace(strings.Join(parts()[name], " ")))
}

func (w *worksheet) paragraph(text string) {
	if text = strings.Trim(text, "\n"); text == "" {
		return
	}
	text = strings.ReplaceAll(w.fill(text), "\n", " ")
	if item, ok := strings.CutPrefix(text, "- "); ok {
		w.Paragraph("  - ", item)
	} else {
		w.Paragraph("  ", text)
	}
}

// step works out "name = formula | digits unit | remark".
func (w *worksheet) step(text string) (v float64, decimals int) {
	fields := append(strings.Split(text, " | "), "")
	name, formula, _ := strings.Cut(fields[0], " = ")
	digits, unit, _ := strings.Cut(fields[1], " ")
	decimals, _ = strconv.Atoi(digits)
	return w.calc(w.fill(name), formula, decimals, unit, w.fill(fields[2])), decimals
}

// add takes a number into the sum {Σ}.
func (w *worksheet) add(v float64, decimals int) {
	text := fixed(v, decimals)
	switch {
	case len(w.shares) == 0:
		w.put("Σ", text)
	case v < 0:
		w.put("Σ", w.symbols["Σ"]+" − "+fixed(-v, decimals))
	default:
		w.put("Σ", w.symbols["Σ"]+" + "+text)
	}
	w.shares = append(w.shares, v)
}

// row is a line of a table: a name and cells of equal width.
func (w *worksheet) row(name string, cell int, cells ...string) {
	w.Row(name, width-cell*len(cells), cells, cell)
}

// line is a name and a text beside it.
func (w *worksheet) line(name, text string) {
	const indent = 26
	for _, l := range typeset.Wrap(w.fill(text), width-indent) {
		w.WriteString("  " + typeset.Pad(name, indent-2) + l + "\n")
		name = ""
	}
}

// calc prints one step of arithmetic, "name = expression = result unit", with a remark in brackets, and defines the
// name. What a step cannot work out is NaN, which the tests look for.
func (w *worksheet) calc(name, formula string, decimals int, unit string, remark string) float64 {
	expression := w.fill(formula)
	v, err := evaluate(expression)
	if err != nil {
		expression += " ?"
	}
	v = rounded(v, decimals)
	w.put(name, fixed(v, decimals))
	tail := strings.TrimSpace("= " + fixed(v, decimals) + " " + unit)
	if remark != "" {
		tail += "   [" + remark + "]"
	}
	const indent = "    "
	line, deep := indent+name+" = "+expression, strings.Repeat(" ", typeset.Count(indent+name)+1)
	for typeset.Count(line) > width {
		cut := lastSign(line)
		if cut <= len(deep) {
			break
		}
		w.WriteString(line[:cut] + "\n")
		line = deep + line[cut+1:]
	}
	if typeset.Count(line+" "+tail) > width {
		w.WriteString(line + "\n")
		line = deep + tail
	} else {
		line += " " + tail
	}
	w.WriteString(line + "\n")
	return v
}

// lastSign is where the last plus or minus stands that leaves a line short enough, or −1.
func lastSign(line string) int {
	cut := -1
	for i := range line {
		if typeset.Count(line[:i]) <= width && (strings.HasPrefix(line[i:], " + ") ||
			strings.HasPrefix(line[i:], " − ")) {
			cut = i
		}
	}
	return cut
}

// library is the remark on what the library has for a step.
func library(value float64, decimals int, unit string) string {
	return strings.TrimSpace("library " + fixed(value, decimals) + " " + unit)
}

// fixed is a number with a true minus, or a dash for what there is none of.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	return strings.ReplaceAll(strconv.FormatFloat(rounded(v, decimals), 'f', decimals, 64), "-", "−")
}

// signed has a sign in any case.
func signed(v float64, decimals int) string {
	if rounded(v, decimals) > 0 {
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
	return fmt.Sprintf("%d·", legs)
}

// kelvin is a temperature as a student writes it, to 0.01 K.
func kelvin(t units.Temperature) string { return num(rounded(t.Kelvin(), 2)) }

// bars is an absolute pressure to the millibar.
func bars(p units.AbsolutePressure) string { return fixed(p.In(units.Bar), 3) }
