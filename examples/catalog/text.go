package main

import (
	"strings"

	"example.org/forkcurve/internal/typeset"
)

const width = typeset.Width

// printer collects lines of text.
type printer struct{ strings.Builder }

func (p *printer) line(text string) { p.WriteString(strings.TrimRight(text, " ") + "\n") }

// section begins a part.
func (p *printer) section(title string) { p.WriteString("\n" + title + "\n") }

// named prints a name and a text that is wrapped beside it.
func (p *printer) named(indent int, name, text string) {
	for i, l := range typeset.Wrap(text, width-indent) {
		if i > 0 {
			name = ""
		}
		p.line(typeset.Pad(name, indent) + l)
	}
}

// cut shortens a text to n characters.
func cut(text string, n int) string {
	if typeset.Count(text) <= n {
		return text
	}
	return strings.TrimRight(string([]rune(text)[:n-1]), " ") + "…"
}
