package helical

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"example.org/forkcurve/units"
)

// Strength is the tensile strength of a wire against its diameter d: thin wire is
// stronger. It is one of
//
//	a power law        At1mm/(d/1 mm)^Exponent; with exponent 0 the same for all
//	a logarithmic law  At1mm − LossPerDecade·log10(d/1 mm)
//	a table            Steps
//
// as PowerLaw, LogLaw and StepTable make it. The zero value is no strength and is
// refused by NewMaterial.
type Strength struct {
	Thinnest, Thickest units.Length
	At1mm              units.Stress // of a law
	Exponent           float64      // of a power law
	LossPerDecade      units.Stress // of a logarithmic law
	Steps              []StrengthStep
}

// StrengthStep says that wire no thicker than UpTo (and thicker than the step
// before) has at least the tensile strength Rm.
type StrengthStep struct {
	UpTo units.Length
	Rm   units.Stress
}

// PowerLaw is Rm = a/(d/1 mm)^m for wire from lo to hi; with m = 0 it is the same for all.
//
// Source: Shigley, Mechanical Engineering Design, 9th ed., equation (10-14).
func PowerLaw(a units.Stress, m float64, lo, hi units.Length) Strength {
	return Strength{Thinnest: lo, Thickest: hi, At1mm: a, Exponent: m}
}

// LogLaw is Rm = a − b·log10(d/1 mm) for wire from lo to hi, the form that
// underlies the table of patented drawn wire in EN 10270-1 (from memory).
func LogLaw(a, b units.Stress, lo, hi units.Length) Strength {
	return Strength{Thinnest: lo, Thickest: hi, At1mm: a, LossPerDecade: b}
}

// StepTable is a table of minimum strengths by diameter band, for wire from lo
// to the last step. The steps must rise in UpTo; they are copied.
func StepTable(lo units.Length, steps ...StrengthStep) Strength {
	s := Strength{Thinnest: lo, Steps: slices.Clone(steps)}
	if n := len(steps); n > 0 {
		s.Thickest = steps[n-1].UpTo
	}
	return s
}

// Equal reports whether both give the same strength at every diameter.
func (s Strength) Equal(o Strength) bool { return reflect.DeepEqual(s, o) }

// rounding lets 4.5 mm, computed, fall into the band that 4.5 mm, read, ends.
const rounding = 1e-9

// at is the strength of wire d, NaN outside lo to hi.
func (s *Strength) at(d units.Length) units.Stress {
	if !(s.Thinnest > 0 && d >= s.Thinnest*(1-rounding) && d <= s.Thickest*(1+rounding)) {
		return units.Stress(math.NaN())
	}
	switch {
	case s.LossPerDecade != 0:
		return s.At1mm - s.LossPerDecade*units.Stress(math.Log10(d.In(units.Millimeter)))
	case len(s.Steps) == 0:
		return s.At1mm * units.Stress(math.Pow(d.In(units.Millimeter), -s.Exponent))
	}
	for _, step := range s.Steps {
		if d <= step.UpTo*(1+rounding) {
			return step.Rm
		}
	}
	return units.Stress(math.NaN())
}

// fault says what is wrong with the strength, or "".
func (s *Strength) fault() string {
	const least, most = 100 * units.Megapascal, 5000 * units.Megapascal
	switch law := s.At1mm != 0; {
	case law == (len(s.Steps) > 0), s.Exponent != 0 && s.LossPerDecade != 0, !law && (s.Exponent != 0 || s.LossPerDecade != 0):
		return "a strength from PowerLaw, LogLaw or StepTable"
	}
	if !(s.Thinnest > 0 && s.Thickest >= s.Thinnest) || math.IsInf(float64(s.Thickest), 0) {
		return "wire diameters above zero, in rising order"
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
	for _, d := range []units.Length{s.Thinnest, s.Thickest} {
		if rm := s.at(d); !(rm >= least && rm <= most) {
			return "strengths of 100 MPa to 5000 MPa over its whole range"
		}
	}
	return ""
}

// wires is the range of diameters in words.
func (s *Strength) wires() string {
	return fmt.Sprintf("%g mm to %g mm", round3(s.Thinnest.In(units.Millimeter)), round3(s.Thickest.In(units.Millimeter)))
}

func round3(x float64) float64 { return math.Round(x*1e3) / 1e3 }
