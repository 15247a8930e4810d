package setup_test

import (
	"fmt"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Ride height over a run: the damper heats the leg, the leg heats the gas, and the fork
// rises. The leg is taken as one lump, masses and power from memory.
func ExampleSetup_At_warmUp() {
	home, _ := gas.StandardAt(0, units.Celsius(20))
	fork, err := setup.New(setup.Spec{Travel: 305 * units.Millimeter, Closed: home,
		Left: setup.Leg{Air: &setup.Air{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
			Volume:         430 * units.Milliliter,
			NegativeVolume: 70 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: home}}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	leg, err := gas.NewWarmUp(gas.WarmUpSpec{Oil: 0.45 * units.Kilogram, Aluminum: 2.2 * units.Kilogram,
		Steel:    0.6 * units.Kilogram,
		Diameter: 54 * units.Millimeter, Surface: 0.14 * units.SquareMeter, AirSpeed: 10 * units.MeterPerSecond,
		Ambient: home, Power: 60 * units.Watt})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, minutes := range []units.Time{0, 5, 20} {
		t := leg.At(minutes * units.Minute)
		warm, err := fork.At(gas.Ambient{Temperature: t, Pressure: home.Pressure})
		if err != nil {
			fmt.Println(err)
			return
		}
		sag, err := warm.Sag(680 * units.Newton)
		fmt.Printf("after %.0f min: %.0f, sag %.0f, %v\n", float64(minutes), t, sag.Middle, err)
	}
	// Output:
	// after 0 min: 20 °C, sag 75 mm, <nil>
	// after 5 min: 24 °C, sag 74 mm, <nil>
	// after 20 min: 27 °C, sag 73 mm, <nil>
}
