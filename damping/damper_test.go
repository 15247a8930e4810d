package damping

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/units"
)

var (
	// Warm fork oil, near 15 mm²/s.
	warm = Oil{Density: 850, Viscosity: 12.8 * units.MillipascalSecond}
	cold = Oil{Density: 885, Viscosity: 90 * units.MillipascalSecond}
)

// mid is a full-size cartridge of invented, plausible parts: check plates and shim
// stacks on piston and base, each beside a bleed.
func mid(o Oil) CartridgeSpec {
	face := func(dish units.Length) Valve {
		s := recordedStacks["face pair on a taper"]
		s.Clamp, s.PortInner, s.PortOuter, s.Seat = 10*mm, 13*mm, 21*mm, 22*mm
		s.Shims = nil
		for range 6 {
			s.Shims = append(s.Shims, Shim{Diameter: 24 * mm, Thickness: 0.15 * mm})
		}
		for _, d := range []units.Length{21, 18, 15, 12} {
			s.Shims = append(s.Shims, Shim{Diameter: d * mm, Thickness: 0.2 * mm})
		}
		s.Dish, s.Land = dish, 1*mm
		return must(NewShimStack(s))
	}
	bleed := func(area units.Area) Valve {
		return must(NewOrifice(OrificeSpec{Area: area * units.SquareMillimeter, Discharge: 0.7}))
	}
	refill := must(NewCheck(CheckSpec{Area: 60 * units.SquareMillimeter, Discharge: 0.7, FullOpen: 0.2 * units.Bar}))
	return CartridgeSpec{
		Bore: 25 * mm, Rod: 12 * mm, Oil: o, Reservoir: units.Absolute(2 * units.Bar),
		Piston: Parallel(refill, Reverse(face(0)), bleed(1.2)),
		Base:   Parallel(face(0.05*mm), Reverse(refill), bleed(1.5)),
	}
}

// Specifications compare, valve by valve.
func TestEqualCartridges(t *testing.T) {
	if !cmp.Equal(mid(warm), mid(warm)) || cmp.Equal(mid(warm), mid(cold)) || cmp.Equal(mid(warm), CartridgeSpec{}) {
		t.Error("equal cartridges differ, or others do not")
	}
}

// dampers of every kind, with how the force behaves.
func dampers() map[string]struct {
	d             Damper
	odd, monotone bool
} {
	pipe := CartridgeSpec{Bore: 25 * mm, Rod: 10 * mm, Oil: warm, Reservoir: units.Absolute(40 * units.Bar),
		Piston: must(NewPipe(PipeSpec{Diameter: 8 * mm, Length: 40 * mm, Entrance: Entrance}))}
	tight := mid(warm)
	tight.Reservoir = units.Absolute(0.2 * units.Bar)
	tight.Piston = must(NewOrifice(OrificeSpec{Area: 4 * units.SquareMillimeter, Discharge: Discharge}))
	friction := must(NewFriction(FrictionSpec{Breakaway: 60, Kinetic: 40, Stribeck: 0.005, Viscous: 20, Creep: 0.0002}))
	table := must(NewTable(TableSpec{Points: []TablePoint{{-1, -760}, {-0.5, -480}, {-0.1, -190}, {0.1, 90}, {0.5, 190},
		{1, 310}, {3, 650}}}))
	shims := must(NewCartridge(mid(warm)))
	type kind = struct {
		d             Damper
		odd, monotone bool
	}
	return map[string]kind{
		"linear":                       {Linear(800), true, true},
		"cartridge of a pipe, no base": {must(NewCartridge(pipe)), false, true},
		"cartridge of shims":           {shims, false, true},
		"cartridge of shims, cold":     {must(shims.With(cold)), false, true},
		"cartridge that cavitates":     {must(NewCartridge(tight)), false, true},
		"table":                        {table, false, true},
		"friction":                     {friction, true, false},
		"oil and friction":             {Sum(shims, nil, Sum(friction)), false, false},
		"nothing":                      {Sum(), true, true},
		"zero values":                  {Sum(Friction{}, Table{}), true, true},
		"cartridge as a table of 401":  {must(Tabulate(shims, grid(4, 401))), false, true},
	}
}

