package oil_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

const (
	mm = units.Millimeter
	mL = units.Milliliter
)

var (
	sea = units.Absolute(1.01325 * units.Bar)
	gap = oil.AirGapSpec{Area: geometry.Circle(48 * mm), Residual: 155 * mL, Travel: 300 * mm, Pressure: sea,
		Ambient: sea, Exponent: 1.3}
	bath = oil.FillSpec{Interior: 830 * mL, Column: 20 * units.SquareCentimeter, Metal: 75 * mL, Level: 115 * mm}
)

func newGap(t testing.TB, s oil.AirGapSpec) oil.AirGap {
	t.Helper()
	g, err := oil.NewAirGap(s)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestAirGapContract(t *testing.T) {
	locked := gap
	locked.Residual = -40 * mL
	isothermal := gap
	isothermal.Exponent = 1
	for _, c := range []struct {
		name string
		spec oil.AirGapSpec
	}{{"ridden", gap}, {"at rest", isothermal}, {"locked before the end", locked}} {
		t.Run(c.name, func(t *testing.T) {
			g := newGap(t, c.spec)
			if c.name != "locked before the end" { // too steep for a quadrature to referee
				curvetest.Contract(t, g)
			}
			curvetest.Rising(t, g)
		})
	}
}

func TestLevelMovesResidual(t *testing.T) {
	// A level raised by δ lowers the gas at full travel by S·δ exactly.
	higher := bath
	higher.Level = bath.Level - 5*mm
	a, errA := oil.NewFill(bath)
	b, errB := oil.NewFill(higher)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	want := float64(bath.Column) * 0.005
	if got := float64(a.Residual() - b.Residual()); !(math.Abs(got-want) <= 1e-15) {
		t.Errorf("residual changes by %v m³, want %v m³", got, want)
	}
}

func TestFillLevelAndVolumeAreOne(t *testing.T) {
	a, err := oil.NewFill(bath)
	if err != nil {
		t.Fatal(err)
	}
	byVolume := bath
	byVolume.Level, byVolume.Volume = 0, a.Volume()
	b, err := oil.NewFill(byVolume)
	if err != nil {
		t.Fatal(err)
	}
	if !(math.Abs(float64(b.Level()-bath.Level)) <= 1e-12) || !(math.Abs(float64(b.Residual()-a.Residual())) <= 1e-15) {
		t.Errorf("by volume: level %v, residual %v; by level: %v, %v", b.Level(), b.Residual(), a.Level(), a.Residual())
	}
	// 230 mL of air column over 600 mL of oil, by hand.
	if got := a.Volume().In(mL); !(math.Abs(got-600) <= 1e-9) {
		t.Errorf("volume %v mL, want 600", got)
	}
	if got := a.Raised().In(mm); !(math.Abs(got-37.5) <= 1e-9) {
		t.Errorf("the metal raises the level by %v mm, want 37.5", got)
	}
}

func TestExpansion(t *testing.T) {
	f, err := oil.NewFluid(oil.FluidSpec{Density: 860 * units.KilogramPerCubicMeter, Reference: units.Celsius(15),
		Expansion: 7.5e-4 * units.PerKelvin})
	if err != nil {
		t.Fatal(err)
	}
	// 600 mL warmed by 40 K grow by 600·7.5e-4·40 = 18 mL: handbook form of the
	// volume expansion, coefficient from memory.
	register.Cite(t, "O-55")
	grown := f.Expand(600*mL, units.Celsius(20), units.Celsius(60))
	if got := (grown - 600*mL).In(mL); !(math.Abs(got-18) <= 0.1) {
		t.Errorf("grows by %.2f mL, want 18", got)
	}
	m := 600e-6 * float64(f.Density(units.Celsius(20)))
	if n := float64(grown) * float64(f.Density(units.Celsius(60))); !(math.Abs(m-n) <= 1e-12) {
		t.Errorf("mass changes from %v kg to %v kg", m, n)
	}
	if got := f.Density(units.Celsius(15)); got != 860*units.KilogramPerCubicMeter {
		t.Errorf("density at the reference is %v", got)
	}
	fill, err := oil.NewFill(bath)
	if err != nil {
		t.Fatal(err)
	}
	warm := fill.Warmed(f, units.Celsius(20), units.Celsius(60))
	if got := (fill.Residual() - warm.Residual()).In(mL); !(math.Abs(got-18) <= 0.1) {
		t.Errorf("warming takes %.2f mL of gas, want 18", got)
	}
}

func TestHydraulicLock(t *testing.T) {
	for _, c := range []struct {
		name     string
		residual units.Volume
		locks    bool
	}{
		{"plenty", 155 * mL, false}, {"little", 8 * mL, false}, {"next to none", 1 * mL, true},
		{"none", 0, true}, {"too much oil", -100 * mL, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := gap
			s.Residual = c.residual
			g := newGap(t, s)
			at, locks := g.Locks()
			if locks != c.locks || locks != (at < s.Travel) {
				t.Errorf("Locks() = %v, %v with %v left", at, locks, c.residual)
			}
			p := spring.At(g, g.Stroke())
			if math.IsNaN(float64(p.Force)) || math.IsInf(float64(p.Force), 0) || math.IsInf(float64(p.Energy), 0) {
				t.Errorf("at the end of the stroke %+v", p)
			}
		})
	}
}

