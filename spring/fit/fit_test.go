package fit_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const newtonPerMM = units.NewtonPerMillimeter

var sea = units.Absolute(1.01325 * units.Bar)

// What is known of the springs in testdata/readings.csv.
var (
	linear = spring.CoilSpec{Rate: 8 * newtonPerMM}
	here   = gas.Ambient{Temperature: units.Celsius(20), Pressure: sea}
	coil   = onBench(300*mm, 1, setup.Leg{Springs: []spring.Spec{linear}})
	gap    = onBench(300*mm, 1.3, setup.Leg{Springs: []spring.Spec{linear},
		Gap: &setup.Gap{Area: 18 * units.SquareCentimeter, Residual: 360 * units.Milliliter}})
	air = onBench(290*mm, 1.3, setup.Leg{Air: &setup.Air{Bore: 34 * mm, Rod: 12 * mm, Volume: 500 * units.Milliliter,
		Fill:           gas.Fill{Gauge: units.Absolute(10.6 * units.Bar).Gauge(sea), Ambient: here},
		NegativeVolume: 70 * units.Milliliter, Port: 6 * mm}})

	freeRate    = fit.Rate().Between(1*newtonPerMM, 30*newtonPerMM)
	freePreload = fit.Preload().Between(-20*mm, 40*mm)
	freeGap     = fit.GapVolume().Between(600*units.Milliliter, 2.5*units.Liter)
	friction    = fit.Friction().Between(0, 200)
)

// onBench is a fork of one leg.
func onBench(travel units.Length, n float64, l setup.Leg) fit.Model {
	return fit.Model{Fork: setup.Spec{Travel: travel, Left: l, Closed: here}, Exponent: n}
}

func recorded(t testing.TB, name string) spring.MeasuredSpec {
	t.Helper()
	var s spring.MeasuredSpec
	for _, row := range record.Rows(t, "readings.csv", "case,travel_mm,force_N,sign", 20) {
		if row[0] != name {
			continue
		}
		r := read(record.Number(t, row[1]), record.Number(t, row[2]))
		if row[3] == "1" {
			s.Loading = append(s.Loading, r)
		} else {
			s.Unloading = append(s.Unloading, r)
		}
	}
	return s
}

// TestAgainstCurveFit compares with scipy.optimize.curve_fit on the same
// readings, recorded by .ci/vectors/fit.py: values to 1e-6 and standard errors
// to 1e-4 of themselves, what its finite differences are good for.
func TestAgainstCurveFit(t *testing.T) {
	register.Cite(t, "X-55")
	of := map[string]func(*fit.Result) (value, stdErr float64){
		"rate N/mm":         in(fit.Rate(), newtonPerMM),
		"preload mm":        in(fit.Preload(), mm),
		"friction N":        in(fit.Friction(), units.Newton),
		"gap volume mL":     in(fit.GapVolume(), units.Milliliter),
		"chamber volume mL": in(fit.ChamberVolume(), units.Milliliter),
		"exponent":          in(fit.Exponent(), 1),
	}
	for _, c := range []struct {
		name  string
		model fit.Model
		free  []fit.Free
		held  []string
	}{
		{"loop", coil, []fit.Free{freeRate, freePreload, friction}, nil},
		{"gap", gap, []fit.Free{freeRate, freePreload, freeGap}, nil},
		{"air", air, []fit.Free{fit.ChamberVolume().Between(300*units.Milliliter, 900*units.Milliliter),
			fit.Exponent().Between(1, 1.6)}, nil},
		{"bound", gap, []fit.Free{fit.Rate().Between(1*newtonPerMM, 9*newtonPerMM), freePreload, freeGap}, []string{"rate"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := fit.Fit(recorded(t, c.name), c.model, c.free...)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(r.Held, c.held) {
				t.Errorf("held %v, want %v", r.Held, c.held)
			}
			compared := 0
			for _, row := range record.Rows(t, "curve_fit.csv", "case,parameter,value,standard_error", 8) {
				if row[0] != c.name {
					continue
				}
				compared++
				value, stdErr := of[row[1]](r)
				if want := record.Number(t, row[2]); !(math.Abs(value-want) <= 1e-6*math.Abs(want)) {
					t.Errorf("%s %v, curve_fit says %v", row[1], value, want)
				}
				// With a parameter held the standard errors do not compare: ours take it as known.
				if want := record.Number(t, row[3]); c.held == nil && !(math.Abs(stdErr-want) <= 1e-4*want) {
					t.Errorf("standard error of %s %v, curve_fit says %v", row[1], stdErr, want)
				}
			}
			if compared != len(c.free) {
				t.Errorf("%d parameters compared, want %d", compared, len(c.free))
			}
			residuals(t, r, recorded(t, c.name))
		})
	}
}

