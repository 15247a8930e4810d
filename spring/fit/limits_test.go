package fit_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mL = units.Milliliter

// Parameters of two legs add up where both carry, keep the ratio they have, and differ by what they differ where each
// has its own.
func TestParametersOfTwoLegs(t *testing.T) {
	m := air
	left := *air.Fork.Left.Air
	left.Reducers = 30 * mL
	right := left
	right.Volume, right.Reducers, right.NegativeVolume = 300*mL, 10*mL, 0
	right.Fill.Gauge = units.Gauge(8 * units.Bar)
	m.Fork.Left = setup.Leg{Air: &left, Springs: []spring.Spec{spring.CoilSpec{Rate: 3 * newtonPerMM, Preload: 2 * mm}}}
	m.Fork.Right = setup.Leg{Air: &right, Gap: gap.Fork.Left.Gap,
		Springs: []spring.Spec{spring.CoilSpec{Rate: 6 * newtonPerMM, Preload: 5 * mm}}}
	value := func(what string, got float64, ok bool, want float64) {
		t.Helper()
		if !ok || !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
			t.Errorf("%s: %v, %v; want %v", what, got, ok, want)
		}
	}
	v, ok := fit.ChamberVolume().Of(m)
	value("both chambers", float64(v), ok, 760e-6)
	v, ok = fit.NegativeVolume().Of(m)
	value("the one negative chamber", float64(v), ok, 70e-6)
	if _, ok := fit.NegativeVolume(setup.Right).Of(m); ok {
		t.Error("a negative chamber where none is")
	}
	k, ok := fit.Rate().Of(m)
	value("both rates", float64(k), ok, 9000)
	p, ok := fit.Preload().Of(m)
	value("preload of the first", float64(p), ok, 0.002)

	twice := fit.ChamberVolume().With(m, 1520*mL)
	value("left chamber", float64(twice.Fork.Left.Air.Volume), true, 970e-6) // its gas doubled, reducers as they are
	value("right chamber", float64(twice.Fork.Right.Air.Volume), true, 590e-6)
	value("as it was", float64(m.Fork.Left.Air.Volume), true, 500e-6)
	coilOf := func(l setup.Leg) spring.CoilSpec { return l.Springs[0].(spring.CoilSpec) }
	stiff := fit.Rate().With(m, 18*newtonPerMM)
	value("left rate", float64(coilOf(stiff.Fork.Left).Rate), true, 6000)
	value("right rate", float64(coilOf(stiff.Fork.Right).Rate), true, 12000)
	none := fit.Rate().With(fit.Rate(setup.Left).With(fit.Rate(setup.Right).With(m, 0), 0), 8*newtonPerMM)
	value("rates of none, left", float64(coilOf(none.Fork.Left).Rate), true, 4000)
	value("rates of none, right", float64(coilOf(none.Fork.Right).Rate), true, 4000)
	loaded := fit.Preload().With(m, 4*mm)
	value("left preload", float64(coilOf(loaded.Fork.Left).Preload), true, 0.004)
	value("right preload", float64(coilOf(loaded.Fork.Right).Preload), true, 0.007)
	pumped := fit.Gauge().With(m, units.Pressure(left.Fill.Gauge.In(units.Pascal))+1*units.Bar)
	value("right gauge", pumped.Fork.Right.Air.Fill.Gauge.In(units.Bar), true, 9)

	for what, c := range map[string]struct {
		leg  setup.Leg
		want bool
	}{"nothing": {setup.Leg{}, false}, "a coil": {coil.Fork.Left, false},
		"a gap": {setup.Leg{Gap: gap.Fork.Left.Gap}, true},
		"air":   {air.Fork.Left, true}, "a damper": {setup.Leg{Damper: &setup.Damper{}}, true}} {
		for side, legs := range [][2]setup.Leg{{c.leg, {}}, {{}, c.leg}} {
			m := coil
			m.Fork.Left, m.Fork.Right = legs[0], legs[1]
			if _, ok := fit.Exponent().Of(m); ok != c.want {
				t.Errorf("an exponent of %s, side %d: %v", what, side, ok)
			}
		}
	}
}