func grid(top float64, n int) []units.Speed {
	speeds := make([]units.Speed, n)
	for i := range speeds {
		speeds[i] = units.Speed(top * (2*float64(i)/float64(n-1) - 1))
	}
	return speeds
}

func TestContract(t *testing.T) {
	for name, c := range dampers() {
		t.Run(name, func(t *testing.T) {
			if f := c.d.Force(0); f != 0 {
				t.Errorf("at rest %v", f)
			}
			last := math.Inf(-1)
			for i := -600; i <= 600; i++ {
				// Even in log: 1e-8 to 20 m/s either way.
				v := math.Copysign(20*math.Pow(10, (math.Abs(float64(i))-600)/65), float64(i))
				if i == 0 {
					v = 0
				}
				f, k := float64(c.d.Force(units.Speed(v))), float64(c.d.Coefficient(units.Speed(v)))
				finite(t, "force and coefficient", v, f, k)
				if f*v < 0 {
					t.Errorf("at %v m/s %v N drives", v, f)
				}
				if c.monotone && f < last-1e-9*math.Abs(last) {
					t.Errorf("at %v m/s the force falls from %v N to %v N", v, last, f)
				}
				if back := float64(c.d.Force(units.Speed(-v))); c.odd && !(math.Abs(f+back) <= 1e-12*math.Abs(f)) {
					t.Errorf("at ±%v m/s %v N and %v N", v, f, back)
				}
				if math.Abs(v) >= 1e-6 && !(math.Abs(k*v-f) <= 1e-12*math.Abs(f)) {
					t.Errorf("at %v m/s coefficient·speed = %v N, force %v N", v, k*v, f)
				}
				last = f
			}
			for _, v := range []units.Speed{0, 0.003, -0.4, 3} {
				if n := testing.AllocsPerRun(10,
					func() { sink += c.d.Force(v) + units.Force(c.d.Coefficient(v)) }); n != 0 {
					t.Errorf("%v allocations at %v", n, v)
				}
			}
		})
	}
}

var sink units.Force

// Compression and rebound of the same valve differ by the areas they work on.
func TestAreas(t *testing.T) {
	// A pipe is linear, so that the forces are c·A² without a base valve.
	pipe := must(NewPipe(PipeSpec{Diameter: 5 * mm, Length: 50 * mm}))
	base := must(NewPipe(PipeSpec{Diameter: 4 * mm, Length: 30 * mm}))
	c := must(NewCartridge(CartridgeSpec{Bore: 20 * mm, Rod: 10 * mm, Oil: warm,
		Reservoir: units.Absolute(40 * units.Bar), Piston: pipe, Base: base}))
	ring, rod := math.Pi/4*(0.02*0.02-0.01*0.01), math.Pi/4*0.01*0.01
	want := float64(warm.Viscosity) * 128 / math.Pi * (0.05/math.Pow(0.005, 4)*ring*ring +
		0.03/math.Pow(0.004, 4)*rod*rod)
	near(t, "compression", float64(c.Coefficient(0.1)), want, 1e-9*want)
	near(t, "rebound", float64(c.Coefficient(-0.1)), want, 1e-9*want)
}

