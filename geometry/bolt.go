package geometry

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Nut factors by the condition of the thread, from J. E. Shigley, R. G. Budynas
// and J. K. Nisbett, Mechanical Engineering Design, 9th edition, Table 8-15.
const (
	NutFactorBlack      = 0.30 // not plated, black finish
	NutFactorZinc       = 0.20
	NutFactorLubricated = 0.18
	NutFactorCadmium    = 0.16
)

// Relative standard deviation of the preload that one torque gives, for bolts of
// one lot: of 20 dry and 10 lubricated ones tightened to 90 N·m, same book,
// Tables 8-13 and 8-14.
const (
	ScatterDry        = 0.143
	ScatterLubricated = 0.084
)

// Bolt is a threaded fastener by its nut factor:
//
//	torque = K·d·preload
//
// K belongs to the lubrication and the surfaces, not to the bolt: the torque
// for a dry thread put on a lubricated one stretches it by K_dry/K_lubricated, up
// to 1.7 times as far. The torque that a manual states holds for the
// condition it states.
type Bolt struct {
	Diameter  units.Length // nominal, 2 mm to 40 mm
	NutFactor float64      // K, 0.05 to 0.5
}

// Validate reports every field out of range.
func (b Bolt) Validate() error {
	f := check.Of("Bolt")
	check.Between(f, "Diameter", b.Diameter, 2*units.Millimeter, 40*units.Millimeter)
	check.Between(f, "NutFactor", b.NutFactor, 0.05, 0.5)
	return f.Err()
}

// Torque that tightens the bolt to a preload.
func (b Bolt) Torque(preload units.Force) units.Torque {
	return units.Torque(b.NutFactor * float64(b.Diameter) * float64(preload))
}

// Preload that a torque gives, on average; see [ScatterDry].
func (b Bolt) Preload(torque units.Torque) units.Force {
	return units.Force(float64(torque) / (b.NutFactor * float64(b.Diameter)))
}

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
