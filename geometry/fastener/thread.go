package fastener

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Thread is a 60° thread with its friction, from which a nut factor follows:
//
//	K·d = d₂/2·(tan λ + μ·sec 30°)/(1 − μ·tan λ·sec 30°) + μ_h·d_h/2
//	d₂ = d − 0.6495·P         tan λ = P/(π·d₂)
//
// Source: Mechanical Engineering Design, 9th edition, equations 8-26 and 8-27.
type Thread struct {
	Diameter units.Length // d, nominal, 2 mm to 40 mm
	Pitch    units.Length // P, 0.2 mm to 5 mm and up to a quarter of Diameter
	Bearing  units.Length // d_h, mean diameter of the seat under head or nut, Diameter to 3·Diameter; 0: 1.25·Diameter

	Friction     float64 // μ in the thread, 0.02 to 0.5
	HeadFriction float64 // μ_h under head or nut, 0.02 to 0.5
}

// Validate reports every field out of range.
func (t Thread) Validate() error {
	f := check.Of("Thread")
	if check.Between(f, "Diameter", t.Diameter, 2*units.Millimeter, 40*units.Millimeter) {
		check.Between(f, "Pitch", t.Pitch, 0.2*units.Millimeter, min(5*units.Millimeter, t.Diameter/4))
		if t.Bearing != 0 {
			check.Between(f, "Bearing", t.Bearing, t.Diameter, 3*t.Diameter)
		}
	}
	check.Between(f, "Friction", t.Friction, 0.02, 0.5)
	check.Between(f, "HeadFriction", t.HeadFriction, 0.02, 0.5)
	return f.Err()
}

// NutFactor is K of the thread; use it as Bolt.NutFactor.
func (t Thread) NutFactor() float64 {
	d, p := float64(t.Diameter), float64(t.Pitch)
	mean := d - 3*math.Sqrt(3)/8*p
	lead := p / (math.Pi * mean)
	flank := t.Friction / math.Cos(math.Pi/6)
	head := float64(t.Bearing)
	if head == 0 {
		head = 1.25 * d
	}
	return (mean*(lead+flank)/(1-flank*lead) + t.HeadFriction*head) / (2 * d)
}
