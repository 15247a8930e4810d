package spring_test

import (
	"errors"
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
	second = spring.FloatingPistonSpec{Air: air, SecondVolume: 60 * units.Milliliter,
		SecondPressure: units.Absolute(18 * units.Bar)}
	gap = spring.ChamberSpec{Area: 18 * units.SquareCentimeter, Volume: 800 * units.Milliliter,
		Pressure: sea, Ambient: sea, Exponent: 1.3, Travel: 305 * mm}
	coil   = spring.CoilSpec{Rate: 9 * units.NewtonPerMillimeter, Preload: 4 * mm, Travel: 305 * mm}
	topOut = spring.TopOutSpec{Rate: 5 * units.NewtonPerMillimeter, Length: 45 * mm, Travel: 305 * mm}

	progressive = spring.ProgressiveSpec{Preload: 5 * mm, Travel: 150 * mm, Coils: []spring.CoilGroup{
		{Count: 20, Gap: 5 * mm, Rate: 400 * units.NewtonPerMillimeter},
		{Count: 20, Gap: 3 * mm, Rate: 200 * units.NewtonPerMillimeter},
		{Count: 20, Gap: 3 * mm, Rate: 100 * units.NewtonPerMillimeter}}}
	rates = spring.RateTableSpec{Preload: 5 * mm, Travel: 150 * mm, Rates: []spring.RatePoint{
		{Compression: 0, Rate: 4 * units.NewtonPerMillimeter},
		{Compression: 60 * mm, Rate: 4.5 * units.NewtonPerMillimeter},
		{Compression: 100 * mm, Rate: 6.5 * units.NewtonPerMillimeter},
		{Compression: 160 * mm, Rate: 7 * units.NewtonPerMillimeter}}}
	stack = spring.StackSpec{Preload: 10 * mm, Travel: 130 * mm,
		Soft: spring.CoilPart{Rate: 10 * units.NewtonPerMillimeter, FreeLength: 120 * mm, SolidLength: 70 * mm},
		Hard: spring.CoilPart{Rate: 15 * units.NewtonPerMillimeter, FreeLength: 260 * mm, SolidLength: 140 * mm}}
	nested = spring.NestedSpec{Preload: 10 * mm, Travel: 130 * mm,
		Outer: spring.CoilPart{Rate: 6 * units.NewtonPerMillimeter, FreeLength: 300 * mm, SolidLength: 140 * mm},
		Inner: spring.CoilPart{Rate: 4 * units.NewtonPerMillimeter, FreeLength: 240 * mm, SolidLength: 130 * mm}}
	bumpStop = spring.BumpStopSpec{Outer: 34 * mm, Bore: 14 * mm, Height: 30 * mm, Modulus: 3 * units.Megapascal,
		Restraint: 1.5, Contact: 130 * mm, MaxStrain: 0.6, Travel: 150 * mm}
	loop = spring.MeasuredSpec{
		Loading: []spring.Reading{{-1 * mm, 42}, {20 * mm, 230}, {50 * mm, 520}, {80 * mm, 800}, {110 * mm, 1200},
			{150 * mm, 2010}},
		Unloading: []spring.Reading{{0, 6}, {35 * mm, 318}, {80 * mm, 741}, {120 * mm, 1280}, {150 * mm, 1960}}}
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
	small := second // less gas in the main chamber than the stroke sweeps
	small.Air.Volume, small.SecondVolume = 250*units.Milliliter, 200*units.Milliliter
	needy := newPiston(spring.NewFloatingPiston(small))
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
		{"air spring", newAir(spring.NewAir(air)), nil},
		{"air spring, isothermal", newAir(spring.NewAir(isothermal)), nil},
		{"air spring with its own negative valve", newAir(spring.NewAir(independent)), nil},
		{"air spring with a port at 6 mm", newAir(spring.NewAir(ported)), nil},
		{"air spring without a negative chamber", newAir(spring.NewAir(lone)), nil},
		{"floating piston", piston, []units.Length{piston.Engage()}},
		{"floating piston with a small main chamber", needy, []units.Length{needy.Engage()}},
		{"floating piston that never engages", newPiston(spring.NewFloatingPiston(lazy)), nil},
		{"top-out spring", newTopOut(spring.NewTopOut(topOut)), []units.Length{45 * mm}},
		{"parallel of all kinds", spring.Parallel(newCoil(spring.NewCoil(coil)), nil,
			spring.Parallel(newAir(spring.NewAir(air)), newTopOut(spring.NewTopOut(topOut)))), []units.Length{45 * mm}},
		{"parallel ends with its shortest part",
			spring.Parallel(newCoil(spring.NewCoil(binding)), newAir(spring.NewAir(air))), nil},
	} {
		t.Run(c.name, func(t *testing.T) { curvetest.Contract(t, c.curve, c.kinks...) })
	}
}

