package oil_test

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// The level is set with the spring out; the spring and its spacer then use up gas.
func ExampleFill() {
	fork := geometry.Fork{Layout: geometry.Inverted, Travel: 300 * units.Millimeter,
		Stanchion: geometry.Tube{Outer: 48 * units.Millimeter,
			Bore: 44 * units.Millimeter}, OuterBore: 54 * units.Millimeter}
	fill, err := oil.NewFill(oil.FillSpec{Interior: 830 * units.Milliliter, Column: fork.OilColumn(),
		Metal: 75 * units.Milliliter, Volume: 600 * units.Milliliter})
	fmt.Printf("level %.0f, gas at full travel %.0f, %v\n", fill.Level(), fill.Residual(), err)
	// Output: level 115 mm, gas at full travel 155 mL, <nil>
}

func ExampleNewAirGap() {
	sea := units.Absolute(1.013 * units.Bar)
	g, err := oil.NewAirGap(oil.AirGapSpec{Area: geometry.Circle(48 * units.Millimeter),
		Residual: 155 * units.Milliliter,
		Travel:   300 * units.Millimeter, Pressure: sea, Ambient: sea, Exponent: 1.3})
	fmt.Printf("ratio %.1f, %.0f at the bottom, %v\n", g.CompressionRatio(), g.Force(g.Stroke()), err)
	// Output: ratio 4.5, 1113 N at the bottom, <nil>
}

func ExampleFluid_Expand() {
	f, _ := oil.NewFluid(oil.FluidSpec{Density: 0.86 * units.GramPerMilliliter, Reference: units.Celsius(15),
		Expansion: 7.5e-4 * units.PerKelvin})
	cold, warm := units.Celsius(20), units.Celsius(60)
	fmt.Printf("%.0f\n", f.Expand(600*units.Milliliter, cold, warm))
	leg, _ := oil.NewFill(oil.FillSpec{Interior: 830 * units.Milliliter, Column: geometry.Circle(44 * units.Millimeter),
		Metal: 75 * units.Milliliter, Volume: 600 * units.Milliliter})
	fmt.Printf("gas at full travel %.0f cold, %.0f warm\n", leg.Residual(), leg.Warmed(f, cold, warm).Residual())
	// Output:
	// 618 mL
	// gas at full travel 155 mL cold, 137 mL warm
}

// A data sheet gives one viscosity and the viscosity index.
func ExampleNewFluid() {
	f, err := oil.NewFluid(oil.FluidSpec{
		Density: 0.86 * units.GramPerMilliliter, Reference: units.Celsius(15), Expansion: 7.5e-4 * units.PerKelvin,
		Viscosity: oil.Measurement{Viscosity: 16 * units.Centistokes, Temperature: units.Celsius(40)}, Index: 150,
	})
	fmt.Println(err)
	for _, c := range []float64{0, 20, 60} {
		t := units.Celsius(c)
		fmt.Printf("%v: %.1f, %.1f\n", t, f.Viscosity(t), f.DynamicViscosity(t))
	}
	class, _ := f.Grade()
	fmt.Println("ISO VG", class.Number)
	fmt.Println(f)
	// Output:
	// <nil>
	// 0 °C: 90.3 mm²/s, 78.5 mPa·s
	// 20 °C: 33.6 mm²/s, 28.8 mPa·s
	// 60 °C: 9.0 mm²/s, 7.5 mPa·s
	// ISO VG 15
	// 860 kg/m³ at 15 °C, 16 mm²/s at 40 °C, 3.95 mm²/s at 100 °C
}

func ExampleViscosityIndex() {
	vi, err := oil.ViscosityIndex(22.83*units.Centistokes, 5.05*units.Centistokes)
	fmt.Printf("%.0f %v\n", vi, err)
	// Output: 156 <nil>
}

