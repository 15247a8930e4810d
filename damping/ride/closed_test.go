package ride

import (
	"context"
	"math"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const nmm = units.NewtonPerMillimeter

// base is a body on one spring over a tire so stiff that the wheel is the ground.
func base(t *testing.T, mass units.Mass, rate units.Stiffness, change func(*Spec)) *Vehicle {
	t.Helper()
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	f, err := setup.New(setup.Spec{Travel: 400 * units.Millimeter, Closed: room,
		Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: rate}}}})
	if err != nil {
		t.Fatal(err)
	}
	s := Spec{Fork: f, Sprung: mass, Unsprung: 0.2, Tire: Tire{Stiffness: 2000 * nmm, Damping: 1000}}
	if change != nil {
		change(&s)
	}
	v, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.8g, want %.8g ± %g", what, got, want, tol)
	}
}

// linear is a damper of a constant rate.
type linear float64

func (c linear) Force(v units.Speed) units.Force           { return units.Force(float64(c) * float64(v)) }
func (c linear) Coefficient(units.Speed) units.DampingRate { return units.DampingRate(c) }

// S. S. Rao, Mechanical Vibrations, example of a vehicle on a sinusoidal road: 1200 kg,
// 400 kN/m, ζ = 0.5, 6 m waves at 20 km/h: r = 0.3188 and X/Y = 1.1009 (from memory); at 100
// km/h X = 0.042 m for 0.05 m. Meriam and Kraige, Dynamics, sample problem 8/4, base
// excitation without damping: 50 kg on 30 kN/m at 50 rad/s and 2 mm: −0.632 mm (inputs
// read in a companion, answer from memory). Scaled down in mass and stiffness together,
// to what a tire of 2000 N/mm is rigid for.
func TestBaseExcitation(t *testing.T) {
	omega := math.Sqrt(400e3 / 1200)
	for _, c := range []struct {
		cite, name string
		mass, rate float64
		zeta, r    float64 // ratio of frequencies
		road, want float64 // m
		tolerance  float64 // as printed, and what the tire gives
	}{
		{"V-13", "Rao, 20 km/h", 3, 1000, 0.5, 0.3188, 0.01, 0.011009, 5e-6},
		{"V-14", "Rao, 100 km/h", 3, 1000, 0.5, 29.08 / omega, 0.01, 0.0085, 1e-4},
		{"V-03", "Meriam and Kraige", 2.5, 1500, 0, 50 / math.Sqrt(600), 0.002, 0.000632, 1.5e-6},
	} {
		t.Run(c.name, func(t *testing.T) {
			register.Cite(t, c.cite)
			v := base(t, units.Mass(c.mass), units.Stiffness(c.rate), func(s *Spec) {
				s.Damper = linear(2 * c.zeta * math.Sqrt(c.mass*c.rate))
			})
			hz := units.Frequency(c.r * math.Sqrt(c.rate/c.mass) / (2 * math.Pi))
			r, err := v.Response(hz, units.Length(c.road))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "by balance", r.Body*c.road, c.want, c.tolerance)
			if c.zeta == 0 {
				near(t, "phase", math.Abs(r.BodyPhase.In(units.Degree)), 180, 0.01) // the tire has some damping
				return                                                              // its start never dies away
			}
			s, err := v.SteppedSine(context.Background(), hz, units.Length(c.road))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "by its motion", s.Body*c.road, c.want, c.tolerance)
			near(t, "phase", float64(s.BodyPhase), float64(r.BodyPhase), 1e-4)
		})
	}
}

// Both masses against the closed form of the quarter vehicle, as printed in texts on
// vehicle dynamics with r = ω/ω₀ for a damper c beside k and an undamped tire:
//
//	X_s/Y = k_t·√(k² + (cω)²)/|D|     D = (k − m_sω² + icω)(k_t − m_uω²) − m_sω²(k + icω)
func TestQuarterVehicle(t *testing.T) {
	const ms, mu, k, kt, c = 60.0, 12.0, 8000.0, 120e3, 700.0
	v := base(t, ms, k, func(s *Spec) { s.Unsprung, s.Tire, s.Damper = mu, Tire{Stiffness: kt}, linear(c) })
	for _, hz := range []units.Frequency{0.5, 1.7, 4, 9, 16, 30} {
		w := 2 * math.Pi * float64(hz)
		fork := complex(k, c*w)
		d := (complex(k-ms*w*w, c*w))*complex(kt-mu*w*w, 0) - complex(ms*w*w, 0)*fork
		want := kt * math.Hypot(k, c*w) / math.Hypot(real(d), imag(d))
		r, err := v.Response(hz, 1*units.Millimeter)
		s, err2 := v.SteppedSine(context.Background(), hz, 1*units.Millimeter)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		near(t, "balance at "+hz.String(), r.Body, want, 1e-9*want)
		near(t, "motion at "+hz.String(), s.Body, want, 2e-5*max(want, 0.1))
	}
	// The natural frequencies are where the undamped response has its poles.
	a := base(t, ms, k, func(s *Spec) { s.Unsprung, s.Tire = mu, Tire{Stiffness: kt} })
	p, q := ms*mu, ms*(k+kt)+mu*k
	for _, sign := range []float64{-1, 1} {
		pole := math.Sqrt((q+sign*math.Sqrt(q*q-4*p*k*kt))/(2*p)) / (2 * math.Pi)
		below, _ := a.Response(units.Frequency(pole*0.999), 0.01*units.Millimeter)
		above, _ := a.Response(units.Frequency(pole*1.001), 0.01*units.Millimeter)
		if below.Wheel < 20 || above.Wheel < 20 || math.Abs(float64(below.WheelPhase-above.WheelPhase)) < 3 {
			t.Errorf("no resonance at %.3f Hz: wheel %v and %v", pole, below.Wheel, above.Wheel)
		}
	}
}

