package helical

import (
	"math"

	"example.org/forkcurve/internal/enum"
	"example.org/forkcurve/units"
)

// Surface is the treatment of the coiled spring. Fork springs are shot-peened
// as a rule (common practice, no source).
type Surface int

const (
	Unpeened Surface = iota // as coiled
	Peened                  // shot-peened after coiling
)

var surfaces = enum.Names[Surface]{Unpeened: "unpeened", Peened: "peened"}

// String is "unpeened" or "peened".
func (surface Surface) String() string { return surfaces.String(surface) }

// MarshalText writes the name.
func (surface Surface) MarshalText() ([]byte, error) { return surfaces.Marshal(surface) }

// UnmarshalText reads a name.
func (surface *Surface) UnmarshalText(text []byte) error { return surfaces.Unmarshal(text, surface) }

// Fatigue is how a load cycle compares with endless life.
type Fatigue struct {
	Amplitude units.Stress // τa, half the range of the corrected stress
	Mean      units.Stress // τm, middle of the corrected stress
	Goodman   float64      // factor by the Goodman line
	Gerber    float64      // factor by the Gerber parabola
}

// torsionalStrength over tensile strength: Shigley, equation (10-30).
const torsionalStrength = 0.67

const kpsi = 1000 * units.Stress(units.PSI)

// maxFatigueWire is 3/8 in, up to which the Zimmerli data hold.
const maxFatigueWire = 0.375 * units.Inch

// endurance is an amplitude that never broke a spring, at the mean it was tested at.
//
// Source: F. P. Zimmerli, Human Failures in Spring Applications, 1957, as given
// in kpsi by Shigley, Mechanical Engineering Design, 9th ed., equations (10-28)
// and (10-29). The book's 398 MPa beside 57.5 kpsi is a slip: it is 396 MPa.
func (surface Surface) endurance() (amplitude, mean units.Stress) {
	switch surface {
	case Unpeened:
		return 35 * kpsi, 55 * kpsi
	case Peened:
		return 57.5 * kpsi, 77.5 * kpsi
	}
	return units.Stress(math.NaN()), units.Stress(math.NaN())
}

// Fatigue compares a cycle between two forces with the Zimmerli data for
// endless life of spring steel, the load growing in proportion:
//
//	τa = K_B·8·Fa·D/(π·d³)    τm = K_B·8·Fm·D/(π·d³)    Ssu = 0.67·Rm
//	Goodman: Se = Ssa/(1 − Ssm/Ssu)       1/n = τa/Se + τm/Ssu
//	Gerber:  Se = Ssa/(1 − (Ssm/Ssu)²)    n·τa/Se + (n·τm/Ssu)² = 1
//
// Line and parabola both go through the tested point and part away from it:
// heed the smaller. Ssa = 35 kpsi (241 MPa) and Ssm = 55 kpsi (379 MPa)
// unpeened, 57.5 kpsi (396 MPa) and 77.5 kpsi (534 MPa) peened. The factors are
// NaN for wire over 3/8 in, for a material that is not SpringSteel or is too weak
// (Ssu ≤ Ssm), and unless 0 ≤ least ≤ most; a cycle of no range and no load gives
// +Inf.
//
// A fork seldom meets its full stroke, so a factor below 1 at full stroke is
// not a fault by itself; below 1 over the everyday stroke it is.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., section 10-9 and Table 6-7.
func (s Spring) Fatigue(least, most units.Force, surface Surface) Fatigue {
	if !(least >= 0 && most >= least) {
		return Fatigue{units.Stress(math.NaN()), units.Stress(math.NaN()), math.NaN(), math.NaN()}
	}
	f := Fatigue{
		Amplitude: s.CorrectedStress((most - least) / 2),
		Mean:      s.CorrectedStress((most + least) / 2),
		Goodman:   math.NaN(),
		Gerber:    math.NaN(),
	}
	ssa, ssm := surface.endurance()
	ssu := torsionalStrength * s.tensile
	if !s.material.get().SpringSteel || s.wire > maxFatigueWire || !(ssm < ssu) {
		return f
	}
	ratio := float64(ssm / ssu)
	a, m := float64(f.Amplitude/ssa), float64(f.Mean/ssu)
	f.Goodman = 1 / (a*(1-ratio) + m)
	// The positive root of (m·n)² + A·n − 1, in the form that keeps its digits when m is small.
	A := a * (1 - ratio*ratio)
	f.Gerber = 2 / (A + math.Sqrt(A*A+4*m*m))
	return f
}
