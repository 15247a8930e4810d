package setup_test

import (
	"fmt"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// The examples below are one for each layout, with typical values from memory.

// at is a gauge reading in bar, made at 20 °C and sea level.
func at(bar float64) gas.Fill {
	a, _ := gas.StandardAt(0, units.Celsius(20))
	return gas.Fill{Gauge: units.Gauge(units.Pressure(bar) * units.Bar), Ambient: a}
}

// show closes a fork and prints its force along the stroke, at rest and ridden.
func show(travel units.Length, left, right setup.Leg) {
	fork, err := setup.New(setup.Spec{Travel: travel, Left: left, Right: right, Closed: at(0).Ambient})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range []float64{gas.Isothermal, 1.3} {
		c := fork.Curve(n)
		fmt.Printf("n = %.1f: %.0f, %.0f, %.0f, %.0f\n", n, c.Force(0), c.Force(travel/4), c.Force(travel*3/4),
			c.Force(travel))
	}
}

// One valve fills the positive chamber; at 4 mm of travel a port joins it with the
// negative one, so that both meet there on every full extension.
func Example_transferPort() {
	left := setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
		Volume: 258 * units.Milliliter, NegativeVolume: 80 * units.Milliliter, Port: 4 * units.Millimeter, Fill: at(6)}}
	show(170*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 18 N, 290 N, 795 N, 1188 N
	// n = 1.3: 18 N, 364 N, 1044 N, 1651 N
}

// The negative chamber has a valve of its own, here a little below the positive one.
func Example_twoValves() {
	left := setup.Leg{Air: &setup.Air{Bore: 36 * units.Millimeter, Rod: 12 * units.Millimeter,
		Volume: 460 * units.Milliliter, Fill: at(8.4), NegativeVolume: 80 * units.Milliliter,
		NegativeGauge: units.Gauge(8.2 * units.Bar)}}
	show(305*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 113 N, 694 N, 1696 N, 2748 N
	// n = 1.3: 113 N, 835 N, 2228 N, 3997 N
}

// A coil pulls the fork down near full extension instead of a negative chamber.
func Example_mechanicalNegative() {
	left := setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
		Volume: 225 * units.Milliliter, Fill: at(3.4)},
		Springs: []spring.Spec{spring.TopOutSpec{Rate: 5 * units.NewtonPerMillimeter, Length: 45 * units.Millimeter}}}
	show(160*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 69 N, 339 N, 622 N, 906 N
	// n = 1.3: 69 N, 362 N, 767 N, 1236 N
}

// Main, balance and outer chamber: the outer one is the leg around the cartridge with
// a little pressure of its own.
func Example_threeChambers() {
	left := setup.Leg{Air: &setup.Air{Bore: 36 * units.Millimeter, Rod: 12 * units.Millimeter,
		Volume: 460 * units.Milliliter, Fill: at(8.4), NegativeVolume: 80 * units.Milliliter,
		NegativeGauge: units.Gauge(8.2 * units.Bar)},
		Gap: &setup.Gap{Area: geometry.Circle(48 * units.Millimeter), Residual: 331 * units.Milliliter,
			Gauge: units.Gauge(0.15 * units.Bar)}}
	show(305*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 140 N, 760 N, 1909 N, 3127 N
	// n = 1.3: 140 N, 915 N, 2524 N, 4568 N
}

// A second positive chamber behind a floating piston takes over where the first has
// reached its pressure.
func Example_floatingPiston() {
	left := setup.Leg{Air: &setup.Air{Bore: 35 * units.Millimeter, Rod: 10 * units.Millimeter,
		Volume: 300 * units.Milliliter, NegativeVolume: 92 * units.Milliliter, Fill: at(5.2),
		SecondVolume: 55 * units.Milliliter, SecondGauge: units.Gauge(8.8 * units.Bar)}}
	show(170*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 41 N, 294 N, 741 N, 992 N
	// n = 1.3: 41 N, 363 N, 924 N, 1284 N
}

// Each leg is an air spring as a whole, at low pressure, balanced by a coil.
func Example_wholeLegAir() {
	leg := setup.Leg{Air: &setup.Air{Bore: 47.3 * units.Millimeter, Volume: 770 * units.Milliliter, Fill: at(2.2)},
		Springs: []spring.Spec{spring.TopOutSpec{Rate: 4 * units.NewtonPerMillimeter, Length: 95 * units.Millimeter}}}
	show(305*units.Millimeter, leg, leg)
	// Output:
	// n = 1.0: 13 N, 861 N, 2006 N, 3359 N
	// n = 1.3: 13 N, 942 N, 2592 N, 4954 N
}

// Coil springs with some air pressure over the oil.
func Example_airAssistedCoil() {
	leg := setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 3.5 * units.NewtonPerMillimeter,
		Preload: 5 * units.Millimeter}},
		Gap: &setup.Gap{Area: geometry.Circle(43 * units.Millimeter), Residual: 111 * units.Milliliter,
			Gauge: units.Gauge(0.3 * units.Bar)}}
	show(300*units.Millimeter, leg, leg)
	// Output:
	// n = 1.0: 122 N, 742 N, 2264 N, 3719 N
	// n = 1.3: 122 N, 775 N, 2562 N, 4871 N
}

