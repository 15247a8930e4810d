package setup_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

func question(t testing.TB, load units.Force) setup.Question {
	return setup.Question{Load: load, Exponent: 1.3, There: altitude(t, 2500*units.Meter)}
}

// To first order one uncertain input moves the sag by its own derivative.
func TestUncertaintyOfOneInput(t *testing.T) {
	f := must(t, motocrossCoil)
	sag, err := f.Sag(689)
	if err != nil {
		t.Fatal(err)
	}
	k := float64(f.Curve(1).Rate(sag.Middle))
	for _, c := range []struct {
		name string
		tol  setup.Tolerance
		want float64 // of sag, m
	}{
		{"load: dF/k", setup.Tolerance{Load: 10}, 10 / k},
		{"preload of two springs: √2·k_spring·dp/k", setup.Tolerance{Preload: 0.5 * mm}, math.Sqrt2 * 4900 * 0.0005 / k},
		{"rate of two springs: √2·dk·(x+p)/k", setup.Tolerance{Rate: 0.02},
			math.Sqrt2 * 0.02 * 4900 * float64(sag.Middle+6*mm) / k},
		{"nothing", setup.Tolerance{}, 0},
	} {
		s, err := motocrossCoil.Uncertainty(question(t, 689), c.tol)
		if err != nil || !(math.Abs(float64(s.Sag)-c.want) <= 0.003*c.want) {
			t.Errorf("%s: %v m, %v; want %v m", c.name, float64(s.Sag), err, c.want)
		}
	}
}

// A chamber that may be too small for the stroke is told: there is no energy to the end of it.
func TestUncertaintyOfGasWithoutRoom(t *testing.T) {
	s, air := motocrossAir, *motocrossAir.Left.Air
	air.Volume = units.Volume(float64(geometry.Circle(air.Bore))*float64(s.Travel)) * 1.02
	air.Linked = 90 * units.Milliliter // which helps at rest alone
	s.Left.Air = &air
	q := question(t, must(t, s).Curve(1).Force(s.Travel/5))
	got, err := s.Uncertainty(q, setup.Tolerance{Chambers: 0.05})
	if !errors.As(err, new(*units.RangeError)) || got != (setup.Uncertainty{}) {
		t.Errorf("%+v, %v", got, err)
	}
	d, err := s.Sample(t.Context(), q, setup.Tolerance{Chambers: 0.05}, 1000, 1)
	if err != nil || d.Failed == 0 || math.IsNaN(float64(d.Mean.Energy)) {
		t.Errorf("%d of 1000 without room, %+v, %v", d.Failed, d.Mean, err)
	}
}

// Samples and first order agree where the fork bends little.
func TestSampleAgreesWithUncertainty(t *testing.T) {
	for name, s := range layouts() {
		t.Run(name, func(t *testing.T) {
			f := must(t, s)
			q := question(t, f.Curve(1).Force(s.Travel/5))
			first, err := s.Uncertainty(q, setup.Usual())
			if err != nil {
				t.Fatal(err)
			}
			d, err := s.Sample(t.Context(), q, setup.Usual(), 4000, 1)
			if err != nil || d.Failed != 0 {
				t.Fatal(d.Failed, err)
			}
			sag, _ := f.Sag(q.Load)
			for _, c := range []struct {
				what           string
				first, sampled float64
			}{{"sag", float64(first.Sag), float64(d.StdDev.Sag)}, {"energy", float64(first.Energy), float64(d.StdDev.Energy)},
				{"drift", float64(first.Drift), float64(d.StdDev.Drift)}} {
				// 4000 samples know a deviation to 1.1 %; four of that and 2 % for the bend.
				if !(math.Abs(c.first-c.sampled) <= 0.065*c.sampled) {
					t.Errorf("%s: %v to first order, %v sampled", c.what, c.first, c.sampled)
				}
			}
			if math.Abs(float64(d.Mean.Sag-sag.Middle)) > 0.2*float64(d.StdDev.Sag) ||
				!(d.Low.Sag < sag.Middle && sag.Middle < d.High.Sag) {
				t.Errorf("sag %v, sampled %v within %v to %v", sag.Middle, d.Mean.Sag, d.Low.Sag, d.High.Sag)
			}
			again, err := s.Sample(t.Context(), q, setup.Usual(), 4000, 1)
			if err != nil || again != d {
				t.Errorf("the same seed gives other forks: %+v, %v", again, err)
			}
		})
	}
}

