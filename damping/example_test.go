package damping_test

import (
	"fmt"
	"log"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	mm2 = units.SquareMillimeter
)

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

// A cartridge with a shim stack for rebound, a check valve for compression and a bleed past both, warm and cold.
func ExampleCartridge() {
	stack := must(damping.NewShimStack(damping.ShimStackSpec{
		Shims: []damping.Shim{
			{Diameter: 24 * mm, Thickness: 0.15 * mm}, {Diameter: 24 * mm, Thickness: 0.15 * mm},
			{Diameter: 24 * mm, Thickness: 0.15 * mm}, {Diameter: 24 * mm, Thickness: 0.15 * mm},
			{Diameter: 20 * mm, Thickness: 0.20 * mm}, {Diameter: 16 * mm, Thickness: 0.20 * mm},
		},
		Clamp: 10 * mm, PortInner: 13 * mm, PortOuter: 21 * mm, Seat: 22 * mm, Land: 1 * mm,
		Ports: 80 * mm2, Discharge: 0.7, Young: 206e3 * units.Megapascal, Poisson: 0.3,
	}))
	check := must(damping.NewCheck(damping.CheckSpec{Area: 60 * mm2, Discharge: 0.7, FullOpen: 0.2 * units.Bar}))
	bleed := must(damping.NewOrifice(damping.OrificeSpec{Area: 1.2 * mm2, Discharge: 0.7}))
	base := must(damping.NewOrifice(damping.OrificeSpec{Area: 12 * mm2, Discharge: 0.7}))

	warm := damping.Kinematic(850, 15*units.Centistokes)
	d := must(damping.NewCartridge(damping.CartridgeSpec{
		Bore: 25 * mm, Rod: 12 * mm, Oil: warm, Reservoir: units.Absolute(2 * units.Bar),
		Piston: damping.Parallel(check, damping.Reverse(stack), bleed), Base: base,
	}))
	cold := must(d.With(damping.Kinematic(880, 100*units.Centistokes)))
	for _, v := range []units.Speed{-1, -0.1, 0.1, 1} {
		fmt.Printf("%4.1f m/s: %4.0f N warm, %4.0f N cold\n", float64(v), float64(d.Force(v)), float64(cold.Force(v)))
	}
	// Output:
	// -1.0 m/s: -288 N warm, -347 N cold
	// -0.1 m/s:  -86 N warm, -131 N cold
	//  0.1 m/s:    2 N warm,    2 N cold
	//  1.0 m/s:   21 N warm,   22 N cold
}

func ExamplePlate() {
	shim := must(damping.NewPlate(damping.PlateSpec{
		Outer: 30 * mm, Inner: 10 * mm, Thickness: 0.2 * mm,
		Young: 206e3 * units.Megapascal, Poisson: 0.3, InnerEdge: damping.Clamped,
	}))
	load := damping.Load{Pressure: 10 * units.Kilopascal, From: 16 * mm, To: 26 * mm}
	fmt.Printf("lift %.1f µm at the rim, %.0f MPa at the clamp\n",
		1e3*shim.Deflection(load, 30*mm).In(mm), shim.Stress(load, 10*mm).In(units.Megapascal))
	// Output:
	// lift 42.7 µm at the rim, 64 MPa at the clamp
}

func ExampleAdjuster() {
	a := must(damping.NewAdjuster(damping.AdjusterSpec{Clicks: 20, PerClick: 0.1 * mm2, Discharge: 0.7}))
	oil := damping.Kinematic(850, 15*units.Centistokes)
	for _, clicks := range []int{4, 8, 16} {
		bleed := must(a.At(clicks))
		fmt.Printf("%2d clicks: %.1f bar at 20 mL/s\n", clicks,
			bleed.Drop(20*units.MilliliterPerSecond, oil).In(units.Bar))
	}
	_, err := a.At(21)
	fmt.Println(err)
	// Output:
	// 4 clicks: 21.9 bar at 20 mL/s
	//  8 clicks: 5.5 bar at 20 mL/s
	// 16 clicks: 1.4 bar at 20 mL/s
	// clicks = 21: want 0 to 20, counted from closed
}

