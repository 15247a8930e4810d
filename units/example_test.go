package units_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.org/forkcurve/units"
)

func Example() {
	rate := 0.46 * units.KilogramForcePerMillimeter
	compression := 40 * units.Millimeter
	force := units.Force(float64(rate) * float64(compression))
	fmt.Printf("%.2f over %.0f is %.1f, or %.1f kgf\n", rate, compression, force, force.In(units.KilogramForce))
	// Output: 4.51 N/mm over 40 mm is 180.4 N, or 18.4 kgf
}

func ExampleParse() {
	rate, err := units.Parse[units.Stiffness]("26 lbf/in")
	fmt.Printf("%.2f %v\n", rate, err)

	_, err = units.Parse[units.Force]("12.5 bar")
	fmt.Println(err)
	// Output:
	// 4.55 N/mm <nil>
	// units: parse Force "12.5 bar": at byte 5: bar is a pressure (want a number in N, kN, kgf, lbf)
}

func ExampleParseError() {
	_, err := units.Parse[units.Mass]("82,5 kg")
	var fault *units.ParseError
	if errors.As(err, &fault) {
		fmt.Println(fault.Quantity, fault.Offset, fault.Hint)
	}
	// Output: Mass 2 decimal comma: write 82.5
}

func ExampleLength() {
	level := 140 * units.Millimeter
	fmt.Printf("%v, %.2f in\n", level, level.In(units.Inch))
	// Output: 140 mm, 5.51 in
}

func ExampleLength_Format() {
	for _, l := range []units.Length{4.3 * units.Millimeter, 140 * units.Millimeter} {
		fmt.Printf("[%10.1f] [%-10.0f]\n", l, l)
	}
	// Output:
	// [    4.3 mm] [4 mm      ]
	// [  140.0 mm] [140 mm    ]
}

func ExampleTorque() {
	torque, err := units.Parse[units.Torque]("33.2 lbf·ft")
	fmt.Printf("%.1f %v\n", torque, err)
	// Output: 45.0 N·m <nil>
}

func ExampleGaugePressure() {
	fill := units.Gauge(9.6 * units.Bar)
	valley := units.Absolute(1.013 * units.Bar)
	pass := units.Absolute(0.795 * units.Bar) // about 2000 m higher
	inside := fill.Absolute(valley)
	fmt.Printf("%.1f inside; the gauge shows %.1f below and %.1f above\n", inside, fill, inside.Gauge(pass))
	// Output: 10.6 bar abs inside; the gauge shows 9.6 bar below and 9.8 bar above
}

func ExampleAbsolutePressure() {
	pressure, err := units.Parse[units.AbsolutePressure]("29.92 inHg")
	fmt.Printf("%.3f %v\n", pressure, err)
	// Output: 1.013 bar abs <nil>
}

func ExampleTemperature() {
	morning := units.Fahrenheit(50)
	noon := units.Celsius(28)
	fmt.Printf("%.1f to %.1f is %.1f\n", morning, noon, noon.Sub(morning))
	// Output: 10.0 °C to 28.0 °C is 18.0 K
}

func ExampleVolume_UnmarshalText() {
	var fill struct{ Oil units.Volume }
	err := json.Unmarshal([]byte(`{"Oil": "12 US fl oz"}`), &fill)
	fmt.Printf("%.0f %v\n", fill.Oil, err)

	err = json.Unmarshal([]byte(`{"Oil": "12 oz"}`), &fill)
	var fault *units.ParseError
	fmt.Println(errors.As(err, &fault), fault.Hint)
	// Output:
	// 355 mL <nil>
	// true say which fluid ounce: "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)
}

func ExampleShare() {
	sag, err := units.Parse[units.Share]("22.5 %")
	travel := 305 * units.Millimeter
	fmt.Printf("%v of %v is %.0f %v\n", sag, travel, units.Length(sag)*travel, err)

	back := units.Share(64 * units.Millimeter / travel)
	fmt.Printf("64 mm is %.1f\n", back)
	// Output:
	// 22.5 % of 305 mm is 69 mm <nil>
	// 64 mm is 21.0 %
}

func ExampleFlow() {
	// What a piston ring area of 3.1 cm² displaces at 2 m/s.
	q := units.Flow(float64(3.1*units.SquareCentimeter) * float64(2*units.MeterPerSecond))
	fmt.Printf("%.0f, %.1f L/min\n", q, q.In(units.LiterPerMinute))
	// Output: 620 mL/s, 37.2 L/min
}

func ExampleSpecificHeat() {
	c, err := units.Parse[units.SpecificHeat]("1.9 kJ/(kg·K)")
	fmt.Println(c, err)
	// Output: 1900 J/(kg·K) <nil>
}
