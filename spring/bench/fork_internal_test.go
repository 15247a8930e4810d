package bench

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// full is a fork with every number that a fork may have: chambers with valves of their own in the left leg, in the
// right one a coil against a balance spring, a chamber behind a port, and a pressurized damper.
func full() Fork {
	here := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	fill := func(bar float64) gas.Fill {
		return gas.Fill{Gauge: units.Gauge(units.Pressure(bar) * units.Bar), Ambient: here}
	}
	f := bare(nil)
	f.Spec.Closed, f.Leak = here, 100*units.Day
	f.Spec.Left.Air = &setup.Air{Bore: 0.034, Rod: 0.012, Volume: 450e-6, Linked: 40e-6, Fill: fill(6),
		NegativeVolume: 70e-6, NegativeGauge: units.Gauge(5 * units.Bar), SecondVolume: 60e-6,
		SecondGauge: units.Gauge(12 * units.Bar)}
	f.Spec.Right = setup.Leg{Gap: &setup.Gap{Area: 17e-4, Residual: 310e-6},
		Air: &setup.Air{Bore: 0.03, Rod: 0.01, Volume: 350e-6, Fill: fill(4), NegativeVolume: 50e-6, Port: 0.004},
		Springs: []spring.Spec{spring.CoilSpec{Rate: 4000, Preload: 0.004, Travel: 0.3},
			spring.TopOutSpec{Rate: 9000, Length: 0.02, Travel: 0.3}},
		Damper: &setup.Damper{Rod: 0.012, Volume: 60e-6, Fill: fill(8)}}
	f.Oil[0] = Oil{Interior: 900e-6, Column: 15e-4, Metal: 40e-6, Volume: 556e-6}
	f.Gauge, f.Scale = 2e4, 0.02
	return f
}

// Every number of a fork can be set, in a copy: it reads back, no other number moves, and the fork that it was set in
// stays as it was.
func TestFieldsReadBack(t *testing.T) {
	f := full()
	names := f.Names()
	sides := strings.NewReplacer("left.", "", "right.", "")
	reached := map[string]bool{}
	for _, name := range names {
		reached[sides.Replace(name)] = true
	}
	for name := range fields() {
		if !reached[sides.Replace(name)] {
			t.Errorf("no leg of the full fork has %s", name)
		}
	}
	for _, name := range names {
		d := fields()[name]
		was := d.get(&f)
		for _, now := range []float64{was*1.02 + 1e-4, was * 1.01, was*0.99 + 1e-5, was} {
			g := f
			d.set(&g, was*1.05+1e-4) // set twice: the second does not build on the first
			d.set(&g, now)
			for _, other := range names {
				want, got := fields()[other].get(&f), fields()[other].get(&g)
				if other == name {
					want = now
				}
				if !(math.Abs(got-want) <= 1e-9*math.Abs(want)+1e-15) {
					t.Errorf("%s set to %g: %s = %g, want %g", name, now, other, got, want)
				}
			}
			if d.get(&f) != was {
				t.Errorf("%s was set in the fork it was copied from", name)
			}
		}
	}
}

// Rates are factors on what was specified, of main springs and of balance springs each alone; preload is a length
// added.
func TestSpringsAdjusted(t *testing.T) {
	f := full()
	coil, balance := f.Spec.Right.Springs[0].(spring.CoilSpec), f.Spec.Right.Springs[1].(spring.TopOutSpec)
	for _, first := range []float64{1, 1.3} {
		g := f
		fields()["right.rate"].set(&g, first)
		fields()["right.rate"].set(&g, 1.1)
		fields()["right.balance"].set(&g, first)
		fields()["right.balance"].set(&g, 0.8)
		fields()["right.preload"].set(&g, first/1000)
		fields()["right.preload"].set(&g, -0.003)
		got, other := g.Spec.Right.Springs[0].(spring.CoilSpec), g.Spec.Right.Springs[1].(spring.TopOutSpec)
		near(t, "rate", float64(got.Rate), 1.1*float64(coil.Rate), 1e-9)
		near(t, "preload", float64(got.Preload), float64(coil.Preload)-0.003, 1e-12)
		near(t, "balance", float64(other.Rate), 0.8*float64(balance.Rate), 1e-9)
		if other.Length != balance.Length {
			t.Errorf("the balance spring acts over %v, it did over %v", other.Length, balance.Length)
		}
	}
	if left := f.Names(); slices.Contains(left, "left.rate") || slices.Contains(left, "left.balance") ||
		slices.Contains(left, "left.preload") {
		t.Error("a leg without springs has a rate, a preload or a balance spring")
	}
}

