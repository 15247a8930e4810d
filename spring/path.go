package spring

import "example.org/forkcurve/units"

// path is a force in cubic pieces from travel 0 on, with its rate and energy in
// closed form. Every spring that changes its law along the stroke is one.
type path struct {
	pieces []piece // by rising x, the first at 0
	stroke float64 // m
}

// piece is the force f + k·t + b·t² + c·t³ with t = travel − x, up to the next
// piece.
type piece struct {
	x          float64 // m
	f, k, b, c float64 // N, N/m, N/m², N/m³
	e          float64 // J stored at x
}

func (p *piece) force(t float64) float64 { return p.f + t*(p.k+t*(p.b+t*p.c)) }

func (p *piece) rate(t float64) float64 { return p.k + t*(2*p.b+t*3*p.c) }

func (p *piece) energy(t float64) float64 {
	return p.e + t*(p.f+t*(p.k/2+t*(p.b/3+t*p.c/4)))
}

// Force at x.
func (p path) Force(x units.Length) units.Force {
	if !p.holds(x) {
		return units.Force(nan)
	}
	q := p.at(float64(x))
	return units.Force(q.force(float64(x) - q.x))
}

// Rate at x. Where the rate jumps it is the one that follows.
func (p path) Rate(x units.Length) units.Stiffness {
	if !p.holds(x) {
		return units.Stiffness(nan)
	}
	q := p.at(float64(x))
	return units.Stiffness(q.rate(float64(x) - q.x))
}

// Energy stored since x = 0.
func (p path) Energy(x units.Length) units.Energy {
	if !p.holds(x) {
		return units.Energy(nan)
	}
	q := p.at(float64(x))
	return units.Energy(q.energy(float64(x) - q.x))
}

// Stroke is the end of travel, or less where the spring ends first.
func (p path) Stroke() units.Length { return units.Length(p.stroke) }

func (p *path) holds(x units.Length) bool {
	return x >= 0 && float64(x) <= p.stroke && len(p.pieces) > 0
}

// at is the piece that holds at x ≥ 0.
func (p *path) at(x float64) *piece {
	lo, hi := 0, len(p.pieces)
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) / 2); p.pieces[mid].x <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return &p.pieces[lo]
}

// integrated fills in the energy at the start of every piece.
func (p path) integrated() path {
	for i := 1; i < len(p.pieces); i++ {
		q, next := &p.pieces[i-1], &p.pieces[i]
		next.e = q.energy(next.x - q.x)
	}
	return p
}

// preloaded is the path from its point at by on or, for a negative by, after
// that much travel without force.
func (p path) preloaded(by float64) path {
	s := path{stroke: p.stroke - by}
	switch {
	case by < 0:
		s.pieces = append(s.pieces, piece{})
	case s.stroke > 0:
		// The piece that is cut starts anew at by.
		q := *p.at(by)
		t := by - q.x
		s.pieces = append(s.pieces, piece{f: q.force(t), k: q.rate(t), b: q.b + 3*t*q.c, c: q.c})
	}
	for _, q := range p.pieces {
		if q.x > by {
			q.x -= by
			s.pieces = append(s.pieces, q)
		}
	}
	return s.integrated()
}

// limited ends the path at a stroke, if it does not end before.
func (p path) limited(stroke float64) path {
	p.stroke = min(p.stroke, stroke)
	return p
}