// What a sweep of a fork of its class can tell is found within the usual bounds: of an air fork with reducers, of one
// in the right leg, and of a coil over oil.
func TestUsualFindsTheFork(t *testing.T) {
	reduced := air
	left := *air.Fork.Left.Air
	left.Reducers = 40 * mL
	reduced.Fork.Left.Air = &left
	right := reduced
	right.Fork.Left, right.Fork.Right = setup.Leg{}, reduced.Fork.Left
	for name, m := range map[string]fit.Model{"air": reduced, "air in the right leg": right, "coil over oil": gap} {
		truth := fit.Friction().With(m, 35)
		if v, ok := fit.ChamberVolume().Of(truth); ok {
			truth = fit.ChamberVolume().With(truth, v*1.05)
		}
		r, err := fit.Fit(exact(t, truth, 60), m, fit.Usual(m)...)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for what, read := range map[string]func(fit.Model) float64{"friction": of(fit.Friction()),
			"chamber": of(fit.ChamberVolume()), "gap": of(fit.GapVolume()), "rate": of(fit.Rate()),
			"exponent": of(fit.Exponent())} {
			if got, want := read(r.Model), read(truth); !(math.Abs(got-want) <= 1e-5*math.Abs(want)+1e-12) {
				t.Errorf("%s: %s %v, want %v", name, what, got, want)
			}
		}
		// As little gas as can be at full travel is within the bounds, and less is not.
		if _, ok := fit.ChamberVolume().Of(m); ok {
			swept := units.Volume(math.Pi / 4 * 0.034 * 0.034 * 0.290)
			for share, found := range map[units.Volume]bool{1.04: true, 1.01: false} {
				sweep := exact(t, fit.ChamberVolume().With(fit.Friction().With(m, 35), share*swept), 60)
				sweep.Loading, sweep.Unloading = sweep.Loading[:50], sweep.Unloading[:50] // not to where it has no limit
				r, err := fit.Fit(sweep, m, fit.Usual(m)...)
				if err != nil || (len(r.Held) == 0) != found {
					t.Errorf("%s: %v times the sweep: %v, %v", name, float64(share), r, err)
				}
			}
		}
	}
}

// The verdict goes by the runs, in and out counted apart.
func TestVerdicts(t *testing.T) {
	result := func(sigma units.Force, in, out string) *fit.Result {
		r := &fit.Result{Sigma: sigma}
		for i, branch := range []string{in, out} {
			for j, sign := range branch {
				f := units.Force(1)
				if sign == '-' {
					f = -1
				}
				r.Residuals = append(r.Residuals, fit.Residual{Measured: units.Force(j), Force: f, Unloading: i == 1})
			}
		}
		return r
	}
	twenty := strings.Repeat("+", 20)
	for _, c := range []struct {
		what    string
		r       *fit.Result
		verdict string
		runs    int
	}{
		{"a wave", result(5, "++++++++++----------", "++++++++++----------"), "far too few", 4},
		{"a slow one", result(5, "+++---+++---+++---+++---", ""), "few:", 8},
		{"tossed", result(5, "+-++--+-+---++-+--++-+", ""), "as independent noise", 15},
		{"alternating", result(5, "+-+-+-+-+-+-+-+-+-+-+-+-", ""), "too many", 24},
		{"alternating in, one side out", result(5, "+-+-+-+-+-+-+-+-+-+-", twenty), "too many", 21},
		{"few readings", result(5, "++++----", ""), "too few readings", 2},
		{"no noise", result(0.04, "++++++++++----------", "++++++++++----------"), "no noise", 4},
	} {
		g := c.r.Goodness()
		if !strings.HasPrefix(g.Verdict, c.verdict) && !strings.Contains(g.Verdict, c.verdict) || g.Runs.Count != c.runs {
			t.Errorf("%s: %q by %+v, z %.2f", c.what, g.Verdict, g.Runs, g.Runs.Z())
		}
	}
	// One far below is the farthest, whatever its sign.
	r := &fit.Result{Residuals: []fit.Residual{{Force: 2}, {Force: -5}, {Force: 4}}}
	if got := r.Goodness().Farthest.Force; got != -5 {
		t.Errorf("farthest %v", got)
	}
	// A force that varies by little about a large one varies all the same.
	r = &fit.Result{Residuals: []fit.Residual{{Measured: 1000, Force: 0.1}, {Measured: 1002, Force: -0.1},
		{Measured: 1004, Force: 0.1}}}
	if got := r.Goodness().Explained; !(math.Abs(got-(1-0.03/8)) <= 1e-9) {
		t.Errorf("explained %v", got)
	}
}

