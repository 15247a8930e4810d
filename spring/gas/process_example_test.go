package gas_test

import (
	"errors"
	"fmt"
	"log"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// How heavy the air in the main chamber of a motocross fork is, and how wrong the ideal gas law.
func ExampleSpecies_Departure() {
	main := gas.State{
		Pressure:    units.Absolute(10.6 * units.Bar),
		Volume:      430 * units.Milliliter,
		Temperature: units.Celsius(20),
	}
	off, err := gas.DryAir.Departure(main, 150*units.Milliliter)
	if err != nil {
		log.Fatal(err)
	}
	density, err := gas.DryAir.Density(main.Pressure, main.Temperature)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f g of air, amount %+.1f %%\n", 1000*float64(density)*float64(main.Volume), 100*off.Amount)
	fmt.Printf("pressure at the bottom, slow %+.1f %%, in one hit %+.1f %%\n", 100*off.Slow, 100*off.Fast)
	fmt.Printf("temperature there %+.1f K\n", float64(off.Temperature))
	// Output:
	// 5.44 g of air, amount -0.4 %
	// pressure at the bottom, slow +0.5 %, in one hit -2.8 %
	// temperature there -4.2 K
}

// Braking, or pumping through a bowl, at one swing in ten seconds.
func ExampleNewCycle() {
	rest := gas.State{
		Pressure:    units.Absolute(10.6 * units.Bar),
		Volume:      300 * units.Milliliter,
		Temperature: units.Celsius(20),
	}
	wall, err := gas.EstimateExchange(rest, 34*units.Millimeter, 40)
	if err != nil {
		log.Fatal(err)
	}
	loop, err := gas.NewCycle(gas.CycleSpec{
		Rest:      rest,
		Amplitude: 90 * units.Milliliter,
		Frequency: 0.1,
		Exchange:  wall,
	})
	if err != nil {
		log.Fatal(err)
	}
	hottest := rest.Temperature
	for s := range loop.Loop() {
		if s.Temperature.Compare(hottest) > 0 {
			hottest = s.Temperature
		}
	}
	fmt.Printf("time constant about %.0f s\n", float64(wall.TimeConstant))
	fmt.Printf("n = %.2f, loss factor %.2f, %.0f J a cycle, up to %.0f °C\n",
		loop.Exponent(), loop.LossFactor(), loop.Loss().In(units.Joule), hottest.Celsius())
	// Output:
	// time constant about 3 s
	// n = 1.32, loss factor 0.12, 15 J a cycle, up to 58 °C
}

// Ten minutes of a rough track, and what they do to the pressure.
func ExampleNewWarmUp() {
	sea, err := gas.StandardAt(0, units.Celsius(20))
	if err != nil {
		log.Fatal(err)
	}
	leg, err := gas.NewWarmUp(gas.WarmUpSpec{
		Oil: 0.5 * units.Kilogram, Aluminum: 1.6 * units.Kilogram, Steel: 1.2 * units.Kilogram,
		Diameter: 55 * units.Millimeter, Surface: 0.126 * units.SquareMeter, AirSpeed: 8 * units.MeterPerSecond,
		Ambient: sea,
		Power:   80 * units.Watt,
	})
	if err != nil {
		log.Fatal(err)
	}
	fill := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: sea}
	hot := gas.Ambient{Temperature: leg.At(10 * units.Minute), Pressure: sea.Pressure}
	reading, err := fill.Reading(hot)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("after 10 min %.0f °C, in the end %.0f °C\n", hot.Temperature.Celsius(), leg.Steady().Celsius())
	fmt.Printf("9.6 bar have become %.2f bar\n", reading.In(units.Bar))
	// Output:
	// after 10 min 29 °C, in the end 32 °C
	// 9.6 bar have become 9.93 bar
}

// Two readings a day apart tell how long the fork keeps its air.
func ExampleLeakOf() {
	leak, err := gas.LeakOf(units.Gauge(9.6*units.Bar), units.Gauge(9.5*units.Bar), 1*units.Day)
	if err != nil {
		log.Fatal(err)
	}
	sea, err := gas.Standard(0)
	if err != nil {
		log.Fatal(err)
	}
	full, err := gas.Fill{Gauge: units.Gauge(9.6 * units.Bar), Ambient: sea}.State(430 * units.Milliliter)
	if err != nil {
		log.Fatal(err)
	}
	week, err := leak.ToAmbient(full, sea, 7*units.Day)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("after a week %.1f bar, %.1f %% of the air left\n",
		week.Pressure.Gauge(sea.Pressure).In(units.Bar), 100*float64(week.Amount()/full.Amount()))
	// Output: after a week 8.9 bar, 93.6 % of the air left
}

// A main chamber that leaks into the negative one pulls the fork down.
func ExampleLeak_Between() {
	room := units.Celsius(20)
	main := gas.State{Pressure: units.Absolute(7 * units.Bar), Volume: 200 * units.Milliliter, Temperature: room}
	negative := gas.State{Pressure: units.Absolute(5 * units.Bar), Volume: 50 * units.Milliliter, Temperature: room}
	leak := gas.Leak{TimeConstant: 2 * units.Hour}
	main, negative, err := leak.Between(main, negative, 8*units.Hour)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f bar and %.2f bar\n", main.Pressure.In(units.Bar), negative.Pressure.In(units.Bar))
	// Output: 6.61 bar and 6.57 bar
}

// Air that the seals pumped in over a ride makes the end of the stroke harder.
func ExampleState_Admit() {
	gap := gas.State{Pressure: units.Absolute(1.013 * units.Bar), Volume: 250 * units.Milliliter,
		Temperature: units.Celsius(20)}
	outing, err := gap.AmountForRise(0.1 * units.Bar)
	if err != nil {
		log.Fatal(err)
	}
	pumped, err := gap.Admit(3 * outing)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("three outings of %.1f mmol: %.2f bar above ambient\n",
		outing.In(units.Millimole), pumped.Pressure.Sub(gap.Pressure).In(units.Bar))
	// Output: three outings of 1.0 mmol: 0.30 bar above ambient
}

// How much harder than the ideal gas a fast small movement finds air at 15 bar.
func ExampleSpecies_IsentropicExponent() {
	p, t := units.Absolute(15*units.Bar), units.Celsius(20)
	n, err1 := gas.DryAir.IsentropicExponent(p, t)
	ratio, err2 := gas.DryAir.HeatRatio(p, t)
	density, err3 := gas.DryAir.Density(p, t)
	fmt.Printf("n = %.3f, cp/cv = %.3f, %.1f kg/m³, %v\n", n, ratio, float64(density), errors.Join(err1, err2, err3))
	// Output:
	// n = 1.421, cp/cv = 1.428, 17.9 kg/m³, <nil>
}

// To what volume 10 mL of air at 1 bar shrink at 8 bar, slowly and fast.
func ExampleState_CompressToPressure() {
	air := gas.State{Pressure: units.Absolute(1 * units.Bar), Volume: 10 * units.Milliliter,
		Temperature: units.Celsius(20)}
	for _, n := range []float64{gas.Isothermal, gas.Adiabatic} {
		now, err := air.CompressToPressure(units.Absolute(8*units.Bar), n)
		fmt.Printf("%.2f at %.0f, %v\n", now.Volume, now.Temperature, err)
	}
	// Output:
	// 1.25 mL at 20 °C, <nil>
	// 2.26 mL at 258 °C, <nil>
}
