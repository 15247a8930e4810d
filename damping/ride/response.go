package ride

import (
	"context"
	"fmt"
	"math"
	"math/cmplx"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Response is how the vehicle answers a road of sine waves once it has settled into them.
// The phases are those by which it leads the road, −180° to 180°.
type Response struct {
	Frequency units.Frequency // of the waves
	Road      units.Length    // half the height of the waves

	Body, Wheel           float64      // amplitude over that of the road: the transmissibilities
	BodyPhase, WheelPhase units.Angle  // by which they lead the road, −180° to 180°
	Travel                units.Length // amplitude of the fork
	Tire                  units.Force  // amplitude of the load on the ground about its mean
	Stuck                 bool         // friction holds the fork, which then moves as one piece

	Stiffness units.Stiffness   // of the fork along its axis at that amplitude, in phase with travel
	Damping   units.DampingRate // of the fork along its axis, all that is in phase with its speed
}

// Response by harmonic balance: the springs and the gas at the exponent of the frequency, the
// gas's heat loss, the damper and the friction are each replaced by the linear element
// that gives the same fundamental force at the amplitude of travel,
//
//	k = 1/(πX)·∮F(x₀ + X·sin φ)·sin φ dφ      c = 1/(πωX)·∮F_d(ωX·cos φ)·cos φ dφ      c_f = 4·F_c/(πωX)
//
// with the tire always on the ground, and a port that the fork has passed at its sag. Frequencies
// of 0.05 Hz to 60 Hz and roads of 10 µm to 0.5 m.
func (v *Vehicle) Response(frequency units.Frequency, road units.Length) (Response, error) {
	if err := waves("Response", frequency, road); err != nil {
		return Response{}, err
	}
	b, err := v.balance(frequency)
	if err != nil {
		return Response{}, err
	}
	// The road that moves the fork by X grows with X: find the X of this road.
	needs := func(x float64) float64 { return x / cmplx.Abs(b.travel(b.axial(x))) }
	lo, hi := 1e-9, float64(v.spec.Fork.Travel())
	r := float64(road)
	if needs(lo) >= r {
		out := b.response(road, complex(math.Inf(1), 0))
		out.Stuck = true
		return out, nil
	}
	for range 80 {
		if mid := math.Sqrt(lo * hi); needs(mid) < r {
			lo = mid
		} else {
			hi = mid
		}
	}
	return b.response(road, b.axial(lo)), nil
}

// waves checks a road of sine waves.
func waves(of string, frequency units.Frequency, road units.Length) error {
	f := check.Of(of)
	check.Between(f, "frequency", frequency, 0.05*units.Hertz, 60*units.Hertz)
	check.Between(f, "road", road, 0.01*units.Millimeter, 0.5*units.Meter)
	return f.Err()
}

// balance is the vehicle at one frequency.
type balance struct {
	v         *Vehicle
	frequency units.Frequency
	omega     float64
	curve     spring.Curve // about sag, with stops
	loss      float64      // stiffness of the gas out of phase, N/m
}

func (v *Vehicle) balance(frequency units.Frequency) (balance, error) {
	b := balance{v: v, frequency: frequency, omega: 2 * math.Pi * float64(frequency)}
	exchange := v.spec.Exchange
	b.curve = spring.WithStops(v.spec.Fork.CurveAbout(v.sag, exchange.Exponent(frequency)), v.spec.Stops.TopOut,
		v.spec.Stops.Bottom)
	if err := spring.Err(b.curve); err != nil {
		return b, err
	}
	spaces, err := v.spec.Fork.Spaces(v.sag, gas.Isothermal)
	if err != nil {
		return b, err
	}
	// The stiffness out of phase is (γ−1)·ωτ/(1+ω²τ²) times that at rest.
	turn := b.omega * float64(exchange.TimeConstant)
	b.loss = stiffness(spaces) * (gas.Adiabatic - 1) * turn / (1 + turn*turn)
	return b, nil
}

// stiffness is that of the gas at rest, p·A²/V of what is one gas: a floating piston off its stop has the same
// pressure on both sides, and both chambers move as one.
func stiffness(spaces []setup.Space) (sum float64) {
	for i, s := range spaces {
		p, area, volume := s.Gas.Pressure.In(units.Pascal), float64(s.Area), s.Gas.Volume
		if i+1 < len(spaces) && spaces[i+1].Chamber == setup.Second &&
			spaces[i+1].Gas.Pressure.In(units.Pascal) <= p*(1+1e-9) {
			volume += spaces[i+1].Gas.Volume
		}
		sum += p * area * area / float64(volume)
	}
	return sum
}

// axial is the complex stiffness of the fork along its axis at an amplitude of travel.
func (b balance) axial(x float64) complex128 {
	const n = 64
	sag, friction := float64(b.v.sag), float64(b.v.spec.Fork.Friction())
	var k, c float64
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / n)
		k += float64(b.curve.Force(units.Length(sag+x*sin))) * sin
		if d := b.v.spec.Damper; d != nil {
			c += float64(d.Force(units.Speed(b.omega*x*cos))) * cos
		}
	}
	return complex(k*2/(n*x), c*2/(n*x)+4*friction/(math.Pi*x)+b.loss)
}