// Readings that no fork has are refused by name, in a record and in a file; those at the limits are read.
func TestReadingsHaveLimits(t *testing.T) {
	good := exact(t, coil, 20)
	for what, c := range map[string]struct {
		r    spring.Reading
		want string
	}{
		"far out":  {read(501, 100), "Loading[20].Travel"},
		"far in":   {read(-11, 100), "Loading[20].Travel"},
		"strong":   {read(100, 50_001), "Loading[20].Force"},
		"pulling":  {read(100, -50_001), "Loading[20].Force"},
		"no force": {read(100, math.NaN()), "Loading[20].Force"},
	} {
		s := good
		s.Loading = append(append([]spring.Reading(nil), s.Loading[:20]...), c.r)
		if _, err := fit.Fit(s, coil, freeRate); err == nil || !strings.Contains(err.Error(), c.want) ||
			len(units.Faults(err)) != 1 {
			t.Errorf("%s: %v", what, err)
		}
	}
	for text, ok := range map[string]bool{"500,100": true, "501,100": false, "20,50000": true, "20,50001": false,
		"20,-50000": true, "20,-50001": false} {
		_, err := fit.ReadCSV("", strings.NewReader("travel [mm],force [N]\n-10,1\n"+text+"\n"))
		if (err == nil) != ok || !ok && !strings.Contains(err.Error(), "is the unit right?") {
			t.Errorf("%s: %v", text, err)
		}
	}
	if _, err := fit.ReadCSV("", strings.NewReader("travel [mm],force [N]\n-11,1\n20,100\n")); err == nil {
		t.Error("a reading 11 mm before full extension")
	}
	// A long cell is not repeated whole.
	long := strings.Repeat("9", 41) + "x"
	for cell, told := range map[string]bool{long: false, long[2:]: true} {
		_, err := fit.ReadCSV("", strings.NewReader("travel [mm],force [N]\n0,1\n20,"+cell+"\n"))
		if err == nil || strings.Contains(err.Error(), cell) != told {
			t.Errorf("%d characters: %v", len(cell), err)
		}
	}
	// Remarks with separators do not tell which one the file has.
	text := "\n# a;b;c;d;e\n\ntravel [mm],force [N]\n0,1\n20,100\n"
	if _, err := fit.ReadCSV("", strings.NewReader(text)); err != nil {
		t.Errorf("a remark in front: %v", err)
	}
	// Only between commas is a comma too many a decimal one.
	for text, told := range map[string]bool{"travel [mm],force [N]\n0,1\n1,5,100\n": true,
		"travel [mm];force [N]\n0;1\n1;5;100\n": false, "travel [mm],force [N]\n0,1\n5\n": false} {
		_, err := fit.ReadCSV("", strings.NewReader(text))
		if err == nil || strings.Contains(err.Error(), "write decimal points") != told {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// The ends of a sweep are what is nearer than that to where it began or turned; what is just as far stays.
func TestSteadyToAHair(t *testing.T) {
	sweep := spring.MeasuredSpec{Loading: []spring.Reading{read(0, 1), read(4, 1), read(96, 1), read(100, 1)}}
	steady, rest := fit.Steady(sweep, 4*mm)
	if len(steady.Loading) != 2 || len(rest.Loading) != 2 {
		t.Errorf("%v, %v", steady, rest)
	}
	steady, rest = fit.Steady(sweep, 5*mm)
	if len(steady.Loading) != 0 || len(rest.Loading) != 4 {
		t.Errorf("%v, %v", steady, rest)
	}
	sweep.Unloading = []spring.Reading{read(0, 1), read(50, 1), read(100, 1)}
	steady, _ = fit.Steady(sweep, 0)
	if len(steady.Loading) != 3 || len(steady.Unloading) != 2 {
		t.Errorf("a turn is kept: %v", steady)
	}
}

// Two legs alike but for their gas can be told apart by nobody: what fits with the volumes exchanged is told, and
// bounds that part them settle it.
func TestExchangedLegsFitAsWell(t *testing.T) {
	leg := func(residual units.Volume) setup.Leg {
		return setup.Leg{Gap: &setup.Gap{Area: 18 * units.SquareCentimeter, Residual: residual}}
	}
	m := coil
	m.Exponent = 1.3
	m.Fork.Left, m.Fork.Right = leg(150*mL), leg(260*mL)
	m.Fork.Left.Springs = coil.Fork.Left.Springs
	swept := units.Volume(18e-4 * 0.3)
	left, right := fit.GapVolume(setup.Left), fit.GapVolume(setup.Right)
	sweep := exact(t, m, 60)
	_, err := fit.Fit(sweep, m, left.Between(swept+50*mL, swept+600*mL), right.Between(swept+50*mL, swept+600*mL))
	var vague *fit.UnidentifiableError
	if !errors.As(err, &vague) || len(vague.Parameters) != 2 || !strings.Contains(vague.Reason, "other values") {
		t.Errorf("%v", err)
	}
	r, err := fit.Fit(sweep, m, left.Between(swept+50*mL, swept+200*mL), right.Between(swept+200*mL, swept+600*mL))
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := left.Of(r.Model); !(math.Abs(float64(v-swept-150*mL)) <= 1e-9) {
		t.Errorf("left %v", v-swept)
	}
	// Of a coil in one of them the bench knows which: exchanged it is another fork.
	other := m
	other.Fork.Right.Gap = &setup.Gap{Area: 12 * units.SquareCentimeter, Residual: 260 * mL}
	small := units.Volume(12e-4 * 0.3)
	if _, err := fit.Fit(exact(t, other, 60), other, left.Between(swept+50*mL, swept+600*mL),
		right.Between(small+50*mL, small+600*mL)); err != nil {
		t.Errorf("legs that differ: %v", err)
	}
}

// A force that varies by no more than its rounding explains nothing.
func TestNothingVaries(t *testing.T) {
	r := &fit.Result{Residuals: []fit.Residual{{Measured: 1000}, {Measured: 1000.0003, Force: 1e-4}, {Measured: 1000}}}
	if got := r.Goodness().Explained; !math.IsNaN(got) {
		t.Errorf("explained %v", got)
	}
}

// Up to four times the least chamber and three times the least gap are looked at, and no further.
func TestUsualEndsSomewhere(t *testing.T) {
	sweptAir := 1.02 * math.Pi / 4 * 0.034 * 0.034 * 0.290
	sweptGap := 1.02 * 18e-4 * 0.3
	for what, c := range map[string]struct {
		m     fit.Model
		v     fit.Parameter[units.Volume]
		least float64
		most  float64
	}{"chamber": {air, fit.ChamberVolume(), sweptAir, 4}, "gap": {gap, fit.GapVolume(), sweptGap, 3}} {
		for by, found := range map[float64]bool{0.97: true, 1.03: false} {
			truth := c.v.With(fit.Friction().With(c.m, 30), units.Volume(c.least*c.most*by))
			r, held, err := fit.Identify(exact(t, truth, 60), c.m, fit.Usual(c.m)...)
			if err != nil {
				t.Fatal(what, err)
			}
			got, _ := c.v.Of(r.Model)
			if near := math.Abs(float64(got)/(c.least*c.most*by)-1) < 1e-3; near != found {
				t.Errorf("%s of %.2f times the most: %v, held %v, %v", what, by, got, r.Held, held)
			}
		}
	}
}

// A rate whose standard error is wider than its bounds is not told, however high they lie.
func TestVagueRate(t *testing.T) {
	noisy := func(by units.Force) spring.MeasuredSpec {
		var m spring.MeasuredSpec
		for i := range 12 {
			x := units.Length(i) * mm / 4
			off := by * units.Force(1-2*(i/2%2)) // two up, two down
			m.Loading = append(m.Loading, spring.Reading{Travel: x,
				Force: units.Force(8500*float64(x+5*mm)) + 20 + off})
		}
		return m
	}
	model := fit.Friction().With(fit.Preload().With(coil, 5*mm), 20)
	for by, told := range map[units.Force]bool{0.5: true, 50: false} {
		r, err := fit.Fit(noisy(by), model, fit.Rate().Between(8*units.NewtonPerMillimeter, 9*units.NewtonPerMillimeter))
		var vague *fit.UnidentifiableError
		if (err == nil) != told || err != nil && !errors.As(err, &vague) {
			t.Errorf("readings ± %v: %+v, %v", by, r, err)
		}
	}
}

// Why a parameter is not determined: alone it changes nothing, with others they make up for each other.
func TestWhyUnidentifiable(t *testing.T) {
	loose := fit.Preload().With(coil, -45*mm)
	loose.Fork.Travel = 40 * mm
	oneWay := exact(t, fit.Preload().With(coil, 5*mm), 20)
	oneWay.Unloading = nil
	var alone, both *fit.UnidentifiableError
	_, err := fit.Fit(exact(t, loose, 10), loose, freeRate)
	_, err2 := fit.Fit(oneWay, coil, freeRate, freePreload, friction)
	if !errors.As(err, &alone) || !errors.As(err2, &both) || !strings.Contains(alone.Reason, "no reading") ||
		!strings.Contains(both.Reason, "made up by the others") {
		t.Errorf("%v; %v", err, err2)
	}
}

// The errors of a parameter that was not free hang on nothing.
func TestCorrelationOfWhatIsKnown(t *testing.T) {
	r, err := fit.Fit(exact(t, fit.Friction().With(coil, 20), 20), coil, freeRate, friction)
	if err != nil {
		t.Fatal(err)
	}
	for _, pair := range [][2]fmt.Stringer{{freeRate, freeGap}, {freeGap, freeRate}, {freeGap, freeGap}} {
		if got := r.Correlation(pair[0], pair[1]); got != 0 {
			t.Errorf("%v and %v: %v", pair[0], pair[1], got)
		}
	}
}
