package chart

import (
	"image/color"
	"strings"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

const leading = 1.2 // of the font size

// clean replaces what an SVG file cannot hold.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == ' ' || unicode.IsPrint(r) {
			return r
		}
		return unicode.ReplacementChar
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

// wrap breaks a text at spaces into lines no wider than width, at most so many.
// What has no room ends in an ellipsis.
func wrap(f font.Face, text string, width vg.Length, most int) []string {
	if text == "" {
		return nil
	}
	var lines []string
	for part := range strings.SplitSeq(clean(text), "\n") {
		line := ""
		for word := range strings.FieldsSeq(part) {
			if longer := strings.TrimSpace(line + " " + word); f.Width(longer) <= width {
				line = longer
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			line = shorten(f, word, width)
		}
		lines = append(lines, line)
	}
	if len(lines) > most {
		last := lines[most-1] + "…"
		lines = append(lines[:most-1], shorten(f, last, width))
	}
	return lines
}

func shorten(f font.Face, text string, width vg.Length) string {
	const longest = 500
	runes := []rune(text)
	if len(runes) <= longest && f.Width(text) <= width {
		return text
	}
	runes = runes[:min(len(runes), longest)]
	for len(runes) > 0 && f.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

func widest(f font.Face, lines []string) vg.Length {
	var w vg.Length
	for _, l := range lines {
		w = max(w, f.Width(l))
	}
	return w
}

func height(f font.Face, lines []string) vg.Length {
	return vg.Length(len(lines)) * f.Font.Size * leading
}

// write sets lines with their block's top at y. Align 0 has x at their left, 0.5 at
// their middle, 1 at their right.
func (p *page) write(f font.Face, c color.Color, lines []string, x, y, align vg.Length) {
	p.SetColor(c)
	for i, l := range lines {
		baseline := y - f.Font.Size*(leading*vg.Length(i)+0.95)
		p.FillString(f, vg.Point{X: x - align*f.Width(l), Y: baseline}, l)
	}
}