func TestContractOfCompounds(t *testing.T) {
	newCoil, newAir := must[spring.Coil](t), must[spring.Air](t)
	newProgressive, newStack := must[spring.Progressive](t), must[spring.Stack](t)
	newNested, newBumpStop, newMeasured := must[spring.Nested](t), must[spring.BumpStop](t), must[spring.Measured](t)

	staircase, table := newProgressive(spring.NewProgressive(progressive)), newProgressive(spring.NewRateTable(rates))
	loose := progressive
	loose.Preload = -20 * mm
	rattling := newProgressive(spring.NewProgressive(loose))
	sleeved := stack
	sleeved.Crossover = 30 * mm
	bridged, dual := newStack(spring.NewStack(sleeved)), newStack(spring.NewStack(stack))
	looseNest := nested
	looseNest.Preload = -10 * mm
	pair := newNested(spring.NewNested(nested))
	one := loop
	one.Unloading = nil
	linear, gas := newCoil(spring.NewCoil(coil)), newAir(spring.NewAir(air))
	short := spring.Limit(linear, 60*mm)
	kinks := []units.Length{20 * mm, 35 * mm, 50 * mm, 80 * mm, 110 * mm, 120 * mm}

	for _, c := range []struct {
		name  string
		curve spring.Curve
		kinks []units.Length
	}{
		{"progressive, pitch table", staircase, staircase.Changes()},
		{"progressive that starts loose", rattling, rattling.Changes()},
		{"progressive, rate table", table, table.Changes()},
		{"stack", dual, []units.Length{dual.Crossover()}},
		{"stack with a crossover sleeve", bridged, []units.Length{bridged.Crossover()}},
		{"nested", pair, []units.Length{pair.Join()}},
		{"nested that starts loose", newNested(spring.NewNested(looseNest)), []units.Length{10 * mm, 70 * mm}},
		{"bump stop", newBumpStop(spring.NewBumpStop(bumpStop)), []units.Length{130 * mm}},
		{"measured loop", newMeasured(spring.NewMeasured(loop)), kinks},
		{"measured while compressing only", newMeasured(spring.NewMeasured(one)), kinks},
		{"series of coils", spring.Series(linear, nil, linear), nil},
		{"series of a coil and a stack", spring.Series(linear, dual),
			seriesAt([]spring.Curve{linear, dual}, dual.Force(0), dual.Force(dual.Crossover()),
				dual.Force(dual.Stroke()))},
		{"series of a coil and an air spring", spring.Limit(spring.Series(linear, gas), 500*mm),
			seriesAt([]spring.Curve{linear, gas}, gas.Force(0))},
		{"series of a short coil and an air spring, bound past 576 N", spring.Series(gas, short),
			seriesAt([]spring.Curve{gas, short}, gas.Force(0), short.Force(60*mm))},
		{"series of three kinds", spring.Limit(spring.Series(gas, linear, dual, gas), 300*mm),
			seriesAt([]spring.Curve{gas, linear, dual, gas}, dual.Force(0), gas.Force(0),
				dual.Force(dual.Crossover()))},
		{"shifted by a spacer", spring.Shift(gas, 20*mm), nil},
		{"shifted to act later", spring.Shift(newBumpStop(spring.NewBumpStop(bumpStop)), -10*mm),
			[]units.Length{140 * mm}},
		{"shifted to be struck with its force", spring.Shift(linear, -90*mm), []units.Length{90 * mm}},
		{"scaled", spring.Scale(gas, 2), nil},
		{"limited", spring.Limit(gas, 120*mm), nil},
	} {
		t.Run(c.name, func(t *testing.T) { curvetest.Contract(t, c.curve, c.kinks...) })
	}
}

