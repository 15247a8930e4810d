package data_test

import (
	"fmt"
	"log"
	"os"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func Example() {
	set := data.Reference()
	fork, err := set.Fork("M07")
	if err != nil {
		log.Fatal(err)
	}
	pressure := fork.Left.Air.Pressure
	source, err := set.Source(pressure.Source)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fork.Name)
	fmt.Printf("%v, %v: %s\n", pressure.Value, source.Kind, source.Document)
	// Output:
	// motocross 450, 48 mm, air leg and damper leg
	// 9.6 bar, tuned: chosen so that the sag of the rider lies in its window; the agreement is by construction
}

func ExampleFork_Setup() {
	fork, err := data.Reference().Fork("M07")
	if err != nil {
		log.Fatal(err)
	}
	sea, err := gas.Standard(0)
	if err != nil {
		log.Fatal(err)
	}
	s, err := fork.Setup(sea)
	if err != nil {
		log.Fatal(err)
	}
	sag, err := s.Sag(fork.Load(fork.Rider.Mass.Value))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("a rider of %v makes it sag %.0f mm, read between %.0f mm and %.0f mm\n",
		fork.Rider.Mass.Value, sag.Middle.In(units.Millimeter), sag.High.In(units.Millimeter), sag.Low.In(units.Millimeter))
	// Output:
	// a rider of 88 kg makes it sag 66 mm, read between 55 mm and 78 mm
}

func ExampleSet_Forks() {
	offRoad, err := data.Reference().UsedFor("motocross", "enduro")
	if err != nil {
		log.Fatal(err)
	}
	for f := range data.Reference().Forks(data.SprungBy(data.CoilLeg), offRoad) {
		fmt.Println(f.ID, f.Travel.Value, f.Left.Coil.Rate.Value)
	}
	// Output:
	// M04 305 mm 4.1 N/mm
	// M05 305 mm 4.6 N/mm
	// M06 305 mm 4.9 N/mm
	// M11 300 mm 4.4 N/mm
	// M13 300 mm 6.6 N/mm
	// M35 300 mm 3.5 N/mm
}

func ExampleSet_Fork_notFound() {
	_, err := data.Reference().Fork("M70")
	fmt.Println(err)
	// Output:
	// no fork "M70"; there is M07, M10, M20, M30
}

// The strength of spring wire falls with its diameter.
func ExampleSet_Wire() {
	set := data.Reference()
	wire, err := set.Wire("sicr")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(wire.Name())
	for _, d := range []units.Length{3.5 * units.Millimeter, 5 * units.Millimeter} {
		fmt.Printf("%.1f: %.0f\n", d, wire.TensileStrength(d))
	}
	// Output:
	// oil-tempered chromium-silicon valve wire
	// 3.5 mm: 1910 MPa
	// 5.0 mm: 1810 MPa
}

func ExampleDecodeFile() {
	const text = `
[source.bench]
kind = "demo"
document = "measured by me"

[fluid.mine]
name = "what is in the can"
source = "bench"
viscosity = 16.5
viscosities = ["15 mm²/s", "18 mm²/s"]
densty = "850 kg/m³"
expansion = { value = "7.5e-4 1/K", source = "oil-memory" }
`
	_, err := data.DecodeFile("mine.toml", strings.NewReader(text))
	fmt.Println(err)
	// Output:
	// mine.toml:6: fluid.mine.density: missing; want density with unit, as "12 kg/m³"
	// mine.toml:9: fluid.mine.viscosity = 16.5: a bare number; write it with its unit, as "16.5 mm²/s"
	// mine.toml:11: fluid.mine.densty: unknown key; did you mean density?
}

func ExampleMerge() {
	const text = `
[source.bench]
kind = "demo"
document = "measured by me"

[fluid.mine]
name = "what is in the can"
source = "bench"
viscosity = "16.5 mm²/s"
viscosities = ["15 mm²/s", "18 mm²/s"]
density = "850 kg/m³"
expansion = { value = "7.5e-4 1/K", source = "oil-memory" }
`
	mine, err := data.Decode(strings.NewReader(text))
	if err != nil {
		log.Fatal(err)
	}
	set := data.Merge(data.Reference(), mine)
	fluid, err := set.Fluid("mine")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fluid.Viscosity.Value, fluid.Viscosity.Source)
	// Output:
	// 16.5 mm²/s bench
}

