package spring

import "example.org/forkcurve/internal/chamber"

// path is a force in cubic pieces from travel 0 to its stroke in m. Every spring that
// changes its law along the stroke is one.
type path struct {
	pieces chamber.Path
	stroke float64
}

type piece = chamber.Piece

// piecewise is a path as a spring.
type piecewise struct {
	flat
	path path
}

// spring ends at a travel, if it does not end before.
func (p path) spring(travel float64) piecewise {
	p.stroke = min(p.stroke, travel)
	sum := chamber.NewSum(p.stroke)
	sum.AddPath(p.pieces, 1)
	return piecewise{flat{sum}, p}
}

// integrated fills in the energy at the start of every piece.
func (p path) integrated() path {
	p.pieces.Integrate()
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
		q := p.pieces.At(by)
		t := by - q.X
		s.pieces = append(s.pieces, piece{F: q.Force(t), K: q.Rate(t), B: q.B + 3*t*q.C, C: q.C})
	}
	for _, q := range p.pieces {
		if q.X > by {
			q.X -= by
			s.pieces = append(s.pieces, q)
		}
	}
	return s.integrated()
}
