package damping

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// faults lists the fields of all range errors in err.
func faults(t *testing.T, err error) string {
	t.Helper()
	var fields []string
	for _, err := range check.Split(err) {
		var r *units.RangeError
		if !errors.As(err, &r) {
			t.Errorf("%v is a %T, want *units.RangeError", err, err)
			continue
		}
		if r.Want == "" {
			t.Errorf("%v does not say what is wanted", err)
		}
		_, field, _ := strings.Cut(r.Field, ".")
		if field == "" {
			field = r.Field
		}
		fields = append(fields, field)
	}
	return strings.Join(fields, " ")
}

func TestErrors(t *testing.T) {
	nan := math.NaN()
	mm2 := units.SquareMillimeter
	of := func(_ any, err error) error { return err }
	change := func(f func(*ShimStackSpec)) error {
		s := recordedStacks["taper of five"]
		s.Shims = append([]Shim(nil), s.Shims...)
		f(&s)
		return of(NewShimStack(s))
	}
	cartridge := func(f func(*CartridgeSpec)) error {
		s := mid(warm)
		f(&s)
		return of(NewCartridge(s))
	}
	check := must(NewCheck(CheckSpec{Area: 10 * mm2, Discharge: 0.7}))
	adjuster := must(NewAdjuster(AdjusterSpec{Clicks: 20, PerClick: 0.1 * mm2, Discharge: 0.7}))
	thick := must(oil.NewFluid(oil.FluidSpec{Density: 850, Reference: units.Celsius(15), Expansion: 7.5e-4, Index: 95,
		Viscosity: oil.Measurement{Viscosity: 460 * units.Centistokes, Temperature: units.Celsius(40)}}))
	density := must(oil.NewFluid(oil.FluidSpec{Density: 850, Reference: units.Celsius(15), Expansion: 7.5e-4}))
	for _, tt := range []struct {
		name   string
		err    error
		fields string
		says   string
	}{
		{"speed of no damper", of(SpeedAt(nil, 1)), "d", "a damper"},
		{"heat of no damper", of(MeanPower(nil, -1, 1)), "d amplitude", ""},
		{"heat of too far a motion", of(MeanPower(Linear(1), 1e3*mm, 50)), "amplitude", "400 mm"},
		{"table of no damper", of(Tabulate(nil, []units.Speed{1})), "d", ""},
		{"table of unsound points", of(NewTable(TableSpec{Points: []TablePoint{{Speed: units.Speed(nan)}, {1, 1e9}, {2,
			5}}})),
			"Points[0].Speed Points[1].Force", ""},
		{"zero oil", Oil{}.Validate(), "Density Viscosity", ""},
		{"absurd viscosity", Oil{Density: 850, Viscosity: 1e4}.Validate(), "Viscosity", "1e+07 mPa·s"},
		{"NaN viscosity", Oil{Density: 850, Viscosity: units.DynamicViscosity(nan)}.Validate(), "Viscosity", "NaN"},
		{"fluid without viscosity", of(OilAt(density, units.Celsius(200))), "t f", "data sheet"},
		{"fluid that hardly flows", of(OilAt(thick, units.Celsius(-40))), "Viscosity", "100000 mPa·s"},
		{"zero pipe", of(NewPipe(PipeSpec{})), "Diameter Length", ""},
		{"negative gap", of(NewAnnulus(AnnulusSpec{Bore: 25 * mm, Clearance: -0.1 * mm, Length: 10 * mm})), "Clearance",
			""},
		{"clearance larger than the bore", of(NewAnnulus(AnnulusSpec{Bore: 25 * mm, Clearance: 30 * mm, Length: 10 * mm,
			Eccentricity: 2})), "Clearance Eccentricity", "no part inside the bore"},
		{"disks swapped", of(NewRadialGap(RadialGapSpec{Inner: 30 * mm, Outer: 20 * mm, Gap: 0.1 * mm})), "Outer",
			"30 mm"},
		{"negative film", of(NewRadialGap(RadialGapSpec{Inner: 10 * mm, Outer: 20 * mm, Gap: -0.1 * mm})), "Gap", ""},
		{"zero area", of(NewOrifice(OrificeSpec{Discharge: 0.62})), "Area", "0.001 mm²"},
		{"discharge in percent", of(NewOrifice(OrificeSpec{Area: 1 * mm2, Discharge: 62})), "Discharge", ""},
		{"no clicks", of(NewAdjuster(AdjusterSpec{})), "Clicks PerClick Discharge", ""},
		{"clicks past the end", of(adjuster.At(21)), "clicks", "0 to 20"},
		{"clicks below closed", of(adjuster.At(-1)), "clicks", ""},
		{"settings of no adjuster", of(NewSettings(0, nil)), "last", "1 to 100"},
		{"no click there, at rest", of(must(NewSettings(9,
			func(int) (Damper, error) { return Linear(1), nil })).PerClick(10, 0)),
			"clicks v", "0 to 9"},
		{"a force never reached", of(SpeedAt(Linear(1), 21)), "force", "up to 20 N"},
		{"opens before it cracks", of(NewCheck(CheckSpec{Area: 1 * mm2, Discharge: 0.7, Crack: 1e6, FullOpen: 1e5})),
			"FullOpen", ""},
		{"zero plate", of(NewPlate(PlateSpec{})), "Outer Thickness Young Poisson InnerEdge", ""},
		{"plate held nowhere", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 1 * mm, Young: 2e11,
			Poisson: 0.3, OuterEdge: Guided})), "InnerEdge", "supported or clamped"},
		{"plate thicker than its ring", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 26 * mm, Thickness: 3 * mm, Young: 2e11,
			Poisson: 0.3, InnerEdge: Clamped})), "Thickness", "width of the ring, 2 mm"},
		{"unknown edge", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 1 * mm, Young: 2e11,
			Poisson: 0.3, OuterEdge: 9, InnerEdge: Clamped})), "OuterEdge", "Edge(9)"},
		{"zero stack", of(NewShimStack(ShimStackSpec{})), "Clamp Shims Young Poisson Ports Discharge", ""},
		{"plate without a Poisson's ratio", of(NewPlate(PlateSpec{Outer: 30 * mm, Inner: 10 * mm, Thickness: 1 * mm,
			Young: 2e11, InnerEdge: Clamped})), "Poisson", "0.1 to 0.5"},
		{"stack without a Poisson's ratio", change(func(s *ShimStackSpec) { s.Poisson = 0 }), "Poisson", "0.1 to 0.5"},
		{"shim thicker than its radius", change(func(s *ShimStackSpec) {
			s.Clamp, s.Shims[4] = 3*mm, Shim{3.5 * mm, 1.9 * mm}
		}), "Shims[4].Diameter", "4 mm"},
		{"shim as thick as its radius", change(func(s *ShimStackSpec) {
			s.Clamp, s.Shims[4] = 3*mm, Shim{4 * mm, 2 * mm}
		}), "Shims[4].Thickness", "below the radius 2 mm"},
		{"shim inside the clamp", change(func(s *ShimStackSpec) { s.Shims[2].Diameter = 9 * mm }), "Shims[2].Diameter",
			"take it as the clamp"},
		{"seat off the face", change(func(s *ShimStackSpec) { s.Seat = 31 * mm }), "Seat", ""},
		{"ports off the seat", change(func(s *ShimStackSpec) { s.PortOuter = 29 * mm }), "PortOuter", ""},
		{"ports without width", change(func(s *ShimStackSpec) { s.PortInner = s.PortOuter }), "PortInner", ""},
		{"NaN dish, no ports", change(func(s *ShimStackSpec) { s.Dish, s.Ports = units.Length(nan), 0 }), "Dish Ports",
			""},
		{"zero cartridge", of(NewCartridge(CartridgeSpec{})), "Bore Reservoir Oil.Density Oil.Viscosity Piston", ""},
		{"rod as thick as the bore", cartridge(func(s *CartridgeSpec) { s.Rod = s.Bore }), "Rod", ""},
		{"locked in rebound", cartridge(func(s *CartridgeSpec) { s.Piston = check }), "Piston", "both ways"},
		{"locked in compression", cartridge(func(s *CartridgeSpec) { s.Base = Reverse(check) }), "Base", "both ways"},
		{"closed", cartridge(func(s *CartridgeSpec) { s.Base = Orifice{} }), "Base", "a way for the oil"},
		{"no oil for the new temperature", of(must(NewCartridge(mid(warm))).With(Oil{Density: 850})), "Oil.Viscosity",
			""},
		{"no pressure behind it", of(must(NewCartridge(mid(warm))).WithReservoir(units.Absolute(0))), "Reservoir", ""},
		{"one point", of(NewTable(TableSpec{Points: make([]TablePoint, 1)})), "Points", ""},
		{"points out of order", of(NewTable(TableSpec{Points: []TablePoint{{0.5, 100}, {0.2, 150}}})),
			"Points[1].Speed", ""},
		{"force falls", of(NewTable(TableSpec{Points: []TablePoint{{0.2, 150}, {0.5, 100}}})), "Points[1].Force",
			"at least the last one"},
		{"drives", of(NewTable(TableSpec{Points: []TablePoint{{-0.2, 20}, {0.5, 100}}})), "Points[0].Force",
			"gas force and friction"},
		{"gas force at rest", of(NewTable(TableSpec{Points: []TablePoint{{0, 20}, {0.5, 100}}})), "Points[0].Force",
			""},
		{"NaN point", of(NewTable(TableSpec{Points: []TablePoint{{0, 0}, {units.Speed(nan), units.Force(nan)}}})),
			"Points[1].Speed Points[1].Force", ""},
		{"zero friction", of(NewFriction(FrictionSpec{})), "Stribeck", ""},
		{"slides harder than it breaks away",
			of(NewFriction(FrictionSpec{Breakaway: 50, Kinetic: 60, Stribeck: 0.005, Creep: 0.0001})), "Kinetic", ""},
		{"zero seal", of(NewSeal(SealSpec{})), "Diameter Width Friction", ""},
		{"lip wider than the rod", of(NewSeal(SealSpec{Diameter: 10 * mm, Width: 9 * mm, Friction: 0.1})), "Width",
			"radius"},
		{"zero bushes", of(NewBushes(BushesSpec{})), "Spacing Overhang Friction Rake Wheel Travel", ""},
		{"axle through the bush", of(NewBushes(BushesSpec{Spacing: 150 * mm, Overhang: 200 * mm, Friction: 0.05,
			Rake: 0.45, Wheel: 300 * mm, Travel: 250 * mm})), "Travel", "overhang"},
		{"zero oscillator", of(NewOscillator(OscillatorSpec{})), "Stiffness Mass", ""},
		{"growing amplitude", of(DampingRatio(10*mm, 20*mm, 0)), "later cycles", ""},
		{"zero rebound", of(NewRebound(ReboundSpec{})), "OldRate NewRate OldForce NewForce PerClick", ""},
		{"too fast a sine", of(MeanPower(Linear(1), 0.4, 100)), "frequency", "peak speed"},
		{"NaN sine", of(MeanPower(Linear(1), units.Length(nan), 1)), "amplitude", ""},
		{"zero warming", of(NewWarming(WarmingSpec{})), "Oil OilHeat Loss", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil {
				t.Fatal("no error")
			}
			if got := faults(t, tt.err); got != tt.fields {
				t.Errorf("fields %q, want %q: %v", got, tt.fields, tt.err)
			}
			if !strings.Contains(tt.err.Error(), tt.says) {
				t.Errorf("%q does not say %q", tt.err, tt.says)
			}
		})
	}
}
