package fit_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// An air spring matched by a coil and the gas over the oil, without noise and not
// exactly: rate, preload and gap volume from 61 readings. In case B the rate ends on
// its bound.
func BenchmarkMatch(b *testing.B) {
	const end = 0.17
	for name, depth := range map[string][3]float64{ // of the positive and negative chamber in m, pressure in Pa
		"A": {0.24, 0.04, 8e5}, "B": {0.215, 0.06, 9e5},
	} {
		const positive, negative, outside, n = 7.5e-4, 7e-4, 101325, 1.3 // m², Pa
		var s spring.MeasuredSpec
		for i := range 61 {
			x := end * float64(i) / 60
			up := math.Pow(depth[0]/(depth[0]-x), n)*depth[2] - outside
			down := math.Pow(depth[1]/(depth[1]+x), n)*depth[2] - outside
			force := units.Force(positive*up - negative*down)
			s.Loading = append(s.Loading, spring.Reading{Travel: units.Length(x), Force: force})
		}
		m := onBench(end, n, setup.Leg{
			Springs: []spring.Spec{spring.CoilSpec{Rate: 5 * newtonPerMM, Preload: 10 * mm}},
			Gap:     &setup.Gap{Area: 9.6 * units.SquareCentimeter, Residual: 86.8 * units.Milliliter}})
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := fit.Fit(s, m,
					fit.Rate().Between(2*newtonPerMM, 12*newtonPerMM), fit.Preload().Between(0, 30*mm),
					fit.GapVolume().Between(175*units.Milliliter, 400*units.Milliliter)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
