package chamber

import (
	"example.org/forkcurve/internal/power"
	"example.org/forkcurve/internal/solve"
	"math"

	"example.org/forkcurve/units"
)

// Curve is what [Sum] is and takes: the interface of every spring.
type Curve interface {
	Force(x units.Length) units.Force
	Rate(x units.Length) units.Stiffness
	Energy(x units.Length) units.Energy
	Stroke() units.Length
}

// Sum is a whole fork in its fastest form: all springs that share a travel, flattened.
// Straight springs and the outer pressure on every piston are one piece, the chambers
// of one exponent share its table, and only curves of other packages stay behind their
// interface. Outside [0, Stroke] it is NaN.
//
// It is built by its Add methods, every part with a factor, and immutable once it is
// evaluated.
type Sum struct {
	stroke float64
	base   Piece
	gases  []gas
	pairs  []part[Pair]
	paths  []part[Path]
	curves []part[other]
}

type part[T any] struct {
	factor float64
	of     T
}

// other is a curve of another package in plain numbers.
type other struct{ Curve }

func (o other) Force(x float64) float64  { return float64(o.Curve.Force(units.Length(x))) }
func (o other) Rate(x float64) float64   { return float64(o.Curve.Rate(units.Length(x))) }
func (o other) Energy(x float64) float64 { return float64(o.Curve.Energy(units.Length(x))) }

// NewSum is a sum of nothing over a stroke, which may be infinite.
func NewSum(stroke float64) *Sum { return &Sum{stroke: stroke} }

// End makes the stroke end at x, if it does not end before. NaN leaves no stroke.
func (s *Sum) End(x float64) { s.stroke = min(s.stroke, x) }

// AddChamber adds a gas space.
func (s *Sum) AddChamber(c Chamber, factor float64) {
	if c.area == 0 {
		return
	}
	s.base.F -= factor * c.area * c.ambient
	s.addTerm(c.n, c.power, term{factor * c.area * c.pressure, c.shrink, factor * c.pressure * c.volume})
}

func (s *Sum) addTerm(n float64, p *power.Inverse, t term) {
	for i := range s.gases {
		if s.gases[i].n == n {
			s.gases[i].terms = append(s.gases[i].terms, t)
			return
		}
	}
	s.gases = append(s.gases, gas{n, p, append(make([]term, 0, 6), t)})
}

// AddPair adds a gas space with a floating piston in it.
func (s *Sum) AddPair(p Pair, factor float64) { s.pairs = append(s.pairs, part[Pair]{factor, p}) }

// AddPath adds a spring. A path of no pieces leaves no stroke.
func (s *Sum) AddPath(p Path, factor float64) {
	switch len(p) {
	case 0:
		s.stroke = math.NaN()
	case 1:
		s.addPiece(p[0], factor)
	default:
		s.paths = append(s.paths, part[Path]{factor, p})
	}
}

// addPiece adds a piece that holds from 0 on.
func (s *Sum) addPiece(p Piece, factor float64) {
	s.base.F += factor * p.F
	s.base.K += factor * p.K
	s.base.B += factor * p.B
	s.base.C += factor * p.C
}

// AddCurve adds any curve, whose stroke may end that of the sum. Another sum is taken
// apart.
func (s *Sum) AddCurve(c Curve, factor float64) {
	s.End(float64(c.Stroke()))
	o, ok := c.(*Sum)
	if !ok {
		s.curves = append(s.curves, part[other]{factor, other{c}})
		return
	}
	s.addPiece(o.base, factor)
	for _, g := range o.gases {
		for _, t := range g.terms {
			t.weight *= factor
			t.stored *= factor
			s.addTerm(g.n, g.power, t)
		}
	}
	s.pairs = scaled(s.pairs, o.pairs, factor)
	s.paths = scaled(s.paths, o.paths, factor)
	s.curves = scaled(s.curves, o.curves, factor)
}

func scaled[T any](to, from []part[T], factor float64) []part[T] {
	for _, p := range from {
		to = append(to, part[T]{factor * p.factor, p.of})
	}
	return to
}

// Stroke is the travel over which all parts hold; 0: none.
func (s *Sum) Stroke() units.Length {
	if s.stroke > 0 {
		return units.Length(s.stroke)
	}
	return 0
}

// within is x, NaN outside the stroke.
func (s *Sum) within(x units.Length) float64 {
	if x >= 0 && float64(x) <= s.stroke && s.stroke > 0 {
		return float64(x)
	}
	return math.NaN()
}

// Force at x.
func (s *Sum) Force(x units.Length) units.Force {
	at := s.within(x)
	f := s.base.Force(at)
	for i := range s.gases {
		f += s.gases[i].Force(at)
	}
	for i := range s.pairs {
		f += s.pairs[i].factor * s.pairs[i].of.Force(at)
	}
	for _, p := range s.paths {
		f += p.factor * p.of.Force(at)
	}
	for _, c := range s.curves {
		f += c.factor * c.of.Force(at)
	}
	return units.Force(f)
}

// Rate at x.
func (s *Sum) Rate(x units.Length) units.Stiffness {
	at := s.within(x)
	k := s.base.Rate(at)
	for i := range s.gases {
		k += s.gases[i].Rate(at)
	}
	for i := range s.pairs {
		k += s.pairs[i].factor * s.pairs[i].of.Rate(at)
	}
	for _, p := range s.paths {
		k += p.factor * p.of.Rate(at)
	}
	for _, c := range s.curves {
		k += c.factor * c.of.Rate(at)
	}
	return units.Stiffness(k)
}

// Equilibrium is the travel at which the sum carries a load between the forces at its
// ends, sought from a guess. It reports false where a part has no number.
func (s *Sum) Equilibrium(load, guess float64) (float64, bool) {
	return solve.Newton(func(x float64) (float64, float64) {
		f, k := s.slope(x)
		return f - load, k
	}, 0, s.stroke, guess, Tolerance)
}

// slope is force and rate at x from one power a chamber.
func (s *Sum) slope(x float64) (f, k float64) {
	f, k = s.base.Force(x), s.base.Rate(x)
	for i := range s.gases {
		fi, ki := s.gases[i].slope(x)
		f, k = f+fi, k+ki
	}
	for i := range s.pairs {
		p := &s.pairs[i]
		f, k = f+p.factor*p.of.Force(x), k+p.factor*p.of.Rate(x)
	}
	for _, p := range s.paths {
		f, k = f+p.factor*p.of.Force(x), k+p.factor*p.of.Rate(x)
	}
	for _, c := range s.curves {
		f, k = f+c.factor*c.of.Force(x), k+c.factor*c.of.Rate(x)
	}
	return f, k
}

// Tolerance of a travel found by iteration, far below what a caliper sees.
const Tolerance = 1e-9

// Energy at x.
func (s *Sum) Energy(x units.Length) units.Energy {
	at := s.within(x)
	e := s.base.Energy(at)
	for i := range s.gases {
		e += s.gases[i].Energy(at)
	}
	for i := range s.pairs {
		e += s.pairs[i].factor * s.pairs[i].of.Energy(at)
	}
	for _, p := range s.paths {
		e += p.factor * p.of.Energy(at)
	}
	for _, c := range s.curves {
		e += c.factor * c.of.Energy(at)
	}
	return units.Energy(e)
}