// in reads a parameter and its standard error in a unit.
func in[Q ~float64](p fit.Parameter[Q], unit Q) func(*fit.Result) (value, stdErr float64) {
	return func(r *fit.Result) (float64, float64) {
		v, e := p.Estimate(r)
		return float64(v / unit), float64(e / unit)
	}
}

// residuals checks that the residuals are those of the fitted curve.
func residuals(t *testing.T, r *fit.Result, s spring.MeasuredSpec) {
	t.Helper()
	if len(r.Residuals) != len(s.Loading)+len(s.Unloading) {
		t.Fatalf("%d residuals of %d readings", len(r.Residuals), len(s.Loading)+len(s.Unloading))
	}
	curve := r.Curve()
	for i, q := range append(slices.Clone(s.Loading), s.Unloading...) {
		friction := r.Model.Fork.Friction
		if i >= len(s.Loading) {
			friction = -friction
		}
		want := q.Force - curve.Force(q.Travel) - friction
		got := r.Residuals[i]
		if got.Travel != q.Travel || !(math.Abs(float64(got.Force-want)) <= 1e-6) || got.Unloading != (i >= len(s.Loading)) {
			t.Errorf("residual %d is %+v, want %v", i, got, want)
		}
	}
}

// exact is what a bench without noise would read.
func exact(t testing.TB, m fit.Model, n int) spring.MeasuredSpec {
	t.Helper()
	c := m.Curve()
	if err := spring.Err(c); err != nil {
		t.Fatal(err)
	}
	var s spring.MeasuredSpec
	for i := range n {
		x := min(c.Stroke(), c.Stroke()*units.Length(i)/units.Length(n-1))
		s.Loading = append(s.Loading, spring.Reading{Travel: x, Force: c.Force(x) + m.Fork.Friction})
		s.Unloading = append(s.Unloading, spring.Reading{Travel: x, Force: c.Force(x) - m.Fork.Friction})
	}
	return s
}

func TestFitFindsWhatItWasGiven(t *testing.T) {
	truth := fit.Rate().With(fit.Preload().With(fit.GapVolume().With(gap, 720*units.Milliliter), 7*mm), 9.3*newtonPerMM)
	truth = fit.Friction().With(fit.Exponent().With(truth, 1.25), 30)
	r, err := fit.Fit(exact(t, truth, 60), gap, freeRate, freePreload, freeGap, fit.Exponent().Between(1, 1.5), friction)
	if err != nil {
		t.Fatal(err)
	}
	for name, read := range map[string]func(fit.Model) float64{
		"rate": of(fit.Rate()), "preload": of(fit.Preload()), "gap volume": of(fit.GapVolume()),
		"exponent": of(fit.Exponent()), "friction": of(fit.Friction()),
	} {
		if got, want := read(r.Model), read(truth); !(math.Abs(got-want) <= 1e-6*want) {
			t.Errorf("%s %v, want %v", name, got, want)
		}
	}
	// Exact readings leave no scatter, only rounding.
	if r.Sigma > 1e-6 || len(r.Held) != 0 {
		t.Errorf("scatter %v, held %v", r.Sigma, r.Held)
	}
	// Less gas and a higher exponent both stiffen the end of the stroke.
	c := r.Correlation(fit.GapVolume(), fit.Exponent())
	if !(c > 0.9 && c <= 1) || r.Correlation(fit.Exponent(), fit.GapVolume()) != c {
		t.Errorf("correlation of volume and exponent %v", c)
	}
	if c = r.Correlation(fit.Rate(), fit.Rate()); !(math.Abs(c-1) <= 1e-12) {
		t.Errorf("correlation of the rate with itself %v", c)
	}
	if c = r.Correlation(fit.ChamberVolume(), fit.Rate()); c != 0 {
		t.Errorf("a parameter that is not free correlates by %v", c)
	}
	if c = r.Correlation(fit.Rate(), fit.ChamberVolume()); c != 0 {
		t.Errorf("correlation with a parameter that is not free %v", c)
	}
	if v, _ := fit.GapVolume().Of(gap); v != 900*units.Milliliter {
		t.Errorf("the model that was given has become one of %v", v)
	}
}

