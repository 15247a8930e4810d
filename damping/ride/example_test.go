package ride_test

import (
	"context"
	"fmt"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/damping/ride"
	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Twenty seconds of a rough road on a motocross fork: where the fork stands, how far it moves, and for how
// much of the time it is in which part of its travel.
func Example() {
	record, err := data.Reference().Fork("M07")
	if err != nil {
		fmt.Println(err)
		return
	}
	home, err := gas.StandardAt(200*units.Meter, units.Celsius(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	set, err := record.Setup(home)
	if err != nil {
		fmt.Println(err)
		return
	}
	front, err := ride.New(ride.Of(set, record.Chassis.Geometry(), 80*units.Kilogram, damping.Linear(900)))
	if err != nil {
		fmt.Println(err)
		return
	}
	road, err := ride.ISO8608('E', 12, 20, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	run, err := front.Run(context.Background(), ride.Course{Duration: 20, Road: road}, ride.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	travel := run.Summary().Travel
	fmt.Printf("sag %.0f, travel from %.0f to %.0f\n", front.Sag(), travel.Least, travel.Most)
	thirds := ride.Histogram(run, func(s ride.Sample) units.Length { return s.Travel }, 0, set.Travel(), 3)
	for i, share := range thirds {
		fmt.Printf("third %d: %.0f of the time\n", i+1, share)
	}
	// Output:
	// sag 62 mm, travel from 19 mm to 142 mm
	// third 1: 95 % of the time
	// third 2: 5 % of the time
	// third 3: 0 % of the time
}
