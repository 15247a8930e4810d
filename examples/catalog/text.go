package main

import (
	"fmt"
	"strings"

	"example.org/forkcurve/internal/typeset"
)

const width = typeset.Width

// printer collects lines of text.
type printer struct{ strings.Builder }

func (p *printer) line(format string, values ...any) {
	p.WriteString(strings.TrimRight(fmt.Sprintf(format, values...), " ") + "\n")
}

// named prints a name and a text that is wrapped beside it.
func (p *printer) named(indent int, name, text string) {
	for _, l := range typeset.Wrap(strings.ReplaceAll(text, "\n", " "), width-indent) {
		p.line("%s", typeset.Pad(name, indent)+l)
		name = ""
	}
}

func (p *printer) paragraph(text string) { p.named(0, "", text) }
