package oil_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

var (
	enduro = geometry.Fork{Layout: geometry.Inverted, Travel: 300 * mm,
		Stanchion: geometry.Tube{Outer: 48 * mm, Bore: 44 * mm}, OuterBore: 54 * mm}
	road = geometry.Fork{Layout: geometry.Upright, Travel: 125 * mm,
		Stanchion: geometry.Tube{Outer: 41 * mm, Bore: 37.5 * mm}, OuterBore: 46 * mm}
	open = geometry.Tube{Outer: 25 * mm, Bore: 23 * mm}
)

func newLeg(t testing.TB, s oil.InteriorSpec) oil.Interior {
	t.Helper()
	l, err := oil.NewInterior(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestLegSections(t *testing.T) {
	circle := func(d float64) float64 { return math.Pi / 4 * d * d } // mm²
	for _, c := range []struct {
		name                   string
		spec                   oil.InteriorSpec
		column, area, interior float64 // mm², mm², mm³
	}{
		{"upright, nothing inside", oil.InteriorSpec{Fork: road, Depth: 500 * mm},
			circle(37.5), circle(41), circle(37.5) * 500},
		{"upright, open cartridge", oil.InteriorSpec{Fork: road, Depth: 500 * mm, Rod: 10 * mm, Cartridge: open,
			Length: 300 * mm},
			circle(37.5) - circle(10), circle(41), (circle(37.5)-circle(10))*500 - (circle(25)-circle(23))*300},
		{"inverted, open cartridge", oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12 * mm, Cartridge: open,
			Length: 300 * mm},
			circle(44) + circle(54) - circle(48) - circle(12), circle(48),
			(circle(44)+circle(54)-circle(48)-circle(12))*500 - (circle(25)-circle(23))*300},
		{"inverted, closed cartridge", oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12.5 * mm, Cartridge: open,
			Closed: true},
			circle(44) + circle(54) - circle(48) - circle(25), circle(48) - circle(12.5), (circle(44) +
				circle(54) - circle(48) - circle(25)) * 500},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := newLeg(t, c.spec)
			f := l.FillSpec()
			for _, v := range []struct {
				name      string
				got, want float64
			}{
				{"column", f.Column.In(units.SquareMillimeter), c.column},
				{"area", l.Area().In(units.SquareMillimeter), c.area},
				{"interior", f.Interior.In(units.CubicMillimeter), c.interior},
			} {
				if !(math.Abs(v.got/v.want-1) <= 1e-12) {
					t.Errorf("%s %v, want %v", v.name, v.got, v.want)
				}
			}
		})
	}
}

// Extending a leg gains the sealed area times the stroke as gas. The drop of the level must account for it through
// the sections above the oil: in the upright leg the bore alone, in the inverted one the outer tube's bore over the
// length that the inner tube has left, and both tubes' sections below.
func TestDropGainsSealedVolume(t *testing.T) {
	for _, c := range []struct {
		name string
		fork geometry.Fork
		x    float64 // m
		gas  func(drop, x float64, f geometry.Fork) float64
	}{
		{"upright", road, 0.125, func(drop, _ float64, f geometry.Fork) float64 {
			return drop * float64(geometry.Circle(f.Stanchion.Bore))
		}},
		{"inverted", enduro, 0.3, func(drop, x float64, f geometry.Fork) float64 {
			return x*float64(geometry.Circle(f.OuterBore)) + (drop-x)*float64(f.OilColumn())
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := newLeg(t, oil.InteriorSpec{Fork: c.fork, Depth: 500 * mm})
			got := c.gas(float64(l.Drop(units.Length(c.x))), c.x, c.fork)
			if want := c.x * float64(c.fork.SealedArea()); !(math.Abs(got/want-1) <= 1e-12) {
				t.Errorf("the level's drop makes %v m³ of room, the stroke %v m³", got, want)
			}
		})
	}
}