// Legs filled apart keep their own readings, each off by the error of the one gauge.
func TestUncertaintyOfTwoAirLegs(t *testing.T) {
	s := motocrossAir
	softer, right := *s.Left.Air, *s.Left.Air
	softer.Fill, right.Fill = fill(5), fill(5)
	s.Right.Air = &softer
	f := must(t, s)
	sag, err := f.Sag(1200)
	if err != nil {
		t.Fatal(err)
	}
	high := s
	left := *s.Left.Air
	left.Fill.Gauge, right.Fill.Gauge = left.Fill.Gauge.Add(0.1*units.Bar), right.Fill.Gauge.Add(0.1*units.Bar)
	high.Left.Air, high.Right.Air = &left, &right
	up, err := must(t, high).Sag(1200)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Uncertainty(question(t, 1200), setup.Tolerance{Gauge: 0.1 * units.Bar})
	// The step to one side and the mean of both differ by the bend between them.
	if want := float64(sag.Middle - up.Middle); err != nil || !(math.Abs(float64(d.Sag)-want) <= 0.03*want) {
		t.Errorf("sag ±%v, %v; want %v", d.Sag, err, units.Length(want))
	}
}

func TestUncertaintyRefuses(t *testing.T) {
	good := question(t, 689)
	for _, c := range []struct {
		name string
		err  error
	}{
		{"negative tolerance", second2(motocrossCoil.Uncertainty(good, setup.Tolerance{Rate: -0.01}))},
		{"NaN tolerance", second2(motocrossCoil.Uncertainty(good, setup.Tolerance{Load: units.Force(math.NaN())}))},
		{"more than the fork carries", second2(motocrossCoil.Uncertainty(question(t, 9000), setup.Usual()))},
		{"no place", second2(motocrossCoil.Uncertainty(setup.Question{Load: 689, Exponent: 1.3}, setup.Usual()))},
		{"no exponent", second2(motocrossCoil.Uncertainty(setup.Question{Load: 689, There: room}, setup.Usual()))},
		{"no fork", second2(setup.Spec{}.Uncertainty(good, setup.Usual()))},
		{"no samples", second3(motocrossCoil.Sample(t.Context(), good, setup.Usual(), 0, 1))},
	} {
		if !errors.As(c.err, new(*units.RangeError)) {
			t.Errorf("%s: error %v, want a *units.RangeError", c.name, c.err)
		}
	}
}

func second2(_ setup.Uncertainty, err error) error { return err }
func second3(_ setup.Sampled, err error) error     { return err }

// How sure a computed sag is, with what a workshop reaches.
func ExampleSpec_Uncertainty() {
	home, _ := gas.StandardAt(0, units.Celsius(20))
	event, _ := gas.StandardAt(2500*units.Meter, units.Celsius(4))
	s := setup.Spec{Travel: 170 * units.Millimeter, Closed: home,
		Left: setup.Leg{Air: &setup.Air{Bore: 33.2 * units.Millimeter, Rod: 10 * units.Millimeter,
			Volume:         258 * units.Milliliter,
			NegativeVolume: 80 * units.Milliliter, Fill: gas.Fill{Gauge: units.Gauge(6 * units.Bar), Ambient: home}}}}
	d, err := s.Uncertainty(setup.Question{Load: 319 * units.Newton, Exponent: 1.3, There: event}, setup.Usual())
	fmt.Printf("sag ±%.1f, drift ±%.1f, %v\n", d.Sag, d.Drift, err)
	// Output: sag ±2.0 mm, drift ±0.5 mm, <nil>
}

func BenchmarkUncertainty(b *testing.B) {
	q := question(b, 682)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := motocrossAir.Uncertainty(q, setup.Usual()); err != nil {
			b.Fatal(err)
		}
	}
}
