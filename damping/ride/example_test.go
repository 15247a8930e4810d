package ride_test

import (
	"context"
	"fmt"
	"log"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Twenty seconds of a rough road on a motocross fork: where the fork stands, how far it moves, and for how
// much of the time it is in which part of its travel.
func Example() {
	front := motocross()
	road, err := ride.ISO8608('E', 12, 20, 1)
	if err != nil {
		log.Fatal(err)
	}
	run, err := front.Run(context.Background(), ride.Course{Duration: 20, Road: road}, ride.Settings{})
	if err != nil {
		log.Fatal(err)
	}
	travel := run.Summary().Travel
	fmt.Printf("sag %.0f, travel from %.0f to %.0f\n", front.Sag(), travel.Least, travel.Most)
	thirds := ride.Histogram(run, func(s ride.Sample) units.Length { return s.Travel }, 0, front.Spec().Fork.Travel(), 3)
	for i, share := range thirds {
		fmt.Printf("third %d: %.0f of the time\n", i+1, share)
	}
	// Output:
	// sag 62 mm, travel from 19 mm to 142 mm
	// third 1: 95 % of the time
	// third 2: 5 % of the time
	// third 3: 0 % of the time
}

// motocross is the front of a motocross fork of the dataset with a rider.
func motocross() *ride.Vehicle {
	record, err := data.Reference().Fork("M07")
	if err != nil {
		log.Fatal(err)
	}
	home, err := gas.StandardAt(200*units.Meter, units.Celsius(20))
	if err != nil {
		log.Fatal(err)
	}
	set, err := record.Setup(home)
	if err != nil {
		log.Fatal(err)
	}
	front, err := ride.New(ride.Of(set, record.Chassis.Geometry(), 80*units.Kilogram, damping.Linear(900)))
	if err != nil {
		log.Fatal(err)
	}
	return front
}

// A road of one's own: a bump of 60 mm as it was measured, at 10 m/s 0.8 m long.
func ExampleNewProfile() {
	bump, err := ride.NewProfile([]ride.Height{{Time: 0}, {Time: 0.2}, {Time: 0.24, Height: 60 * units.Millimeter},
		{Time: 0.28}, {Time: 1}}, true)
	if err != nil {
		log.Fatal(err)
	}
	run, err := motocross().Run(context.Background(), ride.Course{Duration: 1, Road: bump}, ride.Settings{})
	if err != nil {
		log.Fatal(err)
	}
	travel := run.Summary().Travel
	fmt.Printf("travel from %.0f to %.0f\n", travel.Least, travel.Most)
	// Output:
	// travel from 18 mm to 153 mm
}

// A curb of 80 mm, met within 0.05 s: how deep the fork goes.
func ExampleStep() {
	curb, err := ride.Step(80*units.Millimeter, 0.1, 0.05)
	if err != nil {
		log.Fatal(err)
	}
	front := motocross()
	run, err := front.Run(context.Background(), ride.Course{Duration: 2, Road: curb}, ride.Settings{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("from %.0f of sag to %.0f\n", front.Sag(), run.Summary().Travel.Most)
	// Output:
	// from 62 mm of sag to 116 mm
}

// How a front follows waves of the road, by its linear elements and from the motion itself.
func ExampleVehicle_SteppedSine() {
	front := motocross()
	for _, f := range []units.Frequency{1, 3, 8} {
		near, err := front.Response(f, 10*units.Millimeter)
		if err != nil {
			log.Fatal(err)
		}
		exact, err := front.SteppedSine(context.Background(), f, 10*units.Millimeter)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%.0f: body %.2f of the road, by its motion %.2f; stuck %v\n", f, near.Body, exact.Body, near.Stuck)
	}
	// Output:
	// 1 Hz: body 1.06 of the road, by its motion 1.06; stuck true
	// 3 Hz: body 1.47 of the road, by its motion 1.46; stuck false
	// 8 Hz: body 0.31 of the road, by its motion 0.31; stuck false
}