func TestCavitation(t *testing.T) {
	spec := CartridgeSpec{Bore: 25 * mm, Rod: 2 * mm, Oil: warm, Reservoir: units.Absolute(1 * units.Bar),
		Piston: must(NewOrifice(OrificeSpec{Area: 1 * units.SquareMillimeter, Discharge: Discharge}))}
	c := must(NewCartridge(spec))
	// 1 bar on a 25 mm piston: 49 N, less its rod. However fast, there is no more.
	limit := 1e5 * math.Pi / 4 * (0.025*0.025 - 0.002*0.002)
	for _, v := range []units.Speed{0.5, 5, 20} {
		if !c.Cavitates(v) {
			t.Errorf("does not cavitate at %v", v)
		}
		near(t, "force without a base valve", float64(c.Force(v)), limit, 1e-9*limit)
	}
	if c.Cavitates(0.005) || c.Cavitates(-20) {
		t.Error("cavitates where nothing tears off")
	}
	// A base valve that resists lets the piston do so too. The room of the rod is at vacuum
	// from some speed on, with no step in force.
	spec.Rod = 12 * mm
	spec.Base = must(NewOrifice(OrificeSpec{Area: 1.5 * units.SquareMillimeter, Discharge: Discharge}))
	c = must(NewCartridge(spec))
	var edge units.Speed
	for v := units.Speed(0.001); v < 20; v *= 1.001 {
		if c.Cavitates(v) {
			edge = v
			break
		}
	}
	if edge == 0 {
		t.Fatal("never cavitates")
	}
	before, after := float64(c.Force(edge/1.001)), float64(c.Force(edge))
	if after < before || after > 1.01*before {
		t.Errorf("force steps from %v to %v N where the oil tears off", before, after)
	}
	// Volume balance at 2 m/s: what leaves by base and piston is what the piston drives.
	const v = 2
	rod, area := float64(c.rod), float64(c.area+c.rod)
	room := (float64(c.Force(v)) + c.reservoir*rod) / area
	out := float64(spec.Base.Flow(units.Pressure(room-c.reservoir), warm) +
		spec.Piston.Flow(units.Pressure(room), warm))
	near(t, "volume balance", out, area*v, 1e-9*area*v)
	// A starved refill stops resisting at the reservoir's pressure.
	if !c.Cavitates(-5) {
		t.Error("does not cavitate in fast rebound")
	}
	want := -(1e5*rod + float64(spec.Piston.Drop(swept(c.area, 5), warm))*float64(c.area))
	near(t, "starved rebound", float64(c.Force(-5)), want, 1e-9*math.Abs(want))
}

// Laminar bleeds follow viscosity, orifices and shims density; published fade of dampers lies between 0.2 % and 2 %
// per kelvin (secondary literature), which is the room between these two. 20 °C to 60 °C of a fork oil.
func TestFade(t *testing.T) {
	cool := Oil{Density: 855, Viscosity: 26 * units.MillipascalSecond}
	hot := Oil{Density: 829, Viscosity: 8.5 * units.MillipascalSecond}
	fade := func(v Valve) float64 {
		c := must(NewCartridge(CartridgeSpec{Bore: 25 * mm, Rod: 10 * mm, Oil: cool,
			Reservoir: units.Absolute(40 * units.Bar), Piston: v}))
		return float64(must(c.With(hot)).Force(0.2)/c.Force(0.2)) - 1
	}
	near(t, "pipe", fade(must(NewPipe(PipeSpec{Diameter: 4 * mm, Length: 50 * mm}))), 8.5/26-1, 1e-9)
	near(t, "wide orifice", fade(must(NewOrifice(OrificeSpec{Area: 6 * units.SquareMillimeter, Discharge: Discharge}))),
		829.0/855-1, 0.01)
	stack := must(NewShimStack(recordedStacks["taper of five"]))
	shims := fade(Parallel(stack, Reverse(stack)))
	// q ∝ p·√(p/ρ) while the gap is narrow, so that p ∝ ρ^⅓.
	near(t, "shims", shims, math.Cbrt(829.0/855)-1, 0.005)
	c := must(NewCartridge(mid(cool)))
	for _, v := range []units.Speed{-0.1, -0.5} {
		perKelvin := -100 * (float64(must(c.With(hot)).Force(v)/c.Force(v)) - 1) / 40
		if perKelvin < 0.2 || perKelvin > 2 {
			t.Errorf("a cartridge of shims fades by %.2f %% per kelvin at %v, want 0.2 to 2", perKelvin, v)
		}
	}
}

