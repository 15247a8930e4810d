package fit_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/internal/record"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

const newtonPerMM = units.NewtonPerMillimeter

var sea = units.Absolute(1.01325 * units.Bar)

// What is known of the springs in testdata/readings.csv.
var (
	coil = fit.Model{Coil: spring.CoilSpec{Rate: 8 * newtonPerMM, Travel: 300 * mm}}
	gap  = fit.Model{Coil: coil.Coil, Gap: spring.ChamberSpec{Area: 18 * units.SquareCentimeter, Volume: 900 * units.Milliliter,
		Pressure: sea, Ambient: sea, Exponent: 1.3, Travel: 300 * mm}}
	air = fit.Model{Air: spring.AirSpec{Bore: 34 * mm, Rod: 12 * mm, Volume: 500 * units.Milliliter, Pressure: units.Absolute(10.6 * units.Bar),
		NegativeVolume: 70 * units.Milliliter, Port: 6 * mm, Ambient: sea, Exponent: 1.3, Travel: 290 * mm}}

	freeRate    = fit.FreeRate(1*newtonPerMM, 30*newtonPerMM)
	freePreload = fit.FreePreload(-20*mm, 40*mm)
	freeGap     = fit.FreeGapVolume(600*units.Milliliter, 3*units.Liter)
)

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
	for _, c := range []struct {
		name  string
		model fit.Model
		free  []fit.Free
		held  []fit.Parameter
	}{
		{"loop", coil, []fit.Free{freeRate, freePreload, fit.FreeFriction(0, 200)}, nil},
		{"gap", gap, []fit.Free{freeRate, freePreload, freeGap}, nil},
		{"air", air, []fit.Free{fit.FreeChamberVolume(300*units.Milliliter, 900*units.Milliliter), fit.FreeExponent(1, 1.6)}, nil},
		{"bound", gap, []fit.Free{fit.FreeRate(1*newtonPerMM, 9*newtonPerMM), freePreload, freeGap}, []fit.Parameter{fit.Rate}},
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
				var value, stdErr float64
				switch row[1] {
				case "rate N/mm":
					value, stdErr = r.Model.Coil.Rate.In(newtonPerMM), r.StdErr.Rate.In(newtonPerMM)
				case "preload mm":
					value, stdErr = r.Model.Coil.Preload.In(mm), r.StdErr.Preload.In(mm)
				case "friction N":
					value, stdErr = float64(r.Model.Friction), float64(r.StdErr.Friction)
				case "gap volume mL":
					value, stdErr = r.Model.Gap.Volume.In(units.Milliliter), r.StdErr.GapVolume.In(units.Milliliter)
				case "chamber volume mL":
					value, stdErr = r.Model.Air.Volume.In(units.Milliliter), r.StdErr.ChamberVolume.In(units.Milliliter)
				case "exponent":
					value, stdErr = r.Model.Air.Exponent, r.StdErr.Exponent
				}
				if want := record.Number(t, row[2]); math.Abs(value-want) > 1e-6*math.Abs(want) {
					t.Errorf("%s %v, curve_fit says %v", row[1], value, want)
				}
				// With a parameter held the standard errors do not compare: ours take it as known.
				if want := record.Number(t, row[3]); c.held == nil && math.Abs(stdErr-want) > 1e-4*want {
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

// residuals checks that the residuals are those of the fitted curve.
func residuals(t *testing.T, r *fit.Result, s spring.MeasuredSpec) {
	t.Helper()
	if len(r.Residuals) != len(s.Loading)+len(s.Unloading) {
		t.Fatalf("%d residuals of %d readings", len(r.Residuals), len(s.Loading)+len(s.Unloading))
	}
	curve := r.Curve()
	for i, q := range append(slices.Clone(s.Loading), s.Unloading...) {
		friction := r.Model.Friction
		if i >= len(s.Loading) {
			friction = -friction
		}
		want := q.Force - curve.Force(q.Travel) - friction
		if got := r.Residuals[i]; got.Travel != q.Travel || math.Abs(float64(got.Force-want)) > 1e-6 || got.Unloading != (i >= len(s.Loading)) {
			t.Errorf("residual %d is %+v, want %v", i, got, want)
		}
	}
}

// exact is what a bench without noise would read.
func exact(t testing.TB, m fit.Model, n int) spring.MeasuredSpec {
	t.Helper()
	c, err := m.Curve()
	if err != nil {
		t.Fatal(err)
	}
	var s spring.MeasuredSpec
	for i := range n {
		x := min(c.Stroke(), c.Stroke()*units.Length(i)/units.Length(n-1))
		s.Loading = append(s.Loading, spring.Reading{Travel: x, Force: c.Force(x) + m.Friction})
		s.Unloading = append(s.Unloading, spring.Reading{Travel: x, Force: c.Force(x) - m.Friction})
	}
	return s
}

func TestFitFindsWhatItWasGiven(t *testing.T) {
	truth := gap
	truth.Coil.Rate, truth.Coil.Preload = 9.3*newtonPerMM, 7*mm
	truth.Gap.Volume, truth.Gap.Exponent = 720*units.Milliliter, 1.25
	truth.Friction = 30
	r, err := fit.Fit(exact(t, truth, 60), gap, freeRate, freePreload, freeGap, fit.FreeExponent(1, 1.5), fit.FreeFriction(0, 200))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"rate", float64(r.Model.Coil.Rate), float64(truth.Coil.Rate)},
		{"preload", float64(r.Model.Coil.Preload), float64(truth.Coil.Preload)},
		{"gap volume", float64(r.Model.Gap.Volume), float64(truth.Gap.Volume)},
		{"exponent", r.Model.Gap.Exponent, truth.Gap.Exponent},
		{"friction", float64(r.Model.Friction), float64(truth.Friction)},
	} {
		if math.Abs(c.got-c.want) > 1e-6*c.want {
			t.Errorf("%s %v, want %v", c.name, c.got, c.want)
		}
	}
	// Exact readings leave no scatter, only rounding.
	if r.Sigma > 1e-6 || len(r.Held) != 0 {
		t.Errorf("scatter %v, held %v", r.Sigma, r.Held)
	}
	// Less gas and a higher exponent both stiffen the end of the stroke.
	if c := r.Correlation(fit.GapVolume, fit.Exponent); !(c > 0.9 && c <= 1) || r.Correlation(fit.Exponent, fit.GapVolume) != c {
		t.Errorf("correlation of volume and exponent %v", c)
	}
	if c := r.Correlation(fit.Rate, fit.Rate); math.Abs(c-1) > 1e-12 {
		t.Errorf("correlation of the rate with itself %v", c)
	}
	if c := r.Correlation(fit.Rate, fit.ChamberVolume); c != 0 {
		t.Errorf("correlation with a parameter that is not free %v", c)
	}
}

