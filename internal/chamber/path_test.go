package chamber

import (
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// cubic is 20 N + 300·x + 4000·x² + 50 000·x³ in three pieces, each begun anew where it starts.
func cubic() Path {
	value := func(x float64) (f, k, b float64) {
		return 20 + x*(300+x*(4000+x*50e3)), 300 + x*(8000+x*150e3), 4000 + 150e3*x
	}
	var p Path
	for _, x := range []float64{0, 0.07, 0.19} {
		f, k, b := value(x)
		p = append(p, Piece{X: x, F: f, K: k, B: b, C: 50e3})
	}
	p.Integrate()
	return p
}

func TestPathIsOneCubic(t *testing.T) {
	p := cubic()
	for x := 0.0; x <= 0.3; x += 0.004 {
		agree(t, "force", p.Force(x), 20+x*(300+x*(4000+x*50e3)), 1e4)
		agree(t, "rate", p.Rate(x), 300+x*(8000+x*150e3), 1e5)
		agree(t, "energy", p.Energy(x), x*(20+x*(150+x*(4000.0/3+x*50e3/4))), 1e3)
	}
	for x, want := range map[float64]float64{0: 0, 0.0699: 0, 0.07: 0.07, 0.1: 0.07, 0.19: 0.19, 9: 0.19} {
		if got := p.At(x).X; got != want {
			t.Errorf("at %v the piece from %v", x, got)
		}
	}
}

// A sum is its parts with their factors, one point after another and in bulk, whatever they are.
func TestSumWithFactors(t *testing.T) {
	coil := Path{{F: 30, K: 9e3, B: 700, C: -400}}
	bent := cubic()
	gases := []readable{{12e-4, 700e-6, 5e5, 1e5, 1}, {-8e-4, 90e-6, 6e5, 1e5, 1.3}, {12e-4, 900e-6, 7e5, 1e5, 1.3},
		{16e-4, 0.3 * 16e-4 * 1.0005, 1e5, 1e5, 1.3}} // compressed two thousand times at the end
	var s Sum
	s.Restart(0.3)
	s.AddPath(coil, 2)
	s.AddPath(bent, -0.5)
	inner := NewSum(0.4)
	for i, g := range gases {
		inner.AddChamber(g.chamber(), 1+float64(i)/4)
	}
	pair := NewPair(9e-4, 300e-6, 6e5, 60e-6, 10e5, 1e5, 1.3)
	inner.AddPair(pair, 3)
	inner.AddPath(coil, 1)
	s.AddCurve(inner, 0.8)
	want := func(x float64) (f, k, e float64) {
		at := func(of func(*Piece, float64) float64) float64 { return (2 + 0.8) * of(&coil[0], x) }
		f, k, e = at((*Piece).Force), at((*Piece).Rate), at((*Piece).Energy)
		f, k, e = f-0.5*bent.Force(x), k-0.5*bent.Rate(x), e-0.5*bent.Energy(x)
		for i, g := range gases {
			w := 0.8 * (1 + float64(i)/4)
			f, k, e = f+w*g.force(x), k+w*g.rate(x), e+w*g.energy(x)
		}
		return f + 0.8*3*pair.Force(x), k + 0.8*3*pair.Rate(x), e + 0.8*3*pair.Energy(x)
	}
	var xs []units.Length
	for i := range 301 {
		xs = append(xs, units.Length(i)*0.001)
	}
	force, rate, energy := make([]units.Force, len(xs)), make([]units.Stiffness, len(xs)), make([]units.Energy, len(xs))
	s.Evaluate(force, rate, energy, xs)
	alone := make([]units.Force, len(xs))
	s.Evaluate(alone, nil, nil, xs)
	both, slope := make([]units.Force, len(xs)), make([]units.Stiffness, len(xs))
	s.Evaluate(both, slope, nil, xs)
	steep := make([]units.Stiffness, len(xs))
	s.Evaluate(nil, steep, nil, xs)
	stored := make([]units.Energy, len(xs))
	s.Evaluate(nil, nil, stored, xs)
	for i, at := range xs {
		x := float64(at)
		f, k, e := want(x)
		close := func(what string, got, want, scale float64) {
			t.Helper()
			if !(math.Abs(got-want) <= 1e-11*scale) {
				t.Fatalf("%s at %v: %v, want %v", what, x, got, want)
			}
		}
		close("force", float64(s.Force(at)), f, 1e4+math.Abs(f))
		close("rate", float64(s.Rate(at)), k, 1e6+math.Abs(k))
		close("energy", float64(s.Energy(at)), e, 1e3+math.Abs(e))
		close("force in bulk", float64(force[i]), f, 1e4+math.Abs(f))
		close("rate in bulk", float64(rate[i]), k, 1e6+math.Abs(k))
		close("energy in bulk", float64(energy[i]), e, 1e3+math.Abs(e))
		close("force alone", float64(alone[i]), f, 1e4+math.Abs(f))
		close("force with rate", float64(both[i]), f, 1e4+math.Abs(f))
		close("rate with force", float64(slope[i]), k, 1e6+math.Abs(k))
		close("rate alone", float64(steep[i]), k, 1e6+math.Abs(k))
		close("energy alone", float64(stored[i]), e, 1e3+math.Abs(e))
	}
	for _, load := range []float64{float64(s.Force(0.02)), float64(s.Force(0.11)), float64(s.Force(0.27))} {
		x, ok := s.Equilibrium(load, 0.1)
		if f := float64(s.Force(units.Length(x))); !ok || !(math.Abs(f-load) <= 1e-3) {
			t.Errorf("%v N carried at %v with %v N", load, x, f)
		}
	}
}

// A chamber tells its own pressure and volume.
func TestChamberTells(t *testing.T) {
	c := readable{12e-4, 700e-6, 5e5, 1e5, 1.3}.chamber()
	for _, x := range []float64{0, 0.1, 0.3} {
		agree(t, "volume", c.Volume(x), 700e-6-12e-4*x, 1e-3)
		agree(t, "pressure", c.Pressure(x), 5e5*math.Pow(700e-6/(700e-6-12e-4*x), 1.3), 1e6)
	}
}
