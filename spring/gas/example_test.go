package gas_test

import (
	"fmt"
	"log"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func ExampleStandard() {
	for _, altitude := range []units.Length{0, 1000, 2000} {
		air, err := gas.Standard(altitude)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%4.0f m: %.3f bar, %.1f °C\n", altitude.In(units.Meter), air.Pressure.In(units.Bar),
			air.Temperature.Celsius())
	}
	// Output:
	//    0 m: 1.013 bar, 15.0 °C
	// 1000 m: 0.899 bar, 8.5 °C
	// 2000 m: 0.795 bar, 2.0 °C
}

// A fork filled in a warm workshop is taken to a cold pass.
func ExampleFill_Reading() {
	home, err := gas.StandardAt(300*units.Meter, units.Celsius(22))
	if err != nil {
		log.Fatal(err)
	}
	pass, err := gas.StandardAt(2300*units.Meter, units.Celsius(4))
	if err != nil {
		log.Fatal(err)
	}
	fill := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: home}
	there, err := fill.Reading(pass)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("9.6 bar reads %.2f bar on the pass\n", there.In(units.Bar))
	// Output: 9.6 bar reads 9.17 bar on the pass
}

// A full stroke from 430 cm³ to 150 cm³, slowly and in one hit, and where its work goes.
func ExampleState_Compress() {
	air := gas.State{
		Pressure:    units.Absolute(10.6 * units.Bar),
		Volume:      430 * units.Milliliter,
		Temperature: units.Celsius(20),
	}
	for _, n := range []float64{gas.Isothermal, gas.Adiabatic} {
		end, err := air.Compress(150*units.Milliliter, n)
		if err != nil {
			log.Fatal(err)
		}
		balance, err := air.EnergyBalance(150*units.Milliliter, n)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("n = %.1f: %.1f bar, %.0f °C, work %.0f, warms the gas %.0f, heats the wall %.0f\n",
			n, end.Pressure.In(units.Bar), end.Temperature.Celsius(), balance.Work, balance.Internal, -balance.Heat)
	}
	// Output:
	// n = 1.0: 30.4 bar, 20 °C, work 480 J, warms the gas 0 J, heats the wall 480 J
	// n = 1.4: 46.3 bar, 174 °C, work 597 J, warms the gas 597 J, heats the wall 0 J
}

// Checking a small negative chamber empties it: the hose of the pump joins it. Pump back, never only check.
func ExampleJoin() {
	sea, err := gas.Standard(0)
	if err != nil {
		log.Fatal(err)
	}
	chamber, err := gas.Fill{Gauge: units.Gauge(6 * units.Bar), Ambient: sea}.State(24 * units.Milliliter)
	if err != nil {
		log.Fatal(err)
	}
	hose := gas.State{Pressure: sea.Pressure, Volume: 4 * units.Milliliter, Temperature: sea.Temperature}
	joined, err := gas.Join(chamber, hose)
	if err != nil {
		log.Fatal(err)
	}
	back, err := joined.AmountForRise(chamber.Pressure.Sub(joined.Pressure))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("filled to 6.0 bar, reads %.2f bar, wants %.2f mmol back\n",
		joined.Pressure.Gauge(sea.Pressure).In(units.Bar), back.In(units.Millimole))
	// Output: filled to 6.0 bar, reads 5.14 bar, wants 1.00 mmol back
}

func ExampleState_StoredEnergy() {
	sea, err := gas.Standard(0)
	if err != nil {
		log.Fatal(err)
	}
	chamber, err := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: sea}.State(430 * units.Milliliter)
	if err != nil {
		log.Fatal(err)
	}
	energy, err := chamber.StoredEnergy(sea)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("caution: %.0f J behind the cap, let the pressure out first\n", energy.In(units.Joule))
	// Output: caution: 558 J behind the cap, let the pressure out first
}

// How far from isothermal a motion is depends on its frequency.
func ExampleExchange() {
	wall := gas.Exchange{TimeConstant: 2.9 * units.Second}
	for _, f := range []units.Frequency{0.02, 0.1, 1} {
		fmt.Printf("%.2f Hz: n = %.2f, loss factor %.3f\n", float64(f), wall.Exponent(f), wall.LossFactor(f))
	}
	// Output:
	// 0.02 Hz: n = 1.05, loss factor 0.123
	// 0.10 Hz: n = 1.31, loss factor 0.129
	// 1.00 Hz: n = 1.40, loss factor 0.016
}
