package spring_test

import (
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

func TestEquilibrium(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	for _, test := range []struct {
		name string
		load units.Force
		want units.Length
	}{
		{"on the straight part", 9 * 64 * units.Newton, 60 * mm}, // k·(x + p) by hand
		{"below the preload the fork stays topped out", 20 * units.Newton, 0},
		{"a pull", -50 * units.Newton, 0},
		{"exactly the force at full travel", 9 * 309 * units.Newton, 305 * mm},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, err := spring.Equilibrium(c, test.load)
			if err != nil || !(math.Abs(float64(got-test.want)) <= 2e-9) {
				t.Errorf("Equilibrium(%v) = %v, %v; want %v", test.load, got, err, test.want)
			}
		})
	}
}

func TestEquilibriumInvertsForce(t *testing.T) {
	c := must[spring.Air](t)(spring.NewAir(air))
	for _, want := range []units.Length{1 * mm, 66 * mm, 200 * mm, 304 * mm} {
		got, err := spring.Equilibrium(c, c.Force(want))
		if err != nil || !(math.Abs(float64(got-want)) <= 2e-9) {
			t.Errorf("Equilibrium(Force(%v)) = %v, %v", want, got, err)
		}
	}
}

// Kinks, a fall of the rate and a steep end: the travel comes back, alone and as part of a fork.
func TestEquilibriumAcrossKinks(t *testing.T) {
	piston, stop := must[spring.FloatingPiston](t)(spring.NewFloatingPiston(second)),
		must[spring.TopOut](t)(spring.NewTopOut(topOut))
	dual, rubber := must[spring.Stack](t)(spring.NewStack(stack)),
		must[spring.BumpStop](t)(spring.NewBumpStop(bumpStop))
	for name, c := range map[string]spring.Curve{
		"floating piston": piston, "stack": dual, "fork": spring.Parallel(piston, stop, dual),
		"with a bump stop": spring.Parallel(dual, rubber), "series": spring.Series(piston, dual),
	} {
		for i := range 200 {
			want := c.Stroke() * units.Length(i+1) / 201
			got, err := spring.Equilibrium(c, c.Force(want))
			if err != nil || !(math.Abs(float64(got-want)) <= 1e-9) {
				t.Fatalf("%s: Equilibrium(Force(%v)) = %v, %v", name, want, got, err)
			}
		}
		for _, kink := range []units.Length{piston.Engage(), 45 * mm, dual.Crossover(), 130 * mm} {
			kink = min(kink, c.Stroke())
			if got, err := spring.Equilibrium(c, c.Force(kink)); err != nil || !(math.Abs(float64(got-kink)) <= 1e-9) {
				t.Errorf("%s, at a kink: %v, %v; want %v", name, got, err, kink)
			}
		}
	}
}

func TestEquilibriumRefuses(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	for _, test := range []struct {
		name  string
		curve spring.Curve
		load  units.Force
	}{
		{"more than the spring carries", c, 4 * units.Kilonewton},
		{"no number", c, units.Force(math.NaN())},
		{"no end", c, units.Force(math.Inf(1))},
		{"no spring", spring.Parallel(), 100},
	} {
		t.Run(test.name, func(t *testing.T) {
			x, err := spring.Equilibrium(test.curve, test.load)
			var out *units.RangeError
			if !errors.As(err, &out) {
				t.Errorf("Equilibrium = %v, %v; want a *units.RangeError", x, err)
			}
		})
	}
}

func TestCompare(t *testing.T) {
	a := must[spring.Coil](t)(spring.NewCoil(coil))
	stiffer := coil
	stiffer.Rate = 10 * units.NewtonPerMillimeter
	stiffer.Travel = 200 * mm
	b := must[spring.Coil](t)(spring.NewCoil(stiffer))
	d := spring.Compare(a, b, 101)
	if d.Stroke != 200*mm {
		t.Errorf("shared stroke %v, want 200 mm", d.Stroke)
	}
	// 1 N/mm more over 204 mm of compression, by hand.
	if got := d.Largest; got.Travel != 200*mm || !(math.Abs(float64(got.Force)-204) <= 1e-9) {
		t.Errorf("largest difference %+v, want 204 N at 200 mm", got)
	}
	// Second less first, at each of them: 1 N/mm more, and the energy of that over travel and preload of 4 mm.
	var squares float64
	for i, p := range d.Points {
		x := 2 * float64(i) // mm
		if !(math.Abs(p.Travel.In(mm)-x) <= 1e-12) || !(math.Abs(float64(p.Force)-(x+4)) <= 1e-9) ||
			!(math.Abs(p.Rate.In(newtonPerMM)-1) <= 1e-12) || !(math.Abs(float64(p.Energy)-x*(x/2+4)/1e3) <= 1e-9) {
			t.Errorf("difference at %v mm: %+v", x, p)
		}
		squares += (x + 4) * (x + 4)
	}
	if want := math.Sqrt(squares / 101); len(d.Points) != 101 || !(math.Abs(float64(d.RMS)-want) <= 1e-9) {
		t.Errorf("RMS %v of %d points, want %v", d.RMS, len(d.Points), want)
	}
	if back := spring.Compare(b, a, 101); !(back.Largest.Force == -d.Largest.Force) || back.RMS != d.RMS {
		t.Errorf("the other way round %+v", back.Largest)
	}
	if d := spring.Compare(a, spring.Parallel(), 10); d.Points != nil || d.Stroke != 0 {
		t.Errorf("comparison with nothing = %+v, want the zero Difference", d)
	}
	for _, nothing := range []spring.Curve{nil, spring.Parallel(), window{Curve: a}} {
		if d := spring.Compare(nothing, a, 10); d.Points != nil || d.Stroke != 0 {
			t.Errorf("comparison of nothing = %+v, want the zero Difference", d)
		}
	}
	// Softer at first and harder at the end, where it differs less.
	late := must[spring.TopOut](t)(spring.NewTopOut(topOut))
	if d := spring.Compare(a, spring.Parallel(a, late, late), 101); d.Largest.Travel != 0 ||
		!close(float64(d.Largest.Force), -450, 1e-12) {
		t.Errorf("largest difference %+v, want −450 N at full extension", d.Largest)
	}
	if d := spring.Compare(a, nil, 10); d.Points != nil {
		t.Errorf("comparison with no curve = %+v, want the zero Difference", d)
	}
	if d := spring.Compare(a, b, 1); d.Points != nil {
		t.Errorf("comparison at one point = %+v, want the zero Difference", d)
	}
}
