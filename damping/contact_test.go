package damping

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/units"
)

// randomStack is a taper, or a stack with small shims between large ones.
func randomStack(r *rand.Rand) []Plate {
	var shims []Plate
	for range 2 + r.IntN(6) {
		shims = append(shims, newPlate(PlateSpec{Outer: units.Length(12+float64(r.IntN(20))) * mm, Inner: 10 * mm,
			Thickness: units.Length(1+r.IntN(3)) * 0.1 * mm, Young: 206e9, Poisson: 0.3, OuterEdge: Free,
			InnerEdge: Clamped}))
	}
	return shims
}

// Signorini's conditions, which have one solution: no pull, no overlap, and no force across a gap.
func TestContactPressesAndNeverOverlaps(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		shims := randomStack(r)
		seat := 2 * shims[0].outer
		c := newContact(shims, Load{Pressure: 1, From: 11 * mm, To: units.Length(seat)}, units.Length(seat))
		forces := c.solve()
		var wide float64
		for _, gap := range c.gaps {
			wide = max(wide, math.Abs(gap))
		}
		for p, f := range forces {
			gap := c.gaps[p]
			for j := range c.widens[p] {
				gap += c.widens[p][j] * forces[c.near[p][0]+j]
			}
			if f < 0 || gap < -1e-9*wide || f > 0 && gap > 1e-9*wide {
				t.Fatalf("%v\nplace %+v: force %v, gap %v of %v", shims, c.places[p], f, gap, wide)
			}
		}
	}
}

// Shims may press at their own edges, those of their neighbors and the given ones, and are looked at evenly between.
func TestContactCircles(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		shims := randomStack(r)
		for k := range len(shims) - 1 {
			inner, outer := shims[k].inner, min(shims[k].outer, shims[k+1].outer)
			also := units.Length(2 * (inner + (outer-inner)*(0.1+0.9*r.Float64())))
			radii := circles(shims, k, []units.Length{also})
			step := (outer - inner) / 16
			wanted := []float64{float64(also) / 2, outer}
			for _, shim := range shims[max(0, k-1):min(len(shims), k+3)] {
				if shim.outer < outer {
					wanted = append(wanted, shim.outer)
				}
			}
			for _, want := range wanted {
				near := math.Inf(1)
				for _, r := range radii {
					near = min(near, math.Abs(r-want))
				}
				if near > step/100*(1+1e-9) {
					t.Errorf("none of %v at %v", radii, want)
				}
			}
			last := inner
			for _, r := range radii {
				if apart := r - last; apart < step/100 || apart > 1.011*step || r > outer {
					t.Errorf("%v of %v after %v, with steps of %v", r, outer, last, step)
				}
				last = r
			}
		}
	}
}

// A face far thinner than what backs it does not go with it: it lifts as far, at least, as if it were tied to it.
func TestThinFaceLiftsAsIfTied(t *testing.T) {
	spec := ShimStackSpec{Shims: []Shim{{28 * mm, 0.05 * mm}, {36 * mm, 0.5 * mm}}, Clamp: 10 * mm, PortInner: 13 * mm,
		PortOuter: 14 * mm, Seat: 18 * mm, Young: 206e9, Poisson: 0.3, Ports: 80 * units.SquareMillimeter,
		Discharge: 0.7}
	thin := must(NewShimStack(spec))
	spec.Shims = spec.Shims[:1]
	alone := must(NewShimStack(spec)).compliance
	h1, h2 := 0.05, 0.5
	if tied := alone * h1 * h1 * h1 / (h1*h1*h1 + h2*h2*h2); !(thin.compliance >= tied*(1-1e-12)) {
		t.Errorf("%v, tied %v", thin.compliance, tied)
	}
}
