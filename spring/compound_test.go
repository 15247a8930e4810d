package spring_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

const newtonPerMM = units.NewtonPerMillimeter

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, tolerance)
	}
}

func TestProgressiveClosesGroupByGroup(t *testing.T) {
	// By hand. The groups are of 20, 10 and 5 N/mm and close at 2000, 600 and
	// 300 N, so the spring has 1/(1/20 + 1/10 + 1/5) = 2.857 N/mm up to 300 N
	// (105 mm), 1/(1/20 + 1/10) = 6.667 N/mm up to 600 N (150 mm) and 20 N/mm up
	// to 2000 N (220 mm = 100 + 60 + 60, solid). Preloaded by 5 mm it sits 5 mm
	// further along.
	s := progressive
	s.Travel = 400 * mm
	p := must[spring.Progressive](t)(spring.NewProgressive(s))
	within(t, "stroke, mm", p.Stroke().In(mm), 215, 1e-9)
	for _, c := range []struct{ x, force, rate, energy float64 }{
		{0, 14.2857, 2.8571, 0},
		{50, 157.143, 2.8571, 4.2857},
		{100, 300, 6.6667, 15.7143},
		{145, 600, 20, 35.9643},
		{215, 2000, 20, 126.9643},
	} {
		at := spring.At(p, units.Length(c.x)*mm)
		within(t, "force", float64(at.Force), c.force, 1e-3)
		within(t, "rate", at.Rate.In(newtonPerMM), c.rate, 1e-4)
		within(t, "energy", float64(at.Energy), c.energy, 1e-4)
	}
	changes := p.Changes()
	if len(changes) != 2 {
		t.Fatalf("changes at %v, want two", changes)
	}
	within(t, "first change, mm", changes[0].In(mm), 100, 1e-9)
	within(t, "second change, mm", changes[1].In(mm), 145, 1e-9)
}

// The compression of a progressive spring is a sum over its groups, an inverse
// that shares nothing with the construction of the curve.
func TestProgressiveCarriesOneForce(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 200 {
		s := spring.ProgressiveSpec{Preload: units.Length(r.Float64()*20) * mm, Travel: 200 * mm}
		for range 1 + r.IntN(8) {
			s.Coils = append(s.Coils, spring.CoilGroup{
				Count: 1 + 9*r.Float64(), Gap: units.Length(2+8*r.Float64()) * mm,
				Rate: units.Stiffness(50+400*r.Float64()) * newtonPerMM})
		}
		p, err := spring.NewProgressive(s)
		if err != nil {
			continue // solid within the preload
		}
		for i := range 30 {
			x := min(p.Stroke(), p.Stroke()*units.Length(i)/29)
			force := float64(p.Force(x))
			var sum float64
			for _, c := range s.Coils {
				sum += c.Count * min(force/float64(c.Rate), float64(c.Gap))
			}
			within(t, "compression", sum, float64(x+s.Preload), 1e-9)
		}
		curvetest.Rising(t, p)
	}
}

func TestRateTable(t *testing.T) {
	// By hand: up to 60 mm the rate climbs from 4 to 4.5 N/mm, mean 4.25.
	p := must[spring.Progressive](t)(spring.NewRateTable(rates))
	within(t, "force at 60 mm of compression", float64(p.Force(55*mm)), 255, 1e-9)
	within(t, "rate halfway between rows", p.Rate(75*mm).In(newtonPerMM), 5.5, 1e-9)
	within(t, "force at 100 mm of compression", float64(p.Force(95*mm)), 255+40*5.5, 1e-9)
	// A table of one rate is a linear coil.
	flat := spring.RateTableSpec{Preload: 4 * mm, Travel: 305 * mm,
		Rates: []spring.RatePoint{{0, coil.Rate}, {500 * mm, coil.Rate}}}
	same(t, must[spring.Progressive](t)(spring.NewRateTable(flat)), must[spring.Coil](t)(spring.NewCoil(coil)))
}