func TestRefuses(t *testing.T) {
	fill := func(change func(*oil.FillSpec)) error {
		s := bath
		change(&s)
		_, err := oil.NewFill(s)
		return err
	}
	gapped := func(change func(*oil.AirGapSpec)) error {
		s := gap
		change(&s)
		_, err := oil.NewAirGap(s)
		return err
	}
	fluid := func(s oil.FluidSpec) error { _, err := oil.NewFluid(s); return err }
	viscous := func(change func(*oil.FluidSpec)) error {
		s := sheet(15*cSt, 3.4*cSt)
		change(&s)
		return fluid(s)
	}
	leg := func(change func(*oil.InteriorSpec)) error {
		s := oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12 * mm, Cartridge: open, Length: 300 * mm}
		change(&s)
		_, err := oil.NewInterior(s)
		return err
	}
	aerated := func(change func(*oil.AeratedSpec)) error {
		s := oil.AeratedSpec{BulkModulus: 1.5 * units.Gigapascal, Air: 0.02, Pressure: sea, Exponent: 1}
		change(&s)
		_, err := oil.NewAerated(s)
		return err
	}
	blend := func(a, b oil.Fluid, v units.Volume) error { _, err := oil.Blend(a, 100*mL, b, v); return err }
	index := func(at40, at100 units.KinematicViscosity) error {
		_, err := oil.ViscosityIndex(at40, at100)
		return err
	}
	some := newFluid(t, sheet(15*cSt, 3.4*cSt))
	thin := newFluid(t, oil.FluidSpec{Density: 850, Reference: units.Celsius(15), Expansion: 8e-4,
		Viscosity: oil.Measurement{Viscosity: 4 * cSt, Temperature: units.Celsius(20)},
		Second:    oil.Measurement{Viscosity: 2 * cSt, Temperature: units.Celsius(60)}})
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"oil above the leg", fill(func(s *oil.FillSpec) { s.Level, s.Volume = 0, 900*mL }),
			"FillSpec.Volume = 900 mL: want above 0 and below the leg's 830 mL (oil above the leg)"},
		{"level below the leg", fill(func(s *oil.FillSpec) { s.Level = 600 * mm }), "FillSpec.Level = 600 mm"},
		{"both level and volume", fill(func(s *oil.FillSpec) { s.Volume = 600 * mL }),
			"to be left out when Volume is given"},
		{"neither", fill(func(s *oil.FillSpec) { s.Level = 0 }), "an oil volume, or a level"},
		{"volume negative", fill(func(s *oil.FillSpec) { s.Level, s.Volume = 0, -8*mL }), "FillSpec.Volume = -8 mL"},
		{"volume NaN", fill(func(s *oil.FillSpec) { s.Level, s.Volume = 0, units.Volume(math.NaN()) }),
			"FillSpec.Volume = NaN m"},
		{"more metal than leg", fill(func(s *oil.FillSpec) { s.Metal = 900 * mL }), "FillSpec.Metal = 900 mL"},
		{"no column", fill(func(s *oil.FillSpec) { s.Column = 0 }), "FillSpec.Column = 0 cm²"},
		{"leg full of oil from the start", gapped(func(s *oil.AirGapSpec) { s.Residual = -600 * mL }),
			"oil fills the leg before it moves"},
		{"no area", gapped(func(s *oil.AirGapSpec) { s.Area = 0 }), "AirGapSpec.Area = 0 cm²"},
		{"exponent below 1", gapped(func(s *oil.AirGapSpec) { s.Exponent = 0.9 }),
			"AirGapSpec.Exponent = 0.9: want 1 to 1.66667"},
		{"no ambient", gapped(func(s *oil.AirGapSpec) { s.Ambient = units.AbsolutePressure{} }),
			"AirGapSpec.Ambient = 0 bar abs"},
		{"water as fork oil in the wrong unit",
			fluid(oil.FluidSpec{Density: 0.86, Reference: units.Celsius(15),
				Expansion: 7e-4 * units.PerKelvin}), "FluidSpec.Density"},
		{"viscosity rises", viscous(func(s *oil.FluidSpec) { s.Second.Viscosity = 16 * cSt }),
			"FluidSpec.Second.Viscosity = 16 mm²/s: want below the 15 mm²/s at 40 °C " +
				"(viscosity falls with temperature)"},
		{"viscosity rises, colder second", viscous(func(s *oil.FluidSpec) { s.Second.Temperature = units.Celsius(0) }),
			"want above the 15 mm²/s at 40 °C"},
		{"equal temperatures", viscous(func(s *oil.FluidSpec) { s.Second.Temperature = units.Celsius(40) }),
			"FluidSpec.Second.Temperature = 40 °C: want at least 10 K away from the 40 °C of the first measurement"},
		{"temperatures that tell no slope", viscous(func(s *oil.FluidSpec) {
			s.Second = oil.Measurement{Viscosity: 14.4 * cSt, Temperature: units.Celsius(41.3)}
		}), "FluidSpec.Second.Temperature = 41.3 °C: want at least 10 K away"},
		{"gone in the heat", viscous(func(s *oil.FluidSpec) { // it would stand still at 0.12 mm²/s
			s.Viscosity = oil.Measurement{Viscosity: 4 * cSt, Temperature: units.Celsius(-30)}
			s.Second = oil.Measurement{Viscosity: 2 * cSt, Temperature: units.Celsius(-15)}
		}), "at least 0.21 mm²/s at 150 °C (the viscosity falls too steeply for an oil)"},
		{"below 2 mm²/s", viscous(func(s *oil.FluidSpec) { s.Second.Viscosity = 1.7 * cSt }),
			"FluidSpec.Second.Viscosity = 1.7 mm²/s: want at least 2 mm²/s (ASTM D341 needs a measurement at a lower " +
				"temperature)"},
		{"mm²/s taken for m²/s", viscous(func(s *oil.FluidSpec) { s.Viscosity.Viscosity = 15 }),
			"FluidSpec.Viscosity.Viscosity"},
		{"viscosity NaN",
			viscous(func(s *oil.FluidSpec) {
				s.Viscosity.Viscosity = units.KinematicViscosity(math.NaN())
			}), "FluidSpec.Viscosity.Viscosity = NaN"},
		{"kelvins of a Celsius value", viscous(func(s *oil.FluidSpec) { s.Second.Temperature = units.Kelvin(100) }),
			"FluidSpec.Second.Temperature"},
		{"falls too steeply", viscous(func(s *oil.FluidSpec) { s.Second.Temperature = units.Celsius(50) }),
			"the viscosity falls too steeply for an oil"},
		{"index and second", viscous(func(s *oil.FluidSpec) { s.Index = 100 }),
			"FluidSpec.Index = 100: want to be left out when Second is given"},
		{"first alone", viscous(func(s *oil.FluidSpec) { s.Second = oil.Measurement{} }),
			"a viscosity index, or a second measurement"},
		{"second alone", viscous(func(s *oil.FluidSpec) { s.Viscosity = oil.Measurement{} }),
			"a first measurement beside a second one or an index"},
		{"index too large", viscous(func(s *oil.FluidSpec) { s.Second, s.Index = oil.Measurement{}, 900 }),
			"FluidSpec.Index = 900: want 1 to 500"},
		{"index of too thin an oil", viscous(func(s *oil.FluidSpec) {
			s.Viscosity.Viscosity, s.Second, s.Index = 3*cSt, oil.Measurement{}, 100
		}), "when its viscosity index is 100 (give a second measurement instead)"},
		{"index below 2 mm²/s", index(5*cSt, 1.9*cSt), "ViscosityIndex.at100 = 1.9 mm²/s"},
		{"index of a viscosity that rises", index(5*cSt, 6*cSt),
			"ViscosityIndex.at40 = 5 mm²/s: want above the 6 mm²/s at 100 °C"},
		{"blend of nothing", blend(some, oil.Fluid{}, 100*mL), "Blend.B = "},
		{"blend with no volume", blend(some, some, 0), "Blend.VolumeB = 0 mL"},
		{"blend with too thin an oil", blend(some, thin, 100*mL), "at least 2 mm²/s at 80 °C"},
		{"more air than oil", aerated(func(s *oil.AeratedSpec) { s.Air = 0.6 }), "AeratedSpec.Air = 60 %"},
		{"no bulk modulus", aerated(func(s *oil.AeratedSpec) { s.BulkModulus = 0 }), "AeratedSpec.BulkModulus = 0 MPa"},
		{"isothermal below 1", aerated(func(s *oil.AeratedSpec) { s.Exponent = 0.9 }), "AeratedSpec.Exponent = 0.9"},
		{"no fork", leg(func(s *oil.InteriorSpec) { s.Fork = geometry.Fork{} }), "InteriorSpec.Fork.Travel"},
		{"cartridge wider than the tube", leg(func(s *oil.InteriorSpec) { s.Cartridge.Outer = 46 * mm }),
			"InteriorSpec.Cartridge.Outer = 46 mm: want below the stanchion's bore 44 mm"},
		{"cartridge longer than the leg", leg(func(s *oil.InteriorSpec) { s.Length = 600 * mm }),
			"InteriorSpec.Length = 600 mm"},
		{"rod wider than the cartridge", leg(func(s *oil.InteriorSpec) { s.Cartridge.Bore, s.Rod = 11*mm, 12*mm }),
			"InteriorSpec.Rod = 12 mm"},
		{"closed without a cartridge", leg(func(s *oil.InteriorSpec) {
			s.Cartridge, s.Length, s.Closed = geometry.Tube{}, 0,
				true
		}), "InteriorSpec.Cartridge.Outer"},
		{"closed with a length", leg(func(s *oil.InteriorSpec) { s.Closed = true }),
			"InteriorSpec.Length = 300 mm: want to be left out when Closed"},
		{"rod fills the tube", leg(func(s *oil.InteriorSpec) {
			s.Fork = geometry.Fork{Travel: 100 * mm, Stanchion: geometry.Tube{Outer: 24 * mm, Bore: 20 * mm},
				OuterBore: 26 * mm}
			s.Cartridge, s.Length, s.Rod = geometry.Tube{}, 0, 18*mm
		}), "rod or cartridge fill the tube"},
		{"level above the tube", fill(func(s *oil.FillSpec) { s.Level = -5 * mm }),
			"FillSpec.Level = -5 mm: want above 0 and below 415 mm, the height of the leg (oil above the tube)"},
		{"no expansion", fluid(oil.FluidSpec{Density: 860, Reference: units.Celsius(15)}), "FluidSpec.Expansion"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.err == nil || !strings.Contains(c.err.Error(), c.want) || !errors.As(c.err, new(*units.RangeError)) {
				t.Errorf("error %v, want a *units.RangeError with %q", c.err, c.want)
			}
		})
	}
}

