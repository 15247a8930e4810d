package setup

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/propagate"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter
	mL = units.Milliliter
)

var workshop = gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(0.985 * units.Bar)}

// converted is the main job of the README: one coil and its gas beside the leg of the damper.
func converted() Spec {
	gap := func(residual units.Volume) *Gap {
		return &Gap{Area: geometry.Circle(48*mm) - geometry.Circle(12*mm), Residual: residual}
	}
	return Spec{Travel: 305 * mm, Closed: workshop, Friction: 63,
		Left: Leg{Gap: gap(155 * mL), Springs: []spring.Spec{spring.CoilSpec{Rate: 8.4 * units.NewtonPerMillimeter,
			Preload: 4 * mm, FreeLength: 616 * mm, SolidLength: 252 * mm}}},
		Right: Leg{Gap: gap(285 * mL)}}
}

func air() *Air {
	return &Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * mL, Reducers: 10 * mL, NegativeVolume: 60 * mL, Port: 5 * mm,
		Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: gas.Ambient{Temperature: units.Celsius(26),
			Pressure: units.Absolute(1 * units.Bar)}}}
}

// everything is uncertain.
func everything() Tolerance {
	t := Usual()
	t.Rider, t.Stance, t.Chambers, t.FreeLength, t.Friction = 4, 31, 0.06, 3*mm, 19
	return t
}

func asked() Question {
	return Question{Load: 690, Exponent: 1.3, There: gas.Ambient{Temperature: units.Celsius(4),
		Pressure: units.Absolute(0.747 * units.Bar)}}
}

// Many forks at once are those forks one by one, whatever they hold.
func TestBatchIsItsForks(t *testing.T) {
	forks := map[string]Spec{"converted": converted()}
	s := converted()
	s.Left.Springs, s.Left.Air = nil, air()
	forks["air"] = s
	own := *air()
	own.NegativeGauge = units.Gauge(9.2 * units.Bar)
	s.Left.Air = &own
	s.Right.Damper = &Damper{Rod: 12 * mm, Volume: 70 * mL, Fill: gas.Fill{Gauge: units.Gauge(4 * units.Bar),
		Ambient: workshop}}
	s.Left.Springs = []spring.Spec{spring.TopOutSpec{Rate: 3.2 * units.NewtonPerMillimeter, Length: 112 * mm}}
	forks["own negative, balance spring, damper gas"] = s
	s = converted()
	s.Left.Springs = []spring.Spec{spring.CoilSpec{Rate: 8.4 * units.NewtonPerMillimeter, Preload: 0.2 * mm,
		FreeLength: 616 * mm, SolidLength: 310 * mm}}
	s.Left.Gap.Residual = 14 * mL
	forks["at its edges: loose, bound, nearly locked"] = s
	linked := *air()
	linked.Linked = 90 * mL
	s = converted()
	s.Left.Springs, s.Left.Air = nil, &linked
	forks["chambers that share their gas"] = s
	stiff := func(springs ...spring.Spec) Spec {
		s := converted()
		s.Left.Springs = springs
		return s
	}
	const perMM = units.NewtonPerMillimeter
	wound := spring.RateTableSpec{Preload: 4 * mm, Rates: []spring.RatePoint{{Rate: 7 * perMM},
		{Compression: 150 * mm, Rate: 8.5 * perMM}, {Compression: 360 * mm, Rate: 10 * perMM}}}
	forks["progressive spring, whose rate errs"] = stiff(wound)
	wound.Rates[2].Compression = 280 * mm
	forks["progressive spring that ends before the fork"] = stiff(wound, spring.CoilSpec{Rate: 1 * perMM})
	forks["coil of no known length"] = stiff(spring.CoilSpec{Rate: 8.4 * perMM, Preload: 4 * mm})
	s = stiff(spring.CoilSpec{Rate: 8.4 * perMM, Preload: -10 * mm})
	s.Left.Gap = nil
	s.Right.Gap = nil
	forks["loose coil alone"] = s
	s = stiff(spring.CoilSpec{Rate: 2.3 * perMM, Preload: 4 * mm})
	s.Left.Gap, s.Right.Gap = nil, nil
	forks["all but at its end"] = s
	s = converted()
	s.Left.Springs, s.Right.Air = nil, air()
	forks["air in the right leg"] = s
	forks["coil that the sag may reach or not"] = stiff(spring.CoilSpec{Rate: 17 * perMM, Preload: 4 * mm},
		spring.CoilSpec{Rate: 5 * perMM, Preload: -31 * mm})
	for name, s := range forks {
		t.Run(name, func(t *testing.T) {
			q := asked()
			if name == "air in the right leg" {
				q.Exponent = 1.02 // which half of the errors take to 1
			}
			m, err := s.model(q, everything())
			if err != nil {
				t.Fatal(err)
			}
			n := propagate.Size - 3
			make2 := func(rows int) [][]float64 {
				list := make([][]float64, rows)
				for i := range list {
					list[i] = make([]float64, n)
				}
				return list
			}
			x, many, single := make2(len(m.inputs)), make2(3), make2(3)
			r := rand.New(rand.NewPCG(3, 3))
			for i, in := range m.inputs {
				for s := range x[i] {
					x[i][s] = 1.5 * in.u * r.NormFloat64()
				}
			}
			ok, same := make([]bool, n), make([]bool, n)
			m.batch()(x, many, ok)
			propagate.Single(m.one(), len(m.inputs), 3)(x, single, same)
			for s := range ok {
				if ok[s] != same[s] {
					t.Fatalf("sample %d: %v, by itself %v", s, ok[s], same[s])
				}
				for j, scale := range []float64{0.1, 500, 0.1} {
					if ok[s] && !(math.Abs(many[j][s]-single[j][s]) <= 1e-9*scale) {
						t.Fatalf("sample %d, answer %d: %.15g, by itself %.15g", s, j, many[j][s], single[j][s])
					}
				}
			}
		})
	}
}