// Without a land the gap under a narrowly lifted shim obeys p = ρ/2·(q/(C·π·d·y))² with y = c·p.
func TestShimStack(t *testing.T) {
	spec := recordedStacks["taper of five"]
	spec.Ports = 1000 * units.SquareMillimeter
	s := must(NewShimStack(spec))
	const p = 2e3
	gap := math.Pi * 0.028 * s.compliance * p
	want := 0.7 * gap / math.Hypot(1, gap/1e-3) * math.Sqrt(2*p/float64(warm.Density))
	near(t, "flow of the gap", float64(s.Flow(p, warm)), want, 1e-9*want)

	spec.Dish = 0.1 * mm
	dished := must(NewShimStack(spec))
	crack := dished.Crack()
	near(t, "crack", float64(crack)*s.compliance, 1e-4, 1e-15)
	if dished.Flow(crack, warm) != 0 || dished.Flow(crack*1.01, warm) <= 0 || dished.Flow(-crack*2, warm) != 0 {
		t.Error("a dished stack does not open at its cracking pressure, or opens the other way")
	}
	near(t, "lift", float64(dished.Lift(crack*2)), 1e-4, 1e-12)
	if p := dished.Drop(-1e-6, warm); !math.IsInf(float64(p), -1) {
		t.Errorf("the wrong way at %v", p)
	}

	spec.Land = 1 * mm
	wet := must(NewShimStack(spec))
	if thin, thick := wet.Flow(crack*1.2, warm), wet.Flow(crack*1.2, cold); thick >= thin ||
		thin >= dished.Flow(crack*1.2, warm) {
		t.Error("a land does not hold oil back, or cold oil no more than warm")
	}
	// Stiffness: between the face alone and all shims glued to its diameter.
	face := recordedStacks["taper of five"]
	face.Shims = face.Shims[:1]
	alone := must(NewShimStack(face)).compliance
	if s.compliance >= alone || s.compliance <= alone/25 {
		t.Errorf("compliance %v with backing, %v without", s.compliance, alone)
	}
}

func TestTable(t *testing.T) {
	points := []TablePoint{{-0.5, -300}, {0.1, 90}, {0.5, 190}, {3, 650}}
	d := must(NewTable(TableSpec{Points: points}))
	for _, p := range points {
		near(t, "at a point", float64(d.Force(p.Speed)), float64(p.Force), 1e-9)
	}
	if first, last := d.Range(); first != -0.5 || last != 3 {
		t.Errorf("Range() = %v, %v", first, last)
	}
	slope := float64(d.Force(5)-d.Force(4)) / 1
	near(t, "straight beyond the end", float64(d.Force(4)-d.Force(3)), slope, 1e-9)
	points[1].Force = 1e4
	near(t, "copied", float64(d.Force(0.1)), 90, 1e-9)

	half := must(NewTable(TableSpec{Points: []TablePoint{{-1, -50}, {-0.5, -20}}}))
	if first, last := half.Range(); first != -1 || last != 0 {
		t.Errorf("a table of rebound has the range %v, %v", first, last)
	}
}

func TestFriction(t *testing.T) {
	f := must(NewFriction(FrictionSpec{Breakaway: 100, Kinetic: 70, Stribeck: 0.005, Creep: 0.0001}))
	near(t, "just sliding", float64(f.Force(0.0004)), 100, 1)
	near(t, "at the Stribeck speed", float64(f.Force(0.005)), 70+30/math.E, 1e-6)
	near(t, "fast", float64(f.Force(1)), 70, 1e-9)
	near(t, "coefficient at rest", float64(f.Coefficient(0)), 100/0.0001, 0.001*100/0.0001)
}

