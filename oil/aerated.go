package oil

import (
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// AeratedSpec is oil with air bubbles in it, not counting dissolved air.
type AeratedSpec struct {
	// of the oil alone, 0.5 GPa to 4 GPa; 1.5 GPa is typical of fork oil (from memory)
	BulkModulus units.Stress
	Air         units.Share            // of the volume at Pressure, 0 to 50 %
	Pressure    units.AbsolutePressure // 0.1 bar to 100 bar absolute, usually that of the ambient
	Exponent    float64                // of the air, 1 to 5/3: 1 slow, 1.4 fast
}

// Aerated is oil with air bubbles in it.
type Aerated struct{ modulus, air, pressure, exponent float64 }

// NewAerated checks the specification.
func NewAerated(s AeratedSpec) (Aerated, error) {
	f := check.Of("AeratedSpec")
	check.Between(f, "BulkModulus", s.BulkModulus, 0.5*units.Gigapascal, 4*units.Gigapascal)
	check.Between(f, "Air", s.Air, 0, 0.5)
	check.Absolute(f, "Pressure", s.Pressure, 0.1*units.Bar, 100*units.Bar)
	check.Between(f, "Exponent", s.Exponent, 1, 5.0/3)
	if err := f.Err(); err != nil {
		return Aerated{}, err
	}
	return Aerated{modulus: float64(s.BulkModulus), air: float64(s.Air), pressure: s.Pressure.In(units.Pascal),
		exponent: s.Exponent}, nil
}

// BulkModulus is the tangent bulk modulus −V·dp/dV at p, for 0.1 bar to 1000 bar
// absolute. At the pressure of the specification it is that of
//
//	1/K = α/(n·p) + (1 − α)/K_oil
//
// and with the pressure the bubbles shrink.
func (a Aerated) BulkModulus(p units.AbsolutePressure) units.Stress {
	oil, air := a.volumes(p)
	return units.Stress((oil + air) / (oil/a.modulus + air/(a.exponent*p.In(units.Pascal))))
}

// Compress is the volume at p of what was v at the pressure of the specification, for 0.1 bar to 1000 bar absolute.
func (a Aerated) Compress(v units.Volume, p units.AbsolutePressure) units.Volume {
	oil, air := a.volumes(p)
	return v * units.Volume(oil+air)
}

// volumes of oil and air at p, of a whole that was 1.
func (a Aerated) volumes(p units.AbsolutePressure) (oil, air float64) {
	pa := p.In(units.Pascal)
	return (1 - a.air) * math.Exp(-(pa-a.pressure)/a.modulus), a.air * math.Pow(a.pressure/pa, 1/a.exponent)
}
