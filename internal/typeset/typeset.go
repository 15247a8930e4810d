// Package typeset sets text in columns of a fixed number of characters. A Sheet belongs
// to one goroutine.
package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Width of every sheet, in characters.
const Width = 80

// glue stands for a blank that does not break.
const glue = '\u00a0'

// Words are the parts of a text between the blanks where it may break: not between a
// number and its unit, nor after a diameter sign.
func Words(text string) []string {
	runes := []rune(strings.ReplaceAll(text, "Ø ", "Ø"+string(glue)))
	for i := 1; i < len(runes)-1; i++ {
		if before, after := runes[i-1], runes[i+1]; runes[i] == ' ' && '0' <= before && before <= '9' &&
			(unicode.IsLetter(after) || after == '%' || after == '°') {
			runes[i] = glue
		}
	}
	words := strings.Split(string(runes), " ")
	for i := range words {
		words[i] = strings.ReplaceAll(words[i], string(glue), " ")
	}
	return words
}

// Wrap breaks text into lines of at most n characters, between words where it can.
func Wrap(text string, n int) []string {
	var lines []string
	line := ""
	for _, word := range Words(text) {
		for runes := []rune(word); len(runes) > n; runes = []rune(word) {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines, word = append(lines, string(runes[:n])), string(runes[n:])
		}
		switch {
		case line == "":
			line = word
		case Count(line)+1+Count(word) > n:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}

// Numbers sets the numbers of a text as print does: with a true minus, zero without a sign, and degrees as °.
func Numbers(text string) string {
	var set strings.Builder
	for before := ' '; text != ""; {
		r, n := utf8.DecodeRuneInString(text)
		rest := text[n:]
		number := rest[:len(rest)-len(strings.TrimLeft(rest, "0123456789."))]
		switch {
		case strings.ContainsRune("+-−", r) && strings.ContainsRune(" \n(", before) && number != "" && number[0] != '.':
			if strings.Trim(number, "0.") != "" {
				set.WriteString(strings.Replace(text[:n], "-", "−", 1))
			}
		case '0' <= before && before <= '9' && (text == " deg" || strings.HasPrefix(text, " deg ")):
			set.WriteString("°")
			rest = text[len(" deg"):]
		default:
			set.WriteString(text[:n])
		}
		before, text = r, rest
	}
	return set.String()
}

// Plain is a text of a user's that cannot break a sheet: at most n characters of it, on one
// line, and a sign of its own for each that does not print.
func Plain(text string, n int) string {
	var line []rune
	for _, r := range text {
		switch {
		case !unicode.IsGraphic(r):
			r = unicode.ReplacementChar
		case unicode.IsSpace(r):
			r = ' '
		}
		if len(line) == n {
			line[n-1] = '…'
			break
		}
		line = append(line, r)
	}
	return string(line)
}

// Count is how many characters a text has.
func Count(text string) int { return utf8.RuneCountInString(text) }

// Pad fills a text with blanks on the right to n characters.
func Pad(text string, n int) string { return text + strings.Repeat(" ", max(0, n-Count(text))) }

// Lead fills a text with blanks on the left to n characters, with one at least.
func Lead(text string, n int) string { return strings.Repeat(" ", max(1, n-Count(text))) + text }

// Sheet collects text of at most Width characters a line, with its numbers as [Numbers] sets them.
type Sheet struct{ strings.Builder }

// Section begins a part, after an empty line where there is one before.
func (s *Sheet) Section(title string) {
	if s.Len() > 0 {
		s.WriteByte('\n')
	}
	s.WriteString(strings.Join(Wrap(Numbers(title), Width), "\n") + "\n")
}

// Line prints a name and what is to be said of it, wrapped beside it.
func (s *Sheet) Line(name, text string) { s.LineAt(24, name, text) }

// LineAt is Line with what is said from a column on.
func (s *Sheet) LineAt(indent int, name, text string) {
	name = Numbers(name)
	for _, l := range Wrap(Numbers(text), Width-indent) {
		s.WriteString("  " + Pad(name, indent-2) + l + "\n")
		name = ""
	}
}

// Paragraph prints wrapped text after a first indent, the rest aligned under it.
func (s *Sheet) Paragraph(indent, text string) {
	for _, l := range Wrap(Numbers(text), Width-Count(indent)) {
		s.WriteString(indent + l + "\n")
		indent = strings.Repeat(" ", Count(indent))
	}
}

// Row prints a name of first characters and cells that end in columns of the given
// widths, the last of which goes on.
func (s *Sheet) Row(name string, first int, cells []string, widths ...int) {
	s.WriteString("  " + Pad(name, first-2))
	for i, c := range cells {
		s.WriteString(Lead(Numbers(c), widths[min(i, len(widths)-1)]))
	}
	s.WriteByte('\n')
}