func of[Q ~float64](p fit.Parameter[Q]) func(fit.Model) float64 {
	return func(m fit.Model) float64 { v, _ := p.Of(m); return float64(v) }
}

// Whatever a fork has can be free: chambers, valves, legs by themselves, springs of
// any kind.
func TestEveryPart(t *testing.T) {
	soft := fit.NewParameter("soft rate", func(m *fit.Model) (units.Stiffness, bool) {
		s, ok := setup.Find[spring.StackSpec](m.Fork.Right)
		return s.Soft.Rate, ok
	}, func(m *fit.Model, v units.Stiffness) {
		s := m.Fork.Right.Springs[0].(spring.StackSpec)
		s.Soft.Rate = v
		m.Fork.Right.Springs[0] = s
	})
	stack := spring.StackSpec{Soft: spring.CoilPart{Rate: 8 * newtonPerMM, FreeLength: 100 * mm, SolidLength: 40 * mm},
		Hard: spring.CoilPart{Rate: 20 * newtonPerMM, FreeLength: 400 * mm, SolidLength: 50 * mm}}
	two := air
	two.Fork.Right = setup.Leg{Springs: []spring.Spec{stack}, Gap: gap.Fork.Left.Gap}
	second := air.Fork.Left
	piston := *second.Air
	piston.SecondVolume, piston.SecondGauge = 80*units.Milliliter, units.Gauge(16*units.Bar)
	second.Air = &piston
	behind := fit.NewParameter("second gauge",
		func(m *fit.Model) (units.Pressure, bool) {
			return units.Pressure(m.Fork.Left.Air.SecondGauge.In(units.Pascal)), m.Fork.Left.Air != nil
		}, func(m *fit.Model, v units.Pressure) { m.Fork.Left.Air.SecondGauge = units.Gauge(v) })
	for _, c := range []struct {
		name  string
		start fit.Model
		truth fit.Model
		free  []fit.Free
		read  []func(fit.Model) float64
	}{
		{"negative chamber and gauge", two,
			fit.NegativeVolume().With(fit.Gauge().With(two, 9.1*units.Bar), 82*units.Milliliter),
			[]fit.Free{fit.NegativeVolume().Between(40*units.Milliliter, 150*units.Milliliter),
				fit.Gauge(setup.Left).Between(6*units.Bar, 12*units.Bar)},
			[]func(fit.Model) float64{of(fit.NegativeVolume()), of(fit.Gauge())}},
		{"stack and gap of the right leg", two,
			soft.With(fit.GapVolume().With(two, 800*units.Milliliter), 9*newtonPerMM),
			[]fit.Free{soft.Between(5*newtonPerMM, 15*newtonPerMM),
				fit.GapVolume(setup.Right).Between(700*units.Milliliter, 1.5*units.Liter)},
			[]func(fit.Model) float64{of(soft), of(fit.GapVolume(setup.Right))}},
		{"pressure behind a floating piston", onBench(290*mm, 1.3, second),
			behind.With(onBench(290*mm, 1.3, second), 18*units.Bar),
			[]fit.Free{behind.Between(12*units.Bar, 25*units.Bar)}, []func(fit.Model) float64{of(behind)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := fit.Fit(exact(t, c.truth, 40), c.start, c.free...)
			if err != nil {
				t.Fatal(err)
			}
			for i, read := range c.read {
				if got, want := read(r.Model), read(c.truth); !(math.Abs(got-want) <= 1e-6*want) {
					t.Errorf("%v is %v, want %v", c.free[i], got, want)
				}
			}
		})
	}
}