// solve is the motion of body and wheel for a road of height 1.
func (b balance) solve(axial complex128) (body, wheel complex128) {
	s := b.v.spec
	w2, cos := complex(b.omega*b.omega, 0), math.Cos(float64(s.Rake))
	tire := complex(float64(s.Tire.Stiffness), b.omega*float64(s.Tire.Damping))
	sprung, unsprung := complex(float64(s.Sprung), 0), complex(float64(s.Unsprung), 0)
	if cmplx.IsInf(axial) {
		one := tire / (tire - (sprung+unsprung)*w2)
		return one, one
	}
	k := axial / complex(cos*cos, 0)
	// The fork carries the body: k·(wheel − body) = −m·ω²·body.
	ratio := k / (k - sprung*w2) // body over wheel
	wheel = tire / (tire + k*(1-ratio) - unsprung*w2)
	return ratio * wheel, wheel
}

// travel of the fork for a road of height 1.
func (b balance) travel(axial complex128) complex128 {
	body, wheel := b.solve(axial)
	return (wheel - body) / complex(math.Cos(float64(b.v.spec.Rake)), 0)
}

func (b balance) response(road units.Length, axial complex128) Response {
	body, wheel := b.solve(axial)
	tire := complex(float64(b.v.spec.Tire.Stiffness), b.omega*float64(b.v.spec.Tire.Damping))
	r := Response{Frequency: b.frequency, Road: road, Body: cmplx.Abs(body), Wheel: cmplx.Abs(wheel),
		BodyPhase: units.Angle(cmplx.Phase(body)), WheelPhase: units.Angle(cmplx.Phase(wheel)),
		Tire: units.Force(cmplx.Abs(tire*(1-wheel)) * float64(road))}
	if !cmplx.IsInf(axial) {
		r.Travel = units.Length(cmplx.Abs(b.travel(axial))) * road
		r.Stiffness, r.Damping = units.Stiffness(real(axial)), units.DampingRate(imag(axial)/b.omega)
	}
	return r
}

// SteppedSine is the same answer from the motion itself: the vehicle is driven until it
// has settled, and the fundamental of the last cycles is read. What the tire does in the
// air, the stops and every other bend are in it. Frequencies and roads as for Response.
func (v *Vehicle) SteppedSine(ctx context.Context, frequency units.Frequency, road units.Length) (Response, error) {
	if err := waves("SteppedSine", frequency, road); err != nil {
		return Response{}, err
	}
	const settling, read = 30, 10 // cycles
	period := 1 / float64(frequency)
	c := Course{Name: fmt.Sprintf("sine at %.2f", frequency), Duration: units.Time((settling + read) * period),
		Road: Sine{Amplitude: road, Frequency: frequency}}
	const perCycle = 64
	r, err := v.Run(ctx, c, Settings{Rate: min(max(perCycle*frequency, 20*units.Hertz), 20_000*units.Hertz)})
	if err != nil {
		return Response{}, err
	}
	omega := 2 * math.Pi * float64(frequency)
	fundamental := func(of func(Sample) float64) complex128 {
		var sum complex128
		var n int
		for _, s := range r.Samples {
			if float64(s.Time) >= settling*period && float64(s.Time) < (settling+read)*period-1e-9 {
				sum += complex(of(s), 0) * cmplx.Exp(complex(0, -omega*float64(s.Time)))
				n++
			}
		}
		return sum * complex(2/float64(n), 0) * complex(0, 1) // against a sine
	}
	cos := math.Cos(float64(v.spec.Rake))
	body := fundamental(func(s Sample) float64 { return float64(s.Body) })
	travel := fundamental(func(s Sample) float64 { return float64(s.Travel) })
	wheel := body + travel*complex(cos, 0)
	force := fundamental(func(s Sample) float64 { return float64(s.Force) })
	out := Response{Frequency: frequency, Road: road, Travel: units.Length(cmplx.Abs(travel)),
		Body: cmplx.Abs(body) / float64(road), BodyPhase: units.Angle(cmplx.Phase(body)),
		Wheel: cmplx.Abs(wheel) / float64(road), WheelPhase: units.Angle(cmplx.Phase(wheel)),
		Tire: units.Force(cmplx.Abs(fundamental(func(s Sample) float64 { return float64(s.Tire) })))}
	if out.Travel < 1*units.Micrometer {
		out.Stuck = true
		return out, nil
	}
	axial := force / travel
	out.Stiffness, out.Damping = units.Stiffness(real(axial)), units.DampingRate(imag(axial)/omega)
	return out, nil
}
