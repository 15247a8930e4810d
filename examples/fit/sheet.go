package main

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

const width = 80

// sheet is text of at most 80 columns.
type sheet struct{ strings.Builder }

func (s *sheet) section(title string) { s.WriteString("\n" + title + "\n") }

// line prints a name and what is to be said of it, wrapped.
func (s *sheet) line(name, text string) {
	const indent = 24
	for _, l := range wrap(text, width-indent) {
		s.WriteString("  " + pad(name, indent-2) + l + "\n")
		name = ""
	}
}

// paragraph prints wrapped text after a first indent, the rest aligned under it.
func (s *sheet) paragraph(indent, text string) {
	for _, l := range wrap(text, width-utf8.RuneCountInString(indent)) {
		s.WriteString(indent + l + "\n")
		indent = strings.Repeat(" ", utf8.RuneCountInString(indent))
	}
}

// row prints a name and cells that end in columns of the given widths.
func (s *sheet) row(name string, first int, cells []string, widths ...int) {
	s.WriteString("  " + pad(name, first-2))
	for i, c := range cells {
		w := widths[min(i, len(widths)-1)]
		s.WriteString(strings.Repeat(" ", max(1, w-utf8.RuneCountInString(c))) + c)
	}
	s.WriteByte('\n')
}

// number is a number and the blank before its unit.
var number = regexp.MustCompile(`([0-9]) (\pL|%|°)`)

// wrap breaks text at blanks into lines of at most n characters, but not between
// a number and its unit.
func wrap(text string, n int) []string {
	const glue = "\u00a0"
	var lines []string
	line := ""
	for word := range strings.SplitSeq(number.ReplaceAllString(text, "$1"+glue+"$2"), " ") {
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

// pad fills text with blanks on the right to n characters.
func pad(text string, n int) string {
	return text + strings.Repeat(" ", max(0, n-utf8.RuneCountInString(text)))
}
