package bench

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// OilToMark is the oil that brings the level to a mark, fork compressed and spring out: it
// tells the interior of the leg.
type OilToMark struct {
	Side  setup.Side   // the leg
	Level units.Length // air over the oil
	Oil   units.Volume // poured in, old oil drained and wiped out
	SD    units.Volume // 4 mL is usual
}

func (r OilToMark) String() string {
	return fmt.Sprintf("oil for a level of %.0f in the %v leg", r.Level, r.Side)
}
func (r OilToMark) read() (float64, float64) { return float64(r.Oil), float64(r.SD) }
func (r OilToMark) text(v float64) string    { return as[units.Volume]("%.0f")(v) }
func (r OilToMark) slips() []string {
	return []string{"old oil left in the leg", "air under the piston: bleed it", "the other leg"}
}
func (r OilToMark) with(v float64) Reading {
	r.Oil = units.Volume(v)
	return r
}

func (r OilToMark) model(b *bench) (float64, error) {
	o := b.fork.Oil[r.Side&1]
	return float64(o.Interior) - float64(o.Column)*float64(r.Level),
		errors.Join(o.known("Interior", float64(o.Interior)), o.known("Column", float64(o.Column)))
}

// Water is what fills the empty, compressed leg to its mouth.
type Water struct {
	Side   setup.Side   // the leg
	Volume units.Volume // that goes in
	SD     units.Volume // 3 mL is usual
}

func (r Water) String() string           { return fmt.Sprintf("water in the empty %v leg", r.Side) }
func (r Water) read() (float64, float64) { return float64(r.Volume), float64(r.SD) }
func (r Water) text(v float64) string    { return as[units.Volume]("%.0f")(v) }
func (r Water) slips() []string {
	return []string{"air trapped in the leg", "the fork was not at its stop", "the other leg"}
}
func (r Water) with(v float64) Reading {
	r.Volume = units.Volume(v)
	return r
}

func (r Water) model(b *bench) (float64, error) {
	o := b.fork.Oil[r.Side&1]
	return float64(o.Interior), o.known("Interior", float64(o.Interior))
}

// Rise is by how much the level comes up as spring, spacer and guide go in: it tells their
// metal.
type Rise struct {
	Side          setup.Side   // the leg
	Before, After units.Length // air over the oil
	SD            units.Length // of the rise, 1.5 mm is usual
}

func (r Rise) String() string { return fmt.Sprintf("rise of the level in the %v leg", r.Side) }
func (r Rise) read() (float64, float64) {
	return float64(r.Before - r.After), float64(r.SD)
}
func (r Rise) text(v float64) string { return as[units.Length]("%.1f")(v) }
func (r Rise) slips() []string {
	return []string{"read on the wall, not in the middle", "the other leg"}
}
func (r Rise) with(v float64) Reading {
	r.After = r.Before - units.Length(v)
	return r
}

func (r Rise) model(b *bench) (float64, error) {
	o := b.fork.Oil[r.Side&1]
	return float64(o.Metal) / float64(o.Column),
		errors.Join(o.known("Metal", float64(o.Metal)), o.known("Column", float64(o.Column)))
}

// known is an error where the oil of a leg lacks a number that one of its readings needs.
func (o Oil) known(number string, v float64) error {
	if v > 0 {
		return nil
	}
	return &units.RangeError{Field: "Reading.Oil." + number, Value: v,
		Want: "above 0: the fork must tell it for this reading"}
}

// LeakDown is a pressure after some time.
type LeakDown struct {
	From, To units.GaugePressure // read at both ends of that time, at one temperature
	After    units.Time          // between both readings
	SD       units.Pressure      // 0.15 bar is usual, for the hose of the pump
}

func (r LeakDown) String() string {
	return fmt.Sprintf("pressure %.0f h after %.2f", float64(r.After/units.Hour), r.From)
}
func (r LeakDown) read() (float64, float64) { return r.To.In(units.Pascal), float64(r.SD) }
func (r LeakDown) text(v float64) string    { return fmt.Sprintf("%.2f", units.Gauge(units.Pressure(v))) }
func (r LeakDown) slips() []string {
	return []string{"air lost to the hose of the pump, twice", "another temperature"}
}
func (r LeakDown) with(v float64) Reading {
	r.To = units.Gauge(units.Pressure(v))
	return r
}

func (r LeakDown) model(b *bench) (float64, error) {
	if b.fork.Leak == 0 {
		return 0, &units.RangeError{Field: "LeakDown", Value: r.String(), Want: "a fork whose leak is asked for"}
	}
	return b.fork.shows(b.fork.behind(r.From).Times(math.Exp(-float64(r.After / b.fork.Leak)))), nil
}

// Bounce is the time of some cycles of the body bouncing on its fork, brake off, damper open: the
// first of a ring-down, or one.
type Bounce struct {
	Rider  units.Mass // in stance; 0: the machine alone
	Cycles int        // 0: one
	Time   units.Time // of them all
	SD     units.Time // 0.05 s is usual for a film, 0.15 s for a stopwatch
}

