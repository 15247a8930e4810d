// Package curvetest holds every implementation of spring.Curve to the promises
// of the interface, with gonum's finite differences and quadrature as referees. Its
// checks may run in parallel.
package curvetest

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/integrate/quad"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Contract checks c over its stroke. Kinks are the travels where its rate jumps.
func Contract(t *testing.T, c spring.Curve, kinks ...units.Length) {
	t.Helper()
	end := c.Stroke()
	if !(end > 0) || math.IsInf(float64(end), 0) {
		t.Fatalf("Stroke() = %v, want a positive length", end)
	}
	if e := c.Energy(0); e != 0 {
		t.Errorf("Energy(0) = %v, want 0", e)
	}
	outside(t, c, -1e-12, end*(1+1e-12)+1e-12, units.Length(math.NaN()), units.Length(math.Inf(1)),
		units.Length(math.Inf(-1)))
	force := func(x float64) float64 { return float64(c.Force(units.Length(x))) }
	scale := 1 + math.Abs(force(0)) + math.Abs(force(float64(end)))

	const steps = 40
	for i := range steps + 1 {
		x := min(end, end*units.Length(i)/steps)
		p := spring.At(c, x)
		if !finite(float64(p.Force), float64(p.Rate), float64(p.Energy)) {
			t.Fatalf("at %v: %+v is not finite", x, p)
		}
		h := 1e-4 * end
		if x < 2*h || x > end-2*h || near(x, kinks, 2*h) {
			continue
		}
		slope := fd.Derivative(force, float64(x), &fd.Settings{Formula: fd.Central, Step: float64(h)})
		if got := float64(p.Rate); math.Abs(got-slope) > 1e-5*(math.Abs(slope)+scale/float64(end)) {
			t.Errorf("Rate(%v) = %v, finite differences of Force say %v", x, got, slope)
		}
	}

	// To the right of the start and of every kink. The nudge passes a kink that
	// rounding has moved.
	for _, k := range append([]units.Length{0}, kinks...) {
		h, x := 1e-5*end, k
		if k > 0 {
			x += 1e-9 * end
		}
		if k < 0 || k > end-4*h {
			continue
		}
		slope := (4*force(float64(x+h)) - force(float64(x+2*h)) - 3*force(float64(x))) / (2 * float64(h))
		if got := float64(c.Rate(x)); math.Abs(got-slope) > 1e-4*(math.Abs(slope)+scale/float64(end)) {
			t.Errorf("Rate(%v) = %v, to the right the force rises by %v", x, got, slope)
		}
	}

	var sum float64
	from := units.Length(0)
	for _, to := range append(append([]units.Length{}, kinks...), end) {
		if to <= from || to > end {
			continue
		}
		sum += quad.Fixed(force, float64(from), float64(to), 200, quad.Legendre{}, 0)
		if got := float64(c.Energy(to)); math.Abs(got-sum) > 1e-8*scale*float64(end) {
			t.Errorf("Energy(%v) = %v, quadrature of Force says %v", to, got, sum)
		}
		from = to
	}

	points := spring.Sample(c, steps+1)
	for _, p := range points {
		for what, pair := range map[string][2]float64{"Force": {float64(p.Force), float64(c.Force(p.Travel))},
			"Rate":   {float64(p.Rate), float64(c.Rate(p.Travel))},
			"Energy": {float64(p.Energy), float64(c.Energy(p.Travel))}} {
			if math.Abs(pair[0]-pair[1]) > 1e-12*(scale+math.Abs(pair[1])) {
				t.Errorf("%s(%v) = %v, in bulk %v", what, p.Travel, pair[1], pair[0])
			}
		}
	}

	x := end / 3
	shared.Read(t, func() any { return []spring.Point{spring.At(c, 0), spring.At(c, x), spring.At(c, end)} })
	if n := testing.AllocsPerRun(10, func() { c.Force(x); c.Rate(x); c.Energy(x); c.Stroke() }); n != 0 {
		t.Errorf("%v allocations per evaluation, want none", n)
	}
}

// Rising checks that the force grows strictly over the stroke, as that of every
// stable fork does.
func Rising(t *testing.T, c spring.Curve) {
	t.Helper()
	points := spring.Sample(c, 200)
	for i, p := range points[1:] {
		if !(p.Force > points[i].Force) {
			t.Fatalf("Force falls from %v at %v to %v at %v", points[i].Force, points[i].Travel, p.Force, p.Travel)
		}
	}
}

func outside(t *testing.T, c spring.Curve, travels ...units.Length) {
	t.Helper()
	for _, x := range travels {
		if p := spring.At(c, x); finite(float64(p.Force)) || finite(float64(p.Rate)) || finite(float64(p.Energy)) {
			t.Errorf("outside the stroke, at %v: %+v, want NaN", x, p)
		}
	}
}

func near(x units.Length, kinks []units.Length, h units.Length) bool {
	for _, k := range kinks {
		if x > k-h && x < k+h {
			return true
		}
	}
	return false
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
