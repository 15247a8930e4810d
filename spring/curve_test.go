package spring_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

// An air leg of the full-size motocross kind; invented numbers of a plausible size.
var (
	sea = units.Absolute(1.01325 * units.Bar)
	air = spring.AirSpec{Bore: 34 * mm, Rod: 12 * mm, Volume: 430 * units.Milliliter,
		Pressure: units.Absolute(10.6 * units.Bar), NegativeVolume: 70 * units.Milliliter,
		Ambient: sea, Exponent: 1.3, Travel: 305 * mm}
	second = spring.FloatingPistonSpec{Air: air, SecondVolume: 60 * units.Milliliter, SecondPressure: units.Absolute(18 * units.Bar)}
	gap    = spring.ChamberSpec{Area: 18 * units.SquareCentimeter, Volume: 800 * units.Milliliter,
		Pressure: sea, Ambient: sea, Exponent: 1.3, Travel: 305 * mm}
	coil   = spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * mm, Travel: 305 * mm}
	topOut = spring.TopOutSpec{Rate: 5 * units.NewtonPerMillimeter, Length: 45 * mm, Travel: 305 * mm}
)

// must turns a constructor's result into a curve, failing the test on an error.
func must[C spring.Curve](t testing.TB) func(C, error) C {
	return func(c C, err error) C {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
}

func TestContract(t *testing.T) {
	newCoil, newChamber, newAir := must[spring.Coil](t), must[spring.Chamber](t), must[spring.Air](t)
	newPiston, newTopOut := must[spring.FloatingPiston](t), must[spring.TopOut](t)

	loose := coil
	loose.Preload = -20 * mm
	binding := coil
	binding.FreeLength, binding.SolidLength = 500*mm, 250*mm
	isothermal, independent, ported, lone := air, air, air, air
	isothermal.Exponent = 1
	independent.NegativePressure = units.Absolute(9.5 * units.Bar)
	ported.Port = 6 * mm
	lone.NegativeVolume = 0
	pulling := gap
	pulling.Area = -gap.Area
	piston := newPiston(spring.NewFloatingPiston(second))
	settled := newPiston(spring.NewFloatingPiston(second.About(200*mm, 1.4)))
	lazy := second
	lazy.SecondPressure = units.Absolute(60 * units.Bar)

	for _, c := range []struct {
		name  string
		curve spring.Curve
		kinks []units.Length
	}{
		{"coil", newCoil(spring.NewCoil(coil)), nil},
		{"coil that starts loose", newCoil(spring.NewCoil(loose)), []units.Length{20 * mm}},
		{"coil that binds", newCoil(spring.NewCoil(binding)), nil},
		{"chamber, polytropic", newChamber(spring.NewChamber(gap)), nil},
		{"chamber that pulls", newChamber(spring.NewChamber(pulling)), nil},
		{"chamber about a travel", newChamber(spring.NewChamber(gap.About(70*mm, 1.4))), nil},
		{"air spring", newAir(spring.NewAir(air)), nil},
		{"air spring, isothermal", newAir(spring.NewAir(isothermal)), nil},
		{"air spring with its own negative valve", newAir(spring.NewAir(independent)), nil},
		{"air spring with a port at 6 mm", newAir(spring.NewAir(ported)), nil},
		{"air spring without a negative chamber", newAir(spring.NewAir(lone)), nil},
		{"air spring about a travel", newAir(spring.NewAir(air.About(66*mm, 1.3))), nil},
		{"floating piston", piston, []units.Length{piston.Engage()}},
		{"floating piston about a travel where it floats", settled, []units.Length{settled.Engage()}},
		{"floating piston that never engages", newPiston(spring.NewFloatingPiston(lazy)), nil},
		{"top-out spring", newTopOut(spring.NewTopOut(topOut)), []units.Length{45 * mm}},
		{"parallel of all kinds", spring.Parallel(newCoil(spring.NewCoil(coil)), nil,
			spring.Parallel(newAir(spring.NewAir(air)), newTopOut(spring.NewTopOut(topOut)))), []units.Length{45 * mm}},
		{"parallel ends with its shortest part", spring.Parallel(newCoil(spring.NewCoil(binding)), newAir(spring.NewAir(air))), nil},
	} {
		t.Run(c.name, func(t *testing.T) { curvetest.Contract(t, c.curve, c.kinks...) })
	}
}

func TestStroke(t *testing.T) {
	binding := coil
	binding.FreeLength, binding.SolidLength = 500*mm, 250*mm
	c := must[spring.Coil](t)(spring.NewCoil(binding))
	if got, want := c.Stroke(), 246*mm; math.Abs(float64(got-want)) > 1e-12 {
		t.Errorf("a spring of 500 mm, 250 mm solid, 4 mm preloaded binds after %v, want %v", got, want)
	}
	if got := spring.Parallel().Stroke(); got != 0 {
		t.Errorf("nothing in parallel has the stroke %v, want 0", got)
	}
	if p := spring.At(spring.Parallel(), 0); !math.IsNaN(float64(p.Force)) {
		t.Errorf("nothing in parallel resists with %v, want NaN", p.Force)
	}
}

func TestSample(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	points := spring.Sample(c, 4)
	if len(points) != 4 || points[0].Travel != 0 || points[3].Travel != c.Stroke() {
		t.Errorf("Sample(4) = %v, want 4 points from 0 to the stroke", points)
	}
	if got := spring.Sample(c, 1); got != nil {
		t.Errorf("Sample(1) = %v, want nil", got)
	}
	if got := spring.Sample(spring.Parallel(), 10); got != nil {
		t.Errorf("Sample of nothing = %v, want nil", got)
	}
}