// same checks that two curves agree wherever they are read.
func same(t *testing.T, a, b spring.Curve) {
	t.Helper()
	within(t, "stroke", float64(a.Stroke()), float64(b.Stroke()), 1e-12)
	end := min(a.Stroke(), b.Stroke())
	for i := range 98 { // no round numbers: at a kink the two may take either side
		x := end * units.Length(i) / 97
		p, q := spring.At(a, x), spring.At(b, x)
		within(t, "force at "+x.String(), float64(p.Force), float64(q.Force), 1e-6)
		within(t, "rate at "+x.String(), float64(p.Rate), float64(q.Rate), 1e-6*(1+float64(q.Rate)))
		within(t, "energy at "+x.String(), float64(p.Energy), float64(q.Energy), 1e-8)
	}
}

func TestStack(t *testing.T) {
	// By hand: 10 and 15 N/mm in series are 6 N/mm; the soft one is solid after
	// 50 mm, at 500 N, with the stack compressed by 50 + 33.3 mm.
	c := must[spring.Stack](t)(spring.NewStack(stack))
	within(t, "crossover, mm", c.Crossover().In(mm), 250.0/3-10, 1e-9)
	within(t, "force there", float64(c.Force(c.Crossover())), 500, 1e-9)
	within(t, "rate before", c.Rate(60*mm).In(newtonPerMM), 6, 1e-9)
	within(t, "rate after", c.Rate(90*mm).In(newtonPerMM), 15, 1e-9)

	// A sleeve after 30 mm acts at 300 N and 50 mm of the stack.
	sleeved := stack
	sleeved.Crossover = 30 * mm
	c = must[spring.Stack](t)(spring.NewStack(sleeved))
	within(t, "crossover with a sleeve, mm", c.Crossover().In(mm), 40, 1e-9)
	within(t, "force there", float64(c.Force(c.Crossover())), 300, 1e-9)

	// Where the hard spring is the first to go solid, the soft one goes on alone.
	stubby := stack
	stubby.Hard.FreeLength = 150 * mm
	c = must[spring.Stack](t)(spring.NewStack(stubby))
	within(t, "rate once the hard spring is solid", c.Rate(40*mm).In(newtonPerMM), 10, 1e-9)
	within(t, "stroke with both solid, mm", c.Stroke().In(mm), 10+50-10, 1e-9)
}

func TestStackIsSeriesOfCoils(t *testing.T) {
	part := func(p spring.CoilPart) spring.Curve {
		return must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: p.Rate, FreeLength: p.FreeLength,
			SolidLength: p.SolidLength, Travel: 400 * mm}))
	}
	pair := spring.Series(part(stack.Soft), part(stack.Hard))
	within(t, "stroke of both", pair.Stroke().In(mm), 170, 1e-9)
	same(t, spring.Limit(spring.Shift(pair, stack.Preload), stack.Travel),
		must[spring.Stack](t)(spring.NewStack(stack)))
}

// A loose coil takes up its gap before the other moves.
func TestSeriesOfALooseCoil(t *testing.T) {
	newCoil := must[spring.Coil](t)
	loose := newCoil(spring.NewCoil(spring.CoilSpec{Rate: 6 * newtonPerMM, Preload: -5 * mm, Travel: 100 * mm}))
	tight := newCoil(spring.NewCoil(spring.CoilSpec{Rate: 3 * newtonPerMM, Travel: 100 * mm}))
	for name, pair := range map[string]spring.Curve{
		"closed form": spring.Series(loose, tight),
		"by root":     spring.Series(spring.Scale(loose, 1), tight),
	} {
		within(t, name+", in the gap", float64(pair.Force(4*mm)), 0, 0)
		within(t, name+", force", float64(pair.Force(35*mm)), 2*30, 1e-9)
		within(t, name+", rate", pair.Rate(35*mm).In(newtonPerMM), 2, 1e-12)
		within(t, name+", stroke", pair.Stroke().In(mm), 200, 1e-9)
	}
}