// What the bench holds beside the unknown spring is taken off.
func TestFitWithRest(t *testing.T) {
	topOut, err := spring.NewTopOut(spring.TopOutSpec{Rate: 20 * newtonPerMM, Length: 30 * mm, Travel: 300 * mm})
	if err != nil {
		t.Fatal(err)
	}
	model := onBench(300*mm, 1, setup.Leg{Springs: []spring.Spec{linear, spring.Given{Of: topOut}}})
	r, err := fit.Fit(exact(t, fit.Preload().With(model, 5*mm), 20), model, freePreload)
	if err != nil || !(math.Abs(of(fit.Preload())(r.Model)-0.005) <= 1e-12) {
		t.Errorf("preload beside a top-out spring: %+v, %v", r, err)
	}
}

func TestUnidentifiable(t *testing.T) {
	oneWay := exact(t, fit.Preload().With(coil, 5*mm), 20)
	oneWay.Unloading = nil
	shallow := recorded(t, "gap")
	shallow.Loading = shallow.Loading[:6] // the first 50 mm of 300
	loose := fit.Preload().With(coil, -45*mm)
	loose.Fork.Travel = 40 * mm
	for _, c := range []struct {
		name     string
		readings spring.MeasuredSpec
		model    fit.Model
		free     []fit.Free
		want     []string
	}{
		{"preload and friction from compressing alone", oneWay, coil, []fit.Free{freeRate, freePreload, friction},
			[]string{"preload", "friction"}},
		{"volume and exponent from the first part of the stroke", shallow, gap,
			[]fit.Free{freeRate, freePreload, freeGap, fit.Exponent().Between(1, 1.5)}, nil},
		{"rate of a spring that is never touched", exact(t, loose, 10), loose, []fit.Free{freeRate}, []string{"rate"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := fit.Fit(c.readings, c.model, c.free...)
			var vague *fit.UnidentifiableError
			if !errors.As(err, &vague) {
				t.Fatalf("Fit = %+v, %v; want an *UnidentifiableError", r, err)
			}
			if c.want != nil && !slices.Equal(vague.Parameters, c.want) {
				t.Errorf("%v; want it to name %v", err, c.want)
			}
		})
	}
}

