package spring_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// randomAir is a plausible air spring, every field drawn afresh.
func randomAir(r *rand.Rand) spring.AirSpec {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	s := spring.AirSpec{
		Bore:     units.Length(between(20, 48)) * mm,
		Travel:   units.Length(between(40, 310)) * mm,
		Pressure: units.Absolute(units.Pressure(between(1.5, 16)) * units.Bar),
		Ambient:  units.Absolute(units.Pressure(between(0.6, 1.05)) * units.Bar),
		Exponent: between(1, 1.4),
	}
	s.Rod = s.Bore * units.Length(between(0.2, 0.5))
	swept := float64(geometry.Circle(s.Bore)) * float64(s.Travel)
	s.Volume = units.Volume(swept * between(1.2, 2.5))
	s.NegativeVolume = units.Volume(swept * between(0.1, 0.8))
	return s
}

// each runs a property on many random air springs.
func each(t *testing.T, property func(t *testing.T, s spring.AirSpec, a spring.Air)) {
	t.Helper()
	r := rand.New(rand.NewPCG(7, 11))
	for i := range 300 {
		s := randomAir(r)
		a, err := spring.NewAir(s)
		if err != nil {
			t.Fatalf("case %d: %+v: %v", i, s, err)
		}
		property(t, s, a)
		if t.Failed() {
			t.Fatalf("case %d: %+v", i, s)
		}
	}
}

func close(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*(1+math.Abs(want))
}

func TestAirWithoutPressureStartsAtZero(t *testing.T) {
	each(t, func(t *testing.T, s spring.AirSpec, _ spring.Air) {
		s.NegativeVolume, s.Pressure = 0, s.Ambient
		a := must[spring.Air](t)(spring.NewAir(s))
		if f := a.Force(0); !(math.Abs(float64(f)) <= 1e-9) {
			t.Errorf("F(0) = %v, want 0 N", f)
		}
	})
}

func TestAirEqualizedStartsAtGaugeTimesRod(t *testing.T) {
	each(t, func(t *testing.T, s spring.AirSpec, a spring.Air) {
		want := s.Pressure.Sub(s.Ambient).In(units.Pascal) * float64(geometry.Circle(s.Rod))
		if got := float64(a.Force(0)); !close(got, want, 1e-12) {
			t.Errorf("F(0) = %v N, want gauge times rod area, %v N", got, want)
		}
	})
}

func TestAirPortMeetsAtItsTravel(t *testing.T) {
	each(t, func(t *testing.T, s spring.AirSpec, _ spring.Air) {
		s.Port, s.Exponent = 5*mm, 1
		a := must[spring.Air](t)(spring.NewAir(s))
		negative, ok := a.Negative()
		p, q := a.Positive().Pressure(s.Port).In(units.Pascal), negative.Pressure(s.Port).In(units.Pascal)
		if !ok || !close(p, q, 1e-12) {
			t.Errorf("at the port the chambers hold %v Pa and %v Pa, want one pressure", p, q)
		}
		want := (p - s.Ambient.In(units.Pascal)) * float64(geometry.Circle(s.Rod))
		if got := float64(a.Force(s.Port)); !close(got, want, 1e-9) {
			t.Errorf("at the port F = %v N, want gauge times rod area, %v N", got, want)
		}
	})
}

func TestAirRises(t *testing.T) {
	each(t, func(t *testing.T, _ spring.AirSpec, a spring.Air) { curvetest.Rising(t, a) })
}

func TestAirStiffensWithExponent(t *testing.T) {
	each(t, func(t *testing.T, s spring.AirSpec, _ spring.Air) {
		var last units.Force
		for _, n := range []float64{1, 1.3, 1.4} {
			s.Exponent = n
			a := must[spring.Air](t)(spring.NewAir(s))
			f := a.Force(s.Travel * 3 / 4)
			if f <= last {
				t.Errorf("n = %v: %v at three quarters of travel, not above the %v of the slower gas", n, f, last)
			}
			last = f
		}
	})
}