// At the force from which the other yields the rate is already that of both, as at every corner.
func TestSeriesAtItsCorner(t *testing.T) {
	gas := must[spring.Air](t)(spring.NewAir(air))
	first := gas.Force(0)
	straight := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 8192, Travel: 250 * mm}))
	corner := units.Length(float64(first) / 8192) // exactly: a power of two
	alone, both := 8192.0, 1/(1/8192.0+1/float64(gas.Rate(0)))
	for name, pair := range map[string]spring.Curve{
		"straight": spring.Series(straight, gas), "by root, air second": spring.Series(spring.Scale(straight, 1), gas),
		"by root, air first": spring.Series(gas, spring.Scale(straight, 1)),
	} {
		within(t, name+", before", float64(pair.Rate(corner*(1-1e-9))), alone, 1e-6)
		within(t, name+", there", float64(pair.Rate(corner)), both, 1e-6)
		within(t, name+", after", float64(pair.Rate(corner*(1+1e-9))), both, 1e-3)
	}
}

func TestNested(t *testing.T) {
	// By hand: installed at 290 mm, the inner spring of 240 mm is touched at 50 mm.
	n := must[spring.Nested](t)(spring.NewNested(nested))
	within(t, "join, mm", n.Join().In(mm), 50, 1e-9)
	within(t, "force before", float64(n.Force(40*mm)), 6*50, 1e-9)
	within(t, "force at 130 mm", float64(n.Force(130*mm)), 6*140+4*80, 1e-9)
	// Both rates from the start would be wrong by the travel the inner one misses.
	within(t, "against both from the start", 10*140-float64(n.Force(130*mm)), 4*60, 1e-9)

	// Of equal free length the two are one spring.
	even := nested
	even.Inner.FreeLength = even.Outer.FreeLength
	one := spring.CoilSpec{Rate: 10 * newtonPerMM, Preload: 10 * mm, Travel: 130 * mm}
	same(t, must[spring.Nested](t)(spring.NewNested(even)), must[spring.Coil](t)(spring.NewCoil(one)))
	// Which of them is outside does not matter.
	swapped := nested
	swapped.Outer, swapped.Inner = nested.Inner, nested.Outer
	same(t, must[spring.Nested](t)(spring.NewNested(swapped)), n)
}

func TestNestedPublished(t *testing.T) {
	part := func(g, d, mean, coils, free float64) spring.CoilPart { // N/mm², mm, mm, 1, mm
		return spring.CoilPart{Rate: units.Stiffness(g*math.Pow(d, 4)/(8*math.Pow(mean, 3)*coils)) * newtonPerMM,
			FreeLength: units.Length(free) * mm, SolidLength: units.Length(d*(coils+2)) * mm}
	}
	// A machine design textbook, Example 10.19 (book 764 of the FOSSEE textbook
	// companions): the inner spring is 15 mm shorter; 1000 N compress the outer one
	// by 24.988839 mm, of which it carries 706.021471 N, and the inner one by
	// 9.988839 mm. Free lengths are ours.
	register.Cite(t, "S-61")
	outer, inner := part(81370, 6, 36, 10, 130), part(81370, 5, 30, 8, 115)
	n := must[spring.Nested](t)(spring.NewNested(spring.NestedSpec{Outer: outer, Inner: inner, Travel: 40 * mm}))
	x, err := spring.Equilibrium(n, 1000)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "compression of the outer spring, mm", x.In(mm), 24.988839, 1.5e-6)
	within(t, "compression of the inner spring, mm", (x - n.Join()).In(mm), 9.988839, 1.5e-6)
	within(t, "load of the outer spring, N", float64(outer.Rate)*float64(x), 706.021471, 2e-5)

	// A strength of materials textbook, Problem 8.8 (book 3772, same source): the
	// outer spring has 10 coils of 3 mm wire on 3 cm, G = 80 GPa; with an inner one
	// that is 1 cm shorter and of 4000 N/m, 100 N compress it by 2 cm.
	register.Cite(t, "S-62")
	outer = part(80e3, 3, 30, 10, 80)
	inner = spring.CoilPart{Rate: 4000, FreeLength: 70 * mm, SolidLength: 30 * mm}
	n = must[spring.Nested](t)(spring.NewNested(spring.NestedSpec{Outer: outer, Inner: inner, Travel: 30 * mm}))
	within(t, "load at 2 cm, N", float64(n.Force(20*mm)), 100, 1e-9)
}

