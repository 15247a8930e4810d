package chamber

// Path is a force in cubic pieces by rising travel, the first from 0 on. Every spring
// that changes its law along the stroke is one. A path of no pieces has no values.
type Path []Piece

// Piece is the force F + K·t + B·t² + C·t³ with t = travel − X, up to the next piece.
type Piece struct {
	X          float64 // m
	F, K, B, C float64 // N, N/m, N/m², N/m³
	E          float64 // J stored at X
}

// Force after t.
func (p *Piece) Force(t float64) float64 { return p.F + t*(p.K+t*(p.B+t*p.C)) }

// Rate after t.
func (p *Piece) Rate(t float64) float64 { return p.K + t*(2*p.B+t*3*p.C) }

// Energy after t.
func (p *Piece) Energy(t float64) float64 { return p.E + t*(p.F+t*(p.K/2+t*(p.B/3+t*p.C/4))) }

// Force at x ≥ 0.
func (p Path) Force(x float64) float64 { q := p.At(x); return q.Force(x - q.X) }

// Rate at x ≥ 0. Where the rate jumps it is the one that follows.
func (p Path) Rate(x float64) float64 { q := p.At(x); return q.Rate(x - q.X) }

// Energy at x ≥ 0.
func (p Path) Energy(x float64) float64 { q := p.At(x); return q.Energy(x - q.X) }

// At is the piece that holds at x ≥ 0.
func (p Path) At(x float64) *Piece {
	lo, hi := 0, len(p)
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) / 2); p[mid].X <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return &p[lo]
}

// Integrate fills in the energy at the start of every piece but the first.
func (p Path) Integrate() {
	for i := 1; i < len(p); i++ {
		q, next := &p[i-1], &p[i]
		next.E = q.Energy(next.X - q.X)
	}
}