// seriesAt is the travel of curves in series under each of the forces.
func seriesAt(curves []spring.Curve, forces ...units.Force) []units.Length {
	var at []units.Length
	for _, f := range forces {
		var sum units.Length
		for _, c := range curves {
			x, err := spring.Equilibrium(c, f)
			if err != nil {
				x = c.Stroke()
			}
			sum += x
		}
		at = append(at, sum)
	}
	return at
}

func TestCombinedWithoutStroke(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	nan := units.Length(math.NaN())
	for _, test := range []struct {
		name  string
		curve spring.Curve
	}{
		{"nothing in series", spring.Series()},
		{"nil in series", spring.Series(nil, nil)},
		{"springs of no stroke in series", spring.Series(spring.Parallel(), spring.Coil{}, spring.Shift(c, 306*mm))},
		{"zero progressive", spring.Progressive{}},
		{"zero measured", spring.Measured{}},
		{"nil shifted", spring.Shift(nil, 1)},
		{"shifted past its end", spring.Shift(c, 306*mm)},
		{"shifted by NaN", spring.Shift(c, nan)},
		{"shifted by infinity", spring.Shift(c, units.Length(math.Inf(-1)))},
		{"nil scaled", spring.Scale(nil, 2)},
		{"scaled by infinity", spring.Scale(c, math.Inf(-1))},
		{"scaled by NaN", spring.Scale(c, math.NaN())},
		{"nil limited", spring.Limit(nil, 1)},
		{"limited to nothing", spring.Limit(c, 0)},
		{"limited to NaN", spring.Limit(c, nan)},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := test.curve.Stroke(); got != 0 {
				t.Errorf("stroke %v, want 0", got)
			}
			p := spring.At(test.curve, 0)
			if !math.IsNaN(float64(p.Force)) || !math.IsNaN(float64(p.Rate)) || !math.IsNaN(float64(p.Energy)) {
				t.Errorf("at 0: %+v, want NaN", p)
			}
		})
	}
}

// A failure goes through every combination and comes out of every function that returns an error.
func TestFailureIsTold(t *testing.T) {
	why := errors.New("no such fork")
	c, failed := spring.Curve(must[spring.Coil](t)(spring.NewCoil(coil))), spring.Failed(why)
	for name, f := range map[string]spring.Curve{
		"itself": failed, "parallel": spring.Parallel(c, failed), "series": spring.Series(failed, c),
		"shifted": spring.Shift(failed, 1*mm), "scaled": spring.Scale(failed, 2), "limited": spring.Limit(failed, 1*mm),
		"nested": spring.Parallel(spring.Scale(spring.Parallel(failed), 2)),
	} {
		if !errors.Is(spring.Err(f), why) {
			t.Errorf("%s: %v, want the reason", name, spring.Err(f))
		}
		if _, err := spring.Equilibrium(f, 100); !errors.Is(err, why) {
			t.Errorf("equilibrium of %s: %v, want the reason", name, err)
		}
	}
	for name, f := range map[string]spring.Curve{
		"nothing": nil, "parallel of nothing": spring.Parallel(nil), "series of nothing": spring.Series(),
		"shifted past its end": spring.Shift(c, 306*mm),
		"scaled by infinity":   spring.Scale(c, math.Inf(1)), "limited to nothing": spring.Limit(c, 0),
	} {
		var out *units.RangeError
		if _, err := spring.Equilibrium(f, 100); !errors.As(err, &out) || !errors.As(spring.Err(f), &out) {
			t.Errorf("%s: %v, want a *units.RangeError", name, err)
		}
	}
	if err := spring.Err(c); err != nil {
		t.Errorf("a good curve: %v", err)
	}
}

