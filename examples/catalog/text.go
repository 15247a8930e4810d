package main

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

const width = 80 // of every line printed

// printer collects lines of text.
type printer struct{ strings.Builder }

func (p *printer) line(text string) { p.WriteString(strings.TrimRight(text, " ") + "\n") }

// section begins a part.
func (p *printer) section(title string) { p.WriteString("\n" + title + "\n") }

// named prints a name and a text that is wrapped beside it.
func (p *printer) named(indent int, name, text string) {
	for i, l := range wrap(text, width-indent) {
		if i > 0 {
			name = ""
		}
		p.line(pad(name, indent) + l)
	}
}

// number is a number and the blank before its unit.
var number = regexp.MustCompile(`([0-9]) (\pL|%|°)`)

const glue = "\u00a0"

// glued ties numbers to their units and diameters to their sign.
func glued(text string) string {
	return strings.ReplaceAll(number.ReplaceAllString(text, "$1"+glue+"$2"), "Ø ", "Ø"+glue)
}

// wrap breaks text at blanks into lines of at most n characters, but not between
// a number and its unit.
func wrap(text string, n int) []string {
	var lines []string
	line := ""
	for word := range strings.SplitSeq(glued(text), " ") {
		word = strings.ReplaceAll(word, glue, " ")
		switch {
		case line == "":
			line = word
		case runes(line)+1+runes(word) > n:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}

func runes(text string) int { return utf8.RuneCountInString(text) }

// pad fills a text with blanks on the right to n characters, lead on the left.
func pad(text string, n int) string { return text + strings.Repeat(" ", max(0, n-runes(text))) }

func lead(text string, n int) string { return strings.Repeat(" ", max(0, n-runes(text))) + text }

// cut shortens a text to n characters.
func cut(text string, n int) string {
	if runes(text) <= n {
		return text
	}
	return strings.TrimRight(string([]rune(text)[:n-1]), " ") + "…"
}