func FuzzNewFill(f *testing.F) {
	f.Add(830e-6, 20e-4, 75e-6, 0.0, 0.115)
	f.Fuzz(func(t *testing.T, interior, column, metal, volume, level float64) {
		fill, err := oil.NewFill(oil.FillSpec{Interior: units.Volume(interior), Column: units.Area(column),
			Metal: units.Volume(metal), Volume: units.Volume(volume), Level: units.Length(level)})
		if err != nil {
			return
		}
		for _, v := range []float64{float64(fill.Volume()), float64(fill.Level()), float64(fill.Residual()),
			float64(fill.Raised())} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("accepted, but %+v", fill)
			}
		}
	})
}

func FuzzNewAirGap(f *testing.F) {
	f.Add(18e-4, 155e-6, 0.3, 1.01325e5, 1.01325e5, 1.3)
	f.Fuzz(func(t *testing.T, area, residual, travel, pressure, ambient, n float64) {
		g, err := oil.NewAirGap(oil.AirGapSpec{Area: units.Area(area), Residual: units.Volume(residual),
			Travel:   units.Length(travel),
			Pressure: units.Absolute(units.Pressure(pressure)),
			Ambient:  units.Absolute(units.Pressure(ambient)), Exponent: n})
		if err == nil {
			curvetest.Rising(t, g)
		}
	})
}

