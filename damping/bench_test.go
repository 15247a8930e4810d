package damping

import (
	"testing"

	"example.org/forkcurve/units"
)

func benchmarkForce(b *testing.B, d Damper) {
	b.ReportAllocs()
	for v := units.Speed(-2); b.Loop(); v += 0.01 {
		if v > 2 {
			v = -2
		}
		sink += d.Force(v)
	}
}

func BenchmarkCartridge(b *testing.B) { benchmarkForce(b, must(NewCartridge(mid(warm)))) }

func BenchmarkTable(b *testing.B) {
	benchmarkForce(b, must(Tabulate(must(NewCartridge(mid(warm))), grid(4, 401))))
}

func BenchmarkFriction(b *testing.B) {
	benchmarkForce(b, must(NewFriction(FrictionSpec{Breakaway: 60, Kinetic: 40, Stribeck: 0.005, Creep: 0.0002})))
}

func BenchmarkOrifice(b *testing.B) {
	v := must(NewOrifice(OrificeSpec{Area: 2 * units.SquareMillimeter, Discharge: Discharge}))
	b.ReportAllocs()
	for b.Loop() {
		flow += v.Flow(2e5, warm)
	}
}

var flow units.Flow

func BenchmarkNewShimStack(b *testing.B) {
	s := recordedStacks["face pair on a taper"]
	b.ReportAllocs()
	for b.Loop() {
		must(NewShimStack(s))
	}
}
