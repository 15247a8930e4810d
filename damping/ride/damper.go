package ride

import (
	"math"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Damping ratios of forks about sag where nothing better is known, to ±50 % (from memory:
// rebound two to three times compression, their mean 0.3 to 0.7).
const (
	UsualCompression = 0.25
	UsualRebound     = 0.60
)

// ByRatio is a damper that gives a vehicle those damping ratios about its sag, 0 to 3, with
// forces proportional to speed in each direction. A damper of a fork at hand has a
// curve of its own; this one stands in for it, and the same one in two forks leaves what
// their springs do.
func (v *Vehicle) ByRatio(compression, rebound float64) (damping.Damper, error) {
	f := check.Of("ByRatio")
	check.Between(f, "compression", compression, 0, 3)
	check.Between(f, "rebound", rebound, 0, 3)
	if err := f.Err(); err != nil {
		return nil, err
	}
	body, err := damping.NewOscillator(v.Body())
	if err != nil {
		return nil, err
	}
	critical := body.Critical()
	return twoWay{in: critical * units.DampingRate(compression), out: critical * units.DampingRate(rebound)}, nil
}

// Body is the front of the body on its fork about sag, along the fork axis, the gas as ridden.
func (v *Vehicle) Body() damping.OscillatorSpec {
	s, cos := v.spec, math.Cos(float64(v.spec.Rake))
	return damping.OscillatorSpec{Stiffness: s.Fork.CurveAbout(v.sag, gas.Ridden).Rate(v.sag),
		Mass: s.Sprung * units.Mass(cos*cos)}
}

// twoWay is one rate in compression and another in extension.
type twoWay struct{ in, out units.DampingRate }

func (d twoWay) Coefficient(v units.Speed) units.DampingRate {
	if v < 0 {
		return d.out
	}
	return d.in
}

func (d twoWay) Force(v units.Speed) units.Force {
	return units.Force(float64(d.Coefficient(v)) * float64(v))
}