// What a fork has not is not among its numbers: a part that is absent, nothing of what can not be nothing. A port may
// be at 0, and what may be on either side of 0 is there at 0 too.
func TestNamesOfWhatIsThere(t *testing.T) {
	with := func(change func(f *Fork)) Fork {
		f := full()
		a, b, d, g := *f.Spec.Left.Air, *f.Spec.Right.Air, *f.Spec.Right.Damper, *f.Spec.Left.Gap
		f.Spec.Left.Air, f.Spec.Right.Air, f.Spec.Right.Damper, f.Spec.Left.Gap = &a, &b, &d, &g
		change(&f)
		return f
	}
	nothing := units.Length(math.NaN())
	for name, c := range map[string]struct {
		number string
		there  bool
		change func(f *Fork)
	}{
		"a port":                          {"right.air.port", true, func(*Fork) {}},
		"a port at full extension":        {"right.air.port", true, func(f *Fork) { f.Spec.Right.Air.Port = 0 }},
		"a port above full extension":     {"right.air.port", false, func(f *Fork) { f.Spec.Right.Air.Port = -0.001 }},
		"a port that is no number":        {"right.air.port", false, func(f *Fork) { f.Spec.Right.Air.Port = nothing }},
		"no chamber behind the port":      {"right.air.port", false, func(f *Fork) { f.Spec.Right.Air.NegativeVolume = 0 }},
		"a valve instead of the port":     {"left.air.port", false, func(*Fork) {}},
		"a port in a leg without air":     {"right.air.port", false, func(f *Fork) { f.Spec.Right.Air = nil }},
		"a chamber behind a valve":        {"left.air.negative-ratio", true, func(*Fork) {}},
		"a chamber behind the port":       {"right.air.negative-ratio", false, func(*Fork) {}},
		"a volume in a leg without air":   {"left.air.volume", false, func(f *Fork) { f.Spec.Left.Air = nil }},
		"no linked chamber":               {"left.air.linked", false, func(f *Fork) { f.Spec.Left.Air.Linked = 0 }},
		"a ratio in a leg without air":    {"left.air.second-ratio", false, func(f *Fork) { f.Spec.Left.Air = nil }},
		"friction":                        {"friction", true, func(*Fork) {}},
		"no friction":                     {"friction", false, func(f *Fork) { f.Spec.Friction = 0 }},
		"friction below nothing":          {"friction", false, func(f *Fork) { f.Spec.Friction = -5 }},
		"friction that is no number":      {"friction", false, func(f *Fork) { f.Spec.Friction = units.Force(math.NaN()) }},
		"an offset of nothing":            {"offset", true, func(f *Fork) { f.Chassis.Offset = 0 }},
		"an offset to the rear":           {"offset", true, func(f *Fork) { f.Chassis.Offset = -0.01 }},
		"an offset that is no number":     {"offset", false, func(f *Fork) { f.Chassis.Offset = nothing }},
		"a damper":                        {"right.damper.pressure", true, func(*Fork) {}},
		"no damper":                       {"right.damper.pressure", false, func(f *Fork) { f.Spec.Right.Damper = nil }},
		"a gap over unknown oil":          {"right.gap", true, func(*Fork) {}},
		"a gap over known oil":            {"left.gap", false, func(*Fork) {}},
		"a gap where the oil is not read": {"left.gap", true, func(f *Fork) { f.Oil[0].Volume = 0 }},
		"a gap in an unknown inside":      {"left.gap", true, func(f *Fork) { f.Oil[0].Interior = 0 }},
		"no gap":                          {"right.gap", false, func(f *Fork) { f.Spec.Right.Gap = nil }},
		"no coil": {"right.rate", false, func(f *Fork) {
			f.Spec.Right.Springs = f.Spec.Right.Springs[1:]
		}},
		"no balance spring": {"right.balance", false, func(f *Fork) {
			f.Spec.Right.Springs = f.Spec.Right.Springs[:1]
		}},
	} {
		f := with(c.change)
		if got := slices.Contains(f.Names(), c.number); got != c.there {
			t.Errorf("%s: %s in the list: %v", name, c.number, got)
		}
	}
}

