// Package bath tells what the oil in both legs of a fork does at the end of the stroke: filled more or less, cold or
// warm, how far the gas over it is compressed, with what force the fork ends its travel, and where a leg locks.
//
// A leg is filled and closed cold, fork extended. When the fork warms, the oil swells into the gas, and gas and oil
// are as warm as the air is told to be: with +40 K a leg has some 3 % more oil and 14 % more pressure over it.
//
// Caution: let all gas out before a leg is opened. A leg that locks stops short under braking and bursts its seals;
// check full travel, springs out, before it is closed, and once more when it is warm.
//
// Values are immutable and safe for concurrent use.
package bath

import (
	"math"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Spec is a fork and the oil in its legs.
type Spec struct {
	Fork     setup.Spec  // each leg with gas over its oil, or with an air spring that is that gas
	Fills    [2]oil.Fill // left and right, cold
	Oil      oil.Fluid   // of which the expansion counts
	Exponent float64     // of the gas in a landing, 1 to 5/3
}

// Bath is the oil of a fork.
type Bath struct {
	spec Spec
	gaps [2]oil.AirGapSpec // as closed cold; their Residual is not used
}

// New checks that each leg has gas and oil, and that the fork can be built around them.
func New(s Spec) (Bath, error) {
	f := check.Of("Spec")
	check.Between(f, "Exponent", s.Exponent, 1, 5.0/3)
	b := Bath{spec: s}
	for i, l := range []setup.Leg{s.Fork.Left, s.Fork.Right} {
		side, ambient := [2]string{"Left", "Right"}[i], s.Fork.Closed.Pressure
		gap := oil.AirGapSpec{Travel: s.Fork.Travel, Ambient: ambient, Exponent: s.Exponent}
		switch {
		case l.Gap != nil:
			gap.Area, gap.Pressure = l.Gap.Area, l.Gap.Gauge.Absolute(ambient)
		case l.Air != nil:
			gap.Area = geometry.Circle(l.Air.Bore) - geometry.Circle(l.Air.Rod)
			gap.Pressure = l.Air.Fill.Gauge.Absolute(ambient)
		default:
			f.Report("Fork."+side, "no gas", "gas over the oil, or an air spring", "")
		}
		if s.Fills[i] == (oil.Fill{}) {
			f.Report("Fills["+side+"]", "no oil", "a fill from oil.NewFill", "")
		}
		b.gaps[i] = gap
	}
	if err := f.Err(); err != nil {
		return Bath{}, err
	}
	_, err := b.End(0, s.Fork.Closed)
	return b, err
}

// Gap is the gas of a leg as it was closed.
func (b Bath) Gap(side setup.Side) oil.AirGapSpec {
	s := b.gaps[side]
	s.Residual = b.spec.Fills[side].Residual()
	return s
}

// End is a fork at the end of its stroke.
type End struct {
	Fills    [2]oil.Fill    // as filled cold
	Ratio    float64        // of compression, in the leg where it is higher
	Pressure units.Pressure // over ambient, of the gas there
	Locked   bool           // that leg, or the other, stands on its oil before the end of the travel
	Curve    spring.Curve   // of the whole fork in a landing, up to the end or the lock; nil: an air spring that locks
}

// Force is that of the whole fork at a share of its travel, or at its lock where that comes first; 0 where an air
// spring locks.
func (e End) Force(x units.Length) units.Force {
	if e.Curve == nil {
		return 0
	}
	return e.Curve.Force(min(x, e.Curve.Stroke()))
}

// End is the fork with more oil in each leg, or less, in an air as warm as all of it.
func (b Bath) End(more units.Volume, air gas.Ambient) (End, error) {
	var e End
	fork, cold := b.spec.Fork, b.spec.Fork.Closed
	whole := false
	for i, leg := range []*setup.Leg{&fork.Left, &fork.Right} {
		fill, err := b.spec.Fills[i].With(b.spec.Fills[i].Metal(), b.spec.Fills[i].Volume()+more)
		if err != nil {
			return e, err
		}
		sealed := fill.Sealed(b.gaps[i], b.spec.Oil, cold.Temperature, air.Temperature)
		gap, err := oil.NewAirGap(sealed)
		if err != nil {
			return e, err
		}
		_, locks := gap.Locks()
		e.Fills[i], e.Locked = fill, e.Locked || locks
		if r := gap.CompressionRatio(); r > e.Ratio {
			e.Ratio, e.Pressure = r, gap.Pressure(gap.Stroke()).Sub(cold.Pressure)
		}
		// The fork is built cold around the room that the warm oil leaves, and warms with its gas.
		p, err := gas.State{Pressure: sealed.Pressure, Volume: gap.Volume(0),
			Temperature: air.Temperature}.Heat(cold.Temperature)
		if err != nil {
			return e, err
		}
		gauge := p.Pressure.Gauge(cold.Pressure)
		if leg.Gap != nil {
			leg.Gap = &setup.Gap{Area: sealed.Area, Residual: sealed.Residual, Gauge: gauge}
			continue
		}
		refilled := *leg.Air
		refilled.Volume, refilled.Fill.Gauge = gap.Volume(0), gauge
		leg.Air, whole = &refilled, true
	}
	if e.Locked && whole {
		return e, nil
	}
	s, err := setup.New(fork)
	if err == nil {
		s, err = s.At(air)
	}
	if err != nil {
		return e, err
	}
	e.Curve = s.Curve(b.spec.Exponent)
	return e, spring.Err(e.Curve)
}

// Room is how much more oil, measured cold, brings the first leg to a compression ratio above 1 in an air as warm as
// the fork, or with [oil.LockRatio] to its lock; below 0 where there is too much.
func (b Bath) Room(ratio float64, air gas.Ambient) units.Volume {
	most := units.Volume(math.Inf(1))
	for i, fill := range b.spec.Fills {
		full := fill.OilFor(ratio, b.gaps[i].Area, b.gaps[i].Travel)
		most = min(most, b.spec.Oil.Expand(full, air.Temperature, b.spec.Fork.Closed.Temperature)-fill.Volume())
	}
	return most
}
