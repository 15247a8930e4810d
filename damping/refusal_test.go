package damping

import (
	"slices"
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/units"
)

// refused is the error of a constructor alone.
func refused[S, D any](build func(S) (D, error)) func(S) error {
	return func(s S) error {
		_, err := build(s)
		return err
	}
}

// always is a specification without slices.
func always[S any](s S) func() S { return func() S { return s } }

func TestEveryFieldHasLimits(t *testing.T) {
	const mm2 = units.SquareMillimeter
	refusal.Fields(t, always(Oil{Density: 850, Viscosity: 0.013}), Oil.Validate)
	refusal.Fields(t, always(PipeSpec{Diameter: 2 * mm, Length: 10 * mm, Entrance: 1.5}), refused(NewPipe))
	refusal.Fields(t, always(AnnulusSpec{Bore: 25 * mm, Clearance: 0.1 * mm, Length: 10 * mm, Entrance: 1.5,
		Eccentricity: 0.5}), refused(NewAnnulus))
	refusal.Fields(t, always(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: 0.1 * mm}), refused(NewRadialGap))
	refusal.Fields(t, always(OrificeSpec{Area: 2 * mm2, Discharge: 0.7}), refused(NewOrifice))
	refusal.Fields(t, always(AdjusterSpec{Clicks: 20, PerClick: 0.1 * mm2, Closed: 0.1 * mm2, Discharge: 0.7}),
		refused(NewAdjuster))
	refusal.Fields(t, always(CheckSpec{Area: 10 * mm2, Discharge: 0.7, Crack: 1e5, FullOpen: 3e5}), refused(NewCheck))
	refusal.Fields(t, always(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 0.2 * mm, Young: 206e9, Poisson: 0.3,
		InnerEdge: Clamped}), refused(NewPlate))
	refusal.Fields(t, func() ShimStackSpec {
		s := recordedStacks["taper of five"]
		s.Shims = slices.Clone(s.Shims)
		return s
	}, refused(NewShimStack))
	refusal.Fields(t, func() CartridgeSpec { return mid(warm) }, refused(NewCartridge), "Piston*", "Base*")
	refusal.Fields(t, func() TableSpec {
		return TableSpec{Points: []TablePoint{{-0.5, -200}, {0, 0}, {0.2, 100}, {1, 300}}}
	}, refused(NewTable))
	refusal.Fields(t, always(FrictionSpec{Breakaway: 60, Kinetic: 40, Stribeck: 0.005, Viscous: 50, Creep: 0.0001}),
		refused(NewFriction))
	refusal.Fields(t, always(SealSpec{Diameter: 12 * mm, Width: 2 * mm, Friction: 0.1, Fitted: 20}), refused(NewSeal))
	refusal.Fields(t, always(BushesSpec{Spacing: 150 * mm, Overhang: 500 * mm, Friction: 0.05, Rake: 0.45,
		Wheel: 300 * mm, Travel: 250 * mm}), refused(NewBushes))
	refusal.Fields(t, always(OscillatorSpec{Stiffness: 9000, Mass: 60}), refused(NewOscillator))
	refusal.Fields(t, always(WarmingSpec{Oil: 0.5, OilHeat: 1900, Tube: 1, TubeHeat: 900, Loss: 2}), refused(NewWarming))
	refusal.Fields(t, always(ReboundSpec{OldRate: 8000, NewRate: 9000, OldForce: 700, NewForce: 720, OldFriction: 60,
		NewFriction: 40, OldDamping: 900, Speed: 1, PerClick: 0.04}), refused(NewRebound))
}
