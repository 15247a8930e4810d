package gas_test

import (
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

func BenchmarkStandard(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		must(gas.Standard(1500))
	}
}

func BenchmarkCompress(b *testing.B) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	b.ReportAllocs()
	for b.Loop() {
		must(s.Compress(200*cm3, 1.3))
	}
}

func BenchmarkWork(b *testing.B) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	b.ReportAllocs()
	for b.Loop() {
		must(s.Work(200*cm3, 1.3))
	}
}

func BenchmarkJoin(b *testing.B) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	hose := state(1*units.Bar, 5*cm3, units.Celsius(20))
	b.ReportAllocs()
	for b.Loop() {
		must(gas.Join(s, hose))
	}
}

func BenchmarkExponent(b *testing.B) {
	e := gas.Exchange{TimeConstant: 3}
	var f units.Frequency
	var sum float64
	for b.Loop() {
		f += 1e-6 // a constant would be computed by the compiler
		sum += e.Exponent(f)
	}
	if !(sum >= 1) {
		b.Fatal(sum)
	}
}

func BenchmarkCompressibility(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		must(gas.DryAir.Compressibility(units.Absolute(10*units.Bar), units.Celsius(20)))
	}
}

func BenchmarkDeparture(b *testing.B) {
	s := state(10*units.Bar, 430*cm3, units.Celsius(20))
	b.ReportAllocs()
	for b.Loop() {
		must(gas.DryAir.Departure(s, 200*cm3))
	}
}

func BenchmarkLeakBetween(b *testing.B) {
	main, negative := state(10*units.Bar, 430*cm3, units.Celsius(20)), state(9*units.Bar, 40*cm3, units.Celsius(20))
	l := gas.Leak{TimeConstant: units.Day}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := l.Between(main, negative, units.Hour); err != nil {
			b.Fatal(err)
		}
	}
}
