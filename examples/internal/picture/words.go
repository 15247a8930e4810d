package picture

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"example.org/forkcurve/internal/typeset"
)

// Leading is the distance of lines, in font sizes.
const Leading = 1.2

// clean replaces what an SVG file cannot hold.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == ' ' || unicode.IsPrint(r) {
			return r
		}
		return unicode.ReplacementChar
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

// Wrap breaks a text between words into lines no wider than width, at most so many; 0 is any number. What has no
// room ends in an ellipsis.
func Wrap(f font.Face, text string, width vg.Length, most int) []string {
	if text == "" {
		return nil
	}
	var lines []string
	for part := range strings.SplitSeq(clean(text), "\n") {
		line := ""
		for _, word := range typeset.Words(typeset.Numbers(strings.Join(strings.Fields(part), " "))) {
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
	if most > 0 && len(lines) > most {
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

// Widest is the width of the widest line.
func Widest(f font.Face, lines []string) vg.Length {
	var w vg.Length
	for _, l := range lines {
		w = max(w, f.Width(l))
	}
	return w
}

// Height is that of lines under each other.
func Height(f font.Face, lines []string) vg.Length {
	return vg.Length(len(lines)) * f.Font.Size * Leading
}

// Separate moves labels of given sizes along a line from lo to hi apart until none overlap, each as near as that
// allows to the center it wants and all in their order, and returns their centers. It reports false where they do
// not fit.
func Separate(want, size []vg.Length, lo, hi vg.Length) ([]vg.Length, bool) {
	order := make([]int, len(want))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(want[a], want[b]) })
	// Labels that touch form a block, which sits at the mean of the wishes.
	type block struct {
		first, n      int // in order
		wish          vg.Length
		start, length vg.Length
	}
	place := func(b *block) {
		b.start = max(lo, min(b.wish/vg.Length(b.n), hi-b.length))
	}
	var blocks []block
	var total vg.Length
	for i, o := range order {
		b := block{first: i, n: 1, wish: want[o] - size[o]/2, length: size[o]}
		total += size[o]
		place(&b)
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.start+last.length <= b.start {
				break
			}
			b = block{first: last.first, n: last.n + b.n,
				wish: last.wish + b.wish - vg.Length(b.n)*last.length, length: last.length + b.length}
			place(&b)
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	centers := make([]vg.Length, len(want))
	for _, b := range blocks {
		at := b.start
		for _, o := range order[b.first : b.first+b.n] {
			centers[o] = at + size[o]/2
			at += size[o]
		}
	}
	return centers, total <= hi-lo
}