func TestBumpStop(t *testing.T) {
	b := must[spring.BumpStop](t)(spring.NewBumpStop(bumpStop))
	within(t, "stroke, mm", b.Stroke().In(mm), 148, 1e-9)
	within(t, "force before contact", float64(b.Force(129*mm)), 0, 0)
	// By hand: A = 754.0 mm², S = 20/120, E_c = 3·(1 + 1.5/36) = 3.125 MPa. At half
	// its height λ⁻² − λ = 3.5, so F = 754.0·3.125·3.5/3.
	within(t, "force at half height", float64(b.Force(145*mm)), 2748.9, 0.1)
	// At first touch it is a column of modulus E_c: A·E_c/h.
	within(t, "rate at contact", b.Rate(130*mm).In(newtonPerMM), 753.98*3.125/30, 1e-3)
	// With sliding ends the shape drops out, and the stress at λ = ½ is 7/6 of
	// Young's modulus, by hand from the law.
	sliding := bumpStop
	sliding.Restraint, sliding.Bore = 0, 0
	b = must[spring.BumpStop](t)(spring.NewBumpStop(sliding))
	within(t, "stress over E", float64(b.Force(145*mm))/(math.Pi/4*34*34)/3, 7.0/6, 1e-9)
}

func TestSeriesPublished(t *testing.T) {
	register.Cite(t, "S-20")
	// Levinson, Statics and Strength of Materials, Example 10.10 (as carried by the
	// FOSSEE textbook companions): springs of 0.2 in wire, mean radius 2 in, 10
	// coils, G = 12e6 psi, one, one and two side by side end to end, under 10 lbf,
	// give 6.67 in. Each has G·d⁴/(64·R³·n) = 3.75 lbf/in.
	k := units.Stiffness(12e6*math.Pow(0.2, 4)/(64*8*10)) * units.PoundForcePerInch
	one := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: k, Travel: 8 * units.Inch}))
	for name, network := range map[string]spring.Curve{
		"as three curves": spring.Series(one, one, spring.Parallel(one, one)),
		"scaled":          spring.Series(one, spring.Scale(one, 2), one),
	} {
		x, err := spring.Equilibrium(network, 10*units.PoundForce)
		if err != nil {
			t.Fatal(name, err)
		}
		within(t, name, x.In(units.Inch), 6.67, 0.005)
	}
}

func TestCoilEnergyPublished(t *testing.T) {
	register.Cite(t, "S-22")
	// Bhavikatti, Strength of Materials, Example 6.6.22 (as carried by the FOSSEE
	// textbook companion): d = 12 mm, D = 150 mm, 10 coils, G = 80 GPa under 450 N
	// stores 16 479.49 N·mm at 73.24 mm.
	k := units.Stiffness(80e3*math.Pow(12, 4)/(8*math.Pow(150, 3)*10)) * newtonPerMM
	c := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: k, Travel: 100 * mm}))
	x, err := spring.Equilibrium(c, 450)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "deflection, mm", x.In(mm), 73.24, 0.005)
	within(t, "energy, N·mm", float64(c.Energy(x))*1e3, 16479.49, 0.005)

	// OpenStax College Physics: 80.0 kg settle a scale of 6.53e4 N/m by 12.0 mm, and 5.00e4 N/m hold 141 J at 75 mm.
	register.Cite(t, "V-16")
	scale := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 6.53e4, Travel: 100 * mm}))
	if x, err = spring.Equilibrium(scale, 80*9.8); err != nil {
		t.Fatal(err)
	}
	within(t, "scale, mm", x.In(mm), 12.0, 0.05)
	c = must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 5.00e4, Travel: 100 * mm}))
	within(t, "energy, J", float64(c.Energy(75*mm)), 141, 0.5)
	// OpenStax University Physics: four springs under 1000 kg, 1.30e5 N/m in all, settle by 7.54 cm.
	register.Cite(t, "V-17")
	each := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 3.25e4, Travel: 200 * mm}))
	if x, err = spring.Equilibrium(spring.Parallel(each, each, each, each), 1000*9.8); err != nil {
		t.Fatal(err)
	}
	within(t, "four springs, mm", x.In(mm), 75.4, 0.05)
}