func ExampleEncode() {
	air, err := data.Decode(strings.NewReader(`
[gas.air]
name = "dry air"
density = { value = "1.225 kg/m³", source = "iso-2533" }
adiabatic-exponent = { value = 1.4, source = "ideal-diatomic" }
ride-exponent = { value = 1.3, source = "ride-exponent", note = "mine" }
`))
	if err != nil {
		log.Fatal(err)
	}
	if err := data.Encode(os.Stdout, air); err != nil {
		log.Fatal(err)
	}
	// Output:
	// [gas.air]
	// source = "iso-2533"
	// name = "dry air"
	// density = "1.225 kg/m³"
	// adiabatic-exponent = { value = 1.4, source = "ideal-diatomic" }
	// ride-exponent = { value = 1.3, source = "ride-exponent", note = "mine" }
}

// How far a value may be off, and what it is worth.
func ExampleValue() {
	set := data.Reference()
	fork, err := set.Fork("B04")
	if err != nil {
		log.Fatal(err)
	}
	rake, friction := fork.Chassis.Rake, fork.Friction
	fmt.Printf("%v, %v to %v in %d bicycles: %s\n", rake.Value, rake.Spread.Low, rake.Spread.High, rake.Spread.N,
		rake.Source)
	fmt.Printf("%v ± %v: %s, its spread by %s\n", friction.Value, friction.Spread.SD, friction.Source,
		friction.Spread.Source)
	for _, e := range set.Graded(fork.Values()) {
		if e.Key == "chassis.trail" {
			fmt.Println(e.Key, e.Text, "by", e.Source, "is graded", e.Grade)
		}
	}
	// Output:
	// 26 deg, 24.7 deg to 26.8 deg in 145 bicycles: bicycle-geometry
	// 30 N ± 9 N: friction, its spread by judgment
	// chassis.trail "132.5 mm" by derived-trail is graded memory
}

// Evidence: what is known of one measured bicycle.
func ExampleSet_Specimen() {
	bicycle, err := data.Reference().Specimen("bicycle-03")
	if err != nil {
		log.Fatal(err)
	}
	c := bicycle.Chassis
	fmt.Printf("%s: trail %v ± %v; from rake, offset and radius %.1f\n",
		bicycle.Name, c.Trail.Value, c.Trail.Spread.SD, c.Geometry().Trail())
	fmt.Println("travel is known:", bicycle.Travel.Given())
	// Output:
	// city bicycle with suspended fork: trail 83.3 mm ± 1.69 mm; from rake, offset and radius 83.3 mm
	// travel is known: false
}

// The set as a table for other programs.
func ExampleEncodeCSV() {
	var table strings.Builder
	if err := data.EncodeCSV(&table, data.Reference()); err != nil {
		log.Fatal(err)
	}
	for line := range strings.Lines(table.String()) {
		if strings.HasPrefix(line, "kind,") || strings.HasPrefix(line, "fork,M07,travel,") {
			fmt.Print(line)
		}
	}
	// Output:
	// kind,id,field,value,unit,low,high,n,means,sd,sd_source,source,grade,note
	// fork,M07,travel,305,mm,,,,,9.15,judgment,typical,memory,
}

// What a paper that uses the reference set cites, and how the judgments behind its uncertainties are listed.
func ExampleSet_Meta() {
	set := data.Reference()
	meta := set.Meta()
	fmt.Println(meta.License, meta.Version != "", meta.Citation != "")
	for judgment := range set.Spreads() {
		if judgment.ID == "chassis-rake" {
			fmt.Println("a rake that nobody measured may be off by", judgment.SD)
		}
	}
	// Output:
	// BSD-3-Clause true true
	// a rake that nobody measured may be off by 0.6 deg
}

// Keys of a workshop's own stay with their record.
func ExampleSet_Private() {
	mine, err := data.Decode(strings.NewReader(`
[source.bench]
kind = "demo"
document = "measured by me"

[fluid.mine]
name = "what is in the can"
source = "bench"
x-shelf = "B3"
viscosity = "16.5 mm²/s"
viscosities = ["15 mm²/s", "18 mm²/s"]
density = "850 kg/m³"
expansion = "7.5e-4 1/K"
`))
	if err != nil {
		log.Fatal(err)
	}
	for _, entry := range mine.Private("fluid", "mine") {
		fmt.Println(entry.Key, entry.Text)
	}
	// Output:
	// x-shelf "B3"
}