func ExampleBlend() {
	oils := make([]oil.Fluid, 2)
	for i, v := range []units.KinematicViscosity{10 * units.Centistokes, 30 * units.Centistokes} {
		oils[i], _ = oil.NewFluid(oil.FluidSpec{Density: 0.86 * units.GramPerMilliliter, Reference: units.Celsius(15),
			Expansion: 7.5e-4 * units.PerKelvin, Viscosity: oil.Measurement{Viscosity: v,
				Temperature: units.Celsius(40)}, Index: 120})
	}
	mix, err := oil.Blend(oils[0], 500*units.Milliliter, oils[1], 500*units.Milliliter)
	fmt.Printf("%.1f %v\n", mix.Viscosity(units.Celsius(40)), err)
	// Output: 16.6 mm²/s <nil>
}

// Bubbles cost oil most of its stiffness until pressure closes them.
func ExampleAerated() {
	ambient := units.Absolute(1.013 * units.Bar)
	a, err := oil.NewAerated(oil.AeratedSpec{BulkModulus: 1.5 * units.Gigapascal, Air: 0.02, Pressure: ambient,
		Exponent: 1})
	for _, p := range []units.Pressure{1, 10, 100} {
		fmt.Printf("%v: %.0f\n", p*units.Bar, a.BulkModulus(units.Absolute(p*units.Bar)))
	}
	fmt.Println(err)
	// Output:
	// 1 bar: 5 MPa
	// 10 bar: 366 MPa
	// 100 bar: 1455 MPa
	// <nil>
}

// A leg read at the bench extended stands lower than the same fill compressed.
func ExampleInterior() {
	fork := geometry.Fork{Layout: geometry.Inverted, Travel: 300 * units.Millimeter,
		Stanchion: geometry.Tube{Outer: 48 * units.Millimeter,
			Bore: 44 * units.Millimeter}, OuterBore: 54 * units.Millimeter}
	leg, err := oil.NewInterior(oil.InteriorSpec{Fork: fork, Depth: 450 * units.Millimeter, Rod: 12 * units.Millimeter})
	spec := leg.FillSpec()
	spec.Metal, spec.Level = 75*units.Milliliter, 120*units.Millimeter
	fill, fillErr := oil.NewFill(spec)
	fmt.Println(err, fillErr)
	fmt.Printf("compressed %.0f, extended %.0f\n", fill.Level(), fill.Level()+leg.Drop(fork.Travel))
	fmt.Printf("hydraulic lock from %.0f\n", fill.LockLevel(leg.Area(), fork.Travel))
	// Output:
	// <nil> <nil>
	// compressed 120 mm, extended 344 mm
	// hydraulic lock from 43 mm
}

// The air cartridge comes out, a coil kit goes in, and the gap is to have the compression ratio 4.
func ExampleFill_Refitted() {
	before, _ := oil.NewFill(oil.FillSpec{Interior: 830 * units.Milliliter, Column: 20 * units.SquareCentimeter,
		Metal: 250 * units.Milliliter, Volume: 300 * units.Milliliter})
	kit := oil.Displaced(0.46*units.Kilogram, 7.85*units.GramPerMilliliter) + 16*units.Milliliter
	gas := oil.ResidualFor(4, geometry.Circle(48*units.Millimeter), 300*units.Millimeter)
	after, err := before.Refitted(kit, gas)
	fmt.Printf("add %.0f of oil for a level of %.0f, %v\n", after.Volume()-before.Volume(), after.Level(), err)
	// Output: add 274 mL of oil for a level of 128 mm, <nil>
}

func ExampleFill_Sensitivity() {
	sea := units.Absolute(1.013 * units.Bar)
	fill, _ := oil.NewFill(oil.FillSpec{Interior: 830 * units.Milliliter, Column: 20 * units.SquareCentimeter,
		Metal: 75 * units.Milliliter, Level: 115 * units.Millimeter})
	s, err := fill.Sensitivity(oil.AirGapSpec{Area: geometry.Circle(48 * units.Millimeter),
		Travel:   300 * units.Millimeter,
		Pressure: sea, Ambient: sea, Exponent: 1.3})
	fmt.Printf("5 mm higher: %+.0f per leg, ratio %.1f to %.1f\n", s.Level.Force, s.Level.From, s.Level.To)
	fmt.Printf("5 mL more: %+.0f per leg, %v\n", s.Volume.Force, err)
	// Output:
	// 5 mm higher: +91 N per leg, ratio 4.5 to 4.7
	// 5 mL more: +44 N per leg, <nil>
}

