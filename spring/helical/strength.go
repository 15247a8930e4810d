package helical

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"example.org/forkcurve/units"
)

// Strength is the tensile strength of a wire against its diameter: thin wire is
// stronger. Make one with PowerLaw, LogLaw or StepTable. The
// zero value is no strength and is refused by NewMaterial.
type Strength struct {
	lo, hi units.Length
	law    strengthLaw
	a      units.Stress
	m      float64 // exponent of the power law, or pascals per decade of the log law
	steps  []StrengthStep
}

type strengthLaw uint8

const (
	noLaw strengthLaw = iota
	powerLaw
	logLaw
	stepLaw
)

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
	return Strength{lo: lo, hi: hi, law: powerLaw, a: a, m: m}
}

// LogLaw is Rm = a − b·log10(d/1 mm) for wire from lo to hi, the form that
// underlies the table of patented drawn wire in EN 10270-1 (from memory).
func LogLaw(a, b units.Stress, lo, hi units.Length) Strength {
	return Strength{lo: lo, hi: hi, law: logLaw, a: a, m: float64(b)}
}

// StepTable is a table of minimum strengths by diameter band, for wire from lo
// to the last step. The steps must rise in UpTo; they are copied.
func StepTable(lo units.Length, steps ...StrengthStep) Strength {
	s := Strength{lo: lo, law: stepLaw, steps: slices.Clone(steps)}
	if n := len(steps); n > 0 {
		s.hi = steps[n-1].UpTo
	}
	return s
}

// Equal reports whether both give the same strength at every diameter.
func (s Strength) Equal(o Strength) bool { return reflect.DeepEqual(s, o) }

// rounding lets 4.5 mm, computed, fall into the band that 4.5 mm, read, ends.
const rounding = 1e-9

// at is the strength of wire d, NaN outside lo to hi.
func (s *Strength) at(d units.Length) units.Stress {
	if !(d >= s.lo*(1-rounding) && d <= s.hi*(1+rounding)) {
		return units.Stress(math.NaN())
	}
	switch s.law {
	case powerLaw:
		return s.a * units.Stress(math.Pow(d.In(units.Millimeter), -s.m))
	case logLaw:
		return s.a - units.Stress(s.m*math.Log10(d.In(units.Millimeter)))
	}
	for _, step := range s.steps {
		if d <= step.UpTo*(1+rounding) {
			return step.Rm
		}
	}
	return units.Stress(math.NaN())
}

// fault says what is wrong with the strength, or "".
func (s *Strength) fault() string {
	const least, most = 100 * units.Megapascal, 5000 * units.Megapascal
	if s.law == noLaw {
		return "a strength from PowerLaw, LogLaw or StepTable"
	}
	if !(s.lo > 0 && s.hi >= s.lo) || math.IsInf(float64(s.hi), 0) {
		return "wire diameters above zero, in rising order"
	}
	last := s.lo
	for i, step := range s.steps {
		if !(step.UpTo >= last) || i > 0 && step.UpTo == last {
			return "steps in rising order of diameter"
		}
		last = step.UpTo
		if !(step.Rm >= least && step.Rm <= most) {
			return "strengths of 100 MPa to 5000 MPa"
		}
	}
	for _, d := range []units.Length{s.lo, s.hi} {
		if rm := s.at(d); !(rm >= least && rm <= most) {
			return "strengths of 100 MPa to 5000 MPa over its whole range"
		}
	}
	return ""
}

// wires is the range of diameters in words.
func (s *Strength) wires() string {
	return fmt.Sprintf("%g mm to %g mm", round3(s.lo.In(units.Millimeter)), round3(s.hi.In(units.Millimeter)))
}

func round3(x float64) float64 { return math.Round(x*1e3) / 1e3 }
