package spring_test

import (
	"fmt"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// One leg of a fork holds a coil spring, the other only the gas over its oil.
func Example() {
	sea := units.Absolute(1.013 * units.Bar)
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter,
		Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	gap, err := spring.NewChamber(spring.ChamberSpec{Area: 18 * units.SquareCentimeter, Volume: 720 * units.Milliliter,
		Pressure: sea, Ambient: sea, Exponent: 1.3, Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	fork := spring.Parallel(coil, gap)
	for _, p := range spring.Sample(fork, 4) {
		fmt.Printf("%6.0f %6.0f %10.2f %5.0f\n", p.Travel, p.Force, p.Rate, p.Energy)
	}
	sag, err := spring.Equilibrium(fork, 650*units.Newton)
	fmt.Printf("sag %.0f, %v\n", sag, err)
	// Output:
	//   0 mm   36 N  9.59 N/mm   0 J
	// 100 mm 1019 N 10.15 N/mm  52 J
	// 200 mm 2103 N 11.92 N/mm 207 J
	// 300 mm 3659 N 23.37 N/mm 486 J
	// sag 63 mm, <nil>
}

// A coil that would bind within the travel of the fork ends its stroke there.
func ExampleNewCoil() {
	c, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter,
		FreeLength: 520 * units.Millimeter, SolidLength: 230 * units.Millimeter, Travel: 305 * units.Millimeter})
	fmt.Printf("%.0f, %v\n", c.Stroke(), err)
	// Output: 286 mm, <nil>
}

// The force of an equalized air spring at full extension is that of its gauge
// pressure on the rod.
func ExampleNewAir() {
	sea := units.Absolute(1.013 * units.Bar)
	a, err := spring.NewAir(spring.AirSpec{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
		Volume: 430 * units.Milliliter, NegativeVolume: 70 * units.Milliliter,
		Pressure: units.Gauge(9.6 * units.Bar).Absolute(sea), Ambient: sea, Exponent: 1.3,
		Travel: 305 * units.Millimeter})
	fmt.Printf("%.0f at the top, %.0f at the bottom, %v\n", a.Force(0), a.Force(a.Stroke()), err)
	// Output: 109 N at the top, 3558 N at the bottom, <nil>
}

func ExampleNewFloatingPiston() {
	sea := units.Absolute(1.013 * units.Bar)
	p, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{
		Air: spring.AirSpec{Bore: 35 * units.Millimeter, Rod: 10 * units.Millimeter,
			Volume: 300 * units.Milliliter, NegativeVolume: 92 * units.Milliliter,
			Pressure: units.Gauge(5.2 * units.Bar).Absolute(sea), Ambient: sea, Exponent: 1.3,
			Travel: 170 * units.Millimeter},
		SecondVolume: 55 * units.Milliliter, SecondPressure: units.Gauge(8.8 * units.Bar).Absolute(sea)})
	fmt.Printf("floats from %.0f, %v\n", p.Engage(), err)
	// Output: floats from 92 mm, <nil>
}

