package chamber

import (
	"testing"

	"example.org/forkcurve/units"
)

// fork is a coil, the two chambers of an air spring and the gas over the oil, of 300 mm.
func fork(n float64) *Sum {
	s := NewSum(0.3)
	s.AddPath(Path{{F: 30, K: 2500}}, 1)
	s.AddChamber(New(7.5e-4, 7.5e-4*0.38, 9e5, 101325, n), 1)
	s.AddChamber(New(-7e-4, 7e-4*0.08, 7e5, 101325, n), 1)
	s.AddChamber(New(9e-4, 9e-4*0.45, 101325, 101325, n), 1)
	return s
}

var sink float64

func BenchmarkFork(b *testing.B) {
	const points = 1000
	xs := make([]units.Length, points)
	for i := range xs {
		xs[i] = 0.3 * units.Length(i) / points
	}
	force, rate, energy := make([]units.Force, points), make([]units.Stiffness, points), make([]units.Energy, points)
	s := fork(1.3)
	var c Curve = s
	for _, bb := range []struct {
		name string
		do   func()
	}{
		{"force", func() {
			for _, x := range xs {
				sink += float64(c.Force(x))
			}
		}},
		{"rate", func() {
			for _, x := range xs {
				sink += float64(c.Rate(x))
			}
		}},
		{"energy", func() {
			for _, x := range xs {
				sink += float64(c.Energy(x))
			}
		}},
		{"bulk force", func() { s.Evaluate(force, nil, nil, xs) }},
		{"bulk rate", func() { s.Evaluate(nil, rate, nil, xs) }},
		{"bulk energy", func() { s.Evaluate(nil, nil, energy, xs) }},
		{"bulk force, rate and energy", func() { s.Evaluate(force, rate, energy, xs) }},
	} {
		b.Run(bb.name, func(b *testing.B) {
			for b.Loop() {
				bb.do()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/points, "ns/point")
		})
	}
}
