package spring

import "slices"

// vertex is a corner of a force that is straight between corners.
type vertex struct{ x, f float64 } // m, N

// polyline is a force that does not fall, by its corners from travel 0 on.
type polyline []vertex

// coincident corners are one: rounding has parted them.
const coincident = 1e-12 // m

// path of the polyline. Where the force jumps, the upper corner counts.
func (l polyline) path() path {
	p := path{stroke: l[len(l)-1].x}
	for i, v := range l[1:] {
		u := l[i]
		if dx := v.x - u.x; dx > coincident {
			p.pieces = append(p.pieces, piece{X: u.x, F: u.f, K: (v.f - u.f) / dx})
		}
	}
	if len(p.pieces) == 0 {
		return path{}
	}
	p.pieces[0].X = 0
	return p.integrated()
}

// polyline of a spring of straight pieces that never falls; false: it is none.
func (w piecewise) polyline() (polyline, bool) {
	p := w.path
	var l polyline
	for i, q := range p.pieces {
		if q.X >= p.stroke {
			break
		}
		end := p.stroke
		if i+1 < len(p.pieces) {
			end = min(end, p.pieces[i+1].X)
		}
		if q.K < 0 || q.B != 0 || q.C != 0 {
			return nil, false
		}
		if n := len(l); n > 0 {
			q.F = max(q.F, l[n-1].f) // rounding
		}
		l = append(l, vertex{q.X, q.F}, vertex{end, q.Force(end - q.X)})
	}
	return l, len(l) > 0
}

// travelRange is the least and the greatest travel at which the polyline carries f; a
// force it never has counts as that of the nearer end.
func (l polyline) travelRange(f float64) (least, most float64) {
	i, _ := slices.BinarySearchFunc(l, f, func(v vertex, f float64) int {
		if v.f < f {
			return -1
		}
		return 1
	})
	if i == len(l) {
		end := l[len(l)-1].x
		return end, end
	}
	if i > 0 {
		u, v := l[i-1], l[i]
		least = u.x + (v.x-u.x)*((f-u.f)/(v.f-u.f))
	}
	most = least
	for ; i < len(l) && l[i].f == f; i++ {
		most = l[i].x
	}
	return least, most
}

// inSeries adds the travels of polylines that share their force: one whose first
// force is not reached stands still, and so does one at its end.
func inSeries(lines ...polyline) polyline {
	var forces []float64
	for _, l := range lines {
		for _, v := range l {
			forces = append(forces, v.f)
		}
	}
	slices.Sort(forces)
	var sum polyline
	for _, f := range slices.Compact(forces) {
		low, high := vertex{f: f}, vertex{f: f}
		for _, l := range lines {
			least, most := l.travelRange(f)
			low.x += least
			high.x += most
		}
		sum = append(sum, low)
		if high.x > low.x {
			sum = append(sum, high)
		}
	}
	return sum
}
