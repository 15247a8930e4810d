package bench_test

import (
	"context"
	"fmt"
	"math/rand/v2"

	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Two ways of sag tell the friction, a jug the inside of the leg; how much oil to pour is known
// much better for it, and the advice is what to read next.
func ExampleLearn() {
	k, err := bench.Learn(context.Background(), motocross(), room, unknowns(), []bench.Reading{
		bench.Sag{Rider: 79, From: bench.Above, Travel: 66 * units.Millimeter, SD: 2 * units.Millimeter},
		bench.Sag{Rider: 79, From: bench.Below, Travel: 91 * units.Millimeter, SD: 2 * units.Millimeter},
		bench.OilToMark{Side: setup.Left, Level: 160 * units.Millimeter, Oil: 633 * units.Milliliter,
			SD: 4 * units.Milliliter},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range k.Values {
		if v.Known() {
			fmt.Printf("%s: %s, before %s\n", v.Name, v.After, v.Before)
		}
	}
	oil := bench.OilFor(setup.Left, 3.5)
	a, err := k.Answer(oil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("oil:", a)
	next, err := k.Next(oil, []bench.Candidate{
		{Reading: bench.WheelMass{SD: 0.1}, Minutes: 4},
		{Reading: bench.Rise{Side: setup.Left, SD: 1.5 * units.Millimeter}, Minutes: 2},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("next:", next[0])
	// Output:
	// friction: 78 N ± 9 N, before 84 N ± 25 N
	// left.interior: 876 mL ± 4 mL, before 900 mL ± 50 mL
	// oil: 630 mL ± 7 mL (± 50 mL before)
	// next: rise of the level in the left leg: ± 5 mL after 2 min
}

// Is it worth reading the sag with a ruler before a race in the mountains? A fork that is made up
// tells, before any fork is lifted: what is answered from the readings against what is true of it.
func ExampleSimulate() {
	truth := motocross()
	planned := []bench.Reading{
		bench.Sag{Rider: 79, From: bench.Above, SD: 2 * units.Millimeter},
		bench.Sag{Rider: 79, From: bench.Below, SD: 2 * units.Millimeter},
	}
	readings, err := bench.Simulate(truth, room, planned, rand.New(rand.NewPCG(4, 4)))
	if err != nil {
		fmt.Println(err)
		return
	}
	k, err := bench.Learn(context.Background(), truth, room, unknowns(), readings)
	if err != nil {
		fmt.Println(err)
		return
	}
	mountain, err := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, q := range []bench.Question{bench.DriftOf(79, room, mountain), bench.EnergyTo(200 * units.Millimeter)} {
		a, err := k.Answer(q)
		if err != nil {
			fmt.Println(err)
			return
		}
		is, err := q.Of(truth)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %s, truly %s\n", q.Name, a, q.Text(is))
	}
	// Output:
	// change of sag there: -4.8 mm ± 0.3 mm (± 0.3 mm before), truly -4.8 mm
	// energy to 200 mm: 210 J ± 10 J (± 11 J before), truly 211 J
}