// free lets the body go from a travel above its rest, the wheel on rigid ground.
func free(t *testing.T, v *Vehicle, above, seconds float64) *runner {
	t.Helper()
	s, _ := Settings{Rate: 2000 * units.Hertz}.complete()
	r, err := v.start(Course{Duration: units.Time(seconds)}, s)
	if err != nil {
		t.Fatal(err)
	}
	y := r.solver.State()
	y[body] += above
	if err := r.resume(y); err != nil {
		t.Fatal(err)
	}
	r.Samples = r.Samples[:0]
	r.sample(0, y)
	if err := r.integrate(context.Background()); err != nil {
		t.Fatal(err)
	}
	return r
}

// OpenStax College Physics, example of friction that takes up the energy of a spring: 0.200
// kg on 50 N/m with 0.157 N of friction from 0.100 m goes 1.59 m in all. The path depends
// on the friction over the rate alone; the mass here holds the spring at half its travel.
// The exact stop lies in the band and not at rest, which the source leaves out: both
// round to 1.59 m. Each turn is 2·F/k short of the last.
func TestCoulombDecay(t *testing.T) {
	register.Cite(t, "V-18")
	const k, f = 500.0, 1.57
	v := base(t, 10, k, nil)
	v.spec.Fork, _ = setup.New(setup.Spec{Travel: 400 * units.Millimeter, Closed: v.spec.Fork.Ambient(), Friction: f,
		Left: setup.Leg{Springs: []spring.Spec{spring.CoilSpec{Rate: k}}}})
	r := free(t, v, 0.1, 40)
	var path float64
	var turns []float64
	inward := false
	for i, p := range r.Samples[1:] {
		path += math.Abs(float64(p.Travel - r.Samples[i].Travel))
		switch moves := math.Abs(float64(p.Velocity)) > 1e-9; { // it may be held for a moment as it turns
		case moves && i > 0 && inward != (p.Velocity > 0):
			turns = append(turns, math.Abs(float64(r.Samples[i].Travel-v.sag)))
			fallthrough
		case moves:
			inward = p.Velocity > 0
		}
	}
	near(t, "path", path, 1.59, 0.005)
	for i, turn := range turns[:10] {
		// Sampled, a turn is missed by up to half a sample.
		near(t, "turn", turn, 0.1-2*f/k*float64(i+1), 3e-5)
	}
	if last := r.Samples[len(r.Samples)-1]; math.Abs(float64(last.Velocity)) > 1e-12 ||
		math.Abs(float64(last.Travel-v.sag)) > f/k {
		t.Errorf("at the end %v from rest at %v", last.Travel-v.sag, last.Velocity)
	}
}

// orifice resists with the square of the speed.
type orifice float64

func (c orifice) Force(v units.Speed) units.Force {
	return units.Force(float64(c) * float64(v) * math.Abs(float64(v)))
}
func (c orifice) Coefficient(v units.Speed) units.DampingRate {
	return units.DampingRate(float64(c) * math.Abs(float64(v)))
}

// A mass on a spring with a square-law damper has a first integral: turns x₁ and x₂ on
// either side of rest obey (1 − 2βx₂)·e^(2βx₂) = (1 + 2βx₁)·e^(−2βx₁) with β = c/m.
func TestQuadraticDamping(t *testing.T) {
	const m, c = 10.0, 40.0
	v := base(t, m, 500, func(s *Spec) { s.Damper = orifice(c) })
	r := free(t, v, 0.15, 4)
	const beta = c / m
	last, checked := 0.15, 0
	for i, p := range r.Samples[2:] {
		before := r.Samples[i+1]
		if (p.Velocity > 0) == (before.Velocity > 0) {
			continue
		}
		// The turn lies where the speed crosses zero between two samples.
		share := float64(before.Velocity / (before.Velocity - p.Velocity))
		turn := math.Abs(float64(before.Travel-v.sag) + 0.5*share*float64(before.Velocity)/2000)
		left := (1 - 2*beta*turn) * math.Exp(2*beta*turn)
		near(t, "first integral", left, (1+2*beta*last)*math.Exp(-2*beta*last), 2.5e-4) // k/k_t of the ground
		last = turn
		checked++
	}
	if checked < 3 {
		t.Fatalf("%d turns", checked)
	}
}