func TestFitRefuses(t *testing.T) {
	good := recorded(t, "gap")
	with := func(r spring.Reading) spring.MeasuredSpec {
		return spring.MeasuredSpec{Loading: append(slices.Clone(good.Loading), r)}
	}
	for _, c := range []struct {
		name     string
		readings spring.MeasuredSpec
		model    fit.Model
		free     []fit.Free
		want     string
	}{
		{"nothing free", good, gap, nil, "Fit.Free = nothing: want 1 free parameter or more"},
		{"too few readings", spring.MeasuredSpec{Loading: good.Loading[:2]}, gap, []fit.Free{freeRate, freePreload},
			"Fit.readings = 2 at x ≥ 0: want more than the 2 free parameters"},
		{"freed by nobody", good, gap, []fit.Free{{}}, "Fit.Free = a zero one"},
		{"freed twice", good, gap, []fit.Free{freeRate, freeRate}, "Fit.Free = rate: want each parameter once"},
		{"no such element", good, gap, []fit.Free{fit.ChamberVolume().Between(1, 2)},
			"Fit.Free = chamber volume: want a parameter of what the fork has"},
		{"exponent without gas", good, coil, []fit.Free{fit.Exponent().Between(1, 1.4)}, "Fit.Free = exponent"},
		{"bounds out of order", good, gap, []fit.Free{fit.Exponent().Between(1.4, 1)},
			"bounds of exponent = 1.4 to 1: want a lower bound below the upper one"},
		{"bounds NaN", good, gap, []fit.Free{fit.Rate().Between(units.Stiffness(math.NaN()), 1e4)}, "bounds of rate"},
		{"no gas left at a bound", good, gap, []fit.Free{fit.GapVolume().Between(500*units.Milliliter, 900*units.Milliliter)},
			"with gap volume at a bound: readings = 300 mm: want within the model's stroke of 275 mm"},
		{"exponent beyond any gas", good, gap, []fit.Free{fit.Exponent().Between(1, 3)},
			"with exponent at a bound: Model.Exponent = 3"},
		{"known value missing", good, fit.Rate().With(gap, 0), []fit.Free{freeGap},
			"Model.Fork.Left.Springs[0].Rate = 0 N/mm"},
		{"reading beyond the stroke", with(read(301, 4000)), gap, []fit.Free{freeRate},
			"readings = 301 mm: want within the model's stroke of 300 mm"},
		{"reading NaN", with(read(math.NaN(), 4000)), gap, []fit.Free{freeRate}, "Fit.Loading[31].Travel = NaN mm"},
		{"friction below zero", good, gap, []fit.Free{fit.Friction().Between(-1, 1)}, "Model.Fork.Friction = -1 N"},
		{"empty model", good, fit.Model{}, []fit.Free{fit.Friction().Between(0, 1)}, "Model.Fork.Travel = 0 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := fit.Fit(c.readings, c.model, c.free...)
			if err == nil || !strings.Contains(err.Error(), c.want) || !errors.As(err, new(*units.RangeError)) {
				t.Errorf("Fit = %+v, %v; want a *units.RangeError with %q", r, err, c.want)
			}
		})
	}
}

func FuzzFit(f *testing.F) {
	f.Add(9e3, 0.006, 700e-6, 1.3, 20.0, 0.3, 5.0, uint8(12), uint8(31))
	f.Fuzz(func(t *testing.T, rate, preload, volume, n, force, travel, wobble float64, readings, free uint8) {
		truth := fit.Rate().With(fit.Preload().With(gap, units.Length(preload)), units.Stiffness(rate))
		truth.Fork.Travel, truth.Fork.Friction, truth.Exponent = units.Length(travel), units.Force(force), n
		truth = fit.GapVolume().With(truth, units.Volume(volume))
		if spring.Err(truth.Curve()) != nil || readings < 2 {
			return
		}
		s := exact(t, truth, int(readings))
		for i := range s.Loading {
			s.Loading[i].Force += units.Force(wobble * math.Sin(float64(3*i)))
		}
		var list []fit.Free
		for i, p := range []fit.Free{freeRate, freePreload, freeGap, fit.Exponent().Between(1, 1.5), friction} {
			if free&(1<<i) != 0 {
				list = append(list, p)
			}
		}
		r, err := fit.Fit(s, truth, list...)
		if err != nil {
			return
		}
		_, rateErr := fit.Rate().Estimate(r)
		_, gapErr := fit.GapVolume().Estimate(r)
		for _, v := range []float64{float64(r.Sigma), float64(rateErr), float64(gapErr),
			r.Correlation(fit.Rate(), fit.Preload()), float64(r.Curve().Force(0))} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v holds %v", r, v)
			}
		}
	})
}

func BenchmarkFit(b *testing.B) {
	s := recorded(b, "gap")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := fit.Fit(s, gap, freeRate, freePreload, freeGap); err != nil {
			b.Fatal(err)
		}
	}
}

// The names are listed as a person would.
func TestUnidentifiableErrorText(t *testing.T) {
	for want, names := range map[string][]string{"a: why": {"a"}, "a and b: why": {"a", "b"},
		"a, b and c: why": {"a", "b", "c"}} {
		want = "fit: the readings do not determine " + want
		if got := (&fit.UnidentifiableError{Parameters: names, Reason: "why"}).Error(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