// What the bench holds beside the unknown spring is taken off.
func TestFitWithRest(t *testing.T) {
	topOut, err := spring.NewTopOut(spring.TopOutSpec{Rate: 20 * newtonPerMM, Length: 30 * mm, Travel: 300 * mm})
	if err != nil {
		t.Fatal(err)
	}
	truth := coil
	truth.Coil.Preload, truth.Rest = 5*mm, topOut
	model := truth
	model.Coil.Preload = 0
	r, err := fit.Fit(exact(t, truth, 20), model, freePreload)
	if err != nil || math.Abs(float64(r.Model.Coil.Preload-5*mm)) > 1e-9 {
		t.Errorf("preload beside a top-out spring: %+v, %v", r, err)
	}
}

func TestUnidentifiable(t *testing.T) {
	preloaded := coil
	preloaded.Coil.Preload = 5 * mm
	oneWay := exact(t, preloaded, 20)
	oneWay.Unloading = nil
	shallow := recorded(t, "gap")
	shallow.Loading = shallow.Loading[:6] // the first 50 mm of 300
	loose := coil
	loose.Coil.Preload, loose.Coil.Travel = -45*mm, 40*mm
	for _, c := range []struct {
		name     string
		readings spring.MeasuredSpec
		model    fit.Model
		free     []fit.Free
		want     []fit.Parameter
	}{
		{"preload and friction from compressing alone", oneWay, coil, []fit.Free{freeRate, freePreload, fit.FreeFriction(0, 200)},
			[]fit.Parameter{fit.Preload, fit.Friction}},
		{"volume and exponent from the first part of the stroke", shallow, gap, []fit.Free{freeRate, freePreload, freeGap, fit.FreeExponent(1, 1.5)}, nil},
		{"rate of a spring that is never touched", exact(t, loose, 10), loose, []fit.Free{freeRate}, []fit.Parameter{fit.Rate}},
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
		{"too few readings", spring.MeasuredSpec{Loading: good.Loading[:2]}, gap, []fit.Free{freeRate, freePreload}, "Fit.readings = 2 at x ≥ 0: want more than the 2 free parameters"},
		{"freed twice", good, gap, []fit.Free{freeRate, freeRate}, "Fit.Free = rate: want each parameter once"},
		{"no such element", good, gap, []fit.Free{fit.FreeChamberVolume(1, 2)}, "Fit.Free = chamber volume: want a parameter of an element the model has"},
		{"exponent without gas", good, coil, []fit.Free{fit.FreeExponent(1, 1.4)}, "Fit.Free = exponent"},
		{"bounds out of order", good, gap, []fit.Free{fit.FreeExponent(1.4, 1)}, "bounds of exponent = 1.4 to 1: want a lower bound below the upper one"},
		{"bounds NaN", good, gap, []fit.Free{fit.FreeRate(units.Stiffness(math.NaN()), 1e4)}, "bounds of rate"},
		{"no gas left at a bound", good, gap, []fit.Free{fit.FreeGapVolume(500*units.Milliliter, 900*units.Milliliter)}, "with gap volume at a bound: Model.Gap.Volume = 500 mL: want above the 540.0 mL swept"},
		{"exponent beyond any gas", good, gap, []fit.Free{fit.FreeExponent(1, 3)}, "with exponent at a bound: Model.Gap.Exponent = 3"},
		{"known value missing", good, fit.Model{Gap: gap.Gap, Coil: spring.CoilSpec{Travel: 300 * mm}}, []fit.Free{freeGap}, "Model.Coil.Rate = 0 N/mm"},
		{"reading beyond the stroke", with(read(301, 4000)), gap, []fit.Free{freeRate}, "readings = 301 mm: want within the model's stroke of 300 mm"},
		{"reading NaN", with(read(math.NaN(), 4000)), gap, []fit.Free{freeRate}, "Fit.Loading[31].Travel = NaN mm"},
		{"friction below zero", good, gap, []fit.Free{fit.FreeFriction(-1, 1)}, "Model.Friction = -1 N"},
		{"empty model", good, fit.Model{}, []fit.Free{fit.FreeFriction(0, 1)}, "the model is empty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := fit.Fit(c.readings, c.model, c.free...)
			if err == nil || !strings.Contains(err.Error(), c.want) || !errors.As(err, new(*units.RangeError)) {
				t.Errorf("Fit = %+v, %v; want a *units.RangeError with %q", r, err, c.want)
			}
		})
	}
}

