package ride

import (
	"math"
	"math/rand/v2"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Class of a road by ISO 8608, A (very good) to H (very poor).
type Class byte

// ISO8608 is a random road of a class at a speed, the same for the same seed. Its heights
// have the spectral density
//
//	G_d(n) = G_d(n₀)·(n/n₀)⁻²        n₀ = 0.1 cycles/m
//
// at the geometric mean of the class, G_d(n₀) = 16·10⁻⁶ m³ for A and four times as much
// from class to class, between n = 0.011 and 2.83 cycles/m, as 512 waves of random phase. It starts level over the
// first second.
//
// Source: ISO 8608:2016, from memory.
func ISO8608(class Class, speed units.Speed, duration units.Time, seed uint64) (Profile, error) {
	f := check.Of("ISO8608")
	if class < 'A' || class > 'H' {
		f.Report("class", string(rune(class)), "A to H", "")
	}
	check.Between(f, "speed", speed, 0.5*units.MeterPerSecond, 100*units.MeterPerSecond)
	check.Between(f, "duration", duration, 0.1*units.Second, 600*units.Second)
	if err := f.Err(); err != nil {
		return Profile{}, err
	}
	const lowest, highest, n0 = 0.011, 2.83, 0.1
	density := 16e-6 * math.Pow(4, float64(class-'A'))
	r := rand.New(rand.NewPCG(seed, 0x8608))
	const waves = 512
	const step = (highest - lowest) / waves
	every := units.Time(1 / (float64(speed) * highest * 8)) // eight points on the shortest wave
	points := int(float64(duration)/float64(every)) + 2
	heights := make([]float64, points)
	for i := range waves {
		n := lowest + (float64(i)+r.Float64())*step // even steps would repeat
		amplitude := math.Sqrt(2 * density * (n0 / n) * (n0 / n) * step)
		// A wave turns by the same angle from point to point.
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		turnSin, turnCos := math.Sincos(2 * math.Pi * n * float64(speed) * float64(every))
		for k := range heights {
			heights[k] += amplitude * sin
			sin, cos = sin*turnCos+cos*turnSin, cos*turnCos-sin*turnSin
		}
	}
	list := make([]Height, points)
	for k, h := range heights {
		t := units.Time(k) * every
		weight := 1.0
		if t < 1 {
			s := math.Sin(math.Pi / 2 * float64(t))
			weight = s * s
		}
		list[k] = Height{t, units.Length(weight * h)}
	}
	return NewProfile(list, true)
}
