package helical

import (
	"fmt"
	"math"

	"example.org/forkcurve/units"
)

// Strength is the tensile strength of a wire against its diameter d from Thinnest to
// Thickest: thin wire is stronger. It is a table of minima by diameter band or, without
// Steps,
//
//	Rm = At1mm·(d/1 mm)^(−Exponent) − LossPerDecade·log10(d/1 mm)
//
// ASTM wire is told by the exponent (Shigley, Mechanical Engineering Design, 9th ed.,
// equation (10-14)); the loss per decade underlies the table of patented drawn wire in
// EN 10270-1 (from memory).
type Strength struct {
	Thinnest, Thickest units.Length   // wire that it holds for
	At1mm              units.Stress   // Rm of wire of 1 mm
	Exponent           float64        // 0: none
	LossPerDecade      units.Stress   // 0: none
	Steps              []StrengthStep // in rising order, the last at Thickest
}

// StrengthStep says that wire no thicker than UpTo (and thicker than the step
// before) has at least the tensile strength Rm.
type StrengthStep struct {
	UpTo units.Length // diameter of wire, that one included
	Rm   units.Stress // least tensile strength
}

// rounding lets 4.5 mm, computed, fall into the band that 4.5 mm, read, ends.
const rounding = 1e-9

// at is the strength of wire d, NaN outside its range.
func (s *Strength) at(d units.Length) units.Stress {
	if !(s.Thinnest > 0 && d >= s.Thinnest*(1-rounding) && d <= s.Thickest*(1+rounding)) {
		return units.Stress(math.NaN())
	}
	for _, step := range s.Steps {
		if d <= step.UpTo*(1+rounding) {
			return step.Rm
		}
	}
	return s.At1mm*units.Stress(math.Pow(d.In(mm), -s.Exponent)) - s.LossPerDecade*units.Stress(math.Log10(d.In(mm)))
}

// fault says what is wrong with the strength, or "".
func (s *Strength) fault() string {
	const least, most = 100 * units.Megapascal, 5000 * units.Megapascal
	if !(s.Thinnest > 0 && s.Thickest >= s.Thinnest) || math.IsInf(float64(s.Thickest), 0) {
		return "wire diameters above zero, in rising order"
	}
	if len(s.Steps) > 0 && (s.At1mm != 0 || s.Exponent != 0 || s.LossPerDecade != 0) {
		return "either steps or a law, not both"
	}
	last := s.Thinnest
	for i, step := range s.Steps {
		if !(step.UpTo >= last) || i > 0 && step.UpTo == last {
			return "steps in rising order of diameter"
		}
		last = step.UpTo
		if !(step.Rm >= least && step.Rm <= most) {
			return "strengths of 100 MPa to 5000 MPa"
		}
	}
	if len(s.Steps) > 0 && last != s.Thickest {
		return "a last step at the thickest wire"
	}
	for _, d := range []units.Length{s.Thinnest, s.Thickest} {
		if rm := s.at(d); !(rm >= least && rm <= most) {
			return "strengths of 100 MPa to 5000 MPa over its whole range"
		}
	}
	return ""
}

// wires is the range of diameters in words.
func (s *Strength) wires() string { return fmt.Sprintf("%.4g to %.4g", s.Thinnest, s.Thickest) }