// converted is an air leg that gives way to a coil kit, its gas over so much section.
func converted(section units.Area) (oil.Refit, error) {
	was, err := oil.NewFill(oil.FillSpec{Interior: 900 * units.Milliliter, Column: 18 * units.SquareCentimeter,
		Metal: 395 * units.Milliliter, Volume: 220 * units.Milliliter})
	if err != nil {
		return oil.Refit{}, err
	}
	swells, err := oil.NewFluid(oil.FluidSpec{Density: 860 * units.KilogramPerCubicMeter, Reference: units.Celsius(15),
		Expansion: 8e-4 * units.PerKelvin})
	if err != nil {
		return oil.Refit{}, err
	}
	gap := oil.AirGapSpec{Area: section, Travel: 305 * units.Millimeter,
		Pressure: units.Absolute(1 * units.Bar), Ambient: units.Absolute(1 * units.Bar), Exponent: 1.3}
	return oil.Refit{Was: was, Metal: 158 * units.Milliliter, Shut: gap, Kit: gap, Oil: swells,
		Cold: units.Celsius(20), Warm: units.Celsius(60)}, nil
}

// The air cartridge comes out of a leg and a coil kit goes in: the ratio with the oil untouched, and oil for the ratio
// the trade calls good.
func ExampleRefit() {
	r, err := converted(17 * units.SquareCentimeter)
	if err != nil {
		fmt.Println(err)
		return
	}
	untouched, err := r.With(r.Was.Volume())
	fmt.Printf("%.0f: ratio %.1f, %v\n", untouched.Fill.Volume(), untouched.Cold.CompressionRatio(), err)
	good, err := r.AtRatio(oil.GoodRatio)
	fmt.Printf("%.0f: ratio %.1f, %.1f once warm, %v\n", good.Fill.Volume(), good.Cold.CompressionRatio(),
		good.Warm.CompressionRatio(), err)
	// Output:
	// 220 mL: ratio 2.0, <nil>
	// 612 mL: ratio 5.0, 5.7 once warm, <nil>
}

// What class a data sheet's 22.4 mm²/s at 40 °C is, and one that lies between two.
func ExampleGradeOf() {
	for _, v := range []units.KinematicViscosity{22.4, 27} {
		grade, ok := oil.GradeOf(v * units.SquareMillimeterPerSecond)
		fmt.Println(grade, ok)
	}
	// Output:
	// {22 22 mm²/s} true
	// {0 0 mm²/s} false
}

// Which viscosities a can marked 22 may hold.
func ExampleGrade_Limits() {
	grade, ok := oil.GradeOf(22.4 * units.SquareMillimeterPerSecond)
	lo, hi := grade.Limits()
	fmt.Printf("%.1f to %.1f at 40 °C, %v\n", lo, hi, ok)
	// Output:
	// 19.8 mm²/s to 24.2 mm²/s at 40 °C, true
}

// What the leg was like with the oil that came out of it, which was less than the manual asks for.
func ExampleRefit_BeforeWith() {
	r, err := converted(7 * units.SquareCentimeter)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, poured := range []units.Volume{220 * units.Milliliter, 160 * units.Milliliter} {
		before, err := r.BeforeWith(poured)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f: level %.0f, ratio %.2f\n", poured, before.Fill.Level(), before.Cold.CompressionRatio())
	}
	// Output:
	// 220 mL: level 378 mm, ratio 1.75
	// 160 mL: level 411 mm, ratio 1.62
}