// The gas of a pressurized damper pushes on its rod.
func Example_pressurizedDamper() {
	left := setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: 10 * units.NewtonPerMillimeter,
		Preload: 10 * units.Millimeter}}}
	right := left
	right.Damper = &setup.Damper{Rod: 12.5 * units.Millimeter, Volume: 80 * units.Milliliter, Fill: at(6)}
	show(125*units.Millimeter, left, right)
	// Output:
	// n = 1.0: 274 N, 903 N, 2163 N, 2794 N
	// n = 1.3: 274 N, 904 N, 2168 N, 2801 N
}

// An auxiliary volume behind an orifice shares the pressure at rest and is cut off
// when the fork moves fast.
func Example_linkedVolume() {
	left := setup.Leg{Air: &setup.Air{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
		Volume: 380 * units.Milliliter, NegativeVolume: 70 * units.Milliliter, Linked: 100 * units.Milliliter, Fill: at(9.6)}}
	show(305*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 109 N, 662 N, 1453 N, 2077 N
	// n = 1.3: 109 N, 865 N, 2523 N, 5122 N
}

// Two reducers of 10 mL make the end of the stroke firmer.
func Example_volumeReducers() {
	left := setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
		Volume: 258 * units.Milliliter, Reducers: 20 * units.Milliliter, NegativeVolume: 80 * units.Milliliter, Fill: at(6)}}
	show(170*units.Millimeter, left, setup.Leg{})
	// Output:
	// n = 1.0: 47 N, 321 N, 879 N, 1376 N
	// n = 1.3: 47 N, 397 N, 1165 N, 1962 N
}

// What one reducer more would do: a clone is tried, and the fork stays as it is.
func ExampleSpec_Clone() {
	fork := setup.Spec{Travel: 170 * units.Millimeter, Closed: at(0).Ambient, Left: setup.Leg{Air: &setup.Air{
		Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter, Volume: 258 * units.Milliliter,
		Reducers: 20 * units.Milliliter, NegativeVolume: 80 * units.Milliliter, Fill: at(6)}}}
	trial := fork.Clone()
	trial.Left.Air.Reducers += 10 * units.Milliliter
	for _, spec := range []setup.Spec{fork, trial} {
		s, err := setup.New(spec)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f of reducers: %.0f at full travel\n", spec.Left.Air.Reducers, s.Curve(1.3).Force(spec.Travel))
	}
	// Output:
	// 20 mL of reducers: 1962 N at full travel
	// 30 mL of reducers: 2176 N at full travel
}

// What gauges would show with the rider on: the gas of each chamber at the sag.
func ExampleSetup_Spaces() {
	left := setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
		Volume: 258 * units.Milliliter, NegativeVolume: 80 * units.Milliliter, Fill: at(6)}}
	fork, err := setup.New(setup.Spec{Travel: 170 * units.Millimeter, Left: left, Closed: at(0).Ambient})
	if err != nil {
		fmt.Println(err)
		return
	}
	spaces, err := fork.Spaces(40*units.Millimeter, gas.Isothermal)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range spaces {
		fmt.Printf("%v, %v: %.1f on %.2f cm², %.0f\n", c.Side, c.Chamber, c.Gas.Pressure.Gauge(fork.Ambient().Pressure),
			c.Area.In(units.SquareCentimeter), c.Gas.Volume)
	}
	// Output:
	// left, positive: 7.1 bar on 8.66 cm², 223 mL
	// left, negative: 4.0 bar on -7.87 cm², 111 mL
}