// A bleed beside a blow-off valve: steep at first, then flat.
func ExampleParallel() {
	bleed := must(damping.NewPipe(damping.PipeSpec{Diameter: 2 * mm, Length: 12 * mm, Entrance: damping.Entrance}))
	blowOff := must(damping.NewCheck(damping.CheckSpec{Area: 20 * mm2, Discharge: 0.62, Crack: 4 * units.Bar,
		FullOpen: 12 * units.Bar}))
	oil := damping.Oil{Density: 850, Viscosity: 12.8 * units.MillipascalSecond}
	network := damping.Parallel(bleed, blowOff)
	for _, q := range []units.Flow{10, 50, 200} {
		q *= units.MilliliterPerSecond
		p := network.Drop(q, oil)
		fmt.Printf("%.0f: %.2f bar, Reynolds number of the bleed %.0f\n", q, p.In(units.Bar),
			bleed.Reynolds(bleed.Flow(p, oil), oil))
	}
	// Output:
	// 10 mL/s: 0.14 bar, Reynolds number of the bleed 423
	// 50 mL/s: 2.67 bar, Reynolds number of the bleed 2114
	// 200 mL/s: 6.10 bar, Reynolds number of the bleed 3236
}

// A damper from a dynamometer, and its damping ratio about sag.
func ExampleTable() {
	d := must(damping.NewTable(damping.TableSpec{Points: []damping.TablePoint{
		{Speed: -1, Force: -760}, {Speed: -0.5, Force: -480}, {Speed: -0.1, Force: -190},
		{Speed: 0.1, Force: 90}, {Speed: 0.5, Force: 190}, {Speed: 1, Force: 310},
	}}))
	body := must(damping.NewOscillator(damping.OscillatorSpec{Stiffness: 11 * units.NewtonPerMillimeter,
		Mass: 62.5 * units.Kilogram}))
	first, last := d.Range()
	fmt.Printf("measured from %.0f to %.0f\n", first, last)
	for _, v := range []units.Speed{0.1, 0.5, 1} {
		fmt.Printf("%.1f m/s: ζ %.2f in compression, %.2f in rebound\n", float64(v), body.Ratio(d, v),
			body.Ratio(d, -v))
	}
	// Output:
	// measured from -1 m/s to 1 m/s
	// 0.1 m/s: ζ 0.54 in compression, 1.15 in rebound
	// 0.5 m/s: ζ 0.23 in compression, 0.58 in rebound
	// 1.0 m/s: ζ 0.19 in compression, 0.46 in rebound
}

// A fork goes from 9.8 N/mm to 10.4 N/mm.
func ExampleRebound() {
	r := must(damping.NewRebound(damping.ReboundSpec{
		OldRate: 9.8 * units.NewtonPerMillimeter, NewRate: 10.4 * units.NewtonPerMillimeter,
		OldForce: 2100 * units.Newton, NewForce: 2215 * units.Newton, PerClick: damping.CommonClick,
	}))
	lo, hi := r.Factors()
	fmt.Printf("%.2f to %.2f times the damping\n%s\n", lo, hi, r.Advice())
	// Output:
	// 1.03 to 1.05 times the damping
	// rebound 1 to 2 clicks firmer, and test; stay 2 clicks off closed
}

func ExampleBushes() {
	b := must(damping.NewBushes(damping.BushesSpec{
		Spacing: 175 * mm, Overhang: 375 * mm, Friction: 0.06,
		Rake: 24 * units.Degree, Wheel: 300 * mm, Travel: 120 * mm,
	}))
	wheel := 1390 * units.Newton
	fmt.Printf("coasting %.0f N, braking hard %.0f N, least at %.0f N of braking\n",
		float64(b.Force(35*mm, wheel, 0)), float64(b.Force(60*mm, wheel+730, 1650)), float64(b.Lightest(wheel)))
	// Output:
	// coasting 144 N, braking hard 395 N, least at 388 N of braking
}

func ExampleWarming() {
	leg := must(damping.NewWarming(damping.WarmingSpec{Oil: 0.4, OilHeat: damping.OilHeat, Tube: 1.2, TubeHeat: 900,
		Loss: 2.5}))
	power := must(damping.MeanPower(damping.Linear(500), 30*mm, 3))
	fmt.Printf("%.0f W: %.0f K after 10 min, %.0f K at last\n", float64(power), float64(leg.Rise(power, 600)),
		float64(leg.Steady(power)))
	// Output:
	// 80 W: 18 K after 10 min, 32 K at last
}

// What a click of this needle is worth, and the setting that asks 10 % more of rebound.
func ExampleSettings() {
	needle := must(damping.NewAdjuster(damping.AdjusterSpec{Clicks: 20, PerClick: 0.1 * mm2, Closed: 0.4 * mm2,
		Discharge: 0.7}))
	settings := must(damping.NewSettings(20, func(clicks int) (damping.Damper, error) {
		bleed, err := needle.At(clicks)
		if err != nil {
			return nil, err
		}
		return damping.NewCartridge(damping.CartridgeSpec{Bore: 24 * mm, Rod: 12 * mm, Piston: bleed,
			Reservoir: units.Absolute(3 * units.Bar), Oil: damping.Kinematic(850, 15*units.Centistokes)})
	}))
	out, reached, err := settings.Nearest(10, -0.1, 1.10)
	fmt.Printf("10 out a click is worth %.0f %%; %d out gives %.2f times the force, %v\n",
		100*must(settings.PerClick(10, -0.1)), out, reached, err)
	stiffer := must(damping.NewRebound(damping.ReboundSpec{OldRate: 9000, NewRate: 11000, OldForce: 1900, NewForce: 2600,
		PerClick: damping.CommonClick}))
	for _, s := range must(settings.Span(10, -0.1, stiffer)) {
		fmt.Printf("%.2f times: %d out\n", s.Wanted, s.Clicks)
	}
	// Output:
	// 10 out a click is worth 15 %; 9 out gives 1.16 times the force, <nil>
	// 1.11 times: 9 out
	// 1.37 times: 8 out
}