// Estimates for pistons with μ 0.1 to 0.2 and 1 mm to 1.5 mm pressed (from memory): bicycle, 28
// mm: 8 N to 15 N at 6 bar, 25 N to 45 N at 20 bar; motocross, 34 mm, 10 bar: 15 N to 30 N. They are
// the middle of what those coefficients span.
func TestSeal(t *testing.T) {
	for _, tt := range []struct {
		d        units.Length
		p        units.Pressure
		from, to float64
	}{{28 * mm, 6 * units.Bar, 8, 15}, {28 * mm, 20 * units.Bar, 25, 45}, {34 * mm, 10 * units.Bar, 15, 30}} {
		low := must(NewSeal(SealSpec{Diameter: tt.d, Width: 1 * mm, Friction: 0.1})).Force(tt.p)
		high := must(NewSeal(SealSpec{Diameter: tt.d, Width: 1.5 * mm, Friction: 0.2})).Force(tt.p)
		if float64(low) > tt.from || float64(high) < tt.to {
			t.Errorf("%v at %v: %v to %v, want %v N to %v N within", tt.d, tt.p, low, high, tt.from, tt.to)
		}
	}
	s := must(NewSeal(SealSpec{Diameter: 30 * mm, Width: 1 * mm, Friction: 0.15, Fitted: 8}))
	near(t, "without pressure", float64(s.Force(0)), 8, 0)
	near(t, "either sign", float64(s.Force(-1e6)), 8+0.15*math.Pi*0.03*0.001*1e6, 1e-9)
}

// Statics of the legs apart from the code: sums of forces and of moments about the lower bush, at several travels; the
// braking told to be lightest unloads the lower bush and no other is lighter.
func TestBushes(t *testing.T) {
	const rake, spacing, overhang, radius = 24 * math.Pi / 180, 0.175, 0.375, 0.3
	b := must(NewBushes(BushesSpec{Spacing: spacing, Overhang: overhang, Friction: 0.06, Rake: rake, Wheel: radius,
		Travel: 120 * mm}))
	sin, cos := math.Sincos(rake)
	for _, x := range []float64{0, 0.035, 0.12} {
		const wheel, braking = 2000, 900
		lower, upper := b.Reactions(units.Length(x), wheel, braking)
		near(t, "moment", float64(upper)*(spacing+x), braking*((overhang-x)*cos+radius)-wheel*(overhang-x)*sin, 1e-9)
		near(t, "force", float64(lower-upper), braking*cos-wheel*sin, 1e-9)
		near(t, "friction", float64(b.Force(units.Length(x), wheel, braking)),
			0.06*(math.Abs(float64(lower))+math.Abs(float64(upper))), 1e-9)
		best := b.Lightest(wheel)
		if lower, _ := b.Reactions(units.Length(x), wheel, best); !(math.Abs(float64(lower)) <= 1e-9) {
			t.Errorf("the lower bush carries %v there", lower)
		}
		for share := 0.0; share < 1; share += 0.01 {
			if b.Force(units.Length(x), wheel, units.Force(share*wheel)) < b.Force(units.Length(x), wheel, best) {
				t.Errorf("less friction at %v of the wheel load", share)
			}
		}
	}
}

