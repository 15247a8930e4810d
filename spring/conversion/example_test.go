package conversion_test

import (
	"fmt"

	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// An air leg gives way to a coil: three criteria, two springs on the shelf.
func ExamplePlan() {
	home, _ := gas.StandardAt(200*units.Meter, units.Celsius(20))
	event, _ := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	fluid, _ := oil.NewFluid(oil.FluidSpec{Density: 0.86 * units.GramPerMilliliter, Reference: units.Celsius(15),
		Expansion: 7.5e-4 * units.PerKelvin})
	gap := &setup.Gap{Area: geometry.Circle(48 * units.Millimeter), Residual: 304 * units.Milliliter}
	wire, _ := data.Reference().Wire("sicrv")
	spring := func(name string, rate units.Stiffness) conversion.ShelfCoil {
		return conversion.ShelfCoil{Name: name, Rate: rate, Wire: helical.Spec{Wire: 6.3 * units.Millimeter,
			OuterDiameter: 42 * units.Millimeter,
			Rate:          rate, FreeLength: 605 * units.Millimeter, Material: wire}}
	}
	r, err := conversion.Plan(conversion.Job{
		Rider: 79 * units.Kilogram,
		Chassis: geometry.Chassis{Rake: 27.2 * units.Degree, Offset: 56 * units.Millimeter,
			WheelRadius: 345 * units.Millimeter,
			Wheelbase:   1485 * units.Millimeter, Mass: 111 * units.Kilogram, UnsprungMass: 15.3 * units.Kilogram,
			FrontShare: 0.485, FrontShareRidden: 0.47, CenterOfGravity: 910 * units.Millimeter},
		Fork: geometry.Fork{Layout: geometry.Inverted, Travel: 305 * units.Millimeter,
			Stanchion: geometry.Tube{Outer: 48 * units.Millimeter, Bore: 44 * units.Millimeter},
			OuterBore: 54 * units.Millimeter},
		Present: setup.Spec{Travel: 305 * units.Millimeter, Closed: home, Friction: 84 * units.Newton,
			Left: setup.Leg{Gap: gap, Air: &setup.Air{Bore: 34 * units.Millimeter, Rod: 12 * units.Millimeter,
				Volume: 430 * units.Milliliter, NegativeVolume: 70 * units.Milliliter,
				Fill: gas.Fill{Gauge: units.Gauge(9 * units.Bar), Ambient: home}}},
			Right: setup.Leg{Gap: gap}},
		ConvertedFriction: 63 * units.Newton,
		Legs: []conversion.ConvertedLeg{{Side: setup.Left, Room: geometry.Room{Length: 620 * units.Millimeter,
			Bore: 44 * units.Millimeter},
			Bath: conversion.Bath{Interior: 900 * units.Milliliter, Area: geometry.Circle(48 * units.Millimeter),
				Metal: 30 * units.Milliliter, SpringInOil: true}}},
		Shelf: []conversion.ShelfCoil{spring("A", 8.4*units.NewtonPerMillimeter),
			spring("B", 9*units.NewtonPerMillimeter)},
		Preload: conversion.Setting[units.Length]{Min: 3 * units.Millimeter, Aim: 4 * units.Millimeter,
			Max: 5 * units.Millimeter},
		OilVolume: conversion.Setting[units.Volume]{Min: 500 * units.Milliliter, Aim: 540 * units.Milliliter,
			Max: 575 * units.Milliliter},
		Oil:       fluid,
		Criterion: conversion.Energy, RideExponent: 1.3, SagWindow: [2]units.Share{0.17, 0.27},
		Workshop: home, Event: event,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range r.Targets {
		fmt.Printf("%-13v asks for %.1f\n", t.Criterion, t.Rate)
	}
	if c, ok := r.Chosen(); ok {
		fmt.Printf("%s: preload %.1f, oil %.0f, sag %.0f\n", c.Coil, c.Preload, c.OilVolume, c.Behavior.Sag.Middle)
		fmt.Printf("at the event %+.0f of sag, the air fork %+.0f\n", c.Event.Change(c.Event.There),
			r.Event.Change(r.Event.There))
	}
	// Output:
	// sag-force     asks for 8.3 N/mm
	// energy        asks for 8.5 N/mm
	// least-squares asks for 8.2 N/mm
	// A: preload 4.0 mm, oil 563 mL, sag 65 mm
	// at the event -7 mm of sag, the air fork -6 mm
}