func TestStroke(t *testing.T) {
	binding := coil
	binding.FreeLength, binding.SolidLength = 500*mm, 250*mm
	c := must[spring.Coil](t)(spring.NewCoil(binding))
	if got, want := c.Stroke(), 246*mm; !(math.Abs(float64(got-want)) <= 1e-12) {
		t.Errorf("a spring of 500 mm, 250 mm solid, 4 mm preloaded binds after %v, want %v", got, want)
	}
	if got := spring.Parallel().Stroke(); got != 0 {
		t.Errorf("nothing in parallel has the stroke %v, want 0", got)
	}
	if p := spring.At(spring.Parallel(), 0); !math.IsNaN(float64(p.Force)) {
		t.Errorf("nothing in parallel resists with %v, want NaN", p.Force)
	}
}

// A last sample that rounds to beyond the stroke would be NaN.
func TestSampleEndsInside(t *testing.T) {
	for travel := 20 * mm; travel < 400*mm; travel += 0.7 * mm {
		s := coil
		s.Travel = travel
		c := must[spring.Coil](t)(spring.NewCoil(s))
		for n := 2; n < 40; n++ {
			points := spring.Sample(c, n)
			if last := points[n-1]; last.Travel != c.Stroke() || math.IsNaN(float64(last.Force)) {
				t.Fatalf("travel %v, %d points: the last is %+v", travel, n, last)
			}
			if d := spring.Compare(c, c, n); math.IsNaN(float64(d.RMS)) {
				t.Fatalf("travel %v, %d points: RMS %v", travel, n, d.RMS)
			}
		}
	}
}

// In bulk or one by one, before and past the ends: the same values behind those that were there.
func TestAppend(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	xs := []units.Length{-1 * mm, 0, 100 * mm, 305 * mm, 306 * mm}
	fork := spring.Parallel(c, must[spring.Air](t)(spring.NewAir(air)), spring.Shift(c, 10*mm))
	for name, c := range map[string]spring.Curve{"coil": c, "fork": fork, "no fork": spring.Parallel(),
		"of another package": window{fork, 0, 200 * mm}} {
		forces := spring.AppendForces([]units.Force{1}, c, xs)[1:]
		rates := spring.AppendRates([]units.Stiffness{1}, c, xs)[1:]
		energies := spring.AppendEnergies([]units.Energy{1}, c, xs)[1:]
		points := spring.AppendPoints([]spring.Point{{}}, c, xs)[1:]
		for i, x := range xs {
			want := spring.At(c, x)
			for what, pair := range map[string][3]float64{
				"force": {float64(forces[i]), float64(points[i].Force), float64(want.Force)},
				"rate":  {float64(rates[i]), float64(points[i].Rate), float64(want.Rate)},
				"joule": {float64(energies[i]), float64(points[i].Energy), float64(want.Energy)},
			} {
				for _, got := range pair[:2] {
					if !close(got, pair[2], 1e-13) && !(math.IsNaN(got) && math.IsNaN(pair[2])) {
						t.Errorf("%s, %s at %v: %v, one by one %v", name, what, x, got, pair[2])
					}
				}
			}
		}
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
	if got := spring.Sample(window{Curve: c}, 10); got != nil {
		t.Errorf("Sample of a curve without stroke = %v, want nil", got)
	}
	if got := spring.Sample(nil, 10); got != nil {
		t.Errorf("Sample of no curve = %v, want nil", got)
	}
	if got := spring.Sample(spring.Parallel(), 10); got != nil {
		t.Errorf("Sample of nothing = %v, want nil", got)
	}
}