// Friction F_c takes 4·F_c·X out of a cycle of amplitude X, a damper c takes π·c·v·X at peak speed v = ω·X: 21 N
// less ask a damper of 500 N·s/m at 0.5 m/s for 4·21/(π·0.5·500) more. Both energies are summed over a cycle, too.
func TestReboundFriction(t *testing.T) {
	const mmRate = units.NewtonPerMillimeter
	spec := ReboundSpec{OldRate: 10 * mmRate, NewRate: 10 * mmRate, OldForce: 1000, NewForce: 1000, OldFriction: 84,
		NewFriction: 63, OldDamping: 500, Speed: 0.5, PerClick: CommonClick}
	r := must(NewRebound(spec))
	near(t, "ratio", r.Ratio, 1+4*21/(math.Pi*0.5*500), 1e-12)
	near(t, "return", r.Return, 937.0/916, 1e-12)
	spec.OldDamping = 0
	near(t, "ratio, damper not known", must(NewRebound(spec)).Ratio, 1, 0)
	cycle := func(force func(v float64) float64) (energy float64) {
		const n, amplitude, peak = 100_000, 0.02, 0.5
		for i := range n {
			phase := 2 * math.Pi * (float64(i) + 0.5) / n
			v := peak * math.Cos(phase)
			energy += force(v) * v * (2 * math.Pi * amplitude / peak) / n
		}
		return energy
	}
	friction := cycle(func(v float64) float64 { return math.Copysign(21, v) })
	damper := cycle(func(v float64) float64 { return 500 * (r.Ratio - 1) * v })
	near(t, "energy of a cycle", damper, friction, 1e-6*friction)
	for _, bad := range []ReboundSpec{
		{OldRate: 10 * mmRate, NewRate: 10 * mmRate, OldForce: 100, NewForce: 100, OldFriction: 120, PerClick: 0.03},
		{OldRate: 10 * mmRate, NewRate: 10 * mmRate, OldForce: 100, NewForce: 100, OldDamping: 500, PerClick: 0.03},
	} {
		if _, err := NewRebound(bad); err == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}

func TestRebound(t *testing.T) {
	const mmRate = units.NewtonPerMillimeter
	for _, tt := range []struct {
		name             string
		k1, k2           units.Stiffness
		f1, f2           units.Force
		lo, hi, from, to float64
		advice           string
	}{
		// Common practice, no source: 4 % to 5 % of rate is one to two clicks.
		{"4.5 % stiffer", 10 * mmRate, 10.45 * mmRate, 1000, 1045, 1.0223, 1.045, 0.745, 1.489,
			"rebound 1 click firmer, and test; stay 2 clicks off closed"},
		{"15 % stiffer", 10 * mmRate, 11.5 * mmRate, 1000, 1150, 1.0724, 1.15, 2.364, 4.728,
			"rebound 2 to 5 clicks firmer, and test; stay 2 clicks off closed"},
		{"softer", 10 * mmRate, 9 * mmRate, 1000, 880, 0.88, 0.9487, -4.325, -1.782,
			"rebound 2 to 4 clicks softer, and test"},
		{"a little softer deep", 10 * mmRate, 10 * mmRate, 1000, 945, 0.945, 1, -1.914, 0,
			"rebound up to 2 clicks softer, and test"},
		{"a little firmer deep", 10 * mmRate, 10 * mmRate, 1000, 1060, 1, 1.06, 0, 1.971,
			"rebound up to 2 clicks firmer, and test; stay 2 clicks off closed"},
		{"the same", 10 * mmRate, 10 * mmRate, 1000, 1010, 1, 1.01, 0, 0.337, "leave rebound as it is, and test"},
		{"firmer about sag, softer deep", 10 * mmRate, 12 * mmRate, 1000, 880, 0.88, 1.0954, -4.325, 3.084,
			"leave rebound as it is to begin with; the range to test is 4 clicks softer to 3 firmer"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := must(NewRebound(ReboundSpec{OldRate: tt.k1, NewRate: tt.k2, OldForce: tt.f1, NewForce: tt.f2,
				PerClick: CommonClick}))
			lo, hi := r.Factors()
			near(t, "lo", lo, tt.lo, 5e-5)
			near(t, "hi", hi, tt.hi, 5e-5)
			from, to := r.Clicks()
			near(t, "clicks from", from, tt.from, 5e-4)
			near(t, "clicks to", to, tt.to, 5e-4)
			if got := r.Advice(); got != tt.advice {
				t.Errorf("advice %q", got)
			}
		})
	}
}

func TestHeat(t *testing.T) {
	// c·v̂²/2 for a linear damper; 4·F·a·f for dry friction.
	p := must(MeanPower(Linear(800), 50*mm, 2))
	near(t, "linear", float64(p), 800*math.Pow(2*math.Pi*0.05*2, 2)/2, 1e-9)
	dry := must(NewFriction(FrictionSpec{Breakaway: 50, Kinetic: 50, Stribeck: 0.001, Creep: 0.0001}))
	near(t, "friction", float64(must(MeanPower(dry, 50*mm, 2))), 4*50*0.05*2, 0.001*20)
	w := must(NewWarming(WarmingSpec{Oil: 0.4, OilHeat: OilHeat, Tube: 1.2, TubeHeat: 900, Loss: 2.5}))
	tau := w.TimeConstant()
	near(t, "time constant", float64(tau), (0.4*1900+1.2*900)/2.5, 1e-9)
	near(t, "steady", float64(w.Steady(80)), 32, 1e-9)
	near(t, "after one time constant", float64(w.Rise(80, tau)), 32*(1-1/math.E), 1e-9)
	// Early the capacity alone counts.
	near(t, "early", float64(w.Rise(80, 1)), 80/(0.4*1900+1.2*900), 1e-4)
}