func TestParameterNames(t *testing.T) {
	if got := fit.GapVolume.String(); got != "gap volume" {
		t.Errorf("GapVolume is %q", got)
	}
	if got := fit.Parameter(-1).String(); got != "Parameter(-1)" {
		t.Errorf("Parameter(-1) is %q", got)
	}
}

func FuzzFit(f *testing.F) {
	f.Add(9e3, 0.006, 700e-6, 1.3, 20.0, 0.3, 5.0, uint8(12), uint8(31))
	f.Fuzz(func(t *testing.T, rate, preload, volume, n, friction, travel, wobble float64, readings, free uint8) {
		truth := gap
		truth.Coil.Rate, truth.Coil.Preload, truth.Coil.Travel = units.Stiffness(rate), units.Length(preload), units.Length(travel)
		truth.Gap.Volume, truth.Gap.Exponent, truth.Gap.Travel = units.Volume(volume), n, units.Length(travel)
		truth.Friction = units.Force(friction)
		if _, err := truth.Curve(); err != nil || readings < 2 {
			return
		}
		s := exact(t, truth, int(readings))
		for i := range s.Loading {
			s.Loading[i].Force += units.Force(wobble * math.Sin(float64(3*i)))
		}
		var list []fit.Free
		for i, p := range []fit.Free{freeRate, freePreload, freeGap, fit.FreeExponent(1, 1.5), fit.FreeFriction(0, 200)} {
			if free&(1<<i) != 0 {
				list = append(list, p)
			}
		}
		r, err := fit.Fit(s, truth, list...)
		if err != nil {
			return
		}
		for _, v := range []float64{float64(r.Sigma), float64(r.StdErr.Rate), float64(r.StdErr.Preload), float64(r.StdErr.GapVolume), r.StdErr.Exponent,
			float64(r.StdErr.Friction), r.Correlation(fit.Rate, fit.Preload), float64(r.Curve().Force(0))} {
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