func TestRefitted(t *testing.T) {
	// By hand: 830 mL inside, an air cartridge of 250 mL and 300 mL of oil leave 280 mL. A kit of 65 mL of spring
	// and spacers that is to leave 160 mL wants 605 mL, 305 mL more than before.
	before, err := oil.NewFill(oil.FillSpec{Interior: 830 * mL, Column: 20 * units.SquareCentimeter, Metal: 250 * mL,
		Volume: 300 * mL})
	if err != nil {
		t.Fatal(err)
	}
	after, err := before.Refitted(65*mL, 160*mL)
	if err != nil {
		t.Fatal(err)
	}
	if got := (after.Volume() - before.Volume()).In(mL); !(math.Abs(got-305) <= 1e-9) {
		t.Errorf("adds %v mL, want 305", got)
	}
	if got := after.Residual().In(mL); !(math.Abs(got-160) <= 1e-9) {
		t.Errorf("leaves %v mL, want 160", got)
	}
	// The same kit and gas in the other's stead change nothing.
	same, err := before.Refitted(250*mL, before.Residual())
	if err != nil || !(math.Abs(float64(same.Volume()-before.Volume())) <= 1e-15) {
		t.Errorf("a refit of the same parts changes the oil to %v, %v", same.Volume(), err)
	}
	for _, c := range []struct {
		name            string
		metal, residual units.Volume
		want            string
	}{
		{"metal above the leg", 900 * mL, 10 * mL, "Refitted.metal = 900 mL: want 0 mL to 830 mL"},
		{"no room for oil", 430 * mL, 401 * mL, "no room is left for oil"},
		{"gas NaN", 65 * mL, units.Volume(math.NaN()), "Refitted.residual = NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := before.Refitted(c.metal, c.residual)
			if err == nil || !strings.Contains(err.Error(), c.want) || !errors.As(err, new(*units.RangeError)) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}

// Figures of the trade, recomputed: metal displaced by a spring and the level it
// raises, warm oil in a small gap. Common practice, no source.
func TestTradeFigures(t *testing.T) {
	steel := 7.85 * units.GramPerMilliliter
	light, heavy := oil.Displaced(0.35*units.Kilogram, steel).In(mL), oil.Displaced(0.5*units.Kilogram, steel).In(mL)
	if !(math.Abs(light-45) <= 0.5) || !(math.Abs(heavy-64) <= 0.5) {
		t.Errorf("springs of 0.35 kg and 0.5 kg displace %.1f mL and %.1f mL, want 45 and 64", light, heavy)
	}
	for _, c := range []struct {
		fork geometry.Fork
		want float64 // mL per 10 mm of level
	}{{road, 11}, {enduro, 20}} {
		if got := float64(c.fork.OilColumn()) * 0.01 * 1e6; !(math.Abs(got-c.want) <= 0.5) {
			t.Errorf("%v: 10 mm of level are %.1f mL, want %v", c.fork.Layout, got, c.want)
		}
	}
}

func TestLockLevel(t *testing.T) {
	for _, fork := range []geometry.Fork{enduro, road} {
		leg := newLeg(t, oil.InteriorSpec{Fork: fork, Depth: 500 * mm})
		spec := leg.FillSpec()
		spec.Metal, spec.Level = 75*mL, 120*mm
		fill, err := oil.NewFill(spec)
		if err != nil {
			t.Fatal(err)
		}
		limit := fill.LockLevel(leg.Area(), fork.Travel)
		for _, c := range []struct {
			name  string
			level units.Length
			locks bool
		}{{"below", limit + 0.1*mm, false}, {"above", limit - 0.1*mm, true}} {
			spec.Level = c.level
			f, err := oil.NewFill(spec)
			if err != nil {
				t.Fatal(err)
			}
			g := newGap(t, oil.AirGapSpec{Area: leg.Area(), Residual: f.Residual(), Travel: fork.Travel, Pressure: sea,
				Ambient: sea, Exponent: 1.3})
			if _, locks := g.Locks(); locks != c.locks {
				t.Errorf("%v fork, oil %s the lock level %.1f: locks is %v", fork.Layout, c.name, limit, locks)
			}
		}
	}
}

func TestSensitivity(t *testing.T) {
	leg := newLeg(t, oil.InteriorSpec{Fork: enduro, Depth: 500 * mm})
	spec := leg.FillSpec()
	spec.Metal, spec.Level = 75*mL, 110*mm
	fill, err := oil.NewFill(spec)
	if err != nil {
		t.Fatal(err)
	}
	gap := oil.AirGapSpec{Area: leg.Area(), Travel: enduro.Travel, Pressure: sea, Ambient: sea, Exponent: 1.3}
	s, err := fill.Sensitivity(gap)
	if err != nil {
		t.Fatal(err)
	}
	// Two steps of 5 mm are the 464 N and the ratios 4.7 and 5.3 of the level table,
	// whole fork, so one is somewhat less than a quarter of it for one leg.
	if got := float64(s.Level.Force); !(got > 464.0/4*0.85 && got < 464.0/4) {
		t.Errorf("5 mm are %.1f N per leg", got)
	}
	if !(math.Abs(s.Level.From-4.7) <= 0.05) || !(s.Level.To > 4.9 && s.Level.To < 5.1) {
		t.Errorf("5 mm take the ratio from %.2f to %.2f", s.Level.From, s.Level.To)
	}
	// 5 mL is half of 5 mm here, 10.0 mL.
	if r := float64(s.Volume.Force / s.Level.Force); !(r > 0.47 && r < 0.5) {
		t.Errorf("5 mL do %.3f of 5 mm", r)
	}
	gap.Area = 0
	if _, err := fill.Sensitivity(gap); !errors.As(err, new(*units.RangeError)) {
		t.Errorf("a gap without area: %v", err)
	}
}

func TestDifferenceOfLegs(t *testing.T) {
	left, right := gap, gap
	right.Residual -= 10 * mL
	a, b := newGap(t, left), newGap(t, right)
	c := oil.Difference(a, b)
	if back := oil.Difference(b, a); back.Force != -c.Force || back.From != c.To || back.To != c.From {
		t.Errorf("%+v one way, %+v the other", c, back)
	}
	if want := b.Force(gap.Travel) - a.Force(gap.Travel); c.Force != want || !(c.Force > 0) {
		t.Errorf("difference %v, want %v", c.Force, want)
	}
	if none := oil.Difference(a, a); none.Force != 0 {
		t.Errorf("equal legs differ by %v", none.Force)
	}
	// A locked leg is compared where it locks.
	right.Residual = -10 * mL
	locked := newGap(t, right)
	c = oil.Difference(a, locked)
	if want := locked.Force(locked.Stroke()) - a.Force(locked.Stroke()); c.Force != want || !math.IsInf(c.To, 1) {
		t.Errorf("against a locked leg %+v, want %v", c, want)
	}
}

func FuzzNewInterior(f *testing.F) {
	f.Add(0, 0.048, 0.044, 0.054, 0.3, 0.5, 0.012, 0.025, 0.023, 0.3, false)
	f.Add(1, 0.041, 0.0375, 0.046, 0.125, 0.5, 0.0, 0.0, 0.0, 0.0, false)
	f.Add(1, 0.048, 0.044, 0.054, 0.3, 0.5, 0.012, 0.025, 0.023, 0.0, true)
	f.Fuzz(func(t *testing.T, layout int, outer, bore, outerBore, travel, depth, rod, cartridge, cartridgeBore,
		length float64, closed bool) {
		leg, err := oil.NewInterior(oil.InteriorSpec{
			Fork: geometry.Fork{Layout: geometry.Layout(layout), Travel: units.Length(travel),
				Stanchion: geometry.Tube{Outer: units.Length(outer),
					Bore: units.Length(bore)}, OuterBore: units.Length(outerBore)},
			Depth: units.Length(depth), Rod: units.Length(rod),
			Cartridge: geometry.Tube{Outer: units.Length(cartridge),
				Bore: units.Length(cartridgeBore)}, Length: units.Length(length), Closed: closed,
		})
		if err != nil {
			return
		}
		s := leg.FillSpec()
		if !(s.Column > 0 && s.Interior > 0 && leg.Area() > 0) {
			t.Errorf("accepted, but column %v, interior %v, area %v", s.Column, s.Interior, leg.Area())
		}
		if d := leg.Drop(units.Length(travel)); !(d > 0) || math.IsInf(float64(d), 0) {
			t.Errorf("extended, the level drops by %v", d)
		}
	})
}

// A fill that goes warm keeps its gas, p·V/T, in the room its oil leaves, and the oil told for a ratio makes it.
func TestSealed(t *testing.T) {
	fill, err := oil.NewFill(bath)
	if err != nil {
		t.Fatal(err)
	}
	fluid := newFluid(t, sheet(15*cSt, 3.4*cSt))
	cold, hot := units.Celsius(20), units.Celsius(60)
	amount := func(to units.Temperature) float64 {
		s := fill.Sealed(gap, fluid, cold, to)
		if want := fill.Warmed(fluid, cold, to).Residual(); s.Residual != want {
			t.Errorf("at %v %v of gas at full travel, want %v", to, s.Residual, want)
		}
		return s.Pressure.In(units.Pascal) * float64(newGap(t, s).Volume(0)) / to.Kelvin()
	}
	if a, b := amount(cold), amount(hot); !(math.Abs(b/a-1) <= 1e-12) {
		t.Errorf("the amount of gas goes by %g", b/a)
	}
	for _, to := range []units.Temperature{{}, units.Kelvin(-5), units.Kelvin(math.NaN())} {
		if _, err := oil.NewAirGap(fill.Sealed(gap, fluid, cold, to)); err == nil {
			t.Errorf("a gap at %v", to)
		}
	}
	for _, ratio := range []float64{2, 5, oil.LockRatio} {
		full, err := fill.With(fill.Metal(), fill.OilFor(ratio, gap.Area, gap.Travel))
		if err != nil {
			t.Fatal(err)
		}
		if got := newGap(t, full.Sealed(gap, fluid, cold, cold)).CompressionRatio(); !(math.Abs(got/ratio-1) <= 1e-9) {
			t.Errorf("the oil for ratio %v makes %v", ratio, got)
		}
		if back := fill.OilAt(fill.LevelOf(full.Volume())); !(math.Abs(float64(back-full.Volume())) <= 1e-15) {
			t.Errorf("%v of oil come back as %v", full.Volume(), back)
		}
	}
}
