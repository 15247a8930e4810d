package data

import (
	"cmp"
	"fmt"
	"slices"
)

// exists reports whether there is a record that another may refer to.
func (w *walk) exists(k kind, id string) bool {
	has, _ := w.set.table(k)
	known, _ := w.known.table(k)
	return has(id) || known(id)
}

// refer reports a reference to a record that is nowhere.
func (w *walk) refer(key, id string, k kind) {
	if !w.exists(k, id) {
		_, ids := w.set.table(k)
		_, others := w.known.table(k)
		all := slices.AppendSeq(slices.Collect(ids), others)
		slices.Sort(all)
		w.in.Fault(key, notFound(k, id, slices.Compact(all)))
	}
}

// given reports whether all values were read without a fault, so that they may be
// compared with each other.
func given(values ...interface{ Given() bool }) bool {
	return !slices.ContainsFunc(values, func(v interface{ Given() bool }) bool { return !v.Given() })
}

// want reports a relation between values that does not hold.
func (w *walk) want(ok bool, key, format string, args ...any) {
	if !ok && w.has(key) {
		w.in.Fault(key, fmt.Errorf("want "+format, args...))
	}
}

// bothOrNeither reports one of two keys without the other.
func (w *walk) bothOrNeither(a, b string) {
	w.want(w.has(b), a, "%s beside it", b)
	w.want(w.has(a), b, "%s beside it", a)
}

// within reports a value outside its own range.
func within[Q cmp.Ordered](w *walk, key string, v Value[Q], r Range[Q], rangeKey string) {
	w.want(!given(v, r) || v.Value >= r.Lo && v.Value <= r.Hi, key, "a value inside %s", rangeKey)
}

func abs[Q ~float64](q Q) Q { return max(q, -q) }
