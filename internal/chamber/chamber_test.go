package chamber

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/units"
)

// readable is a chamber as the textbook writes it, the oracle of this package.
type readable struct{ area, volume, pressure, ambient, n float64 }

func (c readable) force(x float64) float64 {
	return c.area * (c.pressure*math.Pow(c.volume/(c.volume-c.area*x), c.n) - c.ambient)
}

func (c readable) rate(x float64) float64 {
	v := c.volume - c.area*x
	return c.n * c.pressure * math.Pow(c.volume/v, c.n) * c.area * c.area / v
}

func (c readable) energy(x float64) float64 {
	v := c.volume - c.area*x
	if c.n == 1 {
		return c.pressure*c.volume*math.Log(c.volume/v) - c.ambient*c.area*x
	}
	return c.pressure*c.volume*math.Expm1((c.n-1)*math.Log(c.volume/v))/(c.n-1) - c.ambient*c.area*x
}

func (c readable) chamber() Chamber { return New(c.area, c.volume, c.pressure, c.ambient, c.n) }

const stroke = 0.3

// random is a chamber that keeps some gas over the stroke.
func random(r *rand.Rand, n float64) readable {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	area := between(-15e-4, 15e-4)
	return readable{area, max(area*stroke*between(1.02, 3), between(20e-6, 200e-6)), between(0.5e5, 60e5),
		between(0.5e5, 1.1e5), n}
}

// agree compares to rounding, by the scale of what was added up.
func agree(t *testing.T, what string, got, want, scale float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-14*scale) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestChamber(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for i := range 500 {
		want := random(r, []float64{1, 1 + 1e-9, 1.05, 1.3, 1.4, 5.0 / 3}[i%6])
		c := want.chamber()
		for x := 0.0; x <= stroke; x += stroke / 16 {
			gas, outer := want.force(x)+want.area*want.ambient, want.area*want.ambient // they may cancel
			scale := math.Abs(gas) + math.Abs(outer)
			agree(t, "force", c.Force(x), want.force(x), scale)
			agree(t, "rate", c.Rate(x), want.rate(x), 2*want.rate(x))
			agree(t, "energy", c.Energy(x), want.energy(x), scale*x+want.pressure*want.volume)
			if t.Failed() {
				t.Fatalf("%+v at %v", want, x)
			}
		}
	}
	var none Chamber
	if none.Force(0.1) != 0 || none.Rate(0.1) != 0 || none.Energy(0.1) != 0 {
		t.Error("the zero chamber has a force")
	}
}

func TestPairSharesItsPressure(t *testing.T) {
	const area, v1, p1, v2, p2, ambient = 9e-4, 300e-6, 6e5, 60e-6, 10e5, 1e5
	for _, n := range []float64{1, 1.3} {
		p := NewPair(area, v1, p1, v2, p2, ambient, n)
		main, second := New(area, v1, p1, ambient, n), 1.0
		for x := 0.0; x <= 0.25; x += 0.01 {
			pressure := p.Force(x)/area + ambient
			if x < p.Engage() {
				agree(t, "alone", p.Force(x), main.Force(x), p.Force(x))
				continue
			}
			// Each gas keeps its own p·Vⁿ; together they fill what the piston leaves.
			second = v2 * math.Pow(p2/pressure, 1/n)
			agree(t, "volume", v1*math.Pow(p1/pressure, 1/n)+second, v1+v2-area*x, 10*(v1+v2))
		}
		agree(t, "pressure where it engages", p.Force(p.Engage())/area+ambient, p2, 10*p2)
		agree(t, "energy where it engages", p.Energy(p.Engage()), main.Energy(p.Engage()), 100)
		if second == 1 {
			t.Error("the floating piston never left its stop")
		}
	}
}

// outsider is a curve of another package.
type outsider struct{ k, stroke float64 }

func (o outsider) Force(x units.Length) units.Force  { return units.Force(o.k * float64(x)) }
func (o outsider) Rate(units.Length) units.Stiffness { return units.Stiffness(o.k) }
func (o outsider) Energy(x units.Length) units.Energy {
	return units.Energy(o.k / 2 * float64(x) * float64(x))
}
func (o outsider) Stroke() units.Length { return units.Length(o.stroke) }

