package chart

import (
	"slices"

	"gonum.org/v1/plot/vg"
)

// spread moves labels of given sizes along a line from lo to hi apart until none
// overlap, each as near as that allows to the center it wants and all in their
// order, and returns their centers. It reports false where they do not fit.
func spread(want, size []vg.Length, lo, hi vg.Length) ([]vg.Length, bool) {
	order := make([]int, len(want))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case want[a] < want[b]:
			return -1
		case want[a] > want[b]:
			return 1
		}
		return 0
	})
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
