package spring_test

import (
	"fmt"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// One leg of a fork holds a coil spring, the other only the gas over its oil.
func Example() {
	sea := units.Absolute(1.013 * units.Bar)
	coil, err := spring.NewCoil(spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter, Travel: 300 * units.Millimeter})
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
		Pressure: units.Gauge(9.6 * units.Bar).Absolute(sea), Ambient: sea, Exponent: 1.3, Travel: 305 * units.Millimeter})
	fmt.Printf("%.0f at the top, %.0f at the bottom, %v\n", a.Force(0), a.Force(a.Stroke()), err)
	// Output: 109 N at the top, 3558 N at the bottom, <nil>
}

func ExampleNewFloatingPiston() {
	sea := units.Absolute(1.013 * units.Bar)
	p, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{
		Air: spring.AirSpec{Bore: 35 * units.Millimeter, Rod: 10 * units.Millimeter,
			Volume: 300 * units.Milliliter, NegativeVolume: 92 * units.Milliliter,
			Pressure: units.Gauge(5.2 * units.Bar).Absolute(sea), Ambient: sea, Exponent: 1.3, Travel: 170 * units.Millimeter},
		SecondVolume: 55 * units.Milliliter, SecondPressure: units.Gauge(8.8 * units.Bar).Absolute(sea)})
	fmt.Printf("floats from %.0f, %v\n", p.Engage(), err)
	// Output: floats from 92 mm, <nil>
}

func ExampleCompare() {
	spec := spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * units.Millimeter, Travel: 300 * units.Millimeter}
	nine, _ := spring.NewCoil(spec)
	spec.Rate = 9.5 * units.NewtonPerMillimeter
	stiffer, _ := spring.NewCoil(spec)
	d := spring.Compare(nine, stiffer, 50)
	fmt.Printf("%.0f more at %.0f\n", d.Largest.Force, d.Largest.Travel)
	// Output: 152 N more at 300 mm
}
