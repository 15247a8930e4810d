package oil_test

import (
	"testing"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

var (
	viscositySink units.KinematicViscosity
	fluidSink     oil.Fluid
	stressSink    units.Stress
)

func BenchmarkViscosity(b *testing.B) {
	f := newFluid(b, sheet(15*cSt, 3.4*cSt))
	c := 20.0
	b.ReportAllocs()
	for b.Loop() {
		viscositySink = f.Viscosity(units.Celsius(c))
		c += 1e-6
	}
}

func BenchmarkNewFluidByIndex(b *testing.B) {
	s := sheet(15*cSt, 0)
	s.Second, s.Index = oil.Measurement{}, 150
	for b.Loop() {
		fluidSink, _ = oil.NewFluid(s)
	}
}

func BenchmarkBulkModulus(b *testing.B) {
	a := newAerated(b, oil.AeratedSpec{BulkModulus: 1.5 * units.Gigapascal, Air: 0.02, Pressure: sea, Exponent: 1.4})
	p := 1 * units.Bar
	b.ReportAllocs()
	for b.Loop() {
		stressSink = a.BulkModulus(units.Absolute(p))
		p += 1e-3
	}
}
