package strict

import (
	"cmp"
	"slices"
	"strings"
)

// Nearest returns up to n of the words that look like the given one, the closest
// first: those within a third of its length in edit distance, but at least 1,
// upper and lower case taken as equal.
func Nearest(word string, words []string, n int) []string {
	type candidate struct {
		word     string
		distance int
	}
	var near []candidate
	limit := max(1, len(word)/3)
	for _, w := range words {
		if d := distance(strings.ToLower(word), strings.ToLower(w), limit); d <= limit {
			near = append(near, candidate{w, d})
		}
	}
	slices.SortStableFunc(near, func(a, b candidate) int { return cmp.Compare(a.distance, b.distance) })
	var out []string
	for _, c := range near[:min(n, len(near))] {
		out = append(out, c.word)
	}
	return out
}

// distance is the number of bytes to insert, delete, replace or swap with a
// neighbor to turn a into b, or limit+1 if their lengths differ by more.
func distance(a, b string, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	before := make([]int, len(b)+1)
	above := make([]int, len(b)+1)
	row := make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := above[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(above[j]+1, row[j-1]+1, change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}
