package chamber

import (
	"math"

	"example.org/forkcurve/internal/solve"
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
// Straight springs and the ambient on every piston are one piece, the chambers of one
// exponent share its table, and only what is neither stays a part of its own. Outside
// [0, Stroke] it is NaN.
//
// It is built by its Add methods, every part with a factor, and immutable once it is
// evaluated.
type Sum struct {
	stroke float64
	base   Piece
	gases  []gas
	parts  []part
	room   struct { // for the chambers of most forks, so that they cost no allocation
		gases [1]gas
		terms [6]term
	}
}

// element is a spring in plain numbers.
type element interface {
	Force(x float64) float64
	Rate(x float64) float64
	Energy(x float64) float64
}

// part is an element and what it is multiplied by.
type part struct {
	element
	factor float64
}

// foreign is a curve of another package as an element.
type foreign struct{ Curve }

func (c foreign) Force(x float64) float64  { return float64(c.Curve.Force(units.Length(x))) }
func (c foreign) Rate(x float64) float64   { return float64(c.Curve.Rate(units.Length(x))) }
func (c foreign) Energy(x float64) float64 { return float64(c.Curve.Energy(units.Length(x))) }

// NewSum is a sum of nothing over a stroke, which may be infinite.
func NewSum(stroke float64) *Sum { return &Sum{stroke: stroke} }

// Restart makes it a sum of nothing over a stroke, whatever it was.
func (s *Sum) Restart(stroke float64) { *s = Sum{stroke: stroke} }

// End makes the stroke end at x, if it does not end before. NaN leaves no stroke.
func (s *Sum) End(x float64) { s.stroke = min(s.stroke, x) }

// AddChamber adds a gas space.
func (s *Sum) AddChamber(c Chamber, factor float64) {
	if c.slope != 0 {
		s.base.F -= factor * c.ambient
		s.addTerm(c.polytrope, c.term, factor)
	}
}

func (s *Sum) addTerm(p polytrope, t term, factor float64) {
	t.weight *= factor
	t.stored *= factor
	for i := range s.gases {
		if g := &s.gases[i]; g.n == p.n {
			g.terms = append(g.terms, t)
			return
		}
	}
	if s.gases == nil {
		s.gases = append(s.room.gases[:0], gas{p, append(s.room.terms[:0], t)})
		return
	}
	s.gases = append(s.gases, gas{p, []term{t}})
}

// AddPair adds a gas space with a floating piston in it.
func (s *Sum) AddPair(p Pair, factor float64) { s.parts = append(s.parts, part{&p, factor}) }

// AddPath adds a spring. A path of no pieces leaves no stroke.
func (s *Sum) AddPath(p Path, factor float64) {
	switch len(p) {
	case 0:
		s.stroke = math.NaN()
	case 1:
		s.addPiece(p[0], factor)
	default:
		s.parts = append(s.parts, part{p, factor})
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
		s.parts = append(s.parts, part{foreign{c}, factor})
		return
	}
	s.addPiece(o.base, factor)
	for _, g := range o.gases {
		for _, t := range g.terms {
			s.addTerm(g.polytrope, t, factor)
		}
	}
	for _, p := range o.parts {
		s.parts = append(s.parts, part{p.element, factor * p.factor})
	}
}

// Stroke is the travel over which all parts hold; 0: none.
func (s *Sum) Stroke() units.Length {
	if s.stroke > 0 {
		return units.Length(s.stroke)
	}
	return 0
}

// end is where the stroke ends, NaN if there is none.
func (s *Sum) end() float64 {
	if s.stroke > 0 {
		return s.stroke
	}
	return math.NaN()
}

// within is x, NaN outside [0, end].
func within(x units.Length, end float64) float64 {
	if x >= 0 && float64(x) <= end {
		return float64(x)
	}
	return math.NaN()
}

// Force at x.
func (s *Sum) Force(x units.Length) units.Force {
	at := within(x, s.end())
	f := s.base.Force(at)
	for i := range s.gases {
		f += s.gases[i].Force(at)
	}
	for _, p := range s.parts {
		f += p.factor * p.Force(at)
	}
	return units.Force(f)
}

// Rate at x.
func (s *Sum) Rate(x units.Length) units.Stiffness {
	_, k := s.slope(within(x, s.end()))
	return units.Stiffness(k)
}

// Energy at x.
func (s *Sum) Energy(x units.Length) units.Energy {
	at := within(x, s.end())
	e := s.base.Energy(at)
	for i := range s.gases {
		e += s.gases[i].Energy(at)
	}
	for _, p := range s.parts {
		e += p.factor * p.Energy(at)
	}
	return units.Energy(e)
}

// slope is force and rate at x.
func (s *Sum) slope(x float64) (f, k float64) {
	f, k = s.base.Force(x), s.base.Rate(x)
	for i := range s.gases {
		fi, ki := s.gases[i].slope(x)
		f, k = f+fi, k+ki
	}
	for _, p := range s.parts {
		f, k = f+p.factor*p.Force(x), k+p.factor*p.Rate(x)
	}
	return f, k
}

// Tolerance of a travel found by iteration, far below what a caliper sees.
const Tolerance = 1e-9

// Equilibrium is the travel at which the sum carries a load between the forces at its
// ends, sought from a guess. It reports false where a part has no number.
func (s *Sum) Equilibrium(load, guess float64) (float64, bool) {
	return solve.Newton(func(x float64) (float64, float64) {
		f, k := s.slope(x)
		return f - load, k
	}, 0, s.stroke, guess, Tolerance)
}