func FuzzNewFluid(f *testing.F) {
	f.Add(860.0, 15.0, 7.5e-4, 15e-6, 40.0, 3.4e-6, 100.0, 0.0)
	f.Add(860.0, 20.0, 7.5e-4, 16e-6, 40.0, 0.0, -273.15, 150.0)
	f.Add(860.0, 20.0, 7.5e-4, 0.0, -273.15, 0.0, -273.15, 0.0)
	f.Fuzz(func(t *testing.T, density, reference, expansion, v1, t1, v2, t2, index float64) {
		zeroIfNone := func(v, c float64) oil.Measurement {
			if v == 0 {
				return oil.Measurement{}
			}
			return oil.Measurement{Viscosity: units.KinematicViscosity(v), Temperature: units.Celsius(c)}
		}
		fluid, err := oil.NewFluid(oil.FluidSpec{Density: units.Density(density), Reference: units.Celsius(reference),
			Expansion: units.Expansivity(expansion),
			Viscosity: zeroIfNone(v1, t1), Second: zeroIfNone(v2, t2), Index: index})
		if err != nil {
			return
		}
		last := math.Inf(1)
		for _, c := range []float64{-40, -20, 0, 20, 40, 60, 80, 100, 120, 150} {
			at := units.Celsius(c)
			if r := float64(fluid.Density(at)); !(r > 500 && r < 1300) {
				t.Errorf("density %v at %v", r, at)
			}
			if !fluid.HasViscosity() {
				continue
			}
			v := float64(fluid.Viscosity(at))
			if !(v > 0 && v < last) {
				t.Errorf("viscosity %v at %v after %v", v, at, last)
			}
			last = v
		}
		if vi, ok := fluid.ViscosityIndex(); ok && (math.IsNaN(vi) || math.IsInf(vi, 0)) {
			t.Errorf("viscosity index %v", vi)
		}
		if mix, err := oil.Blend(fluid, 300*mL, fluid, 500*mL); err == nil && fluid.HasViscosity() {
			a, b := mix.Viscosity(units.Celsius(20)), fluid.Viscosity(units.Celsius(20))
			if !(math.Abs(float64(a/b-1)) < 1e-9) {
				t.Errorf("a blend of one oil has %v instead of %v", a, b)
			}
		}
	})
}

func FuzzNewAerated(f *testing.F) {
	f.Add(1.5e9, 0.05, 1.01325e5, 1.4)
	f.Fuzz(func(t *testing.T, modulus, air, pressure, exponent float64) {
		a, err := oil.NewAerated(oil.AeratedSpec{BulkModulus: units.Stress(modulus), Air: units.Share(air),
			Pressure: units.Absolute(units.Pressure(pressure)), Exponent: exponent})
		if err != nil {
			return
		}
		last := units.Stress(0)
		for _, bar := range []units.Pressure{0.1, 1, 10, 100, 1000} {
			k := a.BulkModulus(units.Absolute(bar * units.Bar))
			if !(k > 0 && k >= last*(1-1e-9) && float64(k) <= modulus*(1+1e-9)) {
				t.Errorf("modulus %v at %v bar after %v", k, bar, last)
			}
			last = k
		}
	})
}