func TestAirAmbientActsOnTheRod(t *testing.T) {
	const drop = 30 * units.Kilopascal
	each(t, func(t *testing.T, s spring.AirSpec, a spring.Air) {
		sealed := s
		if negative, ok := a.Negative(); ok {
			sealed.NegativePressure = negative.Pressure(0)
		}
		sealed.Ambient = units.Absolute(units.Pressure(s.Ambient.In(units.Pascal)) - drop)
		high := must[spring.Air](t)(spring.NewAir(sealed))
		want := float64(drop) * float64(geometry.Circle(s.Rod))
		for _, x := range []units.Length{0, s.Travel / 2, s.Travel} {
			if got := float64(high.Force(x) - a.Force(x)); !close(got, want, 1e-9) {
				t.Errorf("at %v the sealed spring gains %v N, want %v N", x, got, want)
			}
		}
	})
}

func TestChambersJoin(t *testing.T) {
	// Two chambers of one pressure, joined, are one chamber of the sum.
	half := gap
	half.Volume, half.Area = gap.Volume/2, gap.Area/2
	a := must[spring.Chamber](t)(spring.NewChamber(half))
	whole := must[spring.Chamber](t)(spring.NewChamber(gap))
	both := spring.Parallel(a, a)
	for _, p := range spring.Sample(whole, 20) {
		if got := both.Force(p.Travel); !close(float64(got), float64(p.Force), 1e-12) {
			t.Errorf("at %v two halves give %v, the whole %v", p.Travel, got, p.Force)
		}
	}
}

func TestMixedRatesAverage(t *testing.T) {
	soft, hard, mean := coil, coil, coil
	soft.Rate, hard.Rate, mean.Rate = 4.6*units.NewtonPerMillimeter, 4.8*units.NewtonPerMillimeter,
		4.7*units.NewtonPerMillimeter
	newCoil := must[spring.Coil](t)
	mixed := spring.Parallel(newCoil(spring.NewCoil(soft)), newCoil(spring.NewCoil(hard)))
	m := newCoil(spring.NewCoil(mean))
	pair := spring.Parallel(m, m)
	for _, p := range spring.Sample(pair, 10) {
		if got := mixed.Force(p.Travel); !close(float64(got), float64(p.Force), 1e-12) {
			t.Errorf("at %v mixed springs give %v, a pair at the mean rate %v", p.Travel, got, p.Force)
		}
	}
}

func TestAirEnergyIsGasPlusAmbientWork(t *testing.T) {
	// For n = 1 the work on each gas is p₀·V₀·ln(V₀/V): the textbook isothermal
	// work (Çengel and Boles, Thermodynamics, example 4-3).
	each(t, func(t *testing.T, s spring.AirSpec, _ spring.Air) {
		s.Exponent = 1
		a := must[spring.Air](t)(spring.NewAir(s))
		piston, rod := float64(geometry.Circle(s.Bore)), float64(geometry.Circle(s.Rod))
		x, p := float64(s.Travel), s.Pressure.In(units.Pascal)
		v, w := float64(s.Volume), float64(s.NegativeVolume)
		want := p*v*math.Log(v/(v-piston*x)) - p*w*math.Log((w+(piston-rod)*x)/w) - s.Ambient.In(units.Pascal)*rod*x
		if got := float64(a.Energy(s.Travel)); !close(got, want, 1e-9) {
			t.Errorf("E = %v J, want %v J", got, want)
		}
	})
}

func TestEnergyIsContinuousAtIsothermal(t *testing.T) {
	near := gap
	near.Exponent = 1 + 1e-9
	iso := gap
	iso.Exponent = 1
	newChamber := must[spring.Chamber](t)
	a, b := newChamber(spring.NewChamber(near)), newChamber(spring.NewChamber(iso))
	for _, x := range []units.Length{1 * mm, 100 * mm, 305 * mm} {
		if p, q := float64(a.Energy(x)), float64(b.Energy(x)); !close(p, q, 1e-7) {
			t.Errorf("at %v: %v J for n = 1 + 1e-9, %v J for n = 1", x, p, q)
		}
	}
}