// Forks well within their limits are answered all at once: none is left to be worked out by itself.
func TestBatchAnswersItself(t *testing.T) {
	ported, valved := *air(), *air()
	valved.NegativeGauge = units.Gauge(9.2 * units.Bar)
	onAir := func(a *Air) Spec {
		s := converted()
		s.Left.Springs, s.Left.Air = nil, a
		return s
	}
	balanced := onAir(&valved)
	balanced.Left.Springs = []spring.Spec{spring.TopOutSpec{Rate: 3.2 * units.NewtonPerMillimeter, Length: 112 * mm}}
	short := converted()
	short.Left.Springs = []spring.Spec{spring.CoilSpec{Rate: 8.4 * units.NewtonPerMillimeter, Preload: 4 * mm}}
	for name, s := range map[string]Spec{"coil": converted(), "port": onAir(&ported), "valve": onAir(&valved),
		"balance spring": balanced, "coil of no known length": short} {
		known, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		m, err := s.model(asked(), everything())
		if err != nil {
			t.Fatal(err)
		}
		alone := 0
		b := newBatch(known, func(x, y []float64) bool { alone++; return m.one()(x, y) }, m.inputs, asked(), everything())
		if b == nil {
			t.Fatalf("%s: no batch", name)
		}
		const n = 64
		rows := func(k int) [][]float64 {
			list := make([][]float64, k)
			for i := range list {
				list[i] = make([]float64, n)
			}
			return list
		}
		x, y, ok := rows(len(m.inputs)), rows(3), make([]bool, n)
		r := rand.New(rand.NewPCG(5, 7))
		for i, in := range m.inputs {
			for s := range x[i] {
				x[i][s] = 0.5 * in.u * r.NormFloat64()
			}
		}
		b.evaluate(x, y, ok)
		if alone > 0 {
			t.Errorf("%s: %d of %d forks were worked out by themselves", name, alone, n)
		}
	}
}

// A progressive spring is one curve, unless its own numbers err.
func TestBatchOfProgressiveSprings(t *testing.T) {
	s := converted()
	wound := spring.RateTableSpec{Preload: 4 * mm, Rates: []spring.RatePoint{{Rate: 7000},
		{Compression: 400 * mm, Rate: 10000}}}
	s.Left.Springs = []spring.Spec{wound}
	known, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		tolerance Tolerance
		batch     bool
	}{
		"load": {Tolerance{Load: 10}, true}, "rate": {Tolerance{Rate: 0.01}, false},
		"preload": {Tolerance{Preload: 1 * mm}, false}, "free length": {Tolerance{FreeLength: 1 * mm}, false},
	} {
		m, err := s.model(asked(), c.tolerance)
		if err != nil {
			t.Fatal(err)
		}
		if b := newBatch(known, m.one(), m.inputs, asked(), c.tolerance); (b != nil) != c.batch {
			t.Errorf("%s: a batch %v", name, b != nil)
		}
	}
	wound.Rates[1].Compression = 300 * mm // ends before the fork
	s.Left.Springs = []spring.Spec{wound}
	if known, err = New(s); err != nil {
		t.Fatal(err)
	}
	if newBatch(known, nil, nil, asked(), Tolerance{}) != nil {
		t.Error("a batch of forks that end before their travel")
	}
}

// BenchmarkSample is a million samples of the main job, on as many processors as -cpu says.
func BenchmarkSample(b *testing.B) {
	s, q, t := converted(), asked(), everything()
	for b.Loop() {
		if _, err := s.Sample(context.Background(), q, t, 1_000_000, 1); err != nil {
			b.Fatal(err)
		}
	}
}
