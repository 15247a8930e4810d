package helical

import (
	"math"

	"example.org/forkcurve/units"
)

// Bergstrasser is K_B = (4·C + 2)/(4·C − 3), which corrects the shear stress at
// the inside of the coil for direct shear and curvature. It equals the factor
// (C + 0.5)/(C − 0.75) of EN 13906-1. C is the index.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-5).
func Bergstrasser(index float64) float64 { return (4*index + 2) / (4*index - 3) }

// Wahl is K_W = (4·C − 1)/(4·C − 4) + 0.615/C, the older form of the same
// correction, 0.7 % to 1.4 % above Bergstrasser. It already holds the direct shear.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-4).
func Wahl(index float64) float64 { return (4*index-1)/(4*index-4) + 0.615/index }

// DirectShear is K_s = 1 + 1/(2·C): direct shear without curvature.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-3).
func DirectShear(index float64) float64 { return 1 + 1/(2*index) }

// ShearStress is the nominal stress τ = 8·F·D/(π·d³), the one that EN 13906-1
// compares with StaticLimit.
func (s Spring) ShearStress(f units.Force) units.Stress {
	return units.Stress(8 * float64(f) * float64(s.mean) / (math.Pi * pow3(float64(s.wire))))
}

// CorrectedStress is Bergstrasser·ShearStress, the one that fatigue and yield see.
func (s Spring) CorrectedStress(f units.Force) units.Stress {
	return units.Stress(Bergstrasser(s.Index())) * s.ShearStress(f)
}

// TensileStrength is Rm, the least that the wire of this diameter has.
func (s Spring) TensileStrength() units.Stress { return s.tensile }

// StaticLimit is 0.56·Rm, the most nominal ShearStress of a cold-coiled spring
// when fully compressed. The rule is one for steel; other wire is held to it too.
//
// Source: EN 13906-1, from memory.
func (s Spring) StaticLimit() units.Stress { return 0.56 * s.tensile }

// TorsionalYield is the yield stress in torsion with the set not removed, the
// material's YieldRatio times Rm. CorrectedStress compares with it.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., Table 10-6, from memory.
func (s Spring) TorsionalYield() units.Stress {
	return units.Stress(s.material.YieldRatio()) * s.tensile
}

// StaticFactor is StaticLimit over the nominal ShearStress, at least 1 at the
// longest deflection that happens. +Inf without load.
func (s Spring) StaticFactor(f units.Force) float64 {
	return float64(s.StaticLimit() / s.ShearStress(f))
}

// YieldFactor is TorsionalYield over CorrectedStress. +Inf without load.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., section 10-6.
func (s Spring) YieldFactor(f units.Force) float64 {
	return float64(s.TorsionalYield() / s.CorrectedStress(f))
}

// SolidFactor is YieldFactor with the coils touching. At 1.2 or more the spring
// may be closed without taking a set. Below that it must never be closed, unless
// its maker pressed it solid and so raised its yield to 0.65 to 0.75 of the
// tensile strength, as is done to highly stressed fork springs (common practice).
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-21), ns ≥ 1.2.
func (s Spring) SolidFactor() float64 { return s.YieldFactor(s.SolidForce()) }
