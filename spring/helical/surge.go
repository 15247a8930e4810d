package helical

import (
	"math"

	"example.org/forkcurve/units"
)

// ActiveMass is the mass of the coils that move, ρ·(π·d²/4)·π·D·Na.
func (s Spring) ActiveMass() units.Mass {
	section := math.Pi / 4 * float64(s.wire) * float64(s.wire)
	return units.Mass(float64(s.material.Density()) * section * math.Pi * float64(s.mean) * s.active)
}

// SurgeFrequency is the lowest frequency at which a wave runs up and down the
// spring between two seats, f = ½·√(k/m) with m the ActiveMass. Higher ones are its multiples.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-25).
func (s Spring) SurgeFrequency() units.Frequency {
	return units.Frequency(math.Sqrt(float64(s.rate)/float64(s.ActiveMass())) / 2)
}
