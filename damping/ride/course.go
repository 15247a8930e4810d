package ride

import (
	"math"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Course is what the wheel meets, and how long. Its road begins at height 0.
type Course struct {
	Name     string     // in words, for errors and sheets
	Duration units.Time // 10 ms to 1 h

	Road    Road    // nil: level ground
	Braking Braking // zero: none

	// In the air at the start, fork extended, wheel above the road by Height, 0 to 10 m,
	// and sinking, 0 to 15 m/s. Both zero: at rest on the ground.
	Height  units.Length
	Sinking units.Speed
}

// Road is the height of the ground under the wheel over time, and how fast it rises. It
// is safe for concurrent use.
type Road interface {
	At(t units.Time) (height units.Length, speed units.Speed)
	Corners() []units.Time // times at which the slope jumps, by rising time
}

// Braking is a force at the contact patch that grows from Start to its full value over
// Rise and goes after End.
type Braking struct {
	Force            units.Force // 0 to 10 kN
	Start, Rise, End units.Time  // after the start of the course; Rise 1 ms or more, End after both
}

func (b Braking) at(t float64) float64 {
	start, end := float64(b.Start), float64(b.End)
	if t < start || t > end {
		return 0
	}
	return float64(b.Force) * min(1, (t-start)/float64(b.Rise))
}

func (b Braking) corners() []float64 {
	if b == (Braking{}) {
		return nil
	}
	return []float64{float64(b.Start), float64(b.Start + b.Rise), float64(b.End)}
}

// excitation is what the road does at one moment, m, m/s and N.
type excitation struct{ height, speed, brake float64 }

func (c Course) airborne() bool { return c.Height != 0 || c.Sinking != 0 }

func (c Course) check() error {
	f := check.Of("Course")
	check.Between(f, "Duration", c.Duration, 0.01*units.Second, units.Hour)
	check.Between(f, "Height", c.Height, 0, 10*units.Meter)
	check.Between(f, "Sinking", c.Sinking, 0, 15*units.MeterPerSecond)
	if b := c.Braking; b != (Braking{}) {
		check.Between(f, "Braking.Force", b.Force, 0, 10*units.Kilonewton)
		start := check.Between(f, "Braking.Start", b.Start, 0, units.Hour)
		if check.Between(f, "Braking.Rise", b.Rise, 0.001*units.Second, units.Hour) && start {
			check.Between(f, "Braking.End", b.End, b.Start+b.Rise, units.Hour)
		}
	}
	if v, ok := c.Road.(interface{ validate() error }); ok {
		f.Nest("Road", v.validate())
	}
	return f.Err()
}

// ground is what a course does over time. It keeps the last moment, as a step asks several
// times for its end.
type ground struct {
	course  Course
	profile *Profile // its road, if that is one: asked without a detour
	last    float64
	now     excitation
}

func (c Course) ground() *ground {
	g := &ground{course: c, last: math.NaN()}
	if p, ok := c.Road.(Profile); ok {
		g.profile = &p
	}
	return g
}

func (g *ground) at(t float64) *excitation {
	if t == g.last {
		return &g.now
	}
	g.last = t
	if g.profile != nil {
		g.now.height, g.now.speed = g.profile.at(t)
	} else if road := g.course.Road; road != nil {
		h, v := road.At(units.Time(t))
		g.now.height, g.now.speed = float64(h), float64(v)
	}
	if g.course.Braking.Force != 0 {
		g.now.brake = g.course.Braking.at(t)
	}
	return &g.now
}

// breaks are the corners within the course, in order.
func (c Course) breaks() []float64 {
	list := c.Braking.corners()
	if c.Road != nil {
		for _, t := range c.Road.Corners() {
			list = append(list, float64(t))
		}
	}
	slices.Sort(list)
	list = slices.Compact(list)
	return slices.DeleteFunc(list, func(t float64) bool { return t <= 0 || t >= float64(c.Duration) })
}

// Sine is a road of sine waves from a time on, fading in over the first one so that its
// slope has no corner.
type Sine struct {
	Amplitude units.Length    // half the height, 0 to 1 m
	Frequency units.Frequency // 0.05 Hz to 100 Hz
	Start     units.Time      // 0 to 1 h
}

func (s Sine) validate() error {
	f := check.Of("Sine")
	check.Between(f, "Amplitude", s.Amplitude, 0, 1*units.Meter)
	check.Between(f, "Frequency", s.Frequency, 0.05*units.Hertz, 100*units.Hertz)
	check.Between(f, "Start", s.Start, 0, units.Hour)
	return f.Err()
}

// At a time.
func (s Sine) At(t units.Time) (units.Length, units.Speed) {
	w := 2 * math.Pi * float64(s.Frequency)
	phase := w * float64(t-s.Start)
	if phase <= 0 {
		return 0, 0
	}
	sin, cos := math.Sincos(phase)
	if phase >= 2*math.Pi {
		return s.Amplitude * units.Length(sin), units.Speed(float64(s.Amplitude) * w * cos)
	}
	// A squared sine weighs the first wave.
	weigh, slope := math.Sincos(phase / 4)
	weight, rise := weigh*weigh, weigh*slope/2*w
	return s.Amplitude * units.Length(weight*sin), units.Speed(float64(s.Amplitude) * (weight*w*cos + rise*sin))
}

// Corners has none.
func (Sine) Corners() []units.Time { return nil }
