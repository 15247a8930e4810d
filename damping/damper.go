package damping

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Damper is a force against speed along the fork axis, positive in compression. Implementations are immutable, safe
// for concurrent use and allocate nothing. For |v| up to [MaxSpeed]
//
//	Force(v) resists the motion: it has the sign of v, Force(0) = 0
//	Coefficient(v) = Force(v)/v, and at rest its value at [RestSpeed]
//
// Oil dampers and tables never fall with v; friction does.
type Damper interface {
	Force(v units.Speed) units.Force             // resists compression
	Coefficient(v units.Speed) units.DampingRate // of the linear damper with the same force at v
}

// Speeds that bound the models.
const (
	MaxSpeed  = 20 * units.MeterPerSecond        // far above any landing
	RestSpeed = 1e-3 * units.MillimeterPerSecond // below which a coefficient no longer follows v
)

// coefficient is F/v, near rest that at RestSpeed.
func coefficient[D Damper](d D, v units.Speed) units.DampingRate {
	if math.Abs(float64(v)) < float64(RestSpeed) {
		v = RestSpeed
	}
	return units.DampingRate(float64(d.Force(v)) / float64(v))
}

// checkDamper reports one that is nil.
func checkDamper(f *check.Faults, d Damper) bool {
	if d == nil {
		f.Report("d", "nil", "a damper", "")
	}
	return d != nil
}

// SpeedAt is the speed at which a damper resists with a force, of the sign of the force: how fast a spring that pushes
// with it returns. A force that the damper does not reach up to [MaxSpeed] is a *[units.RangeError]. Where the damper
// falls with speed, as friction does, it is one of several.
func SpeedAt(d Damper, force units.Force) (units.Speed, error) {
	f := check.Of("SpeedAt")
	if !checkDamper(f, d) {
		return 0, f.Err()
	}
	most := d.Force(units.Speed(math.Copysign(float64(MaxSpeed), float64(force))))
	if !(math.Abs(float64(force)) <= math.Abs(float64(most))) {
		return 0, &units.RangeError{Field: "SpeedAt.force", Value: force, Want: fmt.Sprintf("up to %.6g", most)}
	}
	sign := math.Copysign(1, float64(force))
	return units.Speed(sign * increasing(func(v float64) float64 {
		return sign * float64(d.Force(units.Speed(sign*v))-force)
	}, 0, float64(MaxSpeed))), nil
}

// Linear is a damper whose force is proportional to speed, F = c·v.
type Linear units.DampingRate

// Force is c·v.
func (c Linear) Force(v units.Speed) units.Force { return units.Force(float64(c) * float64(v)) }

// Coefficient is c.
func (c Linear) Coefficient(units.Speed) units.DampingRate { return units.DampingRate(c) }

// Fade is the part of its force at a speed that a damper loses with each kelvin from warm to hot, ln(F/F_hot)/rise:
// 0.2 % where valves do not care for viscosity, 2 % at worst (from memory).
func Fade(warm, hot Damper, v units.Speed, rise units.TemperatureDifference) units.Share {
	return units.Share(math.Log(float64(warm.Force(v)/hot.Force(v))) / float64(rise))
}

// Sum is what dampers do together that share their speed: both legs, or oil
// and friction. Nil dampers are left out; nothing in it resists nothing.
func Sum(dampers ...Damper) Damper {
	var s sum
	for _, d := range dampers {
		switch d := d.(type) {
		case nil:
		case sum:
			s = append(s, d...)
		default:
			s = append(s, d)
		}
	}
	if len(s) == 1 {
		return s[0]
	}
	return s
}

type sum []Damper

func (s sum) Force(v units.Speed) units.Force {
	var total units.Force
	for _, d := range s {
		total += d.Force(v)
	}
	return total
}

func (s sum) Coefficient(v units.Speed) units.DampingRate {
	var total units.DampingRate
	for _, d := range s {
		total += d.Coefficient(v)
	}
	return total
}