func TestSumIsTheSumOfItsParts(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	straight, bent := Path{{F: 30, K: 8000, C: 1e4}}, Path{{F: -90, K: 3000}, {X: 0.03}, {X: 0.1, K: 50, B: 1e4}}
	bent.Integrate()
	pair := NewPair(9e-4, 300e-6, 6e5, 60e-6, 10e5, 1e5, 1.3)
	for range 100 {
		chambers := []readable{random(r, 1.3), random(r, 1), random(r, 1.3), random(r, 1.4)}
		inner := NewSum(math.Inf(1))
		for _, c := range chambers {
			inner.AddChamber(c.chamber(), 0.5)
		}
		inner.AddPair(pair, 0.5)
		inner.AddPath(bent, 1)
		inner.AddCurve(outsider{k: 700, stroke: stroke}, 0.5)
		s := NewSum(1)
		s.AddPath(straight, -1)
		s.AddCurve(inner, 2)
		if s.Stroke() != stroke {
			t.Fatalf("stroke %v, want that of the shortest part", s.Stroke())
		}
		for x := 0.0; x <= stroke; x += stroke / 24 {
			force := 700*x - straight.Force(x) + 2*bent.Force(x) + pair.Force(x)
			rate := 700 - straight.Rate(x) + 2*bent.Rate(x) + pair.Rate(x)
			energy := 350*x*x - straight.Energy(x) + 2*bent.Energy(x) + pair.Energy(x)
			scale := 1e4
			for _, c := range chambers {
				force, rate, energy = force+c.force(x), rate+c.rate(x), energy+c.energy(x)
				scale += math.Abs(c.force(x)) + math.Abs(c.rate(x))
			}
			agree(t, "force", float64(s.Force(units.Length(x))), force, scale)
			agree(t, "rate", float64(s.Rate(units.Length(x))), rate, scale)
			agree(t, "energy", float64(s.Energy(units.Length(x))), energy, scale)
		}
		for _, x := range []units.Length{-1e-9, stroke + 1e-9, units.Length(math.NaN()), units.Length(math.Inf(1))} {
			if !math.IsNaN(float64(s.Force(x))) || !math.IsNaN(float64(s.Rate(x))) ||
				!math.IsNaN(float64(s.Energy(x))) {
				t.Errorf("a value at %v, outside the stroke", x)
			}
		}
		if n := testing.AllocsPerRun(10, func() { s.Force(0.1); s.Rate(0.1); s.Energy(0.1) }); n != 0 {
			t.Fatalf("%v allocations, want none", n)
		}
	}
}

// Many points at once are the same points one by one, whatever is asked for, to the rounding of
// another order of summation.
func TestEvaluate(t *testing.T) {
	s := NewSum(stroke)
	r := rand.New(rand.NewPCG(5, 6))
	for _, n := range []float64{1, 1.05, 1.3, 1.4} {
		s.AddChamber(random(r, n).chamber(), 1)
		s.AddChamber(random(r, n).chamber(), -2)
	}
	s.AddPair(NewPair(9e-4, 300e-6, 6e5, 60e-6, 10e5, 1e5, 1.3), 0.5)
	s.AddPath(Path{{F: -90, K: 3000}, {X: 0.03}}, 2)
	s.AddPath(Path{{F: 30, K: 8000}}, 1)
	s.AddCurve(outsider{k: 700, stroke: stroke}, 3)
	xs := []units.Length{-0.001, units.Length(math.NaN()), 2, units.Length(math.Inf(1))}
	for range 300 {
		xs = append(xs, units.Length(r.Float64()*stroke))
	}
	force, rate, energy := make([]units.Force, len(xs)), make([]units.Stiffness, len(xs)), make([]units.Energy, len(xs))
	same := func(what string, got, want float64) {
		if !(math.Abs(got-want) <= 1e-11 || math.IsNaN(got) && math.IsNaN(want)) {
			t.Fatalf("%s: %v, one by one %v", what, got, want)
		}
	}
	for name, evaluate := range map[string]func(){
		"together": func() { s.Evaluate(force, rate, energy, xs) },
		"one each": func() {
			s.Evaluate(force, nil, nil, xs)
			s.Evaluate(nil, rate, nil, xs)
			s.Evaluate(nil, nil, energy, xs)
		},
	} {
		clear(force)
		clear(rate)
		clear(energy)
		if n := testing.AllocsPerRun(2, evaluate); n != 0 {
			t.Errorf("%s: %v allocations, want none", name, n)
		}
		for i, x := range xs {
			same("force "+name, float64(force[i]), float64(s.Force(x)))
			same("rate "+name, float64(rate[i])/100, float64(s.Rate(x))/100)
			same("energy "+name, float64(energy[i]), float64(s.Energy(x)))
		}
	}
}

func TestSumWithoutStroke(t *testing.T) {
	empty := NewSum(1)
	empty.AddPath(nil, 1)
	for name, s := range map[string]*Sum{"zero": {}, "of an empty path": empty,
		"that ends before it starts": NewSum(-1)} {
		if s.Stroke() != 0 || !math.IsNaN(float64(s.Force(0))) {
			t.Errorf("the sum %s: stroke %v, force %v; want 0 and NaN", name, s.Stroke(), s.Force(0))
		}
	}
}
