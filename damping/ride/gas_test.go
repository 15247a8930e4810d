package ride

import (
	"context"
	"math"
	"testing"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// onAir is a body on one gas space whose wall has the time constant.
func onAir(t *testing.T, tau units.Time, friction units.Force) *Vehicle {
	t.Helper()
	room := gas.Ambient{Temperature: units.Celsius(20), Pressure: units.Absolute(1 * units.Bar)}
	f, err := setup.New(setup.Spec{Travel: 200 * units.Millimeter, Closed: room, Friction: friction,
		Left: setup.Leg{Air: &setup.Air{Bore: 40 * units.Millimeter, Volume: 330 * units.Milliliter,
			Fill: gas.Fill{Gauge: units.Gauge(3 * units.Bar), Ambient: room}}}})
	if err != nil {
		t.Fatal(err)
	}
	return base(t, 50, 1000, func(s *Spec) {
		s.Fork, s.Damper, s.Exchange = f, linear(300), gas.Exchange{TimeConstant: tau}
	})
}

// Gas in a fork that is held closes the gap to its wall as e^(−t/τ), the law of gas.Exchange.
func TestGasCools(t *testing.T) {
	const tau, warmer = 0.7, 30.0
	v := onAir(t, tau, 300)
	s, _ := Settings{}.complete()
	r, err := v.start(Course{Duration: 2}, s)
	if err != nil {
		t.Fatal(err)
	}
	y := r.solver.State()
	y[r.m.gas] += warmer
	if err := r.resume(y); err != nil {
		t.Fatal(err)
	}
	if err := r.integrate(context.Background()); err != nil {
		t.Fatal(err)
	}
	wall := v.spec.Fork.Ambient().Temperature.Kelvin()
	for _, p := range r.Samples[1:] {
		near(t, "gas warmer by, K", p.GasTemperature.Kelvin()-wall, warmer*math.Exp(-float64(p.Time)/tau), 1e-4)
	}
	heat := 2.5 * 4e5 * 330e-6 / wall * warmer * (1 - math.Exp(-2/tau)) // N·c_v·ΔT
	near(t, "heat into the wall, J", float64(r.Energy.Gas), heat, 1e-4*heat)
	if s := r.Summary().Travel; !(s.Most-s.Least <= 1e-9) {
		t.Errorf("the fork was not held: it went from %v to %v", s.Least, s.Most)
	}
}

// Small waves meet the stiffness that gas.Exchange gives in closed form, in phase and out.
func TestGasAgainstExchange(t *testing.T) {
	for _, tau := range []units.Time{0.02, 0.08, 0.5} {
		v := onAir(t, tau, 0)
		const f = 2 * units.Hertz
		r, err := v.SteppedSine(context.Background(), f, 0.5*units.Millimeter)
		if err != nil {
			t.Fatal(err)
		}
		atRest := float64(v.spec.Fork.Curve(gas.Isothermal).Rate(v.sag))
		n, loss := v.spec.Exchange.Exponent(f), v.spec.Exchange.LossFactor(f)
		near(t, "in phase, N/m", float64(r.Stiffness), atRest*n, 1e-3*atRest)
		out := (float64(r.Damping) - 300) * 2 * math.Pi * float64(f)
		near(t, "out of phase, N/m", out, atRest*n*loss, 1e-3*atRest)
	}
}
