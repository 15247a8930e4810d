package helical_test

import (
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

var sink float64

func BenchmarkNew(b *testing.B) {
	spec := helical.Spec{Wire: 5.1 * mm, OuterDiameter: 43 * mm, ActiveCoils: 25, FreeLength: 495 * mm,
		Material: of("sicrv")}
	b.ReportAllocs()
	for b.Loop() {
		s, err := helical.New(spec)
		if err != nil {
			b.Fatal(err)
		}
		sink = float64(s.Rate())
	}
}

func BenchmarkForceAndStress(b *testing.B) {
	s := fork(b)
	b.ReportAllocs()
	for b.Loop() {
		sink = float64(s.CorrectedStress(s.Force(150 * mm)))
	}
}

func BenchmarkFatigue(b *testing.B) {
	s := fork(b)
	b.ReportAllocs()
	for b.Loop() {
		sink = s.Fatigue(30*units.Newton, 1400*units.Newton, helical.Peened).Gerber
	}
}

func BenchmarkDesign(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		s, err := helical.Design(offRoad())
		if err != nil {
			b.Fatal(err)
		}
		sink = float64(s.Wire())
	}
}