func TestSeriesShares(t *testing.T) {
	// Two air springs alike in series are one of twice the stroke: the force at x
	// is that of one at x/2, and the rate half as much.
	a := must[spring.Air](t)(spring.NewAir(air))
	pair := spring.Series(a, a)
	for i := range 21 {
		x := a.Stroke() * units.Length(i) / 20
		within(t, "force", float64(pair.Force(2*x)), float64(a.Force(x)), 1e-6)
		within(t, "energy", float64(pair.Energy(2*x)), 2*float64(a.Energy(x)), 1e-8)
		if i > 0 && i < 20 {
			within(t, "rate", float64(pair.Rate(2*x)), float64(a.Rate(x))/2, 1e-4)
		}
	}
	// The closed form and the root agree: a scaled coil is not seen to be straight.
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	short := must[spring.Stack](t)(spring.NewStack(stack))
	same(t, spring.Series(spring.Scale(c, 1), short), spring.Series(c, short))
	same(t, spring.Series(short, spring.Scale(c, 1)), spring.Series(c, short))
}

// Springs that touch without preload give way together from the start.
func TestSeriesFromRest(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 5 * newtonPerMM, Travel: 100 * mm}))
	for name, s := range map[string]spring.Curve{
		"both by root":    spring.Series(spring.Scale(c, 2), spring.Scale(c, 1)),
		"one closed form": spring.Series(spring.Scale(c, 2), c),
	} {
		within(t, name, s.Rate(0).In(newtonPerMM), 10./3, 1e-9)
		curvetest.Contract(t, s, 150*mm)
	}
}

func TestSeriesHeldByPreload(t *testing.T) {
	// A caged spring of 36 N preload stands still until the other one carries 36 N.
	caged := must[spring.Coil](t)(spring.NewCoil(coil))
	free := must[spring.Coil](t)(spring.NewCoil(spring.CoilSpec{Rate: 6 * newtonPerMM, Travel: 20 * mm}))
	for name, s := range map[string]spring.Curve{
		"closed form": spring.Series(caged, free),
		"by root":     spring.Series(spring.Scale(caged, 1), free),
	} {
		t.Run(name, func(t *testing.T) {
			within(t, "rate before", s.Rate(5*mm).In(newtonPerMM), 6, 1e-6)
			within(t, "rate after", s.Rate(7*mm).In(newtonPerMM), 3.6, 1e-6)
			within(t, "force at the take-up", float64(s.Force(6*mm)), 36, 1e-6)
			// At 120 N the free one is bound: 20 mm + (120 − 36)/9 = 29.33 mm.
			within(t, "rate once bound", s.Rate(30*mm).In(newtonPerMM), 9, 1e-6)
			within(t, "stroke, mm", s.Stroke().In(mm), 325, 1e-9)
		})
	}
}

func TestShiftIsPreload(t *testing.T) {
	free, spaced := coil, coil
	free.Preload, free.Travel = 0, 305*mm+10*mm
	spaced.Preload = 10 * mm
	same(t, spring.Shift(must[spring.Coil](t)(spring.NewCoil(free)), 10*mm),
		must[spring.Coil](t)(spring.NewCoil(spaced)))
	spaced.Preload, free.Travel = -10*mm, 295*mm
	same(t, spring.Shift(must[spring.Coil](t)(spring.NewCoil(free)), -10*mm),
		must[spring.Coil](t)(spring.NewCoil(spaced)))
}

func TestLimitEndsTheFork(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	fork := spring.Parallel(c, spring.Limit(must[spring.Air](t)(spring.NewAir(air)), 250*mm))
	if got := fork.Stroke(); got != 250*mm {
		t.Errorf("fork locked at 250 mm has the stroke %v", got)
	}
}
