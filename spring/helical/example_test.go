package helical_test

import (
	"errors"
	"fmt"
	"log"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// A fork spring measured on the bench: wire and outer diameter with a caliper,
// coils counted, ground ends included.
func ExampleNew() {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	s, err := helical.New(helical.Spec{
		Wire:          5.1 * units.Millimeter,
		OuterDiameter: 43 * units.Millimeter,
		TotalCoils:    27,
		FreeLength:    495 * units.Millimeter,
		Material:      wire,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(s)
	full := 311 * units.Millimeter // 305 mm of travel and 6 mm of preload
	fmt.Printf("rate       %.2f N/mm\n", s.Rate().In(units.NewtonPerMillimeter))
	fmt.Printf("solid      %.1f mm\n", s.SolidLength().In(units.Millimeter))
	fmt.Printf("left       %.1f mm, %.1f mm wanted\n", s.BindMargin(full).In(units.Millimeter),
		s.DynamicMinimumGap().In(units.Millimeter))
	fmt.Printf("stress     %.0f MPa, at most %.0f MPa\n", s.ShearStress(s.Force(full)).In(units.Megapascal),
		s.StaticLimit().In(units.Megapascal))
	fmt.Printf("displaces  %.0f ml\n", s.Volume().In(units.Milliliter))
	// Output:
	// wire 5.1 mm, outside 43 mm, 27 coils, 495 mm long, 4.94 N/mm
	// rate       4.94 N/mm
	// solid      137.7 mm
	// left       46.3 mm, 35.0 mm wanted
	// stress     1118 MPa, at most 1109 MPa
	// displaces  66 ml
}

// Every fault is reported at once.
func ExampleNew_faults() {
	wire, err := data.Reference().Wire("sicr")
	if err != nil {
		log.Fatal(err)
	}
	_, err = helical.New(helical.Spec{
		Wire:         5.1 * units.Millimeter,
		MeanDiameter: 120 * units.Millimeter,
		Material:     wire,
		FreeLength:   495 * units.Millimeter,
	})
	fmt.Println(err)
	// Output:
	// Spec.MeanDiameter = 120 mm: want an index D/d of 3 to 20: here it is 23.5
	// Spec.ActiveCoils = 0: want exactly one of ActiveCoils, TotalCoils and Rate
}

// A 9.8 N/mm fork of 305 mm travel: one spring does not fit, two of half the rate do.
func ExampleDesign() {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	spec := helical.DesignSpec{
		Rate:       9.8 * units.NewtonPerMillimeter,
		Stroke:     305 * units.Millimeter,
		Preload:    6 * units.Millimeter,
		Bore:       44.5 * units.Millimeter,
		FreeLength: 500 * units.Millimeter,
		Material:   wire,
	}
	_, err = helical.Design(spec)
	var obstacle *units.RangeError
	if errors.As(err, &obstacle) {
		fmt.Println(obstacle.Field, obstacle.Value, "want", obstacle.Want)
	}

	spec.Rate /= 2
	s, err := helical.Design(spec)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm wire, %.1f mm outside, %.1f coils, %.0f mm long\n", s.Wire().In(units.Millimeter),
		s.OuterDiameter().In(units.Millimeter), s.TotalCoils(), s.FreeLength().In(units.Millimeter))
	// Output:
	// DesignSpec.FreeLength 500 mm want at least 607 mm: shorter, the spring is over its stress limit or binds
	// 5.0 mm wire, 41.6 mm outside, 27.9 coils, 486 mm long
}

// A wire of one's own.
func ExampleNewMaterial() {
	m, err := helical.NewMaterial(helical.MaterialSpec{
		ID: "shop", Name: "wire of the shop, by its test certificate",
		ShearModulus: 79500 * units.Megapascal, ElasticModulus: 206000 * units.Megapascal,
		Density: 7.85 * units.GramPerMilliliter, Softening: 0.00025, YieldRatio: 0.5, SpringSteel: true,
		Strength: helical.Strength{Thinnest: 3 * units.Millimeter, Thickest: 5 * units.Millimeter,
			Steps: []helical.StrengthStep{
				{UpTo: 4 * units.Millimeter, Rm: 1900 * units.Megapascal}, {UpTo: 5 * units.Millimeter,
					Rm: 1850 * units.Megapascal}}},
	})
	fmt.Printf("%.0f MPa %v\n", m.TensileStrength(4.5*units.Millimeter).In(units.Megapascal), err)
	// Output: 1850 MPa <nil>
}

// motocrossSpring is one of two in a motocross fork.
func motocrossSpring() helical.Spring {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	s, err := helical.New(helical.Spec{
		Wire: 5.1 * units.Millimeter, OuterDiameter: 43 * units.Millimeter, ActiveCoils: 25,
		FreeLength: 495 * units.Millimeter, Material: wire,
	})
	if err != nil {
		log.Fatal(err)
	}
	return s
}

// Everyday strokes of a peened spring against the Zimmerli data.
func ExampleSpring_Fatigue() {
	s := motocrossSpring()
	f := s.Fatigue(s.Force(40*units.Millimeter), s.Force(180*units.Millimeter), helical.Peened)
	fmt.Printf("Goodman %.2f, Gerber %.2f\n", f.Goodman, f.Gerber)
	// Output: Goodman 1.24, Gerber 1.27
}

// A fork spring always leans on its tube: how hard depends on the clearance.
func ExampleSpring_GuideForce() {
	s := motocrossSpring()
	y, ok := s.BucklingDeflection()
	fmt.Printf("bows out after %.0f mm: %v\n", y.In(units.Millimeter), ok)
	for _, clearance := range []units.Length{1 * units.Millimeter, 2 * units.Millimeter} {
		fmt.Printf("leans with some %.0f N at full stroke\n", float64(s.GuideForce(305*units.Millimeter, clearance)))
	}
	// Output:
	// bows out after 34 mm: true
	// leans with some 142 N at full stroke
	// leans with some 283 N at full stroke
}

// One spring that carries the whole fork, or one in each leg?
func ExampleForkSpec_Design() {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	fork := helical.ForkSpec{
		Rate: 9.8 * units.NewtonPerMillimeter, Travel: 305 * units.Millimeter,
		PreloadLeast: 2 * units.Millimeter, PreloadAim: 6 * units.Millimeter, PreloadMost: 10 * units.Millimeter,
		Room: 501 * units.Millimeter, Bore: 44 * units.Millimeter, Rod: 12 * units.Millimeter, Material: wire,
	}
	for legs := 1; legs <= 2; legs++ {
		d, err := fork.Design(legs)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%d: wire %.1f, %.0f long in %.0f, %.0f at full travel, fits: %v\n",
			legs, d.Spring.Wire(), d.Spring.FreeLength(), d.Spec.FreeLength, d.Force(), d.Reason == nil)
	}
	// Output:
	// 1: wire 6.4 mm, 607 mm long in 507 mm, 3048 N at full travel, fits: false
	// 2: wire 5.0 mm, 496 mm long in 503 mm, 1544 N at full travel, fits: true
}

// How stiff may a spring of that wire be in this leg, and does the one at hand do?
func ExampleStiffest() {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	leg := helical.DesignSpec{
		Rate: 4.6 * units.NewtonPerMillimeter, Stroke: 305 * units.Millimeter, Preload: 6 * units.Millimeter,
		Bore: 44 * units.Millimeter, Rod: 12 * units.Millimeter, FreeLength: 507 * units.Millimeter, Material: wire,
	}
	k, err := helical.Stiffest(leg)
	fmt.Printf("%.1f %v\n", k, err)

	s, err := helical.New(helical.Spec{
		Wire: 5.1 * units.Millimeter, OuterDiameter: 42.6 * units.Millimeter, ActiveCoils: 25,
		FreeLength: 495 * units.Millimeter, Material: wire,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(leg.Check(s))
	// Output:
	// 5.4 N/mm <nil>
	// Spring.OuterDiameterAtSolid = 43.3779 mm: want at most 43 mm, which clears the bore
	// Spring.ShearStress = 1141.68 MPa: want at most 1109 MPa, 0.56 of the strength
}

// How far may the two springs of a pair differ, and what does a cold morning do to them?
func ExampleSpring_RateTolerance() {
	s := motocrossSpring()
	for _, g := range []helical.Grade{helical.Grade1, helical.Grade2} {
		fmt.Printf("%v: rate ±%.0f, diameter ±%.2f\n", g, s.RateTolerance(g), s.DiameterTolerance(g))
	}
	fmt.Printf("%.3f at 20 °C, %.3f at −10 °C; surges at %.0f\n", s.Rate(), s.RateAt(units.Celsius(-10)),
		s.SurgeFrequency())
	// Output:
	// grade 1: rate ±4 %, diameter ±0.25 mm
	// grade 2: rate ±8 %, diameter ±0.50 mm
	// 4.940 N/mm at 20 °C, 4.977 N/mm at −10 °C; surges at 51 Hz
}

// May this spring be closed without taking a set? From a solid factor of 1.2 on. A fork
// spring is stressed beyond that: it keeps its length at full travel because its maker
// pressed it solid, and only up to there.
func ExampleSpring_SolidFactor() {
	s := motocrossSpring()
	full := s.Force(311 * units.Millimeter)
	fmt.Printf("at full travel %.0f of %.0f: factor %.2f\n", s.CorrectedStress(full), s.TorsionalYield(),
		s.YieldFactor(full))
	fmt.Printf("closed at %.0f: factor %.2f\n", s.SolidForce(), s.SolidFactor())
	// Output:
	// at full travel 1327 MPa of 990 MPa: factor 0.75
	// closed at 1765 N: factor 0.65
}

// Handbooks correct the stress of a coil by one of three factors; here all three at the
// index of a fork spring.
func ExampleWahl() {
	const index = 7.4
	fmt.Printf("Bergsträsser %.3f, Wahl %.3f, direct shear alone %.3f\n",
		helical.Bergstrasser(index), helical.Wahl(index), helical.DirectShear(index))
	// Output:
	// Bergsträsser 1.188, Wahl 1.200, direct shear alone 1.068
}

// What the wire of that spring comes to: for the price, the mass that moves, and how steeply the coils stand.
func ExampleSpring_WireLength() {
	wire, err := data.Reference().Wire("sicrv")
	if err != nil {
		log.Fatal(err)
	}
	s, err := helical.New(helical.Spec{Wire: 5.1 * units.Millimeter, OuterDiameter: 43 * units.Millimeter, TotalCoils: 27,
		FreeLength: 495 * units.Millimeter, Material: wire})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f m of wire, %.0f g, %.0f g of them in active coils, at %.1f°\n", s.WireLength().In(units.Meter),
		1000*s.Mass().In(units.Kilogram), 1000*s.ActiveMass().In(units.Kilogram), s.PitchAngle().In(units.Degree))
	thinnest, thickest := wire.WireRange()
	fmt.Printf("the table of its strength goes from %.1f to %.1f\n", thinnest, thickest)
	// Output:
	// 3.25 m of wire, 521 g, 477 g of them in active coils, at 9.3°
	// the table of its strength goes from 2.0 mm to 10.0 mm
}

// How many coils of a spring only sit on the seats, by its ends.
func ExampleEnds_DeadCoils() {
	for _, e := range []helical.Ends{helical.Plain, helical.PlainGround, helical.Squared, helical.SquaredGround} {
		fmt.Printf("%v: %g\n", e, e.DeadCoils())
	}
	// Output:
	// plain: 0
	// plain and ground: 1
	// squared: 2
	// squared and ground: 2
}

// Whether the coils keep the distance that a standard asks for at full travel, at rest and under impact.
func ExampleSpring_MinimumGap() {
	s := motocrossSpring()
	margin := s.BindMargin(311 * units.Millimeter)
	fmt.Printf("%.1f left, %.1f wanted under static load, %.1f under impact\n", margin, s.MinimumGap(),
		s.DynamicMinimumGap())
	// Output:
	// 46.3 mm left, 23.3 mm wanted under static load, 35.0 mm under impact
}
