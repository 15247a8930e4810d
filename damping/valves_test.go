package damping

import (
	"testing"

	"example.org/forkcurve/internal/shared"
	"example.org/forkcurve/units"
)

// valves is one of every kind.
func valves() map[string]Valve {
	const square = units.SquareMillimeter
	orifice := must(NewOrifice(OrificeSpec{Area: 2 * square, Discharge: 0.7}))
	adjuster := must(NewAdjuster(AdjusterSpec{Clicks: 20, PerClick: 0.1 * square, Closed: 0.1 * square, Discharge: 0.7}))
	check := must(NewCheck(CheckSpec{Area: 20 * square, Discharge: 0.62, Crack: 1 * units.Bar, FullOpen: 3 * units.Bar}))
	stack := must(NewShimStack(ShimStackSpec{Shims: []Shim{{Diameter: 21 * mm, Thickness: 0.2 * mm},
		{Diameter: 15 * mm, Thickness: 0.15 * mm}}, Clamp: 9 * mm, PortInner: 12 * mm, PortOuter: 18 * mm, Seat: 19 * mm,
		Dish: 0.01 * mm, Ports: 60 * square, Discharge: 0.7, Land: 0.3 * mm, Young: 206e3 * units.Megapascal, Poisson: 0.3}))
	pipe := must(NewPipe(PipeSpec{Diameter: 2 * mm, Length: 10 * mm, Entrance: Entrance}))
	return map[string]Valve{"orifice": orifice, "adjuster": must(adjuster.At(7)), "check": check, "shim stack": stack,
		"pipe":         pipe,
		"annulus":      must(NewAnnulus(AnnulusSpec{Bore: 25 * mm, Clearance: 0.1 * mm, Length: 10 * mm, Entrance: 1.5})),
		"film":         must(NewRadialGap(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: 0.1 * mm})),
		"side by side": Parallel(pipe, check), "in a row": Series(pipe, orifice), "turned round": Reverse(check)}
}

// Flow and Drop of every valve are each the inverse of the other, in thin oil and thick, both ways.
func TestValvesInvert(t *testing.T) {
	for name, v := range valves() {
		t.Run(name, func(t *testing.T) {
			for _, o := range []Oil{{Density: 850, Viscosity: 0.005}, {Density: 880, Viscosity: 0.3}} {
				for _, q := range []float64{1e-9, 1e-6, 2e-5, 3e-4} {
					honest(t, v, q, o)
					honest(t, v, -q, o)
				}
			}
		})
	}
}

func TestValvesShared(t *testing.T) {
	o := Oil{Density: 850, Viscosity: 0.015}
	for name, v := range valves() {
		t.Run(name, func(t *testing.T) {
			shared.Read(t, func() any {
				return [...]any{v.Flow(2*units.Bar, o), v.Flow(-2*units.Bar, o), v.Drop(2e-5, o), v.Drop(-2e-5, o)}
			})
		})
	}
}
