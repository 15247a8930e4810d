package spring_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

var sink units.Force

// BenchmarkAirForce reads one point of an air spring: two powers.
func BenchmarkAirForce(b *testing.B) {
	a := must[spring.Air](b)(spring.NewAir(air))
	x := 66 * mm
	for b.Loop() {
		sink = a.Force(x)
	}
}

// BenchmarkAirForceMathPow is the same formula with math.Pow, for the ratio.
func BenchmarkAirForceMathPow(b *testing.B) {
	p, v, w := air.Pressure.In(units.Pascal), float64(air.Volume), float64(air.NegativeVolume)
	piston, annulus := 9.079e-4, 7.948e-4
	x := 66 * mm
	for b.Loop() {
		sink = units.Force(p*math.Pow(1-piston/v*float64(x), -1.3)*piston -
			p*math.Pow(1+annulus/w*float64(x), -1.3)*annulus)
	}
}

// wholeFork is a coil, an air spring and two gas spaces.
func wholeFork(b *testing.B) spring.Curve {
	newChamber := must[spring.Chamber](b)
	return spring.Parallel(must[spring.Coil](b)(spring.NewCoil(coil)), must[spring.Air](b)(spring.NewAir(air)),
		newChamber(spring.NewChamber(gap)), newChamber(spring.NewChamber(gap)))
}

// BenchmarkForkForce reads one point of a whole fork through the interface.
func BenchmarkForkForce(b *testing.B) {
	fork := wholeFork(b)
	x := 66 * mm
	b.ReportAllocs()
	for b.Loop() {
		sink = fork.Force(x)
	}
}

// BenchmarkForkBulk reads 500 points of the same fork at once.
func BenchmarkForkBulk(b *testing.B) {
	fork := wholeFork(b)
	var xs []units.Length
	for _, p := range spring.Sample(fork, 500) {
		xs = append(xs, p.Travel)
	}
	var forces []units.Force
	var points []spring.Point
	b.Run("force", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			forces = spring.AppendForces(forces[:0], fork, xs)
		}
	})
	b.Run("force, rate and energy", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			points = spring.AppendPoints(points[:0], fork, xs)
		}
	})
}

func BenchmarkEquilibrium(b *testing.B) {
	rest := air
	rest.Exponent = 1
	for name, c := range map[string]spring.Curve{
		"air spring": must[spring.Air](b)(spring.NewAir(air)), "fork": wholeFork(b),
		"air spring at rest in a fork": spring.Parallel(must[spring.Air](b)(spring.NewAir(rest))),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := spring.Equilibrium(c, 650); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkProgressiveForce reads a spring of three groups of coils.
func BenchmarkProgressiveForce(b *testing.B) {
	p := must[spring.Progressive](b)(spring.NewProgressive(progressive))
	x := 110 * mm
	for b.Loop() {
		sink = p.Force(x)
	}
}

// BenchmarkMeasuredForce reads the mean of two branches of 500 readings.
func BenchmarkMeasuredForce(b *testing.B) {
	m := must[spring.Measured](b)(spring.NewMeasured(bench(must[spring.Coil](b)(spring.NewCoil(coil)), 20, 500)))
	x := 110 * mm
	for b.Loop() {
		sink = m.Force(x)
	}
}

// BenchmarkSeriesForce reads two springs in series: in closed form, and with a
// root for an air spring.
func BenchmarkSeriesForce(b *testing.B) {
	c := must[spring.Coil](b)(spring.NewCoil(coil))
	for _, bb := range []struct {
		name  string
		curve spring.Curve
	}{
		{"coils", spring.Series(c, c)},
		{"coil and air", spring.Series(c, must[spring.Air](b)(spring.NewAir(air)))},
	} {
		b.Run(bb.name, func(b *testing.B) {
			x := 110 * mm
			b.ReportAllocs()
			for b.Loop() {
				sink = bb.curve.Force(x)
			}
		})
	}
}