// The branches' shares are the whole force, none pushes, and each is named by its place in the network.
func TestShares(t *testing.T) {
	for _, o := range []Oil{warm, cold} {
		c := must(NewCartridge(mid(o)))
		for _, v := range grid(2, 8) {
			sum := 0.0
			piston, base := c.Shares(v)
			for _, f := range append(piston, base...) {
				if f*units.Force(v) < 0 {
					t.Errorf("at %v a share of %v", v, f)
				}
				sum += float64(f)
			}
			near(t, "sum of the shares", sum, float64(c.Force(v)), 1e-9*math.Abs(float64(c.Force(v))))
			if refill := v > 0; len(piston) != 3 || len(base) != 3 || (piston[0] != 0) != refill ||
				(piston[1] != 0) == refill {
				t.Errorf("at %v piston %v, base %v", v, piston, base)
			}
		}
	}
}

// Refill drives against the reservoir: Δp of the check = p at v, so v ∝ √p once it is fully open.
func TestCavitationSpeed(t *testing.T) {
	c := must(NewCartridge(mid(warm)))
	onset := c.Cavitation()
	in, out := onset.Compression, onset.Rebound
	for _, v := range []units.Speed{in, -out} {
		if c.Cavitates(v*0.999) || !c.Cavitates(v) {
			t.Errorf("cavitates from %v", v)
		}
	}
	low := must(c.WithReservoir(units.Absolute(2.0 / 3 * units.Bar)))
	third := low.Cavitation().Rebound
	near(t, "speed ratio at a third of the pressure", float64(out/third), math.Sqrt(3), 0.01)
	s := low.Spec()
	s.Base, s.Reservoir = nil, units.Absolute(40*units.Bar)
	if on := must(NewCartridge(s)).Cavitation(); !math.IsInf(float64(on.Rebound), 1) ||
		math.IsInf(float64(on.Compression), 1) {
		t.Errorf("without a base valve from %v and %v", in, out)
	}
}

func TestSpeedAt(t *testing.T) {
	for _, d := range []Damper{Linear(800), must(NewCartridge(mid(warm)))} {
		for _, v := range []units.Speed{-3, -0.01, 0, 1e-4, 0.4, 20} {
			got, err := SpeedAt(d, d.Force(v))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "speed back", float64(got), float64(v), 1e-9*math.Abs(float64(v)))
		}
	}
}

func TestSettings(t *testing.T) {
	// Each click closes by a tenth: worth 1/0.9 − 1 anywhere between the ends, and at the ends.
	s := must(NewSettings(20, func(clicks int) (Damper, error) {
		return Linear(1000 * math.Pow(0.9, float64(clicks))), nil
	}))
	for _, clicks := range []int{0, 1, 10, 20} {
		near(t, "a click", must(s.PerClick(clicks, -0.1)), 1/0.9-1, 1e-12)
	}
	for _, tt := range []struct {
		factor  float64
		setting int
		reached float64
	}{{1, 10, 1}, {1.12, 9, 1 / 0.9}, {1.2, 8, 1 / 0.81}, {0.5, 17, math.Pow(0.9, 7)}, {9, 0, math.Pow(0.9, -10)}} {
		setting, reached, err := s.Nearest(10, 0.1, tt.factor)
		if setting != tt.setting || !(math.Abs(reached-tt.reached) <= 1e-12) || err != nil {
			t.Errorf("%v: %d clicks out give %v, %v", tt.factor, setting, reached, err)
		}
	}
}