// Where a shim stack leaves what is computed of it, and how the damper fades.
func ExampleCartridge_Reaching() {
	stack := must(damping.NewShimStack(damping.ShimStackSpec{
		Shims: []damping.Shim{{Diameter: 21 * mm, Thickness: 0.2 * mm}, {Diameter: 18 * mm, Thickness: 0.15 * mm}},
		Clamp: 9 * mm, PortInner: 12 * mm, PortOuter: 18 * mm, Seat: 19 * mm, Land: 0.3 * mm,
		Ports: 60 * mm2, Discharge: 0.7, Young: 206e3 * units.Megapascal, Poisson: 0.3,
	}))
	bleed := must(damping.NewPipe(damping.PipeSpec{Diameter: 1 * mm, Length: 10 * mm}))
	warm := must(damping.NewCartridge(damping.CartridgeSpec{Bore: 24 * mm, Rod: 12 * mm,
		Piston: damping.Parallel(damping.Reverse(stack), bleed), Reservoir: units.Absolute(3 * units.Bar),
		Oil: damping.Kinematic(850, 15*units.Centistokes)}))
	hot := must(warm.With(damping.Kinematic(820, 7*units.Centistokes)))
	fmt.Printf("its own thickness, %.2f mm: %v\n", stack.Limit().In(mm), warm.Reaching(0, stack.Raised(stack.Limit())))
	fmt.Printf("at 5 bar it is %.2f mm off its seat\n", stack.Lift(5*units.Bar).In(mm))
	fmt.Printf("a room is at vacuum at 2 m/s of compression: %t, of rebound: %t\n", warm.Cavitates(2), warm.Cavitates(-2))
	fmt.Printf("40 K warmer, rebound loses %.1f/K at 0.05 m/s\n", damping.Fade(warm, hot, -0.05, 40))
	fmt.Printf("as if the needle were %.1f clicks of 3 %% further out\n",
		-damping.Clicks(float64(hot.Force(-0.05)/warm.Force(-0.05)), damping.CommonClick))
	// Output:
	// its own thickness, 0.20 mm: compression none up to 20 m/s, rebound from 1.4 m/s
	// at 5 bar it is 0.14 mm off its seat
	// a room is at vacuum at 2 m/s of compression: true, of rebound: false
	// 40 K warmer, rebound loses 1.8 %/K at 0.05 m/s
	// as if the needle were 24.7 clicks of 3 % further out
}

// How fast does a fork come back that is pushed out by 1400 N against 60 N of friction?
func ExampleSpeedAt() {
	d := must(damping.NewTable(damping.TableSpec{Points: []damping.TablePoint{
		{Speed: -3, Force: -1500}, {Speed: -1, Force: -760}, {Speed: -0.1, Force: -190}, {Speed: 0.1, Force: 90},
	}}))
	for _, push := range []units.Force{1400, 600} {
		v, err := damping.SpeedAt(d, -(push - 60))
		fmt.Printf("at %.0f: %.2f, %v\n", push, v, err)
	}
	// Output:
	// at 1400 N: -2.38 m/s, <nil>
	// at 600 N: -0.54 m/s, <nil>
}

// The air piston comes out and its seals with it: what friction goes?
func ExampleSeal() {
	piston := must(damping.NewSeal(damping.SealSpec{Diameter: 34 * mm, Width: 1.2 * mm, Friction: 0.15,
		Fitted: 6 * units.Newton}))
	wiper := must(damping.NewFriction(damping.FrictionSpec{Breakaway: 45, Kinetic: 30,
		Stribeck: 5 * units.MillimeterPerSecond,
		Creep:    0.1 * units.MillimeterPerSecond}))
	fmt.Printf("piston %.0f at 9 bar, %.0f with the air let out\n", piston.Force(9*units.Bar), piston.Force(0))
	fmt.Printf("wipers and bushes %.0f to start, %.0f sliding\n", wiper.Force(1*units.MillimeterPerSecond), wiper.Force(1))
	// Output:
	// piston 23 N at 9 bar, 6 N with the air let out
	// wipers and bushes 44 N to start, 30 N sliding
}

