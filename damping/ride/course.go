package ride

import (
	"math"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Course is what the wheel meets, and how long. Its road begins at height 0.
type Course struct {
	Name     string
	Duration units.Time // 10 ms to 1 h

	Road    Road                           // nil: level ground
	Braking func(t units.Time) units.Force // at the contact patch; nil: none

	// In the air at the start, fork extended, wheel above the road by Height, 0 to 10 m,
	// and sinking, 0 to 15 m/s. Both zero: at rest on the ground.
	Height  units.Length
	Sinking units.Speed
}

// Road is the height of the ground under the wheel over time, and its slope in time.
type Road interface {
	At(t units.Time) (height units.Length, speed units.Speed)
	Corners() []units.Time // times at which the slope jumps
}

// excitation is what the road does at one moment, m, m/s and N.
type excitation struct{ height, speed, brake float64 }

func (c Course) airborne() bool { return c.Height != 0 || c.Sinking != 0 }

func (c Course) check() error {
	f := check.Of("Course")
	check.Between(f, "Duration", c.Duration, 0.01*units.Second, units.Hour)
	check.Between(f, "Height", c.Height, 0, 10*units.Meter)
	check.Between(f, "Sinking", c.Sinking, 0, 15*units.MeterPerSecond)
	return f.Err()
}

func (c Course) at(t float64) excitation {
	var e excitation
	if c.Road != nil {
		h, v := c.Road.At(units.Time(t))
		e.height, e.speed = float64(h), float64(v)
	}
	if c.Braking != nil {
		e.brake = float64(c.Braking(units.Time(t)))
	}
	return e
}

// breaks are the corners within the course, in order.
func (c Course) breaks() []float64 {
	var list []float64
	if c.Road != nil {
		for _, t := range c.Road.Corners() {
			if t > 0 && t < c.Duration {
				list = append(list, float64(t))
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// Sine is a road of sine waves from a time on, fading in over the first one so that its
// slope has no corner.
type Sine struct {
	Amplitude units.Length
	Frequency units.Frequency
	Start     units.Time
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
	// A raised cosine weighs the first wave.
	half, slope := math.Sincos(phase / 4)
	weight, rise := half*half, half*slope/2*w
	return s.Amplitude * units.Length(weight*sin), units.Speed(float64(s.Amplitude) * (weight*w*cos + rise*sin))
}

// Corners has none.
func (Sine) Corners() []units.Time { return nil }