// A gauge that is off is off for every chamber with a valve, once; a chamber without pressure has nothing to correct.
func TestGaugeCorrectedOnce(t *testing.T) {
	f := full()
	first := f.filled()
	air, was := first.Spec.Left.Air, f.Spec.Left.Air
	behind := (6e5 - 2e4) / 1.02
	near(t, "fill", air.Fill.Gauge.In(units.Pascal), behind, 1e-6)
	near(t, "negative chamber", air.NegativeGauge.In(units.Pascal), 5e5*behind/6e5, 1e-6)
	near(t, "second chamber", air.SecondGauge.In(units.Pascal), 12e5*behind/6e5, 1e-6)
	if was.Fill.Gauge != units.Gauge(6*units.Bar) {
		t.Errorf("the fork itself was corrected: %v", was.Fill.Gauge)
	}
	again := first.filled()
	near(t, "fill, once more", again.Spec.Left.Air.Fill.Gauge.In(units.Pascal), behind, 1e-6)
	for _, p := range []float64{0, 1e5, 9e5} {
		near(t, "shown", f.shows(f.behind(units.Gauge(units.Pressure(p)))), p, 1e-6)
	}
	near(t, "shown at 5 bar", f.shows(units.Gauge(5*units.Bar)), 5e5*1.02+2e4, 1e-6)
	for _, g := range []units.GaugePressure{{}, units.Gauge(-0.1 * units.Bar)} {
		empty := full()
		a := *empty.Spec.Left.Air
		a.Fill.Gauge = g
		empty.Spec.Left.Air = &a
		if got := empty.filled().Spec.Left.Air.Fill.Gauge; got != g {
			t.Errorf("filled to %v, corrected to %v", g, got)
		}
	}
	sound := full()
	sound.Gauge, sound.Scale = 0, 0
	if got := sound.filled().Spec.Left.Air; got != sound.Spec.Left.Air {
		t.Error("a gauge that shows what is there was corrected")
	}
}

// The gas over the oil follows from the inside of the leg where both are known, and is that of the specification where
// one of them is not.
func TestGasOverTheOil(t *testing.T) {
	for name, c := range map[string]struct {
		oil  Oil
		want units.Volume
	}{
		"all known":         {Oil{Interior: 900e-6, Metal: 40e-6, Volume: 556e-6}, 304e-6},
		"no metal":          {Oil{Interior: 900e-6, Volume: 556e-6}, 344e-6},
		"inside not known":  {Oil{Metal: 40e-6, Volume: 556e-6}, 300e-6},
		"oil not known":     {Oil{Interior: 900e-6, Metal: 40e-6}, 300e-6},
		"nothing is known":  {Oil{}, 300e-6},
		"only metal":        {Oil{Metal: 40e-6}, 300e-6},
		"only how it moves": {Oil{Column: 15e-4}, 300e-6},
	} {
		f := bare(t)
		f.Oil[0] = c.oil
		near(t, name, float64(f.filled().Spec.Left.Gap.Residual), float64(c.want), 1e-12)
		if f.Spec.Left.Gap.Residual != 300e-6 {
			t.Errorf("%s: set in the fork itself", name)
		}
	}
	f := bare(t)
	f.Oil[1] = Oil{Interior: 900e-6, Volume: 556e-6} // of a leg without gas
	if f.filled().Spec.Right.Gap != nil {
		t.Error("oil put gas into a leg without any")
	}
}