// How much oil a worn piston lets past, and how much more where it touches its bore.
func ExampleAnnulus() {
	oil := damping.Kinematic(850, 15*units.Centistokes)
	for _, worn := range []units.Length{0.03 * mm, 0.06 * mm} {
		for _, eccentric := range []float64{0, 1} {
			gap := must(damping.NewAnnulus(damping.AnnulusSpec{Bore: 24 * mm, Clearance: worn, Length: 8 * mm,
				Eccentricity: eccentric}))
			fmt.Printf("%.2f mm, eccentricity %.0f: %.1f at 10 bar\n", worn.In(mm), eccentric, gap.Flow(10*units.Bar, oil))
		}
	}
	// Output:
	// 0.03 mm, eccentricity 0: 1.7 mL/s at 10 bar
	// 0.03 mm, eccentricity 1: 4.2 mL/s at 10 bar
	// 0.06 mm, eccentricity 0: 13.3 mL/s at 10 bar
	// 0.06 mm, eccentricity 1: 33.2 mL/s at 10 bar
}

// A fork with the rider on it is pushed down and let go: 24 mm past its rest, and 9 mm a full cycle later.
func ExampleDampingRatio() {
	ratio := must(damping.DampingRatio(24*mm, 9*mm, 1))
	body := must(damping.NewOscillator(damping.OscillatorSpec{Stiffness: 11.3 * units.NewtonPerMillimeter,
		Mass: 62 * units.Kilogram}))
	fmt.Printf("damping ratio %.2f: %.2f a cycle by the logarithm, %.2f instead of %.2f undamped\n", ratio,
		damping.LogDecrement(ratio), body.Damped(ratio), body.Frequency())
	fmt.Printf("60 N of friction hold it within %.0f of its rest\n", body.StickBand(60*units.Newton))
	// Output:
	// damping ratio 0.15: 0.98 a cycle by the logarithm, 2.12 Hz instead of 2.15 Hz undamped
	// 60 N of friction hold it within 5 mm of its rest
}

// A check valve's plate that does not lie flat: what passes under it at 20 bar.
func ExampleRadialGap() {
	oil := damping.Kinematic(850, 15*units.Centistokes)
	for _, dirt := range []units.Length{0.005 * mm, 0.02 * mm} {
		film := must(damping.NewRadialGap(damping.RadialGapSpec{Inner: 16 * mm, Outer: 20 * mm, Gap: dirt}))
		fmt.Printf("%.0f µm: %.2f\n", 1000*dirt.In(mm), film.Flow(20*units.Bar, oil))
	}
	// Output:
	// 5 µm: 0.05 mL/s
	// 20 µm: 2.94 mL/s
}

// A damper of shims is slow to evaluate; a table of it is fast, and off by what is told.
func ExampleTabulate() {
	bleed := must(damping.NewOrifice(damping.OrificeSpec{Area: 4 * mm2, Discharge: 0.7}))
	exact := must(damping.NewCartridge(damping.CartridgeSpec{Bore: 24 * mm, Rod: 12 * mm, Piston: bleed,
		Reservoir: units.Absolute(10 * units.Bar), Oil: damping.Kinematic(850, 15*units.Centistokes)}))
	fast := must(damping.Tabulate(exact, []units.Speed{-2, -1, -0.5, -0.1, 0.1, 0.5, 1, 2}))
	for _, v := range []units.Speed{-1.4, 0.3} {
		fmt.Printf("%.1f: %.0f, by the table %.0f\n", v, exact.Force(v), fast.Force(v))
	}
	// Output:
	// -1.4 m/s: -4154 N, by the table -4133 N
	// 0.3 m/s: 191 N, by the table 196 N
}

// Why a fork binds under the brake: what each bush carries, coasting and braking hard.
func ExampleBushes_Reactions() {
	b := must(damping.NewBushes(damping.BushesSpec{
		Spacing: 175 * mm, Overhang: 375 * mm, Friction: 0.06,
		Rake: 24 * units.Degree, Wheel: 300 * mm, Travel: 120 * mm,
	}))
	for _, c := range []struct{ wheel, braking units.Force }{{1390, 0}, {2120, 1650}} {
		lower, upper := b.Reactions(40*mm, c.wheel, c.braking)
		fmt.Printf("%.0f of braking: %.0f on the lower bush, %.0f on the upper\n", c.braking, lower, upper)
	}
	// Output:
	// 0 N of braking: -1446 N on the lower bush, -881 N on the upper
	// 1650 N of braking: 3953 N on the lower bush, 3307 N on the upper
}