// The small-amplitude rate of an air spring in any textbook: p·A²/V at rest and γ times
// that fast, with p absolute. At 5 bar, 100 cm³ and 8 cm²: 3200 N/m and 4480 N/m; with
// gauge pressure the first would be a fifth too low.
func TestSmallAmplitudeRate(t *testing.T) {
	register.Cite(t, "H-03")
	for n, want := range map[float64]float64{1: 3200, 1.4: 4480} {
		c := must[spring.Chamber](t)(spring.NewChamber(spring.ChamberSpec{
			Area: 8 * units.SquareCentimeter, Volume: 100 * units.Milliliter,
			Pressure: units.Absolute(5 * units.Bar), Ambient: sea, Exponent: n, Travel: 50 * mm}))
		if got := float64(c.Rate(0)); !close(got, want, 1e-12) {
			t.Errorf("n = %v: %v N/m, want %v", n, got, want)
		}
	}
}

func TestFloatingPiston(t *testing.T) {
	for _, n := range []float64{1, 1.3, 1.4} {
		t.Run(fmt.Sprintf("n=%v", n), func(t *testing.T) {
			s := second
			s.Air.Exponent = n
			c := must[spring.FloatingPiston](t)(spring.NewFloatingPiston(s))
			plain := must[spring.Air](t)(spring.NewAir(s.Air))
			curvetest.Rising(t, c)
			e := c.Engage()
			if !(e > 0 && e < s.Air.Travel) {
				t.Fatalf("engages at %v, want within travel", e)
			}
			if got, want := float64(c.Force(e*0.99)), float64(plain.Force(e*0.99)); !close(got, want, 1e-12) {
				t.Errorf("before it engages F = %v N, want that of the main chamber alone, %v N", got, want)
			}
			// The oracle solves V₁(p) + V₂(p) = what is left, by bisection.
			x := s.Air.Travel * 9 / 10
			left := float64(s.Air.Volume+s.SecondVolume) - float64(geometry.Circle(s.Air.Bore))*float64(x)
			p1, p2 := s.Air.Pressure.In(units.Pascal), s.SecondPressure.In(units.Pascal)
			lo, hi := p2, 100*p2
			for range 200 {
				p := (lo + hi) / 2
				if float64(s.Air.Volume)*math.Pow(p1/p, 1/n)+float64(s.SecondVolume)*math.Pow(p2/p, 1/n) > left {
					lo = p
				} else {
					hi = p
				}
			}
			want := float64(plain.Force(x)) +
				(lo-plain.Positive().Pressure(x).In(units.Pascal))*float64(geometry.Circle(s.Air.Bore))
			if got := float64(c.Force(x)); !close(got, want, 1e-9) {
				t.Errorf("floating at %v F = %v N, want %v N", x, got, want)
			}
		})
	}
}

// A port past the travel at which the floating piston leaves its stop equalizes with
// both chambers: there the force is gauge pressure times rod area.
func TestFloatingPistonPort(t *testing.T) {
	s := second
	s.Air.Exponent, s.Air.Port, s.SecondPressure = 1, 30*mm, units.Absolute(10.8*units.Bar)
	c := must[spring.FloatingPiston](t)(spring.NewFloatingPiston(s))
	if c.Engage() > s.Air.Port {
		t.Fatalf("engages at %v, past the port", c.Engage())
	}
	p1, p2 := s.Air.Pressure.In(units.Pascal), s.SecondPressure.In(units.Pascal)
	v1, v2 := float64(s.Air.Volume), float64(s.SecondVolume)
	p := (p1*v1 + p2*v2) / (v1 + v2 - float64(geometry.Circle(s.Air.Bore))*float64(s.Air.Port))
	want := (p - s.Air.Ambient.In(units.Pascal)) * float64(geometry.Circle(s.Air.Rod))
	if got := float64(c.Force(s.Air.Port)); !close(got, want, 1e-9) {
		t.Errorf("at the port F = %v N, want gauge times rod area, %v N", got, want)
	}
}
