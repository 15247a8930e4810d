package main

import (
	"example.org/forkcurve/spring"
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/data"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// temperatures of the oil: a winter start, the workshop, a hard ride.
var temperatures = []float64{-5, 20, 60} // °C

const warm = 1 // index of the one at which clicks, ratios and shares are compared

const (
	rideExponent = 1.3                        // of the gas in the springs, usual for a ridden fork
	slow         = 0.1 * units.MeterPerSecond // at which clicks are compared
	fast         = 0.5 * units.MeterPerSecond

	// The leg as a warm lump: a closed cartridge's oil, the tubes around it, and
	// air that moves past. From memory.
	oilMass    = 0.17 * units.Kilogram
	tubeMass   = 0.5 * units.Kilogram
	tubeHeat   = 900 // J/(kg·K), aluminum
	loss       = 2   // W/K
	lap        = 20 * units.Minute
	lightest   = 30 * units.Kilogram // machines below are bicycles
	heavyPower = 150 * units.Watt
	lightPower = 50 * units.Watt
)

// state is the damper with its oil at one temperature.
type state struct {
	celsius   float64
	viscosity units.KinematicViscosity
	leg       *cartridge
	fork      damping.Damper // all legs with a damper
}

// job is a fork on the invented damper.
type job struct {
	fork                 data.Fork
	fluid                data.Fluid
	oil                  oil.Fluid
	rebound, compression int
	legs                 int // with a damper
	states               []state

	sag    setup.Sag
	load   geometry.Load
	mass   units.Mass
	rate   units.Stiffness // about the sag
	body   damping.Oscillator
	change change

	power   units.Power // of the fork, as heat
	warming damping.Warming
}

// change is another spring and what it asks of the rebound needle.
type change struct {
	percent            float64
	what               string
	oldRate, newRate   units.Stiffness // about the sag of each
	depth              units.Length
	oldForce, newForce units.Force
	common, own        damping.Rebound // in usual clicks, in those of this damper at low speed
	slow, fast         float64         // share of the rebound force that one click changes
	settings           [2]setting      // for both bounds
}

// setting is the adjuster position that comes nearest to a factor.
type setting struct {
	factor, reached float64
	out             int
}

func newJob(fork data.Fork, fluid data.Fluid, rebound, compression int, percent float64, power units.Power) (*job, error) {
	j := &job{fork: fork, fluid: fluid, rebound: rebound, compression: compression, power: power}
	for _, leg := range []data.Leg{fork.Left, fork.Right} {
		switch leg.Role {
		case data.DamperLeg, data.CoilDamperLeg, data.AirDamperLeg:
			j.legs++
		}
	}
	if j.legs == 0 {
		return nil, fmt.Errorf("fork %s has no leg with a damper", fork.ID)
	}
	var err error
	if j.oil, err = fluid.Oil(); err != nil {
		return nil, err
	}
	for _, t := range temperatures {
		s, err := j.at(t)
		if err != nil {
			return nil, err
		}
		j.states = append(j.states, s)
	}
	if err := j.onFork(percent); err != nil {
		return nil, err
	}
	if j.power == 0 {
		j.power = heavyPower
		if fork.Chassis.Mass.Value < lightest {
			j.power = lightPower
		}
	}
	j.warming, err = damping.NewWarming(damping.WarmingSpec{Oil: oilMass, OilHeat: damping.OilHeat, Tube: tubeMass, TubeHeat: tubeHeat, Loss: loss})
	return j, err
}

// at is the damper with its oil at a temperature.
func (j *job) at(celsius float64) (state, error) {
	t := units.Celsius(celsius)
	o, err := damping.At(j.oil, t)
	if err != nil {
		return state{}, fmt.Errorf("oil %s at %.0f °C: %w", j.fluid.ID, celsius, err)
	}
	leg, err := build(j.rebound, j.compression, o)
	if err != nil {
		return state{}, err
	}
	return state{celsius, j.oil.Viscosity(t), leg, j.together(leg)}, nil
}

// together is that cartridge in every leg with a damper.
func (j *job) together(leg *cartridge) damping.Damper {
	if j.legs == 2 {
		return damping.Sum(leg, leg)
	}
	return leg
}

// onFork puts the body on the fork, and then on another spring.
func (j *job) onFork(percent float64) error {
	air, err := gas.StandardAt(0, units.Celsius(temperatures[warm]))
	if err != nil {
		return err
	}
	spec := j.fork.Spec(air)
	now, err := setup.New(spec)
	if err != nil {
		return err
	}
	j.load = j.fork.Chassis.Geometry().RiddenLoad(j.fork.Rider.Mass.Value)
	if j.sag, j.rate, err = about(now, j.load); err != nil {
		return err
	}
	cos := math.Cos(float64(j.fork.Chassis.Rake.Value))
	j.mass = units.Mass(float64(j.load.Sprung) / float64(units.StandardGravity) * cos * cos)
	j.body, err = damping.NewOscillator(damping.OscillatorSpec{Stiffness: j.rate, Mass: j.mass})
	if err != nil {
		return err
	}

	c := change{percent: percent, oldRate: j.rate}
	next, err := setup.New(stiffer(spec, 1+percent/100))
	if err != nil {
		return fmt.Errorf("-stiffer: %w", err)
	}
	if _, c.newRate, err = about(next, j.load); err != nil {
		return fmt.Errorf("-stiffer: %w", err)
	}
	c.what = "coils"
	if j.fork.Spring() == data.AirLeg {
		c.what = "air pressure"
	}
	before, after := now.Curve(rideExponent), next.Curve(rideExponent)
	c.depth = min(units.Length(conversion.ReboundDepth)*now.Travel(), before.Stroke(), after.Stroke())
	c.oldForce, c.newForce = before.Force(c.depth), after.Force(c.depth)
	j.change = c
	return j.needle()
}

// about is where a fork settles and its rate there, ridden.
func about(s *setup.Setup, load geometry.Load) (setup.Sag, units.Stiffness, error) {
	sag, err := s.Sag(load.Axial)
	if err != nil {
		return setup.Sag{}, 0, err
	}
	return sag, s.CurveAbout(sag.Middle, rideExponent).Rate(sag.Middle), nil
}

// stiffer is the fork with every main spring so many times as stiff.
func stiffer(s setup.Spec, times float64) setup.Spec {
	for _, leg := range []*setup.Leg{&s.Left, &s.Right} {
		leg.Springs = slices.Clone(leg.Springs)
		for i, spec := range leg.Springs {
			if main, ok := spec.(spring.Adjustable); ok {
				leg.Springs[i] = main.Adjusted(times, 0)
			}
		}
		if leg.Air != nil {
			air := *leg.Air
			scale := func(g units.GaugePressure) units.GaugePressure {
				return units.Gauge(units.Pressure(times * g.In(units.Pascal)))
			}
			air.Fill.Gauge, air.NegativeGauge, air.SecondGauge = scale(air.Fill.Gauge), scale(air.NegativeGauge), scale(air.SecondGauge)
			leg.Air = &air
		}
	}
	return s
}

// needle finds what a click of the rebound needle does, and where both bounds
// lie on it.
func (j *job) needle() error {
	c := &j.change
	force := func(out int, v units.Speed) (float64, error) {
		leg, err := build(out, j.compression, j.states[warm].leg.oil)
		if err != nil {
			return 0, err
		}
		return float64(-leg.Force(-v)), nil
	}
	perClick := func(v units.Speed) (float64, error) {
		in, out := max(j.rebound-1, 0), min(j.rebound+1, clicks)
		firm, err := force(in, v)
		if err != nil {
			return 0, err
		}
		soft, err := force(out, v)
		return math.Log(firm/soft) / float64(out-in), err
	}
	var err error
	if c.slow, err = perClick(slow); err != nil {
		return err
	}
	if c.fast, err = perClick(fast); err != nil {
		return err
	}
	spec := damping.ReboundSpec{OldRate: c.oldRate, NewRate: c.newRate, OldForce: c.oldForce, NewForce: c.newForce, PerClick: damping.CommonClick}
	if c.common, err = damping.NewRebound(spec); err != nil {
		return err
	}
	spec.PerClick = math.Expm1(c.slow)
	if c.own, err = damping.NewRebound(spec); err != nil {
		return err
	}
	present, err := force(j.rebound, slow)
	if err != nil {
		return err
	}
	few, most := c.own.Factors()
	for i, factor := range []float64{few, most} {
		best := setting{factor: factor, reached: math.Inf(1)}
		for out := range clicks + 1 {
			f, err := force(out, slow)
			if err != nil {
				return err
			}
			if math.Abs(f/present-factor) < math.Abs(best.reached-factor) {
				best.reached, best.out = f/present, out
			}
		}
		c.settings[i] = best
	}
	return nil
}

// onset is the least speed at which something happens that goes on above it; false
// where it does not up to the greatest speed.
func onset(happens func(v units.Speed) bool) (units.Speed, bool) {
	lo, hi := units.Speed(0), damping.MaxSpeed
	if !happens(hi) {
		return hi, false
	}
	for hi-lo > 1*units.MillimeterPerSecond {
		if mid := (lo + hi) / 2; happens(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, true
}

// cavitation is the speed from which a room of the cartridge is at vacuum, in
// compression (sign +1) or rebound (−1).
func (c *cartridge) cavitation(sign units.Speed) (units.Speed, bool) {
	return onset(func(v units.Speed) bool { return c.Cavitates(sign * v) })
}

// discharged is the same cartridge with another pressure behind its base valve.
func (c *cartridge) discharged(p units.AbsolutePressure) (*cartridge, error) {
	d := *c
	var err error
	d.Cartridge, err = newCartridge(&d, p)
	return &d, err
}

// overLift is the speed at which shims lift by their thickness, from where a real
// stack is stiffer than computed.
func (c *cartridge) overLift(s stack) (units.Speed, bool) {
	return onset(func(v units.Speed) bool {
		p := network(s.valve).Drop(units.Flow(float64(s.sign*v)*float64(s.area)), c.oil)
		return s.shims.Lift(units.Pressure(s.sign)*p) > s.thickness
	})
}

// share is what one part adds to the force of a leg.
type share struct {
	name  string
	force units.Force // magnitude
}

// shares splits the force at a speed by where the oil loses its pressure. A part
// that passes q at a drop Δp turns Δp·q into heat, and all of them together F·v;
// so Δp·q/v is its part of the force. The speed must be below cavitation.
func (c *cartridge) shares(v units.Speed) []share {
	var all []share
	for _, side := range []struct {
		parts []part
		area  units.Area
	}{{c.base, rodArea}, {c.piston, ring}} {
		p := network(side.parts).Drop(units.Flow(float64(side.area)*float64(v)), c.oil)
		for _, part := range side.parts {
			q := part.valve.Flow(p, c.oil)
			all = append(all, share{part.name, units.Force(math.Abs(float64(p) * float64(q) / float64(v)))})
		}
	}
	return all
}

// meanRatio is the damping ratio averaged over a range of speeds.
func (j *job) meanRatio(d damping.Damper, from, to units.Speed) float64 {
	const n = 60
	sum := 0.0
	for i := range n {
		sum += j.body.Ratio(d, from+(to-from)*(units.Speed(i)+0.5)/n)
	}
	return sum / n
}

// bleedFlow is what passes the bore in the base at a speed of compression.
func (c *cartridge) bleedFlow(v units.Speed) units.Flow {
	p := network(c.base).Drop(units.Flow(float64(rodArea)*float64(v)), c.oil)
	return c.base[bleedAt].valve.Flow(p, c.oil)
}