func (r Bounce) String() string {
	cycles := "a bounce"
	if r.Cycles > 1 {
		cycles = fmt.Sprintf("%d bounces", r.Cycles)
	}
	if r.Rider == 0 {
		return "time of " + cycles + " of the machine alone"
	}
	return fmt.Sprintf("time of %s with %.0f on", cycles, r.Rider)
}
func (r Bounce) read() (float64, float64) { return float64(r.Time), float64(r.SD) }
func (r Bounce) text(v float64) string    { return as[units.Time]("%.2f")(v) }
func (r Bounce) slips() []string {
	return []string{"the fork stuck at the turns", "the rear bounced too", "every second turn counted"}
}
func (r Bounce) with(v float64) Reading {
	r.Time = units.Time(v)
	return r
}

func (r Bounce) model(b *bench) (float64, error) {
	f, err := b.at(units.GaugePressure{})
	if err != nil {
		return 0, err
	}
	load := b.load(r.Rider)
	sag, err := f.Sag(load)
	if err != nil {
		return 0, err
	}
	cos := math.Cos(float64(b.fork.Chassis.Rake))
	mass := float64(load) / cos / float64(units.StandardGravity) * cos * cos
	c := f.CurveAbout(sag.Middle, b.fork.Exponent)
	if err := spring.Err(c); err != nil {
		return 0, err
	}
	k := float64(c.Rate(sag.Middle))
	zeta := min(b.fork.Damping, 0.99)
	return float64(max(r.Cycles, 1)) * 2 * math.Pi / (math.Sqrt(k/mass) * math.Sqrt(1-zeta*zeta)), nil
}

// Decay is how a bounce dies away: two peaks on one side, some full cycles apart.
type Decay struct {
	First, Later units.Length // of the travel, from rest, both on one side
	Cycles       int          // full ones, between them
	SD           float64      // of the logarithm of their ratio, 0.15 is usual
}

func (r Decay) String() string { return fmt.Sprintf("decay over %d cycles", r.Cycles) }
func (r Decay) read() (float64, float64) {
	return math.Log(float64(r.First / r.Later)), r.SD
}
func (r Decay) text(v float64) string { return fmt.Sprintf("ln %.2f", v) }
func (r Decay) slips() []string       { return []string{"friction stopped it", "half cycles counted"} }
func (r Decay) with(v float64) Reading {
	r.First, r.Later = units.Length(math.Exp(v)), 1
	return r
}

func (r Decay) model(b *bench) (float64, error) {
	zeta := min(b.fork.Damping, 0.999)
	return 2 * math.Pi * zeta / math.Sqrt(1-zeta*zeta) * float64(r.Cycles), nil
}

// WheelMass is that of the wheel, brake and sliding tubes together, on a scale.
type WheelMass struct{ Mass, SD units.Mass }

func (r WheelMass) String() string           { return "unsprung mass on a scale" }
func (r WheelMass) read() (float64, float64) { return float64(r.Mass), float64(r.SD) }
func (r WheelMass) text(v float64) string    { return as[units.Mass]("%.2f")(v) }
func (r WheelMass) slips() []string          { return []string{"a part was not on the scale"} }
func (r WheelMass) with(v float64) Reading {
	r.Mass = units.Mass(v)
	return r
}

func (r WheelMass) model(b *bench) (float64, error) {
	return float64(b.fork.Chassis.UnsprungMass), nil
}

// Ends are both wheels on scales, the machine alone or with its rider in stance.
type Ends struct {
	Ridden      bool        // with the rider in stance
	Front, Rear units.Mass  // under each wheel, on level ground
	SD          units.Share // of the front share, 0.7 % is usual
}

func (r Ends) String() string {
	if r.Ridden {
		return "front share with the rider on"
	}
	return "front share of the machine"
}
func (r Ends) read() (float64, float64) {
	return float64(r.Front / (r.Front + r.Rear)), float64(r.SD)
}
func (r Ends) text(v float64) string { return as[units.Share]("%.1f")(v) }
func (r Ends) slips() []string       { return []string{"one wheel stood higher", "the rider moved"} }
func (r Ends) with(v float64) Reading {
	r.Front, r.Rear = units.Mass(100*v), units.Mass(100*(1-v))
	return r
}

func (r Ends) model(b *bench) (float64, error) {
	if r.Ridden {
		return float64(b.fork.Chassis.FrontShareRidden), nil
	}
	return float64(b.fork.Chassis.FrontShare), nil
}

// Trail is that on the ground, from the steering axis to the contact patch.
type Trail struct{ Trail, SD units.Length }

func (r Trail) String() string           { return "trail on the ground" }
func (r Trail) read() (float64, float64) { return float64(r.Trail), float64(r.SD) }
func (r Trail) text(v float64) string    { return as[units.Length]("%.0f")(v) }
func (r Trail) slips() []string          { return []string{"the machine did not stand upright"} }
func (r Trail) with(v float64) Reading {
	r.Trail = units.Length(v)
	return r
}

func (r Trail) model(b *bench) (float64, error) {
	return float64(b.fork.Chassis.Trail()), nil
}
