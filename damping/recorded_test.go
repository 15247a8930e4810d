package damping

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

// Ten digits are recorded; the elements leave 1e-7.
func TestPlateRecorded(t *testing.T) {
	register.Cite(t, "P-51")
	for _, row := range record.Rows(t, "plates.csv", "case,a_over_b,k", 53) {
		want := record.Number(t, row[2])
		near(t, row[0]+", a/b = "+row[1], handbook(t, row[0], record.Number(t, row[1])), want, 1e-7*want)
	}
}

// The stacks of the script, by name.
var recordedStacks = map[string]ShimStackSpec{
	"one shim":                                stack(10, 16, 26, 28, 30, 0.20),
	"three equal shims":                       stack(10, 16, 26, 28, 30, 0.15, 30, 0.15, 30, 0.15),
	"two shims, the second smaller":           stack(10, 16, 26, 28, 30, 0.20, 24, 0.20),
	"two shims, the second smaller and thick": stack(10, 16, 26, 28, 30, 0.15, 18, 0.30),
	"taper of five":                           stack(10, 16, 26, 28, 30, 0.15, 28, 0.15, 24, 0.15, 20, 0.15, 16, 0.20),
	"face pair on a taper": stack(12, 22, 34, 38, 40, 0.15, 40, 0.15, 36, 0.15, 32, 0.15, 28, 0.15,
		24, 0.20, 20, 0.25),
	"small shim between two large": stack(10, 16, 26, 28, 30, 0.15, 18, 0.10, 30, 0.15, 22, 0.20),
	"eight of every size": stack(10, 16, 26, 28, 30, 0.30, 30, 0.15, 21, 0.10, 11, 0.25, 18, 0.25, 17, 0.15, 17, 0.15,
		23, 0.30),
	"taper of sixteen": stack(10, 16, 26, 28, 30, 0.15, 29, 0.15, 28, 0.15, 27, 0.15, 26, 0.15, 25, 0.15, 24, 0.15,
		23, 0.15, 22, 0.15, 21, 0.15, 20, 0.15, 19, 0.15, 18, 0.15, 17, 0.15, 16, 0.15, 15, 0.15),
}

// stack is a steel stack from millimeters: clamp, ports, seat, then diameter and thickness of each shim.
func stack(clamp, portInner, portOuter, seat units.Length, shims ...units.Length) ShimStackSpec {
	s := ShimStackSpec{Clamp: clamp * mm, PortInner: portInner * mm, PortOuter: portOuter * mm, Seat: seat * mm,
		Young: 206e3 * units.Megapascal, Poisson: 0.3, Ports: 80 * units.SquareMillimeter, Discharge: 0.7}
	for i := 0; i < len(shims); i += 2 {
		s.Shims = append(s.Shims, Shim{Diameter: shims[i] * mm, Thickness: shims[i+1] * mm})
	}
	return s
}

// A single thickness needs no contact and agrees as plates do; else the circles of contact limit. A fixed number of
// circles that left out the shims' edges missed the lift of "eight of every size" by 2 %.
func TestShimStackRecorded(t *testing.T) {
	register.Cite(t, "F-52")
	rows := record.Rows(t, "stacks.csv", "stack,lift_m_per_Pa", 8)
	for _, row := range rows {
		spec, ok := recordedStacks[row[0]]
		if !ok {
			t.Fatalf("no stack %q", row[0])
		}
		s, err := NewShimStack(spec)
		if err != nil {
			t.Fatal(err)
		}
		tol := 1e-4
		if len(spec.plates()) == 1 {
			tol = 1e-6
		}
		want := record.Number(t, row[1])
		near(t, row[0], s.compliance, want, tol*want)
	}
	if len(rows) != len(recordedStacks) {
		t.Errorf("%d stacks recorded, %d known", len(rows), len(recordedStacks))
	}
}

func TestNetworkRecorded(t *testing.T) {
	register.Cite(t, "F-51")
	oil := Oil{Density: 850, Viscosity: 12.8 * units.MillipascalSecond}
	orifice := func(mm2 units.Area) Valve {
		return must(NewOrifice(OrificeSpec{Area: mm2 * units.SquareMillimeter, Discharge: Discharge}))
	}
	pipe := func(d, l units.Length) Valve {
		return must(NewPipe(PipeSpec{Diameter: d * mm, Length: l * mm, Entrance: Entrance}))
	}
	valve := func(mm2 units.Area, crack, open units.Pressure) Valve {
		return must(NewCheck(CheckSpec{Area: mm2 * units.SquareMillimeter, Discharge: Discharge,
			Crack: crack * units.Bar, FullOpen: open * units.Bar}))
	}
	networks := map[string]Valve{
		"two orifices in series":      Series(orifice(3), orifice(2)),
		"bleed beside a blow-off":     Parallel(pipe(2, 12), valve(20, 4, 12)),
		"port before bleed and check": Series(orifice(12), Parallel(orifice(1.5), valve(15, 1, 6))),
		"two chains side by side": Parallel(Series(orifice(4), pipe(1.5, 20)),
			Series(valve(8, 0.5, 3), orifice(6))),
		"chain of three in parallel with a pipe, behind a port": Series(orifice(15),
			Parallel(Series(orifice(5), orifice(4), valve(10, 1, 8)), pipe(1.2, 15))),
	}
	for _, row := range record.Rows(t, "network.csv", "network,flow_m3_per_s,pressure_Pa", 24) {
		n, ok := networks[row[0]]
		if !ok {
			t.Fatalf("no network %q", row[0])
		}
		q, want := record.Number(t, row[1]), record.Number(t, row[2])
		where := row[0] + " at " + row[1]
		near(t, where, float64(n.Drop(units.Flow(q), oil)), want, 1e-8*want)
		near(t, where+", back", float64(n.Flow(units.Pressure(want), oil)), q, 1e-8*q)
		near(t, where+", reversed", float64(Reverse(n).Drop(units.Flow(-q), oil)), -want, 1e-8*want)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// finite fails on NaN and on infinities.
func finite(t *testing.T, what string, values ...float64) {
	t.Helper()
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s = %v", what, values)
			return
		}
	}
}