// A table of forces, read in bulk.
func ExampleAppendForces() {
	sea := units.Absolute(1.013 * units.Bar)
	air, err := spring.NewAir(spring.AirSpec{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
		Volume: 430 * units.Milliliter, NegativeVolume: 70 * units.Milliliter,
		Pressure: units.Gauge(9.6 * units.Bar).Absolute(sea), Ambient: sea, Exponent: 1.3,
		Travel: 305 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	travels := []units.Length{0, 100 * units.Millimeter, 200 * units.Millimeter, 300 * units.Millimeter}
	for _, f := range spring.AppendForces(nil, spring.Parallel(air), travels) {
		fmt.Printf("%.0f ", f)
	}
	// Output: 109 N 985 N 1774 N 3418 N
}

func ExampleCompare() {
	spec := spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter,
		Travel: 300 * units.Millimeter}
	nine, _ := spring.NewCoil(spec)
	spec.Rate = 9.5 * units.NewtonPerMillimeter
	stiffer, _ := spring.NewCoil(spec)
	d := spring.Compare(nine, stiffer, 50)
	fmt.Printf("%.0f more at %.0f\n", d.Largest.Force, d.Largest.Travel)
	// Output: 152 N more at 300 mm
}

// A spring wound in two pitches: sixteen coils at 4 mm and eight at 9 mm.
func ExampleNewProgressive() {
	p, err := spring.NewProgressive(spring.ProgressiveSpec{
		Coils: []spring.CoilGroup{
			{Count: 16, Gap: 4 * units.Millimeter, Rate: 180 * units.NewtonPerMillimeter},
			{Count: 8, Gap: 9 * units.Millimeter, Rate: 180 * units.NewtonPerMillimeter},
		},
		Preload: 10 * units.Millimeter, Travel: 120 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range p.Changes() {
		fmt.Printf("%.1f up to %.0f, then %.1f\n", p.Rate(0), x, p.Rate(x))
	}
	fmt.Printf("%.0f at %.0f\n", p.Force(p.Stroke()), p.Stroke())
	// Output:
	// 7.5 N/mm up to 86 mm, then 22.5 N/mm
	// 1485 N at 120 mm
}

func ExampleNewRateTable() {
	p, err := spring.NewRateTable(spring.RateTableSpec{
		Rates: []spring.RatePoint{
			{Compression: 0, Rate: 6 * units.NewtonPerMillimeter},
			{Compression: 70 * units.Millimeter, Rate: 6 * units.NewtonPerMillimeter},
			{Compression: 140 * units.Millimeter, Rate: 9 * units.NewtonPerMillimeter},
		},
		Preload: 20 * units.Millimeter, Travel: 120 * units.Millimeter})
	fmt.Printf("%.2f at 85 mm, %.0f at the end, %v\n", p.Rate(85*units.Millimeter), p.Force(p.Stroke()), err)
	// Output: 7.50 N/mm at 85 mm, 945 N at the end, <nil>
}

// A short soft spring stacked on a long hard one, with a sleeve that bridges it.
func ExampleNewStack() {
	s, err := spring.NewStack(spring.StackSpec{
		Soft: spring.CoilPart{Rate: 20 * units.NewtonPerMillimeter, FreeLength: 80 * units.Millimeter,
			SolidLength: 35 * units.Millimeter},
		Hard: spring.CoilPart{Rate: 12 * units.NewtonPerMillimeter, FreeLength: 300 * units.Millimeter,
			SolidLength: 150 * units.Millimeter},
		Crossover: 25 * units.Millimeter, Preload: 15 * units.Millimeter, Travel: 130 * units.Millimeter})
	fmt.Println(err)
	s, err = spring.NewStack(spring.StackSpec{
		Soft: spring.CoilPart{Rate: 12 * units.NewtonPerMillimeter, FreeLength: 80 * units.Millimeter,
			SolidLength: 35 * units.Millimeter},
		Hard: spring.CoilPart{Rate: 20 * units.NewtonPerMillimeter, FreeLength: 300 * units.Millimeter,
			SolidLength: 150 * units.Millimeter},
		Crossover: 25 * units.Millimeter, Preload: 15 * units.Millimeter, Travel: 130 * units.Millimeter})
	fmt.Printf("%.1f up to %.0f, then %.1f, %v\n", s.Rate(0), s.Crossover(), s.Rate(s.Crossover()), err)
	// Output:
	// StackSpec.Soft.Rate = 20 N/mm: want at most the rate of Hard, 12 N/mm (are the two swapped?)
	// 7.5 N/mm up to 25 mm, then 20.0 N/mm, <nil>
}

func ExampleNewNested() {
	n, err := spring.NewNested(spring.NestedSpec{
		Outer: spring.CoilPart{Rate: 6 * units.NewtonPerMillimeter, FreeLength: 300 * units.Millimeter,
			SolidLength: 140 * units.Millimeter},
		Inner: spring.CoilPart{Rate: 4 * units.NewtonPerMillimeter, FreeLength: 240 * units.Millimeter,
			SolidLength: 130 * units.Millimeter},
		Preload: 10 * units.Millimeter, Travel: 130 * units.Millimeter})
	fmt.Printf("%.0f up to %.0f, then %.0f, %v\n", n.Rate(0), n.Join(), n.Rate(n.Join()), err)
	// Output: 6 N/mm up to 50 mm, then 10 N/mm, <nil>
}

// The last 18 mm of travel press a rubber ring to 40 % of its height.
func ExampleNewBumpStop() {
	b, err := spring.NewBumpStop(spring.BumpStopSpec{
		Outer: 34 * units.Millimeter, Bore: 14 * units.Millimeter, Height: 30 * units.Millimeter,
		Modulus: 3 * units.Megapascal, Restraint: 1.5,
		Contact: 282 * units.Millimeter, MaxStrain: 0.6, Travel: 300 * units.Millimeter})
	for _, x := range []units.Length{0.282, 0.285, 0.290, 0.295, 0.300} {
		fmt.Printf("%.0f %7.0f %6.1f\n", x, b.Force(x), b.Energy(x))
	}
	fmt.Println(err)
	// Output:
	// 282 mm     0 N  0.0 J
	// 285 mm   263 N  0.4 J
	// 290 mm   884 N  3.1 J
	// 295 mm  2001 N 10.0 J
	// 300 mm  4595 N 25.4 J
	// <nil>
}

// A bench pushes a fork in and lets it out again.
func ExampleNewMeasured() {
	record := []spring.Reading{
		{0, 56}, {0.020, 240}, {0.050, 516}, {0.080, 810}, {0.100, 1030},
		{0.080, 764}, {0.050, 470}, {0.020, 192}, {0, 8},
	}
	spec, err := spring.Branches(record)
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := spring.NewMeasured(spec)
	x := 35 * units.Millimeter
	fmt.Printf("%.0f ± %.0f, %.1f at %.0f; a cycle loses %.1f, %v\n",
		m.Force(x), m.Friction(x), m.Rate(x), x, m.Loss(), err)
	// Output: 353 N ± 24 N, 9.2 N/mm at 35 mm; a cycle loses 4.4 J, <nil>
}

// Two coils end to end under a common preload.
func ExampleSeries() {
	coil := func(rate units.Stiffness) spring.Curve {
		c, err := spring.NewCoil(spring.CoilSpec{Rate: rate, Travel: 200 * units.Millimeter})
		if err != nil {
			panic(err)
		}
		return c
	}
	pair := spring.Series(coil(12*units.NewtonPerMillimeter), coil(24*units.NewtonPerMillimeter))
	leg := spring.Limit(spring.Shift(pair, 10*units.Millimeter), 150*units.Millimeter)
	fmt.Printf("%.0f at full extension, %.0f, %.0f of travel\n", leg.Force(0), leg.Rate(0), leg.Stroke())
	// Output: 80 N at full extension, 8 N/mm, 150 mm of travel
}

// Two legs alike, of which the springs are 3 % stiffer than their label.
func ExampleScale() {
	leg, err := spring.NewCoil(spring.CoilSpec{Rate: 4.2 * units.NewtonPerMillimeter, Preload: 5 * units.Millimeter,
		Travel: 300 * units.Millimeter})
	fork := spring.Scale(leg, 2*1.03)
	fmt.Printf("%.0f at full extension, %.2f, %v\n", fork.Force(0), fork.Rate(0), err)
	// Output: 43 N at full extension, 8.65 N/mm, <nil>
}

// A landing runs 4 mm into a rubber stop; the fork tops out on a harder one.
func ExampleWithStops() {
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter,
		Travel: 300 * units.Millimeter})
	fork := spring.WithStops(coil, 2000*units.NewtonPerMillimeter, 400*units.NewtonPerMillimeter)
	for _, x := range []units.Length{-1 * units.Millimeter, 0, 300 * units.Millimeter, 304 * units.Millimeter} {
		fmt.Printf("%6.0f %7.0f %9.0f %8.1f\n", x, fork.Force(x), fork.Rate(x), fork.Energy(x))
	}
	fmt.Println(err)
	// Output:
	//  -1 mm -1964 N 2000 N/mm    1.0 J
	//   0 mm    36 N    9 N/mm    0.0 J
	// 300 mm  2736 N    9 N/mm  415.8 J
	// 304 mm  4336 N  400 N/mm  429.9 J
	// <nil>
}

// Rates and stored energies of a coil with a bump stop, at every quarter of the travel.
func ExampleAppendEnergies() {
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	stop, err := spring.NewBumpStop(spring.BumpStopSpec{
		Outer: 34 * units.Millimeter, Bore: 14 * units.Millimeter, Height: 30 * units.Millimeter,
		Modulus: 3 * units.Megapascal, Restraint: 1.5,
		Contact: 282 * units.Millimeter, MaxStrain: 0.6, Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	fork := spring.Parallel(coil, stop)
	travels := []units.Length{0.075, 0.150, 0.225, 0.300}
	fmt.Printf("%.0f\n", spring.AppendRates(nil, fork, travels))
	fmt.Printf("%.0f\n", spring.AppendEnergies(nil, fork, travels))
	// Output:
	// [9 N/mm 9 N/mm 9 N/mm 853 N/mm]
	// [25 J 101 J 228 J 430 J]
}

// A combination carries its fault to where an error can be returned.
func ExampleErr() {
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	fork := spring.Parallel(coil, spring.Shift(coil, 310*units.Millimeter))
	fmt.Println(spring.Err(fork))
	_, err = spring.Equilibrium(fork, 650*units.Newton)
	fmt.Println(err)
	// Output:
	// by = 310 mm: want below the stroke of the curve, 300 mm
	// by = 310 mm: want below the stroke of the curve, 300 mm
}

// A coil as negative spring: it pulls the fork together over its first 40 mm.
func ExampleNewTopOut() {
	negative, err := spring.NewTopOut(spring.TopOutSpec{Rate: 6 * units.NewtonPerMillimeter,
		Length: 40 * units.Millimeter,
		Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range []units.Length{0, 20 * units.Millimeter, 40 * units.Millimeter, 60 * units.Millimeter} {
		fmt.Printf("at %.0f %.0f, %.1f\n", x, negative.Force(x), negative.Rate(x))
	}
	// Output:
	// at 0 mm -240 N, 6.0 N/mm
	// at 20 mm -120 N, 6.0 N/mm
	// at 40 mm 0 N, 0.0 N/mm
	// at 60 mm 0 N, 0.0 N/mm
}

// All that a table or a plot of a curve needs, in one call.
func ExampleAppendPoints() {
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter,
		Travel: 300 * units.Millimeter})
	if err != nil {
		fmt.Println(err)
		return
	}
	travels := []units.Length{0, 100 * units.Millimeter, 200 * units.Millimeter, 300 * units.Millimeter}
	for i, p := range spring.AppendPoints(nil, coil, travels) {
		fmt.Printf("%3.0f mm  %4.0f N  %.0f N/mm  %3.0f J\n", travels[i].In(units.Millimeter), float64(p.Force),
			p.Rate.In(units.NewtonPerMillimeter), float64(p.Energy))
	}
	// Output:
	// 0 mm    36 N  9 N/mm    0 J
	// 100 mm   936 N  9 N/mm   49 J
	// 200 mm  1836 N  9 N/mm  187 J
	// 300 mm  2736 N  9 N/mm  416 J
}
