package spring

import (
	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/units"
)

// path is a force in cubic pieces from travel 0 on, with its rate and energy in
// closed form. Every spring that changes its law along the stroke is one.
type path struct {
	span
	pieces chamber.Path
}

type piece = chamber.Piece

// Force at x.
func (p path) Force(x units.Length) units.Force {
	if !p.holds(x) {
		return units.Force(nan)
	}
	return units.Force(p.pieces.Force(float64(x)))
}

// Rate at x. Where the rate jumps it is the one that follows.
func (p path) Rate(x units.Length) units.Stiffness {
	if !p.holds(x) {
		return units.Stiffness(nan)
	}
	return units.Stiffness(p.pieces.Rate(float64(x)))
}

// Energy stored since x = 0.
func (p path) Energy(x units.Length) units.Energy {
	if !p.holds(x) {
		return units.Energy(nan)
	}
	return units.Energy(p.pieces.Energy(float64(x)))
}

func (p path) addTo(s *chamber.Sum, factor float64) {
	s.AddPath(p.pieces, factor)
	s.End(float64(p.span))
}

func (p *path) holds(x units.Length) bool { return p.span.holds(x) && len(p.pieces) > 0 }

// integrated fills in the energy at the start of every piece.
func (p path) integrated() path {
	p.pieces.Integrate()
	return p
}

// preloaded is the path from its point at by on or, for a negative by, after
// that much travel without force.
func (p path) preloaded(by float64) path {
	s := path{span: p.span - span(by)}
	switch {
	case by < 0:
		s.pieces = append(s.pieces, piece{})
	case s.span > 0:
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

// limited ends the path at a stroke, if it does not end before.
func (p path) limited(stroke float64) path {
	p.span = min(p.span, span(stroke))
	return p
}
