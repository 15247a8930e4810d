package fastener

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Nut factors by the condition of the thread, from J. E. Shigley, R. G. Budynas and J. K. Nisbett, Mechanical
// Engineering Design, 9th edition, Table 8-15.
const (
	NutFactorBlack      = 0.30 // not plated, black finish
	NutFactorZinc       = 0.20
	NutFactorLubricated = 0.18
	NutFactorCadmium    = 0.16
)

// Relative standard deviation of the preload that one torque gives, for bolts of one lot: of 20 dry and 10
// lubricated ones tightened to 90 N·m, same book, Tables 8-13 and 8-14.
const (
	ScatterDry        = 0.143
	ScatterLubricated = 0.084
)

// Bolt is a threaded fastener by its nut factor:
//
//	torque = K·d·preload
//
// K belongs to the lubrication and the surfaces, not to the bolt: the torque for a dry thread put on a lubricated
// one stretches it by K_dry/K_lubricated, up to 1.7 times as far. The torque that a manual states holds for the
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
